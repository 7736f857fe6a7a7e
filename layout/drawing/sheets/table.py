"""The table of findings, worst first, with the number that ties each to its place."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from layout.drawing.findings.marks import MARKS
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.lettering import NO_BREAK, plain, unbroken, width_mm, wrapped
from layout.drawing.paper.scene import Balloon, Ink, Item, Text
from layout.drawing.paper.style import Style
from layout.drawing.paper.words import length, named, outcome, shown_gap
from layout.drawing.sheets.grid import Grid
from layout.drawing.sheets.sheet import Share
from layout.drawing.views.compared import Before, earlier
from layout.questions.findings.advice import remedy_of
from layout.questions.findings.finding import Finding

__all__ = ["table"]

_SCATTER = "\N{PLUS-MINUS SIGN}"
_PLACES = (0.48, 0.42, 0.36, 0.54)
"""Shares of the rest of the width that the two parts' names may take, the usual first:
what gives the fewest lines is taken."""

_WEIGHED = 48
"""So many rows stand in a table, about."""

_MEASURE = "* rests on a size nobody has stated: measure first"
_ROWS = (2.35, 2.1, 1.95, 1.8)
"""Height of a row per height of a capital, the best first."""

_MANY = (1.95, 1.8)
"""The same where not all rows find room: what fails does, if it can."""


def table(
    findings: Sequence[Finding],
    column: Frame,
    style: Style,
    *,
    share: Share | None = None,
    before: Before | None = None,
) -> tuple[tuple[Item, ...], int]:
    """Return the table at the head of a column, and how many rows are left out.

    Where rows do not fit, they stand closer first; rows are left out from the end
    then, for the next sheet where there is one, and their number is said.  What is to
    be done stands whole or on the next sheet.  With an earlier build, the gap before
    stands in the place of the scatter.
    """
    most_rows = (column[3] - column[1]) / style.small_mm

    @cache  # the last rows of the first loop are asked for again
    def made(row: float) -> tuple[tuple[Item, ...], int]:
        said = before, share or Share()
        return _table(findings, column, style, row=row, said=said)

    here = _here(findings, share)
    for row in _ROWS:
        if here * row > most_rows:
            continue  # not even with one line each
        items, left_out = made(row)
        if left_out <= len(findings) - here:
            return items, left_out
    failing = sum(each.verdict.fails for each in findings)
    for row in _MANY:
        items, left_out = made(row)
        if len(findings) - left_out >= failing:
            break
    return items, left_out


def _here(findings: Sequence[Finding], share: Share | None) -> int:
    """Return how many rows are to stand on this sheet."""
    if share is None or share.last is None:
        return len(findings)
    return min(len(findings), share.last - share.first)


def _table(
    findings: Sequence[Finding],
    column: Frame,
    style: Style,
    *,
    row: float,
    said: tuple[Before | None, Share],
) -> tuple[tuple[Item, ...], int]:
    left, bottom, right, top = column
    before, share = said
    first = findings[: min(_here(findings, share), _WEIGHED)]
    grid = _fewest_lines(first, Grid(left, right, style, row, before, _PLACES[0]))
    y = top - grid.step
    out: list[Item] = [
        grid.text("between", (grid.names, y), soft=True),
        grid.number("gap", (grid.gap, y), soft=True),
        grid.number(
            _SCATTER if before is None else "before", (grid.scatter, y), soft=True
        ),
        grid.number("need", (grid.need, y), soft=True),
        grid.text("which means", (grid.words, y), soft=True),
    ]
    y -= 0.8 * style.small_mm
    out.append(grid.rule(y, Ink.BLACK))
    note = _MEASURE if any(each.assumed for each in findings) else ""
    foot = 2.2 * style.small_mm
    left_out = 0
    for place, finding in enumerate(findings):
        made, high = _row((share.first + place + 1, finding), y, grid)
        rest = len(findings) - place - 1
        no_more = share.last is not None and share.first + place >= share.last
        if no_more or y - high < bottom + foot * (bool(rest) + bool(note)):
            left_out = rest + 1
            out.append(grid.text(_more(left_out, share), (grid.names, y - foot)))
            y -= foot
            break
        out.extend(made)
        y -= high
        out.append(grid.rule(y))
    if note:
        out.append(grid.text(note, (grid.names, y - foot), soft=True))
    return tuple(out), left_out


def _fewest_lines(findings: Sequence[Finding], grid: Grid) -> Grid:
    """Return the grid whose columns break the rows into the fewest lines, about."""
    tries = [replace(grid, places=each) for each in _PLACES]
    return min(tries, key=lambda each: sum(_lines(one, each) for one in findings))


def _lines(finding: Finding, grid: Grid) -> int:
    small, bold = grid.style.small_mm, finding.verdict.fails
    told_mm = width_mm(_between(finding), small)
    means_mm = width_mm(_said(finding, grid), small, bold=bold)
    wide, narrow = grid.right - grid.words, grid.names_mm
    return max(math.ceil(told_mm / narrow), math.ceil(means_mm / wide))


def _more(left_out: int, share: Share) -> str:
    """Return where the rows stand that the table leaves out."""
    if share.number < share.of:
        return f"and {left_out} more on sheet {share.number + 1}"
    return f"and {left_out} more, none worse than these"


def _row(
    numbered: tuple[int, Finding], top: float, grid: Grid
) -> tuple[list[Item], float]:
    """Return a row's items and its height."""
    number, finding = numbered
    small = grid.style.small_mm
    y = top - (0.5 + grid.row / 2 - 0.05) * small
    told, means = _told(finding, grid), _means(finding, grid)
    rows = max(len(told), len(means))
    advice = _advice(finding, grid)
    numbers = (
        (grid.gap, shown_gap(finding)),
        (grid.scatter, _second(finding, grid)),
        (grid.need, finding.need_mm),
    )
    out: list[Item] = [
        Balloon(
            number=number,
            centre=(grid.left + 1.6 * small, y + small / 2),
            radius_mm=0.75 * grid.style.balloon_mm,
            mark=MARKS[finding.verdict],
            ref=finding.id,
        ),
        *(
            grid.text(line, (grid.names, y - row * grid.step))
            for row, line in enumerate(told)
        ),
        *(
            grid.number("\N{EN DASH}" if mm is None else length(mm), (x, y))
            for x, mm in numbers
        ),
        *(
            Text(
                at=(grid.words, y - row * grid.step),
                text=line,
                height_mm=small,
                bold=finding.verdict.fails,
            )
            for row, line in enumerate(means)
        ),
        *(
            grid.text(line, (grid.names, y - row * grid.step), soft=True)
            for row, line in enumerate(advice, start=rows)
        ),
    ]
    return out, (rows + len(advice) - 1) * grid.step + grid.row * small


def _second(finding: Finding, grid: Grid) -> float | None:
    """Return the scatter, or the gap that there was before."""
    if grid.before is None:
        return finding.tolerance_mm
    was = earlier(grid.before, finding)
    return None if was is None else shown_gap(was)


def _told(finding: Finding, grid: Grid) -> tuple[str, ...]:
    """Return which two bodies a finding is about."""
    return wrapped(unbroken(_between(finding)), grid.style.small_mm, grid.names_mm)


def _between(finding: Finding) -> str:
    bodies = [named(each) for each in (finding.a, finding.b) if each]
    return " \N{EN DASH} ".join(bodies)


def _means(finding: Finding, grid: Grid) -> tuple[str, ...]:
    """Return what a finding means, in lines."""
    room_mm = grid.right - grid.words
    bold = finding.verdict.fails
    said = unbroken(_said(finding, grid))
    return wrapped(said, grid.style.small_mm, room_mm, bold=bold)


def _said(finding: Finding, grid: Grid) -> str:
    """Return what a finding means; a star says that it rests on an assumption."""
    said = outcome(finding) + (f"{NO_BREAK}*" if finding.assumed else "")
    if grid.before is not None:
        was = earlier(grid.before, finding)
        if was is None:
            said += " (before: not asked)"
        elif was.verdict is not finding.verdict:
            said += f" (before: {outcome(was)})"
    return said


def _advice(finding: Finding, grid: Grid) -> tuple[str, ...]:
    """Return what to do about it; what is wrong stands in the row itself."""
    said = plain(remedy_of(finding)) if finding.verdict.fails else ""
    if not said:
        return ()
    room_mm = grid.right - grid.names
    return wrapped(said[0].upper() + said[1:], grid.style.small_mm, room_mm)
