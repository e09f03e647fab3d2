import { readDesign, renderFinding } from '@sheetwave/design';
import { type Assembly, assemble } from '@sheetwave/geometry';

/** A hand-made array: three stacked patches, rods as harness. Heights by hand: 5, 5.5, 11.5, 12, 18, 18.5 mm. */
function stackedText(rows: number, columns: number): string {
  const levels = Math.log2(rows * columns);
  const joins = Array.from({ length: levels }, (_, level) => (level % 2 === 0 ? 'rows' : 'columns'));
  return `
format = 1
name = "Heron Lock & test"
revision = "C"
[band]
low = "5.725 GHz"
high = "5.875 GHz"
[targets]
vswr = 1.5
[reflector]
size = { width = "${columns * 40 + 50} mm", height = "${rows * 40 + 45} mm" }
sheet = "brass-1.0"
corner_radius = "4 mm"
mounting_holes = { diameter = "4.5 mm", inset = "8 mm" }
process = "hand"
[[layer]]
name = "driven"
shape = "rectangle"
length = "19.6 mm"
width = "26 mm"
sheet = "brass-0.5"
spacer = "m3-mf-5-brass"
process = "hand"
[[layer]]
name = "middle"
shape = "rectangle"
length = "15 mm"
width = "19 mm"
sheet = "brass-0.5"
spacer = "m3-mf-6-brass"
process = "hand"
[[layer]]
name = "outer"
shape = "circle"
diameter = "14 mm"
sheet = "brass-0.5"
spacer = "m3-mf-6-brass"
process = "hand"
[feed]
kind = "probe"
from_edge = "4 mm"
probe_diameter = "1.5 mm"
solder_hole = "1.7 mm"
[lattice]
rows = ${rows}
columns = ${columns}
row_pitch = "40 mm"
column_pitch = "40 mm"
orientation = "vertical"
[harness]
kind = "rod"
topology = "tree"
height = "2.1 mm"
rod = "brass-rod-1.5"
bend_radius = "1.5 mm"
${joins.map((way) => `[[harness.level]]\njoins = "${way}"\n`).join('')}
[coax]
stock = "semi-rigid-141"
connector = "n-plug-cable"
length = "250 mm"
[hardware]
thread = "M3"
screw = "m3-pan-6-brass"
nut = "m3-nut-brass"
`;
}

export function stacked(rows: number, columns: number): Assembly {
  const reading = readDesign(stackedText(rows, columns));
  const made = reading.design === undefined ? undefined : assemble(reading.design);
  if (made?.assembly !== undefined) return made.assembly;
  throw new Error([...reading.findings, ...(made?.findings ?? [])].map((finding) => renderFinding(finding)).join('\n'));
}
