"""Arrays that hold a run of places for each pair, sorted by pair.

What is asked of all combinations within a pair is asked in runs, to bound the memory.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, Literal

import numpy as np

from layout.geometry.solids.cells import Floats, Ints, spread
from layout.values import dataclass

__all__ = [
    "FEW",
    "MOST_CELL_PAIRS",
    "Spans",
    "first_least",
    "joined",
    "product",
    "product_runs",
    "starts_of",
    "turns",
]

MOST_CELL_PAIRS: Final = 2_000_000
"""Cell pairs looked at in one turn; more are taken in turns, to bound the memory."""


def first_least(pair: Ints, value: Floats) -> Ints:
    """Return the first place of each pair's least value; pairs are sorted.

    Examples
    --------
    >>> first_least(np.array([0, 0, 2, 2]), np.array([5.0, 3.0, 1.0, 1.0]))
    array([1, 2])
    """
    starts = starts_of(pair)
    least = np.minimum.reduceat(value, starts)
    run = np.repeat(np.arange(len(starts)), np.diff(starts, append=len(pair)))
    place = np.flatnonzero(value == least[run])
    first: Ints = place[starts_of(run[place])]
    return first


def starts_of(pair: Ints) -> Ints:
    """Return where each run of equal values starts.

    Examples
    --------
    >>> starts_of(np.array([0, 0, 2, 2]))
    array([0, 2])
    """
    new = np.ones(len(pair), bool)
    np.not_equal(pair[1:], pair[:-1], out=new[1:])
    return np.flatnonzero(new)


def product(a: tuple[Ints, Ints], b: tuple[Ints, Ints]) -> tuple[Ints, Ints, Ints]:
    """Return pair, a's cell and b's cell of all combinations; both sorted by pair."""
    a_pair, a_cell = a
    b_pair, b_cell = b
    pairs = 1 + max(int(each[-1]) if len(each) else -1 for each in (a_pair, b_pair))
    b_count = np.bincount(b_pair, minlength=pairs)
    b_start = np.cumsum(b_count) - b_count
    pick, offset = spread(b_count[a_pair])
    pair = a_pair[pick]
    offset += b_start[pair]
    return pair, a_cell[pick], b_cell[offset]


def product_runs(
    a: tuple[Ints, Ints], b: tuple[Ints, Ints]
) -> Iterator[tuple[Ints, Ints, Ints]]:
    """Yield the combinations of :func:`product` in runs, to bound the memory."""
    a_pair, a_cell = a
    b_count = np.bincount(b[0], minlength=1 + a_pair.max(initial=-1))
    for part in turns(b_count[a_pair]):
        yield product((a_pair[part], a_cell[part]), b)


FEW: Final = 10_000
"""Combinations that are not worth sorting out."""


@dataclass(frozen=True, slots=True, eq=False)
class Spans:
    """Intervals of one side: whose pair each belongs to, and both ends."""

    pair: Ints
    low: Floats
    high: Floats


def joined(a: Spans, b: Spans) -> Iterator[tuple[Ints, Ints]]:
    """Yield the places in a and in b of all intervals of one pair that overlap.

    In runs, to bound the memory.  Some that miss one another by a rounding may be
    among them, none that overlap is left out, and none is told twice.

    Notes
    -----
    Of two that overlap, one starts within the other: b in a, or else a in b.
    """
    if not len(a.pair) or not len(b.pair):
        return
    a_keys, b_keys = _keys(a, b)
    for i, j in _started(a_keys, b_keys[0], "left"):
        yield i, j
    for j, i in _started(b_keys, a_keys[0], "right"):
        yield i, j


def turns(weight: Ints) -> list[Ints]:
    """Split places into runs of bounded weight."""
    place = np.arange(len(weight))
    if weight.sum() < MOST_CELL_PAIRS:
        return [place]
    turn = np.cumsum(weight) // MOST_CELL_PAIRS
    return np.split(place, np.flatnonzero(np.diff(turn)) + 1)


Keys = tuple[Floats, Floats]
"""Both ends, set apart by pair so that one order serves all pairs."""


def _keys(a: Spans, b: Spans) -> tuple[Keys, Keys]:
    first = min(a.low.min(), b.low.min())
    last = max(*(end.max() for side in (a, b) for end in (side.low, side.high)))
    long = 1.0 + last - first
    most = long * (1 + max(a.pair.max(), b.pair.max()))
    slack = 2 * np.spacing(most)
    keys = []
    for side in (a, b):
        offset = side.pair * long - first
        keys.append(
            (side.low + offset, np.maximum(side.high, side.low) + offset + slack)
        )
    return keys[0], keys[1]


def _started(
    keys: Keys, starts: Floats, side: Literal["left", "right"]
) -> Iterator[tuple[Ints, Ints]]:
    """Yield each interval with those of the other side that start within it."""
    order = np.argsort(starts, kind="stable")
    ordered = starts[order]
    low, high = keys
    first = np.searchsorted(ordered, low, side)
    count = np.maximum(np.searchsorted(ordered, high, "left") - first, 0)
    for part in turns(count):
        own, offset = spread(count[part])
        own = part[own]
        yield own, order[first[own] + offset]
