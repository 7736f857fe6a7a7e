"""From a build and its check to the scenes: whole sheets, as many as it takes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from operator import itemgetter
from typing import TypeAlias

from layout.build.placed import Build
from layout.drawing.column import column, keeps_legend
from layout.drawing.compared import Before
from layout.drawing.details import most_details, room_for
from layout.drawing.frame import border
from layout.drawing.layers import Layer, keys_of, layers_told
from layout.drawing.legend import END_OF_TRAVEL
from layout.drawing.lettering import plain
from layout.drawing.picture import Base, Picture, base, picture
from layout.drawing.scene import Item, Line, Scene
from layout.drawing.sheet import CHOSEN_FROM, Plan, Share, Sheet, keyed, plans
from layout.drawing.style import LARGE, STYLE, Style
from layout.drawing.subjects import subjects
from layout.drawing.title_block import Title
from layout.drawing.views import bounds_of
from layout.drawing.words import summary
from layout.geometry.body import Body
from layout.geometry.space import ORIGIN, Box
from layout.questions.finding import Check, Verdict
from layout.values import dataclass

__all__ = ["scene", "scenes"]

_Lines: TypeAlias = tuple[tuple[Line, str], ...]
"""Lines of layers that the legend tells, with what they stand for."""

_MOST_MARKED = 60
"""More findings would make both views of a sheet unreadable."""

_MOST_SCALES = 2
"""Scales that are tried for a table on few sheets."""

_LEAST_READ = 5
"""A case at 1:5 is still read with ease: a smaller scale is for what fails alone."""

_DEAR = 1000

_NUMBERED = ("P1", "processor, 7 high")
"""A name that finds no room: a legend beside details has some for one, or it goes."""

_AT_A_PINCH = 0.8
"""Of a gap that is read without a detail: so much is enough where it saves a sheet."""

_LARGE_FROM_MM = 500.0
"""Sheets this wide will often be seen reduced: their lettering is larger."""


def scene(
    build: Build,
    check: Check,
    *,
    sheets: Sequence[Sheet] = CHOSEN_FROM,
    title: Title | None = None,
    before: Before | None = None,
    layers: Sequence[Layer] = (),
) -> Scene:
    """Return the first of the sheets of ``scenes``, which holds the worst findings."""
    return scenes(
        build, check, sheets=sheets, title=title, before=before, layers=layers
    )[0]


def scenes(
    build: Build,
    check: Check,
    *,
    sheets: Sequence[Sheet] = CHOSEN_FROM,
    title: Title | None = None,
    before: Before | None = None,
    layers: Sequence[Layer] = (),
    extremes: Sequence[Body] = (),
) -> tuple[Scene, ...]:
    """Return the drawing of a build: both views, its findings, and a table of them.

    Findings for which the table has no room stand on further sheets of the same size,
    where the views are drawn again with the dimensions of these.

    Parameters
    ----------
    build : Build
    check : Check
        The findings of this very build, worst first.
    sheets : sequence of Sheet
        Sheets to choose from, the smallest first: the first one is taken that has
        room for the views at the largest scale, the whole table, and details.  The
        scale is a smaller one where the table had no room for what fails, or would
        go on for two sheets more.
    title : Title, optional
        What the title block states; left to a pen without it.
    before : Before, optional
        An earlier build: what has changed since is outlined, and the table tells the
        gaps before and after.
    layers : sequence of Layer, optional
        What is drawn over the views beside.
    extremes : sequence of Body, optional
        Parts at the ends of their travel, drawn with double-dot lines.
    """
    lines = _lines(layers, extremes)
    plan, ends = _plan(build, check, sheets, lines=lines)
    said = _Said(
        build=build,
        check=check,
        plan=plan,
        title=title or Title(),
        before=before,
        layers=tuple(layers),
        lines=lines,
    )
    behind = base(
        build,
        plan,
        style=_style(plan),
        before=before,
        layers=layers,
        extremes=extremes,
    )
    drawn: list[tuple[Share, Picture]] = []
    first, even = 0, iter(_even(said, ends))
    while True:
        last = next(even, len(check.findings))
        share = Share(first=first, number=len(drawn) + 1, last=last)
        made, following = _drawn(said, share, behind)
        drawn.append((replace(share, last=following), made))
        if following in {first, len(check.findings)}:
            break
        first = following
    return tuple(
        _sheet(said, replace(share, of=len(drawn)), made) for share, made in drawn
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Said:
    """What all sheets of a drawing have in common."""

    build: Build
    check: Check
    plan: Plan
    title: Title
    before: Before | None
    layers: tuple[Layer, ...]
    lines: _Lines


def _even(said: _Said, ends: tuple[int, ...]) -> tuple[int, ...]:
    """Return with which rows each sheet ends where all hold about as many.

    A sheet then is no more crowded than it must be; what is not clear stands on the
    first one if it can.  Where a sheet does not hold its share, they are filled up.
    """
    every, out = len(said.check.findings), [0]
    urgent = sum(each.verdict is not Verdict.CLEAR for each in said.check.findings)
    for left in range(len(ends), 1, -1):
        first = out[-1]
        share = Share(first=first, number=len(out), of=len(out) + 1)
        wanted = max(first + math.ceil((every - first) / left), urgent)
        out.append(min(wanted, _held(said, share, ())))
    if len(ends) > 1 and _held(said, Share(first=out[-1], number=len(out)), ()) < every:
        return ends
    return (*out[1:], every)


def _drawn(said: _Said, share: Share, behind: Base) -> tuple[Picture, int]:
    """Return a sheet's picture, and how many rows stand on the sheets up to it.

    Names that found no room but for a number make the legend longer and the table
    shorter: what has lost its row then is not marked either.
    """
    every = dict(enumerate(said.check.findings, start=1))
    open_ended = replace(share, last=None)
    most = min(share.first + _MOST_MARKED, share.last or len(every))
    following = min(most, _held(said, open_ended, ()))
    while True:
        marked = {n: every[n] for n in range(share.first + 1, following + 1)}
        made = picture(behind, marked)
        held = following
        if made.keys:
            held = min(most, _held(said, open_ended, made.keys))
        if held >= following:
            return made, following
        following = held


def _held(said: _Said, share: Share, keys: tuple[tuple[str, str], ...]) -> int:
    """Return how many rows stand on the sheets up to this one."""
    _, left_out = _column(said, share, keys)
    return len(said.check.findings) - left_out


def _column(
    said: _Said, share: Share, keys: tuple[tuple[str, str], ...]
) -> tuple[tuple[Item, ...], int]:
    return column(
        said.build,
        said.check,
        said.plan,
        title=said.title,
        style=_style(said.plan),
        share=share,
        keys=(*said.lines, *keys),
        before=said.before,
    )


def _lines(layers: Sequence[Layer], extremes: Sequence[Body]) -> _Lines:
    """Return the lines that the legend tells beside those of every drawing."""
    return (*keys_of(layers), *([END_OF_TRAVEL] if extremes else []))


def _sheet(said: _Said, share: Share, made: Picture) -> Scene:
    """Return a whole sheet."""
    plan = said.plan
    beside, _ = _column(said, share, made.keys)
    return Scene(
        title=plain(said.build.name),
        description=summary(said.check),
        width_mm=plan.sheet.width_mm,
        height_mm=plan.sheet.height_mm,
        scale=plan.scale,
        items=(*border(plan), *made.items, *beside),
        subjects=(*subjects(said.build, said.check), *layers_told(said.layers)),
    )


def _plan(
    build: Build, check: Check, sheets: Sequence[Sheet], *, lines: _Lines
) -> tuple[Plan, tuple[int, ...]]:
    """Return the plan that shows what fails first and needs the fewest sheets.

    Also with which row each sheet ends.
    """
    boxes = [each.body.bounds for each in build.bodies]
    if build.case_size_mm is not None:
        boxes.append(Box(ORIGIN, build.case_size_mm))
    shown, in_case = bounds_of(boxes), build.case_size_mm is not None
    ranked = []
    for smaller in range(_MOST_SCALES):
        for plan in plans(shown, in_case=in_case, sheets=sheets, smaller=smaller):
            rank, ends = _rank(build, check, plan, lines=lines, smaller=smaller)
            ranked.append((rank, plan, ends))
            small = most_details(check.findings, plan.scale, least=_AT_A_PINCH)
            others = (
                each
                for each in keyed(plan)
                if room_for(each) >= small
                and keeps_legend(build, check, each, keys=(*lines, _NUMBERED))
            )
            if rank[-1] and (other := next(others, None)):  # not all on one sheet
                rank, ends = _rank(build, check, other, lines=lines, smaller=smaller)
                ranked.append((rank, other, ends))
        (missed, *_), best, _ = min(ranked, key=itemgetter(0))
        if not missed and best.scale[1] >= _LEAST_READ:
            break  # a scale less is for what fails alone
    return min(ranked, key=itemgetter(0))[1:]


def _rank(
    build: Build, check: Check, plan: Plan, *, lines: _Lines, smaller: int
) -> tuple[tuple[int, float, int, bool, bool, int], tuple[int, ...]]:
    """Return how well a plan serves: the less, the better; of equals the first.

    Also with which row each of its sheets ends when they are filled up.

    What fails stands on the first sheet if it can.  A scale less, down to 1:5, is
    worth it where it saves two sheets: of one sheet that is crowded and two that are
    read with ease the two are taken.  Details count before a few rows on the first
    sheet, and so does the legend's place in the column.
    """
    every = len(check.findings)
    failing = sum(each.verdict.fails for each in check.findings)
    first, number = 0, 1
    ends: list[int] = []
    while True:
        share = Share(first=first, number=number, of=number + 1)
        _, left_out = column(
            build,
            check,
            plan,
            title=Title(),
            style=_style(plan),
            share=share,
            keys=lines,
        )
        ends.append(every - left_out)
        if not left_out or left_out == every - first:
            break
        first, number = every - left_out, number + 1
    out_of_first = every - ends[0]
    missed = max(
        0, min(1, every) - every + out_of_first, failing - every + out_of_first
    )
    wants = bool(most_details(check.findings, plan.scale)) and plan.aside is None
    # a table that holds not even one row goes on without end
    pages = math.inf if left_out else number
    dear = smaller * (1 if plan.scale[1] <= _LEAST_READ else _DEAR)
    rank = missed, pages + dear, smaller, wants, plan.key is not None, out_of_first
    return rank, tuple(ends)


def _style(plan: Plan) -> Style:
    return LARGE if plan.sheet.width_mm > _LARGE_FROM_MM else STYLE
