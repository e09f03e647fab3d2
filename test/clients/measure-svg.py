"""measure-svg.py PNG: reads questions as JSON on standard input, answers in mm (10 pixels a millimetre, y down).

{"bars": [[x0, y0, x1, y1], ...], "holes": [[x, y, diameter], ...]}
A bar answers with the length of the ink in its box, measured along its thickest row of pixels.
A hole answers with the centre of the ink of its circle, and with the circle's diameter along both diagonals, which its cross leaves free.
"""

import json
import sys

import numpy
from PIL import Image

Image.MAX_IMAGE_PIXELS = None
PX = 10.0
ink = 255 - numpy.asarray(Image.open(sys.argv[1]).convert("L"), dtype=numpy.float64)
ask = json.load(sys.stdin)


def bar(box):
    x0, y0, x1, y1 = (int(round(value * PX)) for value in box)
    rows = ink[y0:y1, x0:x1] / 255
    return float(rows.sum(axis=1).max() / PX)


def hole(question):
    x, y, diameter = question
    reach = int(round((diameter / 2 + 0.3) * PX))
    column, row = int(round(x * PX)), int(round(y * PX))
    patch = ink[row - reach : row + reach, column - reach : column + reach]
    ys, xs = numpy.mgrid[row - reach : row + reach, column - reach : column + reach] + 0.5
    centre = ((patch * xs).sum() / patch.sum() / PX, (patch * ys).sum() / patch.sum() / PX)
    radii = numpy.hypot(xs / PX - x, ys / PX - y)
    angles = numpy.degrees(numpy.arctan2(ys / PX - y, xs / PX - x)) % 90
    diagonal = (numpy.abs(angles - 45) < 25) & (radii > diameter / 4) & (radii < diameter / 2 + 0.3)
    weights = patch * diagonal
    return [centre[0], centre[1], float(2 * (weights * radii).sum() / weights.sum())]


print(json.dumps({"bars": [bar(box) for box in ask["bars"]], "holes": [hole(one) for one in ask["holes"]]}))
