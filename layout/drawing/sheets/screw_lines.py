"""The layer of screws: each hole of a seat a ring, each hole of its part a cross."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, TypeAlias

import shapely

from layout.build.placed import Build, Fixing
from layout.drawing.paper.scene import Ink, Pen, Point
from layout.drawing.views.views import View
from layout.geometry.holes.holes import Hole, meeting
from layout.geometry.space import Axis, Vector, plus
from layout.parts.form.form import SeatSort
from layout.parts.form.screws import Screws
from layout.values import dataclass

__all__ = ["Stroke", "screw_lines"]

Stroke: TypeAlias = tuple[tuple[Point, ...], Pen, Ink]
"""A line on paper with its pen and ink."""

_LEAST_MM: Final = 0.6
"""Least radius of a hole on paper, so that it can be read at 1:5."""
_ARM_MM: Final = 1.1
"""How far a cross reaches from its middle on paper."""
_SCREW_MM: Final = 6.0
"""How far a screw that lies in the paper is drawn to either side, in the case."""


def screw_lines(build: Build, views: Sequence[View]) -> Iterator[Stroke]:
    """Yield the holes of every part that is screwed down, and of its seat.

    A pattern that is seen from its edge is a short line along each of its screws.
    """
    for view in views:
        for fixing in build.fixings:
            missed, met, shift = _meeting(fixing)
            at_mm = _origin(build, fixing)
            if fixing.theirs is not None:
                pattern = _Pattern(fixing, fixing.theirs, view, at_mm)
                for hole in fixing.theirs.holes:
                    # A plate has holes for a supply that stands otherwise, too.
                    if fixing.sort is not SeatSort.SUPPLY or hole.name in met:
                        yield from pattern.ring(hole)
            if fixing.own is not None:
                pattern = _Pattern(fixing, fixing.own, view, at_mm, shift)
                for hole in fixing.own.holes:
                    ink = Ink.FAIL if hole.name in missed else Ink.BLACK
                    yield from pattern.cross(hole, ink)


def _meeting(fixing: Fixing) -> tuple[frozenset[str], frozenset[str], Point]:
    """Return which holes of a part miss, which of its seat are met, and its shift."""
    own, theirs = fixing.own, fixing.theirs
    if not own or not theirs or not own.holes or not theirs.holes:
        return frozenset(), frozenset(), (0.0, 0.0)
    screw_mm = max(own.screw_mm, theirs.screw_mm)
    found = meeting(own.holes, theirs.holes, screw_mm=screw_mm, rail=theirs.rail)
    u, v = theirs.rail.along
    missed = frozenset(each.hole for each in found.missed)
    met = frozenset(hole for _, hole in found.met)
    return missed, met, (u * found.shift_mm, v * found.shift_mm)


def _origin(build: Build, fixing: Fixing) -> Vector:
    """Return where a pattern's origin lies: a supply's is the middle of its face."""
    if fixing.sort is not SeatSort.SUPPLY:
        return fixing.at_mm
    bounds = next(b.body.bounds for b in build.bodies if b.name == fixing.part)
    middle = [(a + b) / 2 for a, b in zip(bounds.low, bounds.high, strict=True)]
    normal = fixing.turn.axis(Axis.DEPTH).index
    middle[normal] = fixing.at_mm[normal]
    return middle[0], middle[1], middle[2]


@dataclass(frozen=True, slots=True)
class _Pattern:
    """One pattern in one view."""

    fixing: Fixing
    screws: Screws
    view: View
    at_mm: Vector
    shift: Point = (0.0, 0.0)

    def ring(self, hole: Hole) -> Iterator[Stroke]:
        """Yield a hole of the seat as a ring, a slot as a longer one."""
        if not self._faces:
            yield self._screw(hole)
            return
        radius_mm = max(_LEAST_MM, hole.diameter_mm / 2 * self.view.scale)
        ends = [self.view.point(self._at(each)) for each in (hole.at_mm, hole.end_mm)]
        line = shapely.LineString(ends).buffer(radius_mm, quad_segs=8)
        ring = tuple((float(x), float(y)) for x, y in line.exterior.coords)
        yield ring, Pen.NARROW, Ink.BLACK

    def cross(self, hole: Hole, ink: Ink) -> Iterator[Stroke]:
        """Yield a hole of the part as an upright cross."""
        if not self._faces:
            yield self._screw(hole)
            return
        x, y = self.view.point(self._at(hole.at_mm))
        arm = max(_ARM_MM, hole.diameter_mm / 2 * self.view.scale + _LEAST_MM)
        pen = Pen.WIDE if ink is Ink.FAIL else Pen.NARROW
        yield ((x - arm, y), (x + arm, y)), pen, ink
        yield ((x, y - arm), (x, y + arm)), pen, ink

    def _screw(self, hole: Hole) -> Stroke:
        (normal,) = set(Axis) - {*self.screws.across}
        x, y, z = (_SCREW_MM * float(axis is normal) for axis in Axis)
        along = self.fixing.turn.vector((x, y, z))
        a, b, c = along
        at = self._at(hole.at_mm)
        ends = (plus(at, along), plus(at, (-a, -b, -c)))
        return tuple(self.view.point(each) for each in ends), Pen.NARROW, Ink.BLACK

    @property
    def _faces(self) -> bool:
        """Tell whether the view shows the pattern as it is."""
        axes = {self.fixing.turn.axis(each) for each in self.screws.across}
        return self.view.facing.depth_order not in axes

    def _at(self, point: tuple[float, float]) -> Vector:
        """Return a point of the pattern in the case."""
        placed = dict(zip(self.screws.across, point, strict=True))
        shifts = dict(zip(self.screws.across, self.shift, strict=True))
        x, y, z = (placed.get(axis, 0.0) + shifts.get(axis, 0.0) for axis in Axis)
        return plus(self.at_mm, self.fixing.turn.vector((x, y, z)))
