"""Which shifts along one axis make cells interfere: one closed interval per pair.

The shifts of b at which two convex cells share a cube form an interval, so the
shifts at which two bodies interfere are a union of intervals.  Its first gap gives
the overlap; the same intervals tell what a moving body meets on its way.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from layout.geometry.pairs.interference import (
    bounds_at,
    meeting_depths,
)
from layout.geometry.solids.cells import HIGH, LOW, X0, X1, Floats
from layout.geometry.space import Axis

__all__ = ["Intervals", "free_shift", "shift_intervals"]

_FEASIBLE_MM: Final = 1e-10
"""How far a corner of the range of shifts may miss a bound by rounding."""

Intervals = tuple[Floats, Floats]


def shift_intervals(a: Floats, b: Floats, axis: Axis) -> Intervals:
    """Return from which to which shift of b each pair of worn cells meets.

    Parameters
    ----------
    a, b : arrays of shape (10, n), mm
        Columns from :func:`worn`, pair by pair.

    Returns
    -------
    two arrays of shape (n,), mm
        Low and high ends; ``inf`` and ``-inf`` where the pair meets at no shift.
    """
    if axis is Axis.DEPTH:
        return _along_depth(a, b)
    return _across_depth(a, b, axis.index)


def _across_depth(a: Floats, b: Floats, axis: int) -> Intervals:
    depths = meeting_depths(a, b, (3 - axis,))
    low, high = _none(a.shape[1])
    meets = np.flatnonzero(depths[0] <= depths[1])
    a, b, ends = a[:, meets], b[:, meets], np.stack(depths)[:, meets]
    # Linear in depth, so the farthest shift is reached at an end of the shared slab.
    (a_low, a_high), (b_low, b_high) = bounds_at(a, ends), bounds_at(b, ends)
    least, most = (a_low - b_high)[axis - 1], (a_high - b_low)[axis - 1]
    low[meets], high[meets] = np.minimum(*least), np.maximum(*most)
    return low, high


def _none(count: int) -> Intervals:
    return np.full(count, np.inf), np.full(count, -np.inf)


def _along_depth(a: Floats, b: Floats) -> Intervals:
    """Return the least and largest s - t over the pairs' feasible (s, t).

    The feasible places are a polygon: the corners of two slabs, cut by the four
    bounds that must not cross.  A linear value is extreme at one of its corners,
    and every corner is where two of the eight limits meet.
    """
    low, high = _none(a.shape[1])
    filled = np.flatnonzero((a[X1] >= a[X0]) & (b[X1] >= b[X0]))
    if len(filled):
        low[filled], high[filled] = _extreme_shifts(a[:, filled], b[:, filled])
    return low, high


def _extreme_shifts(a: Floats, b: Floats) -> Intervals:
    c, p, q = _limits(a, b)
    u, v = _crossings(c, p, q)
    inside = np.isfinite(u) & np.isfinite(v)
    u[~inside] = v[~inside] = 0.0
    for limit in range(len(c)):
        inside &= c[limit] + p[limit] * u + q[limit] * v >= -_FEASIBLE_MM
    shift = a[X0] + u * (a[X1] - a[X0]) - b[X0] - v * (b[X1] - b[X0])
    low = np.where(inside, shift, np.inf).min(axis=0)
    high = np.where(inside, shift, -np.inf).max(axis=0)
    return low, high


Limits = tuple[Floats, Floats, Floats]
"""c, p, q of each ``c + p u + q v >= 0``, shape (8, n): u and v are parts of slabs."""


def _limits(a: Floats, b: Floats) -> Limits:
    """Return the four ends of both slabs, and the four bounds that must not cross."""
    zero, one = np.zeros(a.shape[1]), np.ones(a.shape[1])
    limits = [
        (zero, one, zero),
        (one, -one, zero),
        (zero, zero, one),
        (one, zero, -one),
    ]
    for axis in (1, 2):
        (a0, a1), (b0, b1) = a[HIGH[axis]], b[LOW[axis]]
        limits.append((a0 - b0, a1 - a0, b0 - b1))
        (a0, a1), (b0, b1) = a[LOW[axis]], b[HIGH[axis]]
        limits.append((b0 - a0, a0 - a1, b1 - b0))
    c, p, q = (np.stack(column) for column in zip(*limits, strict=True))
    return c, p, q


def _crossings(c: Floats, p: Floats, q: Floats) -> tuple[Floats, Floats]:
    """Return where any two limits are both zero; not finite where they are parallel."""
    i, j = np.triu_indices(len(c), 1)
    with np.errstate(divide="ignore", invalid="ignore"):
        det = p[i] * q[j] - q[i] * p[j]
        return (q[i] * c[j] - c[i] * q[j]) / det, (c[i] * p[j] - p[i] * c[j]) / det


def free_shift(intervals: Intervals, sign: int) -> float:
    """Return the first shift from 0, in one sense, that lies in no interval, mm >= 0.

    Examples
    --------
    >>> free_shift((np.array([-1.0, 2.0]), np.array([2.0, 3.0])), 1)
    3.0
    >>> free_shift((np.array([-1.0, 2.0]), np.array([2.0, 3.0])), -1)
    1.0
    """
    low, high = intervals if sign > 0 else (-intervals[1], -intervals[0])
    order = np.argsort(low, kind="stable")
    low, reach = low[order], np.maximum.accumulate(high[order])
    if not len(low) or low[0] > 0:
        return 0.0
    # A break is an interval that starts beyond all that earlier ones reach.
    breaks = np.flatnonzero(low[1:] > np.maximum(reach[:-1], 0.0))
    end = breaks[0] if len(breaks) else len(low) - 1
    return max(0.0, float(reach[end]))
