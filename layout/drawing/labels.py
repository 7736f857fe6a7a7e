"""Where lettering goes: candidate places, a score for each, the best one taken.

Lettering never lies on other lettering or on a dimension line, and a leader never
runs through lettering: such places are refused.  Among the others the cheapest wins;
what costs is distance, an outline under the letters, and a leader over a line.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from layout.drawing.boxes import Frame
from layout.drawing.scene import Point

__all__ = ["Candidate", "Ground"]

_OUTLINE_COST = 25.0
_FAINT_COST = 6.0
_CROSSING_COST = 14.0


@dataclass(frozen=True, slots=True)
class Candidate:
    """A place for lettering: its box, its leader (or none), and what it costs."""

    box: Frame
    leader: tuple[Point, ...] = ()
    cost: float = 0.0


class Ground:
    """What is taken on a sheet so far; grows as lettering is placed.

    Parameters
    ----------
    frame : Frame
        Where lettering may lie.
    outlines : sequence of shapely lines
        Edges that lettering should rather not lie on.
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
        self._outlines = shapely.STRtree(list(outlines))
        self._faint = shapely.STRtree(list(faint))
        self._pad_mm = pad_mm
        self._boxes: list[Frame] = []
        self._lines: list[BaseGeometry] = []

    def take(
        self,
        boxes: Sequence[Frame] = (),
        lines: Sequence[Sequence[Point]] = (),
        areas: Sequence[BaseGeometry] = (),
    ) -> None:
        """Note lettering, lines and areas that later lettering must keep off."""
        self._lines.extend(areas)
        self._boxes.extend(boxes)
        self._lines.extend(shapely.linestrings(each) for each in lines)

    def best(self, candidates: Sequence[Candidate]) -> Candidate | None:
        """Take the cheapest place that is free and return it; None if none is."""
        if not candidates:
            return None
        cost = self._costs(candidates)
        chosen = int(np.argmin(cost))  # the first of equals: stable
        if not np.isfinite(cost[chosen]):
            return None
        place = candidates[chosen]
        self.take([place.box], [place.leader] if place.leader else [])
        return place

    def _costs(self, candidates: Sequence[Candidate]) -> NDArray[np.float64]:
        """Return what each place costs; infinite where it is refused."""
        cost = np.array([each.cost for each in candidates], dtype=np.float64)
        frames = np.array([each.box for each in candidates])
        boxes = _geometries(shapely.box(*(frames + self._pad_mm * _OUTWARD).T))
        taken, lines = self._taken(), shapely.STRtree(self._lines)
        refused = ~self._inside(frames)
        refused |= (_hits(taken, boxes) > 0) | (_hits(lines, boxes) > 0)
        cost += _OUTLINE_COST * _hits(self._outlines, boxes)
        cost += _FAINT_COST * _hits(self._faint, boxes)
        led = np.flatnonzero([len(each.leader) > 0 for each in candidates])
        if led.size:
            paths = [candidates[each].leader for each in led.tolist()]
            leaders = _geometries(shapely.linestrings(np.array(paths)))
            refused[led] |= _hits(taken, leaders) > 0
            cost[led] += _CROSSING_COST * _hits(lines, leaders)
        cost[refused] = np.inf
        return cost

    def _inside(self, frames: NDArray[np.float64]) -> NDArray[np.bool_]:
        left, bottom, right, top = self._frame
        inside: NDArray[np.bool_] = (
            (frames[:, 0] >= left)
            & (frames[:, 1] >= bottom)
            & (frames[:, 2] <= right)
            & (frames[:, 3] <= top)
        )
        return inside

    def _taken(self) -> shapely.STRtree:
        if not self._boxes:
            return shapely.STRtree([])
        return shapely.STRtree(shapely.box(*np.array(self._boxes).T))


_OUTWARD = np.array([-1.0, -1.0, 1.0, 1.0])


def _geometries(made: object) -> NDArray[np.object_]:
    return np.asarray(made, dtype=object)


def _hits(tree: shapely.STRtree, asked: NDArray[np.object_]) -> NDArray[np.intp]:
    """Return how many of the tree's geometries each of those asked meets."""
    found, _ = tree.query(asked, predicate="intersects")
    hits: NDArray[np.intp] = np.bincount(found, minlength=len(asked))
    return hits
