"""The text beside the views: title and verdict, table, legend, title block."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeAlias

from layout.build.placed import Build
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.scene import Item, Line
from layout.drawing.paper.style import STYLE, Style
from layout.drawing.sheets.frame import heading
from layout.drawing.sheets.legend import ROWS, legend
from layout.drawing.sheets.sheet import Plan, Share
from layout.drawing.sheets.table import table
from layout.drawing.sheets.title_block import Title, notes, title_block
from layout.drawing.views.compared import Before
from layout.questions.findings.finding import Check
from layout.values import dataclass

__all__ = ["column", "keeps_legend"]

_Keys: TypeAlias = tuple[tuple[str | Line, str], ...]
_Items: TypeAlias = tuple[Item, ...]

_WIDE_MM = 240.0
"""A column this wide under the views has the table on the left, the rest beside it."""

_BESIDE_MM = 110.0
"""Width of legend and title block beside the table."""

_CLOSER = ((STYLE, ROWS[0]), (STYLE, ROWS[1]))
"""How a legend is lettered where its frame is too low: smaller, then closer."""

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
    keys: _Keys = (),
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
    told = _Told(build, replace(check, findings=rest), style, (keys, before))
    beside = (start + (_ASIDE_MM / 2 if wide else 0.0), foot + _ASIDE_MM, right, top)
    key, above = told.legend(beside) if plan.key is None else ((), foot)
    room = (left, above + _ASIDE_MM, right, top)
    if wide:
        room = (left, bottom + _ASIDE_MM, start - _ASIDE_MM, top)
    rows, left_out = told.table(room, share)
    wanted = max(1, sum(each.verdict.fails for each in rest))
    if left_out > max(0, len(rest) - wanted) and not (wide or plan.key):
        key, above = told.legend(beside, short=True)  # rows are worth more
        room = (left, above + _ASIDE_MM, right, top)
        rows, left_out = told.table(room, share, small=True)
    return (*head, *rows, *key, *_aside(plan, told), *block), left_out


def keeps_legend(
    build: Build,
    check: Check,
    plan: Plan,
    *,
    keys: _Keys,
    before: Before | None = None,
) -> bool:
    """Tell whether the whole legend finds room beside the details."""
    _, frame = _beside_details(plan)
    _, top = legend(
        build, check, frame, style=STYLE, keys=keys, before=before, row=ROWS[-1]
    )
    return top <= frame[3]


def _beside_details(plan: Plan) -> tuple[_Items, Frame]:
    """Return the notes beside the details, and the legend's room over them."""
    if plan.key is None:
        return (), plan.column
    left, bottom, right, top = plan.key
    left, right = left + _ASIDE_MM, right - _ASIDE_MM
    inset_mm = 0.5 * STYLE.small_mm  # of the notes, so that they begin as the legend
    foot = left - inset_mm, bottom + _ASIDE_MM / 2, right
    said, head = notes(plan, foot, STYLE)
    return said, (left, head + _ASIDE_MM / 2, right, top)


def _aside(plan: Plan, told: _Told) -> _Items:
    """Return legend and notes where they stand beside the details."""
    if plan.key is None:
        return ()
    said, frame = _beside_details(plan)
    return (*said, *told.legend(frame)[0])


@dataclass(frozen=True, slots=True)
class _Told:
    """What table and legend tell of the rows from this sheet on."""

    build: Build
    rest: Check
    style: Style
    beside: tuple[_Keys, Before | None]

    def legend(self, frame: Frame, *, short: bool = False) -> tuple[_Items, float]:
        """Return the legend at the foot of its frame, the whole one where it fits."""
        keys, before = self.beside
        said = self.build, self.rest, frame
        for style, row in () if short else ((self.style, ROWS[0]), *_CLOSER):
            made = legend(*said, style=style, keys=keys, before=before, row=row)
            if made[1] <= frame[3]:
                return made
        return legend(*said, style=STYLE, keys=keys, short=True)

    def table(
        self, room: Frame, share: Share, *, small: bool = False
    ) -> tuple[_Items, int]:
        """Return the table; smaller lettering is tried where that may hold it all."""
        findings, (_, before) = self.rest.findings, self.beside
        style = STYLE if small else self.style
        made = table(findings, room, style, share=share, before=before)
        if made[1] and style is not STYLE:
            return table(findings, room, STYLE, share=share, before=before)
        return made
