"""What stays as it is on a sheet while labels come and go, made ready to be asked."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.dots import Dots
from layout.drawing.paper.met import Areas, Lines, meet, rows, run_through

__all__ = ["Taken"]

_FAINT_COST = 6.0
_CROSSING_COST = 14.0
_OVER_EDGE_COST = 3.0
"""For every line and visible edge that a leader crosses, in mm of its length: a part
that it runs through has two edges."""
_TIP_COST = 30.0
"""For every arrow's tip that a leader passes: it would seem to belong to it."""


class Taken:
    """Lettering, lines, areas and edges that stay.

    Parameters
    ----------
    frame : Frame
        Where lettering may lie.
    boxes : array (n, 4)
        Lettering.
    lines : (sequence of shapely lines, array (n, 2, 2))
        Lines, and the straight pieces of edges, that lettering never lies on.
    faint : Lines
        Edges that are broken where lettering stands.
    areas, tips : sequence of shapely polygons
        What lettering never lies on, and what leaders pass beside only.
    """

    def __init__(
        self,
        frame: Frame,
        boxes: NDArray[np.float64],
        lines: tuple[Sequence[BaseGeometry], NDArray[np.float64]],
        *,
        faint: Lines,
        areas: Sequence[BaseGeometry],
        tips: Sequence[BaseGeometry],
    ) -> None:
        self._frame, self._boxes, self._faint = frame, rows(boxes), faint
        self._lines = Lines(*lines, costs=(_CROSSING_COST, _OVER_EDGE_COST))
        self._dots = Dots(frame, self._lines.pieces)
        costs = (*[_CROSSING_COST] * len(areas), *[_TIP_COST] * len(tips))
        self._areas = Areas(areas, costs[: len(areas)])
        self.passed: tuple[Areas | Lines, ...]
        """What costs a leader that passes it."""
        self.passed = Areas([*areas, *tips], costs), self._lines

    def may_hold(
        self, boxes: NDArray[np.float64], padded: NDArray[np.float64]
    ) -> NDArray[np.bool_]:
        """Tell which boxes may be free, as far as it is quickly told.

        Parameters
        ----------
        boxes, padded : array (n, 4)
            Without and with the paper around them.
        """
        left, bottom, right, top = self._frame
        free: NDArray[np.bool_] = (boxes[:, 0] >= left) & (boxes[:, 1] >= bottom)
        free &= (boxes[:, 2] <= right) & (boxes[:, 3] <= top)
        free[free] = ~self._dots.on(padded[free])
        free[free] = ~meet(padded[free], self._boxes)
        return free

    def under(self, boxes: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return what boxes cost for what lies under them; infinite where refused."""
        costs, left = np.full(len(boxes), np.inf), np.arange(len(boxes))
        kept: tuple[Areas | Lines, ...] = self._lines, self._areas
        for each in kept:
            left = left[each.under(boxes[left]) == 0.0]
        costs[left] = _FAINT_COST * self._faint.under(boxes[left])
        return costs

    def lettered(self, leaders: NDArray[np.float64]) -> NDArray[np.bool_]:
        """Tell which leaders run through lettering."""
        return run_through(leaders, self._boxes)
