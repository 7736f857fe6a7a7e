"""Cut solids into convex cells: slabs of depth with linear bounds in y and z."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray

from layout.geometry.errors import OutlineError
from layout.geometry.solids.solid import Solid
from layout.geometry.space import Vector
from layout.values import dataclass

__all__ = [
    "HIGH",
    "LEAST_SLAB_MM",
    "LOW",
    "X0",
    "X1",
    "Cells",
    "Floats",
    "Ints",
    "box_rows",
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

MOST_CELLS: Final = 200_000
"""Cells of one solid; a comb of teeth crossed with another makes their product."""

LEAST_SLAB_MM: Final = 1e-9
"""Slabs no wider are left out: corners of round outlines that differ by rounding."""


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


def moved(cells: Cells, by_mm: Vector) -> Floats:
    """Return the rows of the cells shifted by a vector."""
    x, y, z = by_mm
    shift = np.array([x, x, y, y, y, y, z, z, z, z])[:, None]
    rows: Floats = cells.rows + shift
    return rows


def box_rows(spans: Sequence[Sequence[tuple[float, float]]]) -> Floats:
    """Return the cells of boxes, each given by its three intervals.

    Examples
    --------
    >>> box_rows([((0, 10), (0, 20), (0, 30))])[:, 0].tolist()
    [0.0, 10.0, 0.0, 0.0, 20.0, 20.0, 0.0, 0.0, 30.0, 30.0]
    """
    rows: Floats = np.array(spans, float).reshape(-1, 6).T[_OF_A_BOX]
    return rows


_OF_A_BOX = np.array([0, 1, 2, 2, 3, 3, 4, 4, 5, 5])
"""Rows of a cell from the six ends of a box."""


def cut(groups: Sequence[Sequence[Solid]]) -> tuple[Floats, Ints]:
    """Cut both outlines of every solid at each x where either has a corner.

    In each slab the spanning edges pair up to intervals in y and in z; every
    y-trapezoid with every z-trapezoid is a cell.  Exact for concave outlines and
    outlines with holes.

    Parameters
    ----------
    groups : sequence of sequences of Solid
        The solids of each body; all are cut at once, since most of the time is spent
        per call and not per solid.

    Returns
    -------
    rows : array of shape (10, n), mm
        The cells of all groups, one group after the other; in each the longest along
        depth first: of nearest points that tie, those on long faces are told.
    count : array
        How many cells each group has.
    """
    edges = _edges([solid for group in groups for solid in group])
    slab, bounds = _intervals(edges)
    in_y = slab % 2 == 0  # slabs are counted twice: once for y, once for z
    _refuse_too_many(edges, slab)
    y_pick, z_pick = _joined(slab[in_y] // 2, slab[~in_y] // 2, len(edges.x))
    y_bounds, z_bounds = bounds[:, in_y], bounds[:, ~in_y]
    first = slab[in_y][y_pick] // 2
    depths = edges.x[[first, first + 1]]
    rows = np.concatenate([depths, y_bounds[:, y_pick], z_bounds[:, z_pick]])
    width = rows[X1] - rows[X0]
    owner = np.repeat(np.arange(len(groups)), [len(group) for group in groups])
    group = owner[edges.solid[first]]
    wide = np.flatnonzero(width > LEAST_SLAB_MM)
    order = wide[np.lexsort((-width[wide], group[wide]))]
    return rows[:, order], np.bincount(group[wide], minlength=len(groups))


def _refuse_too_many(edges: _Edges, slab: Ints) -> None:
    """Raise where the intervals of a solid's slabs multiply beyond reason."""
    counts = np.bincount(slab, minlength=2 * len(edges.x)).reshape(-1, 2)
    cells = np.bincount(edges.solid, weights=counts[:, 0] * counts[:, 1])
    if cells.max(initial=0.0) > MOST_CELLS:
        raise OutlineError(
            f"side and top outline make {cells.max():.0f} cells of one solid; "
            f"{MOST_CELLS} are the most, so take fewer teeth or holes"
        )


@dataclass(frozen=True, slots=True, eq=False)
class _Edges:
    """Every edge that spans depth, and the depths at which to cut.

    ``x`` holds each solid's corners in order, without repeats, ``solid`` whose they
    are; ``first`` and ``last``
    are the places in it of both ends of an edge, ``start`` and ``end`` the ends
    themselves, shape (2, n), the rear one first; ``view`` is 0 for side, 1 for top.
    """

    x: Floats
    solid: Ints
    first: Ints
    last: Ints
    start: Floats
    end: Floats
    view: Ints


def _edges(solids: Sequence[Solid]) -> _Edges:
    outlines = [outline for solid in solids for outline in (solid.side, solid.top)]
    rings = shapely.get_num_coordinates(shapely.get_rings(outlines))
    points = shapely.get_coordinates(outlines)
    outline = np.repeat(np.arange(len(outlines)), shapely.get_num_coordinates(outlines))
    x, solid, place = _places(points[:, 0], outline // 2)
    # All rings stand in one array: no edge leads from one ring to the next.
    joined = np.ones(len(points), bool)
    joined[np.cumsum(rings) - 1] = False
    start = np.flatnonzero(joined)
    start = start[place[start] != place[start + 1]]
    turned = place[start] > place[start + 1]
    rear, front = start + turned, start + ~turned
    ends = points[rear].T, points[front].T
    return _Edges(x, solid, place[rear], place[front], *ends, outline[start] % 2)


def _places(x: Floats, solid: Ints) -> tuple[Floats, Ints, Ints]:
    """Return each solid's depths in order without repeats, and each point's place.

    Between the two stands whose depths they are.
    """
    order = np.lexsort((x, solid))
    x_sorted, solid_sorted = x[order], solid[order]
    new = np.ones(len(x), bool)
    new[1:] = (x_sorted[1:] != x_sorted[:-1]) | (solid_sorted[1:] != solid_sorted[:-1])
    place = np.empty(len(x), np.intp)
    place[order] = np.cumsum(new) - 1
    return x_sorted[new], solid_sorted[new], place


def _intervals(edges: _Edges) -> tuple[Ints, Floats]:
    """Return twice the slab (plus the view) of each interval, and its bounds.

    The bounds are low and high at both ends of the slab, shape (4, n).
    """
    edge, offset = spread(edges.last - edges.first)
    slab = edges.first[edge] + offset
    (x0, v0), (x1, v1) = edges.start[:, edge], edges.end[:, edge]
    # From the nearer end, so that a bound meets its edge's own end points exactly.
    part = (edges.x[[slab, slab + 1]] - x0) / (x1 - x0)
    v = np.where(part < 0.5, v0 + (v1 - v0) * part, v1 - (v1 - v0) * (1 - part))
    key = 2 * slab + edges.view[edge]
    order = np.lexsort((v[0] + v[1], key))
    lower, upper = order[0::2], order[1::2]
    return key[lower], np.concatenate([v[:, lower], v[:, upper]])


def spread(counts: Ints) -> tuple[Ints, Ints]:
    """Return, for n_i copies of each i, the i and the number of the copy.

    Examples
    --------
    >>> spread(np.array([2, 0, 1]))
    (array([0, 0, 2]), array([0, 1, 0]))
    """
    owner = np.repeat(np.arange(len(counts)), counts)
    starts = counts.cumsum() - counts
    return owner, np.arange(len(owner)) - starts.take(owner)


def _joined(a_slab: Ints, b_slab: Ints, slabs: int) -> tuple[Ints, Ints]:
    """Return the index pairs of all intervals that share a slab; both are sorted."""
    b_counts = np.bincount(b_slab, minlength=slabs)
    b_starts = np.cumsum(b_counts) - b_counts
    pick, offset = spread(b_counts[a_slab])
    return pick, b_starts[a_slab[pick]] + offset
