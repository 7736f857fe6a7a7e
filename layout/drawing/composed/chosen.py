"""Which plan serves a build best: what fails first, then the fewest sheets."""

from __future__ import annotations

import math
from collections.abc import Sequence
from operator import itemgetter
from typing import Final, TypeAlias

from layout.build.placed import Build
from layout.drawing.composed.details import most_details, room_for
from layout.drawing.paper.scene import Line
from layout.drawing.paper.style import LARGE, STYLE, Style
from layout.drawing.sheets.aside import keyed
from layout.drawing.sheets.column import column, keeps_legend
from layout.drawing.sheets.sheet import Plan, Share, Sheet, plans
from layout.drawing.sheets.title_block import Title
from layout.drawing.views.compared import Before
from layout.drawing.views.views import bounds_of
from layout.geometry.space import ORIGIN, Box
from layout.questions.findings.finding import Check
from layout.values import dataclass

__all__ = ["Lines", "Wanted", "chosen", "style_of"]

Lines: TypeAlias = tuple[tuple[Line, str], ...]
"""Lines of layers that the legend tells, with what they stand for."""

_Rank: TypeAlias = tuple[int, float, int, bool, bool, int]
_Ends: TypeAlias = tuple[int, ...]

_MOST_SCALES: Final = 2
"""Scales that are tried for a table on few sheets."""

_LEAST_READ: Final = 5
"""A case at 1:5 is still read with ease: a smaller scale is for what fails alone."""

_DEAR: Final = 1000

_NUMBERED: Final = ("P1", "processor, 7 high")
"""A name that finds no room: a legend that has room for it need not go for it."""

_AT_A_PINCH: Final = 0.8
"""Of a gap that is read without a detail: so much is enough where it saves a sheet."""

_LARGE_FROM_MM: Final = 500.0
"""Sheets this wide will often be seen reduced: their lettering is larger."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What a plan must hold."""

    build: Build
    check: Check
    before: Before | None
    lines: Lines


def style_of(plan: Plan) -> Style:
    """Return how large a sheet is lettered."""
    return LARGE if plan.sheet.width_mm > _LARGE_FROM_MM else STYLE


def chosen(wanted: Wanted, sheets: Sequence[Sheet]) -> tuple[Plan, _Ends]:
    """Return the plan that shows what fails first and needs the fewest sheets.

    Also with which row each sheet ends.
    """
    build = wanted.build
    boxes = [each.body.bounds for each in build.bodies]
    if build.case_size_mm is not None:
        boxes.append(Box(ORIGIN, build.case_size_mm))
    shown, in_case = bounds_of(boxes), build.case_size_mm is not None
    ranked: list[tuple[_Rank, Plan, _Ends]] = []
    for smaller in range(_MOST_SCALES):
        for plan in plans(shown, in_case=in_case, sheets=sheets, smaller=smaller):
            rank, ends = _rank(wanted, plan, smaller=smaller)
            ranked.append((rank, plan, ends))
            if rank[-1] and (other := _with_legend_aside(wanted, plan)):
                rank, ends = _rank(wanted, other, smaller=smaller)
                ranked.append((rank, other, ends))
        (missed, *_), best, _ = min(ranked, key=itemgetter(0))
        if not missed and best.scale[1] >= _LEAST_READ:
            break  # a scale less is for what fails alone
    _, plan, ends = min(ranked, key=itemgetter(0))
    return plan, ends


def _with_legend_aside(wanted: Wanted, plan: Plan) -> Plan | None:
    """Return the plan with its legend among the details, if both have room there."""
    small = most_details(wanted.check.findings, plan.scale, least=_AT_A_PINCH)
    kept = [
        each for each in keyed(plan) if room_for(each) >= small and _keeps(wanted, each)
    ]
    roomy = (each for each in kept if _keeps(wanted, each, _NUMBERED))
    return next(roomy, kept[0] if kept else None)


def _keeps(wanted: Wanted, plan: Plan, *more: tuple[str, str]) -> bool:
    keys: tuple[tuple[str | Line, str], ...] = (*wanted.lines, *more)
    return keeps_legend(
        wanted.build, wanted.check, plan, keys=keys, before=wanted.before
    )


def _rank(wanted: Wanted, plan: Plan, *, smaller: int) -> tuple[_Rank, _Ends]:
    """Return how well a plan serves: the less, the better; of equals the first.

    Also with which row each of its sheets ends when they are filled up.

    What fails stands on the first sheet if it can.  A scale less, down to 1:5, is
    worth it where it saves two sheets: of one sheet that is crowded and two that are
    read with ease the two are taken.  Details count before a few rows on the first
    sheet, and so does the legend's place in the column.
    """
    findings = wanted.check.findings
    every = len(findings)
    failing = sum(each.verdict.fails for each in findings)
    ends = _ends(wanted, plan)
    out_of_first = every - ends[0]
    missed = max(
        0, min(1, every) - every + out_of_first, failing - every + out_of_first
    )
    wants = bool(most_details(findings, plan.scale)) and plan.aside is None
    # a table that holds not even one row goes on without end
    pages = len(ends) if ends[-1] == every else math.inf
    dear = smaller * (1 if plan.scale[1] <= _LEAST_READ else _DEAR)
    rank = missed, pages + dear, smaller, wants, plan.key is not None, out_of_first
    return rank, ends


def _ends(wanted: Wanted, plan: Plan) -> _Ends:
    """Return with which row each sheet ends, all of them filled up."""
    every = len(wanted.check.findings)
    ends: list[int] = []
    while True:
        first, number = ends[-1] if ends else 0, len(ends) + 1
        _, left_out = column(
            wanted.build,
            wanted.check,
            plan,
            title=Title(),
            style=style_of(plan),
            share=Share(first=first, number=number, of=number + 1),
            keys=wanted.lines,
            before=wanted.before,
        )
        ends.append(every - left_out)
        if ends[-1] in {first, every}:
            return tuple(ends)
