"""Stretches of travel: unions of intervals, for many owners at once."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from layout.geometry.solids.cells import Floats, Ints
from layout.values import dataclass

__all__ = ["Stretches", "Union", "clear_of", "merged", "union"]

Stretches: TypeAlias = tuple[tuple[float, float], ...]
"""Disjoint intervals in rising order, mm."""


@dataclass(frozen=True, slots=True, eq=False)
class Union:
    """Disjoint intervals, each with its owner: sorted by owner, then by place."""

    owner: Ints
    low: Floats
    high: Floats

    def with_more(self, owner: Ints, low: Floats, high: Floats) -> Union:
        """Return the union with further intervals."""
        return union(
            np.concatenate([self.owner, owner]),
            np.concatenate([self.low, low]),
            np.concatenate([self.high, high]),
        )

    def covers(self, owner: Ints, low: Floats, high: Floats) -> NDArray[np.bool_]:
        """Tell which intervals lie within what their owner has already."""
        if not len(self.owner):
            return np.zeros(len(owner), bool)
        known = np.arange(len(self.owner) + len(owner)) < len(self.owner)
        lows, owners = np.append(self.low, low), np.append(self.owner, owner)
        order = np.lexsort((~known, lows, owners))
        last = np.empty(len(order), np.intp)
        last[order] = np.cumsum(known[order]) - 1
        last = last[len(self.owner) :]
        within: NDArray[np.bool_] = (last >= 0) & (self.owner[last] == owner)
        return within & (high <= self.high[last])

    def of(self, owner: int) -> Stretches:
        """Return the intervals of one owner."""
        first, end = np.searchsorted(self.owner, [owner, owner + 1])
        own = slice(first, end)
        return tuple(zip(self.low[own].tolist(), self.high[own].tolist(), strict=True))


def union(owner: Ints, low: Floats, high: Floats) -> Union:
    """Return the union of intervals, for each owner its own.

    Intervals that share an end are one.
    """
    order = np.lexsort((low, owner))
    owner, low, high = owner[order], low[order], high[order]
    # The running maximum by owner: of ranks, which are whole numbers and stay exact.
    rank = np.empty(len(high), np.intp)
    by_high = np.argsort(high, kind="stable")
    rank[by_high] = np.arange(len(high))
    place = np.maximum.accumulate(owner * len(high) + rank) - owner * len(high)
    reach = high[by_high[place]]
    new = np.ones(len(low), bool)
    new[1:] = (owner[1:] != owner[:-1]) | (low[1:] > reach[:-1])
    end = np.append(np.flatnonzero(new)[1:], len(low)) - 1 if len(low) else order
    return Union(owner[new], low[new], reach[end])


def merged(parts: Iterable[Stretches]) -> Stretches:
    """Return the union of several stretches.

    Examples
    --------
    >>> merged([((0.0, 2.0), (8.0, 9.0)), ((1.0, 4.0),)])
    ((0.0, 4.0), (8.0, 9.0))
    """
    ends = np.array([end for part in parts for end in part]).reshape(-1, 2)
    return union(np.zeros(len(ends), np.intp), *ends.T).of(0)


def clear_of(blocked: Stretches, travel_mm: tuple[float, float]) -> Stretches:
    """Return what of a travel lies in no blocked stretch, ends included.

    Examples
    --------
    >>> clear_of(((0.0, 2.0), (8.0, 9.0)), (0.0, 60.0))
    ((2.0, 8.0), (9.0, 60.0))
    >>> clear_of((), (5.0, 5.0))
    ((5.0, 5.0),)
    """
    low, high = travel_mm
    starts = (low, *(end for _, end in blocked))
    ends = (*(start for start, _ in blocked), high)
    between = zip(starts, ends, strict=True)
    return tuple(
        (start, end)
        for start, end in between
        if start < end or (not blocked and start == end)
    )
