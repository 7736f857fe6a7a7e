"""The table of findings, worst first, with the number that ties each to its place."""

from __future__ import annotations

from collections.abc import Sequence

from layout.drawing.boxes import Frame
from layout.drawing.compared import Before, earlier
from layout.drawing.lettering import fitted, plain, wrapped
from layout.drawing.marks import MARKS
from layout.drawing.scene import Align, Balloon, Ink, Item, Line, Pen, Text
from layout.drawing.sheet import Share
from layout.drawing.style import Style
from layout.drawing.words import length, named, outcome, shown_gap
from layout.questions.advice import remedy_of
from layout.questions.finding import Finding
from layout.values import dataclass

__all__ = ["table"]

_SCATTER = "\N{PLUS-MINUS SIGN}"
_MARK = 3.8
_NUMBER = 5.0
"""Widths of the columns of marks and of numbers, per height of a capital."""

_PLACES = 0.48
"""Share of the rest of the width that the two parts' names take."""

_MEASURE = "* rests on a size nobody has stated: measure first"
_MOST_LINES = 5
_TRIES = ((2.35, 4), (2.1, 4), (2.1, 2), (1.95, 1), (1.95, 0))
"""Height of a row per height of a capital, and lines of advice, the best first."""

_TOO_MANY = (1.95, 2)
"""The same where not all rows find room."""


@dataclass(frozen=True, slots=True)
class _Grid:
    """Where the columns stand: names and words begin, gap and need end."""

    left: float
    right: float
    style: Style
    row: float
    most_advice: int
    before: Before | None

    @property
    def names(self) -> float:
        return self.left + _MARK * self.style.small_mm

    @property
    def gap(self) -> float:
        rest = self.right - self.names - 3 * _NUMBER * self.style.small_mm
        return self.names + _PLACES * rest + _NUMBER * self.style.small_mm

    @property
    def scatter(self) -> float:
        return self.gap + _NUMBER * self.style.small_mm

    @property
    def need(self) -> float:
        return self.scatter + _NUMBER * self.style.small_mm

    @property
    def words(self) -> float:
        return self.need + 1.2 * self.style.small_mm

    @property
    def step(self) -> float:
        return self.style.line_step * self.style.small_mm

    def text(self, text: str, at: tuple[float, float], *, soft: bool = False) -> Text:
        ink = Ink.SOFT if soft else Ink.BLACK
        return Text(at=at, text=text, height_mm=self.style.small_mm, ink=ink)

    def number(self, text: str, at: tuple[float, float], *, soft: bool = False) -> Text:
        ink = Ink.SOFT if soft else Ink.BLACK
        return Text(
            at=at,
            text=text,
            height_mm=self.style.small_mm,
            align=Align.RIGHT,
            ink=ink,
        )

    def rule(self, y: float, ink: Ink = Ink.FAINT) -> Line:
        return Line(points=((self.left, y), (self.right, y)), pen=Pen.NARROW, ink=ink)


def table(
    findings: Sequence[Finding],
    column: Frame,
    style: Style,
    *,
    share: Share | None = None,
    before: Before | None = None,
) -> tuple[tuple[Item, ...], int]:
    """Return the table at the head of a column, and how many rows are left out.

    Where rows do not fit, advice gets shorter first; rows are left out from the end
    then, for the next sheet where there is one, and their number is said.  With an
    earlier build, the gap before stands in the place of the scatter.
    """
    most_rows = (column[3] - column[1]) / style.small_mm
    for row, most in _TRIES:
        if len(findings) * row > most_rows:
            continue  # not even with one line each
        made, left_out = _table(
            findings,
            column,
            style,
            tight=(row, most),
            said=(before, share or Share()),
        )
        if not left_out:
            return made, left_out
    # what to do about the worst is worth more than a few rows of what is clear
    said = before, share or Share()
    return _table(findings, column, style, tight=_TOO_MANY, said=said)


def _table(
    findings: Sequence[Finding],
    column: Frame,
    style: Style,
    *,
    tight: tuple[float, int],
    said: tuple[Before | None, Share],
) -> tuple[tuple[Item, ...], int]:
    left, bottom, right, top = column
    before, share = said
    grid = _Grid(left, right, style, *tight, before)
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
        row, high = _row((share.first + place + 1, finding), y, grid)
        rest = len(findings) - place - 1
        if y - high < bottom + foot * (bool(rest) + bool(note)):
            left_out = rest + 1
            out.append(grid.text(_more(left_out, share), (grid.names, y - foot)))
            y -= foot
            break
        out.extend(row)
        y -= high
        out.append(grid.rule(y))
    if note:
        out.append(grid.text(note, (grid.names, y - foot), soft=True))
    return tuple(out), left_out


def _more(left_out: int, share: Share) -> str:
    """Return where the rows stand that the table leaves out."""
    if share.number < share.of:
        return f"and {left_out} more on sheet {share.number + 1}"
    return f"and {left_out} more, none worse than these"


def _row(
    numbered: tuple[int, Finding], top: float, grid: _Grid
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


def _second(finding: Finding, grid: _Grid) -> float | None:
    """Return the scatter, or the gap that there was before."""
    if grid.before is None:
        return finding.tolerance_mm
    was = earlier(grid.before, finding)
    return None if was is None else shown_gap(was)


def _told(finding: Finding, grid: _Grid) -> tuple[str, ...]:
    """Return which two bodies a finding is about."""
    bodies = [named(each) for each in (finding.a, finding.b) if each]
    between = " \N{EN DASH} ".join(bodies)
    small = grid.style.small_mm
    return wrapped(between, small, grid.gap - 4.8 * small - grid.names)[:_MOST_LINES]


def _means(finding: Finding, grid: _Grid) -> tuple[str, ...]:
    """Return what a finding means; a star says that it rests on an assumption."""
    said = outcome(finding) + (" *" if finding.assumed else "")
    if grid.before is not None:
        was = earlier(grid.before, finding)
        if was is None:
            said += " (before: not asked)"
        elif was.verdict is not finding.verdict:
            said += f" (before: {outcome(was)})"
    room_mm = grid.right - grid.words
    bold = finding.verdict.fails
    return wrapped(said, grid.style.small_mm, room_mm, bold=bold)[:_MOST_LINES]


def _advice(finding: Finding, grid: _Grid) -> tuple[str, ...]:
    """Return what to do about it; what is wrong stands in the row itself."""
    said = plain(remedy_of(finding)) if finding.verdict.fails else ""
    if not said:
        return ()
    room_mm = grid.right - grid.names
    small = grid.style.small_mm
    lines = wrapped(said[0].upper() + said[1:], small, room_mm)
    if len(lines) <= grid.most_advice or not grid.most_advice:
        return lines[: grid.most_advice]
    kept = lines[: grid.most_advice - 1]
    return *kept, fitted(" ".join(lines[len(kept) :]), small, room_mm)
