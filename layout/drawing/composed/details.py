"""Enlarged details: which gaps need one, at which scale, and where it stands."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from string import ascii_uppercase
from typing import Final

import shapely
from shapely.geometry.base import BaseGeometry

from layout.drawing.findings.marks import Spot
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.scene import Point
from layout.drawing.sheets.sheet import Plan
from layout.drawing.views.views import View
from layout.questions.findings.finding import Finding
from layout.values import dataclass

__all__ = ["Detail", "details", "most_details", "room_for"]

_READABLE_MM: Final = 3.0
"""A gap drawn shorter than this is worth a detail."""

_DRAWN_MM: Final = 3.0
"""A detail draws its gap at least so long."""

_SCALES: Final = ((1, 2), (1, 1), (2, 1), (5, 1), (10, 1))
"""Standard scales of details (ISO 5455), the smallest first."""

_CELL_MM: Final = (48.0, 54.0)
_NARROW_MM: Final = 34.0
"""A detail's room, and how narrow it may be where a gap would have none."""

_AROUND_MM: Final = (7.0, 21.0)
"""Paper beside, and over and under a detail's circle in its cell."""

_WIDEST_MM: Final = 30.0
_INNER: Final = 0.7
"""Share of the radius within which a gap is well inside a detail."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Detail:
    """A part of a view, enlarged.

    Parameters
    ----------
    of : int
        Which of the views it enlarges.
    centre, radius_mm : Point, float
        The circle around it in that view.
    view : View
        The enlarged view with its window.
    numbers : tuple of int
        Numbers of the findings it shows.
    cell, middle, reach_mm : Frame, Point, float
        Its room on paper, and its own circle there.
    """

    letter: str
    of: int
    centre: Point
    radius_mm: float
    view: View
    scale: tuple[int, int]
    cell: Frame
    middle: Point
    reach_mm: float
    numbers: tuple[int, ...]


def details(spots: Sequence[Spot], plan: Plan) -> tuple[Detail, ...]:
    """Return the details, the worst findings' first, as many as there is room for.

    Few details share the room of many, in larger circles; narrower ones stand side by
    side where a gap would have none.
    """
    if plan.aside is None:
        return ()
    wide, rows = _most(plan.aside)
    narrow, _ = _most(plan.aside, _NARROW_MM)
    made: tuple[Detail, ...] = ()
    for columns in range(min(2, wide) if rows == 1 else wide, max(wide, narrow) + 1):
        cells = _cells(plan.aside, columns, rows)
        made = _details(spots, plan, cells)
        shown = {number for each in made for number in each.numbers}
        left = any(_is_small(each, plan) and each.number not in shown for each in spots)
        if len(made) < len(cells) or not left:
            break
    return made


def _details(
    spots: Sequence[Spot], plan: Plan, cells: Sequence[Frame]
) -> tuple[Detail, ...]:
    out: list[Detail] = []
    for spot in spots:
        value_mm = _value(spot)
        if any(spot.number in each.numbers for each in out):
            continue  # a clash shows in both views: one detail is enough
        if value_mm is None or not _is_small(spot, plan):
            continue
        centre = _centre(spot)
        place = next(
            (n for n, each in enumerate(out) if _holds(each, spot, (centre, value_mm))),
            None,
        )
        if place is not None:
            numbers = (*out[place].numbers, spot.number)
            out[place] = replace(out[place], numbers=tuple(dict.fromkeys(numbers)))
        elif len(out) < len(cells):
            made = _detail(spot, value_mm, plan=plan, cell=cells[len(out)])
            if made is not None:
                out.append(replace(made, letter=ascii_uppercase[len(out)]))
    return tuple(out)


def _is_small(spot: Spot, plan: Plan) -> bool:
    """Tell whether a gap is drawn too short to be read with ease."""
    value_mm = _value(spot)
    return value_mm is not None and value_mm * _factor(plan.scale) < _READABLE_MM


def most_details(
    findings: Sequence[Finding], scale: tuple[int, int], *, least: float = 1.0
) -> int:
    """Return how many findings are too small to read at a scale.

    ``least`` is what is read at a pinch, of what is read with ease.
    """
    lengths = [
        each.overlap.mm if each.overlap is not None else each.gap_mm
        for each in findings
    ]
    least_mm = least * _READABLE_MM / _factor(scale)
    return sum(each is not None and each < least_mm for each in lengths)


def room_for(plan: Plan) -> int:
    """Return how many details a plan has room for."""
    return math.prod(_most(plan.aside)) if plan.aside else 0


def _value(spot: Spot) -> float | None:
    """Return the length that a detail would show, in mm of the case."""
    finding = spot.finding
    if finding.overlap is not None:
        return finding.overlap.mm if spot.dimension else None
    if finding.from_mm is None or not finding.gap_mm:
        return None
    return finding.gap_mm


def _centre(spot: Spot) -> Point:
    ends = spot.slanted
    if spot.dimension is not None:
        ends = spot.dimension.start, spot.dimension.end
    if ends is None:
        return spot.target[0]
    (ax, ay), (bx, by) = ends
    return (ax + bx) / 2, (ay + by) / 2


def _factor(scale: tuple[int, int]) -> float:
    return scale[0] / scale[1]


def _holds(detail: Detail, spot: Spot, at: tuple[Point, float]) -> bool:
    """Tell whether a detail shows a gap, large enough to be read."""
    centre, value_mm = at
    if detail.of != spot.view:
        return False
    near = math.dist(centre, detail.centre) < _INNER * detail.radius_mm
    return near and _READABLE_MM <= value_mm * detail.view.scale < detail.reach_mm


def _detail(spot: Spot, value_mm: float, *, plan: Plan, cell: Frame) -> Detail | None:
    main = plan.views[spot.view]
    left, bottom, right, top = cell
    beside, over = _AROUND_MM
    wide = min(right - left - beside, top - bottom - over, 2 * _WIDEST_MM)
    larger = [each for each in _SCALES if _factor(each) > main.scale]
    fits = [each for each in larger if value_mm * _factor(each) >= _DRAWN_MM]
    if not larger:
        return None
    scale = fits[0] if fits else larger[-1]
    factor = _factor(scale)
    centre = _centre(spot)
    middle = ((left + right) / 2, (bottom + top) / 2)
    ratio = factor / main.scale
    origin = (
        middle[0] - (centre[0] - main.origin[0]) * ratio,
        middle[1] - (centre[1] - main.origin[1]) * ratio,
    )
    window: BaseGeometry = shapely.Point(middle).buffer(wide / 2, quad_segs=24)
    view = View(
        facing=main.facing, scale=factor, origin=origin, box=main.box, window=window
    )
    return Detail(
        letter="",
        of=spot.view,
        centre=centre,
        radius_mm=wide / 2 / ratio,
        view=view,
        scale=scale,
        cell=cell,
        middle=middle,
        reach_mm=wide / 2,
        numbers=(spot.number,),
    )


def _most(aside: Frame, wide_mm: float = _CELL_MM[0]) -> tuple[int, int]:
    """Return how many details stand side by side, and how many over one another."""
    left, bottom, right, top = aside
    return int((right - left) / wide_mm), int((top - bottom) / _CELL_MM[1])


def _cells(aside: Frame, columns: int, rows: int) -> list[Frame]:
    """Return the cells of the room for details, row by row."""
    left, bottom, right, top = aside
    wide, high = (right - left) / max(columns, 1), (top - bottom) / max(rows, 1)
    return [
        (
            left + n * wide,
            top - (row + 1) * high,
            left + (n + 1) * wide,
            top - row * high,
        )
        for row in range(rows)
        for n in range(columns)
    ]
