"""Cut solids into convex cells: slabs of depth with linear bounds in y and z."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from layout.geometry.solid import Solid
from layout.geometry.space import Box, Vector

__all__ = [
    "HIGH",
    "LOW",
    "X0",
    "X1",
    "Cells",
    "Floats",
    "Ints",
    "cut",
    "moved",
    "spread",
]

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]

X0, X1 = 0, 1
LOW = {1: slice(2, 4), 2: slice(6, 8)}
"""Rows of a cell's lower bound at both ends of its slab, by axis (1 = y, 2 = z)."""
HIGH = {1: slice(4, 6), 2: slice(8, 10)}
"""Rows of a cell's upper bound at both ends of its slab, by axis."""


@dataclass(frozen=True, slots=True, eq=False)
class Cells:
    """Convex cells as columns of one array; a solid is the union of its cells.

    Parameters
    ----------
    rows : array of shape (10, n), mm
        ``x0, x1; y low at x0, x1; y high; z low; z high``: between the two depths
        every bound is linear in x.

    Notes
    -----
    An array inside a value type: cells are made for arithmetic in bulk, and are
    read-only and compared by identity instead.
    """

    rows: Floats

    def __post_init__(self) -> None:
        self.rows.setflags(write=False)

    def __len__(self) -> int:
        return int(self.rows.shape[1])

    @property
    def bounds(self) -> Box:
        """Return the smallest box around all cells."""
        rows = self.rows
        x = rows[:2]
        y, z = rows[2:6], rows[6:10]
        return Box(
            (float(x.min()), float(y.min()), float(z.min())),
            (float(x.max()), float(y.max()), float(z.max())),
        )


def moved(cells: Cells, by_mm: Vector) -> Floats:
    """Return the rows of the cells shifted by a vector."""
    x, y, z = by_mm
    shift = np.array([x, x, y, y, y, y, z, z, z, z])[:, None]
    rows: Floats = cells.rows + shift
    return rows


def cut(solids: Sequence[Solid]) -> Cells:
    """Cut both outlines of every solid at each x where either has a corner.

    In each slab the spanning edges pair up to intervals in y and in z; every
    y-trapezoid with every z-trapezoid is a cell.  Exact for concave outlines and
    outlines with holes.
    """
    return Cells(np.concatenate([_cut_one(s) for s in solids], axis=1))


def _cut_one(solid: Solid) -> Floats:
    side = shapely.get_coordinates(solid.side)
    top = shapely.get_coordinates(solid.top)
    if _is_rectangle(side) and _is_rectangle(top):
        b = solid.bounds
        (x0, y0, z0), (x1, y1, z1) = b.low, b.high
        return np.array([x0, x1, y0, y0, y1, y1, z0, z0, z1, z1])[:, None]
    xs = np.unique(np.concatenate([side[:, 0], top[:, 0]]))
    y_slab, y_bounds = _intervals(solid.side, xs)
    z_slab, z_bounds = _intervals(solid.top, xs)
    y_pick, z_pick = _joined(y_slab, z_slab, len(xs))
    slab = y_slab[y_pick]
    slabs = xs[[slab, slab + 1]]
    return np.concatenate([slabs, y_bounds[:, y_pick], z_bounds[:, z_pick]])


def _is_rectangle(ring: Floats) -> bool:
    """Tell whether a closed ring of five points is an axis-parallel rectangle."""
    if len(ring) != 5:
        return False
    steps = ring[1:] != ring[:-1]
    return bool((steps[:, 0] != steps[:, 1]).all())


def _intervals(outline: Polygon, xs: Floats) -> tuple[Ints, Floats]:
    """Return the slab of each interval, and its low and high bound at both ends."""
    start, end = _edges(outline)
    first, last = np.searchsorted(xs, [start[0], end[0]])
    edge, offset = spread(last - first)
    slab = first[edge] + offset
    (x0, v0), (x1, v1) = start[:, edge], end[:, edge]
    # From the nearer end, so that a bound meets its edge's own end points exactly.
    part = (xs[[slab, slab + 1]] - x0) / (x1 - x0)
    v = np.where(part < 0.5, v0 + (v1 - v0) * part, v1 - (v1 - v0) * (1 - part))
    order = np.lexsort((v[0] + v[1], slab))
    lower, upper = order[0::2], order[1::2]
    return slab[lower], np.concatenate([v[:, lower], v[:, upper]])


def _edges(outline: Polygon) -> tuple[Floats, Floats]:
    """Return both ends, shape (2, n), of every edge that spans depth, rear first."""
    points = shapely.get_coordinates(outline).T
    a, b = points[:, :-1], points[:, 1:]
    spans = a[0] != b[0]
    if outline.interiors:
        # All rings stand in one array: no edge leads from one ring to the next.
        rings = [outline.exterior, *outline.interiors]
        spans[np.cumsum([len(ring.coords) for ring in rings])[:-1] - 1] = False
    a, b = a[:, spans], b[:, spans]
    forward = a[0] < b[0]
    return np.where(forward, a, b), np.where(forward, b, a)


def spread(counts: Ints) -> tuple[Ints, Ints]:
    """Return, for n_i copies of each i, the i and the number of the copy.

    Examples
    --------
    >>> spread(np.array([2, 0, 1]))
    (array([0, 0, 2]), array([0, 1, 0]))
    """
    owner = np.repeat(np.arange(len(counts)), counts)
    starts = np.cumsum(counts) - counts
    return owner, np.arange(len(owner)) - starts[owner]


def _joined(a_slab: Ints, b_slab: Ints, slabs: int) -> tuple[Ints, Ints]:
    """Return the index pairs of all intervals that share a slab; both are sorted."""
    b_counts = np.bincount(b_slab, minlength=slabs)
    b_starts = np.cumsum(b_counts) - b_counts
    pick, offset = spread(b_counts[a_slab])
    return pick, b_starts[a_slab[pick]] + offset
