/** Complete design files, one for each way of building. */
export const singleSheet = `format = 1
name = "Orchard mast 2.4"
[band]
low = "2.4 GHz"
high = "2.4835 GHz"
[reflector]
sheet = "brass-1.0"
[[layer]]
shape = "rectangle"
length = "53 mm"
width = "60 mm"
sheet = "brass-0.5"
spacer = "m3-mf-6-brass"
[feed]
from_edge = "14 mm"
[coax]
stock = "semi-rigid-141"
`;

export const rodArray = `# the link across the water
format = 1
name = "Heron Lock 5.8"
revision = "B"
notes = """
First build for the boathouse.
length = "not a field"
"""
date = 2026-05-17
[band]
low = "5.725 GHz"
high = "5875 MHz"
[targets]
gain = "14 dBi"
vswr = 1.5
polarisation = "vertical"
[reflector]
size = { width = "150 mm", height = "6 in" }
sheet = "aluminium-1.5"
edge_margin = "20 mm"
corner_radius = "4 mm"
mounting_holes = { diameter = "4.3 mm", inset = "8 mm" }
process = "laser"
[[layer]]
name = "driven"
shape = "rectangle"
length = "22 mm"
width = "26 mm"
sheet = "brass-0.5"
spacer = "m3-mf-6-brass"
[[layer]]
shape = "circle"
diameter = "24 mm"
board = "ptfe-glass-0.787-35"
copper_side = "inward"
border = "2 mm"
spacer = { printed = "6 mm", outer = "8 mm" }
fixing_hole = "3.2 mm"
[feed]
kind = "probe"
from_edge = "4 mm"
probe_diameter = "1 mm"
solder_hole = "1.3 mm"
[lattice]
rows = 2
columns = 4
row_pitch = "42 mm"
column_pitch = "4.2 cm"
orientation = "vertical"
[harness]
kind = "rod"
height = "3 mm"
rod = "brass-rod-2"
stem = "2 mm"
[[harness.level]]
[[harness.level]]
stem = "6 mm"
rod = "brass-rod-3"
[[harness.level]]
section = { at = "inner", length = "13 mm", tube = "brass-tube-3x0.5" }
[coax]
stock = "semi-rigid-141"
connector = "n-plug-cable"
[hardware]
thread = "M3"
fit = "fine"
washer = "m3-washer-brass"
[print]
wall = "1.6 mm"
[process.laser]
kerf = "0.15 mm"
`;

export const stripStar = `format = 1
name = "Star of four"
[band]
low = "5.15 GHz"
high = "5.35 GHz"
[reflector]
sheet = "brass-1.0"
[[layer]]
shape = "circle"
diameter = "26 mm"
sheet = "my-brass"
spacer = { printed = "5 mm", outer = "7 mm" }
[feed]
from_edge = "4 mm"
[lattice]
rows = 2
columns = 2
row_pitch = "40 mm"
column_pitch = "40 mm"
orientation = "horizontal"
[harness]
kind = "strip"
topology = "star"
height = "2 mm"
sheet = "brass-0.5"
width = "4 mm"
process = "mill"
[coax]
stock = "semi-rigid-086"
[stock.sheet.my-brass]
material = "brass"
thickness = "0.45 mm"
sizes = [["100 mm", "200 mm"], ["12 in", "12 in"]]
`;

export const etchedSingle = `format = 1
name = "Etched coupon"
[band]
low = "5.7 GHz"
high = "5.9 GHz"
[reflector]
board = "ptfe-glass-0.787-35"
[[layer]]
shape = "rectangle"
length = "16.6 mm"
width = "20 mm"
[feed]
kind = "inset"
depth = "5 mm"
gap = "1 mm"
[harness]
kind = "microstrip"
width = "2.4 mm"
length = "20 mm"
[coax]
stock = "semi-rigid-086"
connector = "sma-board"
`;

export const etchedArray = `format = 1
name = "Etched pair"
[band]
low = "5.7 GHz"
high = "5.9 GHz"
[reflector]
board = "ptfe-glass-0.787-35"
[[layer]]
shape = "rectangle"
length = "16.6 mm"
width = "20 mm"
[feed]
kind = "edge"
[lattice]
columns = 2
column_pitch = "40 mm"
[harness]
kind = "microstrip"
width = "1.2 mm"
stem = "10 mm"
[[harness.level]]
section = { at = "outer", length = "9.5 mm", width = "0.7 mm" }
[coax]
stock = "semi-rigid-086"
connector = "sma-board"
`;

/** All of them read without findings. */
export const validFiles: Readonly<Record<string, string>> = {
  singleSheet,
  rodArray,
  stripStar,
  etchedSingle,
  etchedArray,
};
