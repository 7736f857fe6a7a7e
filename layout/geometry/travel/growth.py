"""At which values of a growing figure boxes come too near to others: in closed form.

The bounds of a box that grows or moves with a figure are linear in it, so its distance
to another box is convex, and the values at which it is under a need are one interval.
"""

from __future__ import annotations

from typing import TypeAlias

import numpy as np

from layout.geometry.pairs.interference import CUBE_MM
from layout.geometry.solids.boxes import Boxes
from layout.geometry.solids.cells import Floats

__all__ = ["Ends", "near_values"]

Ends: TypeAlias = tuple[Boxes, Boxes]
"""Boxes at the first and at the last value of a figure, box by box."""

_CHANGES = 8
"""Places at which the distance of two boxes takes another form, both ends included."""


def near_values(
    growing: Ends, still: Boxes, within_mm: Floats
) -> tuple[Floats, Floats]:
    """Return from where to where, as parts 0 to 1 of the way, each pair is too near.

    Parameters
    ----------
    growing : Ends
        n boxes at both ends of the way, their bounds linear between.
    still : Boxes
        n boxes that stay, one for each of those.
    within_mm : array of shape (n,)
        Too near is less than this; 0: the two hold a cube of 1e-6 mm in common.

    Returns
    -------
    two arrays of shape (n,)
        First and last part of the way; first > last where a pair is never too near.
    """
    first, last = growing
    # how far the one lies before, or beyond, the other: linear along the way
    start = np.stack([still.low - first.high, first.low - still.high])  # (2, 3, n)
    slope = np.stack([still.low - last.high, last.low - still.high]) - start
    low, high = np.empty_like(within_mm), np.empty_like(within_mm)
    share = within_mm <= 0.0
    for own, told in ((share, _sharing), (~share, _nearer)):
        if own.any():
            way = start[:, :, own], slope[:, :, own]
            low[own], high[own] = told(*way, within_mm[own])
    return low, high


def _sharing(start: Floats, slope: Floats, _: Floats) -> tuple[Floats, Floats]:
    """Return where all six distances are under minus a cube's edge."""
    room = -CUBE_MM - start
    with np.errstate(divide="ignore", invalid="ignore"):
        root = room / slope
    low = np.where(slope < 0, root, np.where(room > 0, -np.inf, np.inf))
    high = np.where(slope > 0, root, np.where(room > 0, np.inf, -np.inf))
    low = np.where(slope > 0, -np.inf, low).max(axis=(0, 1))
    high = np.where(slope < 0, np.inf, high).min(axis=(0, 1))
    low, high = np.maximum(low, 0.0), np.minimum(high, 1.0)
    return np.where(low < high, low, np.inf), np.where(low < high, high, -np.inf)


def _nearer(start: Floats, slope: Floats, within: Floats) -> tuple[Floats, Floats]:
    """Return where the distance is under a length: a quadratic in every stretch."""
    with np.errstate(divide="ignore", invalid="ignore"):
        zero = np.where(slope != 0, -start / slope, 0.0)
    zero = np.clip(zero, 0.0, 1.0).reshape(6, -1)
    ends = np.zeros((1, len(within)))
    at = np.sort(np.concatenate([ends, zero, ends + 1.0]), axis=0)
    low, high = np.full(at.shape[1:], np.inf), np.full(at.shape[1:], -np.inf)
    for k in range(_CHANGES - 1):
        middle = (at[k] + at[k + 1]) / 2
        value = start + slope * middle
        # of the two sides at most one is ahead; neither: abreast, no distance there
        ahead = (value > 0) & (value >= value[::-1])
        c = np.where(ahead, start, 0.0).sum(axis=0)
        s = np.where(ahead, slope, 0.0).sum(axis=0)
        a, b, d = (s * s).sum(axis=0), (c * s).sum(axis=0), (c * c).sum(axis=0)
        left, right = _under(a, b, d - within * within)
        left, right = np.maximum(left, at[k]), np.minimum(right, at[k + 1])
        hit = left < right
        low = np.where(hit, np.minimum(low, left), low)
        high = np.where(hit, np.maximum(high, right), high)
    return low, high


def _under(a: Floats, b: Floats, c: Floats) -> tuple[Floats, Floats]:
    """Return where ``a t t + 2 b t + c < 0``; a >= 0, and b is 0 where a is."""
    inner = b * b - a * c
    with np.errstate(divide="ignore", invalid="ignore"):
        root = np.sqrt(np.maximum(inner, 0.0))
        left, right = (-b - root) / a, (-b + root) / a
    level = a == 0
    left = np.where(level, np.where(c < 0, -np.inf, np.inf), left)
    right = np.where(level, np.where(c < 0, np.inf, -np.inf), right)
    none = ~level & (inner <= 0)
    return np.where(none, np.inf, left), np.where(none, -np.inf, right)
