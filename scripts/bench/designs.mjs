// Design files of square arrays, for measuring only: three kinds of making, any power of two a side.

const HEAD = (title) => `format = 1
name = "${title}"
revision = "A"
date = 2026-05-17
[band]
low = "5.725 GHz"
high = "5.875 GHz"
[targets]
vswr = 2
polarisation = "vertical"
[coax]
stock = "semi-rigid-141"
connector = "n-plug-cable"
length = "250 mm"
`;

const LATTICE = (n) => `[lattice]
rows = ${n}
columns = ${n}
${n > 1 ? 'row_pitch = "44 mm"\ncolumn_pitch = "44 mm"\n' : ''}orientation = "vertical"
`;

/** From the coax outward, rows and columns in turn: two levels for each doubling of the side. */
const levelsOf = (n, level) =>
  Array.from({ length: 2 * Math.log2(n) }, (_, i) =>
    ['[[harness.level]]', `joins = "${i % 2 === 0 ? 'rows' : 'columns'}"`, ...level, ''].join('\n'),
  ).join('');

const LAYER = (name, shape, spacer, process) => `[[layer]]
name = "${name}"
${shape}
sheet = "brass-0.5"
spacer = "${spacer}"
process = "${process}"
`;

const HARDWARE = `[hardware]
thread = "M3"
screw = "m3-pan-6-brass"
nut = "m3-nut-brass"
`;

const SHEET_REFLECTOR = (process) => `[reflector]
size = "minimum"
sheet = "brass-1.0"
corner_radius = "4 mm"
mounting_holes = { diameter = "4.5 mm", inset = "8 mm" }
process = "${process}"
`;

/** Without a harness the coax comes up at the feed: nearer the edge, so that it stays clear of the nut. */
const PROBE = (n, pinMm) => {
  const diameter = n > 1 ? pinMm : 0.92;
  return `[feed]
kind = "probe"
from_edge = "${n > 1 ? 4 : 2.5} mm"
probe_diameter = "${diameter} mm"
solder_hole = "${diameter + 0.2} mm"
`;
};

const NO_HARNESS = '[harness]\nkind = "none"\n';

function rodDesign(n) {
  const harness = `[harness]
kind = "rod"
topology = "tree"
height = "2.1 mm"
rod = "brass-rod-1.5"
bend_radius = "1.5 mm"
`;
  return [
    HEAD(`rods ${n} x ${n}`),
    SHEET_REFLECTOR('hand'),
    LAYER('driven', 'shape = "rectangle"\nlength = "19.6 mm"\nwidth = "26 mm"', 'm3-mf-5-brass', 'hand'),
    LAYER('first-parasitic', 'shape = "rectangle"\nlength = "15 mm"\nwidth = "19 mm"', 'm3-mf-6-brass', 'hand'),
    LAYER('second-parasitic', 'shape = "circle"\ndiameter = "14 mm"', 'm3-mf-6-brass', 'hand'),
    PROBE(n, 1.5),
    LATTICE(n),
    n > 1 ? harness + levelsOf(n, []) : NO_HARNESS,
    HARDWARE,
  ].join('');
}

function stripDesign(n) {
  const harness = `[harness]
kind = "strip"
topology = "tree"
height = "2 mm"
sheet = "brass-0.5"
process = "laser"
`;
  return [
    HEAD(`strips ${n} x ${n}`),
    SHEET_REFLECTOR('laser'),
    LAYER('driven', 'shape = "rectangle"\nlength = "19.6 mm"\nwidth = "26 mm"', 'm3-mf-6-brass', 'laser'),
    LAYER('parasitic', 'shape = "circle"\ndiameter = "17 mm"', 'm3-mf-8-brass', 'laser'),
    PROBE(n, 1.3),
    LATTICE(n),
    n > 1 ? harness + levelsOf(n, ['width = "2 mm"']) : NO_HARNESS,
    HARDWARE,
  ].join('');
}

function etchedDesign(n) {
  const inset = '[feed]\nkind = "inset"\ndepth = "4.4 mm"\ngap = "0.6 mm"\n';
  const levels = levelsOf(n, ['width = "0.7 mm"', 'stem = "10.4 mm"']);
  const single = '[harness]\nkind = "microstrip"\nlength = "10 mm"\nwidth = "0.7 mm"\n';
  return [
    HEAD(`etched ${n} x ${n}`).replace('"n-plug-cable"\nlength = "250 mm"', '"sma-board"'),
    '[reflector]\nsize = "minimum"\nedge_margin = "20 mm"\nboard = "ptfe-glass-0.787-35"\nprocess = "etch"\n',
    '[[layer]]\nname = "driven"\nshape = "rectangle"\nlength = "16.7 mm"\nwidth = "20.5 mm"\nprocess = "etch"\n',
    inset,
    LATTICE(n),
    n > 1 ? `[harness]\nkind = "microstrip"\ntopology = "tree"\n${levels}` : single,
  ].join('');
}

/** The kinds of array that are measured: what each is, and its design file for n x n elements, n a power of two. */
export const KINDS = {
  rod: { title: 'three sheet layers, rod harness', design: rodDesign },
  strip: { title: 'two sheet layers, strip harness', design: stripDesign },
  etched: { title: 'etched patches, microstrip harness', design: etchedDesign },
};
