"""Which of many boxes and leaders meet which lines: asked in bulk.

A tree finds the pairs whose boxes overlap, arithmetic over all of these at once which
of them meet: the library's own test of each pair takes several times as long.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

__all__ = ["Areas", "Boxes", "Lines", "geometries", "meet"]


class Lines:
    """Lines as their straight pieces: a tree of small ones is asked faster.

    Parameters
    ----------
    lines : sequence of shapely lines
    apart : bool
        Whether every piece counts for itself, not every line.
    """

    def __init__(self, lines: Sequence[BaseGeometry], *, apart: bool = False) -> None:
        rings, line = shapely.get_parts(list(lines), return_index=True)
        points, ring = shapely.get_coordinates(rings, return_index=True)
        joined = ring[1:] == ring[:-1]
        self._pieces = np.stack([points[:-1][joined], points[1:][joined]], axis=1)
        self._line = line[ring[:-1][joined]]
        if apart:
            self._line = np.arange(len(self._pieces))
        self._count = len(self._line) if apart else len(lines)
        self._tree = shapely.STRtree(geometries(shapely.linestrings(self._pieces)))

    def under(self, boxes: NDArray[np.float64]) -> NDArray[np.intp]:
        """Return how many lines each box meets."""
        one, other = self._tree.query(_spans(boxes[:, :2], boxes[:, 2:]))
        met = _in_boxes(self._pieces[other], boxes[one])
        return self._counted(one[met], other[met], len(boxes))

    def crossed(self, leaders: NDArray[np.float64]) -> NDArray[np.intp]:
        """Return how many lines each leader, of shape (m, 2), meets."""
        pieces, of = _pieces(leaders)
        one, other = self._tree.query(_spans(pieces[:, 0], pieces[:, 1]))
        met = _cross(pieces[one], self._pieces[other])
        return self._counted(of[one[met]], other[met], len(leaders))

    def _counted(
        self, asked: NDArray[np.intp], pieces: NDArray[np.intp], count: int
    ) -> NDArray[np.intp]:
        """Return how many lines those asked meet, a line in two pieces once."""
        pairs = np.unique(asked * self._count + self._line[pieces])
        return np.bincount(pairs // max(self._count, 1), minlength=count)


class Boxes:
    """Boxes of lettering that no leader may run through."""

    def __init__(self, frames: NDArray[np.float64]) -> None:
        self.frames = frames
        self._tree = shapely.STRtree(_spans(frames[:, :2], frames[:, 2:]))

    def crossed(self, leaders: NDArray[np.float64]) -> NDArray[np.intp]:
        """Return how many pieces of each leader, of shape (m, 2), meet how many boxes."""
        pieces, of = _pieces(leaders)
        one, other = self._tree.query(_spans(pieces[:, 0], pieces[:, 1]))
        met = _in_boxes(pieces[one], self.frames[other])
        return np.bincount(of[one[met]], minlength=len(leaders))


class Areas:
    """Polygons, few of them."""

    def __init__(self, areas: Sequence[BaseGeometry]) -> None:
        self._tree = shapely.STRtree(list(areas))

    def under(self, boxes: NDArray[np.float64]) -> NDArray[np.intp]:
        """Return how many areas each box meets."""
        return self._met(geometries(shapely.box(*boxes.T)))

    def crossed(self, leaders: NDArray[np.float64]) -> NDArray[np.intp]:
        """Return how many areas each leader, of shape (m, 2), meets."""
        return self._met(geometries(shapely.linestrings(leaders)))

    def _met(self, asked: NDArray[np.object_]) -> NDArray[np.intp]:
        one, other = self._tree.query(asked)
        met = shapely.intersects(asked[one], self._tree.geometries[other])
        return np.bincount(one[met], minlength=len(asked))


def geometries(made: object) -> NDArray[np.object_]:
    """Return what shapely made as an array, one alone too."""
    return np.atleast_1d(np.asarray(made, dtype=object))


def meet(a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Tell of each box in a whether it meets one in b."""
    (left, low, right, high), other = a.T[:, :, None], b.T[:, None, :]
    across = (left <= other[2]) & (right >= other[0])
    met: NDArray[np.bool_] = np.any(
        across & (low <= other[3]) & (high >= other[1]), axis=1
    )
    return met


def _spans(
    starts: NDArray[np.float64], ends: NDArray[np.float64]
) -> NDArray[np.object_]:
    """Return lines from corner to corner: to a tree as good as boxes, and cheaper."""
    return geometries(shapely.linestrings(np.stack([starts, ends], axis=1)))


def _pieces(
    leaders: NDArray[np.float64],
) -> tuple[NDArray[np.float64], NDArray[np.intp]]:
    """Return the straight pieces of leaders, and the leader that each belongs to."""
    count, points, _ = leaders.shape
    pieces = np.stack([leaders[:, :-1], leaders[:, 1:]], axis=2).reshape(-1, 2, 2)
    return pieces, np.repeat(np.arange(count), points - 1)


def _cross(a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Tell which pairs of pieces meet whose boxes overlap."""
    met: NDArray[np.bool_] = _parted(a, b) & _parted(b, a)
    return met


def _parted(a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Tell which pieces of b have an end on either side of a's line, or on it."""
    along = a[:, 1] - a[:, 0]
    first, last = b[:, 0] - a[:, 0], b[:, 1] - a[:, 0]
    off = along[:, 0] * first[:, 1] - along[:, 1] * first[:, 0]
    far = along[:, 0] * last[:, 1] - along[:, 1] * last[:, 0]
    parted: NDArray[np.bool_] = off * far <= 0.0
    return parted


def _in_boxes(
    pieces: NDArray[np.float64], boxes: NDArray[np.float64]
) -> NDArray[np.bool_]:
    """Tell which pieces meet their box, whose own boxes overlap it."""
    along = pieces[:, 1] - pieces[:, 0]
    half = (boxes[:, 2:] - boxes[:, :2]) / 2
    off = boxes[:, :2] + half - pieces[:, 0]
    apart = np.abs(along[:, 0] * off[:, 1] - along[:, 1] * off[:, 0])
    reach = np.abs(along[:, 0]) * half[:, 1] + np.abs(along[:, 1]) * half[:, 0]
    met: NDArray[np.bool_] = apart <= reach
    return met
