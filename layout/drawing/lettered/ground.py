"""Where lettering goes: of many candidate places, each with a score, the best one.

Lettering never lies on other lettering, on a dimension line or on a visible edge, and
a leader never runs through lettering: such places are refused.  Among the others the
cheapest wins; what costs is distance, an edge that gives way under the letters, and a
leader over a line, over another leader most, over a part least.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from layout.drawing.lettered.cheapest import Limit, cheapest
from layout.drawing.lettered.labels import Candidate, Offer, Places, padded
from layout.drawing.lettered.taken import Taken
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.met import Few, Lines, pieces_of
from layout.drawing.paper.scene import Point

__all__ = ["Ground"]


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
        self._placed: dict[Candidate, None] = {}  # in order
        self._taken: Taken | None = None
        self._labels: Few | None = None

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
        self._taken = None

    def release(self, place: Candidate) -> None:
        """Give back what a place took that ``best`` returned."""
        del self._placed[place]
        self._labels = None

    def occupy(self, place: Candidate) -> None:
        """Take what a place needs, as ``best`` does."""
        self._placed[place] = None
        self._labels = None

    @contextmanager
    def without(self, places: Sequence[Candidate]) -> Iterator[None]:
        """Give back places for a while, and in the end what was taken meanwhile."""
        kept, off = self._placed, set(places)
        self._placed = {each: None for each in kept if each not in off}
        self._labels = None
        try:
            yield
        finally:
            self._placed, self._labels = kept, None

    def may_hold(self, boxes: NDArray[np.float64]) -> NDArray[np.bool_]:
        """Tell which boxes, (n, 4), may be free, labels aside, as is quickly told."""
        return self._ready().may_hold(boxes, padded(boxes, self._pad_mm))

    def best(
        self,
        offered: Places | Offer,
        *,
        most: float = np.inf,
        limit: Limit | None = None,
    ) -> Candidate | None:
        """Take the cheapest place that is free and return it; None if none is.

        One that costs as much as ``most`` is not taken, nor one that is not within the
        ``limit``.  Of equals that is taken whose own cost is less, then the first.
        """
        offer = offered if isinstance(offered, Offer) else Offer(offered)
        if not len(offer.box_of):
            return None
        taken = self._ready()
        if not offer.known_on(taken):
            offer.look(taken, self._pad_mm)
        place = cheapest(offer, taken, self._labelled(), most=most, limit=limit)
        if place is not None:
            self.occupy(place)
        return place

    def _labelled(self) -> Few:
        if self._labels is None:
            led = [each.leader for each in self._placed if each.leader]
            self._labels = Few(_frames([each.box for each in self._placed]), led)
        return self._labels

    def _ready(self) -> Taken:
        if self._taken is None:
            self._taken = Taken(
                self._frame,
                _frames(self._boxes),
                (self._lines, self._outlines),
                faint=self._faint,
                areas=self._areas,
                tips=self._tips,
            )
        return self._taken


def _frames(boxes: Sequence[Frame]) -> NDArray[np.float64]:
    return np.array(boxes, dtype=np.float64).reshape(-1, 4)
