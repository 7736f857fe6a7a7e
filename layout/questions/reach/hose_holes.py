"""Holes of the tray that hoses pass, whose radiator is on its other side."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product
from typing import Final

from layout.geometry.space import Vector
from layout.geometry.ways.stiff import StiffWay
from layout.geometry.ways.turns import CLEAR_MM, TWO_ARCS, bent, inside
from layout.questions.findings.holes import Passage
from layout.questions.reach.hose_pair import (
    Around,
    LaidOut,
    alone,
    keep_apart,
    past_each_other,
)

__all__ = ["through"]

_BOTH: Final = 2


def through(around: Around, holes: Sequence[Passage], length_mm: float) -> LaidOut:
    """Return how hoses lie whose ends are on either side of a tray with such holes.

    Of two through a hole that is too narrow for both one takes another, or has no way.
    """
    wide = [e for e in holes if min(_rooms(e, around.diameter_mm)) >= 0.0]
    more = inside(_in_line(wide, around), around.free)
    around = replace(around, corners=(*around.corners, *more))
    laid = LaidOut(ways=alone(around, length_mm))
    if len(laid.ways) == _BOTH and not keep_apart(laid.ways, around):
        laid = _parted(laid.ways, around, wide, length_mm=length_mm)
    return replace(laid, holes=_passed(wide, laid.ways, around.radius_mm))


def _parted(
    ways: tuple[StiffWay, ...],
    around: Around,
    holes: Sequence[Passage],
    *,
    length_mm: float,
) -> LaidOut:
    """Return how two hoses lie that would run through each other on their ways."""
    takes = [_passed(holes, [way], around.radius_mm) for way in ways]
    narrow = any(
        math.hypot(*_rooms(hole, around.diameter_mm)) < around.diameter_mm
        for hole in takes[0]
        if hole in takes[1]
    )
    if not narrow:
        return past_each_other(ways, around)
    pairs = [
        (ways[0], way) if first == 0 else (way, ways[1])
        for first in (0, 1)
        if len(takes[first]) < len(holes)
        for way in _past(takes[first], around, 1 - first, length_mm=length_mm)
    ]
    laid = [LaidOut(ways=each, apart=keep_apart(each, around)) for each in pairs]
    laid.sort(key=lambda each: (not each.apart, max(way.mm for way in each.ways)))
    return laid[0] if laid else LaidOut(ways=ways[:1])


def _past(
    shut: Sequence[Passage], around: Around, hose: int, *, length_mm: float
) -> tuple[StiffWay, ...]:
    """Return the way of one hose, if it has one, through none of some holes."""
    boxes = (*around.boxes, *(each.box for each in shut))
    return alone(
        replace(around, boxes=boxes, pairs=around.pairs[hose : hose + 1]), length_mm
    )


def _rooms(hole: Passage, diameter_mm: float) -> tuple[float, float]:
    """Return how far a hose may be shifted in a hole, in depth and in height."""
    (x0, y0, _), (x1, y1, _) = hole.box.low, hole.box.high
    return x1 - x0 - diameter_mm, y1 - y0 - diameter_mm


def _in_line(holes: Sequence[Passage], around: Around) -> list[Vector]:
    """Return where hoses turn in line with a hole.

    Side by side about its middle and abreast of each end; where a right angle ends in
    the sheet's middle, at the level of the ends, and two turns across the tray of it.
    """
    ends = [end for pair in around.pairs for end in pair]
    turns = [end.turn(around.radius_mm) for end in ends]
    found = []
    for hole in holes:
        z_mm = (hole.box.low[2] + hole.box.high[2]) / 2
        levels = {z_mm - around.radius_mm, z_mm + around.radius_mm}
        for _, _, z in turns:
            # level with it, and where a turn leaves the next one its room
            levels |= {z, z + math.copysign(TWO_ARCS * around.radius_mm, z_mm - z)}
        across = {*_abreast(hole, turns, around.diameter_mm)}
        found += [(x, y, z) for (x, y), z in product(sorted(across), sorted(levels))]
    return found


def _abreast(
    hole: Passage, turns: Sequence[Vector], diameter_mm: float
) -> Iterator[tuple[float, float]]:
    """Yield places in a hole: two for hoses side by side, one nearest to each end."""
    rooms = _rooms(hole, diameter_mm)
    middle = [(a + b) / 2 for a, b in zip(hole.box.low, hole.box.high, strict=True)]
    beside_mm = (diameter_mm + CLEAR_MM) / 2
    long = 0 if rooms[0] > rooms[1] else 1
    off_mm = min(beside_mm, rooms[long] / 2)
    for side in (-off_mm, off_mm):
        at = middle[:2]
        at[long] += side
        yield at[0], at[1]
    for turn in turns:
        x, y = (
            min(max(turn[k], middle[k] - room / 2), middle[k] + room / 2)
            for k, room in enumerate(rooms)
        )
        yield x, y


def _passed(
    holes: Sequence[Passage], ways: Sequence[StiffWay], radius_mm: float
) -> tuple[Passage, ...]:
    """Return the holes that hoses pass."""
    lines = [bent(way.points, radius_mm) for way in ways]
    return tuple(e for e in holes if any(map(e.used_by, lines)))
