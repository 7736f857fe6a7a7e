"""Both hoses of a loop beside each other: neither may run through the other."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Final

from layout.geometry.space import Box, Vector
from layout.geometry.ways.keep_off import Laid, beside, square_to
from layout.geometry.ways.stiff import StiffWay, StiffWays
from layout.geometry.ways.turns import CLEAR_MM, End, bent, inside, near
from layout.questions.findings.holes import Passage
from layout.values import dataclass

__all__ = [
    "Around",
    "LaidOut",
    "alone",
    "beside_each_other",
    "both",
    "keep_apart",
    "past_each_other",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """What the hoses of a loop are led past, and where they may turn.

    Parameters
    ----------
    boxes, corners : tuple
        As in ``StiffWays``.
    free : Box
        Where a hose's middle may lie.
    pairs : tuple of (End, End)
        Both ends of each hose.
    radius_mm, diameter_mm : float
    """

    boxes: tuple[Box, ...]
    corners: tuple[Vector, ...]
    free: Box
    pairs: tuple[tuple[End, End], ...]
    radius_mm: float
    diameter_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidOut:
    """Hoses as they lie.

    Parameters
    ----------
    ways : tuple of StiffWay
        The shortest way of each hose, one past the other; fewer than two where one has
        none.
    apart : bool
        Whether they keep off each other; else each is led as if it were alone.
    holes : tuple of Passage
        The holes of the tray that they pass.
    """

    ways: tuple[StiffWay, ...]
    apart: bool = True
    holes: tuple[Passage, ...] = ()


def both(around: Around, length_mm: float) -> LaidOut:
    """Return how both hoses lie, one past the other where such ways are found."""
    ways = alone(around, length_mm)
    if len(ways) < len(around.pairs) or keep_apart(ways, around):
        return LaidOut(ways=ways)
    return past_each_other(ways, around)


def past_each_other(ways: tuple[StiffWay, ...], around: Around) -> LaidOut:
    """Return how two hoses lie that run through each other on their own ways."""
    beside = beside_each_other(ways, around)
    return LaidOut(ways=beside or ways, apart=beside is not None)


def keep_apart(ways: Sequence[StiffWay], around: Around) -> bool:
    """Tell whether two hoses as they lie keep off each other."""
    one, other = (bent(way.points, around.radius_mm) for way in ways)
    return Laid(one, around.diameter_mm).clear_of(other)


@lru_cache(maxsize=16)
def beside_each_other(
    ways: tuple[StiffWay, ...], around: Around
) -> tuple[StiffWay, ...] | None:
    """Return ways of both hoses that keep off each other; None for none found.

    One lies on its shortest way and the other gives way to it, by as much as a hose is
    wide at most, in the better order: that whose longer way is the shorter.  Where that
    finds none, one steps aside all along.
    """
    return _parted(ways, around, _giving_way) or _parted(ways, around, _stepping_aside)


def _parted(
    ways: tuple[StiffWay, ...],
    around: Around,
    other: Callable[[tuple[StiffWay, ...], int, Around], StiffWay | None],
) -> tuple[StiffWay, ...] | None:
    """Return the shortest way of one hose, and of the other what is found past it."""
    found: list[tuple[StiffWay, ...]] = []
    # where the shorter one gives way the longer may stay the longer: none is better
    for first in sorted((0, 1), key=lambda each: -ways[each].mm):
        if (way := other(ways, first, around)) is not None:
            found.append((ways[0], way) if first == 0 else (way, ways[1]))
            if way.mm <= ways[first].mm:
                break
    return min(found, key=_lengths, default=None)


def _giving_way(
    ways: tuple[StiffWay, ...], first: int, around: Around
) -> StiffWay | None:
    """Return the way of the other hose past one that lies first."""
    lain, alone, pair = ways[first], ways[1 - first], around.pairs[1 - first]
    off_mm, radius_mm = around.diameter_mm + CLEAR_MM, around.radius_mm
    straight_mm = math.dist(*(end.at_mm for end in pair))
    at = [*around.corners, *inside(beside(lain.points, off_mm), around.free)]
    most_mm = alone.mm + around.diameter_mm  # more than most need to go round
    close = near(at, [pair], radius_mm=radius_mm, longer=most_mm / straight_mm)
    return _past(lain, pair, close, around=around, most_mm=most_mm)


def _stepping_aside(
    ways: tuple[StiffWay, ...], first: int, around: Around
) -> StiffWay | None:
    """Return the way of the other hose off the corners that both have alone.

    So far off that its bends keep off too, over few places, so that it may be longer.
    """
    lain, alone, pair = ways[first], ways[1 - first], around.pairs[1 - first]
    off_mm = around.diameter_mm + CLEAR_MM
    at = [*alone.points[1:-1], *(b for e in pair for b in e.beside(around.radius_mm))]
    for off in _ASIDE:
        at += square_to([*lain.points, *alone.points], off * off_mm)
    most_mm = alone.mm + _LONGER * around.diameter_mm
    corners = inside(at, around.free)
    return _past(lain, pair, corners, around=around, most_mm=most_mm)


_ASIDE: Final = (1.5, 3.0)
_LONGER: Final = 4.0
"""Steps aside, and by how much a way is longer for them at most, in hoses' widths."""


def _past(
    lain: StiffWay,
    pair: tuple[End, End],
    corners: Sequence[Vector],
    *,
    around: Around,
    most_mm: float,
) -> StiffWay | None:
    """Return the shortest way that is found over some corners past a hose that lies."""
    off_mm, radius_mm = around.diameter_mm + CLEAR_MM, around.radius_mm
    tips = [end.turn(radius_mm + off) for end in pair for off in (0.0, off_mm)]
    past = Laid(bent(lain.points, radius_mm), around.diameter_mm)
    bars = _boxes_near(around.boxes, [*corners, *tips])
    space = StiffWays(bars, corners, pair, radius_mm, off_mm)
    return space.between(*pair, most_mm, past=past)


def _lengths(ways: tuple[StiffWay, ...]) -> list[float]:
    return sorted((way.mm for way in ways), reverse=True)


def _boxes_near(boxes: Sequence[Box], at: Sequence[Vector]) -> tuple[Box, ...]:
    """Return the boxes that may bar a way over some places."""
    low, high = (tuple(each(p[k] for p in at) for k in range(3)) for each in (min, max))
    between = Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))
    return tuple(box for box in boxes if between.meets(box))


def alone(around: Around, length_mm: float) -> tuple[StiffWay, ...]:
    """Return the way of each hose that has one, looked for near the straight lines.

    Of what lies farther off a way knows nothing, so a change there is soon answered.
    """
    pairs, radius_mm = around.pairs, around.radius_mm
    tips = [at for pair in pairs for e in pair for at in (e.at_mm, e.turn(radius_mm))]
    close = near(around.corners, pairs, radius_mm=radius_mm, longer=_NEAR)
    beside = _boxes_near(around.boxes, [*tips, *close])
    straight_mm = [math.dist(a.at_mm, b.at_mm) for a, b in pairs]
    most_mm = tuple(_NEAR * each for each in straight_mm)
    found = _laid(beside, tuple(close), pairs, radius_mm=radius_mm, most_mm=most_mm)
    if len(found) < len(pairs):
        every = around.boxes, around.corners
        most_mm = tuple(max(_FAR * each, length_mm) for each in straight_mm)
        found = _laid(*every, pairs, radius_mm=radius_mm, most_mm=most_mm)
    return found


_NEAR: Final = 1.1
_FAR: Final = 2.5
"""Ways are looked for up to so many times the straight line, or the hose's length."""


@lru_cache(maxsize=16)
def _laid(
    boxes: tuple[Box, ...],
    corners: tuple[Vector, ...],
    pairs: tuple[tuple[End, End], ...],
    *,
    radius_mm: float,
    most_mm: tuple[float, ...],
) -> tuple[StiffWay, ...]:
    """Return the way of each hose that has one; asked again, it is known."""
    ends = [end for pair in pairs for end in pair]
    space = StiffWays(boxes, corners, ends, radius_mm)
    found = [space.between(*p, mm) for p, mm in zip(pairs, most_mm, strict=True)]
    return tuple(way for way in found if way is not None)
