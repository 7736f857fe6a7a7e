"""Where parts on rails could stand instead: the ends of their travel, double-dot."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
import shapely

from layout.build.placed import Build
from layout.drawing.scene import Ink, Line, Pen
from layout.drawing.views import View
from layout.geometry.body import Body
from layout.geometry.space import Vector
from layout.parts.form import Role

__all__ = ["ends_of_travel", "extreme_lines"]

_SAME_MM = 1e-6


def ends_of_travel(build: Build, seats_mm: Sequence[Vector]) -> tuple[Body, ...]:
    """Return a cage as it would stand at the first and the last place of its rail.

    The place at which it stands is left out.

    Parameters
    ----------
    seats_mm : sequence of Vector
        Where the rail's seats lie; the cage's own is among them.
    """
    cages = [each for each in build.bodies if each.role is Role.CAGE]
    at = {each.key: each.at_mm for each in build.parts}
    ends = dict.fromkeys((min(seats_mm), max(seats_mm))) if seats_mm else ()
    return tuple(
        replace(each.body, at_mm=_shifted(each.body.at_mm, at[each.part], end))
        for each in cages
        for end in ends
        if np.abs(np.subtract(end, at[each.part])).max() > _SAME_MM
    )


def _shifted(place: Vector, seat: Vector, other: Vector) -> Vector:
    x, y, z = (p + o - s for p, s, o in zip(place, seat, other, strict=True))
    return x, y, z


def extreme_lines(bodies: Sequence[Body], view: View) -> Iterator[Line]:
    """Yield the outlines of bodies at extreme positions (ISO 128)."""
    for body in bodies:
        edge = shapely.line_merge(shapely.boundary(view.silhouette(body)))
        for each in shapely.get_parts(edge):
            points = tuple((float(x), float(y)) for x, y in each.coords)
            yield Line(points=points, pen=Pen.PLACE, ink=Ink.SOFT, ref=body.name)
