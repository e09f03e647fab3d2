"""measure-dxf.py FILE: what ezdxf reads in a DXF file, as JSON. Strict load; exits 1 when it cannot read the file."""

import json
import math
import sys

import ezdxf
import ezdxf.bbox


def polyline(entity):
    """Length and area of an LWPOLYLINE from its bulges: r = c / (2 sin(t/2)), segment area r2 (t - sin t) / 2."""
    points = list(entity.get_points("xyb"))
    length = area = 0.0
    for index, (x0, y0, bulge) in enumerate(points if entity.closed else points[:-1]):
        x1, y1, _ = points[(index + 1) % len(points)]
        chord = math.hypot(x1 - x0, y1 - y0)
        area += (x0 * y1 - x1 * y0) / 2
        turn = 4 * math.atan(bulge)
        if turn == 0:
            length += chord
            continue
        radius = chord / (2 * math.sin(abs(turn) / 2))
        length += radius * abs(turn)
        area += radius**2 * (turn - math.sin(turn)) / 2
    return length, abs(area)


def measure(entity):
    kind = entity.dxftype()
    row = {"type": kind, "layer": entity.dxf.layer}
    if kind == "CIRCLE":
        r, c = entity.dxf.radius, entity.dxf.center
        box = [c.x - r, c.y - r, c.x + r, c.y + r]
        return dict(row, closed=True, length=2 * math.pi * r, area=math.pi * r * r, x=c.x, y=c.y, diameter=2 * r, box=box)
    if kind == "LWPOLYLINE":
        length, area = polyline(entity)
        box = ezdxf.bbox.extents([entity], fast=False)
        corners = [box.extmin.x, box.extmin.y, box.extmax.x, box.extmax.y]
        return dict(row, closed=entity.closed, length=length, area=area, box=corners)
    if kind == "LINE":
        return dict(row, closed=False, length=(entity.dxf.end - entity.dxf.start).magnitude)
    if kind == "TEXT":
        return dict(row, closed=False, length=0, text=entity.dxf.text)
    return dict(row, closed=False, length=0)


document = ezdxf.readfile(sys.argv[1])
audit = document.audit()
json.dump(
    {
        "insunits": document.header.get("$INSUNITS"),
        "measurement": document.header.get("$MEASUREMENT"),
        "complaints": [entry.message for entry in list(audit.errors) + list(audit.fixes)],
        "entities": [measure(entity) for entity in document.modelspace()],
    },
    sys.stdout,
)
