"""A check as text for people: a table, sentences, and the verdict last."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from io import StringIO
from itertools import zip_longest
from textwrap import fill, wrap
from typing import Final

from rich.console import Console
from rich.text import Text

from layout.questions.findings.finding import Check, Finding, Verdict
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
_VERDICT: Final = _TITLES.index("verdict")
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
    """Return the rows under their titles; names and reasons take what figures leave."""
    told = [_TITLES, *map(_cells, lines)]
    wide = _widths(told, width)
    titles = Text(_laid_out(_TITLES, wide), style="bold")
    text = Text("\n").join([titles, *(_row(cells, wide) for cells in told[1:])])
    page = StringIO()
    console = Console(file=page, width=width, force_terminal=in_colour, emoji=False)
    console.print(text, soft_wrap=True, highlight=False)
    return page.getvalue().rstrip().replace(_JOINT, " ")


def _cells(line: Row) -> tuple[str, ...]:
    figures_mm = (line.gap, line.need, line.margin)
    return (line.number, _joined(line.between), *figures_mm, line.verdict, line.where)


def _widths(told: Sequence[tuple[str, ...]], width: int) -> list[int]:
    wide = [max(map(len, column)) for column in zip(*told, strict=True)]
    rest = width - sum(wide[:1] + wide[2:-1]) - _GUTTER * (len(wide) - 1)
    names = [cells[1] for cells in told[1:]]
    wide[1] = max(_longest_word(names), min(max(map(len, names)), rest * 2 // 5))
    wide[-1] = max(rest - wide[1], _LEAST_WHERE)
    return wide


def _row(cells: tuple[str, ...], wide: Sequence[int]) -> Text:
    """Return a row whose verdict is in its own style."""
    text, verdict = Text(_laid_out(cells, wide)), cells[_VERDICT]
    before = sum(wide[:_VERDICT]) + _GUTTER * _VERDICT
    text.stylize(_STYLES[verdict], before, before + len(verdict))
    return text


def _laid_out(cells: tuple[str, ...], wide: Sequence[int]) -> str:
    """Return the lines of one row."""
    columns = [_wrapped(cell, each) for cell, each in zip(cells, wide, strict=True)]
    lines = [
        (" " * _GUTTER).join(
            part.rjust(each) if title in _NUMBERS else part.ljust(each)
            for part, title, each in zip(parts, _TITLES, wide, strict=True)
        )
        for parts in zip_longest(*columns, fillvalue="")
    ]
    return "\n".join(line.rstrip() for line in lines)


def _wrapped(cell: str, wide: int) -> list[str]:
    """Return the lines of one cell; most hold a single word."""
    if " " not in cell and cell.isprintable() and 0 < len(cell) <= wide:
        return [cell]
    return wrap(cell, wide, break_on_hyphens=False)


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
