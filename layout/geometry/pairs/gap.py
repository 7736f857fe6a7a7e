"""The least distance between convex cells, exact, for many pairs at once.

For two cells the squared distance at depths s (in a) and t (in b) is
``(s - t)^2 + max(0, y gap)^2 + max(0, z gap)^2`` with gaps linear in s and t: a convex
function.  Its least value lies where one choice of active gaps is stationary: inside
the rectangle of (s, t) or on one of its four edges.  All those candidates are
evaluated, so none has to be chosen.  Depths are counted as parts of each slab, which
keeps steep faces as exact as flat ones.
"""

from __future__ import annotations

from itertools import product

import numpy as np
from numpy.typing import NDArray

from layout.geometry.solids.boxes import Boxes, box_gaps
from layout.geometry.solids.cells import HIGH, LOW, X0, X1, Floats, Ints
from layout.values import dataclass

__all__ = [
    "CellGaps",
    "Linear",
    "Places",
    "active_gaps",
    "cell_gaps",
    "depth_gap",
    "is_box",
    "nearest_places",
    "value_at",
]

_BATCH = 2048
"""Cell pairs per batch: their candidates stay within a processor's cache."""

_FEW = 1000
"""Cell pairs that are not worth sorting into groups."""


@dataclass(frozen=True, slots=True, eq=False)
class Places:
    """Where pairs of cells are nearest: part of a's and b's slab, and how near.

    ``at`` has shape (2, n), 0 to 1; ``square`` is the squared distance (n,), mm2.
    """

    at: Floats
    square: Floats


@dataclass(frozen=True, slots=True, eq=False)
class CellGaps:
    """Distance (n,) and nearest points (3, n) on a's and b's cell, mm."""

    gap: Floats
    on_a: Floats
    on_b: Floats


def nearest_places(a: Floats, b: Floats) -> Places:
    """Return where each pair of cells is nearest.

    Parameters
    ----------
    a, b : arrays of shape (10, n), mm
        Columns of ``Cells``, pair by pair.
    """
    at, square = np.zeros((2, a.shape[1])), np.zeros(a.shape[1])
    flat = np.flatnonzero(is_box(a) & is_box(b))
    at[:, flat], square[flat] = _box_places(a[:, flat], b[:, flat])
    for mixed, group in _groups(a, b, np.delete(np.arange(a.shape[1]), flat)):
        for start in range(0, len(group), _BATCH):
            pick = group[start : start + _BATCH]
            best = _best_places(a[:, pick], b[:, pick], mixed=mixed)
            at[:, pick], square[pick] = best
    return Places(at, square)


Mixed = tuple[bool, bool]
"""Whether in y, and whether in z, any of 'none', 'up' and 'down' may be active."""


def _groups(a: Floats, b: Floats, pick: Ints) -> list[tuple[Mixed, Ints]]:
    """Return the cell pairs by which gaps may be active; few pairs are one group."""
    if len(pick) <= _FEW:
        return [((True, True), pick)] if len(pick) else []
    in_y, in_z = _mixed(a[:, pick], b[:, pick], 1), _mixed(a[:, pick], b[:, pick], 2)
    return [
        ((y, z), pick[(in_y == y) & (in_z == z)])
        for y, z in product((False, True), repeat=2)
    ]


def is_box(rows: Floats) -> NDArray[np.bool_]:
    """Tell which cells are boxes: all of their bounds are level."""
    result: NDArray[np.bool_] = (rows[2::2] == rows[3::2]).all(axis=0)
    return result


def _box_places(a: Floats, b: Floats) -> tuple[Floats, Floats]:
    """Return where boxes are nearest (the middle of what depth they share)."""
    low = np.maximum(a[X0], b[X0])
    high = np.minimum(a[X1], b[X1])
    at = np.clip([_part(a, (low + high) / 2), _part(b, (low + high) / 2)], 0.0, 1.0)
    gaps = box_gaps(Boxes.around(a), Boxes.around(b))
    return at, gaps**2


def _part(rows: Floats, x: Floats) -> Floats:
    width = rows[X1] - rows[X0]
    part: Floats = np.divide(x - rows[X0], width, out=np.zeros_like(x), where=width > 0)
    return part


def _mixed(a: Floats, b: Floats, axis: int) -> NDArray[np.bool_]:
    """Tell where the cells' boxes meet along an axis, so that any gap may be active."""
    below = a[HIGH[axis]].max(axis=0) <= b[LOW[axis]].min(axis=0)
    above = b[HIGH[axis]].max(axis=0) <= a[LOW[axis]].min(axis=0)
    mixed: NDArray[np.bool_] = ~(below | above)
    return mixed


Linear = tuple[Floats, Floats, Floats]
"""c, p, q of ``c + p * (part of a) + q * (part of b)``; the last axis counts pairs."""


def depth_gap(a: Floats, b: Floats) -> Linear:
    """Return depth in a less depth in b."""
    return a[X0] - b[X0], a[X1] - a[X0], b[X0] - b[X1]


def active_gaps(a: Floats, b: Floats, axis: int, *, mixed: bool) -> Linear:
    """Return the gaps that may be active along an axis, of shape (1 or 3, n) each.

    Three are 'none', as zeros, 'up' from a to b and 'down' from b to a.
    """
    (a0, a1), (b0, b1) = a[HIGH[axis]], b[LOW[axis]]
    up = np.stack([b0 - a0, a0 - a1, b1 - b0])
    (a0, a1), (b0, b1) = a[LOW[axis]], b[HIGH[axis]]
    down = np.stack([a0 - b0, a1 - a0, b0 - b1])
    if mixed:
        c, p, q = np.stack([np.zeros_like(up), up, down], axis=1)
    else:
        above = a[LOW[axis]].sum(axis=0) > b[LOW[axis]].sum(axis=0)
        c, p, q = np.where(above, down, up)[:, None]
    return c, p, q


def _best_places(a: Floats, b: Floats, *, mixed: Mixed) -> tuple[Floats, Floats]:
    """Return the best of all candidates, and its squared distance."""
    x = depth_gap(a, b)
    y, z = (active_gaps(a, b, k, mixed=m) for k, m in zip((1, 2), mixed, strict=True))
    u, v = _stationary(x, y, z)
    total = value_at(x, u, v) ** 2
    for gaps in (y, z):
        worst = np.zeros_like(u)
        for c, p, q in zip(*gaps, strict=True):
            np.maximum(worst, value_at((c, p, q), u, v), out=worst)
        total += worst**2
    best = total.argmin(axis=0), np.arange(total.shape[1])
    return np.stack([u[best], v[best]]), total[best]


def value_at(form: Linear, u: Floats, v: Floats) -> Floats:
    """Return a linear form's values at parts u of a's slab and v of b's."""
    c, p, q = form
    value: Floats = c + p * u + q * v
    return value


def _stationary(x: Linear, y: Linear, z: Linear) -> tuple[Floats, Floats]:
    """Return the candidates for each choice of active gaps, clipped to the slabs.

    Where ``|c + p u + q v|`` is least: inside, and on u or v = 0 or 1.  The inner one
    by cross products, which lose no digits where the faces are nearly parallel (the
    normal equations lose half of them).

    Returns
    -------
    two arrays of shape (candidates, n)
    """
    c, p, q = ((x[i], y[i][:, None], z[i][None, :]) for i in range(3))
    n = _cross(p, q)
    n2 = _dot(n, n)
    pp, pq, qq, cp, cq = _dot(p, p), _dot(p, q), _dot(q, q), _dot(c, p), _dot(c, q)
    # Parallel, the least value also lies on an edge; a slab that a move has left no
    # width is one place.
    for square in (n2, pp, qq):
        square[square == 0.0] = np.inf
    zero, one = np.zeros_like(n2), np.ones_like(n2)
    inner_u, inner_v = -_dot(_cross(c, q), n) / n2, _dot(_cross(c, p), n) / n2
    u = [inner_u, zero, one, -cp / pp, -(cp + pq) / pp]
    v = [inner_v, -cq / qq, -(cq + pq) / qq, zero, one]
    shape = (-1, n2.shape[-1])
    return (
        np.clip(np.stack(u).reshape(shape), 0.0, 1.0),
        np.clip(np.stack(v).reshape(shape), 0.0, 1.0),
    )


Triple = tuple[Floats, Floats, Floats]


def _cross(a: Triple, b: Triple) -> Triple:
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


def _dot(a: Triple, b: Triple) -> Floats:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cell_gaps(a: Floats, b: Floats, at: Floats) -> CellGaps:
    """Return the gap and nearest points of each pair of cells.

    Parameters
    ----------
    a, b : arrays of shape (10, n), mm
    at : array of shape (2, n)
        From :func:`nearest_places`.
    """
    on_a, on_b = np.empty((3, a.shape[1])), np.empty((3, a.shape[1]))
    on_a[0], on_b[0] = _blend(a[:2], at[0]), _blend(b[:2], at[1])
    # Two slabs that share a depth meet at one x, whatever the rounding of each.
    same = np.abs(on_a[0] - on_b[0]) < 1e-12
    on_b[0, same] = on_a[0, same]
    for axis in (1, 2):
        a_low, a_high = _blend(a[LOW[axis]], at[0]), _blend(a[HIGH[axis]], at[0])
        b_low, b_high = _blend(b[LOW[axis]], at[1]), _blend(b[HIGH[axis]], at[1])
        middle = (np.maximum(a_low, b_low) + np.minimum(a_high, b_high)) / 2
        on_a[axis] = np.clip(middle, a_low, a_high)
        on_b[axis] = np.clip(middle, b_low, b_high)
    x, y, z = on_a - on_b
    return CellGaps(np.sqrt(x * x + y * y + z * z), on_a, on_b)


def _blend(ends: Floats, part: Floats) -> Floats:
    blended: Floats = ends[0] * (1 - part) + ends[1] * part
    return blended
