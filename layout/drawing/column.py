"""The text beside the views: title and verdict, table, legend, title block."""

from __future__ import annotations

from dataclasses import replace

from layout.build.placed import Build
from layout.drawing.compared import Before
from layout.drawing.frame import heading
from layout.drawing.legend import legend
from layout.drawing.scene import Item, Line
from layout.drawing.sheet import Plan, Share
from layout.drawing.style import STYLE, Style
from layout.drawing.table import table
from layout.drawing.title_block import Title, title_block
from layout.questions.finding import Check

__all__ = ["column"]

_WIDE_MM = 240.0
"""A column this wide under the views has the table on the left, the rest beside it."""

_BESIDE_MM = 110.0
"""Width of legend and title block beside the table."""

_ASIDE_MM = 3.0
"""Free paper between lettering and the lines around it."""


def column(
    build: Build,
    check: Check,
    plan: Plan,
    *,
    title: Title,
    style: Style,
    share: Share | None = None,
    keys: tuple[tuple[str | Line, str], ...] = (),
    before: Before | None = None,
) -> tuple[tuple[Item, ...], int]:
    """Return the text beside the views, and how many rows the table leaves out.

    Parameters
    ----------
    share : Share, optional
        Which rows of several sheets' table stand here; all of them without it.
    keys : tuple of (str or Line, str)
        Numbers that stand on the drawing for a name, with the name; lines of layers.
    before : Before, optional
        The build that this one is compared with.
    """
    share = share or Share()
    rest = check.findings[share.first :]
    left, bottom, right, top = plan.column
    left, right = left + _ASIDE_MM / 2, right - _ASIDE_MM
    head, top = heading(
        build,
        check,
        (left, bottom, right, top),
        style=style,
        share=share,
        before=before,
    )
    wide = right - left > _WIDE_MM
    start = right - _BESIDE_MM if wide else left
    own = replace(plan, column=(start, *plan.column[1:])) if wide else plan
    block, foot = title_block(build.name, title, own, style=STYLE, share=share)
    beside = (start + (_ASIDE_MM / 2 if wide else 0.0), foot + _ASIDE_MM, right, top)
    key, above = legend(build, check, beside, style=style, keys=keys, before=before)
    if wide and above > top:  # a long verdict leaves it no room
        key, above = legend(build, check, beside, style=STYLE, keys=keys, short=True)
    if wide:
        room = (left, bottom + _ASIDE_MM, start - _ASIDE_MM, top)
    else:
        room = (left, above + _ASIDE_MM, right, top)
    rows, left_out = table(rest, room, style, share=share, before=before)
    if left_out and style is not STYLE:  # smaller lettering may hold them all
        rows, left_out = table(rest, room, STYLE, share=share, before=before)
    wanted = max(1, sum(each.verdict.fails for each in rest))
    if left_out > max(0, len(rest) - wanted) and not wide:  # worth more than a legend
        key, above = legend(build, check, beside, style=STYLE, keys=keys, short=True)
        room = (left, above + _ASIDE_MM, right, top)
        rows, left_out = table(rest, room, STYLE, share=share, before=before)
    return (*head, *rows, *key, *block), left_out
