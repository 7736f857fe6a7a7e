"""Lists in two columns: what to measure and to take care of, and the parts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import zip_longest
from typing import Final

from layout.drawing.paper.lettering import width_mm, wrapped
from layout.drawing.paper.scene import Ink, Point, Text
from layout.drawing.paper.style import STYLE
from layout.page.said import PartLine

__all__ = ["LEFT_MM", "RIGHT_MM", "listed", "parts", "step", "text"]

LEFT_MM: Final = 20.0
RIGHT_MM: Final = 195.0
"""A4 upright; 20 on the left leaves room to file the page (ISO 5457)."""

_COLUMN_MM: Final = (RIGHT_MM - LEFT_MM) / 2

_UNDER_MM: Final = 4.0
"""How far what is said of a part is set in under its name."""


def step(height_mm: float) -> float:
    """Return the way from one base line to the next."""
    return STYLE.line_step * height_mm


def text(
    said: str,
    at: Point,
    height_mm: float,
    *,
    bold: bool = False,
    ink: Ink = Ink.BLACK,
) -> Text:
    """Return a line of text in a block, indented and so far below its first line."""
    indent_mm, below_mm = at
    x, y = LEFT_MM + indent_mm, -step(height_mm) - below_mm
    return Text(at=(x, y), text=said, height_mm=height_mm, bold=bold, ink=ink)


def listed(lines: Sequence[str]) -> tuple[tuple[Text, ...], float]:
    """Return a list and its height, its columns as long as one another if they can."""
    small = STYLE.small_mm
    told = [wrapped(each, small, _COLUMN_MM - 8.0) for each in lines]
    high = [len(each) for each in told]
    half = min(  # of columns that differ, the left one is the longer
        range(len(told), -1, -1), key=lambda at: max(sum(high[:at]), sum(high[at:]))
    )
    items: list[Text] = []
    for index, entries in enumerate((told[:half], told[half:])):
        row = 0
        for entry in entries:
            items.extend(_entry(entry, (index * _COLUMN_MM, row * step(small))))
            row += len(entry)
    return tuple(items), max(sum(high[:half]), sum(high[half:])) * step(small)


def _entry(lines: tuple[str, ...], at: Point) -> Iterator[Text]:
    (indent_mm, below_mm), small = at, STYLE.small_mm
    yield text("\N{EN DASH}", at, small)
    for row, line in enumerate(lines):
        yield text(line, (indent_mm + 4.0, below_mm + row * step(small)), small)


def parts(told: Sequence[PartLine]) -> Iterator[tuple[tuple[Text, ...], float]]:
    """Yield the parts, two beside one another, with the height of each pair."""
    half = (len(told) + 1) // 2
    for pair in zip_longest(told[:half], told[half:]):
        items = tuple(
            replace(item, at=(item.at[0] + index * _COLUMN_MM, item.at[1]))
            for index, each in enumerate(pair)
            if each is not None
            for item in _part(each)
        )
        yield items, -min(item.at[1] for item in items)


def _part(part: PartLine) -> Iterator[Text]:
    """Yield a part's name and what it is, beside its name or under it."""
    small, room = STYLE.small_mm, _COLUMN_MM - 2.0
    names = wrapped(part.name, small, room, bold=True)
    for row, line in enumerate(names):
        yield text(line, (0.0, row * step(small)), small, bold=True)
    last = len(names) - 1
    name_mm = width_mm(f"{names[-1]}  ", small, bold=True)
    if width_mm(part.told, small) <= room - name_mm:
        yield text(part.told, (name_mm, last * step(small)), small)
        return
    told = wrapped(part.told, small, room - _UNDER_MM)
    for row, line in enumerate(told, start=len(names)):
        yield text(line, (_UNDER_MM, row * step(small)), small)
