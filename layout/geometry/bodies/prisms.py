"""Pairs that need no cells: boxes, and outlines carried along the same axis.

Two boxes are intervals.  Two prisms of one axis are a distance in the plane and an
interval along the axis, square to one another.
"""

from __future__ import annotations

from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray

from layout.geometry.bodies.crowd import Crowd, Outlines
from layout.geometry.pairs.interference import CUBE_MM
from layout.geometry.solids.boxes import Boxes, box_gaps
from layout.geometry.solids.cells import Floats, Ints
from layout.geometry.space import Axis
from layout.values import dataclass

__all__ = ["Settled", "boxes_settled", "prisms_settled"]

_MEETING_MM: Final = 1e-9
"""Nearest points of outlines that overlap may differ by rounding."""


@dataclass(frozen=True, slots=True, eq=False)
class Settled:
    """How pairs stand: gap (n,), nearest points (3, n); ``sure`` where it is settled.

    Points are None where they were not asked for.
    """

    sure: NDArray[np.bool_]
    interfering: NDArray[np.bool_]
    gap: Floats
    on_a: Floats | None
    on_b: Floats | None


def boxes_settled(a: Boxes, b: Boxes, *, points: bool) -> Settled:
    """Return how pairs of boxes stand, by interval arithmetic."""
    low, high = np.maximum(a.low, b.low), np.minimum(a.high, b.high)
    interfering: NDArray[np.bool_] = np.logical_and.reduce(high - low >= CUBE_MM)
    gap = np.where(interfering, 0.0, box_gaps(a, b))
    on_a, on_b = _middles(a, b) if points else (None, None)
    return Settled(np.ones(len(gap), bool), interfering, gap, on_a, on_b)


def _middles(a: Boxes, b: Boxes) -> tuple[Floats, Floats]:
    """Return the nearest points of boxes, in the middle of what they share."""
    middle = (np.maximum(a.low, b.low) + np.minimum(a.high, b.high)) / 2
    return np.clip(middle, a.low, a.high), np.clip(middle, b.low, b.high)


def prisms_settled(crowd: Crowd, index: Ints, axis: Axis, *, points: bool) -> Settled:
    """Return how pairs of outlines stand that are carried along one axis.

    The index has shape (2, n).  ``sure`` is False where the outlines meet, so that
    only their cells can tell whether what they share holds a cube.
    """
    a, b = crowd.boxes.pairs(index)
    of_a, of_b = crowd.outlines(axis, index)
    plane, along = [0, 3 - axis.index], axis.index
    apart = np.maximum(b.low[along] - a.high[along], a.low[along] - b.high[along])
    on_a, on_b = None, None
    if points:
        on_a, on_b = _middles(a, b)
        lines = shapely.shortest_line(of_a, of_b)
        ends = shapely.get_coordinates(lines).reshape(-1, 2, 2)
        on_a[plane], on_b[plane] = ends[:, 0].T, ends[:, 1].T
        step = on_a - on_b
        away, gap = np.hypot(*step[plane]), np.sqrt((step**2).sum(axis=0))
    else:
        away = _distances(of_a, of_b)
        gap = np.hypot(away, np.maximum(apart, 0.0))
    # Outlines that meet may touch or overlap: the cells tell which.
    sure = (away > _MEETING_MM) | (apart > -CUBE_MM)
    return Settled(sure, np.zeros(len(gap), bool), gap, on_a, on_b)


def _distances(a: Outlines, b: Outlines) -> Floats:
    """Return how far outlines are apart; asked of the simpler one it costs less."""
    swapped = shapely.get_num_coordinates(a) > shapely.get_num_coordinates(b)
    away: Floats = shapely.distance(np.where(swapped, b, a), np.where(swapped, a, b))
    return away
