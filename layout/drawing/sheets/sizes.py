"""Captions of the views, and the sizes of the case inside."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import shapely
from shapely.geometry.base import BaseGeometry

from layout.build.placed import Build
from layout.drawing.paper.boxes import text_box
from layout.drawing.paper.dimensions import TAIL, level, upright
from layout.drawing.paper.lettering import width_mm
from layout.drawing.paper.scene import Align, Dimension, Ink, Text
from layout.drawing.paper.style import Style
from layout.drawing.sheets.governing import extents, stacked
from layout.drawing.views.views import Facing, View
from layout.geometry.space import ORIGIN, Axis, Box
from layout.parts.form.form import Role

__all__ = ["captions", "sizes"]

_CAPTIONS = {
    Facing.SIDE: ("Side view", ("side panel taken off",)),
    Facing.TOP: (
        "Top view",
        ("from above, side panel at the lower edge", "from above"),
    ),
}
"""Each view's name, and what is said beside it: the longest that has room."""

_MOST_UNDER = 2
"""Rows of parts' sizes under the top view, at most."""

_FOOT = 2.0
"""Room under the outermost dimension line, per height of a capital."""

_LIFT_MM = 1.5
"""Paper between a caption and the tails of dimensions that leave its view."""


def captions(
    build: Build,
    views: tuple[View, View],
    *,
    style: Style,
    right: float,
    over: tuple[float, float] = (0.0, 0.0),
) -> tuple[Text, ...]:
    """Return the views' captions, and which way is the rear.

    Parameters
    ----------
    right : float
        Right edge of the room; what does not fit there is said shorter, or not.
    over : (float, float), mm on paper
        How far circles around details reach over each view.
    """
    out: list[Text] = []
    small = style.small_mm
    for view, reach_mm in zip(views, over, strict=True):
        left, _, _, top = view.frame
        bold, beside = _CAPTIONS[view.facing]
        y = top + max(TAIL * style.arrow_mm, reach_mm) + _LIFT_MM
        out.append(Text(at=(left, y), text=bold, height_mm=style.medium_mm, bold=True))
        x = left + width_mm(bold, style.medium_mm, bold=True) + small
        fitting = [each for each in beside if x + width_mm(each, small) <= right]
        if build.case_size_mm is not None and fitting:
            out.append(Text(at=(x, y), text=fitting[0], height_mm=small, ink=Ink.SOFT))
    return (*out, *_ends(build, views[1], style))


def _ends(build: Build, top: View, style: Style) -> Iterator[Text]:
    """Yield which way is the rear, and which way the front."""
    left, bottom, right, _ = top.frame
    small = style.small_mm
    if build.case_size_mm is not None:
        left, right = (top.point((x, 0, 0))[0] for x in (0, build.case_size_mm[0]))
    y = bottom - style.first_dimension_mm - small / 2
    ends = ((left - small, "rear", Align.RIGHT), (right + small, "front", Align.LEFT))
    for x, word, align in ends:
        yield Text(at=(x, y), text=word, height_mm=small, align=align, ink=Ink.SOFT)


def sizes(
    build: Build,
    views: tuple[View, View],
    style: Style,
    *,
    foot: float,
    avoid: BaseGeometry,
) -> tuple[Dimension, ...]:
    """Return the parts' governing sizes, and outside them the case's inside sizes.

    Without a case the sizes over all stand outside.

    Parameters
    ----------
    foot : float
        Lower edge of the room under the top view.
    avoid : lines
        What no number of a part's size may lie on: such a size is left out.
    """
    side, top = views
    box = Box(ORIGIN, build.case_size_mm) if build.case_size_mm else side.box
    first, step = style.first_dimension_mm, style.next_dimension_mm
    under_mm = top.frame[1] - foot - first - _FOOT * style.small_mm
    rows = min(_MOST_UNDER, max(0, int(under_mm / step)))
    stacks = (
        (stacked(extents(build, side, Axis.HEIGHT), 1, style), side),
        (stacked(extents(build, top, Axis.WIDTH), 1, style), top),
        (stacked(extents(build, top, Axis.DEPTH), rows, style), top),
    )
    out: list[Dimension] = []
    outer: list[float] = []
    for (stack, view), make in zip(stacks, (upright, upright, level), strict=True):
        edge = view.frame[1 if make is level else 0] - first
        last = edge + step
        for row, each in stack:
            at = edge - row * step
            made = make(each.ends, at, each.value_mm, style=style)
            if made.text and not avoid.intersects(shapely.box(*text_box(made.text))):
                out.append(made)
                last = min(last, at)
        outer.append(last - step)
    return (*out, *_over_all(build, views, box, at=outer, style=style))


def _over_all(
    build: Build,
    views: tuple[View, View],
    box: Box,
    *,
    at: Sequence[float],
    style: Style,
) -> Iterator[Dimension]:
    """Yield the sizes over all; ``at``: where the three stacks go on."""
    side, top = views
    depth, height, width = (
        high - low for low, high in zip(box.low, box.high, strict=True)
    )
    low, high = side.point(box.low), side.point(box.high)
    near, far = top.point(box.low), top.point(box.high)
    yield upright((low, (low[0], high[1])), at[0], height, style=style)
    yield upright(((near[0], far[1]), near), at[1], width, style=style)
    yield level(((near[0], far[1]), far), at[2], depth, style=style)
    behind = _behind(build)
    if behind is not None:
        tray, back = (top.point((box.low[0], 0.0, z)) for z in behind)
        yield upright((tray, back), at[1], behind[0] - behind[1], style=style)


def _behind(build: Build) -> tuple[float, float] | None:
    """Return the width at the tray's back and at the back panel's inside."""
    bounds = [(each.role, each.body.bounds) for each in build.bodies]
    tray = [box.low[2] for role, box in bounds if role is Role.TRAY]
    back = [box.high[2] for role, box in bounds if role is Role.BACK_PANEL]
    return (min(tray), max(back)) if tray and back else None
