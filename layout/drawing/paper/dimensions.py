"""Dimensions in the manner of ISO 129: lines, arrows and where the value stands."""

from __future__ import annotations

import math

from layout.drawing.paper.lettering import width_mm
from layout.drawing.paper.scene import Align, Dimension, Ink, Pen, Point, Text
from layout.drawing.paper.style import Style
from layout.drawing.paper.words import length

__all__ = ["TAIL", "arrows", "dimension_lines", "gap_dimension", "level", "upright"]

TAIL = 1.7
"""Length of the line behind an outside arrow, in arrow lengths."""

_INSIDE = 3.0
"""Arrows stand inside from this length of the line on, in arrow lengths."""


def level(
    ends: tuple[Point, Point], y: float, value_mm: float, *, style: Style
) -> Dimension:
    """Return a dimension that reads along the page, its line at height y."""
    start, end = ((x, y) for x, _ in ends)
    return _dimension(ends, (start, end), value_mm, style=style, turned=False)


def upright(
    ends: tuple[Point, Point], x: float, value_mm: float, *, style: Style
) -> Dimension:
    """Return a dimension that reads up the page, its line at x."""
    start, end = ((x, y) for _, y in ends)
    return _dimension(ends, (start, end), value_mm, style=style, turned=True)


def _dimension(
    ends: tuple[Point, Point],
    line: tuple[Point, Point],
    value_mm: float,
    *,
    style: Style,
    turned: bool,
) -> Dimension:
    value = length(value_mm)
    drawn_mm = math.dist(*line)
    needed_mm = width_mm(value, style.small_mm) + 2 * style.pad_mm
    beyond_mm = 0.0
    if needed_mm > drawn_mm:  # the value stands beyond the second arrow's tail
        beyond_mm = TAIL * style.arrow_mm + 0.5 * (drawn_mm + needed_mm)
    lift_mm = 0.5 * style.small_mm + style.pad_mm
    x, y = ((a + b) / 2 for a, b in zip(*line, strict=True))
    return Dimension(
        from_mm=ends[0],
        to_mm=ends[1],
        start=line[0],
        end=line[1],
        outside=drawn_mm < _INSIDE * style.arrow_mm,
        arrow_mm=style.arrow_mm,
        text=Text(
            at=(x - lift_mm, y + beyond_mm) if turned else (x + beyond_mm, y + lift_mm),
            text=value,
            height_mm=style.small_mm,
            align=Align.CENTRE,
            turned=turned,
        ),
    )


def gap_dimension(
    ends: tuple[Point, Point], *, pen: Pen, ink: Ink, ref: str, style: Style
) -> Dimension:
    """Return a dimension between two nearest points; a balloon gives its value."""
    start, end = ends
    return Dimension(
        from_mm=start,
        to_mm=end,
        start=start,
        end=end,
        outside=math.dist(start, end) < _INSIDE * style.arrow_mm,
        arrow_mm=style.arrow_mm,
        pen=pen,
        ink=ink,
        ref=ref,
    )


def dimension_lines(item: Dimension, style: Style) -> tuple[tuple[Point, Point], ...]:
    """Return the lines of a dimension: the line itself, its tails, its extensions."""
    along = _unit(item.start, item.end)
    start, end = item.start, item.end
    if item.outside:
        tail_mm = TAIL * item.arrow_mm
        start = _moved(start, along, -tail_mm)
        end = _moved(end, along, tail_mm)
    lines = [(start, end)]
    for measured, foot in ((item.from_mm, item.start), (item.to_mm, item.end)):
        if math.dist(measured, foot) > style.overshoot_mm:
            away = _unit(measured, foot)
            lines.append((measured, _moved(foot, away, style.overshoot_mm)))
    return tuple(lines)


def arrows(item: Dimension, style: Style) -> tuple[tuple[Point, Point, Point], ...]:
    """Return the two arrowheads as triangles, tips first."""
    along = _unit(item.start, item.end)
    back = (-along[0], -along[1])
    bodies = (back, along) if item.outside else (along, back)
    half_mm = item.arrow_mm * math.tan(math.radians(style.arrow_deg / 2))
    out = []
    for tip, way in zip((item.start, item.end), bodies, strict=True):
        foot = _moved(tip, way, item.arrow_mm)
        across = (-way[1], way[0])
        out.append((tip, _moved(foot, across, half_mm), _moved(foot, across, -half_mm)))
    return tuple(out)


def _unit(a: Point, b: Point) -> Point:
    size = math.dist(a, b)
    if size == 0.0:
        return 1.0, 0.0
    return (b[0] - a[0]) / size, (b[1] - a[1]) / size


def _moved(point: Point, way: Point, by_mm: float) -> Point:
    return point[0] + by_mm * way[0], point[1] + by_mm * way[1]
