"""Lines as dots on squares of paper: what a box surely lies on is told at once.

Every square counts the dots in it, so that a sum over the squares that lie wholly in a
box tells without a search whether a line runs there; what is told to be on none may
still touch one.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from layout.drawing.paper.boxes import Frame

__all__ = ["Dots"]

_SQUARE_MM = 1.0
_APART_MM = 0.7
"""How far apart the dots of a line are: no further than a square is wide."""


class Dots:
    """Dots along straight pieces, counted on the squares of a frame.

    Parameters
    ----------
    frame : Frame
        What lies out of it is not counted.
    pieces : array (n, 2, 2), mm
    """

    def __init__(self, frame: Frame, pieces: NDArray[np.float64]) -> None:
        left, bottom, right, top = frame
        self._at = np.array((left, bottom))
        span = np.array((right - left, top - bottom))
        self._size = np.maximum(np.ceil(span / _SQUARE_MM).astype(np.intp), 1)
        square = np.floor((_along(pieces) - self._at) / _SQUARE_MM).astype(np.intp)
        square = square[((square >= 0) & (square < self._size)).all(axis=1)]
        wide, high = self._size.tolist()
        counts = np.bincount(square[:, 0] * high + square[:, 1], minlength=wide * high)
        self._below = np.zeros((wide + 1, high + 1), dtype=np.intp)
        self._below[1:, 1:] = counts.reshape(wide, high).cumsum(axis=0).cumsum(axis=1)

    def on(self, boxes: NDArray[np.float64]) -> NDArray[np.bool_]:
        """Tell which boxes, (n, 4), surely meet a piece."""
        most = self._size
        low = np.ceil((boxes[:, :2] - self._at) / _SQUARE_MM).astype(np.intp)
        high = np.floor((boxes[:, 2:] - self._at) / _SQUARE_MM).astype(np.intp)
        (x0, y0), (x1, y1) = low.clip(0, most).T, high.clip(0, most).T
        below = self._below
        inside = below[x1, y1] - below[x0, y1] - below[x1, y0] + below[x0, y0]
        on: NDArray[np.bool_] = (inside > 0) & (x0 < x1) & (y0 < y1)
        return on


def _along(pieces: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return dots along pieces, both ends among them."""
    along = pieces[:, 1] - pieces[:, 0]
    gaps = np.ceil(np.hypot(along[:, 0], along[:, 1]) / _APART_MM).astype(np.intp)
    dots = gaps + 1
    of = np.repeat(np.arange(len(pieces)), dots)
    nth = np.arange(len(of)) - np.repeat(np.cumsum(dots) - dots, dots)
    share = nth / np.maximum(gaps, 1)[of]
    dotted: NDArray[np.float64] = pieces[of, 0] + share[:, None] * along[of]
    return dotted
