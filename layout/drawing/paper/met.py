"""Which of many boxes and leaders meet which lines: asked in bulk.

Of many lines a tree finds the pairs whose boxes overlap, of few all pairs are looked
at; arithmetic over all of them at once tells which meet.  The library's own test of
each pair takes several times as long.  Pieces and boxes are looked at as four rows
(both ends' x and y; left, bottom, right, top), which numpy runs along faster than
along columns.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from layout.drawing.paper.scene import Point

__all__ = [
    "Areas",
    "Few",
    "Lines",
    "meet",
    "pieces_along",
    "pieces_of",
    "rows",
    "run_through",
]

_Pairs: TypeAlias = tuple[NDArray[np.intp], NDArray[np.intp]]


class Lines:
    """Lines as their straight pieces: a tree of small ones is asked faster.

    Parameters
    ----------
    lines : sequence of shapely lines
        Those that count once, however many of their pieces are met.
    pieces : array (n, 2, 2), optional
        Lines of two points beside them.
    costs : (float, float), optional
        What counts for each line and for each of the pieces.
    """

    def __init__(
        self,
        lines: Sequence[BaseGeometry],
        pieces: NDArray[np.float64] | None = None,
        *,
        costs: tuple[float, float] = (1.0, 1.0),
    ) -> None:
        own, line = pieces_of(lines)
        beside = np.empty((0, 2, 2)) if pieces is None else pieces
        self.pieces = np.concatenate([own, beside])
        """The straight pieces of all lines, (n, 2, 2)."""
        self._rows = rows(self.pieces)
        self._line = np.concatenate([line, len(lines) + np.arange(len(beside))])
        self._cost = np.repeat(costs, (len(lines), len(beside)))
        self._tree = shapely.STRtree(_spans(self.pieces))

    def under(self, boxes: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return what the lines cost that each box meets."""
        one, other = self._tree.query(_spans(boxes))
        met = _reach(self._rows.take(other, 1), rows(boxes).take(one, 1))
        return self._counted(one[met], other[met], len(boxes))

    def crossed(self, leaders: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return what the lines cost that each leader, of shape (m, 2), meets."""
        pieces, of = _pieces(leaders)
        one, other = self._tree.query(_spans(pieces))
        met = _crossed(rows(pieces).take(one, 1), self._rows.take(other, 1))
        return self._counted(of[one[met]], other[met], len(leaders))

    def _counted(
        self, asked: NDArray[np.intp], pieces: NDArray[np.intp], count: int
    ) -> NDArray[np.float64]:
        """Return what the lines cost that those asked meet, each of them once."""
        every = max(len(self._cost), 1)
        pairs = np.sort(asked * every + self._line[pieces])
        if len(pairs) > 1:
            once = np.append(True, pairs[1:] > pairs[:-1])
            pairs = pairs[once]
        return _sums(pairs // every, self._cost[pairs % every], count)


class Areas:
    """Polygons, few of them, each with what it costs."""

    def __init__(self, areas: Sequence[BaseGeometry], costs: Sequence[float]) -> None:
        shapely.prepare(areas)
        self._tree = shapely.STRtree(areas)
        self._cost = np.array(costs, dtype=np.float64)

    def under(self, boxes: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return what the areas cost that each box meets."""
        if not len(self._cost):
            return np.zeros(len(boxes))
        return self._met(_several(shapely.box(*boxes.T)))

    def crossed(self, leaders: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return what the areas cost that each leader, of shape (m, 2), meets."""
        if not len(self._cost):
            return np.zeros(len(leaders))
        return self._met(_several(shapely.linestrings(leaders)))

    def _met(self, asked: NDArray[np.object_]) -> NDArray[np.float64]:
        one, other = self._tree.query(asked)
        met = shapely.intersects(self._tree.geometries[other], asked[one])
        return _sums(one[met], self._cost[other[met]], len(asked))


class Few:
    """A few boxes and leaders, those of labels, made ready to be asked.

    Parameters
    ----------
    boxes : array (k, 4)
    leaders : sequence of points' sequences
    """

    def __init__(
        self, boxes: NDArray[np.float64], leaders: Sequence[Sequence[Point]]
    ) -> None:
        pieces, self._of = pieces_along(leaders)
        self.boxes, self._pieces = rows(boxes), rows(pieces)
        self._around, self._count = _around(self._pieces), len(leaders)

    def lie_under(self, boxes: NDArray[np.float64]) -> NDArray[np.bool_]:
        """Tell which boxes, (n, 4), a leader runs through."""
        asked = rows(boxes)
        one, other = _near(self._around, asked)
        hit = _reach(self._pieces.take(one, 1), asked.take(other, 1))
        met = np.zeros(len(boxes), dtype=np.bool_)
        met[other[hit]] = True
        return met

    def crossed(self, leaders: NDArray[np.float64]) -> NDArray[np.intp]:
        """Return how many of its leaders each one, of shape (m, 2), crosses."""
        pieces, of = _pieces(leaders)
        asked = rows(pieces)
        one, other = _near(_around(asked), self._around)
        hit = _crossed(asked.take(one, 1), self._pieces.take(other, 1))
        met = np.zeros((len(leaders), self._count), dtype=np.bool_)
        met[of[one[hit]], self._of[other[hit]]] = True
        crossed: NDArray[np.intp] = np.count_nonzero(met, axis=1)
        return crossed

    def crossing(self) -> _Pairs:
        """Return the pairs of leaders that cross, each of them once or more often."""
        one, other = _near(self._around, self._around)
        later = self._of[one] < self._of[other]
        one, other = one[later], other[later]
        hit = _crossed(self._pieces.take(one, 1), self._pieces.take(other, 1))
        return self._of[one[hit]], self._of[other[hit]]


def pieces_of(
    lines: Sequence[BaseGeometry],
) -> tuple[NDArray[np.float64], NDArray[np.intp]]:
    """Return the straight pieces of lines, (n, 2, 2), and the line of each."""
    rings, line = shapely.get_parts(list(lines), return_index=True)
    points, ring = shapely.get_coordinates(rings, return_index=True)
    joined = ring[1:] == ring[:-1]
    pieces = np.stack([points[:-1][joined], points[1:][joined]], axis=1)
    return pieces, line[ring[:-1][joined]]


def pieces_along(
    lines: Sequence[Sequence[Point]],
) -> tuple[NDArray[np.float64], NDArray[np.intp]]:
    """Return the same of a few lines that are told as their points."""
    pieces = [pair for each in lines for pair in pairwise(each)]
    line = np.repeat(np.arange(len(lines)), [max(len(each) - 1, 0) for each in lines])
    return np.array(pieces, dtype=np.float64).reshape(-1, 2, 2), line


def rows(several: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return pieces, (n, 2, 2), or boxes, (n, 4), as four rows."""
    return np.ascontiguousarray(several.reshape(-1, 4).T)


def meet(a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Tell of each box in a, (n, 4), whether it meets one in b, told as rows."""
    met: NDArray[np.bool_] = np.logical_or.reduce(_overlap(rows(a), b), axis=1)
    return met


def run_through(
    leaders: NDArray[np.float64], boxes: NDArray[np.float64]
) -> NDArray[np.bool_]:
    """Tell which leaders, of shape (m, 2), meet one of a few boxes, told as rows."""
    pieces, of = _pieces(leaders)
    asked = rows(pieces)
    one, other = _near(_around(asked), boxes)
    hit = _reach(asked.take(one, 1), boxes.take(other, 1))
    met = np.zeros(len(leaders), dtype=np.bool_)
    met[of[one[hit]]] = True
    return met


def _near(a: NDArray[np.float64], b: NDArray[np.float64]) -> _Pairs:
    """Return the pairs of boxes that meet."""
    one, other = np.nonzero(_overlap(a, b))
    return one, other


def _overlap(a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Tell which boxes of a meet which of b: (n, k)."""
    met: NDArray[np.bool_] = a[0][:, None] <= b[2]
    met &= a[2][:, None] >= b[0]
    met &= a[1][:, None] <= b[3]
    met &= a[3][:, None] >= b[1]
    return met


def _around(pieces: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the boxes around pieces."""
    one, other = pieces[:2], pieces[2:]
    return np.concatenate([np.minimum(one, other), np.maximum(one, other)])


def _several(made: object) -> NDArray[np.object_]:
    """Return what shapely made as an array, one alone too."""
    return np.atleast_1d(np.asarray(made, dtype=object))


def _sums(
    of: NDArray[np.intp], costs: NDArray[np.float64], count: int
) -> NDArray[np.float64]:
    """Return for each of those asked what it costs in all."""
    sums: NDArray[np.float64] = np.bincount(of, costs, count).astype(np.float64)
    return sums


def _spans(several: NDArray[np.float64]) -> NDArray[np.object_]:
    """Return lines from end to end of pieces, from corner to corner of boxes.

    To a tree they are as good as boxes, and cheaper.
    """
    return _several(shapely.linestrings(several.reshape(-1, 2, 2)))


def _pieces(
    leaders: NDArray[np.float64],
) -> tuple[NDArray[np.float64], NDArray[np.intp]]:
    """Return the straight pieces of leaders, and the leader that each belongs to."""
    count, points, _ = leaders.shape
    if points == 2:
        return leaders, np.arange(count)
    pieces = np.stack([leaders[:, :-1], leaders[:, 1:]], axis=2).reshape(-1, 2, 2)
    return pieces, np.repeat(np.arange(count), points - 1)


def _crossed(a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.intp]:
    """Return which pieces, whose boxes meet, meet themselves."""
    parted = _parted(a, b)
    return parted[_parted(b.take(parted, 1), a.take(parted, 1))]


def _parted(a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.intp]:
    """Return which pieces of b have an end on either side of a's line, or on it."""
    x, y = a[0], a[1]
    along, up = a[2] - x, a[3] - y
    off = along * (b[1] - y) - up * (b[0] - x)
    far = along * (b[3] - y) - up * (b[2] - x)
    return np.flatnonzero(off * far <= 0.0)


def _reach(pieces: NDArray[np.float64], boxes: NDArray[np.float64]) -> NDArray[np.intp]:
    """Return which pieces' lines pass through boxes."""
    along, up = pieces[2] - pieces[0], pieces[3] - pieces[1]
    wide, high = (boxes[2] - boxes[0]) / 2, (boxes[3] - boxes[1]) / 2
    apart = along * (boxes[1] + high - pieces[1]) - up * (boxes[0] + wide - pieces[0])
    reach = np.abs(along) * high + np.abs(up) * wide
    return np.flatnonzero(np.abs(apart) <= reach)
