"""The cells of many bodies in one array, and which of them interfere."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from layout.geometry.body import Shape
from layout.geometry.boxes import Boxes, boxes_share
from layout.geometry.cells import Floats, Ints, spread
from layout.geometry.interference import CUBE_MM, cells_interfere

__all__ = [
    "MOST_CELL_PAIRS",
    "Gathered",
    "first_least",
    "gather",
    "interfering",
    "own_cells",
    "product",
    "product_runs",
]

MOST_CELL_PAIRS: Final = 2_000_000
"""Cell pairs looked at in one turn; more are taken in turns, to bound the memory."""

_SLIVER_MM: Final = CUBE_MM / 2
"""Boxes that share less hold no cube."""


@dataclass(frozen=True, slots=True, eq=False)
class Gathered:
    """Rows of all cells, with where each body's begin and how many they are."""

    rows: Floats
    worn: Floats
    start: Ints
    count: Ints
    boxes: Boxes
    bodies: Boxes


def gather(shapes: Sequence[Shape], which: Ints, at: Floats) -> Gathered:
    """Return the cells of all bodies, in place.

    Parameters
    ----------
    shapes : sequence of Shape
    which : array of shape (n,)
        The shape of each body.
    at : array of shape (n, 3), mm
        Where each body stands.
    """
    made = np.array([len(shape.cells) for shape in shapes], dtype=np.intp)
    count = made[which]
    body, offset = spread(count)
    own = (np.cumsum(made) - made)[which[body]] + offset
    x, y, z = at[body].T
    shift = np.stack([x, x, y, y, y, y, z, z, z, z])
    rows = np.concatenate([shape.cells.rows for shape in shapes], axis=1)
    worn = np.concatenate([shape.worn for shape in shapes], axis=1)
    rows, worn = rows[:, own] + shift, worn[:, own] + shift
    start = np.cumsum(count) - count
    boxes = Boxes.around(rows)
    return Gathered(rows, worn, start, count, boxes, boxes.merged(start))


def own_cells(cells: Gathered, body: Ints) -> tuple[Ints, Ints]:
    """Return the place in ``body``, and the index, of every cell of the bodies."""
    place, offset = spread(cells.count[body])
    return place, cells.start[body[place]] + offset


def product(a: tuple[Ints, Ints], b: tuple[Ints, Ints]) -> tuple[Ints, Ints, Ints]:
    """Return pair, a's cell and b's cell of all combinations; both sorted by pair."""
    a_pair, a_cell = a
    b_pair, b_cell = b
    pairs = 1 + max(a_pair.max(initial=-1), b_pair.max(initial=-1))
    b_count = np.bincount(b_pair, minlength=pairs)
    b_start = np.cumsum(b_count) - b_count
    pick, offset = spread(b_count[a_pair])
    pair = a_pair[pick]
    return pair, a_cell[pick], b_cell[b_start[pair] + offset]


def product_runs(
    a: tuple[Ints, Ints], b: tuple[Ints, Ints]
) -> Iterator[tuple[Ints, Ints, Ints]]:
    """Yield the combinations of :func:`product` in runs, to bound the memory."""
    a_pair, a_cell = a
    b_count = np.bincount(b[0], minlength=1 + a_pair.max(initial=-1))
    run = np.cumsum(b_count[a_pair]) // MOST_CELL_PAIRS
    for part in np.split(np.arange(len(a_pair)), np.flatnonzero(np.diff(run)) + 1):
        yield product((a_pair[part], a_cell[part]), b)


def first_least(pair: Ints, value: Floats) -> Ints:
    """Return the first place of each pair's least value; pairs are sorted.

    Examples
    --------
    >>> first_least(np.array([0, 0, 2, 2]), np.array([5.0, 3.0, 1.0, 1.0]))
    array([1, 2])
    """
    starts = np.diff(pair, prepend=-1) != 0
    run = np.cumsum(starts) - 1
    least = np.minimum.reduceat(value, np.flatnonzero(starts))
    place = np.flatnonzero(value == least[run])
    first: Ints = place[np.diff(run[place], prepend=-1) != 0]
    return first


def interfering(cells: Gathered, a: Ints, b: Ints) -> Ints:
    """Return which of the pairs of bodies a, b interfere, as places in ``a``."""
    boxes = cells.bodies.take(a), cells.bodies.take(b)
    asked = np.flatnonzero(boxes_share(*boxes, _SLIVER_MM))
    a, b = a[asked], b[asked]
    within = []
    for own, other in ((a, b), (b, a)):
        pair, cell = own_cells(cells, own)
        boxes = cells.boxes.take(cell), cells.bodies.take(other[pair])
        keep = boxes_share(*boxes, _SLIVER_MM)
        within.append((pair[keep], cell[keep]))
    met = np.zeros(len(asked), bool)
    for pair, i, j in product_runs(*within):
        keep = ~met[pair]
        keep &= boxes_share(cells.boxes.take(i), cells.boxes.take(j), _SLIVER_MM)
        a_worn, b_worn = cells.worn[:, i[keep]], cells.worn[:, j[keep]]
        met[pair[keep][cells_interfere(a_worn, b_worn)]] = True
    return asked[met]
