"""Axis-parallel boxes in bulk: the cheap test that rules out most pairs."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from layout.geometry.solids.cells import HIGH, LOW, X0, X1, Floats, Ints
from layout.geometry.space import Box
from layout.values import dataclass

__all__ = ["Boxes", "box_gaps", "boxes_share"]


@dataclass(frozen=True, slots=True, eq=False)
class Boxes:
    """Low and high corners, each of shape (3, n), mm: an axis a row, for speed."""

    low: Floats
    high: Floats

    @classmethod
    def around(cls, rows: Floats) -> Boxes:
        """Return the box of each cell."""
        low = [rows[X0], np.minimum(*rows[LOW[1]]), np.minimum(*rows[LOW[2]])]
        high = [rows[X1], np.maximum(*rows[HIGH[1]]), np.maximum(*rows[HIGH[2]])]
        return cls(np.array(low), np.array(high))

    @classmethod
    def within(cls, rows: Floats) -> Boxes:
        """Return the largest box of full depth inside each cell, or one turned over."""
        low = [rows[X0], np.maximum(*rows[LOW[1]]), np.maximum(*rows[LOW[2]])]
        high = [rows[X1], np.minimum(*rows[HIGH[1]]), np.minimum(*rows[HIGH[2]])]
        return cls(np.array(low), np.array(high))

    def merged(self, start: Ints) -> Boxes:
        """Return the box around each run of boxes, given where the runs start."""
        return Boxes(
            np.minimum.reduceat(self.low, start, axis=1),
            np.maximum.reduceat(self.high, start, axis=1),
        )

    def told(self) -> list[Box]:
        """Return the boxes as values."""
        low, high = self.low.T.tolist(), self.high.T.tolist()
        return [
            Box(*ends) for ends in zip(map(tuple, low), map(tuple, high), strict=True)
        ]

    def take(self, pick: Ints) -> Boxes:
        """Return the chosen boxes."""
        return Boxes(self.low.take(pick, axis=1), self.high.take(pick, axis=1))

    def pairs(self, index: Ints) -> tuple[Boxes, Boxes]:
        """Return both boxes of each pair, index of shape (2, n)."""
        low, high = self.low.take(index, axis=1), self.high.take(index, axis=1)
        return Boxes(low[:, 0], high[:, 0]), Boxes(low[:, 1], high[:, 1])


def box_gaps(a: Boxes, b: Boxes) -> Floats:
    """Return the distance between boxes, pair by pair, mm."""
    apart = np.maximum(b.low - a.high, a.low - b.high)
    np.maximum(apart, 0.0, out=apart)
    apart *= apart
    gaps: Floats = apart[0] + apart[1]
    gaps += apart[2]
    return np.sqrt(gaps, out=gaps)


def boxes_share(a: Boxes, b: Boxes, depth_mm: float) -> NDArray[np.bool_]:
    """Tell whether boxes overlap by more than a depth along every axis."""
    depth = np.minimum(a.high, b.high) - np.maximum(a.low, b.low)
    share: NDArray[np.bool_] = np.logical_and.reduce(depth > depth_mm)
    return share
