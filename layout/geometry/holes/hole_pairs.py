"""Two holes on one another: how far they miss, and at which shifts they meet."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final, TypeAlias

from layout.values import dataclass

__all__ = ["Hole", "Pair", "Point", "Stretch", "Way"]

Point: TypeAlias = tuple[float, float]
"""A place, or a shift, along the two axes of the patterns' plane, mm."""

Stretch: TypeAlias = tuple[float, float]
"""From where to where along a rail, mm."""

_Edge: TypeAlias = tuple[complex, complex]

_SETTLED_MM: Final = 1e-9
"""By how much a hole may miss and still meet: what rounding does to a sum of sizes."""
_FAR_MM: Final = 1e-3
"""Holes farther off than they may be by this do not meet, however sums are rounded."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A hole for a screw, or the thread that the screw goes into.

    Parameters
    ----------
    name : str
        Unique in its pattern.
    at_mm : Point
        Its middle; for a slot the middle of its one end.
    to_mm : Point or None
        The middle of a slot's other end; None: a round hole.
    diameter_mm : float
        Its diameter, across a slot its width; that of the screw for a thread.
    off_mm : float
        How far it may be from where it is said to be.
    """

    name: str
    at_mm: Point
    to_mm: Point | None = None
    diameter_mm: float
    off_mm: float = 0.0

    @property
    def end_mm(self) -> Point:
        """Return the middle of its other end, for a round hole its middle."""
        return self.at_mm if self.to_mm is None else self.to_mm


@dataclass(frozen=True, slots=True)
class Way:
    """From an own hole to one of theirs: the shift, and what of it is wanting."""

    theirs: str
    shift: complex
    over_mm: float

    @property
    def wanting_mm(self) -> Point:
        """Return the part of the shift that is wanting."""
        wanting = self.shift * (self.over_mm / abs(self.shift)) if self.over_mm else 0j
        return wanting.real, wanting.imag


@dataclass(frozen=True, slots=True)
class Pair:
    """One own hole and one of theirs; points of the plane as complex numbers."""

    own: Hole
    theirs: Hole
    screw_mm: float

    @property
    def reach_mm(self) -> float:
        """Return how far apart the middles may be for a screw to pass."""
        a, b = self.own, self.theirs
        play_mm = (a.diameter_mm + b.diameter_mm) / 2 - self.screw_mm
        return play_mm + a.off_mm + b.off_mm

    def near(self, length_mm: float) -> bool:
        """Tell whether the two may meet on a rail of a length, wherever it leads."""
        slots = (math.dist(e.at_mm, e.end_mm) for e in (self.own, self.theirs))
        apart_mm = math.dist(self.own.at_mm, self.theirs.at_mm)
        return apart_mm <= self.reach_mm + sum(slots) + length_mm + _FAR_MM

    def way(self, shift: complex) -> Way:
        """Return the shortest way between the middles, the own hole shifted."""
        edges = self._edges()
        ways = [_foot(edge, shift) - shift for edge in edges]
        shortest = min(ways, key=abs)
        if _inside(edges, shift):
            shortest = 0j
        return Way(self.theirs.name, shortest, self._over_mm(abs(shortest)))

    def interval(self, along: complex) -> Stretch | None:
        """Return the shifts along a line with which the two meet."""
        reach_mm = self.reach_mm + _SETTLED_MM
        found = [_crossing(edge, along, reach_mm) for edge in self._edges()]
        ends = [end for each in found if each for end in each]
        return (min(ends), max(ends)) if ends else None

    def nearest_shift(self, along: complex) -> float:
        """Return the shift along a line that brings the middles nearest, roughly."""
        p, q = complex(*self.own.at_mm), complex(*self.own.end_mm)
        r, s = complex(*self.theirs.at_mm), complex(*self.theirs.end_mm)
        return _dot(along, (r + s - p - q) / 2)

    def _over_mm(self, far_mm: float) -> float:
        over_mm = far_mm - self.reach_mm
        # at the very end of an interval the sum may round to the worse side
        return over_mm if over_mm > 2 * _SETTLED_MM else 0.0

    def _edges(self) -> tuple[_Edge, ...]:
        """Return the rim of the second hole less the first, that of a parallelogram.

        Of a round hole and a slot it is one edge, of two round holes one point.
        """
        p, q = complex(*self.own.at_mm), complex(*self.own.end_mm)
        r, s = complex(*self.theirs.at_mm), complex(*self.theirs.end_mm)
        if p == q or r == s:
            return ((r - p, s - q),)
        ring = (r - p, s - p, s - q, r - q)
        return tuple(zip(ring, (*ring[1:], ring[0]), strict=True))


def _dot(a: complex, b: complex) -> float:
    return (a.conjugate() * b).real


def _cross(a: complex, b: complex) -> float:
    return (a.conjugate() * b).imag


def _foot(edge: _Edge, point: complex) -> complex:
    """Return the point of an edge that is nearest to a point."""
    start, end = edge
    run = end - start
    square = _dot(run, run)
    share = _dot(run, point - start) / square if square else 0.0
    return start + run * min(1.0, max(0.0, share))


def _inside(edges: Sequence[_Edge], point: complex) -> bool:
    """Tell whether a point lies strictly inside a parallelogram."""
    if len(edges) == 1:
        return False
    sides = [_cross(end - start, point - start) for start, end in edges]
    return min(sides) > 0.0 or max(sides) < 0.0


def _crossing(edge: _Edge, along: complex, reach_mm: float) -> Stretch | None:
    """Return where the line t * along comes as near to an edge as a reach."""
    start, end = edge
    ends = []
    for corner in edge:
        high = reach_mm**2 - _cross(along, corner) ** 2
        if high >= 0.0:
            half, mid = math.sqrt(high), _dot(along, corner)
            ends += [mid - half, mid + half]
    length_mm = abs(end - start)
    if length_mm:
        run = (end - start) / length_mm
        beside = _linear(_dot(run, along), -_dot(run, start), (0.0, length_mm))
        off = _linear(_cross(run, along), -_cross(run, start), (-reach_mm, reach_mm))
        low, high = max(beside[0], off[0]), min(beside[1], off[1])
        if low <= high and math.isfinite(low + high):
            ends += [low, high]
    return (min(ends), max(ends)) if ends else None


def _linear(slope: float, base: float, limits: Stretch) -> Stretch:
    """Return the t for which slope t + base lies between the limits."""
    if slope == 0.0:
        meets = limits[0] <= base <= limits[1]
        return (-math.inf, math.inf) if meets else (math.inf, -math.inf)
    ends = sorted((each - base) / slope for each in limits)
    return ends[0], ends[1]
