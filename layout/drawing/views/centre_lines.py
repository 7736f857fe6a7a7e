"""Centre lines of fans and of the processor's socket (ISO 128, long-dash dot)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from layout.drawing.paper.scene import Ink, Line, Pen, Point
from layout.drawing.views.seen import Seen
from layout.drawing.views.views import Facing, View
from layout.geometry.space import Axis
from layout.parts.form.form import Role

__all__ = ["centre_lines"]

_BEYOND_MM = 2.0
"""How far a centre line passes beyond its outline."""

_FANS = frozenset({Role.FAN, Role.COOLER_FAN})
_LEAST_MM = 4.0
"""What is drawn smaller has no centre line."""


def centre_lines(view: View, shown: Sequence[Seen]) -> Iterator[Line]:
    """Yield the centre lines of a view: an axis seen from the side, or a cross."""
    for each in shown:
        role = each.body.role
        if role in _FANS and (each.see_through or not each.hidden):
            yield from _of_fan(each, view)
        elif role is Role.PROCESSOR and view.facing is Facing.SIDE:
            yield from _lines(each, (True, True))


def _of_fan(each: Seen, view: View) -> Iterator[Line]:
    """Yield a fan's axis; it turns about its thinnest side."""
    sizes = each.body.body.bounds
    spans = [high - low for low, high in zip(sizes.low, sizes.high, strict=True)]
    axis = list(Axis)[spans.index(min(spans))]
    if axis is view.facing.depth_order:
        yield from _lines(each, (True, True))
    else:
        yield from _lines(each, (axis is Axis.DEPTH, axis is not Axis.DEPTH))


def _lines(each: Seen, ways: tuple[bool, bool]) -> Iterator[Line]:
    """Yield the line along the page and the line up the page, as asked."""
    x0, y0, x1, y1 = each.outline.bounds
    if max(x1 - x0, y1 - y0) < _LEAST_MM:
        return
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    level = ((x0 - _BEYOND_MM, y), (x1 + _BEYOND_MM, y))
    upright = ((x, y0 - _BEYOND_MM), (x, y1 + _BEYOND_MM))
    points: tuple[Point, Point]
    for wanted, points in zip(ways, (level, upright), strict=True):
        if wanted:
            name = each.body.name
            yield Line(points=points, pen=Pen.CENTRE, ink=Ink.SOFT, ref=name)
