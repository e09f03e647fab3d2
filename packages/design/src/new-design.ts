import { type NewStack, stackParts } from './new-stack.ts';

/** What a new design file can be given at the start. */
export interface NewDesign {
  /** Name of the design; 1 to 80 printable characters, see the schema. Default `New panel`. */
  readonly name?: string | undefined;
  /** ISO date written into the file; left out when undefined. */
  readonly date?: string | undefined;
  /** What it is for and a stack to begin with. Default: two patches for 2.4 GHz. */
  readonly start?: NewStack | undefined;
}

/** A TOML basic string. JSON escapes are a subset of TOML's but for the solidus, which JSON.stringify never escapes. */
function quoted(text: string): string {
  return JSON.stringify(text).replace(/\u007f/g, '\\u007F');
}

const USUAL_PATCHES = `[[layer]]
name = "driven"              # the first layer is the driven patch
shape = "rectangle"          # or "circle" with a diameter
length = "53 mm"             # the resonant size, along the electric field
width = "60 mm"
sheet = "brass-0.5"
spacer = "m3-mf-6-brass"     # stands on the reflector; or { printed = "6 mm", outer = "8 mm" }

[[layer]]
name = "parasitic-1"         # driven by the patch below it; widens the band
shape = "rectangle"
length = "50 mm"
width = "56 mm"
sheet = "brass-0.5"
spacer = "m3-mf-6-brass"`;

const USUAL_FREE = `# [free]
# layer.driven.length = { from = "48 mm", to = "58 mm", step = "0.1 mm" }
# layer.driven.spacer = { from = "5 mm", to = "12 mm" }   # out of stock
# feed.from_edge = { from = "5 mm", to = "25 mm" }`;

const USUAL = {
  what: 'a driven patch and a parasitic patch',
  band: ['2.4 GHz', '2.4835 GHz'],
  vswr: 2,
  patches: USUAL_PATCHES,
  fromEdge: '14 mm',
  screw: 'm3-pan-6-brass',
  free: USUAL_FREE,
} as const;

/**
 * Text of a design file to start from: one element, every field explained. It reads without findings as long as the name and the
 * date do, and the stack is one that can be made. The sizes are start values; the estimate, sizing and the bench refine them.
 */
export function newDesignText({ name = 'New panel', date, start }: NewDesign = {}): string {
  const { what, band, vswr, patches, fromEdge, screw, free } = start === undefined ? USUAL : stackParts(start);
  const dateLine =
    date === undefined ? '# date = 2026-05-17        # written into the files when given' : `date = ${quoted(date)}`;
  return `# A flat panel antenna: one element, ${what} over a reflector.
# Every size carries its unit: mm, cm, m, um, in or mil; GHz or MHz; dBi; deg.
format = 1                   # version of this file format
name = ${quoted(name)}
revision = "A"               # raise it with every change you build
${dateLine}

[band]                       # the band the antenna is for
low = ${quoted(band[0])}
high = ${quoted(band[1])}

[targets]                    # what you hope for; compared with, never assumed
gain = "8 dBi"
vswr = ${String(vswr).padEnd(22)}# largest standing wave ratio over the band
polarisation = "vertical"    # electric field of the antenna as it hangs

[reflector]                  # the plate behind the patches
size = "minimum"             # or { width = "150 mm", height = "150 mm" }
sheet = "brass-1.0"          # from stock; or board = "ptfe-glass-0.787-35"
corner_radius = "4 mm"
mounting_holes = { diameter = "4.3 mm", inset = "8 mm" }
process = "hand"             # hand, laser, waterjet, mill or etch

# The patches, from the reflector outward.
${patches}

[feed]                       # how the power reaches the driven patch
kind = "probe"               # the pin of the coax, soldered into the patch
from_edge = ${quoted(fromEdge).padEnd(17)}# from the radiating edge to the centre of the pin
solder_hole = "1.2 mm"

[lattice]                    # one element; more than one needs pitches and a [harness]
rows = 1
columns = 1
orientation = "vertical"     # direction of the patches' length

[coax]                       # the cable and how it comes in
stock = "semi-rigid-141"
connector = "n-plug-cable"
length = "300 mm"            # from the reflector to the connector

[hardware]                   # what holds the stack together
thread = "M3"
fit = "medium"               # ISO 273 clearance holes: fine, medium or coarse
screw = ${quoted(screw)}
nut = "m3-nut-brass"

[print]                      # what your printer needs
process = "filament"         # or "resin"; the values below follow from it when left out
bed = ["220 mm", "220 mm"]   # no jig is made larger
hole_allowance = "0.2 mm"    # added to printed holes, which come out small
fit_clearance = "0.15 mm"    # play between a jig and what it holds
wall = "2 mm"
elephant_foot = "0.3 mm"     # how far the first layers spread: edges on the bed are bevelled
spring_back = "3 deg"        # how far a bent rod opens again: bending jigs bend by as much more

[paper]                      # what templates and drill maps are printed on
size = "a4"                  # or "letter"

# What sizing may change, and how far; what your workshop holds, for the yield:
${free}
# [tolerances]
# cut = "0.2 mm"

# Films for boards that you etch at home, and your shop's own values and stock, where they differ:
# [etch]
# measured = { x = "99.7 mm", y = "100.2 mm" }   # what the two bars of 100 mm on your last film measure
# [process.laser]
# kerf = "0.15 mm"
# [stock.sheet.my-brass]
# material = "brass"
# thickness = "0.45 mm"
`;
}
