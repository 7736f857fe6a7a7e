"""What must give where two bodies interfere: the shortest shift that frees them."""

from __future__ import annotations

from typing import Final

import numpy as np

from layout.geometry.body import Body
from layout.geometry.boxes import Boxes
from layout.geometry.cells import Ints, moved
from layout.geometry.interference import CUBE_MM, worn
from layout.geometry.relation import Overlap
from layout.geometry.shifts import free_shift, shift_intervals
from layout.geometry.space import Axis

__all__ = ["overlap"]

FREEING_CUBE_MM: Final = CUBE_MM / 10
"""Cube for which a shift must free two bodies: smaller, so rounding cannot undo it."""

_TIE_MM: Final = 1e-6
"""Shifts that differ by no more are equal (design: fixed)."""


def overlap(a: Body, b: Body) -> Overlap:
    """Return the shortest shift of b along one axis that frees two interfering bodies.

    The first such shift in each of the six directions counts, even where a longer one
    would make the bodies meet again.
    """
    a_rows = worn(moved(a.shape.cells, a.at_mm), FREEING_CUBE_MM)
    b_rows = worn(moved(b.shape.cells, b.at_mm), FREEING_CUBE_MM)
    candidates = []
    for axis in Axis:
        i, j = _abreast(Boxes.around(a_rows), Boxes.around(b_rows), axis)
        intervals = shift_intervals(a_rows[:, i], b_rows[:, j], axis)
        candidates += [(axis, sign, free_shift(intervals, sign)) for sign in (1, -1)]
    return _shortest(candidates)


def _abreast(a: Boxes, b: Boxes, axis: Axis) -> tuple[Ints, Ints]:
    """Return the cell pairs whose boxes a shift along the axis may bring together."""
    across = [other.index for other in Axis if other is not axis]
    low = np.maximum(a.low[across, :, None], b.low[across, None, :])
    high = np.minimum(a.high[across, :, None], b.high[across, None, :])
    i, j = np.nonzero((low <= high).all(axis=0))
    return i, j


def _shortest(candidates: list[tuple[Axis, int, float]]) -> Overlap:
    """Return the shortest of the six freeing shifts as the overlap.

    Ties within 1e-6 mm go to depth, height, width, then to the positive sign.
    """
    least_mm = min(mm for _, _, mm in candidates)
    rank = {axis: axis.index for axis in Axis}
    ordered = sorted(candidates, key=lambda each: (rank[each[0]], -each[1]))
    axis, sign, mm = next(each for each in ordered if each[2] <= least_mm + _TIE_MM)
    return Overlap(axis=axis, mm=mm, sign=sign)
