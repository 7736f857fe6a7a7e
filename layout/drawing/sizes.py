"""Captions of the views, and the sizes of the case inside."""

from __future__ import annotations

from layout.build.placed import Build
from layout.drawing.dimensions import TAIL, level, upright
from layout.drawing.lettering import width_mm
from layout.drawing.scene import Align, Dimension, Ink, Text
from layout.drawing.style import Style
from layout.drawing.views import Facing, View
from layout.geometry.space import ORIGIN, Box
from layout.parts.form import Role

__all__ = ["captions", "sizes"]

_CAPTIONS = {
    Facing.SIDE: ("Side view", "side panel taken off"),
    Facing.TOP: ("Top view", "from above, side panel at the lower edge"),
}
_LIFT_MM = 1.5
"""Paper between a caption and the tails of dimensions that leave its view."""


def captions(
    build: Build,
    views: tuple[View, View],
    *,
    style: Style,
    over: tuple[float, float] = (0.0, 0.0),
) -> tuple[Text, ...]:
    """Return the views' captions, and which way is the rear.

    Parameters
    ----------
    over : (float, float), mm on paper
        How far circles around details reach over each view.
    """
    out: list[Text] = []
    small = style.small_mm
    for view, reach_mm in zip(views, over, strict=True):
        left, _, _, top = view.frame
        bold, soft = _CAPTIONS[view.facing]
        y = top + max(TAIL * style.arrow_mm, reach_mm) + _LIFT_MM
        out.append(Text(at=(left, y), text=bold, height_mm=style.medium_mm, bold=True))
        x = left + width_mm(bold, style.medium_mm, bold=True) + small
        if build.case_size_mm is not None:
            out.append(Text(at=(x, y), text=soft, height_mm=small, ink=Ink.SOFT))
    left, bottom, right, _ = views[1].frame
    if build.case_size_mm is not None:
        left, right = (views[1].point((x, 0, 0))[0] for x in (0, build.case_size_mm[0]))
    y = bottom - style.first_dimension_mm - small / 2
    ends = ((left - small, "rear", Align.RIGHT), (right + small, "front", Align.LEFT))
    for x, word, align in ends:
        out.append(
            Text(at=(x, y), text=word, height_mm=small, align=align, ink=Ink.SOFT)
        )
    return tuple(out)


def sizes(
    build: Build, views: tuple[View, View], style: Style
) -> tuple[Dimension, ...]:
    """Return the case's inside sizes; without a case, the sizes over all."""
    side, top = views
    box = Box(ORIGIN, build.case_size_mm) if build.case_size_mm else side.box
    depth, height, width = (
        high - low for low, high in zip(box.low, box.high, strict=True)
    )
    x = side.frame[0] - style.first_dimension_mm
    y = top.frame[1] - style.first_dimension_mm
    low, high = side.point(box.low), side.point(box.high)
    near, far = top.point(box.low), top.point(box.high)
    out = [
        upright((low, (low[0], high[1])), x, height, style=style),
        upright(((near[0], far[1]), near), x, width, style=style),
        level(((near[0], far[1]), far), y, depth, style=style),
    ]
    behind = _behind(build)
    if behind is not None:
        tray, back = (top.point((box.low[0], 0.0, z)) for z in behind)
        out.append(upright((tray, back), x, behind[0] - behind[1], style=style))
    return tuple(out)


def _behind(build: Build) -> tuple[float, float] | None:
    """Return the width at the tray's back and at the back panel's inside."""
    bounds = [(each.role, each.body.bounds) for each in build.bodies]
    tray = [box.low[2] for role, box in bounds if role is Role.TRAY]
    back = [box.high[2] for role, box in bounds if role is Role.BACK_PANEL]
    return (min(tray), max(back)) if tray and back else None
