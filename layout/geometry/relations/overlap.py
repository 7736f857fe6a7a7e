"""What must give where two bodies interfere: the shortest shift that frees them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, TypeAlias

import numpy as np

from layout.geometry.bodies.body import Body
from layout.geometry.pairs.gap import is_box
from layout.geometry.pairs.interference import CUBE_MM, worn
from layout.geometry.pairs.runs import Spans, joined
from layout.geometry.pairs.shifts import Intervals, free_shift, shift_intervals
from layout.geometry.relations.relation import Overlap
from layout.geometry.solids.boxes import Boxes
from layout.geometry.solids.cells import Floats, Ints, moved
from layout.geometry.space import Axis, Direction
from layout.values import dataclass

__all__ = ["freed", "overlap"]

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
    rows = _rows(a, b)
    boxes = tuple(Boxes.around(each) for each in rows)
    if all(each.shape[1] == 1 and is_box(each).all() for each in rows):
        return _shortest(_of_boxes(*boxes))
    candidates: list[_Candidate] = []
    least_mm = np.inf
    for axis in (Axis.HEIGHT, Axis.WIDTH, Axis.DEPTH):  # the cheap ones first
        pairs = _abreast(boxes, axis)
        for sign in (1, -1):
            most_mm = least_mm + _TIE_MM
            mm = _freeing(rows, pairs, (axis, sign), most_mm=most_mm)
            least_mm = min(least_mm, mm)
            candidates.append((axis, sign, mm))
    return _shortest(candidates)


def _of_boxes(a: Boxes, b: Boxes) -> list[_Candidate]:
    """Return the freeing shifts of two boxes: past either end of the other."""
    ends = zip(Axis, a.high - b.low, b.high - a.low, strict=True)
    return [
        (axis, sign, float(mm[0]) + FREEING_CUBE_MM if mm[0] > 0.0 else 0.0)
        for axis, ahead, back in ends
        for sign, mm in ((1, ahead), (-1, back))
    ]


def freed(a: Body, b: Body, to: Direction) -> Overlap:
    """Return the first shift of b one way that frees two bodies; 0 where none must.

    It says how much must give where only one way makes sense: a wall that a part
    sticks through is not freed by setting it behind the part.

    Examples
    --------
    >>> from layout.geometry.bodies.body import Shape
    >>> from layout.geometry.solids.solid import block
    >>> part = Body(name="a", shape=Shape((block((0, 9), (0, 9), (0, 9)),)))
    >>> wall = Body(name="b", shape=Shape((block((0, 9), (0, 9), (5, 6)),)))
    >>> round(freed(part, wall, Direction.PANEL).mm, 3)
    4.0
    """
    rows = _rows(a, b)
    pairs = _abreast((Boxes.around(rows[0]), Boxes.around(rows[1])), to.axis)
    mm = _freeing(rows, pairs, (to.axis, to.sign), most_mm=np.inf)
    return Overlap(axis=to.axis, mm=mm, sign=to.sign)


def _rows(a: Body, b: Body) -> BothRows:
    """Return the cells of both, worn so that rounding cannot undo a shift."""
    return tuple(
        worn(moved(body.shape.cells, body.at_mm), FREEING_CUBE_MM) for body in (a, b)
    )


_Candidate: TypeAlias = tuple[Axis, int, float]
"""An axis, the sense along it, and the first freeing shift that way, mm."""
BothRows: TypeAlias = tuple[Floats, ...]
"""Worn rows of a and of b."""


@dataclass(frozen=True, slots=True, eq=False)
class _Pairs:
    """Cells i of a and j of b, and from which to which shift of b their boxes meet."""

    i: Ints
    j: Ints
    low: Floats
    high: Floats


def _freeing(
    rows: BothRows, pairs: _Pairs, way: tuple[Axis, int], *, most_mm: float
) -> float:
    """Return the first freeing shift one way, or some shift longer than ``most_mm``.

    The shifts at which two cells' boxes meet bound those at which the cells do, so
    only pairs that may carry the reach further are looked at, the farthest first.
    """
    axis, sign = way
    i, j = pairs.i, pairs.j
    start, end = _turned((pairs.low, pairs.high), sign)
    reach, lows, highs = 0.0, np.empty(0), np.empty(0)
    left = np.flatnonzero(end > 0)
    while reach <= most_mm:
        left = left[end[left] > reach]
        near = left[start[left] <= reach]
        if not len(near):
            break
        if len(near) > _FRONTIER:
            near = near[np.argpartition(-end[near], _FRONTIER)[:_FRONTIER]]
        met = shift_intervals(rows[0][:, i[near]], rows[1][:, j[near]], axis)
        low, high = _turned(met, sign)
        end[near] = -np.inf  # looked at
        lows, highs = np.append(lows, low), np.append(highs, high)
        lows, highs = lows[highs > reach], highs[highs > reach]
        reach = free_shift((np.append(lows, -1.0), np.append(highs, reach)), 1)
    return reach + FREEING_CUBE_MM if reach else 0.0


def _turned(shifts: Intervals, sign: int) -> Intervals:
    """Return intervals of shifts as seen one way: a copy that may be written to."""
    low, high = shifts
    return (low.copy(), high.copy()) if sign > 0 else (-high, -low)


def _abreast(boxes: tuple[Boxes, ...], axis: Axis) -> _Pairs:
    """Return the cell pairs that a shift along the axis may bring together."""
    a, b = boxes
    first, second = sorted(
        (other.index for other in Axis if other is not axis), key=_spread_of(boxes)
    )
    found = []
    for i, j in joined(_spans(a, first), _spans(b, first)):
        low = np.maximum(a.low[second, i], b.low[second, j])
        keep = low <= np.minimum(a.high[second, i], b.high[second, j])
        found.append((i[keep], j[keep]))
    none = np.empty(0, np.intp)
    i, j = (np.concatenate(each) for each in zip((none, none), *found, strict=True))
    k = axis.index
    return _Pairs(i, j, a.low[k, i] - b.high[k, j], a.high[k, i] - b.low[k, j])


def _spans(boxes: Boxes, k: int) -> Spans:
    return Spans(np.zeros(boxes.low.shape[1], np.intp), boxes.low[k], boxes.high[k])


def _spread_of(boxes: tuple[Boxes, ...]) -> Callable[[int], float]:
    """Return how long cells are along an axis, against all of them together."""
    low, high = (
        np.concatenate([getattr(each, end) for each in boxes], axis=1)
        for end in ("low", "high")
    )
    long = np.maximum(high - low, 0.0).mean(axis=1) / (high.max(1) - low.min(1))
    return lambda k: float(long[k])


def _shortest(candidates: list[_Candidate]) -> Overlap:
    """Return the shortest of the six freeing shifts as the overlap.

    Ties within 1e-6 mm go to depth, height, width, then to the positive sign.
    """
    least_mm = min(mm for _, _, mm in candidates)
    rank = {axis: axis.index for axis in Axis}
    ordered = sorted(candidates, key=lambda each: (rank[each[0]], -each[1]))
    axis, sign, mm = next(each for each in ordered if each[2] <= least_mm + _TIE_MM)
    return Overlap(axis=axis, mm=mm, sign=sign)
