"""From a build and its check to the scene: the whole sheet."""

from __future__ import annotations

from collections.abc import Sequence
from operator import itemgetter
from typing import TypeAlias

from layout.build.placed import Build
from layout.drawing.column import column
from layout.drawing.compared import Before
from layout.drawing.details import most_details
from layout.drawing.frame import border
from layout.drawing.layers import Layer, keys_of, layers_told
from layout.drawing.lettering import plain
from layout.drawing.picture import picture
from layout.drawing.scene import Line, Scene
from layout.drawing.sheet import CHOSEN_FROM, Plan, Sheet, plans
from layout.drawing.style import LARGE, STYLE, Style
from layout.drawing.subjects import subjects
from layout.drawing.title_block import Title
from layout.drawing.views import bounds_of
from layout.drawing.words import summary
from layout.geometry.space import ORIGIN, Box
from layout.questions.finding import Check

__all__ = ["scene"]

_Lines: TypeAlias = tuple[tuple[Line, str], ...]
"""Lines of layers that the legend tells, with what they stand for."""

_MOST_MARKED = 60
"""Findings beyond these, the worst, would make both views unreadable."""

_MOST_SCALES = 2
"""Scales that are tried for a table that holds what fails."""

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
    """Return the drawing of a build: both views, its findings, and a table of them.

    Parameters
    ----------
    build : Build
    check : Check
        The findings of this very build, worst first.
    sheets : sequence of Sheet
        Sheets to choose from, the smallest first: the first one is taken that has
        room for the views at the largest scale, the whole table, and details.  The
        scale is a smaller one where the table had no room for what fails.
    title : Title, optional
        What the title block states; left to a pen without it.
    before : Before, optional
        An earlier build: what has changed since is outlined, and the table tells the
        gaps before and after.
    layers : sequence of Layer, optional
        What is drawn over the views beside.
    """
    stated = title or Title()
    lines = keys_of(layers)
    plan, rows = _plan(build, check, sheets, lines=lines)
    style = _style(plan)
    drawn = picture(
        build,
        check.findings[: min(rows, _MOST_MARKED)],
        plan,
        style=style,
        before=before,
        layers=layers,
    )
    beside, _ = column(
        build,
        check,
        plan,
        title=stated,
        keys=(*lines, *drawn.keys),
        before=before,
        style=style,
    )
    return Scene(
        title=plain(build.name),
        description=summary(check),
        width_mm=plan.sheet.width_mm,
        height_mm=plan.sheet.height_mm,
        scale=plan.scale,
        items=(*border(plan), *drawn.items, *beside),
        subjects=(*subjects(build, check), *layers_told(layers)),
    )


def _plan(
    build: Build, check: Check, sheets: Sequence[Sheet], *, lines: _Lines
) -> tuple[Plan, int]:
    """Return the plan at the largest scale that leaves room for what fails.

    With it comes how many rows its table has: what has no row has no number either.
    """
    boxes = [each.body.bounds for each in build.bodies]
    if build.case_size_mm is not None:
        boxes.append(Box(ORIGIN, build.case_size_mm))
    shown, in_case = bounds_of(boxes), build.case_size_mm is not None
    failing = sum(each.verdict.fails for each in check.findings)
    wanted = max(failing, min(1, len(check.findings)))
    tried: list[tuple[Plan, int]] = []
    for smaller in range(_MOST_SCALES):
        made = plans(shown, in_case=in_case, sheets=sheets, smaller=smaller)
        tried.append(_best(build, check, made, lines=lines))
        if tried[-1][1] >= wanted:
            return tried[-1]
    return max(tried, key=itemgetter(1))


def _best(
    build: Build, check: Check, made: Sequence[Plan], *, lines: _Lines
) -> tuple[Plan, int]:
    """Return the first plan that holds everything, else the one that holds most."""
    ranked = []
    for place, plan in enumerate(made):
        _, left_out = column(
            build, check, plan, title=Title(), style=_style(plan), keys=lines
        )
        wants = most_details(check.findings, plan.scale)
        ranked.append((left_out, bool(wants) and plan.aside is None, place))
    left_out, _, best = min(ranked)
    return made[best], len(check.findings) - left_out


def _style(plan: Plan) -> Style:
    return LARGE if plan.sheet.width_mm > _LARGE_FROM_MM else STYLE
