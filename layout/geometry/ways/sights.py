"""Which places see each other past boxes, all at once."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from layout.geometry.solids.cells import Floats
from layout.geometry.space import Box

__all__ = ["GRAZE_MM", "TRACE", "Bars", "sights"]

GRAZE_MM: Final = 1e-6
"""How far a way may run inside a box and still only touch it."""
_FACE_MM: Final = 1e-9
"""How thick a face is, on which a way may run."""
TRACE: Final = 1e-15
"""A level run is taken as one of a trace: what it keeps out of stays far away."""
_ROWS: Final = 32
"""Places looked from at a time, so that the tables stay near the processor."""


class Bars:
    """Boxes that bar the way; their faces bar nothing."""

    __slots__ = ("high", "low")

    def __init__(self, boxes: Sequence[Box]) -> None:
        low = np.array([each.low for each in boxes], float).reshape(-1, 3)
        high = np.array([each.high for each in boxes], float).reshape(-1, 3)
        self.low: Floats = low + _FACE_MM
        self.high: Floats = high - _FACE_MM

    def holding(self, points: Floats) -> NDArray[np.bool_]:
        """Return which boxes (columns) hold which points (rows)."""
        at = points[:, None, :]
        return np.asarray(((self.low < at) & (at < self.high)).all(axis=2))

    def hold(self, points: Floats) -> NDArray[np.bool_]:
        """Return which points (rows) lie inside a box."""
        return np.asarray(self.holding(points).any(axis=1))


def sights(at: Floats, bars: Bars) -> Floats:
    """Return how far places (rows) are from each other; infinite where barred.

    Also infinite from a place to itself.
    """
    apart: Floats = np.sqrt(((at[:, None] - at[None]) ** 2).sum(axis=2))
    for start in range(0, len(at), _ROWS):
        stop = start + _ROWS
        later = apart[start:stop, start:]
        later[_barred(at[start:], bars, rows=len(later))] = np.inf
        apart[start:, start:stop] = later.T
    np.fill_diagonal(apart, np.inf)
    return apart


def _barred(at: Floats, bars: Bars, *, rows: int) -> NDArray[np.bool_]:
    """Return which of the first places are kept from which of all by a box."""
    one = at[:rows]
    runs = at.T[:, None, :] - one.T[:, :, None]
    apart = np.sqrt((runs**2).sum(axis=0))
    parts = 1.0 / np.where(runs == 0.0, TRACE, runs)
    low, high = at.min(axis=0), at.max(axis=0)
    between = (bars.low < high).all(axis=1) & (low < bars.high).all(axis=1)
    graze = GRAZE_MM / np.maximum(apart, GRAZE_MM)
    barred = np.zeros(apart.shape, bool)
    enters, leaves, near, far, least = np.empty((5, *apart.shape))
    for low, high in zip(bars.low[between], bars.high[between], strict=True):
        enters.fill(0.0)
        leaves.fill(1.0)
        for k, part in enumerate(parts):
            np.multiply(part, (low[k] - one[:, k])[:, None], out=near)
            np.multiply(part, (high[k] - one[:, k])[:, None], out=far)
            np.maximum(enters, np.minimum(near, far, out=least), out=enters)
            np.minimum(leaves, np.maximum(near, far, out=far), out=leaves)
        barred |= np.subtract(leaves, enters, out=leaves) > graze
    return barred
