"""The two views: what of a build lies where on paper (first-angle projection).

The side view is seen through the side panel, the rear on the left.  The top view
stands under it with the same depth, the side panel at its lower edge: width grows
down the page.
"""

from __future__ import annotations

from enum import Enum

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from layout.drawing.paper.scene import Point
from layout.geometry.bodies.body import Body
from layout.geometry.solids.solid import Solid
from layout.geometry.space import Axis, Box, Direction, Vector
from layout.values import dataclass

__all__ = ["Facing", "View", "bounds_of"]


class Facing(Enum):
    """From which side the case is looked at."""

    SIDE = Direction.PANEL
    TOP = Direction.UP

    @property
    def across(self) -> Axis:
        """Return the axis that runs up or down the page."""
        return Axis.HEIGHT if self is Facing.SIDE else Axis.WIDTH

    @property
    def depth_order(self) -> Axis:
        """Return the axis along which one looks; what lies farther along it hides."""
        return self.value.axis

    def outline(self, solid: Solid) -> Polygon:
        """Return a solid's outline in this view, in mm of the case."""
        return solid.side if self is Facing.SIDE else solid.top


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """One view on paper.

    Parameters
    ----------
    facing : Facing
    scale : float
        Millimetres on paper for one in the case.
    origin : Point
        Where the case's origin lies on paper.
    box : Box
        What is shown, in mm of the case.
    window : polygon or None
        What of it a detail shows, on paper.
    """

    facing: Facing
    scale: float
    origin: Point
    box: Box
    window: BaseGeometry | None = None

    @property
    def _signs(self) -> tuple[float, float]:
        down = self.facing is Facing.TOP
        return self.scale, -self.scale if down else self.scale

    def point(self, place: Vector) -> Point:
        """Return where a place in the case lies on paper."""
        sx, sy = self._signs
        across = place[self.facing.across.index]
        return self.origin[0] + sx * place[0], self.origin[1] + sy * across

    def paper(self, outline: BaseGeometry, at_mm: Vector) -> BaseGeometry:
        """Return an outline of a body that stands at a place, on paper."""
        x, y = self.point(at_mm)
        signs = np.array(self._signs)

        def moved(points: NDArray[np.float64]) -> NDArray[np.float64]:
            placed: NDArray[np.float64] = points * signs + np.array((x, y))
            return placed

        return shapely.transform(outline, moved)

    def silhouette(self, body: Body) -> BaseGeometry:
        """Return a body's outline on paper."""
        outlines = [self.facing.outline(each) for each in body.shape.solids]
        return self.shown(self.paper(shapely.union_all(outlines), body.at_mm))

    def shown(self, outline: BaseGeometry) -> BaseGeometry:
        """Return what of an outline on paper is shown."""
        if self.window is None:
            return outline
        cut = shapely.intersection(outline, self.window)
        if cut.geom_type != "GeometryCollection":
            return cut
        # where outline and window only touch, a line is left beside the area
        parts = shapely.get_parts(cut)
        return shapely.union_all(parts[shapely.area(parts) > 0.0])

    @property
    def frame(self) -> tuple[float, float, float, float]:
        """Return left, bottom, right and top of the view on paper."""
        (x0, y0), (x1, y1) = self.point(self.box.low), self.point(self.box.high)
        return x0, min(y0, y1), x1, max(y0, y1)


def bounds_of(boxes: list[Box]) -> Box:
    """Return the smallest box around boxes."""
    low = np.min([each.low for each in boxes], axis=0)
    high = np.max([each.high for each in boxes], axis=0)
    return Box(
        (float(low[0]), float(low[1]), float(low[2])),
        (float(high[0]), float(high[1]), float(high[2])),
    )
