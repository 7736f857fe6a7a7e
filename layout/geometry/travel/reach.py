"""Which shifts along one axis bring cells nearer than some distance, in closed form.

The distance of two convex cells is a convex function of a shift of one of them, so the
shifts at which they are nearer than r form one open interval.  For chosen depths its
upper end is ``lead + sqrt(r^2 - (the gaps along the other axes)^2)``, where ``lead``
is the shift at which the two sections meet; both are linear in the depths.  That is a
concave function of the two depths, so its largest value is stationary for one choice
of active gaps: inside the rectangle of depths, on an edge, or in a corner.  All those
places are evaluated and the largest taken; the lower end is its mirror image.
"""

from __future__ import annotations

from typing import Final, TypeAlias

import numpy as np

from layout.geometry.pairs.gap import Linear, active_gaps, depth_gap, value_at
from layout.geometry.pairs.shifts import Intervals
from layout.geometry.solids.cells import HIGH, LOW, Floats
from layout.geometry.space import Axis

__all__ = ["near_intervals"]

_BATCH: Final = 2048
"""Cell pairs per batch: their candidates stay within a processor's cache."""

Rows: TypeAlias = tuple[Linear, Linear]
"""The gaps along the two other axes: ``c, p, q`` of shape (choices, n) each."""


def near_intervals(a: Floats, b: Floats, axis: Axis, *, within_mm: Floats) -> Intervals:
    """Return between which shifts of b each pair of cells is nearer than a distance.

    Parameters
    ----------
    a, b : arrays of shape (10, n), mm
        Columns of ``Cells``, pair by pair.
    within_mm : array of shape (n,), mm
        Each above 0.

    Returns
    -------
    two arrays of shape (n,), mm
        Low and high ends; ``inf`` and ``-inf`` where no shift brings them so near.
    """
    low, high = np.empty(a.shape[1]), np.empty(a.shape[1])
    for start in range(0, a.shape[1], _BATCH):
        part = slice(start, start + _BATCH)
        pair = a[:, part], b[:, part]
        rows = _rows(*pair, axis)
        leads = _leads(*pair, axis)
        low[part] = -_farthest(_turned(leads[0]), rows, within_mm[part])
        high[part] = _farthest(leads[1], rows, within_mm[part])
    return low, high


def _rows(a: Floats, b: Floats, axis: Axis) -> Rows:
    depth = depth_gap(a, b)
    y, z = (active_gaps(a, b, k, mixed=True) for k in (1, 2))
    if axis is Axis.DEPTH:
        return y, z
    c, p, q = (each[None] for each in depth)
    return (c, p, q), (z if axis is Axis.HEIGHT else y)


def _leads(a: Floats, b: Floats, axis: Axis) -> tuple[Linear, Linear]:
    """Return the least and largest shift at which sections meet along the axis."""
    if axis is Axis.DEPTH:
        depth = depth_gap(a, b)
        return depth, depth
    k = axis.index
    (a0, a1), (b0, b1) = a[LOW[k]], b[HIGH[k]]
    least = a0 - b0, a1 - a0, b0 - b1
    (a0, a1), (b0, b1) = a[HIGH[k]], b[LOW[k]]
    return least, (a0 - b0, a1 - a0, b0 - b1)


def _turned(form: Linear) -> Linear:
    c, p, q = form
    return -c, -p, -q


def _farthest(lead: Linear, rows: Rows, within: Floats) -> Floats:
    """Return the largest of ``lead + sqrt(r^2 - gaps^2)``, or -inf."""
    square = within**2
    places = [_inner(lead, rows, within), *_edges(lead, rows, square), _corners(lead)]
    u, v = (np.concatenate(each) for each in zip(*places, strict=True))
    usable = np.isfinite(u) & np.isfinite(v)
    u, v = (np.clip(np.where(usable, each, 0.0), 0.0, 1.0) for each in (u, v))
    left = square - sum(_worst(row, u, v) ** 2 for row in rows)
    reach = value_at(lead, u, v) + np.sqrt(np.maximum(left, 0.0))
    farthest: Floats = np.where(left > 0, reach, -np.inf).max(axis=0)
    return farthest


def _worst(row: Linear, u: Floats, v: Floats) -> Floats:
    """Return the largest of the gaps that may be active."""
    c, p, q = row
    worst = value_at((c[0], p[0], q[0]), u, v)
    for k in range(1, len(c)):
        np.maximum(worst, value_at((c[k], p[k], q[k]), u, v), out=worst)
    return worst


def _corners(lead: Linear) -> tuple[Floats, Floats]:
    zero, one = np.zeros((1, len(lead[0]))), np.ones((1, len(lead[0])))
    return np.concatenate([zero, zero, one, one]), np.concatenate([zero, one] * 2)


def _inner(lead: Linear, rows: Rows, within: Floats) -> tuple[Floats, Floats]:
    """Return where both gaps are active and the gradient is zero, per choice.

    With the gaps w as unknowns: the lead's slope g in them is largest against
    ``sqrt(r^2 - w^2)`` at ``w = r g / sqrt(1 + g^2)``.
    """
    (c1, p1, q1), (c2, p2, q2) = _crossed(rows)
    _, p, q = lead
    det = p1 * q2 - q1 * p2
    slope1, slope2 = p * q2 - p2 * q, p1 * q - q1 * p  # both times det
    steep = np.sqrt(det**2 + slope1**2 + slope2**2)
    size = np.copysign(within, det) / np.where(steep > 0, steep, np.inf)
    w1, w2 = slope1 * size - c1, slope2 * size - c2
    with np.errstate(divide="ignore", invalid="ignore"):
        u, v = (w1 * q2 - q1 * w2) / det, (p1 * w2 - w1 * p2) / det
    shape = (-1, det.shape[-1])
    return u.reshape(shape), v.reshape(shape)


def _crossed(rows: Rows) -> Rows:
    """Return every choice of the first gap with every choice of the second."""
    (c1, p1, q1), (c2, p2, q2) = rows
    return (
        (c1[:, None], p1[:, None], q1[:, None]),
        (c2[None], p2[None], q2[None]),
    )


def _edges(lead: Linear, rows: Rows, square: Floats) -> list[tuple[Floats, Floats]]:
    """Return where the gradient along each of the four edges is zero, per choice."""
    (c1, p1, q1), (c2, p2, q2) = _crossed(rows)
    _, p, q = lead
    places = []
    for end in (0.0, 1.0):
        first, second = (c1 + p1 * end, q1), (c2 + p2 * end, q2)
        along = _along((first, second), q, square)
        places.append((np.full_like(along, end), along))
        first, second = (c1 + q1 * end, p1), (c2 + q2 * end, p2)
        along = _along((first, second), p, square)
        places.append((along, np.full_like(along, end)))
    return places


def _along(
    gaps: tuple[tuple[Floats, Floats], ...], slope: Floats, square: Floats
) -> Floats:
    """Return the part t of an edge where the reach is stationary.

    The gaps are ``start + t * step``, the reach ``slope t + sqrt(r^2 - gaps^2)``; not
    finite where no gap changes along the edge.
    """
    (c1, s1), (c2, s2) = gaps
    long = s1**2 + s2**2
    with np.errstate(divide="ignore", invalid="ignore"):
        left = np.maximum(square - (c1 * s2 - c2 * s1) ** 2 / long, 0.0)
        off = slope * np.sqrt(left / (long * (slope**2 + long)))
        along: Floats = off - (c1 * s1 + c2 * s2) / long
    return along.reshape(-1, along.shape[-1])
