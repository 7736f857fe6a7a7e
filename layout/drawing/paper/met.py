"""Which of many boxes and leaders meet which lines: asked in bulk.

Of many lines a tree finds the pairs whose boxes overlap, of few all pairs are looked
at; arithmetic over all of them at once tells which meet.  The library's own test of
each pair takes several times as long.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from layout.drawing.paper.scene import Point

__all__ = [
    "Areas",
    "Lines",
    "cross",
    "meet",
    "pieces_along",
    "pieces_of",
    "run_through",
]


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
        self._pieces = np.concatenate([own, beside])
        self._line = np.concatenate([line, len(lines) + np.arange(len(beside))])
        self._cost = np.repeat(costs, (len(lines), len(beside)))
        self._tree = shapely.STRtree(_spans(self._pieces[:, 0], self._pieces[:, 1]))

    def under(self, boxes: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return what the lines cost that each box meets."""
        one, other = self._tree.query(_spans(boxes[:, :2], boxes[:, 2:]))
        met = _reach(self._pieces[other], boxes[one])
        return self._counted(one[met], other[met], len(boxes))

    def crossed(self, leaders: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return what the lines cost that each leader, of shape (m, 2), meets."""
        pieces, of = _pieces(leaders)
        one, other = self._tree.query(_spans(pieces[:, 0], pieces[:, 1]))
        met = _crossed(pieces[one], self._pieces[other])
        return self._counted(of[one[met]], other[met], len(leaders))

    def _counted(
        self, asked: NDArray[np.intp], pieces: NDArray[np.intp], count: int
    ) -> NDArray[np.float64]:
        """Return what the lines cost that those asked meet, each of them once."""
        every = max(len(self._cost), 1)
        pairs = np.sort(asked * every + self._line[pieces])
        pairs = pairs[np.diff(pairs, prepend=-1) > 0]
        return _sums(pairs // every, self._cost[pairs % every], count)


class Areas:
    """Polygons, few of them, each with what it costs."""

    def __init__(self, areas: Sequence[BaseGeometry], costs: Sequence[float]) -> None:
        shapely.prepare(areas)
        self._tree = shapely.STRtree(areas)
        self._cost = np.array(costs, dtype=np.float64)

    def under(self, boxes: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return what the areas cost that each box meets."""
        return self._met(_several(shapely.box(*boxes.T)))

    def crossed(self, leaders: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return what the areas cost that each leader, of shape (m, 2), meets."""
        return self._met(_several(shapely.linestrings(leaders)))

    def _met(self, asked: NDArray[np.object_]) -> NDArray[np.float64]:
        one, other = self._tree.query(asked)
        met = shapely.intersects(self._tree.geometries[other], asked[one])
        return _sums(one[met], self._cost[other[met]], len(asked))


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


def meet(a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Tell of each box in a whether it meets one in b."""
    met: NDArray[np.bool_] = np.logical_or.reduce(_overlap(a[:, None], b), axis=1)
    return met


def run_through(
    leaders: NDArray[np.float64], boxes: NDArray[np.float64]
) -> NDArray[np.bool_]:
    """Tell which leaders, of shape (m, 2), meet which of a few boxes: (n, k)."""
    met = np.zeros((len(leaders), len(boxes)), dtype=np.bool_)
    for n in range(leaders.shape[1] - 1):
        piece = leaders[:, n : n + 2]
        one, other = _near(piece, boxes)
        met[one, other] |= _reach(piece[one], boxes[other])
    return met


def cross(a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Tell which leaders, of shape (m, 2), meet which of a few pieces: (n, k)."""
    met = np.zeros((len(a), len(b)), dtype=np.bool_)
    around = _around(b)
    for n in range(a.shape[1] - 1):
        piece = a[:, n : n + 2]
        one, other = _near(piece, around)
        met[one, other] |= _crossed(piece[one], b[other])
    return met


def _near(
    pieces: NDArray[np.float64], boxes: NDArray[np.float64]
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Return the pairs of a piece and a box in which the piece's own box meets it."""
    one, other = np.nonzero(_overlap(_around(pieces)[:, None], boxes))
    return one, other


def _overlap(a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Tell which boxes meet."""
    met: NDArray[np.bool_] = (
        (a[..., 0] <= b[..., 2])
        & (a[..., 2] >= b[..., 0])
        & (a[..., 1] <= b[..., 3])
        & (a[..., 3] >= b[..., 1])
    )
    return met


def _around(pieces: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the boxes around pieces."""
    one, other = pieces[..., 0, :], pieces[..., 1, :]
    return np.concatenate([np.minimum(one, other), np.maximum(one, other)], axis=-1)


def _several(made: object) -> NDArray[np.object_]:
    """Return what shapely made as an array, one alone too."""
    return np.atleast_1d(np.asarray(made, dtype=object))


def _sums(
    of: NDArray[np.intp], costs: NDArray[np.float64], count: int
) -> NDArray[np.float64]:
    """Return for each of those asked what it costs in all."""
    sums: NDArray[np.float64] = np.bincount(of, costs, count).astype(np.float64)
    return sums


def _spans(
    starts: NDArray[np.float64], ends: NDArray[np.float64]
) -> NDArray[np.object_]:
    """Return lines from corner to corner: to a tree as good as boxes, and cheaper."""
    return _several(shapely.linestrings(np.stack([starts, ends], axis=1)))


def _pieces(
    leaders: NDArray[np.float64],
) -> tuple[NDArray[np.float64], NDArray[np.intp]]:
    """Return the straight pieces of leaders, and the leader that each belongs to."""
    count, points, _ = leaders.shape
    if points == 2:
        return leaders, np.arange(count)
    pieces = np.stack([leaders[:, :-1], leaders[:, 1:]], axis=2).reshape(-1, 2, 2)
    return pieces, np.repeat(np.arange(count), points - 1)


def _crossed(a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Tell which pieces, whose boxes meet, meet themselves."""
    crossed: NDArray[np.bool_] = _parted(a, b) & _parted(b, a)
    return crossed


def _parted(a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Tell which pieces of b have an end on either side of a's line, or on it."""
    start = a[..., 0, :]
    along, first, last = (
        a[..., 1, :] - start,
        b[..., 0, :] - start,
        b[..., 1, :] - start,
    )
    off = along[..., 0] * first[..., 1] - along[..., 1] * first[..., 0]
    far = along[..., 0] * last[..., 1] - along[..., 1] * last[..., 0]
    parted: NDArray[np.bool_] = off * far <= 0.0
    return parted


def _reach(
    pieces: NDArray[np.float64], boxes: NDArray[np.float64]
) -> NDArray[np.bool_]:
    """Tell which pieces' lines pass through boxes."""
    along = pieces[..., 1, :] - pieces[..., 0, :]
    half = (boxes[..., 2:] - boxes[..., :2]) / 2
    off = boxes[..., :2] + half - pieces[..., 0, :]
    apart = np.abs(along[..., 0] * off[..., 1] - along[..., 1] * off[..., 0])
    turned = np.abs(along)
    reach = turned[..., 0] * half[..., 1] + turned[..., 1] * half[..., 0]
    met: NDArray[np.bool_] = apart <= reach
    return met
