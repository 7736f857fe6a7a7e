"""The cheapest of many places: those that may be are looked at, the cheapest first."""

from __future__ import annotations

from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from layout.drawing.lettered.labels import Candidate, Offer
from layout.drawing.lettered.taken import Taken
from layout.drawing.paper.met import Few, meet, run_through
from layout.values import dataclass

__all__ = ["CROSSED", "Limit", "cheapest"]

CROSSED: Final = 1000.0
"""What a leader costs that crosses another one: more than any way round."""
_END_MM: Final = 0.5
"""So much of a leader's end lies on what it leads to."""
_AT_ONCE: Final = 256
_MORE: Final = 2
"""Places are looked at so many at first, the cheapest, then so many times as many."""
_ROUNDED_MM: Final = 1e-6
"""A place this little over a limit may be within it, sums being rounded."""

_Chosen: TypeAlias = tuple[float, float, int]
"""What a place costs in all and by itself, and which one it is; -1 is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """What is asked of the cheapest place: another one is of no use.

    Parameters
    ----------
    below : float
        ``CROSSED`` for every other leader that a leader crosses, and the leader's
        length in mm where that counts, must be less than this.
    long : bool
        Whether the length counts.
    now : Candidate, optional
        A place that is of no use, although it may just seem to be within the limit.
    """

    below: float
    long: bool
    now: Candidate | None = None

    def holds(
        self, offer: Offer, some: NDArray[np.intp], extra: NDArray[np.float64] | float
    ) -> NDArray[np.bool_]:
        """Tell which places may be within it, leaders that cross costing ``extra``."""
        if self.long:
            return offer.reach_mm[some] + extra < self.below + _ROUNDED_MM
        return np.broadcast_to(np.less(extra, self.below), some.shape)


def cheapest(
    offer: Offer,
    taken: Taken,
    labels: Few,
    *,
    most: float,
    limit: Limit | None,
) -> Candidate | None:
    """Return the cheapest place of an offer that is free; None if there is none.

    Parameters
    ----------
    most : float
        A place that costs as much is none.
    limit : Limit, optional
        Where the cheapest place is not within it there is none.
    """
    search = _Search(offer, taken, labels)
    free = np.flatnonzero(offer.least < np.inf)
    chosen = search.least(free, (most, -np.inf, -1), limit)
    if chosen[2] < 0:
        return None
    place = offer.places.at(chosen[2])
    known = limit is None or place == limit.now
    return place if known or search.least(free, chosen, None) == chosen else None


@dataclass(frozen=True, slots=True, eq=False)
class _Search:
    """An offer on a ground, with the labels that stand there."""

    offer: Offer
    taken: Taken
    labels: Few

    def least(
        self, some: NDArray[np.intp], chosen: _Chosen, limit: Limit | None
    ) -> _Chosen:
        """Return the cheapest of some places, or the one that was chosen before."""
        least, costs = self.offer.least, self.offer.places.costs
        some = some[least[some] <= chosen[0]]
        if limit is not None:
            some = some[limit.holds(self.offer, some, 0.0)]
        some = self._clear(some)
        some = some[np.lexsort((costs[some], least[some]))]
        start, size = 0, _AT_ONCE
        while start < len(some) and chosen[0] >= least[some[start]]:
            asked = some[start : start + size]
            asked = asked[least[asked] <= chosen[0]]
            cost = self._costs(asked, chosen[0], limit)
            first = np.lexsort((asked, costs[asked], cost))[0]
            found = float(cost[first]), float(costs[asked[first]]), int(asked[first])
            chosen = min(chosen, found)
            start, size = start + size, _MORE * size
        return chosen

    def _clear(self, some: NDArray[np.intp]) -> NDArray[np.intp]:
        """Return the places whose boxes are clear of labels."""
        padded, of = self.offer.padded, self.offer.box_of[some]
        clear = np.zeros(len(padded), dtype=np.bool_)
        clear[of] = True
        clear[clear] = ~meet(padded[clear], self.labels.boxes)
        return some[clear[of]]

    def _costs(
        self, some: NDArray[np.intp], most: float, limit: Limit | None
    ) -> NDArray[np.float64]:
        """Return what some places cost; infinite where one is refused, or costs more.

        What is dearest to find out is asked last, of the places still in the running.
        """
        least, total = self.offer.least, np.full(len(some), np.inf)
        left = np.flatnonzero(self._stand(some))
        left = left[least[some[left]] <= most]
        leaders = self.offer.leaders(some[left])
        if leaders is None:
            total[left] = least[some[left]]
            return total
        free = ~run_through(leaders, self.labels.boxes)
        left, leaders = left[free], leaders[free]
        extra = np.multiply(CROSSED, self.labels.crossed(leaders), dtype=np.float64)
        if limit is not None:
            free = limit.holds(self.offer, some[left], extra)
            left, leaders, extra = left[free], leaders[free], extra[free]
        self._led(some[left], leaders, most - extra)
        total[left] = least[some[left]] + extra
        return np.where(total <= most, total, np.inf)

    def _stand(self, some: NDArray[np.intp]) -> NDArray[np.bool_]:
        """Tell which places' boxes are free; what they lie on is added to the cost."""
        offer, of = self.offer, self.offer.box_of[some]
        asked = np.unique(of[np.isnan(offer.under[of])])
        if len(asked):
            offer.under[asked] = self.taken.under(offer.padded[asked])
        under = offer.under[of]
        offer.least[some] = np.maximum(
            offer.least[some], offer.places.costs[some] + under
        )
        free: NDArray[np.bool_] = under < np.inf
        free[free] = ~self.labels.lie_under(offer.padded[of[free]])
        return free

    def _led(
        self,
        some: NDArray[np.intp],
        leaders: NDArray[np.float64],
        most: NDArray[np.float64],
    ) -> None:
        """Add what leaders cost that pass lines and edges, as far as it matters."""
        least, told = self.offer.least, self.offer.told
        left = np.flatnonzero(told[some] < 1)
        if len(left):
            lettered = self.taken.lettered(leaders[left])
            least[some[left[lettered]]] = np.inf
            told[some[left]] = 1
        for n, passed in enumerate(self.taken.passed, start=1):
            left = np.flatnonzero((told[some] == n) & (least[some] <= most))
            if len(left):
                # what a leader ends on it does not cross
                least[some[left]] += passed.crossed(_shortened(leaders[left]))
                told[some[left]] = n + 1


def _shortened(leaders: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return leaders that end before what they lead to."""
    out = leaders.copy()
    along = leaders[:, -2] - leaders[:, -1]
    long = np.maximum(np.hypot(along[:, 0], along[:, 1]), 2 * _END_MM)
    out[:, -1] += along * (_END_MM / long)[:, None]
    return out
