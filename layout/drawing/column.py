"""The text beside the views: title and verdict, table, legend, title block."""

from __future__ import annotations

from layout.build.placed import Build
from layout.drawing.compared import Before
from layout.drawing.frame import heading
from layout.drawing.legend import legend
from layout.drawing.scene import Item, Line
from layout.drawing.sheet import Plan
from layout.drawing.style import STYLE, Style
from layout.drawing.table import table
from layout.drawing.title_block import Title, title_block
from layout.questions.finding import Check

__all__ = ["column"]

_ASIDE_MM = 3.0
"""Free paper between lettering and the lines around it."""


def column(
    build: Build,
    check: Check,
    plan: Plan,
    *,
    title: Title,
    style: Style,
    keys: tuple[tuple[str | Line, str], ...] = (),
    before: Before | None = None,
) -> tuple[tuple[Item, ...], int]:
    """Return the text beside the views, and how many rows the table leaves out.

    Parameters
    ----------
    keys : tuple of (str or Line, str)
        Numbers that stand on the drawing for a name, with the name; lines of layers.
    before : Before, optional
        The build that this one is compared with.
    """
    left, bottom, right, top = plan.column
    left, right = left + _ASIDE_MM / 2, right - _ASIDE_MM
    head, top = heading(
        build, check, (left, bottom, right, top), style=style, before=before
    )
    block, foot = title_block(build.name, title, plan, style=STYLE)
    key, above = legend(
        build,
        check,
        (left, foot + _ASIDE_MM, right, top),
        style=style,
        keys=keys,
        before=before,
    )
    room = (left, above + _ASIDE_MM, right, top)
    rows, left_out = table(check.findings, room, style, before=before)
    if left_out:  # smaller lettering may hold them all
        rows, left_out = table(check.findings, room, STYLE, before=before)
    wanted = max(1, sum(each.verdict.fails for each in check.findings))
    if left_out > max(0, len(check.findings) - wanted):  # worth more than a legend
        key, room = (), (left, foot + _ASIDE_MM, right, top)
        rows, left_out = table(check.findings, room, STYLE, before=before)
    return (*head, *rows, *key, *block), left_out
