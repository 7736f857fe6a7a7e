"""Both hoses of a loop beside each other: neither may run through the other."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

from layout.geometry.keep_off import Laid, beside
from layout.geometry.space import Box, Vector
from layout.geometry.stiff import StiffWay, StiffWays
from layout.geometry.turns import CLEAR_MM, End, bent, inside, near
from layout.values import dataclass

__all__ = ["Around", "beside_each_other", "boxes_near", "keep_apart"]


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
    wide at most, in the better order: that whose longer way is the shorter.
    """
    found: list[tuple[StiffWay, ...]] = []
    # where the shorter one gives way the longer may stay the longer: none is better
    for first in sorted((0, 1), key=lambda each: -ways[each].mm):
        if (way := _giving_way(ways, first, around)) is not None:
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
    tips = [end.turn(radius_mm + off) for end in pair for off in (0.0, off_mm)]
    past = Laid(bent(lain.points, radius_mm), around.diameter_mm)
    at = [*around.corners, *inside(beside(lain.points, off_mm), around.free)]
    most_mm = alone.mm + around.diameter_mm  # more than most need to go round
    close = near(at, [pair], radius_mm=radius_mm, longer=most_mm / straight_mm)
    bars = boxes_near(around.boxes, [*close, *tips])
    space = StiffWays(bars, close, pair, radius_mm, off_mm)
    return space.between(*pair, most_mm, past=past)


def _lengths(ways: tuple[StiffWay, ...]) -> list[float]:
    return sorted((way.mm for way in ways), reverse=True)


def boxes_near(boxes: Sequence[Box], at: Sequence[Vector]) -> tuple[Box, ...]:
    """Return the boxes that may bar a way over some places."""
    low, high = (tuple(each(p[k] for p in at) for k in range(3)) for each in (min, max))
    between = Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))
    return tuple(box for box in boxes if between.meets(box))
