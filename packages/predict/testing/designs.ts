/** A stack of rectangles between 5.2 and 5.8 GHz with everything free that sizing may change. `extra` is added at the end. */
export function stackText(layers: 1 | 2, extra = ''): string {
  const patches = [
    ['22 mm', '23 mm', '4 mm'],
    ['19 mm', '22 mm', '5 mm'],
  ].slice(0, layers);
  return `format = 1
name = "Orchard stack"
revision = "A"     # first
[band]
low = "5.2 GHz"
high = "5.8 GHz"
[targets]
vswr = 1.5
[reflector]
size = { width = "90 mm", height = "90 mm" }
sheet = "brass-1.0"
${patches
  .map(
    ([length, width, height]) => `[[layer]]
shape = "rectangle"
length = "${length}" # resonant
width = "${width}"
sheet = "brass-0.5"
spacer = { printed = "${height}", outer = "8 mm" }
fixing_hole = "3.2 mm"`,
  )
  .join('\n')}
[feed]
from_edge = "3 mm"
[coax]
stock = "semi-rigid-141"
${extra}`;
}

export const FREE = `[free]
layer.driven.length = { from = "16 mm", to = "27 mm" }
layer.driven.spacer = { from = "1.5 mm", to = "6 mm", step = "0.1 mm" }
feed.from_edge = { from = "0.8 mm", to = "6 mm" }
`;

export const FREE_PARASITIC = `layer.parasitic-1.length = { from = "14 mm", to = "24 mm" }
layer.parasitic-1.spacer = { from = "3 mm", to = "9 mm" }
`;
