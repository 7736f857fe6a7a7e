"""What two bodies that clash have in common, as the two views show it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import shapely
from shapely import affinity
from shapely.geometry.base import BaseGeometry

from layout.drawing.views.seen import polygons
from layout.drawing.views.views import Facing, View
from layout.geometry.bodies.body import Body
from layout.geometry.space import ORIGIN

__all__ = ["shared"]


def shared(a: Sequence[Body], b: Sequence[Body], view: View) -> BaseGeometry:
    """Return the outline of what bodies share on paper, as far as outlines tell it.

    Solids share something where their outlines do in both views.
    """
    place = list(Facing).index(view.facing)
    pieces = [
        both[place]
        for one in a
        for other in b
        for both in _common(one, other)
        if all(each.area > 0.0 for each in both)
    ]
    return polygons(view.shown(view.paper(polygons(shapely.union_all(pieces)), ORIGIN)))


def _common(one: Body, other: Body) -> Iterator[tuple[BaseGeometry, ...]]:
    """Yield, for each pair of solids, what their outlines share in each view."""
    own, others = _outlines(one), _outlines(other)
    for each in own:
        for second in others:
            yield tuple(p.intersection(q) for p, q in zip(each, second, strict=True))


def _outlines(body: Body) -> list[tuple[BaseGeometry, ...]]:
    """Return each solid's outlines in place, the side view's first."""
    return [
        tuple(
            affinity.translate(
                facing.outline(solid), body.at_mm[0], body.at_mm[facing.across.index]
            )
            for facing in Facing
        )
        for solid in body.shape.solids
    ]
