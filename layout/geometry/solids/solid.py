"""A solid: all points whose (x, y) lies in one outline and (x, z) in another."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

import numpy as np
import shapely
from shapely.geometry import Polygon

from layout.geometry.errors import OutlineError, SpanError
from layout.geometry.space import Box
from layout.values import dataclass

__all__ = [
    "SPAN_TOLERANCE_MM",
    "Solid",
    "are_rectangles",
    "block",
    "checked_outline",
    "is_rectangle",
    "rectangle",
]

SPAN_TOLERANCE_MM: Final = 1e-6
"""How far the x ranges of a solid's two outlines may differ (design: fixed)."""


@dataclass(frozen=True, slots=True)
class Solid:
    """The closure of the inside of what a side and a top outline allow.

    Parameters
    ----------
    side : Polygon, mm
        Outline in (x, y): depth and height.
    top : Polygon, mm
        Outline in (x, z): depth and width; the same x range as ``side``.

    Raises
    ------
    OutlineError
        If an outline is empty, invalid, or not finite.
    SpanError
        If the x ranges differ by more than ``SPAN_TOLERANCE_MM``.

    Notes
    -----
    Equality is that of the normalised outlines: the same ring from another start
    vertex makes an equal solid.
    """

    side: Polygon
    top: Polygon

    def __post_init__(self) -> None:
        object.__setattr__(self, "side", checked_outline(self.side, "side"))
        object.__setattr__(self, "top", checked_outline(self.top, "top"))
        a, b = self.side.bounds, self.top.bounds
        worst_mm = max(abs(a[0] - b[0]), abs(a[2] - b[2]))
        if worst_mm > SPAN_TOLERANCE_MM:
            raise SpanError(
                f"side covers x {a[0]:g} to {a[2]:g} mm but top covers "
                f"x {b[0]:g} to {b[2]:g} mm; both must cover the same x range"
            )

    @property
    def bounds(self) -> Box:
        """Return the smallest box around the solid, mm."""
        x0, y0, x1, y1 = self.side.bounds
        _, z0, _, z1 = self.top.bounds
        return Box((x0, y0, z0), (x1, y1, z1))


def checked_outline(outline: Polygon, name: str) -> Polygon:
    """Return the outline normalised, or raise ``OutlineError`` saying what is wrong."""
    if not isinstance(outline, Polygon):
        kind = type(outline).__name__
        raise OutlineError(f"{name} outline is a {kind}; give a polygon")
    if outline.is_empty:
        raise OutlineError(f"{name} outline is empty; give at least three points")
    if not np.isfinite(shapely.get_coordinates(outline)).all():
        raise OutlineError(f"{name} outline holds a number that is not finite")
    if not outline.is_valid:
        reason = shapely.is_valid_reason(outline)
        raise OutlineError(f"{name} outline is not a simple area: {reason}")
    normal: Polygon = shapely.normalize(outline)
    return normal


def are_rectangles(outlines: Sequence[Polygon]) -> list[bool]:
    """Tell which outlines are axis-parallel rectangles."""
    few = [k for k, n in enumerate(shapely.get_num_coordinates(outlines)) if n == 5]
    points = shapely.get_coordinates([outlines[k] for k in few]).reshape(-1, 5, 2)
    turns = points[:, 1:] != points[:, :-1]
    square = (turns[:, :, 0] != turns[:, :, 1]).all(axis=1)
    found = [False] * len(outlines)
    for k, told in zip(few, square.tolist(), strict=True):
        found[k] = told
    return found


def is_rectangle(outline: Polygon) -> bool:
    """Tell whether an outline is an axis-parallel rectangle."""
    return are_rectangles([outline])[0]


def rectangle(u: tuple[float, float], v: tuple[float, float]) -> Polygon:
    """Return the rectangle over two intervals, mm."""
    (u0, u1), (v0, v1) = u, v
    # Five times as fast as a polygon of its corners; the order is the normal one.
    made: Polygon = shapely.box(u0, v0, u1, v1, ccw=False)
    return made


def block(
    x: tuple[float, float], y: tuple[float, float], z: tuple[float, float]
) -> Solid:
    """Return the box over three intervals, mm.

    Examples
    --------
    >>> block((0, 10), (0, 20), (0, 30)).bounds.high
    (10.0, 20.0, 30.0)
    """
    side, top = rectangle(x, y), rectangle(x, z)
    if not all(low < high and math.isfinite(high - low) for low, high in (x, y, z)):
        return Solid(side, top)
    solid = object.__new__(Solid)  # nothing is left to check
    object.__setattr__(solid, "side", side)
    object.__setattr__(solid, "top", top)
    return solid
