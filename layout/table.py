"""A check as text for people: a table, sentences, and the verdict last."""

from __future__ import annotations

from collections.abc import Iterable
from io import StringIO
from textwrap import fill
from typing import Final

from rich.console import Console
from rich.table import Table
from rich.text import Text

from layout.questions.finding import Check, Finding, Verdict
from layout.report import (
    BETWEEN,
    Row,
    advice,
    closing,
    measurements,
    notes,
    orders,
    readings,
    rows,
)

__all__ = ["as_table"]

_STYLES: Final = {
    "clear": "green",
    "tight": "yellow",
    "short": "bold red",
    "clash": "bold white on red",
    "missing": "bold white on red",
}
_FAR_MM: Final = 50.0
"""Room to spare beyond which a clear finding is counted, not listed."""

_LONGEST_WORD: Final = 24
"""A word or name up to this length is never broken, however narrow the table."""
_JOINT: Final = "\ue000"
"""Stands for a blank at which no line may end, until the table is laid out."""


_MEASURE: Final = "Measure first; no other assumption then changes a verdict"
_MEASURED: Final = "Measured from"
_TITLES: Final = ("no", "what", "gap mm", "need", "margin", "verdict", "where and why")
_NUMBERS: Final = frozenset({"no", "gap mm", "need", "margin"})
_GUTTER: Final = 2
_LEAST_WHERE: Final = 12


def as_table(
    check: Check, *, width: int = 80, in_colour: bool = False, every: bool = True
) -> str:
    """Return the whole answer, no line wider than ``width`` where words allow it.

    Parameters
    ----------
    check : Check
    width : int
        Columns of the terminal or page.
    in_colour : bool
        Whether the reader is a terminal.
    every : bool
        Whether what is clear by far has a row too; without it such rows are counted.
    """
    table = tuple(
        row
        for row, finding in zip(rows(check), check.findings, strict=True)
        if every or not _far(finding)
    )
    blocks = [
        _table(table, width=width, in_colour=in_colour) if table else "",
        _rest(len(check.findings) - len(table), width),
        _sentences("What to do", _numbered(check), width),
        _sentences(_MEASURED, (("-", each) for each in readings(check)), width),
        _sentences("Taken for granted", (("-", note) for note in notes(check)), width),
        _sentences("Parts to order", (("-", part) for part in orders(check)), width),
        _sentences(_MEASURE, (("-", each) for each in measurements(check)), width),
        fill(closing(check), width, break_long_words=False),
    ]
    return "\n\n".join(block for block in blocks if block)


def _far(finding: Finding) -> bool:
    """Tell whether a finding is clear by so much that nobody need read it."""
    margin_mm = finding.margin_mm
    clear = finding.verdict is Verdict.CLEAR
    return clear and margin_mm is not None and margin_mm >= _FAR_MM


def _rest(count: int, width: int) -> str:
    """Return how many rows were left out, and how to see them."""
    if not count:
        return ""
    places = "1 more place has" if count == 1 else f"{count} more places have"
    told = f"{places} {_FAR_MM:.0f} mm or more to spare; --all lists them."
    return fill(told, width, break_long_words=False)


def _table(lines: tuple[Row, ...], *, width: int, in_colour: bool) -> str:
    names = [_joined(line.between) for line in lines]
    figures = [
        [line.number, line.gap, line.need, line.margin, line.verdict] for line in lines
    ]
    rest = width - _width_of(figures) - _GUTTER * len(_TITLES[1:])
    what = max(_longest_word(names), min(max(map(len, names)), rest * 2 // 5))
    table = Table(box=None, padding=(0, _GUTTER, 0, 0), pad_edge=False)
    for title in _TITLES:
        number = title in _NUMBERS
        table.add_column(title, justify="right" if number else "left", no_wrap=number)
    table.columns[1].width = what
    table.columns[-1].width = max(rest - what, _LEAST_WHERE)
    for line, name in zip(lines, names, strict=True):
        verdict = Text(line.verdict, style=_STYLES[line.verdict])
        figures_mm = (line.gap, line.need, line.margin)
        table.add_row(line.number, Text(name), *figures_mm, verdict, Text(line.where))
    page = StringIO()
    console = Console(file=page, width=width, force_terminal=in_colour, emoji=False)
    console.print(table)
    laid_out = page.getvalue().replace(_JOINT, " ")
    return "\n".join(each.rstrip() for each in laid_out.splitlines())


def _width_of(rows: Iterable[list[str]]) -> int:
    """Return the columns that the figures take, each under its title."""
    titles = ["no", "gap mm", "need", "margin", "verdict"]
    return sum(max(map(len, column)) for column in zip(titles, *rows, strict=True))


def _joined(between: str) -> str:
    """Return two names that stay whole: lines end between them."""
    names = between.split(BETWEEN)
    return BETWEEN.join(
        name.replace(" ", _JOINT) if len(name) < _LONGEST_WORD else name
        for name in names
    )


def _longest_word(texts: Iterable[str]) -> int:
    words = (word for text in texts for word in text.split())
    return min(max(map(len, words), default=1), _LONGEST_WORD)


def _numbered(check: Check) -> Iterable[tuple[str, str]]:
    return ((f"{number}.", sentence) for number, sentence in advice(check))


def _sentences(title: str, told: Iterable[tuple[str, str]], width: int) -> str:
    """Return sentences under a title, each with its mark; nothing without any."""
    lines = [
        fill(
            f"{mark:>3} {text}",
            width,
            subsequent_indent="    ",
            break_long_words=False,
            break_on_hyphens=False,
        )
        for mark, text in told
    ]
    return "\n".join([f"{title}:", *lines]) if lines else ""
