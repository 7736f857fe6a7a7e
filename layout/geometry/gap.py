"""The least distance between convex cells, exact, for many pairs at once.

For two cells the squared distance at depths s (in a) and t (in b) is
``(s - t)^2 + max(0, y gap)^2 + max(0, z gap)^2`` with gaps linear in s and t: a convex
function.  Its least value lies where one choice of active gaps is stationary: inside
the rectangle of (s, t) or on one of its four edges.  All those candidates are
evaluated, so none has to be chosen.  Depths are counted as parts of each slab, which
keeps steep faces as exact as flat ones.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from layout.geometry.cells import HIGH, LOW, X0, X1, Floats

__all__ = ["CellGaps", "cell_gaps"]

_BATCH = 2048
"""Cell pairs per batch: their candidates stay within a processor's cache."""


@dataclass(frozen=True, slots=True, eq=False)
class CellGaps:
    """Distance (n,) and nearest points (3, n) on a's and b's cell, mm."""

    gap: Floats
    on_a: Floats
    on_b: Floats


def cell_gaps(a: Floats, b: Floats) -> CellGaps:
    """Return the gap and nearest points of each pair of cells.

    Parameters
    ----------
    a, b : arrays of shape (10, n), mm
        Columns of ``Cells``, pair by pair.
    """
    at = np.zeros((2, a.shape[1]))  # the best place in a's and in b's slab, 0 to 1
    flat = _is_box(a) & _is_box(b)
    at[:, flat] = _box_places(a[:, flat], b[:, flat])
    mixed_y, mixed_z = _mixed(a, b, 1), _mixed(a, b, 2)
    for y, z in product((False, True), repeat=2):
        group = np.flatnonzero(~flat & (mixed_y == y) & (mixed_z == z))
        for start in range(0, len(group), _BATCH):
            pick = group[start : start + _BATCH]
            at[:, pick] = _best_places(a[:, pick], b[:, pick], mixed=(y, z))
    return _witnessed(a, b, at)


def _is_box(rows: Floats) -> NDArray[np.bool_]:
    result: NDArray[np.bool_] = (rows[2::2] == rows[3::2]).all(axis=0)
    return result


def _box_places(a: Floats, b: Floats) -> Floats:
    """Return where boxes are nearest: the middle of what depth they share."""
    low = np.maximum(a[X0], b[X0])
    high = np.minimum(a[X1], b[X1])
    middle = (low + high) / 2
    return np.clip([_part(a, middle), _part(b, middle)], 0.0, 1.0)


def _part(rows: Floats, x: Floats) -> Floats:
    part: Floats = (x - rows[X0]) / (rows[X1] - rows[X0])
    return part


def _mixed(a: Floats, b: Floats, axis: int) -> NDArray[np.bool_]:
    """Tell where the cells' boxes meet along an axis, so that any gap may be active."""
    below = a[HIGH[axis]].max(axis=0) <= b[LOW[axis]].min(axis=0)
    above = b[HIGH[axis]].max(axis=0) <= a[LOW[axis]].min(axis=0)
    mixed: NDArray[np.bool_] = ~(below | above)
    return mixed


Linear = tuple[Floats, Floats, Floats]
"""c, p, q of ``c + p * (part of a) + q * (part of b)``, each of shape (n,)."""


def _depth(a: Floats, b: Floats) -> Linear:
    return a[X0] - b[X0], a[X1] - a[X0], b[X0] - b[X1]


def _between(low: Floats, high: Floats, *, swap: bool) -> Linear:
    """Return the gap from ``high``'s cell up to ``low``'s cell; ``low`` is b's."""
    c, p, q = low[0] - high[0], high[0] - high[1], low[1] - low[0]
    return (c, q, p) if swap else (c, p, q)


def _active(a: Floats, b: Floats, axis: int, *, mixed: bool) -> list[Linear]:
    """Return the gaps that may be active along an axis, 'none' as zeros."""
    up = _between(b[LOW[axis]], a[HIGH[axis]], swap=False)
    down = _between(a[LOW[axis]], b[HIGH[axis]], swap=True)
    if not mixed:
        above = a[LOW[axis]].sum(axis=0) > b[LOW[axis]].sum(axis=0)
        c, p, q = (np.where(above, d, u) for d, u in zip(down, up, strict=True))
        return [(c, p, q)]
    zero = np.zeros(a.shape[1])
    return [(zero, zero, zero), up, down]


def _best_places(a: Floats, b: Floats, *, mixed: tuple[bool, bool]) -> Floats:
    x = _depth(a, b)
    ys, zs = _active(a, b, 1, mixed=mixed[0]), _active(a, b, 2, mixed=mixed[1])
    candidates = [place for y in ys for z in zs for place in _stationary(x, y, z)]
    u = np.clip(np.stack([place[0] for place in candidates]), 0.0, 1.0)
    v = np.clip(np.stack([place[1] for place in candidates]), 0.0, 1.0)
    total = _at(x, u, v) ** 2
    for gaps in (ys, zs):
        worst = np.zeros_like(u)
        for gap in gaps[-2:]:
            np.maximum(worst, _at(gap, u, v), out=worst)
        total += worst**2
    best = total.argmin(axis=0)[None]
    return np.concatenate(
        [np.take_along_axis(u, best, axis=0), np.take_along_axis(v, best, axis=0)]
    )


def _at(form: Linear, u: Floats, v: Floats) -> Floats:
    c, p, q = form
    value: Floats = c + p * u + q * v
    return value


def _stationary(x: Linear, y: Linear, z: Linear) -> list[tuple[Floats, Floats]]:
    """Return where ``|c + p u + q v|`` is least: inside, and on u or v = 0 or 1.

    The inner one by cross products, which lose no digits where the faces are nearly
    parallel (the normal equations lose half of them).
    """
    c, p, q = ((x[i], y[i], z[i]) for i in range(3))
    n = _cross(p, q)
    n2 = _dot(n, n)
    n2[n2 == 0.0] = np.inf  # parallel: the least value also lies on an edge
    places = [(-_dot(_cross(c, q), n) / n2, _dot(_cross(c, p), n) / n2)]
    pp, pq, qq, cp, cq = _dot(p, p), _dot(p, q), _dot(q, q), _dot(c, p), _dot(c, q)
    zero, one = np.zeros_like(pp), np.ones_like(pp)
    for end in (zero, one):
        places += [(end, -(cq + end * pq) / qq), (-(cp + end * pq) / pp, end)]
    return places


Triple = tuple[Floats, Floats, Floats]


def _cross(a: Triple, b: Triple) -> Triple:
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


def _dot(a: Triple, b: Triple) -> Floats:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _witnessed(a: Floats, b: Floats, at: Floats) -> CellGaps:
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
