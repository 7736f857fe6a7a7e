"""Whether cells interfere: whether their common part holds a small cube.

Each cell is worn down by the cube once: what remains are the places where the cube's
low corner may stand.  Two cells then interfere exactly where what remains of them
meets.  Depths taken at one x are no measure on steep faces, and faces that merely
touch leave slivers of full length; a cube tells both from real interference.
"""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

from layout.geometry.cells import HIGH, LOW, X0, X1, Floats

__all__ = [
    "CUBE_MM",
    "bound_at",
    "cells_interfere",
    "clear_below",
    "shared_depth",
    "worn",
]

CUBE_MM: Final = 1e-6
"""Edge of the cube; where the largest one is 1e-7 to 1e-5 either answer is right."""


def worn(rows: Floats, cube_mm: float) -> Floats:
    """Return where the low corner of a cube inside each cell may stand.

    Parameters
    ----------
    rows : array of shape (10, n), mm

    Returns
    -------
    array of shape (10, n), mm
        The same form; ``x1 < x0`` where the cell holds no such cube.
    """
    out = rows.copy()
    width = rows[X1] - rows[X0]
    wide = np.where(width > cube_mm, width, np.inf)
    out[X1] = np.where(width > cube_mm, rows[X1] - cube_mm, -np.inf)
    for axis in (1, 2):
        low, high = out[LOW[axis]], out[HIGH[axis]]
        _shorten(low, cube_mm / wide, np.maximum)
        _shorten(high, cube_mm / wide, np.minimum)
        high -= cube_mm
    for axis in (1, 2):
        _keep_open(out, axis)
    return out


def _shorten(bound: Floats, part: Floats, worst: np.ufunc) -> None:
    """Take the worse of the bound at s and at s + cube, over the shortened slab."""
    step = (bound[1] - bound[0]) * part
    bound[1] -= step
    bound += worst(step, 0.0)


def _keep_open(rows: Floats, axis: int) -> None:
    """Shorten each slab to where the low bound lies under the high one."""
    room = rows[HIGH[axis]] - rows[LOW[axis]]
    closing = (room < 0).any(axis=0)
    if not closing.any():
        return
    pick = np.flatnonzero(closing)
    start, stop = _where_open(room[0, pick], room[1, pick])
    rows[:, pick] = _shortened(rows[:, pick], start, stop)


def _where_open(at_start: Floats, at_end: Floats) -> tuple[Floats, Floats]:
    """Return the part of 0..1 where a linear value is >= 0; start > stop for none."""
    with np.errstate(divide="ignore", invalid="ignore"):
        root = at_start / (at_start - at_end)
    start = np.where(at_start >= 0, 0.0, np.where(at_end >= 0, root, 2.0))
    stop = np.where(at_end >= 0, 1.0, np.where(at_start >= 0, root, -1.0))
    return start, stop


def _shortened(rows: Floats, start: Floats, stop: Floats) -> Floats:
    """Return the rows over a part of their slab."""
    out = np.empty_like(rows)
    finite = np.where(np.isfinite(rows[X1]), rows[X1], rows[X0])
    for first in range(0, 10, 2):
        v0 = rows[first]
        v1 = finite if first == X0 else rows[first + 1]
        out[first] = v0 + (v1 - v0) * start
        out[first + 1] = v0 + (v1 - v0) * stop
    none = (start > stop) | ~np.isfinite(rows[X1])
    out[X1] = np.where(none, -np.inf, out[X1])
    return out


def cells_interfere(a: Floats, b: Floats) -> NDArray[np.bool_]:
    """Tell for each pair of worn cells whether they meet.

    Parameters
    ----------
    a, b : arrays of shape (10, n), mm
        Columns from :func:`worn`, pair by pair.
    """
    start, stop = shared_depth(a, b)
    for axis in (1, 2):
        for upper, lower in ((a, b), (b, a)):
            start, stop = clear_below(upper, lower, axis, depths=(start, stop))
    result: NDArray[np.bool_] = start <= stop
    return result


def shared_depth(a: Floats, b: Floats) -> tuple[Floats, Floats]:
    """Return the depths that both cells of each pair cover; start > stop for none."""
    return np.maximum(a[X0], b[X0]), np.minimum(a[X1], b[X1])


def clear_below(
    upper: Floats, lower: Floats, axis: int, *, depths: tuple[Floats, Floats]
) -> tuple[Floats, Floats]:
    """Shorten depths to where ``lower``'s low bound lies under ``upper``'s high one."""
    start, stop = depths
    room_start = bound_at(upper, HIGH[axis], start) - bound_at(lower, LOW[axis], start)
    room_stop = bound_at(upper, HIGH[axis], stop) - bound_at(lower, LOW[axis], stop)
    first, last = _where_open(room_start, room_stop)
    with np.errstate(invalid="ignore"):
        length = stop - start
        new_start = np.where(first > 0, start + length * first, start)
        new_stop = np.where(last < 1, start + length * last, stop)
    none = (first > last) | (start > stop)
    return np.where(none, np.inf, new_start), np.where(none, -np.inf, new_stop)


def bound_at(rows: Floats, which: slice, x: Floats) -> Floats:
    """Return a linear bound of each cell at one depth each."""
    ends = rows[which]
    with np.errstate(divide="ignore", invalid="ignore"):
        part = (x - rows[X0]) / (rows[X1] - rows[X0])
    part = np.where(np.isfinite(part), part, 0.0)
    value: Floats = ends[0] * (1 - part) + ends[1] * part
    return value
