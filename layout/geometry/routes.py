"""The shortest way through a space with boxes in it, among given corners."""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

import numpy as np
from numpy.typing import NDArray

from layout.geometry.cells import Floats
from layout.geometry.space import Box, Vector

__all__ = ["Routes", "rounded_mm"]

_GRAZE_MM: Final = 1e-6
"""How far a way may run inside a box and still only touch it."""

_FACE_MM: Final = 1e-9
"""How thick a face is, on which a way may run."""
_TRACE: Final = 1e-15


@dataclass(slots=True, eq=False)
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
    """

    boxes: Sequence[Box]
    corners: Sequence[Vector]
    _low: Floats = field(init=False)
    _high: Floats = field(init=False)
    _at: Floats = field(init=False)
    _seen: dict[int, Floats] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        low = np.array([each.low for each in self.boxes]).reshape(-1, 3)
        high = np.array([each.high for each in self.boxes]).reshape(-1, 3)
        self._low, self._high = low + _FACE_MM, high - _FACE_MM
        # numpy's own unique would load all of its masked arrays at start-up
        at = np.array(sorted(set(self.corners)), float).reshape(-1, 3)
        self._at = at[np.asarray(~self._within(at).any(axis=1))]

    def shortest(self, start: Vector, end: Vector) -> tuple[Vector, ...] | None:
        """Return the corners of the shortest way, ends included; None for no way.

        Boxes that hold an end do not bar the way: they are what it starts from.
        """
        ends = np.array([start, end])
        barring = np.asarray(~self._within(ends).any(axis=0))
        last, first = len(self._at), len(self._at) + 1
        to_end = np.append(self._sight(ends[1], self._at, barring), 0.0)
        places = np.vstack([self._at, ends[1:], ends[:1]])
        guess = np.linalg.norm(places - ends[1], axis=1)
        least = {first: 0.0}
        before: dict[int, int] = {}
        queue = [(float(guess[first]), first)]
        done: set[int] = set()
        while queue:
            _, here = heapq.heappop(queue)
            if here == last:
                return self._told(places, before, last)
            if here in done:
                continue
            done.add(here)
            away = (
                np.append(
                    self._sight(ends[0], self._at, barring),
                    self._sight(ends[0], ends[1:], barring),
                )
                if here == first
                else np.append(self._from(here), to_end[here])
            )
            for there in np.flatnonzero(np.isfinite(away)).tolist():
                reached = least[here] + float(away[there])
                if reached < least.get(there, math.inf):
                    least[there] = reached
                    before[there] = here
                    heapq.heappush(queue, (reached + float(guess[there]), there))
        return None

    def _told(
        self, places: Floats, before: dict[int, int], last: int
    ) -> tuple[Vector, ...]:
        out = [last]
        while out[-1] in before:
            out.append(before[out[-1]])
        points = places[out[::-1]].tolist()
        return tuple((x, y, z) for x, y, z in points)

    def _from(self, corner: int) -> Floats:
        """Return how far each corner is from one; infinite where a box is between."""
        if corner not in self._seen:
            every = np.ones(len(self._low), bool)
            self._seen[corner] = self._sight(self._at[corner], self._at, every)
        return self._seen[corner]

    def _within(self, points: Floats) -> NDArray[np.bool_]:
        """Return which points (rows) lie inside which boxes (columns)."""
        at = points[:, None, :]
        return np.asarray(((self._low < at) & (at < self._high)).all(axis=2))

    def _sight(self, start: Floats, ends: Floats, barring: NDArray[np.bool_]) -> Floats:
        """Return the distances from one point to others, infinite where barred."""
        low, high = self._low[barring] - start, self._high[barring] - start
        run = (ends - start)[:, None, :]
        length = np.linalg.norm(ends - start, axis=1)
        # A level run is taken as one of a trace: what it keeps out of stays far away.
        run = np.where(run == 0.0, _TRACE, run)
        one, other = low / run, high / run
        enters, leaves = np.minimum(one, other), np.maximum(one, other)
        inside = np.minimum(leaves.min(axis=2), 1.0) - np.maximum(
            enters.max(axis=2), 0.0
        )
        graze = _GRAZE_MM / np.maximum(length, _GRAZE_MM)
        barred = (inside > graze[:, None]).any(axis=1)
        return np.where(barred, np.inf, length)


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
