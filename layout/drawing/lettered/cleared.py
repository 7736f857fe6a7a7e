"""Outlines that give way to lettering: what hides nothing must not strike it out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import shapely
from shapely.geometry.base import BaseGeometry

from layout.drawing.paper.boxes import text_box, texts_of
from layout.drawing.paper.scene import Area, Balloon, Item, Line, Pen, Point

__all__ = ["cleared"]

_PAD_MM = 0.4


def cleared(items: Sequence[Item], over: Sequence[Item]) -> tuple[Item, ...]:
    """Return a view's items, unfilled outlines broken where lettering stands.

    Visible edges of filled parts are left whole: lettering keeps off them.
    """
    boxes = [shapely.box(*text_box(each)) for each in texts_of(over)]
    discs = [
        shapely.Point(each.centre).buffer(each.radius_mm)
        for each in over
        if isinstance(each, Balloon)
    ]
    room = shapely.union_all([*boxes, *discs]).buffer(_PAD_MM, join_style="mitre")
    shapely.prepare(room)
    return tuple(kept for item in items for kept in _broken(item, room))


def _broken(item: Item, room: BaseGeometry) -> Iterator[Item]:
    match item:
        case Line():
            for points in _rest([item.points], room):
                yield replace(item, points=points)
        case Area(fill=None, pen=Pen() as pen):
            rings = [item.outer, *item.holes]
            for points in _rest(rings, room):
                yield Line(points=points, pen=pen, ink=item.edge, ref=item.ref)
        case _:
            yield item


def _rest(
    lines: Sequence[Sequence[Point]], room: BaseGeometry
) -> Iterator[tuple[Point, ...]]:
    whole = shapely.MultiLineString([list(each) for each in lines])
    if not room.intersects(whole):
        yield from (tuple(each) for each in lines)
        return
    for piece in shapely.get_parts(shapely.difference(whole, room)):
        coords = shapely.get_coordinates(piece)
        points = tuple((float(x), float(y)) for x, y in coords)
        if len(points) > 1:
            yield points
