"""Where lettering goes: candidate places, a score for each, the best one taken.

Lettering never lies on other lettering, on a dimension line or on a visible edge, and
a leader never runs through lettering: such places are refused.  Among the others the
cheapest wins; what costs is distance, an edge that gives way under the letters, and a
leader over a line, over another leader most, over a part least.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import field

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from layout.drawing.boxes import Frame
from layout.drawing.met import geometries, hits, meet, segments
from layout.drawing.scene import Point
from layout.values import dataclass

__all__ = ["Candidate", "Ground", "Places", "frames", "joined"]

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


@dataclass(frozen=True, slots=True)
class Candidate:
    """A place for lettering: its box, its leader (or none), and what it costs."""

    box: Frame
    leader: tuple[Point, ...] = ()
    cost: float = 0.0


@dataclass(frozen=True, slots=True, eq=False)
class Places:
    """Many places at once, read-only: they exist for arithmetic in bulk.

    Parameters
    ----------
    boxes : array (k, 4)
        Left, bottom, right, top.
    costs : array (n,)
    leaders : array (n, m, 2), optional
        Points of the leaders; all places have one or none has.
    shared : array (n,), optional
        Which box each place has, where several differ by their leaders alone.
    """

    boxes: NDArray[np.float64]
    costs: NDArray[np.float64]
    leaders: NDArray[np.float64] | None = None
    shared: NDArray[np.intp] | None = None

    @classmethod
    def of(cls, candidates: Sequence[Candidate]) -> Places:
        """Return candidates that all have leaders, or none of which has one."""
        return cls(
            np.array([each.box for each in candidates], dtype=np.float64),
            np.array([each.cost for each in candidates], dtype=np.float64),
            np.array([each.leader for each in candidates], dtype=np.float64)
            if candidates and candidates[0].leader
            else None,
        )

    @property
    def box_of(self) -> NDArray[np.intp]:
        """Return which box each place has."""
        return np.arange(len(self.costs)) if self.shared is None else self.shared

    def at(self, place: int) -> Candidate:
        """Return one place."""
        left, bottom, right, top = self.boxes[self.box_of[place]].tolist()
        leader: tuple[Point, ...] = ()
        if self.leaders is not None:
            leader = tuple((x, y) for x, y in self.leaders[place].tolist())
        return Candidate((left, bottom, right, top), leader, float(self.costs[place]))


def frames(
    centres: NDArray[np.float64], half: tuple[float, float]
) -> NDArray[np.float64]:
    """Return boxes of one size around centres."""
    return np.hstack([centres - np.array(half), centres + np.array(half)])


def joined(several: Sequence[Places]) -> Places:
    """Return places of one kind, all with leaders or all without, as one."""
    leaders = [each.leaders for each in several if each.leaders is not None]
    first = np.cumsum([0, *(len(each.boxes) for each in several)])
    return Places(
        np.concatenate([each.boxes for each in several]),
        np.concatenate([each.costs for each in several]),
        np.concatenate(leaders) if leaders else None,
        np.concatenate(
            [n + each.box_of for n, each in zip(first, several, strict=False)]
        ),
    )


@dataclasses.dataclass(slots=True)
class _Trees:
    """What is taken, made ready for many questions; made anew when more is taken."""

    boxes: shapely.STRtree
    lines: shapely.STRtree
    leaders: shapely.STRtree
    tips: shapely.STRtree
    frames: NDArray[np.float64] = field(default_factory=lambda: np.empty((0, 4)))


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
        self._ready: _Trees | None = None

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
        self._ready = None

    def release(self, place: Candidate) -> None:
        """Give back what a place took that ``best`` returned."""
        self._boxes.remove(place.box)
        if place.leader:
            self._leaders.remove(shapely.linestrings(place.leader))
        self._ready = None

    def occupy(self, place: Candidate) -> None:
        """Take what a place needs, as ``best`` does."""
        self._boxes.append(place.box)
        if place.leader:
            self._leaders.append(shapely.linestrings(place.leader))
        self._ready = None

    def best(self, places: Places, *, most: float = np.inf) -> Candidate | None:
        """Take the cheapest place that is free and return it; None if none is.

        One that costs as much as ``most`` is not taken.
        """
        if not len(places.costs):
            return None
        taken = self._taken()
        padded = places.boxes + self._pad_mm * _OUTWARD
        free = self._inside(places.boxes) & ~meet(padded, taken.frames)
        under = np.full(len(padded), np.nan)  # what boxes cost, once it was asked
        asked = np.flatnonzero(free[places.box_of])
        asked = asked[np.argsort(places.costs[asked], kind="stable")]
        chosen, least = -1, most
        for start in range(0, len(asked), _AT_ONCE):
            some = asked[start : start + _AT_ONCE]
            if least <= places.costs[some[0]]:
                break  # the rest costs as much before anything is added
            boxes = places.box_of[some]
            new = np.unique(boxes[np.isnan(under[boxes])])
            under[new] = self._box_costs(padded[new])
            cost = self._costs(places, some, under[boxes], most=least)
            first = int(np.argmin(cost))  # the first of equals: stable
            if cost[first] < least:
                chosen, least = int(some[first]), float(cost[first])
        if chosen < 0:
            return None
        place = places.at(chosen)
        self.occupy(place)
        return place

    def _box_costs(self, padded: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return what boxes cost for what lies under them; infinite where refused."""
        taken = self._taken()
        cost = np.full(len(padded), np.inf)
        boxes = geometries(shapely.box(*padded.T))
        left = np.arange(len(boxes))
        for tree in (taken.lines, taken.leaders, self._outlines):
            left = left[hits(tree, boxes[left]) == 0]
        cost[left] = _FAINT_COST * hits(self._faint, boxes[left])
        return cost

    def _costs(
        self,
        places: Places,
        some: NDArray[np.intp],
        under: NDArray[np.float64],
        *,
        most: float,
    ) -> NDArray[np.float64]:
        """Return what some places cost; infinite where one is refused, or costs more.

        What is dearest to find out is asked last, of the places still in the running.
        """
        taken = self._taken()
        cost: NDArray[np.float64] = places.costs[some] + under
        if places.leaders is None:
            return cost
        left = np.flatnonzero(cost < most)
        whole = geometries(shapely.linestrings(places.leaders[some]))
        left = left[hits(taken.boxes, whole[left]) == 0]
        cost[left] += _CROSSED * hits(taken.leaders, whole[left])
        # what a leader ends on it does not cross
        leaders = geometries(shapely.linestrings(_shortened(places.leaders[some])))
        priced = np.full(len(some), np.inf)
        for tree, each in (
            (taken.tips, _TIP_COST),
            (taken.lines, _CROSSING_COST),
            (self._outlines, _OVER_EDGE_COST),
        ):
            left = left[cost[left] < most]
            cost[left] += each * hits(tree, leaders[left])
        priced[left] = cost[left]
        return priced

    def _inside(self, boxes: NDArray[np.float64]) -> NDArray[np.bool_]:
        left, bottom, right, top = self._frame
        inside: NDArray[np.bool_] = (
            (boxes[:, 0] >= left)
            & (boxes[:, 1] >= bottom)
            & (boxes[:, 2] <= right)
            & (boxes[:, 3] <= top)
        )
        return inside

    def _taken(self) -> _Trees:
        if self._ready is None:
            made = np.array(self._boxes, dtype=np.float64).reshape(-1, 4)
            self._ready = _Trees(
                shapely.STRtree(geometries(shapely.box(*made.T))),
                shapely.STRtree(self._lines),
                shapely.STRtree(self._leaders),
                shapely.STRtree(self._tips),
                made,
            )
        return self._ready


def _shortened(leaders: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return leaders that end before what they lead to."""
    out = leaders.copy()
    along = leaders[:, -2] - leaders[:, -1]
    long = np.maximum(np.hypot(*along.T), 2 * _END_MM)
    out[:, -1] += along * (_END_MM / long)[:, None]
    return out


_OUTWARD = np.array([-1.0, -1.0, 1.0, 1.0])
