"""What must give at many shifts at once, where both bodies are made of boxes."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from layout.geometry.bodies.body import Body
from layout.geometry.bodies.gathered import SURE_MM, Gathered
from layout.geometry.pairs.gap import is_box
from layout.geometry.pairs.interference import worn
from layout.geometry.pairs.runs import turns
from layout.geometry.relations.overlap import FREEING_CUBE_MM, freed, overlap
from layout.geometry.solids.boxes import Boxes, boxes_share
from layout.geometry.solids.cells import Floats, Ints, moved, spread
from layout.geometry.space import Direction, Vector

__all__ = ["least_mm", "overlaps_mm"]


def least_mm(cells: Gathered, index: Ints) -> Floats:
    """Return how far b must go at least, each way, to be free of a.

    The farthest of the boxes within cells that share room is a bound: with other cells
    on the way it may be farther, which :func:`overlap` tells at far more cost.

    Parameters
    ----------
    cells : Gathered
    index : array of shape (2, n)
        Which bodies are a and b.

    Returns
    -------
    array of shape (2, 3, n), mm
        Towards high coordinates and towards low ones, by axis.
    """
    far = np.zeros((2, 3, index.shape[1]))
    counts = cells.count.take(index)
    for turn in turns(np.multiply(*counts)):
        a_count, b_count = counts.take(turn, axis=1)
        pair, offset = spread(a_count * b_count)
        places = cells.start.take(index.take(turn, axis=1)).take(pair, axis=1)
        places += np.divmod(offset, b_count.take(pair))
        a, b = cells.inner.pairs(places)
        ahead, back = a.high - b.low, b.high - a.low
        shared = boxes_share(a, b, SURE_MM)
        ways = np.stack([ahead, back])[:, :, shared] - SURE_MM
        own = turn[pair[shared]]
        for way in np.ndindex(2, 3):
            np.maximum.at(far[way], own, ways[way])
    return far


def overlaps_mm(
    a: Body, b: Body, shifts_mm: Sequence[Vector], *, to: Direction | None = None
) -> Floats:
    """Return the length of the overlap at every shift of b, as :func:`overlap` does.

    Parameters
    ----------
    a : Body
        Stays where it is.
    b : Body
    shifts_mm : sequence of Vector
        Where b goes; the two must interfere at each.
    to : Direction, optional
        The one way in which b may be freed, as by :func:`freed`; default: any.

    Returns
    -------
    array of shape (n,), mm
    """
    if not len(shifts_mm):
        return np.empty(0)
    rows = tuple(moved(each.shape.cells, each.at_mm) for each in (a, b))
    if not all(is_box(each).all() for each in rows):
        there = [b.moved(each) for each in shifts_mm]
        told = [freed(a, each, to) if to else overlap(a, each) for each in there]
        return np.array([each.mm for each in told])
    still, going = (Boxes.around(worn(each, FREEING_CUBE_MM)) for each in rows)
    shifts = np.asarray(shifts_mm, float)
    # Shifts of b at which two cells meet along each axis, shape (3, n, cells, cells).
    low = still.low[:, None, :, None] - going.high[:, None, None, :]
    high = still.high[:, None, :, None] - going.low[:, None, None, :]
    low, high = (each - shifts.T[:, :, None, None] for each in (low, high))
    meets = (low <= 0.0) & (high >= 0.0)
    ways = [
        _first_free(*ends, along=meets[k - 2] & meets[k - 1])
        for k, sign in _ways(to)
        for ends in ((low[k], high[k]) if sign > 0 else (-high[k], -low[k]),)
    ]
    shortest: Floats = np.min(ways, axis=0)
    return shortest


def _ways(to: Direction | None) -> list[tuple[int, int]]:
    """Return the axes and signs of the one way, or of all six."""
    return [(w.axis.index, w.sign) for w in ([to] if to else [*Direction])]


def _first_free(low: Floats, high: Floats, *, along: NDArray[np.bool_]) -> Floats:
    """Return how far b must go, in one sense, until it lies in no interval."""
    count = len(low)
    low = np.where(along, low, np.inf).reshape(count, -1)
    high = np.where(along, high, -np.inf).reshape(count, -1)
    reach = np.zeros(count)
    while True:
        further = np.where(low <= reach[:, None], high, 0.0).max(axis=1, initial=0.0)
        if (further <= reach).all():
            return np.where(reach > 0.0, reach + FREEING_CUBE_MM, 0.0)
        reach = np.maximum(reach, further)
