"""Each part's governing size, dimensioned beside the views: stacked, never crossing.

What finds no room beside a view, and small parts, are told in the part's name alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Final

from layout.build.placed import Build
from layout.drawing.paper.lettering import width_mm
from layout.drawing.paper.scene import Point
from layout.drawing.paper.style import Style
from layout.drawing.paper.words import length
from layout.drawing.views.views import View, bounds_of
from layout.geometry.space import Axis, Box
from layout.values import dataclass

__all__ = ["Extent", "extents", "stacked"]

_TRUE_MM: Final = 0.05
"""How far an extent may be from the size that the part states."""

_UNTOLD: Final = frozenset({"fan", "drive", "processor", "block"})
"""Kinds whose size is a name rather than a length to be measured."""

_REACH_MM: Final = 30.0
"""No extension line runs farther through a view."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Extent:
    """A size between two points on paper, and how far it lies from the view's edge.

    Parameters
    ----------
    ends : (Point, Point)
        The points measured between.
    low, high : float
        The same along the dimension line.
    """

    ends: tuple[Point, Point]
    low: float
    high: float
    value_mm: float
    reach_mm: float
    ref: str


def extents(build: Build, view: View, axis: Axis) -> tuple[Extent, ...]:
    """Return the governing sizes along an axis that a view shows, the shortest first.

    Depth is measured under a view, the other two on its left.
    """
    found = [
        _extent(part_key, value_mm, (view, box), axis=axis)
        for part_key, value_mm, box in _sizes(build, axis)
    ]
    near = {each.ref: each for each in found if each.reach_mm <= _REACH_MM}
    ordered = sorted(near.values(), key=lambda each: (each.high - each.low, each.ref))
    return tuple(ordered)


def _sizes(build: Build, axis: Axis) -> Iterator[tuple[str, float, Box]]:
    """Yield part, size and box where a part's stated size is its extent."""
    for part in build.parts:
        if part.kind in _UNTOLD:
            continue
        own = [
            each.body.bounds
            for each in build.bodies
            if each.part == part.key and each.role.is_matter
        ]
        numbers = [float(each) for each in re.findall(r"\d+(?:\.\d+)?", part.size)]
        whole = [*own, bounds_of(own)] if own else []
        for value_mm in numbers:
            box = next((each for each in whole if _is(each, axis, value_mm)), None)
            if box is not None:
                yield part.key, value_mm, box
                break


def _is(box: Box, axis: Axis, value_mm: float) -> bool:
    span_mm = box.high[axis.index] - box.low[axis.index]
    return abs(span_mm - value_mm) <= _TRUE_MM


def _extent(
    key: str, value_mm: float, where: tuple[View, Box], *, axis: Axis
) -> Extent:
    view, box = where
    left, bottom, _, _ = view.frame
    (x0, y0), (x1, y1) = view.point(box.low), view.point(box.high)
    low_y, high_y = min(y0, y1), max(y0, y1)
    if axis is Axis.DEPTH:
        return Extent(
            ends=((x0, low_y), (x1, low_y)),
            low=x0,
            high=x1,
            value_mm=value_mm,
            reach_mm=low_y - bottom,
            ref=key,
        )
    return Extent(
        ends=((x0, low_y), (x0, high_y)),
        low=low_y,
        high=high_y,
        value_mm=value_mm,
        reach_mm=x0 - left,
        ref=key,
    )


def stacked(
    wanted: Sequence[Extent], rows: int, style: Style
) -> tuple[tuple[int, Extent], ...]:
    """Return the sizes that find a row, the innermost is 0, with their rows.

    In a row no two overlap; no extension line cuts a dimension line of a row nearer
    to the view.  A size with no room for its number between the arrows is left out.
    """
    made: list[tuple[int, Extent]] = []
    for each in wanted:
        needed_mm = width_mm(length(each.value_mm), style.small_mm) + 2 * style.pad_mm
        if each.high - each.low < needed_mm:
            continue
        row = next((row for row in range(rows) if _free(each, row, made)), None)
        if row is not None:
            made.append((row, each))
    return tuple(made)


def _free(each: Extent, row: int, made: Sequence[tuple[int, Extent]]) -> bool:
    return not any(
        _overlap(each, other)
        if taken == row
        else _cuts(each, other)
        if taken < row
        else _cuts(other, each)
        for taken, other in made
    )


def _overlap(a: Extent, b: Extent) -> bool:
    return a.low < b.high and b.low < a.high


def _cuts(outer: Extent, inner: Extent) -> bool:
    """Tell whether an extension line of the outer cuts the inner's dimension line."""
    ends = (outer.low, outer.high)
    return any(inner.low + 1e-6 < each < inner.high - 1e-6 for each in ends)
