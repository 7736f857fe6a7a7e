"""The shortest way through a space with boxes in it, among given corners."""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence
from dataclasses import field
from typing import Final

import numpy as np
from numpy.typing import NDArray

from layout.geometry.solids.cells import Floats
from layout.geometry.space import Box, Vector
from layout.geometry.ways.changed import Changed
from layout.geometry.ways.sights import GRAZE_MM, TRACE, Bars
from layout.values import dataclass

__all__ = ["Routes", "rounded", "rounded_mm"]


@dataclass(frozen=False, eq=False, slots=True)
class Routes:
    """Boxes that bar the way, and the corners at which a way may turn.

    A way runs straight from corner to corner and through no box; faces bar nothing.
    Of all ways over the corners the shortest is found; with the corners at the edges
    that a taut string bends about, it is a little longer than the string at most.

    Parameters
    ----------
    boxes : sequence of Box
    corners : sequence of Vector, mm
        Those inside a box are of no use and are left out.
    like : Routes, optional
        A space that is mostly the same: ways it has told are not looked for again
        where nothing that is other can change them.
    """

    boxes: Sequence[Box]
    corners: Sequence[Vector]
    like: Routes | None = None
    _bars: Bars = field(init=False)
    _at: Floats = field(init=False)
    _seen: dict[tuple[Vector, bytes], Floats] = field(init=False, default_factory=dict)
    _told: dict[tuple[Vector, Vector], tuple[Vector, ...] | None] = field(
        init=False, default_factory=dict
    )
    _changed: Changed | None = field(init=False, default=None)

    def __post_init__(self) -> None:
        self._bars = Bars(self.boxes)
        # numpy's own unique would load all of its masked arrays at start-up
        at = np.array(sorted(set(self.corners)), float).reshape(-1, 3)
        self._at = at[~self._bars.hold(at)]

    def holds(self, points: Floats) -> bool:
        """Tell whether any of some points (rows) lies inside a box."""
        return bool(self._bars.hold(points).any())

    def shortest(self, start: Vector, end: Vector) -> tuple[Vector, ...] | None:
        """Return the corners of the shortest way, ends included; None for no way.

        Boxes that hold an end do not bar the way: they are what it starts from.
        """
        ends = (start, end)
        if ends not in self._told:
            self._told[ends] = self._as_before(ends) or self._looked_for(start, end)
        return self._told[ends]

    def known(self, start: Vector, end: Vector) -> tuple[Vector, ...] | None:
        """Return the shortest way where it was asked for before; None for none."""
        return self._told.get((start, end))

    def _as_before(self, ends: tuple[Vector, Vector]) -> tuple[Vector, ...] | None:
        """Return the way that was the shortest in the other space, if it is so here."""
        known = self.like.known(*ends) if self.like is not None else None
        if self.like is None or known is None:
            return None
        if self._changed is None:
            self._changed = Changed.between(
                (self.like.boxes, self.boxes), (self.like.corners, self.corners)
            )
        return known if self._changed.leaves(known) else None

    def _looked_for(self, start: Vector, end: Vector) -> tuple[Vector, ...] | None:
        ends = np.array([start, end])
        barring = np.asarray(~self._bars.holding(ends).any(axis=0))
        every = np.ones(len(barring), bool)
        last, first = len(self._at), len(self._at) + 1
        to_end = np.append(self._from(end, barring), 0.0)
        places = np.vstack([self._at, ends[1:], ends[:1]])
        guess = np.linalg.norm(places - ends[1], axis=1)
        least = np.full(len(places), np.inf)
        least[first] = 0.0
        before: dict[int, int] = {}
        queue = [(float(guess[first]), first)]
        done: set[int] = set()
        while queue:
            _, here = heapq.heappop(queue)
            if here == last:
                return _told(places, before, last)
            if here in done:
                continue
            done.add(here)
            if here == first:
                direct = self._sight(ends[0], ends[1:], barring)
                away = np.append(self._from(start, barring), direct)
            else:
                x, y, z = self._at[here].tolist()
                away = np.append(self._from((x, y, z), every), to_end[here])
            reached = least[here] + away
            nearer = np.flatnonzero(reached < least[:first])
            least[nearer] = reached[nearer]
            before |= dict.fromkeys(nearer.tolist(), here)
            hopes = (reached + guess[:first])[nearer].tolist()
            for hope, there in zip(hopes, nearer.tolist(), strict=True):
                heapq.heappush(queue, (hope, there))
        return None

    def _from(self, place: Vector, barring: NDArray[np.bool_]) -> Floats:
        """Return how far each corner is from a place; infinite where a box is between.

        Many leads start and end at the same places: each is looked from once.
        """
        key = (place, barring.tobytes())
        if key not in self._seen:
            self._seen[key] = self._sight(np.array(place), self._at, barring)
        return self._seen[key]

    def _sight(self, start: Floats, ends: Floats, barring: NDArray[np.bool_]) -> Floats:
        """Return the distances from one point to others, infinite where barred."""
        bars = self._bars
        low, high = (bars.low[barring] - start).T, (bars.high[barring] - start).T
        run = (ends - start).T
        length = np.sqrt((run**2).sum(axis=0))
        part = 1.0 / np.where(run == 0.0, TRACE, run)
        enters, leaves = np.zeros((2, len(ends), low.shape[1]))
        leaves += 1.0
        for k in range(3):
            one, other = (
                np.multiply.outer(part[k], low[k]),
                np.multiply.outer(part[k], high[k]),
            )
            np.maximum(enters, np.minimum(one, other), out=enters)
            np.minimum(leaves, np.maximum(one, other), out=leaves)
        graze = GRAZE_MM / np.maximum(length, GRAZE_MM)
        barred = (leaves - enters > graze[:, None]).any(axis=1)
        return np.where(barred, np.inf, length)


def _told(places: Floats, before: dict[int, int], last: int) -> tuple[Vector, ...]:
    out = [last]
    while out[-1] in before:
        out.append(before[out[-1]])
    points = places[out[::-1]].tolist()
    return tuple((x, y, z) for x, y, z in points)


def rounded(points: Sequence[Vector], radius_mm: float) -> tuple[Vector, ...]:
    """Return a way with its corners rounded, as points close together on each arc.

    The radius is the largest that half of the shorter leg beside a corner allows, as
    in ``rounded_mm``.
    """
    at = np.array(points, float)
    out = [at[0]]
    for before, corner, after in zip(at, at[1:], at[2:], strict=False):
        legs = np.array([before - corner, after - corner])
        lengths = np.linalg.norm(legs, axis=1)
        if not lengths.all():
            continue
        one, other = legs / lengths[:, None]
        turn = math.pi - math.acos(max(-1.0, min(1.0, float(one @ other))))
        half = math.tan(min(turn, math.pi - 1e-9) / 2)
        cut_mm = min(radius_mm * half, float(lengths.min()) / 2)
        start, end = corner + cut_mm * one, corner + cut_mm * other
        # A parabola through the same ends and tangents: near enough for a drawing.
        for part in np.linspace(0.0, 1.0, _ARC_POINTS):
            a, b = start + part * (corner - start), corner + part * (end - corner)
            out.append(a + part * (b - a))
    out.append(at[-1])
    return tuple((float(x), float(y), float(z)) for x, y, z in out)


_ARC_POINTS: Final = 7


def rounded_mm(points: Sequence[Vector], radius_mm: float) -> float:
    """Return the length of a way whose corners are rounded, mm.

    Each corner gets the radius along the cable's middle, or the largest for which
    half of the shorter leg beside it suffices.

    Examples
    --------
    >>> round(rounded_mm([(0, 0, 0), (100, 0, 0), (100, 100, 0)], 10.0), 3)
    195.708
    """
    legs = np.diff(np.array(points, float), axis=0)
    lengths = np.linalg.norm(legs, axis=1)
    saved_mm = 0.0
    for k in range(len(legs) - 1):
        if min(lengths[k], lengths[k + 1]) == 0.0:
            continue
        cosine = float(legs[k] @ legs[k + 1] / (lengths[k] * lengths[k + 1]))
        turn = math.acos(max(-1.0, min(1.0, cosine)))
        half = math.tan(min(turn, math.pi - 1e-9) / 2)
        most_mm = float(min(lengths[k], lengths[k + 1])) / 2 / half if half else 0.0
        saved_mm += (2 * half - turn) * min(radius_mm, most_mm)
    return float(lengths.sum()) - saved_mm
