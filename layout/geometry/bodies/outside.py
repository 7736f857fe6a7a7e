"""What of a body lies outside a box: where a mated part may not enter another."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from layout.geometry.solids.boxes import Boxes
from layout.geometry.solids.cells import HIGH, LOW, X0, X1, Cells, Floats
from layout.geometry.space import Box

__all__ = ["outside"]


def outside(cells: Cells, box: Box) -> Cells:
    """Return the cells of what lies outside an axis-parallel box; may be none.

    Parameters
    ----------
    cells : Cells, mm
    box : Box, mm
        In the same axes as the cells.
    """
    near = _near(cells.rows, box)
    if not near.any():
        return cells
    rows = _split(cells.rows[:, near], box)
    x = rows[X0] + rows[X1]
    within = (x >= 2 * box.low[0]) & (x <= 2 * box.high[0])
    kept, rest = [cells.rows[:, ~near], rows[:, ~within]], rows[:, within]
    for axis in (1, 2):
        kept.append(_held(rest, axis, (-np.inf, box.low[axis])))
        kept.append(_held(rest, axis, (box.high[axis], np.inf)))
        rest = _held(rest, axis, (box.low[axis], box.high[axis]))
    return Cells(np.concatenate(kept, axis=1))


def _near(rows: Floats, box: Box) -> NDArray[np.bool_]:
    """Tell which cells may share some of the box: only those need be cut."""
    around = Boxes.around(rows)
    low, high = (np.array(ends)[:, None] for ends in (box.low, box.high))
    return np.asarray(((around.low < high) & (low < around.high)).all(axis=0))


def _split(rows: Floats, box: Box) -> Floats:
    """Cut cells at the box's ends in x, and where a bound crosses one of its faces."""
    rows = _split_at(rows, np.full(rows.shape[1], box.low[0]))
    rows = _split_at(rows, np.full(rows.shape[1], box.high[0]))
    for axis in (1, 2):
        for level in (box.low[axis], box.high[axis]):
            for bound in (LOW[axis], HIGH[axis]):
                ends = rows[bound]
                if (ends[0] != ends[1]).any():
                    rows = _split_at(rows, _reached(rows, ends, level))
    return rows


def _reached(rows: Floats, ends: Floats, level: float) -> Floats:
    """Return the depth at which a linear bound reaches a level (NaN: never)."""
    rise = ends[1] - ends[0]
    part = np.divide(
        level - ends[0], rise, out=np.full_like(rise, np.nan), where=rise != 0
    )
    depth: Floats = rows[X0] + part * (rows[X1] - rows[X0])
    return depth


def _split_at(rows: Floats, x: Floats) -> Floats:
    """Cut each cell at a depth of its own, where that lies inside it."""
    inner = (x > rows[X0]) & (x < rows[X1])
    if not inner.any():
        return rows
    cut_rows, at = rows[:, inner], x[inner]
    part = (at - cut_rows[X0]) / (cut_rows[X1] - cut_rows[X0])
    front, back = cut_rows.copy(), cut_rows.copy()
    for first in range(0, 10, 2):
        middle = cut_rows[first] * (1 - part) + cut_rows[first + 1] * part
        back[first + 1] = front[first] = middle
    back[X1] = front[X0] = at
    return np.concatenate([rows[:, ~inner], back, front], axis=1)


def _held(rows: Floats, axis: int, between: tuple[float, float]) -> Floats:
    """Return the part of each cell between two levels; bounds cross none of them."""
    out = rows.copy()
    out[LOW[axis]] = np.maximum(out[LOW[axis]], between[0])
    out[HIGH[axis]] = np.minimum(out[HIGH[axis]], between[1])
    middle = out[HIGH[axis]].sum(axis=0) - out[LOW[axis]].sum(axis=0)
    held: Floats = out[:, middle > 0]
    return held
