"""The cells of many bodies in one array, and which of them interfere."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from layout.geometry.bodies.body import Shape
from layout.geometry.pairs.interference import CUBE_MM, cells_interfere
from layout.geometry.pairs.runs import FEW, Spans, joined
from layout.geometry.solids.boxes import Boxes, boxes_share
from layout.geometry.solids.cells import X0, X1, Floats, Ints, spread
from layout.values import dataclass

__all__ = ["SURE_MM", "Gathered", "gather", "interfering", "own_cells"]

_SLIVER_MM: Final = CUBE_MM / 2
"""Boxes that share less hold no cube."""

_HANDFUL: Final = 200
"""Pairs of cells that cost less to ask about than to sort out by their boxes."""

SURE_MM: Final = 2 * CUBE_MM
"""Boxes within cells that share more hold a cube, whatever the rounding."""


@dataclass(frozen=True, eq=False)
class Gathered:
    """Rows of all cells in place, whole and worn; what else is asked, when asked.

    Parameters
    ----------
    rows, worn : arrays of shape (10, m), mm
    start, count : arrays of shape (n,)
        Where each body's cells begin, and how many they are.
    bodies : Boxes
        The box around each body.

    Notes
    -----
    No slots, since a cached value needs a place of its own.
    """

    rows: Floats
    worn: Floats
    start: Ints
    count: Ints
    bodies: Boxes

    def __len__(self) -> int:
        return int(self.rows.shape[1])

    @cached_property
    def boxes(self) -> Boxes:
        """The box around each cell."""
        return Boxes.around(self.rows)

    @cached_property
    def inner(self) -> Boxes:
        """A box within each cell, or one turned over where none is."""
        return Boxes.within(self.rows)


def gather(shapes: Sequence[Shape], at: Floats, bodies: Boxes) -> Gathered:
    """Return the cells of all bodies, in place.

    Parameters
    ----------
    shapes : sequence of Shape
        That of each body.
    at : array of shape (n, 3), mm
        Where each body stands.
    bodies : Boxes
        The box around each body there.
    """
    own = [shape.rows for shape in shapes]
    count = np.array([rows.shape[1] for rows in own], np.intp)
    rows = np.concatenate(own, axis=1).reshape(2, 10, -1)
    rows += np.repeat(at.T.take(_AXIS_OF_ROW, axis=0), count, axis=1)
    return Gathered(rows[0], rows[1], count.cumsum() - count, count, bodies)


_AXIS_OF_ROW = np.array([0, 0, 1, 1, 1, 1, 2, 2, 2, 2])


def own_cells(cells: Gathered, body: Ints) -> tuple[Ints, Ints]:
    """Return the place in ``body``, and the index, of every cell of the bodies."""
    place, offset = spread(cells.count[body])
    return place, cells.start[body[place]] + offset


def interfering(cells: Gathered, index: Ints) -> Ints:
    """Return which of the pairs of bodies interfere, index of shape (2, n)."""
    (asked,) = boxes_share(*cells.bodies.pairs(index), _SLIVER_MM).nonzero()
    index = index.take(asked, axis=1)
    met = np.zeros(len(asked), bool)
    few = np.multiply(*cells.count.take(index)).sum() <= FEW
    for found in (_all_with_all if few else _at_one_depth)(cells, index):
        _meet(cells, met, found)
    return asked[met]


Places: TypeAlias = tuple[Ints, Ints]
"""Pair of bodies (m,), and a cell of each (2, m)."""


def _all_with_all(cells: Gathered, index: Ints) -> Iterator[Places]:
    """Yield the cells that share a depth: each is asked with each."""
    a_count, b_count = cells.count.take(index)
    pair, offset = spread(a_count * b_count)
    places = cells.start.take(index).take(pair, axis=1)
    places += np.divmod(offset, b_count.take(pair))
    start, stop = cells.worn[X0].take(places), cells.worn[X1].take(places)
    (shared,) = (np.maximum(*start) <= np.minimum(*stop)).nonzero()
    yield pair.take(shared), places.take(shared, axis=1)


def _at_one_depth(cells: Gathered, index: Ints) -> Iterator[Places]:
    """Yield the cells that share a depth, of those that reach the other body."""
    (pair, i), (b_pair, j) = (_reaching(cells, each) for each in (index, index[::-1]))
    for m, n in joined(_depths(cells, pair, i), _depths(cells, b_pair, j)):
        yield pair[m], np.stack([i[m], j[n]])


def _reaching(cells: Gathered, index: Ints) -> tuple[Ints, Ints]:
    own, other = index
    pair, cell = own_cells(cells, own)
    boxes = cells.boxes.take(cell), cells.bodies.take(other[pair])
    (keep,) = boxes_share(*boxes, _SLIVER_MM).nonzero()
    return pair[keep], cell[keep]


def _depths(cells: Gathered, pair: Ints, cell: Ints) -> Spans:
    return Spans(pair, cells.worn[X0].take(cell), cells.worn[X1].take(cell))


def _meet(cells: Gathered, met: NDArray[np.bool_], found: Places) -> None:
    """Mark the pairs some of whose cells meet; of many, boxes within them tell most."""
    pair, places = found
    if len(pair) > _HANDFUL:
        (near,) = boxes_share(*cells.boxes.pairs(places), _SLIVER_MM).nonzero()
        pair, places = pair.take(near), places.take(near, axis=1)
    if len(pair) > FEW:
        met[pair[boxes_share(*cells.inner.pairs(places), SURE_MM)]] = True
        (left,) = (~met[pair]).nonzero()
        pair, places = pair.take(left), places.take(left, axis=1)
    met[pair[cells_interfere(cells.worn.take(places, axis=1))]] = True
