"""The shortest way of a stiff hose past boxes, with every bend at its least radius."""

from __future__ import annotations

import dataclasses
import heapq
import math
from collections.abc import Sequence
from dataclasses import field
from typing import Final, TypeAlias

import numpy as np

from layout.geometry.cells import Floats, Ints
from layout.geometry.routes import Routes
from layout.geometry.space import Box, Vector
from layout.geometry.turns import End
from layout.values import dataclass

__all__ = ["StiffWay", "StiffWays"]

_ARC: Final = np.linspace(0.0, 1.0, 9)[1:-1, None]
"""Where an arc is looked at for boxes in its way, as parts of its turn."""
_TRACE_MM: Final = 1e-6
_NEGLIGIBLE_MM: Final = 1e-9
"""Rounding of sums, under what the fit of a turn allows."""
_AT_CORNER: Final = 1.0 - (2.0 - math.pi / 2)
"""A radius less what an arc of a right angle saves over its corner, per radius."""
_SHARE: Final = (2.0 - math.pi / 2) / 2
"""What a turn saves at most of what it takes of one of its legs."""
_MOST_LEGS: Final = 800
"""Legs looked at in one search: a crowded case has thousands, the way at hand few."""
_LONGER: Final = (1.1, 1.5, 2.5)
"""Ways up to so many times the straight line are looked for in turn."""
_END: Final = -1

_Way: TypeAlias = tuple[int, ...]
"""Places in order; the last two tell what may follow."""

_Entry: TypeAlias = tuple[float, float, float, _Way]
"""What a way takes at least, what so far, and what its last turn took of its leg."""


@dataclass(frozen=True, slots=True)
class StiffWay:
    """Corners of a way from end to end, and its length with each of them rounded."""

    points: tuple[Vector, ...]
    mm: float


@dataclasses.dataclass(slots=True, eq=False)
class StiffWays:
    """The shortest ways of hoses of one radius between any of their ends.

    Parameters
    ----------
    boxes : sequence of Box
        What bars the way of a hose's middle: bodies, grown by half the hose.
    corners : sequence of Vector, mm
        Where ways may turn.
    ends : sequence of End
    radius_mm : float
        Least radius along a hose's middle.

    Notes
    -----
    At a corner a way turns by a right angle at most, on an arc of the radius that
    enters no box.  Both turns of a leg may share it unevenly, so long as what they
    take is no more than all of it.  So every way that is found can be laid; of the
    ways over these corners that can, it is the shortest.  The state of the search is a
    leg and what the turn at its beginning took, since both bound the turn at its end:
    of two ways over one leg a longer one counts that left more of it.
    """

    boxes: Sequence[Box]
    corners: Sequence[Vector]
    ends: Sequence[End]
    radius_mm: float
    _routes: Routes = field(init=False)
    _place: dict[Vector, int] = field(init=False)

    def __post_init__(self) -> None:
        turns = [each.turn(self.radius_mm) for each in self.ends]
        self._routes = Routes(self.boxes, [*self.corners, *turns])
        self._place = {at: k for k, at in enumerate(self._routes.places)}

    def between(self, start: End, end: End) -> StiffWay | None:
        """Return the shortest way from one of the ends to another; None for none.

        None as well where the search, which is bounded, has found none.
        """
        turns = [each.turn(self.radius_mm) for each in (start, end)]
        if any(turn not in self._place for turn in turns):
            return None
        if self._routes.shortest(*turns) is None:  # not even for a thread
            return None
        first, last = (self._place[turn] for turn in turns)
        straight_mm = math.dist(start.at_mm, end.at_mm)
        for longer in _LONGER:
            most_mm = longer * straight_mm
            search = _Search(
                self._routes, self.radius_mm, (start, end), first, last, most_mm
            )
            if longer > _LONGER[0]:
                search.look_back()
            if (found := search.shortest()) is not None:
                return found
        return None


@dataclass(frozen=True, slots=True, eq=False)
class _Legs:
    """Straight legs from one corner: where to, how long, which way.

    ``left_mm`` is what at least is left from the far end of each.
    """

    to: Ints
    mm: Floats
    along: Floats
    left_mm: Floats


@dataclasses.dataclass(slots=True, eq=False)
class _Search:
    """Legs between places, those first that promise the shortest way."""

    routes: Routes
    radius_mm: float
    ends: tuple[End, End]
    first: int
    last: int
    most_mm: float
    _at: Floats = field(init=False)
    _ahead: Floats = field(init=False)
    _back: Floats = field(init=False)
    _known: dict[int, _Legs] = field(init=False, default_factory=dict)
    _queue: list[_Entry] = field(init=False, default_factory=list)

    def __post_init__(self) -> None:
        self._at = np.array(self.routes.places)
        self._ahead = np.array(self.ends[1].at_mm) - self._at
        self._back = np.zeros(len(self._at))

    def look_back(self) -> None:
        """Work out what at least is left from every corner round what is between.

        Of a leg its turns take no more than all of it and than two radii, and save no
        more than a share of what they take: a leg counts at least the rest of it.
        """
        apart = np.linalg.norm(self._at - np.array(self.ends[0].at_mm), axis=1)
        apart += np.linalg.norm(self._ahead, axis=1)
        near = apart - self.radius_mm <= self.most_mm
        left = np.full(len(self._at), np.inf)
        left[self.last] = (1.0 - _SHARE) * (self.ends[1].out is not None)
        left[self.last] *= self.radius_mm
        open_, taken = near.copy(), 2 * self.radius_mm
        while np.isfinite(left[open_]).any():
            here = int(np.argmin(np.where(open_, left, np.inf)))
            open_[here] = False
            away = self.routes.seen_from(here)
            through = left[here] + away - _SHARE * np.minimum(away, taken)
            np.minimum(left, np.where(near, through, np.inf), out=left)
        self._back = left - _SHARE * self.radius_mm

    def shortest(self) -> StiffWay | None:
        """Return the shortest way."""
        begins_mm = 0.0 if self.ends[0].out is None else self.radius_mm
        self._onward((self.first,), begins_mm, 0.0)
        known: dict[_Way, list[tuple[float, float]]] = {}
        looked = 0
        while self._queue and looked < _MOST_LEGS:
            _, mm, taken_mm, way = heapq.heappop(self._queue)
            if way[-1] == _END:
                return self._told(way[:-1], mm)
            others = known.setdefault(way[-2:], [])
            if _beaten(mm, taken_mm, others) or not self._clears(way):
                continue
            others.append((mm, taken_mm))
            looked += 1
            if way[-1] == self.last:
                self._finish(way, mm, taken_mm)
            self._onward(way, mm, taken_mm)
        return None

    def _coming(self, way: _Way) -> tuple[Floats, float] | None:
        """Return the direction of the last leg, and its length."""
        begins = self.ends[0].out
        if len(way) == 1:
            return None if begins is None else (np.array(begins), self.radius_mm)
        leg = self._at[way[-1]] - self._at[way[-2]]
        mm = float(np.linalg.norm(leg))
        return leg / mm, mm

    def _onward(self, way: _Way, mm: float, taken_mm: float) -> None:
        """Note the legs that may follow a way, of whose last leg a turn took some."""
        legs = self._legs(way[-1])
        cost, tangent = legs.mm, np.zeros(len(legs.mm))
        fits = np.ones(len(legs.mm), bool)
        if (coming := self._coming(way)) is not None:
            tangent, saved = self._turned(legs.along @ coming[0])
            fits = tangent <= np.minimum(legs.mm, coming[1] - taken_mm) + _TRACE_MM
            cost = legs.mm - saved
        hope = mm + cost + legs.left_mm
        fits &= hope <= self.most_mm
        told = (hope, mm + cost, tangent, legs.to)
        onward = zip(*(each[fits].tolist() for each in told), strict=True)
        for hoped_mm, reached_mm, turned_mm, there in onward:
            entry = (hoped_mm, reached_mm, turned_mm, (*way, there))
            heapq.heappush(self._queue, entry)

    def _legs(self, here: int) -> _Legs:
        """Return the legs from a corner that no box bars, worked out once."""
        if here not in self._known:
            away = self.routes.seen_from(here)
            away[here] = np.inf
            begun = math.dist(self.ends[0].at_mm, self._at[here])
            to = np.flatnonzero(begun + away - self.radius_mm <= self.most_mm)
            mm = away[to]
            along = (self._at[to] - self._at[here]) / mm[:, None]
            left_mm = np.maximum(self._left(self._ahead[to], along), self._back[to])
            self._known[here] = _Legs(to, mm, along, left_mm)
        return self._known[here]

    def _left(self, ahead: Floats, along: Floats) -> Floats:
        """Return what at least is left from each corner, reached along a direction.

        Where the next arc begins, up to a radius before the corner, the rest is no
        shorter than straight; and no turn saves more than one of a right angle.
        """
        before = np.linalg.norm(ahead + self.radius_mm * along, axis=1)
        apart = np.linalg.norm(ahead, axis=1)
        least = np.maximum(before, apart + _AT_CORNER * self.radius_mm)
        left: Floats = least - self.radius_mm
        return left

    def _turned(self, cosine: Floats) -> tuple[Floats, Floats]:
        """Return what turns take of each leg (no end of it past 90), and save."""
        turn = np.arccos(np.clip(cosine, 0.0, 1.0))
        half = np.tan(turn / 2)
        tangent = np.where(cosine < -_TRACE_MM, np.inf, half * self.radius_mm)
        return tangent, (2 * half - turn) * self.radius_mm

    def _finish(self, way: _Way, mm: float, taken_mm: float) -> None:
        """Note a way that has reached the last corner, with its turn into the end."""
        out = self.ends[1].out
        if out is None:
            heapq.heappush(self._queue, (mm, mm, taken_mm, (*way, _END)))
            return
        into = -np.array(out)
        coming = self._coming(way)
        if coming is None:
            return
        tangent, saved = self._turned(into @ coming[0])
        if tangent > min(coming[1] - taken_mm, self.radius_mm) + _TRACE_MM:
            return
        if self._arc_clears(self._at[self.last], coming[0], into):
            whole = mm + self.radius_mm - float(saved)
            if whole <= self.most_mm:
                entry = (whole, whole, float(tangent), (*way, _END))
                heapq.heappush(self._queue, entry)

    def _clears(self, way: _Way) -> bool:
        """Tell whether the arc at the last corner but one enters no box."""
        coming = self._coming(way[:-1])
        if coming is None:
            return True
        leg = self._at[way[-1]] - self._at[way[-2]]
        out = leg / np.linalg.norm(leg)
        return self._arc_clears(self._at[way[-2]], coming[0], out)

    def _arc_clears(self, corner: Floats, into: Floats, out: Floats) -> bool:
        cosine = float(np.clip(into @ out, -1.0, 1.0))
        turn = math.acos(cosine)
        if turn < _TRACE_MM:
            return True
        inwards = (out - cosine * into) / math.sin(turn)
        start = corner - self.radius_mm * math.tan(turn / 2) * into
        along = np.sin(turn * _ARC) * into + (1.0 - np.cos(turn * _ARC)) * inwards
        return not self.routes.holds(start + self.radius_mm * along)

    def _told(self, way: _Way, mm: float) -> StiffWay:
        begun, ended = self.ends
        places = [self.routes.places[k] for k in way]
        before = [begun.at_mm] if begun.out is not None else []
        after = [ended.at_mm] if ended.out is not None else []
        return StiffWay((*before, *places, *after), mm)


def _beaten(mm: float, taken_mm: float, others: Sequence[tuple[float, float]]) -> bool:
    """Tell whether a way over the same leg is no longer and took no more of it."""
    return any(
        length <= mm + _NEGLIGIBLE_MM and taken <= taken_mm + _NEGLIGIBLE_MM
        for length, taken in others
    )
