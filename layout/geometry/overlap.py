"""What must give where two bodies interfere: the shortest shift that frees them."""

from __future__ import annotations

from typing import Final, TypeAlias

import numpy as np

from layout.geometry.body import Body
from layout.geometry.boxes import Boxes
from layout.geometry.cells import Floats, Ints, moved
from layout.geometry.gathered import MOST_CELL_PAIRS
from layout.geometry.interference import CUBE_MM, worn
from layout.geometry.relation import Overlap
from layout.geometry.shifts import free_shift, shift_intervals
from layout.geometry.space import Axis

__all__ = ["overlap"]

FREEING_CUBE_MM: Final = CUBE_MM / 10
"""Cube for which a shift must free two bodies: smaller, so rounding cannot undo it."""

_FRONTIER: Final = 2048
"""Cell pairs looked at together."""

_TIE_MM: Final = 1e-6
"""Shifts that differ by no more are equal (design: fixed)."""


def overlap(a: Body, b: Body) -> Overlap:
    """Return the shortest shift of b along one axis that frees two interfering bodies.

    The first such shift in each of the six directions counts, even where a longer one
    would make the bodies meet again.
    """
    rows = tuple(
        worn(moved(body.shape.cells, body.at_mm), FREEING_CUBE_MM) for body in (a, b)
    )
    candidates: list[tuple[Axis, int, float]] = []
    least_mm = np.inf
    a_boxes, b_boxes = (Boxes.around(each) for each in rows)
    for axis in (Axis.HEIGHT, Axis.WIDTH, Axis.DEPTH):  # the cheap ones first
        pairs = _abreast(a_boxes, b_boxes, axis)
        for sign in (1, -1):
            mm = _freeing(rows, pairs, (axis, sign), most_mm=least_mm + _TIE_MM)
            least_mm = min(least_mm, mm)
            candidates.append((axis, sign, mm))
    return _shortest(candidates)


BothRows: TypeAlias = tuple[Floats, ...]
"""Worn rows of a and of b."""


def _freeing(
    rows: BothRows, pairs: tuple[Ints, Ints], way: tuple[Axis, int], *, most_mm: float
) -> float:
    """Return the first freeing shift one way, or some shift longer than ``most_mm``.

    The shifts at which two cells' boxes meet bound those at which the cells do, so
    only pairs that may carry the reach further are looked at, the farthest first.
    """
    axis, sign = way
    i, j = pairs
    start, end = _boxes_meet(rows, pairs, way)
    reach, lows, highs = 0.0, np.empty(0), np.empty(0)
    left = np.flatnonzero(end > 0)
    while reach <= most_mm:
        left = left[end[left] > reach]
        near = left[start[left] <= reach]
        if not len(near):
            break
        if len(near) > _FRONTIER:
            near = near[np.argpartition(-end[near], _FRONTIER)[:_FRONTIER]]
        low, high = shift_intervals(rows[0][:, i[near]], rows[1][:, j[near]], axis)
        if sign < 0:
            low, high = -high, -low
        end[near] = -np.inf  # looked at
        lows, highs = np.append(lows, low), np.append(highs, high)
        lows, highs = lows[highs > reach], highs[highs > reach]
        reach = free_shift((np.append(lows, -1.0), np.append(highs, reach)), 1)
    return reach + FREEING_CUBE_MM if reach else 0.0


def _boxes_meet(
    rows: BothRows, pairs: tuple[Ints, Ints], way: tuple[Axis, int]
) -> tuple[Floats, Floats]:
    """Return from which to which shift one way the boxes of cell pairs meet."""
    axis, sign = way
    a, b = (Boxes.around(each).take(own) for each, own in zip(rows, pairs, strict=True))
    k = axis.index
    if sign > 0:
        return a.low[k] - b.high[k], a.high[k] - b.low[k]
    return b.low[k] - a.high[k], b.high[k] - a.low[k]


def _abreast(a: Boxes, b: Boxes, axis: Axis) -> tuple[Ints, Ints]:
    """Return the cell pairs whose boxes a shift along the axis may bring together."""
    across = [other.index for other in Axis if other is not axis]
    step = max(1, MOST_CELL_PAIRS // max(1, b.low.shape[1]))
    found = []
    for first in range(0, a.low.shape[1], step):
        part = slice(first, first + step)
        low = np.maximum(a.low[across, part, None], b.low[across, None, :])
        high = np.minimum(a.high[across, part, None], b.high[across, None, :])
        i, j = np.nonzero((low <= high).all(axis=0))
        found.append((i + first, j))
    i, j = (np.concatenate(each) for each in zip(*found, strict=True))
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
