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
from layout.drawing.met import geometries, hits, meet, segments
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

    What edges and lines make a place cost stays while lettering comes and goes: asked
    again, a ground looks at the lettering alone.

    Parameters
    ----------
    places : Places
    """

    def __init__(self, places: Places) -> None:
        self.places = places
        self.box_of = places.box_of
        self._known_on: tuple[Ground, int] | None = None
        self._forget()

    def _forget(self) -> None:
        self.least = self.places.costs.copy()
        """What a place costs at least, without lettering; infinite where refused."""
        self.told = np.zeros(len(self.least), dtype=np.int8)
        """How many sorts of lines that a leader passes are counted in that."""
        self.under = np.full(len(self.places.boxes), np.nan)
        """What a box costs for what lies under it; not a number until it was asked."""

    def on(self, ground: Ground, edition: int) -> Offer:
        """Return the offer, what was found out elsewhere or before forgotten."""
        if self._known_on != (ground, edition):
            if self._known_on is not None:
                self._forget()
            self._known_on = ground, edition
        return self


@dataclasses.dataclass(slots=True)
class _Lettering:
    """Boxes and leaders taken, made ready for many questions."""

    boxes: shapely.STRtree
    leaders: shapely.STRtree
    frames: NDArray[np.float64]


@dataclasses.dataclass(slots=True)
class _Lines:
    """Lines and tips taken, made ready for many questions; ``edition`` tells which."""

    lines: shapely.STRtree
    tips: shapely.STRtree
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
        self._outlines = shapely.STRtree(segments(outlines))
        self._faint = shapely.STRtree(list(faint))
        self._pad_mm = pad_mm
        self._boxes: list[Frame] = []
        self._lines: list[BaseGeometry] = []
        self._leaders: list[BaseGeometry] = []
        self._tips: list[BaseGeometry] = []
        self._lettering: _Lettering | None = None
        self._lined: _Lines | None = None
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
        self._lines.extend(areas)
        self._boxes.extend(boxes)
        self._lines.extend(shapely.linestrings(each) for each in lines)
        self._lettering = self._lined = None

    def release(self, place: Candidate) -> None:
        """Give back what a place took that ``best`` returned."""
        self._boxes.remove(place.box)
        if place.leader:
            self._leaders.remove(shapely.linestrings(place.leader))
        self._lettering = None

    def occupy(self, place: Candidate) -> None:
        """Take what a place needs, as ``best`` does."""
        self._boxes.append(place.box)
        if place.leader:
            self._leaders.append(shapely.linestrings(place.leader))
        self._lettering = None

    def best(
        self, offered: Places | Offer, *, most: float = np.inf
    ) -> Candidate | None:
        """Take the cheapest place that is free and return it; None if none is.

        One that costs as much as ``most`` is not taken.  Of equals that is taken whose
        own cost is less, then the first.
        """
        offer = offered if isinstance(offered, Offer) else Offer(offered)
        if not len(offer.least):
            return None
        asked = self._asked(offer.on(self, self._lines_taken().edition))
        costs, chosen = offer.places.costs, (most, -np.inf, -1)
        for start in range(0, len(asked), _AT_ONCE):
            some = asked[start : start + _AT_ONCE]
            if chosen[0] < offer.least[some[0]]:
                break  # the rest costs more, whatever lettering adds to it
            cost = self._costs(offer, some, most=chosen[0])
            near = np.flatnonzero(cost <= chosen[0])
            rows = zip(cost[near], costs[some[near]], some[near], strict=True)
            chosen = min([chosen, *((float(a), float(b), int(n)) for a, b, n in rows)])
        if chosen[2] < 0:
            return None
        place = offer.places.at(chosen[2])
        self.occupy(place)
        return place

    def _asked(self, offer: Offer) -> NDArray[np.intp]:
        """Return the places that may be free, the cheapest first."""
        boxes = offer.places.boxes
        free = self._inside(boxes)
        free[free] = ~meet(self._padded(boxes[free]), self._lettered().frames)
        asked = np.flatnonzero(free[offer.box_of] & (offer.least < np.inf))
        order = np.lexsort((offer.places.costs[asked], offer.least[asked]))
        return asked[order]

    def _costs(
        self, offer: Offer, some: NDArray[np.intp], *, most: float
    ) -> NDArray[np.float64]:
        """Return what some places cost; infinite where one is refused, or costs more.

        What is dearest to find out is asked last, of the places still in the running.
        """
        taken, places = self._lettered(), offer.places
        total = np.full(len(some), np.inf)
        left = np.flatnonzero(self._stands(offer, some))
        left = left[offer.least[some[left]] <= most]
        extra = np.zeros(len(some))
        if places.leaders is not None:
            whole = geometries(shapely.linestrings(places.leaders[some]))
            left = left[hits(taken.boxes, whole[left]) == 0]
            extra[left] = _CROSSED * hits(taken.leaders, whole[left])
            self._lead(offer, some[left], most=most - extra[left])
        total[left] = offer.least[some[left]] + extra[left]
        return np.where(total <= most, total, np.inf)

    def _stands(self, offer: Offer, some: NDArray[np.intp]) -> NDArray[np.bool_]:
        """Tell which places' boxes are free; what they lie on is added to the cost."""
        of = offer.box_of[some]
        boxes, back = np.unique(of, return_inverse=True)
        padded = geometries(shapely.box(*self._padded(offer.places.boxes[boxes]).T))
        new = np.flatnonzero(np.isnan(offer.under[boxes]))
        offer.under[boxes[new]] = np.inf
        for tree in (self._lines_taken().lines, self._outlines):
            new = new[hits(tree, padded[new]) == 0]
        offer.under[boxes[new]] = _FAINT_COST * hits(self._faint, padded[new])
        asked = np.flatnonzero(offer.under[boxes] < np.inf)
        free = np.zeros(len(boxes), dtype=np.bool_)
        free[asked] = hits(self._lettered().leaders, padded[asked]) == 0
        lower = offer.places.costs[some] + offer.under[of]
        offer.least[some] = np.maximum(offer.least[some], lower)
        return free[back]

    def _lead(
        self, offer: Offer, some: NDArray[np.intp], *, most: NDArray[np.float64]
    ) -> None:
        """Add what places' leaders cost that pass lines and edges, as far as matters."""
        places, taken = offer.places, self._lines_taken()
        if places.leaders is None:
            return
        # what a leader ends on it does not cross
        leaders = geometries(shapely.linestrings(_shortened(places.leaders[some])))
        left = np.arange(len(some))
        for told, (tree, each) in enumerate(
            (
                (taken.tips, _TIP_COST),
                (taken.lines, _CROSSING_COST),
                (self._outlines, _OVER_EDGE_COST),
            )
        ):
            left = left[offer.least[some[left]] <= most[left]]
            new = left[offer.told[some[left]] == told]
            offer.least[some[new]] += each * hits(tree, leaders[new])
            offer.told[some[new]] = told + 1

    def _padded(self, boxes: NDArray[np.float64]) -> NDArray[np.float64]:
        return boxes + self._pad_mm * _OUTWARD

    def _inside(self, boxes: NDArray[np.float64]) -> NDArray[np.bool_]:
        left, bottom, right, top = self._frame
        inside: NDArray[np.bool_] = (
            (boxes[:, 0] >= left)
            & (boxes[:, 1] >= bottom)
            & (boxes[:, 2] <= right)
            & (boxes[:, 3] <= top)
        )
        return inside

    def _lettered(self) -> _Lettering:
        if self._lettering is None:
            made = np.array(self._boxes, dtype=np.float64).reshape(-1, 4)
            self._lettering = _Lettering(
                shapely.STRtree(geometries(shapely.box(*made.T))),
                shapely.STRtree(self._leaders),
                made,
            )
        return self._lettering

    def _lines_taken(self) -> _Lines:
        if self._lined is None:
            self._lined = _Lines(
                shapely.STRtree(self._lines),
                shapely.STRtree(self._tips),
                next(self._editions),
            )
        return self._lined


def _shortened(leaders: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return leaders that end before what they lead to."""
    out = leaders.copy()
    along = leaders[:, -2] - leaders[:, -1]
    long = np.maximum(np.hypot(*along.T), 2 * _END_MM)
    out[:, -1] += along * (_END_MM / long)[:, None]
    return out


_OUTWARD = np.array([-1.0, -1.0, 1.0, 1.0])
