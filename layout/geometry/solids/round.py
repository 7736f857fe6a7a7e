"""Round shapes as polygons outside the true curve, so a gap is never overstated."""

from __future__ import annotations

import math
from typing import Final

from shapely.geometry import Polygon

from layout.geometry.solids.solid import Solid, block

__all__ = ["CHORD_MM", "NEST_MM", "disc_outline", "hole_outline", "rod_along_depth"]

CHORD_MM: Final = 0.05
"""How far a polygon's corners may lie off the true circle (design: fixed)."""

NEST_MM: Final = 0.5
"""How far nested boxes may lie outside a circle about depth (design: fixed)."""


def _corners(radius_mm: float) -> int:
    """Return how many corners keep a polygon within ``CHORD_MM`` of its circle."""
    half_angle = math.acos(radius_mm / (radius_mm + CHORD_MM * 0.99))
    return 4 * max(2, math.ceil(math.pi / half_angle / 4))


def _ring(centre: tuple[float, float], radius_mm: float, corners: int) -> Polygon:
    half = math.pi / corners
    turns = [half * (2 * k + 1) for k in range(corners)]
    u, v = centre
    return Polygon(
        [(u + radius_mm * math.cos(a), v + radius_mm * math.sin(a)) for a in turns]
    )


def disc_outline(centre: tuple[float, float], diameter_mm: float) -> Polygon:
    """Return a polygon around a disc: its sides touch the circle from outside.

    Its chord error stays under ``CHORD_MM``; the four axis-parallel sides make its
    width and height exactly the diameter.
    """
    corners = _corners(diameter_mm / 2)
    outer_mm = diameter_mm / 2 / math.cos(math.pi / corners)
    return _ring(centre, outer_mm, corners)


def hole_outline(centre: tuple[float, float], diameter_mm: float) -> Polygon:
    """Return a polygon inside a round hole: its corners lie on the circle."""
    return _ring(centre, diameter_mm / 2, _corners(diameter_mm / 2))


def rod_along_depth(
    x: tuple[float, float], centre: tuple[float, float], diameter_mm: float
) -> tuple[Solid, ...]:
    """Return nested boxes around a cylinder whose axis runs along depth.

    Sections across depth are always rectangles, so the circle in (y, z) is covered by
    a union of them, no corner farther than ``NEST_MM`` from the curve.
    """
    radius_mm = diameter_mm / 2
    y, z = centre
    halves = _nested_halves(radius_mm)
    return tuple(
        block(x, (y - high, y + high), (z - wide, z + wide)) for high, wide in halves
    )


def _nested_halves(radius_mm: float) -> list[tuple[float, float]]:
    """Return half heights and half widths, from the tallest to the widest.

    Each box's corner lies at most ``NEST_MM`` outside the circle, and neighbours
    meet on it: with the corner on radius r + e, the next box starts where this one's
    side cuts the circle.
    """
    reach = radius_mm + NEST_MM * 0.99
    halves = [(radius_mm, math.sqrt(reach**2 - radius_mm**2))]
    while halves[-1][1] < radius_mm:
        high = math.sqrt(radius_mm**2 - halves[-1][1] ** 2)
        halves.append((high, min(radius_mm, math.sqrt(reach**2 - high**2))))
    return halves
