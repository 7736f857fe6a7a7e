"""From a build and its check to the scenes: whole sheets, as many as it takes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from layout.build.placed import Build
from layout.drawing.composed.chosen import Lines, Wanted, chosen, style_of
from layout.drawing.composed.details import most_details
from layout.drawing.composed.picture import Base, Picture, base, picture
from layout.drawing.paper.lettering import plain
from layout.drawing.paper.scene import Item, Scene
from layout.drawing.paper.words import summary
from layout.drawing.sheets.aside import opened
from layout.drawing.sheets.column import column
from layout.drawing.sheets.frame import border
from layout.drawing.sheets.layers import Layer, keys_of, layers_told
from layout.drawing.sheets.legend import END_OF_TRAVEL
from layout.drawing.sheets.sheet import CHOSEN_FROM, Plan, Share, Sheet
from layout.drawing.sheets.subjects import subjects
from layout.drawing.sheets.title_block import Title
from layout.drawing.views.compared import Before, changes_first
from layout.geometry.bodies.body import Body
from layout.questions.findings.finding import Check, Verdict
from layout.values import dataclass

__all__ = ["scene", "scenes"]

_MOST_MARKED = 60
"""More findings would make both views of a sheet unreadable."""


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
        gaps before and after, those that changed above the others.
    layers : sequence of Layer, optional
        What is drawn over the views beside.
    extremes : sequence of Body, optional
        Parts at the ends of their travel, drawn with double-dot lines.
    """
    lines = _lines(layers, extremes)
    if before is not None:
        check = changes_first(before, check)
    wanted = Wanted(build=build, check=check, before=before, lines=lines)
    plan, ends = chosen(wanted, sheets)
    said = _Said(
        build=build,
        check=check,
        plan=plan,
        title=title or Title(),
        before=before,
        layers=tuple(layers),
        lines=lines,
    )

    @cache
    def behind(*, is_open: bool) -> Base:
        return base(
            build,
            opened(plan) if is_open else plan,
            style=style_of(plan),
            before=before,
            layers=layers,
            extremes=extremes,
        )

    drawn: list[tuple[Share, Picture]] = []
    first, even = 0, iter(_even(said, ends))
    while True:
        last = next(even, len(check.findings))
        share = Share(first=first, number=len(drawn) + 1, last=last)
        made, following = _drawn(said, share, behind(is_open=_is_open(said, share)))
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
    lines: Lines


def _is_open(said: _Said, share: Share) -> bool:
    """Tell whether no gap on a sheet asks for a detail: the views have its room."""
    own = said.check.findings[share.first : share.last]
    return not most_details(own, said.plan.scale)


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
        style=style_of(said.plan),
        share=share,
        keys=(*said.lines, *keys),
        before=said.before,
    )


def _lines(layers: Sequence[Layer], extremes: Sequence[Body]) -> Lines:
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
