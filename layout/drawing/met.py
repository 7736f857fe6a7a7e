"""Which of many boxes and lines meet which others: asked in bulk."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

__all__ = ["geometries", "hits", "meet", "segments"]


def segments(lines: Sequence[BaseGeometry]) -> NDArray[np.object_]:
    """Return the straight pieces of lines: a tree of small ones is asked faster."""
    rings = shapely.get_parts(list(lines))
    points, owner = shapely.get_coordinates(rings, return_index=True)
    joined = owner[1:] == owner[:-1]
    pieces = np.stack([points[:-1][joined], points[1:][joined]], axis=1)
    return geometries(shapely.linestrings(pieces))


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


def hits(tree: shapely.STRtree, asked: NDArray[np.object_]) -> NDArray[np.intp]:
    """Return how many of the tree's geometries each of those asked meets."""
    found, _ = tree.query(asked, predicate="intersects")
    hits: NDArray[np.intp] = np.bincount(found, minlength=len(asked))
    return hits
