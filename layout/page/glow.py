"""What lights up over the drawing where the page's table is pointed at."""

from __future__ import annotations

from html import escape
from typing import Final

from layout.drawing.paper.scene import (
    Area,
    Balloon,
    Dimension,
    Item,
    Line,
    Point,
    Scene,
)
from layout.page.said import Page

__all__ = ["POINTS_PER_MM", "glows"]

POINTS_PER_MM: Final = 72 / 25.4
"""An SVG of the drawing counts in points."""

_HALO: Final = 1.6
"""Radius of a halo over that of the balloon it lies round."""


def glows(page: Page, scene: Scene) -> str:
    """Return an SVG group with one part for each finding that this sheet shows.

    Its lengths are mm on paper from the sheet's upper left corner.  Dimension lines lie
    under all balloons: one of them may pass behind another finding's number.
    """
    rows = (*page.rows, *page.more)
    lines = [
        f'<g class="glow" data-line="{row.number}">{shapes}</g>'
        for row in rows
        if (shapes := _shapes(scene, row.ref, balloons=False))
    ]
    balloons = [
        f'<g class="glow" data-gap="{row.number}" tabindex="0" role="button" '
        f'aria-label="number {row.number}: {escape(row.text)}">{shapes}</g>'
        for row in rows
        if (shapes := _shapes(scene, row.ref, balloons=True))
    ]
    scale = f"{POINTS_PER_MM:.6f}"
    return f'<g transform="scale({scale})">{"".join((*lines, *balloons))}</g>'


def _shapes(scene: Scene, ref: str, *, balloons: bool) -> str:
    return "".join(
        _shape(item, scene.height_mm)
        for item in scene.items
        if getattr(item, "ref", "") == ref and isinstance(item, Balloon) is balloons
    )


def _shape(item: Item, height_mm: float) -> str:
    match item:
        case Balloon():
            x, y = _down(item.centre, height_mm)
            radius = _HALO * item.radius_mm
            return f'<circle cx="{x:.3f}" cy="{y:.3f}" r="{radius:.3f}"/>'
        case Dimension():
            return _path((item.start, item.end), height_mm)
        case Line():
            return _path(item.points, height_mm)
        case Area():
            return _path((*item.outer, item.outer[0]), height_mm)
        case _:
            return ""


def _down(point: Point, height_mm: float) -> Point:
    """Return a point counted downwards from the sheet's upper edge."""
    return point[0], height_mm - point[1]


def _path(points: tuple[Point, ...], height_mm: float) -> str:
    down = (_down(each, height_mm) for each in points)
    corners = " ".join(f"{x:.3f},{y:.3f}" for x, y in down)
    return f'<polyline points="{corners}"/>'
