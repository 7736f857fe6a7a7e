"""Where parts that travel could stand instead: the ends of it, double-dot."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
import shapely
from numpy.typing import NDArray

from layout.build.placed import Build, Fixing
from layout.drawing.paper.scene import Ink, Line, Pen
from layout.drawing.views.views import View
from layout.geometry.bodies.body import Body
from layout.geometry.space import Vector
from layout.parts.form.form import FanRow, Role

__all__ = ["ends_of_travel", "extreme_lines"]

_SAME_MM = 1e-6

_TOLD_FROM_MM = 3.0
"""A shorter way is no more than a second edge beside the part's own."""

_SLIDES = frozenset({Role.FAN, Role.RADIATOR})
"""What is drawn of a part that slides in a mount's slots."""


def ends_of_travel(build: Build, seats_mm: Sequence[Vector]) -> tuple[Body, ...]:
    """Return parts as they would stand at the ends of their travel.

    A cage travels from the first to the last place of its rail, a fan or a radiator as
    far as the slots of its mount let it before it meets its neighbour.  The place at
    which a part stands is left out.

    Parameters
    ----------
    seats_mm : sequence of Vector
        Where the rail's seats lie; the cage's own is among them.
    """
    return (*_on_rail(build, seats_mm), *_in_slots(build))


def _on_rail(build: Build, seats_mm: Sequence[Vector]) -> Iterator[Body]:
    at = {each.key: each.at_mm for each in build.parts}
    ends = dict.fromkeys((min(seats_mm), max(seats_mm))) if seats_mm else ()
    for each in build.bodies:
        if each.role is not Role.CAGE:
            continue
        for end in ends:
            by_mm = np.subtract(end, at[each.part])
            if np.abs(by_mm).max() > _SAME_MM:
                yield _moved(each.body, by_mm)


def _in_slots(build: Build) -> Iterator[Body]:
    for fixing in build.fixings:
        row = _row_of(fixing)
        if row is None or fixing.span_mm is None:
            continue
        others = [
            each.span_mm
            for each in build.fixings
            if each is not fixing
            and (each.host, each.seat) == (fixing.host, fixing.seat)
            and each.span_mm is not None
        ]
        own = build.carried_by(fixing.part)
        for by_mm in _ways_mm(fixing.span_mm, row, others):
            shift = by_mm * np.eye(3)[row.along.index]
            for each in build.bodies:
                slides = each.role in _SLIDES and each.where is not None
                if slides and each.part in own:
                    yield _moved(each.body, shift)


def _row_of(fixing: Fixing) -> FanRow | None:
    """Return the row of a mount with slots that a part stands in."""
    if fixing.span_mm is None:
        return None
    low_mm, high_mm = fixing.span_mm
    return next(
        (
            row
            for row in fixing.rows
            if row.travel_mm > 0.0
            and (high_mm - low_mm + _SAME_MM) % row.size_mm < 2 * _SAME_MM
        ),
        None,
    )


def _ways_mm(
    span_mm: tuple[float, float], row: FanRow, others: Sequence[tuple[float, float]]
) -> Iterator[float]:
    """Yield how far a stretch can go, downwards and upwards, along its row."""
    low_mm, high_mm = span_mm
    places = (low_mm - row.start_mm) / row.size_mm
    off_mm = (places - round(places)) * row.size_mm
    down = max(
        [-row.travel_mm / 2 - off_mm, *(b - low_mm for _, b in others if b <= low_mm)]
    )
    up = min(
        [row.travel_mm / 2 - off_mm, *(a - high_mm for a, _ in others if a >= high_mm)]
    )
    yield from (each for each in (down, up) if abs(each) >= _TOLD_FROM_MM)


def _moved(body: Body, by_mm: NDArray[np.float64]) -> Body:
    return replace(body, at_mm=_shifted(body.at_mm, by_mm))


def _shifted(place: Vector, by_mm: NDArray[np.float64]) -> Vector:
    x, y, z = np.add(place, by_mm).tolist()
    return x, y, z


def extreme_lines(bodies: Sequence[Body], view: View) -> Iterator[Line]:
    """Yield the outlines of bodies at extreme positions (ISO 128)."""
    for body in bodies:
        edge = shapely.line_merge(shapely.boundary(view.silhouette(body)))
        for each in shapely.get_parts(edge):
            points = tuple((float(x), float(y)) for x, y in each.coords)
            yield Line(points=points, pen=Pen.PLACE, ink=Ink.SOFT, ref=body.name)
