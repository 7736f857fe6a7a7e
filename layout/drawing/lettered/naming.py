"""Where names stand: inside their parts if they fit, else beside with a leader."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache, partial

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from layout.drawing.lettered.cheapest import Limit
from layout.drawing.lettered.ground import Ground
from layout.drawing.lettered.labels import Candidate, Offer, Places, frames, joined
from layout.drawing.lettered.names import Name
from layout.drawing.lettered.untangled import Label
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.lettering import width_mm, wrapped
from layout.drawing.paper.scene import Align, Item, Leader, Point, Text
from layout.drawing.paper.style import Style

__all__ = ["block_size", "inside", "lettered", "lines_of", "outside", "slots"]

_TALL = 1.4
"""Height of a line with its tails, per height of a capital."""

_DROP = 1.07
"""From the top of a line to its base, per height of a capital."""

_EDGE_MM = 0.4
"""Paper between a name and the edge of its part."""

_STEP_MM = 2.0
"""How far apart places inside a part are tried, about."""

_MOST_STEPS = 61

_ELBOW_MM = 3.0
_SLOT_MM = 1.5
_ACROSS_COST = 30.0
"""For a name on the side of the view that its part is farther from."""
_FARTHER_MM = 20.0
"""How much farther up and down a column names stand that would cross leaders."""
_BETWEEN_MM = 1.6
"""Paper between names in a column, beside the padding."""


def inside(name: Name, ground: Ground, style: Style) -> tuple[Text, ...] | None:
    """Return the name's lettering inside its shape, or None where it does not fit."""
    if name.hidden or not name.shape.area:
        return None
    one_line = (", ".join(name.lines),)
    for lines in dict.fromkeys((name.lines, one_line)):
        for turned in (False, True):
            places = _places_inside(name.shape, block_size(lines, style), turned=turned)
            place = ground.best(places)
            if place is not None:
                return _set(
                    lines, place.box, Align.CENTRE, how=(style, name.ref, turned)
                )
    return None


def _places_inside(
    shape: BaseGeometry, size: tuple[float, float], *, turned: bool
) -> Places:
    """Return the places where a box lies within a shape, dear when off its middle."""
    half = np.array(size[::-1] if turned else size) / 2
    x0, y0, x1, y1 = shape.bounds
    if x1 - x0 < 2 * half[0] or y1 - y0 < 2 * half[1]:
        return Places(np.empty((0, 4)), np.empty(0))
    xs = _steps(x0 + half[0], x1 - half[0])
    ys = _steps(y0 + half[1], y1 - half[1])
    at = np.stack([each.ravel() for each in np.meshgrid(xs, ys)], axis=1)
    boxes = np.hstack([at - half, at + half])
    room = shape.buffer(-_EDGE_MM)
    shapely.prepare(room)
    held = np.flatnonzero(shapely.contains(room, shapely.box(*boxes.T)))
    far = np.hypot(*(at - np.array(shape.centroid.coords[0])).T)
    return Places(boxes[held], far[held])


def _steps(low: float, high: float) -> NDArray[np.float64]:
    """Return places from low to high, the middle among them."""
    count = 2 * int((high - low) / (2 * _STEP_MM) + 1) + 1
    return np.linspace(low, high, min(count, _MOST_STEPS))


def block_size(lines: tuple[str, ...], style: Style) -> tuple[float, float]:
    """Return width and height of lines set one under the other."""
    step = style.line_step * style.small_mm
    wide = max(width_mm(each, style.small_mm) for each in lines)
    return wide, (len(lines) - 1) * step + _TALL * style.small_mm


def _set(
    lines: tuple[str, ...], box: Frame, align: Align, *, how: tuple[Style, str, bool]
) -> tuple[Text, ...]:
    """Return lines of text that fill a box; ``how``: style, reference, turned."""
    style, ref, turned = how
    left, bottom, right, top = box
    middle = (left + right) / 2
    x = {Align.LEFT: left, Align.CENTRE: middle, Align.RIGHT: right}[align]
    out = []
    for row, line in enumerate(lines):
        below = (_DROP + row * style.line_step) * style.small_mm
        at = (left + below, (bottom + top) / 2) if turned else (x, top - below)
        out.append(
            Text(
                at=at,
                text=line,
                height_mm=style.small_mm,
                align=align,
                turned=turned,
                ref=ref,
            )
        )
    return tuple(out)


def outside(
    wanted: Sequence[Name],
    columns: tuple[Frame, Frame],
    ground: Ground,
    *,
    style: Style,
) -> tuple[tuple[Label, ...], tuple[Name, ...]]:
    """Return the names that stand beside a view, each with a leader to its part.

    Also those that find no room there.

    Parameters
    ----------
    columns : (Frame, Frame)
        Room on the left and on the right of the view.
    """
    out: list[Label] = []
    strays: list[Name] = []
    for name in sorted(wanted, key=lambda each: (-each.shape.centroid.y, each.lines)):
        near, far = (
            cache(partial(_slots_of, name, columns, style=style, more_mm=more))
            for more in (0.0, _FARTHER_MM)
        )
        choose, farther = partial(_chosen, near, ground), partial(_chosen, far, ground)
        place = choose()
        if place is None:
            strays.append(name)
        else:
            made = partial(lettered, name, columns=columns, style=style)
            out.append(Label(place=place, choose=choose, farther=farther, made=made))
    return tuple(out), tuple(strays)


def _chosen(
    offer: Callable[[], Offer], ground: Ground, limit: Limit | None = None
) -> Candidate | None:
    """Take the best place of an offer, which is made now if it was not."""
    return ground.best(offer(), limit=limit)


def _slots_of(
    name: Name, columns: tuple[Frame, Frame], *, style: Style, more_mm: float
) -> Offer:
    """Return the places for a name on either side of a view."""
    middle = (columns[0][2] + columns[1][0]) / 2
    own = name.shape.centroid.x >= middle
    sides = [
        slots(
            name.shape,
            block_size(lines_of(name, column, style), style),
            (column[0], column[1] - more_mm, column[2], column[3] + more_mm),
            at_right=at_right,
            dearer=0.0 if at_right is own else _ACROSS_COST,
        )
        for column, at_right in zip(columns, (False, True), strict=True)
    ]
    return Offer(joined(sides))


def lines_of(name: Name, column: Frame, style: Style) -> tuple[str, ...]:
    """Return a name's lines, broken where a column is too narrow for them."""
    most_mm = column[2] - column[0]
    return tuple(
        row for each in name.lines for row in wrapped(each, style.small_mm, most_mm)
    )


def lettered(
    name: Name, place: Candidate, *, columns: tuple[Frame, Frame], style: Style
) -> tuple[Item, ...]:
    """Return a name's lettering and leader at its place."""
    left, bottom, right, top = place.box
    align = Align.LEFT if place.leader[0][0] < left else Align.RIGHT
    box = (left, bottom, right, top - _BETWEEN_MM / 2)
    lines = lines_of(name, columns[left >= columns[1][0]], style)
    texts = _set(lines, box, align, how=(style, name.ref, False))
    return (*texts, Leader(points=place.leader, ref=name.ref))


def slots(
    shape: BaseGeometry,
    size: tuple[float, float],
    column: Frame,
    *,
    at_right: bool,
    dearer: float = 0.0,
) -> Places:
    """Return the places in a column, with leaders to places on the shape."""
    wide, high = size
    left = column[0] if at_right else column[2] - wide
    edge, way = (left - 0.8, -1.0) if at_right else (left + wide + 0.8, 1.0)
    high += _BETWEEN_MM
    slots = np.arange(column[1] + high / 2, column[3] - high / 2, _SLOT_MM)
    anchors = np.array(_anchors(shape))
    y = np.tile(slots, len(anchors))
    ends = np.repeat(anchors, len(slots), axis=0)
    centres = np.stack([np.full(len(y), left + wide / 2), y], axis=1)
    start = np.stack([np.full(len(y), edge), y], axis=1)
    elbow = start + np.array([_ELBOW_MM * way, 0.0])
    boxes = frames(centres[: len(slots)], (wide / 2, high / 2))
    return Places(
        boxes,
        dearer + 0.3 * np.abs(ends[:, 0] - edge) + 0.6 * np.abs(y - ends[:, 1]),
        np.stack([start, elbow, ends], axis=1),
        np.tile(np.arange(len(slots)), len(anchors)),
    )


def _anchors(shape: BaseGeometry) -> list[Point]:
    """Return places on a shape that a leader may end on."""
    if not shape.area:
        spots = [shape.interpolate(t, normalized=True) for t in np.arange(0.05, 1, 0.1)]
        return [(each.x, each.y) for each in spots]
    x0, y0, x1, y1 = shape.bounds
    grid = np.meshgrid(np.linspace(x0, x1, 6)[1:-1], np.linspace(y0, y1, 6)[1:-1])
    xs, ys = (each.ravel() for each in grid)
    held = shapely.contains_xy(shape, xs, ys)
    first = shape.representative_point()
    return [(first.x, first.y), *zip(xs[held].tolist(), ys[held].tolist(), strict=True)]
