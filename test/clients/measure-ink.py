"""measure-ink.py PNG: reads {"minX", "maxX", "minY", "maxY"} in mm (25 pixels a millimetre, y down) on standard input,
answers with the area of the ink in that box in mm². Grey pixels at edges count by their darkness."""

import json
import sys

import numpy
from PIL import Image

Image.MAX_IMAGE_PIXELS = None
PX = 25
ink = 255 - numpy.asarray(Image.open(sys.argv[1]).convert("L"), dtype=numpy.float64)
box = json.load(sys.stdin)
left, right, top, bottom = (int(round(box[side] * PX)) for side in ("minX", "maxX", "minY", "maxY"))
print(float(ink[top:bottom, left:right].sum() / 255 / PX**2))
