"""A plain table of text, no wider than the page where its words allow it."""

from __future__ import annotations

from collections.abc import Sequence
from io import StringIO
from textwrap import fill

from rich.console import Console
from rich.table import Table
from rich.text import Text

from layout.values import dataclass

__all__ = ["Column", "grid", "paragraph", "verdict"]

_STYLES = {
    "clear": "green",
    "tight": "yellow",
    "short": "bold red",
    "clash": "bold white on red",
    "missing": "bold white on red",
}
_GUTTER = 2
_FINEST_MM = 0.005
"""Less room, or want of it, is none."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column's title, and whether it holds numbers, which end at its right."""

    title: str
    number: bool = False


def grid(
    columns: Sequence[Column],
    lines: Sequence[Sequence[str | Text]],
    *,
    width: int,
    in_colour: bool = False,
) -> str:
    """Return the lines as a table."""
    table = Table(box=None, padding=(0, _GUTTER, 0, 0), pad_edge=False)
    for column in columns:
        table.add_column(
            column.title,
            justify="right" if column.number else "left",
            no_wrap=column.number,
            overflow="fold",
        )
    for line in lines:
        table.add_row(
            *(each if isinstance(each, Text) else Text(each) for each in line)
        )
    page = StringIO()
    console = Console(file=page, width=width, force_terminal=in_colour, emoji=False)
    console.print(table)
    return "\n".join(each.rstrip() for each in page.getvalue().splitlines())


def verdict(word: str) -> Text:
    """Return a verdict in its colour."""
    return Text(word, style=_STYLES[word])


def paragraph(text: str, width: int) -> str:
    """Return a sentence broken into lines."""
    return fill(text, width, break_long_words=False, break_on_hyphens=False)
