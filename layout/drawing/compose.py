"""From a build and its check to the scene: the whole sheet."""

from __future__ import annotations

from collections.abc import Sequence

from layout.build.placed import Build
from layout.drawing.boxes import Frame
from layout.drawing.frame import border, heading, title_block
from layout.drawing.legend import legend
from layout.drawing.lettering import plain
from layout.drawing.picture import picture
from layout.drawing.scene import Item, Scene
from layout.drawing.sheet import A2, A3, Plan, Sheet, planned
from layout.drawing.style import LARGE, STYLE, Style
from layout.drawing.table import table
from layout.drawing.views import bounds_of
from layout.drawing.words import summary
from layout.geometry.space import ORIGIN, Box
from layout.questions.finding import Check

__all__ = ["scene"]

_MOST_MARKED = 60
"""Findings beyond these, the worst, would make both views unreadable."""

_ASIDE_MM = 3.0
"""Free paper between the text column's lettering and the frame."""


def scene(
    build: Build, check: Check, *, sheets: Sequence[Sheet] | None = None
) -> Scene:
    """Return the drawing of a build: both views, its findings, and a table of them.

    Parameters
    ----------
    build : Build
    check : Check
        The findings of this very build, worst first.
    sheets : sequence of Sheet, optional
        Sheets to choose from, the smallest first; default: A3, and A2 where that
        shows a whole case at 1:2.
    """
    plan = _plan(build, sheets)
    style = LARGE if plan.sheet is A2 else STYLE
    drawn = picture(build, check.findings[:_MOST_MARKED], plan, style=style)
    left, bottom, right, top = plan.column
    right -= _ASIDE_MM
    head, top = heading(build, check, (left, bottom, right, top), style=style)
    block, foot = title_block(build, plan, style)
    foot += _ASIDE_MM
    key, above = legend(drawn, (left, foot, right, top), style)
    rows = _rows(check, (left, above + _ASIDE_MM, right, top), style)
    return Scene(
        title=plain(build.name),
        description=summary(check),
        width_mm=plan.sheet.width_mm,
        height_mm=plan.sheet.height_mm,
        scale=plan.scale,
        items=(*border(plan), *drawn, *head, *rows, *key, *block),
    )


def _rows(check: Check, column: Frame, style: Style) -> tuple[Item, ...]:
    """Return the table, in smaller lettering where it would not fit otherwise."""
    rows, left_out = table(check.findings, column, style)
    if left_out:
        rows, _ = table(check.findings, column, STYLE)
    return rows


def _plan(build: Build, sheets: Sequence[Sheet] | None) -> Plan:
    boxes = [each.body.bounds for each in build.bodies]
    in_case = build.case_size_mm is not None
    if build.case_size_mm is not None:
        boxes.append(Box(ORIGIN, build.case_size_mm))
    allowed = sheets or ((A3, A2) if in_case else (A3,))
    return planned(bounds_of(boxes), in_case=in_case, sheets=allowed)
