"""Hole patterns in one plane: which holes meet, which miss and by how much.

A part is screwed to another where one screw after the other finds a hole in both.  A
hole is round, or a slot: then its middle may be anywhere between two ends.  One
pattern may be shifted along a rail before it is screwed down.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Final

from layout.geometry.errors import HoleError
from layout.geometry.holes.hole_pairs import Hole, Pair, Point, Stretch, Way
from layout.values import dataclass

__all__ = ["Hole", "Meeting", "Miss", "Point", "Rail", "Stretch", "meeting"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rail:
    """A travel: how far a pattern may be shifted, in the direction of a unit vector."""

    along: Point
    length_mm: float


STILL: Final = Rail(along=(1.0, 0.0), length_mm=0.0)
"""No travel at all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Miss:
    """A hole that no screw passes: the nearest other, and the shift still wanting.

    ``nearest`` is None where the other pattern has no hole at all.
    """

    hole: str
    nearest: str | None = None
    by_mm: Point = (0.0, 0.0)

    @property
    def length_mm(self) -> float:
        """Return how far the hole misses."""
        return math.hypot(*self.by_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """How one pattern lies on another.

    Parameters
    ----------
    shift_mm : float
        Along the rail: the first place where every hole meets, else the place where
        most do.
    met : tuple of (str, str)
        Its own hole and the other's, at that place.
    missed : tuple of Miss
        The rest of its own holes, at that place.
    ranges_mm : tuple of (float, float)
        Every stretch of the rail on which all holes meet.
    """

    shift_mm: float
    met: tuple[tuple[str, str], ...]
    missed: tuple[Miss, ...]
    ranges_mm: tuple[Stretch, ...]


def meeting(
    own: Sequence[Hole],
    theirs: Sequence[Hole],
    *,
    screw_mm: float,
    rail: Rail = STILL,
) -> Meeting:
    """Return which of the own holes meet one of theirs, and how far the rest miss.

    Parameters
    ----------
    own, theirs : sequence of Hole
        Both patterns, from one origin.
    screw_mm : float
        Diameter of the screws.
    rail : Rail, optional
        How far ``own`` may be shifted; default: not at all.

    Raises
    ------
    HoleError
        If a hole is narrower than the screw.

    Notes
    -----
    A screw passes where the two holes' middles (anywhere between the ends of a slot)
    are no farther apart than half of what both holes have over the screw, and what
    both may be off.  A shift t u along the rail brings them so near where the point
    t u lies in the second hole less the first (a point, a stretch or a parallelogram)
    or that near its rim: one interval of t, in closed form.

    Examples
    --------
    >>> plate = (Hole(name="a", at_mm=(0, 0), diameter_mm=3),)
    >>> slot = (Hole(name="b", at_mm=(5, 0), to_mm=(9, 0), diameter_mm=4),)
    >>> [miss.by_mm for miss in meeting(plate, slot, screw_mm=3).missed]
    [(4.5, 0.0)]
    >>> rail = Rail(along=(1, 0), length_mm=6)
    >>> round(meeting(plate, slot, screw_mm=3, rail=rail).shift_mm, 6)
    4.5
    """
    _refuse_narrow((*own, *theirs), screw_mm)
    along = complex(*rail.along)
    pairs = [[Pair(a, b, screw_mm) for b in theirs] for a in own]
    near = [[each for each in row if each.near(rail.length_mm)] for row in pairs]
    whole = _whole(near, along, rail)
    # where all meet, what lies too far off to meet anywhere on the rail says nothing
    pairs, best_mm = (near, whole[0][0]) if whole else (pairs, _best(pairs, rail))
    answers = [(row, _nearest(row, best_mm * along)) for row in pairs]
    return Meeting(
        shift_mm=best_mm,
        met=tuple(
            (row[0].own.name, way.theirs)
            for row, way in answers
            if way is not None and way.over_mm <= 0.0
        ),
        missed=tuple(
            Miss(hole=hole.name, nearest=way.theirs, by_mm=way.wanting_mm)
            if way
            else Miss(hole=hole.name)
            for hole, (_, way) in zip(own, answers, strict=True)
            if way is None or way.over_mm > 0.0
        ),
        ranges_mm=tuple(whole),
    )


def _whole(
    pairs: Sequence[Sequence[Pair]], along: complex, rail: Rail
) -> list[Stretch]:
    """Return every stretch of the rail on which each own hole meets one of theirs."""
    whole = [(0.0, rail.length_mm)]
    for row in pairs:
        found = (pair.interval(along) for pair in row)
        whole = _common(whole, _joined(each for each in found if each))
    return whole


def _refuse_narrow(holes: Iterable[Hole], screw_mm: float) -> None:
    for hole in holes:
        if hole.diameter_mm < screw_mm:
            raise HoleError(
                f"hole {hole.name} of {hole.diameter_mm:g} mm takes no screw of "
                f"{screw_mm:g} mm"
            )


def _joined(stretches: Iterable[Stretch]) -> list[Stretch]:
    """Return stretches in order, those that touch as one."""
    out: list[Stretch] = []
    for low, high in sorted(stretches):
        if out and low <= out[-1][1]:
            out[-1] = (out[-1][0], max(out[-1][1], high))
        else:
            out.append((low, high))
    return out


def _common(first: Sequence[Stretch], second: Sequence[Stretch]) -> list[Stretch]:
    both = ((max(a, c), min(b, d)) for a, b in first for c, d in second)
    return [(low, high) for low, high in both if low <= high]


def _nearest(row: Sequence[Pair], shift: complex) -> Way | None:
    ways = (pair.way(shift) for pair in row)
    return min(ways, key=lambda way: (way.over_mm, abs(way.shift)), default=None)


def _best(pairs: Sequence[Sequence[Pair]], rail: Rail) -> float:
    """Return the shift with which most holes meet, and of those the least bad one.

    How many meet changes only where some pair begins or ceases to.
    """
    along = complex(*rail.along)
    every = [pair for row in pairs for pair in row]
    found = (pair.interval(along) for pair in every)
    stops = {0.0, rail.length_mm}
    stops |= {end for each in found if each for end in each}
    stops |= {pair.nearest_shift(along) for pair in every}
    on_rail = sorted(t for t in stops if 0.0 <= t <= rail.length_mm)

    def badness(t: float) -> tuple[int, float]:
        ways = [_nearest(row, t * along) for row in pairs]
        over = [way.over_mm for way in ways if way and way.over_mm > 0.0]
        return len(over), round(max(over, default=0.0), 6)

    return min(on_rail, key=badness)
