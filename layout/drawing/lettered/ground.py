"""Where lettering goes: of many candidate places, each with a score, the best one.

Lettering never lies on other lettering, on a dimension line or on a visible edge, and
a leader never runs through lettering: such places are refused.  Among the others the
cheapest wins; what costs is distance, an edge that gives way under the letters, and a
leader over a line, over another leader most, over a part least.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import count

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from layout.drawing.lettered.labels import Candidate, Offer, Places
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.met import (
    Areas,
    Lines,
    cross,
    meet,
    pieces_along,
    pieces_of,
    run_through,
)
from layout.drawing.paper.scene import Point
from layout.values import dataclass

__all__ = ["CROSSED", "Ground"]

CROSSED = 1000.0
"""What a leader costs that crosses another one: more than any way round."""
_FAINT_COST = 6.0
_CROSSING_COST = 14.0
_OVER_EDGE_COST = 3.0
"""For every line and visible edge that a leader crosses, in mm of its length: a part
that it runs through has two edges."""
_TIP_COST = 30.0
"""For every arrow's tip that a leader passes: it would seem to belong to it."""
_END_MM = 0.5
"""So much of a leader's end lies on what it leads to."""
_AT_ONCE = 128
_MORE = 2
"""Places are looked at so many at first, the cheapest, then so many times as many."""


@dataclass(frozen=False, eq=False, slots=True)
class _Labels:
    """The boxes of labels, and the pieces of their leaders with whose each is."""

    boxes: NDArray[np.float64]
    pieces: NDArray[np.float64]
    label: NDArray[np.intp]

    def crossed(self, leaders: NDArray[np.float64]) -> NDArray[np.intp]:
        """Return how many leaders each leader crosses."""
        met = cross(leaders, self.pieces)
        if len(self.label) > len(set(self.label.tolist())):
            first = np.flatnonzero(np.diff(self.label, prepend=-1))
            met = np.logical_or.reduceat(met, first, axis=1)
        crossed: NDArray[np.intp] = np.count_nonzero(met, axis=1)
        return crossed


@dataclass(frozen=False, eq=False, slots=True)
class _Fixed:
    """What stays, made ready for many questions; ``edition`` tells when it was."""

    boxes: NDArray[np.float64]
    lines: Lines
    areas: Areas
    passed: Areas
    edition: int


class Ground:
    """What is taken on a sheet so far; grows as lettering is placed.

    Parameters
    ----------
    frame : Frame
        Where lettering may lie.
    outlines : sequence of shapely lines
        Edges that lettering never lies on.
    faint : sequence of shapely lines
        Edges that are broken where lettering stands: the lesser evil.
    pad_mm : float
        Free paper around lettering.
    """

    def __init__(
        self,
        frame: Frame,
        outlines: Sequence[BaseGeometry],
        faint: Sequence[BaseGeometry],
        *,
        pad_mm: float,
    ) -> None:
        self._frame = frame
        self._outlines, _ = pieces_of(outlines)
        self._faint = Lines(faint)
        self._pad_mm = pad_mm
        self._boxes: list[Frame] = []
        self._lines: list[BaseGeometry] = []
        self._areas: list[BaseGeometry] = []
        self._tips: list[BaseGeometry] = []
        self._placed: list[Candidate] = []
        self._fixed: _Fixed | None = None
        self._labels: _Labels | None = None
        self._editions = count()

    def cleared(self) -> Ground:
        """Return a ground with the same edges on which nothing is taken."""
        made = Ground(self._frame, [], [], pad_mm=self._pad_mm)
        made._outlines, made._faint = self._outlines, self._faint
        return made

    def take(
        self,
        boxes: Sequence[Frame] = (),
        lines: Sequence[Sequence[Point]] = (),
        areas: Sequence[BaseGeometry] = (),
        *,
        tips: Sequence[BaseGeometry] = (),
    ) -> None:
        """Note lettering, lines and areas that later lettering must keep off.

        What is around the ``tips`` of arrows no leader passes if it can.
        """
        self._tips.extend(tips)
        for each in areas:
            (self._areas if shapely.area(each) else self._lines).append(each)
        self._boxes.extend(boxes)
        self._lines.extend(shapely.linestrings(each) for each in lines)
        self._fixed = None

    def release(self, place: Candidate) -> None:
        """Give back what a place took that ``best`` returned."""
        self._placed.remove(place)
        self._labels = None

    def occupy(self, place: Candidate) -> None:
        """Take what a place needs, as ``best`` does."""
        self._placed.append(place)
        self._labels = None

    def best(
        self, offered: Places | Offer, *, most: float = np.inf
    ) -> Candidate | None:
        """Take the cheapest place that is free and return it; None if none is.

        One that costs as much as ``most`` is not taken.  Of equals that is taken whose
        own cost is less, then the first.
        """
        offer = offered if isinstance(offered, Offer) else Offer(offered)
        if not len(offer.box_of):
            return None
        asked = self._asked(offer)
        costs, chosen = offer.places.costs, (most, -np.inf, -1)
        start, size = 0, _AT_ONCE
        while start < len(asked) and chosen[0] >= offer.least[asked[start]]:
            some = asked[start : start + size]
            some = some[offer.least[some] <= chosen[0]]
            cost = self._costs(offer, some, most=chosen[0])
            least = float(cost.min())
            near = some[cost == least]
            first = near[np.lexsort((near, costs[near]))[0]]
            chosen = min(chosen, (least, float(costs[first]), int(first)))
            start, size = start + size, _MORE * size
        if chosen[2] < 0 or chosen[0] == np.inf:
            return None
        place = offer.places.at(chosen[2])
        self.occupy(place)
        return place

    def _asked(self, offer: Offer) -> NDArray[np.intp]:
        """Return the places that may be free, the cheapest first."""
        fixed, boxes = self._ready(), offer.places.boxes
        if not offer.known_on(self, fixed.edition):
            offer.padded = boxes + self._pad_mm * _OUTWARD
            free = self._inside(boxes)
            free[free] = ~meet(offer.padded[free], fixed.boxes)
            offer.under[~free] = np.inf
        free = offer.under != np.inf
        free[free] = ~meet(offer.padded[free], self._labelled().boxes)
        asked = np.flatnonzero(free[offer.box_of] & (offer.least < np.inf))
        return asked[np.lexsort((offer.places.costs[asked], offer.least[asked]))]

    def _costs(
        self, offer: Offer, some: NDArray[np.intp], *, most: float
    ) -> NDArray[np.float64]:
        """Return what some places cost; infinite where one is refused, or costs more.

        What is dearest to find out is asked last, of the places still in the running.
        """
        labels, total = self._labelled(), np.full(len(some), np.inf)
        left = np.flatnonzero(self._stands(offer, some))
        left = left[offer.least[some[left]] <= most]
        leaders = offer.leaders(some[left])
        free = ~run_through(leaders, labels.boxes).any(axis=1)
        left, leaders = left[free], leaders[free]
        extra = np.multiply(CROSSED, labels.crossed(leaders), dtype=np.float64)
        if offer.places.leaders is not None:
            self._led(offer, some[left], leaders, most=most - extra)
        total[left] = offer.least[some[left]] + extra
        return np.where(total <= most, total, np.inf)

    def _stands(self, offer: Offer, some: NDArray[np.intp]) -> NDArray[np.bool_]:
        """Tell which places' boxes are free; what they lie on is added to the cost."""
        of = offer.box_of[some]
        asked = np.unique(of[np.isnan(offer.under[of])])
        if len(asked):
            self._look_under(offer, asked)
        padded = offer.padded[of]
        free: NDArray[np.bool_] = offer.under[of] < np.inf
        free &= ~run_through(self._labelled().pieces, padded).any(axis=0)
        lower = offer.places.costs[some] + offer.under[of]
        offer.least[some] = np.maximum(offer.least[some], lower)
        return free

    def _look_under(self, offer: Offer, boxes: NDArray[np.intp]) -> None:
        """Find out what boxes cost for what lies under them."""
        fixed = self._ready()
        offer.under[boxes] = np.inf
        kept: tuple[Areas | Lines, ...] = fixed.lines, fixed.areas
        for each in kept:
            boxes = boxes[each.under(offer.padded[boxes]) == 0.0]
        faint = self._faint.under(offer.padded[boxes])
        offer.under[boxes] = _FAINT_COST * faint

    def _led(
        self,
        offer: Offer,
        some: NDArray[np.intp],
        leaders: NDArray[np.float64],
        *,
        most: NDArray[np.float64],
    ) -> None:
        """Add what leaders cost that pass lines and edges, as far as it matters."""
        fixed = self._ready()
        left = np.flatnonzero((offer.told[some] < 1) & (offer.least[some] <= most))
        through = run_through(leaders[left], fixed.boxes).any(axis=1)
        offer.least[some[left[through]]] = np.inf
        offer.told[some[left]] = 1
        # what a leader ends on it does not cross
        ended = _shortened(leaders)
        met: tuple[Areas | Lines, ...] = fixed.passed, fixed.lines
        for told, passed in enumerate(met, start=1):
            left = np.flatnonzero(
                (offer.told[some] == told) & (offer.least[some] <= most)
            )
            offer.least[some[left]] += passed.crossed(ended[left])
            offer.told[some[left]] = told + 1

    def _inside(self, boxes: NDArray[np.float64]) -> NDArray[np.bool_]:
        left, bottom, right, top = self._frame
        inside: NDArray[np.bool_] = (
            (boxes[:, 0] >= left)
            & (boxes[:, 1] >= bottom)
            & (boxes[:, 2] <= right)
            & (boxes[:, 3] <= top)
        )
        return inside

    def _labelled(self) -> _Labels:
        if self._labels is None:
            led = [each.leader for each in self._placed if each.leader]
            self._labels = _Labels(
                _frames([each.box for each in self._placed]),
                *pieces_along(led),
            )
        return self._labels

    def _ready(self) -> _Fixed:
        if self._fixed is None:
            areas, tips = len(self._areas), len(self._tips)
            costs = (*[_CROSSING_COST] * areas, *[_TIP_COST] * tips)
            self._fixed = _Fixed(
                _frames(self._boxes),
                Lines(
                    self._lines,
                    self._outlines,
                    costs=(_CROSSING_COST, _OVER_EDGE_COST),
                ),
                Areas(self._areas, costs[:areas]),
                Areas([*self._areas, *self._tips], costs),
                next(self._editions),
            )
        return self._fixed


def _frames(boxes: Sequence[Frame]) -> NDArray[np.float64]:
    return np.array(boxes, dtype=np.float64).reshape(-1, 4)


def _shortened(leaders: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return leaders that end before what they lead to."""
    out = leaders.copy()
    along = leaders[:, -2] - leaders[:, -1]
    long = np.maximum(np.hypot(*along.T), 2 * _END_MM)
    out[:, -1] += along * (_END_MM / long)[:, None]
    return out


_OUTWARD = np.array([-1.0, -1.0, 1.0, 1.0])
