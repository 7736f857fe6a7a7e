"""Both hoses of a loop beside each other: neither may run through the other."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import Final

from layout.geometry.keep_off import Laid, beside
from layout.geometry.space import Box, Vector
from layout.geometry.stiff import StiffWay, StiffWays
from layout.geometry.turns import CLEAR_MM, End, bent, inside, near
from layout.values import dataclass

__all__ = ["Around", "beside_each_other", "boxes_near", "keep_apart"]

_LONGER_MM: Final = 40.0
"""By how much more than alone the hose that gives way is let go round the other."""


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

    One lies on its shortest way and the other gives way to it, in the better order:
    that whose longer way is the shorter.
    """
    found = []
    for first, lain in enumerate(ways):
        if (way := _giving_way(ways, first, around)) is not None:
            found.append((lain, way) if first == 0 else (way, lain))
    return min(found, key=_lengths, default=None)


def _giving_way(
    ways: tuple[StiffWay, ...], first: int, around: Around
) -> StiffWay | None:
    """Return the way of the other hose past one that lies first."""
    lain, alone, pair = ways[first], ways[1 - first], around.pairs[1 - first]
    off_mm, radius_mm = around.diameter_mm + CLEAR_MM, around.radius_mm
    most_mm = alone.mm + _LONGER_MM
    longer = most_mm / math.dist(*(end.at_mm for end in pair))
    at = [*around.corners, *inside(beside(lain.points, off_mm), around.free)]
    at = near(at, [pair], radius_mm=radius_mm, longer=longer)
    tips = [end.turn(radius_mm + off) for end in pair for off in (0.0, off_mm)]
    bars = boxes_near(around.boxes, [*at, *tips])
    past = Laid(bent(lain.points, radius_mm), around.diameter_mm)
    space = StiffWays(bars, at, pair, radius_mm, off_mm)
    return space.between(*pair, most_mm, past=past)


def _lengths(ways: tuple[StiffWay, ...]) -> list[float]:
    return sorted((way.mm for way in ways), reverse=True)


def boxes_near(boxes: Sequence[Box], at: Sequence[Vector]) -> tuple[Box, ...]:
    """Return the boxes that may bar a way over some places."""
    low, high = (tuple(each(p[k] for p in at) for k in range(3)) for each in (min, max))
    between = Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))
    return tuple(box for box in boxes if between.meets(box))
