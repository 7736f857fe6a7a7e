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

from layout.geometry.solids.cells import HIGH, LOW, X0, X1, Floats

__all__ = [
    "CUBE_MM",
    "bounds_at",
    "cells_interfere",
    "meeting_depths",
    "where_open",
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
    width = rows[X1] - rows[X0]
    holds = width > cube_mm
    part = np.divide(cube_mm, width, out=np.zeros_like(width), where=holds)
    out = rows.copy()
    out[X1] = np.where(holds, rows[X1] - cube_mm, -np.inf)
    bounds = out[2:].reshape(2, 2, 2, -1)  # axis, low or high, end of the slab
    step = (bounds[:, :, 1] - bounds[:, :, 0]) * part
    bounds[:, :, 1] -= step
    # The worse of the bound at s and at s + cube.
    bounds[:, 0] += np.maximum(step[:, 0], 0.0)[:, None]
    bounds[:, 1] += np.minimum(step[:, 1], 0.0)[:, None] - cube_mm
    return _kept_open(out)


def _kept_open(rows: Floats) -> Floats:
    """Return the rows, each slab shortened to where low bounds lie under high ones."""
    room = np.stack([rows[HIGH[1]] - rows[LOW[1]], rows[HIGH[2]] - rows[LOW[2]]])
    pick = np.flatnonzero((room < 0).any(axis=(0, 1)))
    if len(pick):
        start, stop = where_open(room[:, 0, pick], room[:, 1, pick])
        rows[:, pick] = _shortened(rows[:, pick], start.max(axis=0), stop.min(axis=0))
    return rows


def where_open(at_start: Floats, at_stop: Floats) -> tuple[Floats, Floats]:
    """Return the part of 0..1 where linear values are >= 0; start > stop for none.

    Examples
    --------
    >>> where_open(np.array([1.0, -1.0, -1.0]), np.array([-1.0, 3.0, -1.0]))
    (array([0.  , 0.25, 2.  ]), array([ 0.5,  1. , -1. ]))
    """
    fall = at_start - at_stop
    root = np.divide(at_start, fall, out=np.zeros_like(fall), where=fall != 0)
    opens, closes = at_start >= 0, at_stop >= 0
    start = np.where(opens, 0.0, np.where(closes, root, 2.0))
    stop = np.where(closes, 1.0, np.where(opens, root, -1.0))
    return start, stop


def _shortened(rows: Floats, start: Floats, stop: Floats) -> Floats:
    """Return the rows over a part of their slab."""
    ends = rows.reshape(5, 2, -1)
    x1 = np.where(np.isfinite(rows[X1]), rows[X1], rows[X0])
    first, last = ends[:, 0], np.concatenate([x1[None], ends[1:, 1]])
    out = np.stack([first + (last - first) * start, first + (last - first) * stop], 1)
    out = out.reshape(10, -1)
    out[X1] = np.where((start > stop) | ~np.isfinite(rows[X1]), -np.inf, out[X1])
    return out


def cells_interfere(rows: Floats) -> NDArray[np.bool_]:
    """Tell for each pair of worn cells whether they meet.

    Parameters
    ----------
    rows : array of shape (10, 2, n), mm
        Columns from :func:`worn`, both of each pair.
    """
    meet: NDArray[np.bool_] = np.maximum(*rows[X0]) <= np.minimum(*rows[X1])
    (pick,) = meet.nonzero()
    if len(pick):
        meet[pick] = _rooms_open(_rooms(rows.take(pick, axis=2)))
    return meet


def _rooms(rows: Floats) -> Floats:
    """Return how far each low bound lies under the other's high one.

    At both ends of the depth that the cells share: for y and z, a and b, shape
    (2, 2, 2, n), the ends coming second.
    """
    x0, x1 = rows[X0], rows[X1]
    width = x1 - x0
    part = np.empty((2, *x0.shape))
    np.subtract(np.maximum(*x0), x0, out=part[0])
    np.subtract(np.minimum(*x1), x0, out=part[1])
    part /= np.where(width > 0, width, 1.0)  # no width: there is but one place
    ends = rows[2:].reshape(4, 2, 1, 2, -1)
    bounds = ends[:, 0] * (1 - part) + ends[:, 1] * part
    rooms: Floats = bounds[1::2] - bounds[0::2, :, ::-1]
    return rooms


def _rooms_open(rooms: Floats) -> NDArray[np.bool_]:
    """Tell whether some depth has room all round."""
    first, last = rooms[:, 0].reshape(4, -1), rooms[:, 1].reshape(4, -1)
    least = np.minimum.reduce
    is_open: NDArray[np.bool_] = np.maximum(least(first), least(last)) >= 0
    between = least(np.maximum(first, last)) >= 0
    (pick,) = (between & ~is_open).nonzero()
    if len(pick):
        start, stop = where_open(first.take(pick, axis=1), last.take(pick, axis=1))
        is_open[pick] = start.max(axis=0) <= stop.min(axis=0)
    return is_open


def meeting_depths(
    a: Floats, b: Floats, axes: tuple[int, ...]
) -> tuple[Floats, Floats]:
    """Return the depths at which worn cells meet along axes; start > stop: none."""
    start, stop = np.maximum(a[X0], b[X0]), np.minimum(a[X1], b[X1])
    depths = np.stack([start, stop])
    (a_low, a_high), (b_low, b_high) = bounds_at(a, depths), bounds_at(b, depths)
    pick = [axis - 1 for axis in axes]
    room = np.concatenate([(a_high - b_low)[pick], (b_high - a_low)[pick]])
    first, last = where_open(room[:, 0], room[:, 1])
    part_start, part_stop = first.max(axis=0), last.min(axis=0)
    none = (part_start > part_stop) | (start > stop)
    length = np.where(none, 0.0, stop - start)
    ends = np.where(part_stop < 1, start + length * part_stop, stop)
    return (
        np.where(none, np.inf, start + length * part_start),
        np.where(none, -np.inf, ends),
    )


def bounds_at(rows: Floats, depths: Floats) -> tuple[Floats, Floats]:
    """Return low and high bounds of each cell at depths of its own.

    Parameters
    ----------
    rows : array of shape (10, n), mm
    depths : array of shape (m, n), mm

    Returns
    -------
    two arrays of shape (2, m, n), mm
        For y and z; at the slab's start where it has no width.
    """
    width = rows[X1] - rows[X0]
    there = np.isfinite(depths) & (width > 0)
    part = np.divide(depths - rows[X0], width, out=np.zeros_like(depths), where=there)
    ends = rows[2:].reshape(2, 2, 2, 1, -1)  # axis, low or high, end of the slab
    values = ends[:, :, 0] * (1 - part) + ends[:, :, 1] * part
    return values[:, 0], values[:, 1]
