"""Hatching: lines across an area, left out where lettering stands (ISO 128)."""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely import affinity
from shapely.geometry import MultiLineString
from shapely.geometry.base import BaseGeometry

from layout.drawing.paper.scene import Point
from layout.drawing.paper.style import Pattern

__all__ = ["hatching"]


def hatching(area: BaseGeometry, pattern: Pattern) -> tuple[tuple[Point, Point], ...]:
    """Return the lines of a hatch over an area; their grid is that of the sheet."""
    lines = []
    for angle_deg in pattern.angles_deg:
        turned = affinity.rotate(area, -angle_deg, origin=(0, 0))
        if turned.is_empty:
            continue
        kept = shapely.intersection(_rows(turned, pattern), turned)
        back = affinity.rotate(kept, angle_deg, origin=(0, 0))
        for each in shapely.get_parts(back):
            if each.geom_type == "LineString" and each.length > 0.2:
                (a, b) = each.coords[0], each.coords[-1]
                lines.append(((a[0], a[1]), (b[0], b[1])))
    return tuple(lines)


def _rows(area: BaseGeometry, pattern: Pattern) -> MultiLineString:
    x0, y0, x1, y1 = area.bounds
    first = math.ceil(y0 / pattern.apart_mm)
    last = math.floor(y1 / pattern.apart_mm)
    rows: list[tuple[Point, Point]] = []
    for row in range(first, last + 1):
        y = row * pattern.apart_mm
        rows.extend(((a, y), (b, y)) for a, b in _dashes((x0, x1), row, pattern))
    return MultiLineString(rows)


def _dashes(
    between: tuple[float, float], row: int, pattern: Pattern
) -> list[tuple[float, float]]:
    if not pattern.dashes_mm:
        return [(between[0] - 1.0, between[1] + 1.0)]
    drawn, left_out = pattern.dashes_mm
    step = drawn + left_out
    shift = step / 2 * (row % 2)
    starts = np.arange(math.floor(between[0] / step) - 1, between[1] / step + 1) * step
    return [(float(s + shift), float(s + shift + drawn)) for s in starts]
