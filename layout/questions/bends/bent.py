"""Where on a travel cables have no room to bend: exact, from the cables' own ways.

A cable lacks room where each of its ways is barred: by a body that lies in it, or
because it lies past an outer wall.  Both are intervals of shifts in closed form.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Final

import numpy as np

from layout.build.placed import Build, PlacedBody
from layout.geometry.bodies.body import Body
from layout.geometry.bodies.crowd import Crowd
from layout.geometry.relations.query import meeting
from layout.geometry.space import Axis, Box
from layout.geometry.travel.stretches import Stretches, clear_of, merged
from layout.geometry.travel.travel import blocked_pairs
from layout.questions.bends.cable_ways import Way, ways_of
from layout.questions.bends.in_way import in_the_way
from layout.questions.findings.tolerance import ALLOWED_MM
from layout.questions.findings.walls import outwards
from layout.values import dataclass

__all__ = ["Bent", "bent"]

_EVERYWHERE: Final[Stretches] = ((-math.inf, math.inf),)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bent:
    """A plug whose cable lacks room, on which shifts, and what is in its way there.

    ``of`` is that of its ways.
    """

    of: tuple[str, str, str, str]
    between: tuple[str, str]
    rule: str
    shifts_mm: Stretches

    def surely_at(self, mm: float) -> bool:
        """Tell whether a shift is on a stretch, not just about at its end."""
        return any(
            low + ALLOWED_MM < mm < high - ALLOWED_MM for low, high in self.shifts_mm
        )


def bent(
    build: Build,
    moving: frozenset[int],
    axis: Axis,
    *,
    travel_mm: tuple[float, float],
) -> tuple[Bent, ...]:
    """Return the cables that lack room on a travel because of what moves.

    Parameters
    ----------
    build : Build
        Before anything is moved.
    moving : frozenset of int
        The bodies that move; their plugs go along.
    travel_mm : (float, float)
        The first and last shift.
    """
    ways = sorted((*ways_of(build), *ways_of(build, on=True)), key=_of)
    barred = list(_barred(build, ways, (moving, axis), travel_mm=travel_mm))
    found = []
    for of, group in groupby(zip(ways, barred, strict=True), key=lambda e: _of(e[0])):
        same = list(group)
        shifts = _on_all([each for _, (each, _) in same], travel_mm)
        if not shifts or all(not by for _, (_, by) in same):
            continue
        way, (_, by) = next(each for each in same if each[1][1])
        found.append(
            Bent(
                of=of,
                between=(way.placed.name, by),
                rule=way.rule.name,
                shifts_mm=shifts,
            )
        )
    return tuple(found)


def _of(way: Way) -> tuple[str, str, str, str]:
    return way.of


def _on_all(barred: Sequence[Stretches], travel_mm: tuple[float, float]) -> Stretches:
    """Return the shifts of a travel on which every way is barred."""
    open_ones = merged(clear_of(_cut(each, travel_mm), travel_mm) for each in barred)
    left = clear_of(open_ones, travel_mm)
    return tuple((low, high) for low, high in left if low < high)


def _cut(stretches: Stretches, travel_mm: tuple[float, float]) -> Stretches:
    first, last = travel_mm
    cut = ((max(low, first), min(high, last)) for low, high in stretches)
    return tuple((low, high) for low, high in cut if low < high)


def _barred(
    build: Build,
    ways: Sequence[Way],
    going: tuple[frozenset[int], Axis],
    *,
    travel_mm: tuple[float, float],
) -> Iterator[tuple[Stretches, str]]:
    """Yield for each way the shifts at which it is barred, and what that moves bars it.

    The name is empty where nothing that moves against the way is in it.
    """
    moving, axis = going
    bodies = [each.body for each in build.bodies]
    names = {build.bodies[i].name for i in moving}
    pairs, of, across = [], [], []
    for k, way in enumerate(ways):
        goes = way.placed.name in names
        for j in np.flatnonzero(in_the_way(build, way)).tolist():
            against = goes is not (j in moving)
            stays = len(bodies) + k, j
            pairs.append(stays if against and not goes else stays[::-1])
            of.append((k, j, against))
            across.append(against)
    every = [*bodies, *(way.body for way in ways)]
    met = _met(every, pairs, (axis, travel_mm), against=across)
    found: list[list[tuple[Stretches, int, bool]]] = [[] for _ in ways]
    for (k, j, against), stretches in zip(of, met, strict=True):
        goes = ways[k].placed.name in names
        way_axis = axis if goes and against else None
        past = _past(ways[k].body.bounds, build.bodies[j], way_axis)
        both = merged([stretches, past])
        if both:
            found[k].append((both, j, against))
    for each in found:
        by = next((build.bodies[j].name for _, j, against in each if against), "")
        yield merged([stretches for stretches, _, _ in each]), by


def _met(
    bodies: Sequence[Body],
    pairs: Sequence[tuple[int, int]],
    way: tuple[Axis, tuple[float, float]],
    *,
    against: Sequence[bool],
) -> list[Stretches]:
    """Return the shifts at which pairs interfere; all or none where neither goes."""
    crowd, (axis, travel_mm) = Crowd.of(bodies), way
    still = [pair for pair, goes in zip(pairs, against, strict=True) if not goes]
    going = [pair for pair, goes in zip(pairs, against, strict=True) if goes]
    meets = zip(still, meeting(crowd, still).tolist(), strict=True)
    known = {pair: _EVERYWHERE for pair, meet in meets if meet}
    blocked = blocked_pairs(crowd, going, axis, travel_mm=travel_mm) if going else ()
    known.update(zip(going, blocked, strict=True))
    return [known.get(pair, ()) for pair in pairs]


def _past(room: Box, wall: PlacedBody, axis: Axis | None) -> Stretches:
    """Return the shifts along an axis at which a room lies past an outer wall."""
    to = outwards(wall)
    if to is None:
        return ()
    box, out = wall.body.bounds, to.axis.index
    least, most = -math.inf, math.inf
    for k in range(3):
        from_mm, to_mm = box.low[k] - room.high[k], box.high[k] - room.low[k]
        if k == out:
            from_mm, to_mm = (to_mm, math.inf) if to.sign > 0 else (-math.inf, from_mm)
        if axis is not None and k == axis.index:
            least, most = max(least, from_mm), min(most, to_mm)
        elif not (from_mm <= 0.0 <= to_mm if k == out else from_mm < 0.0 < to_mm):
            return ()
    return ((least, most),) if least < most else ()
