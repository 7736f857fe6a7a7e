"""Where lettering goes: of many candidate places, each with a score, the best one.

Lettering never lies on other lettering, on a dimension line or on a visible edge, and
a leader never runs through lettering: such places are refused.  Among the others the
cheapest wins; what costs is distance, an edge that gives way under the letters, and a
leader over a line, over another leader most, over a part least.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from itertools import count

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from layout.drawing.boxes import Frame
from layout.drawing.labels import Candidate, Places
from layout.drawing.met import Areas, Boxes, Lines, meet
from layout.drawing.scene import Point

__all__ = ["Ground", "Offer"]

_CROSSED = 1000.0
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
_AT_ONCE = 64
"""Places are looked at so many at a time, the cheapest first."""


class Offer:
    """Places that may be asked for again, with what was found out about them.

    What edges, lines and fixed lettering make a place cost stays while labels come and
    go: asked again, a ground looks at these alone.

    Parameters
    ----------
    places : Places
    """

    def __init__(self, places: Places) -> None:
        self.places = places
        self.box_of = places.box_of
        self._known_on: tuple[Ground, int] | None = None
        self.free = np.empty(0, dtype=np.bool_)
        self.least = self.under = np.empty(0)
        self.told = np.empty(0, dtype=np.int8)

    def known_on(self, ground: Ground, edition: int) -> bool:
        """Tell whether what was found out holds there; it is forgotten if not."""
        if self._known_on == (ground, edition):
            return True
        self._known_on = ground, edition
        self.least = self.places.costs.copy()
        """What a place costs at least, without labels; infinite where refused."""
        self.told = np.zeros(len(self.least), dtype=np.int8)
        """How many of the things that a leader passes are counted in that."""
        self.under = np.full(len(self.places.boxes), np.nan)
        """What a box costs for what lies under it; not a number until it was asked."""
        return False

    def leaders(self, some: NDArray[np.intp]) -> NDArray[np.float64]:
        """Return the points of some places' leaders, (n, m, 2)."""
        if self.places.leaders is None:
            return np.empty((0, 2, 2))
        return self.places.leaders[some]

    def shortened(self, some: NDArray[np.intp]) -> NDArray[np.float64]:
        """Return the points of leaders that end before what they lead to."""
        out = self.leaders(some)
        along = out[:, -2] - out[:, -1]
        long = np.maximum(np.hypot(*along.T), 2 * _END_MM)
        out[:, -1] += along * (_END_MM / long)[:, None]
        return out


@dataclasses.dataclass(slots=True)
class _Labels:
    """Boxes and leaders of labels, made ready for many questions."""

    boxes: Boxes
    leaders: Lines


@dataclasses.dataclass(slots=True)
class _Fixed:
    """What stays, made ready for many questions; ``edition`` tells when it was."""

    boxes: Boxes
    lines: Lines
    areas: Areas
    tips: Areas
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
        self._outlines = Lines(outlines, apart=True)
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
            cost = self._costs(offer, some, most=chosen[0])
            near = np.flatnonzero(cost <= chosen[0])
            rows = zip(cost[near], costs[some[near]], some[near], strict=True)
            chosen = min([chosen, *((float(a), float(b), int(n)) for a, b, n in rows)])
            start, size = start + size, 2 * size
        if chosen[2] < 0:
            return None
        place = offer.places.at(chosen[2])
        self.occupy(place)
        return place

    def _asked(self, offer: Offer) -> NDArray[np.intp]:
        """Return the places that may be free, the cheapest first."""
        fixed, boxes = self._ready(), offer.places.boxes
        padded = boxes + self._pad_mm * _OUTWARD
        if not offer.known_on(self, fixed.edition):
            offer.free = self._inside(boxes)
            offer.free[offer.free] = ~meet(padded[offer.free], fixed.boxes.frames)
        free = offer.free & ~(offer.under == np.inf)
        free[free] = ~meet(padded[free], self._labelled().boxes.frames)
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
        if offer.places.leaders is None:
            total[left] = offer.least[some[left]]
            return total
        leaders = offer.leaders(some)
        left = left[labels.boxes.crossed(leaders[left]) == 0]
        extra = _CROSSED * labels.leaders.crossed(leaders[left])
        self._led(offer, some[left], leaders[left], most=most - extra)
        total[left] = offer.least[some[left]] + extra
        return np.where(total <= most, total, np.inf)

    def _stands(self, offer: Offer, some: NDArray[np.intp]) -> NDArray[np.bool_]:
        """Tell which places' boxes are free; what they lie on is added to the cost."""
        of = offer.box_of[some]
        boxes, back = np.unique(of, return_inverse=True)
        padded = offer.places.boxes[boxes] + self._pad_mm * _OUTWARD
        new = np.flatnonzero(np.isnan(offer.under[boxes]))
        offer.under[boxes[new]] = np.inf
        fixed = self._ready()
        for each in (fixed.lines, fixed.areas, self._outlines):
            new = new[each.under(padded[new]) == 0]
        offer.under[boxes[new]] = _FAINT_COST * self._faint.under(padded[new])
        free = offer.under[boxes] < np.inf
        free[free] = self._labelled().leaders.under(padded[free]) == 0
        lower = offer.places.costs[some] + offer.under[of]
        offer.least[some] = np.maximum(offer.least[some], lower)
        return free[back]

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
        passed = (
            (fixed.boxes, np.inf),
            (fixed.tips, _TIP_COST),
            (fixed.lines, _CROSSING_COST),
            (fixed.areas, _CROSSING_COST),
            (self._outlines, _OVER_EDGE_COST),
        )
        left = np.flatnonzero(offer.told[some] < len(passed))
        for told, (there, each) in enumerate(passed):
            left = left[offer.least[some[left]] <= most[left]]
            if told == 1 and len(left):  # what a leader ends on it does not cross
                leaders[left] = offer.shortened(some[left])
            new = left[offer.told[some[left]] == told]
            met = there.crossed(leaders[new])
            offer.least[some[new[met > 0]]] += each * met[met > 0]
            offer.told[some[new]] = told + 1

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
                Boxes(_frames([each.box for each in self._placed])),
                Lines([shapely.linestrings(each) for each in led]),
            )
        return self._labels

    def _ready(self) -> _Fixed:
        if self._fixed is None:
            self._fixed = _Fixed(
                Boxes(_frames(self._boxes)),
                Lines(self._lines),
                Areas(self._areas),
                Areas(self._tips),
                next(self._editions),
            )
        return self._fixed


def _frames(boxes: Sequence[Frame]) -> NDArray[np.float64]:
    return np.array(boxes, dtype=np.float64).reshape(-1, 4)


_OUTWARD = np.array([-1.0, -1.0, 1.0, 1.0])
