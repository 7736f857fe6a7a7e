"""The shortest way of a stiff hose past boxes, with every bend at its least radius."""

from __future__ import annotations

import heapq
import math
from collections.abc import Iterator, Sequence
from dataclasses import field
from itertools import islice
from typing import Final, TypeAlias

import numpy as np

from layout.geometry.solids.cells import Floats
from layout.geometry.space import Box, Vector
from layout.geometry.ways.keep_off import Laid
from layout.geometry.ways.legs import TRACE_MM, Legs, turned
from layout.geometry.ways.sights import Bars, sights
from layout.geometry.ways.turns import End, arc, bent
from layout.values import dataclass

__all__ = ["StiffWay", "StiffWays"]

_NEGLIGIBLE_MM: Final = 1e-9
"""Rounding of sums, under what the fit of a turn allows."""
_LONGER: Final = 1.03, 1.15
"""Ways up to so many times the least are looked for first, then so much longer ones."""
_MOST_LEGS: Final = 250
"""Legs looked at past another hose, beside which many ways are nearly as long."""
_FEW: Final = 50
"""Legs that tell whether a hose gets away from its port at all."""
_MOST: Final = 2.5
"""How many times the straight line a way takes at most, unless told otherwise."""

_Way: TypeAlias = tuple[int, ...]
"""Places in order; the last two tell what may follow."""

_Entry: TypeAlias = tuple[float, float, float, _Way]
"""What a way takes at least, what so far, and what its last turn took of its leg."""


@dataclass(frozen=True, slots=True)
class StiffWay:
    """Corners of a way from end to end, and its length with each of them rounded."""

    points: tuple[Vector, ...]
    mm: float


@dataclass(frozen=False, eq=False, slots=True)
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
    beyond_mm : float
        How much farther than a radius a hose may go straight on from its port.

    Notes
    -----
    At a corner a way turns by a right angle at most, on an arc of the radius that
    enters no box.  Both turns of a leg may share it unevenly, so long as what they
    take is no more than all of it.  So every way that is found can be laid; of the
    ways over these corners that can, it is the shortest, and where none is found
    there is none up to the length that was asked.
    """

    boxes: Sequence[Box]
    corners: Sequence[Vector]
    ends: Sequence[End]
    radius_mm: float
    beyond_mm: float = 0.0
    _bars: Bars = field(init=False)
    _at: Floats = field(init=False)
    _mm: Floats = field(init=False)
    _place: dict[End, int] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        self._bars = Bars(self.boxes)
        turns = [each.turn(self.radius_mm) for each in self.ends]
        farther = [each.turn(self.radius_mm + self.beyond_mm) for each in self.ends]
        # numpy's own unique would load all of its masked arrays at start-up
        at = np.array(sorted({*self.corners, *turns, *farther}), float).reshape(-1, 3)
        at = at[~self._bars.hold(at)]
        place = {(x, y, z): k for k, (x, y, z) in enumerate(at.tolist())}
        begun = [
            (each, place[turn])
            for each, turn in zip(self.ends, turns, strict=True)
            if turn in place
        ]
        self._place = {each: k for each, k in begun if each.out is None}
        ported = [(each, k) for each, k in begun if each.out is not None]
        self._place |= {each: len(at) + n for n, (each, _) in enumerate(ported)}
        self._mm = np.full((len(at) + len(ported),) * 2, np.inf)
        self._mm[: len(at), : len(at)] = sights(at, self._bars)
        for each, k in ported:
            self._open(self._place[each], k, self.radius_mm)
            far_mm = self.radius_mm + self.beyond_mm
            if np.isfinite(self._mm[k, there := place.get(each.turn(far_mm), k)]):
                self._open(self._place[each], there, far_mm)
        ports = np.array([each.at_mm for each, _ in ported]).reshape(-1, 3)
        self._at = np.vstack([at, ports])

    def _open(self, port: int, turn: int, mm: float) -> None:
        self._mm[port, turn] = self._mm[turn, port] = mm

    def between(
        self,
        start: End,
        end: End,
        most_mm: float | None = None,
        *,
        past: Laid | None = None,
    ) -> StiffWay | None:
        """Return the shortest way from one of the ends to another.

        None where there is none of so many mm (by default of some straight lines).
        Past a hose that lies already, also where it is not found soon.
        """
        if start not in self._place or end not in self._place:
            return None
        # from a port, which leaves a hose few ways, towards an elbow
        turn = start.out is None
        first, last = (self._place[each] for each in ((start, end)[:: 1 - 2 * turn]))
        legs = Legs(self._at, self._mm.copy(), self.radius_mm, first, last)
        straight_mm = math.dist(start.at_mm, end.at_mm)
        longest_mm = _MOST * straight_mm if most_mm is None else most_mm
        if legs.least_mm > longest_mm:
            return None
        bounds = iter([longest_mm])
        if past is None:
            bounds = _bounds(max(straight_mm, legs.least_mm), longest_mm)
        for tried, bound_mm in enumerate(bounds):
            if tried == 1 and _Search(legs, self._bars).ends_soon():
                return None
            legs.keep(bound_mm, past)
            if found := _Search(legs, self._bars, bound_mm, past).shortest():
                points = [_vector(self._at[k]) for k in found[0]]
                return StiffWay(tuple(points[:: 1 - 2 * turn]), found[1])
        return None


def _bounds(least_mm: float, longest_mm: float) -> Iterator[float]:
    """Yield up to which lengths ways are looked for in turn: most are not far round."""
    first, step = _LONGER
    bound_mm = first * least_mm
    while bound_mm < longest_mm:
        yield bound_mm
        bound_mm *= step
    yield longest_mm


@dataclass(frozen=False, eq=False, slots=True)
class _Search:
    """Legs between places, those first that promise the shortest way.

    The state of the search is a leg and what the turn at its beginning took, since
    both bound the turn at its end: of two ways over one leg a longer one counts that
    left more of it.
    """

    legs: Legs
    bars: Bars
    most_mm: float = math.inf
    past: Laid | None = None
    _queue: list[_Entry] = field(init=False, default_factory=list)

    def shortest(self) -> tuple[_Way, float] | None:
        """Return the places of the shortest way, and its length."""
        for way, mm in self._laid():
            if way[-1] == self.legs.last:
                return way, mm
        return None

    def ends_soon(self) -> bool:
        """Tell whether few legs can be laid from the first place, and none arrives.

        Then there is no way of any length: mostly what stands beside a port lets no
        hose out.
        """
        self.legs.keep_all()
        found = [*islice(self._laid(), _FEW)]
        return len(found) < _FEW and all(w[-1] != self.legs.last for w, _ in found)

    def _laid(self) -> Iterator[tuple[_Way, float]]:
        """Yield ways that can be laid over one leg each, the most promising first."""
        known: dict[_Way, list[tuple[float, float]]] = {}
        self._onward((self.legs.first,), 0.0, 0.0)
        looked = 0
        while self._queue and (self.past is None or looked < _MOST_LEGS):
            looked += 1
            _, mm, taken_mm, way = heapq.heappop(self._queue)
            others = known.setdefault(way[-2:], [])
            if _beaten(mm, taken_mm, others) or not self._clears(way):
                continue
            if self.past and not self.past.clear_of(self._last(way)):
                continue
            others.append((mm, taken_mm))
            yield way, mm
            if way[-1] != self.legs.last:
                self._onward(way, mm, taken_mm)

    def _onward(self, way: _Way, mm: float, taken_mm: float) -> None:
        """Note the legs that may follow a way, of whose last leg a turn took some."""
        legs, here = self.legs, way[-1]
        to = np.flatnonzero(legs.kept[here])
        cost = legs.mm[here, to]
        takes, fits = np.zeros(len(to)), np.ones(len(to), bool)
        if len(way) > 1:
            come_mm = float(legs.mm[way[-2], here])
            coming = (legs.at[here] - legs.at[way[-2]]) / come_mm
            going = (legs.at[to] - legs.at[here]) / cost[:, None]
            takes, saves = turned(going @ coming, legs.radius_mm)
            fits = takes <= np.minimum(cost, come_mm - taken_mm) + TRACE_MM
            cost = cost - saves
        hope = mm + cost + legs.left_mm[here, to]
        fits &= hope <= self.most_mm
        told = (hope, mm + cost, takes, to)
        onward = zip(*(each[fits].tolist() for each in told), strict=True)
        for hoped_mm, reached_mm, turned_mm, there in onward:
            entry = (hoped_mm, reached_mm, turned_mm, (*way, there))
            heapq.heappush(self._queue, entry)

    def _clears(self, way: _Way) -> bool:
        """Tell whether the arc at the last corner but one enters no box."""
        if len(way[-3:]) < len(("from", "corner", "to")):
            return True
        turn = arc(*self.legs.at[[*way[-3:]]], radius_mm=self.legs.radius_mm)
        return turn is None or not self.bars.hold(turn[1:-1]).any()

    def _last(self, way: _Way) -> tuple[Vector, ...]:
        """Return what the last leg but one and its turn add to a bent way."""
        points = [_vector(each) for each in self.legs.at[[*way[-4:]]]]
        line = bent(points, self.legs.radius_mm)
        if len(points) == len(("from", "before", "corner", "to")):
            before = bent(points[:-1], self.legs.radius_mm)
            line = line[len(before) - 2 :]
        return line if way[-1] == self.legs.last else (line[0], *line[1:-1])


def _vector(at: Floats) -> Vector:
    x, y, z = at.tolist()
    return x, y, z


def _beaten(mm: float, taken_mm: float, others: Sequence[tuple[float, float]]) -> bool:
    """Tell whether a way over the same leg is no longer and took no more of it."""
    return any(
        length <= mm + _NEGLIGIBLE_MM and taken <= taken_mm + _NEGLIGIBLE_MM
        for length, taken in others
    )
