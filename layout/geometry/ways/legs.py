"""Straight legs between places, and what of a stiff way is left at least after each."""

from __future__ import annotations

import math
from dataclasses import field
from typing import Final, Protocol

import numpy as np
from numpy.typing import NDArray

from layout.geometry.solids.cells import Floats, Ints
from layout.values import dataclass

__all__ = ["TRACE_MM", "Barring", "Legs", "turned"]

TRACE_MM: Final = 1e-6
"""By how much a turn may take more than there is."""
_SHARE: Final = (2.0 - math.pi / 2) / 2
"""What a turn saves at most of what it takes of one of its legs."""
_NEGLIGIBLE_MM: Final = 1e-9


def turned(cosine: Floats, radius_mm: float) -> tuple[Floats, Floats]:
    """Return what turns take of each leg (no end of it past 90 degrees), and save."""
    level = np.clip(cosine, 0.0, 1.0)
    half = np.sqrt((1.0 - level) / (1.0 + level))
    takes = np.where(cosine < -TRACE_MM, np.inf, radius_mm * half)
    return takes, radius_mm * (2.0 * half - np.arccos(level))


@dataclass(frozen=True, slots=True, eq=False)
class _Turns:
    """Turns at one place: out of which legs, into which, and what each costs.

    ``mm`` are the lengths of the legs into which they lead; a turn saves, so that what
    it costs is less than nothing, and what no hose can turn costs no end.
    """

    out_of: Ints
    into: Ints
    mm: Floats
    cost: Floats


class Barring(Protocol):
    """What takes out legs that are kept."""

    def bar(self, legs: Legs) -> None:
        """Take out the legs of ways that it bars."""


@dataclass(frozen=False, eq=False, slots=True)
class Legs:
    """The legs of ways between two places that may be no longer than a bound.

    Parameters
    ----------
    at : array of places, mm
    mm : array
        How far each place is from each other, infinite where a box is between.
    radius_mm : float
    first, last : int

    Notes
    -----
    A leg's turns take no more than all of it, and than two radii; they save no more
    than a share of that.  So a leg counts at least the rest, and a leg that leaves too
    little of the bound for what must come before and after it is looked at no more.
    """

    at: Floats
    mm: Floats
    radius_mm: float
    first: int
    last: int
    kept: NDArray[np.bool_] = field(init=False)
    left_mm: Floats = field(init=False)
    _least: Floats = field(init=False)
    _before: Floats = field(init=False)
    _after: Floats = field(init=False)
    _turns: dict[int, _Turns] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        taken = np.minimum(self.mm, 2 * self.radius_mm)
        self._least = self.mm - _SHARE * taken
        self._before = _nearest(self._least, self.first)
        self._after = _nearest(self._least, self.last)
        self.keep_all()

    @property
    def least_mm(self) -> float:
        """Return what the shortest way takes at least; infinite where there is none."""
        return float(self._before[self.last])

    def keep_all(self) -> None:
        """Keep every leg, nothing known of what is left after any."""
        self.kept = np.isfinite(self.mm)
        self.left_mm = np.zeros(self.mm.shape)

    def keep(self, most_mm: float, past: Barring | None = None) -> None:
        """Keep the legs that a way of so many mm may have, past what lies already."""
        whole = self._before[:, None] + self._least + self._after[None, :]
        self.kept = whole <= most_mm
        self.kept[self.last] = False
        self.kept[:, self.first] = False
        if past:
            past.bar(self)
        self.left_mm = np.full(self.mm.shape, np.inf)
        self._turns.clear()
        self._look_back(most_mm)

    def _look_back(self, most_mm: float) -> None:
        """Work out what is left at least after each leg, its turn at the end included.

        That is exact but for two things: a leg's two turns are held against all of it
        each by itself, and no arc is held against what stands beside its legs.
        """
        begins = self.kept[:, self.last]
        self.left_mm[begins, self.last] = 0.0
        due = np.where(begins, self.mm[:, self.last], np.inf)
        due[self.first] = np.inf
        while np.isfinite(due[here := int(due.argmin())]):
            due[here] = np.inf
            turns = self._turns_at(here)
            onward = turns.mm + self.left_mm[here, turns.into]
            left = (turns.cost + onward).min(axis=1, initial=np.inf)
            less = left < self.left_mm[turns.out_of, here] - _NEGLIGIBLE_MM
            reached = self._before + self._least[:, here]
            less &= reached[turns.out_of] + left <= most_mm
            there, left = turns.out_of[less], left[less]
            self.left_mm[there, here] = left
            due[there] = np.minimum(due[there], self.mm[there, here] + left)
            due[self.first] = np.inf

    def _turns_at(self, here: int) -> _Turns:
        if here not in self._turns:
            out_of = np.flatnonzero(self.kept[:, here])
            into = np.flatnonzero(self.kept[here])
            come, go = self.mm[out_of, here], self.mm[here, into]
            coming = (self.at[here] - self.at[out_of]) / come[:, None]
            going = (self.at[into] - self.at[here]) / go[:, None]
            takes, saves = turned(coming @ going.T, self.radius_mm)
            fits = takes <= np.minimum.outer(come, go) + TRACE_MM
            cost = np.where(fits, -saves, np.inf)
            self._turns[here] = _Turns(out_of, into, go, cost)
        return self._turns[here]


def _nearest(least: Floats, place: int) -> Floats:
    """Return how far at least each place is from one, round what is between."""
    found = np.full(len(least), np.inf)
    found[place] = 0.0
    done = np.zeros(len(least))  # infinite for places that are
    for _ in range(len(least)):
        here = int((found + done).argmin())
        if not np.isfinite(found[here] + done[here]):
            break
        done[here] = np.inf
        np.minimum(found, found[here] + least[here], out=found)
    return found
