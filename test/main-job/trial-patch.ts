/** One patch on a small reflector: little to solve. Sizes are invented; nothing is judged by its numbers. */
export const TRIAL_PATCH = `# Heron Lock: one patch on a small reflector, for trying things out.
format = 1
name = "Heron Lock trial patch"
revision = "A"

[band]
low = "5.6 GHz"
high = "6.0 GHz"

[targets]
vswr = 2

[reflector]
size = { width = "60 mm", height = "60 mm" }
sheet = "brass-1.0"
process = "laser"

[[layer]]
name = "driven"
shape = "rectangle"
length = "19.5 mm"
width = "22 mm"
sheet = "brass-0.5"
spacer = "m3-mf-6-brass"
process = "laser"

[feed]
kind = "probe"
from_edge = "2.4 mm"
probe_diameter = "0.92 mm"
solder_hole = "1.2 mm"

[harness]
kind = "none"

[coax]
stock = "semi-rigid-141"
connector = "n-plug-cable"
length = "200 mm"

[hardware]
thread = "M3"
screw = "m3-pan-6-brass"
nut = "m3-nut-brass"
`;
