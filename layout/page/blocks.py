"""The page as blocks of words that stay together, from its head to its foot."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from layout.drawing.findings.marks import MARKS
from layout.drawing.paper.lettering import NO_BREAK, unbroken, wrapped
from layout.drawing.paper.scene import Balloon, Ink, Item, Line, Pen
from layout.drawing.paper.style import STYLE
from layout.page.listed import LEFT_MM, RIGHT_MM, listed, parts, step, text
from layout.page.said import Page, PartLine, Row
from layout.values import dataclass

__all__ = ["Block", "blocks"]

_INDENT_MM: Final = 10.0
"""Where the words of a finding begin."""

_FREE_MM: Final = 3.2
"""Free paper over a heading."""

_APART_MM: Final = 1.2
"""Free paper over a finding."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Items that stay together, over a base line at 0, and the height they take.

    Over it lies free paper, which a full page can do without.  One that ``heads``
    stays with the block that follows it.
    """

    height_mm: float
    items: tuple[Item, ...]
    free_mm: float = 0.0
    heads: bool = False


def blocks(page: Page) -> Iterator[Block]:
    """Yield the page from its head to its foot."""
    small = STYLE.small_mm
    yield from _lines(page.title, STYLE.large_mm, bold=True)
    yield from _lines(page.case, small, ink=Ink.SOFT, free_mm=1.0)
    yield from _lines(_quote(page), small, ink=Ink.SOFT)
    yield _headline(page)
    yield _head("The room that matters")
    yield from map(_row, page.rows)
    yield from _lines(page.rest, small, free_mm=1.0)
    if page.assumed:
        yield _head("* Measure first" if page.measure else "* Assumed")
        yield from _lines(page.assumed, small)
        if page.measure:
            yield _list(page.measure)
    yield _head("The parts")
    yield from _parts(page.parts)
    yield _head("Take care")
    yield _list(page.cautions)


def _quote(page: Page) -> str:
    quote = page.quote
    said = (
        ("for", quote.customer),
        ("quote", quote.number),
        ("date", quote.dated),
        ("from", quote.workshop),
    )
    return ",  ".join(f"{label} {value}" for label, value in said if value)


def _lines(
    said: str,
    height_mm: float,
    *,
    bold: bool = False,
    ink: Ink = Ink.BLACK,
    free_mm: float = 0.0,
) -> Iterator[Block]:
    """Yield a paragraph, line by line."""
    for line in wrapped(said, height_mm, RIGHT_MM - LEFT_MM, bold=bold):
        item = text(line, (0.0, 0.0), height_mm, bold=bold, ink=ink)
        yield Block(height_mm=step(height_mm), items=(item,), free_mm=free_mm)
        free_mm = 0.0


def _headline(page: Page) -> Block:
    """Return the verdict in a frame; a double one where something must change."""
    high, pad = STYLE.medium_mm, 2.5
    room = RIGHT_MM - LEFT_MM - 2 * pad
    lines = wrapped(unbroken(page.headline), high, room, bold=True)
    height = len(lines) * step(high) + 2 * pad
    ink = Ink.FAIL if page.verdict.fails else Ink.CLEAR
    frames = [0.0, 1.0] if page.verdict.fails else [0.0]
    return Block(
        height_mm=height + 1.0,
        items=(
            *(_frame(each, height, ink) for each in frames),
            *(
                text(line, (pad, 1.0 + row * step(high)), high, bold=True)
                for row, line in enumerate(lines)
            ),
        ),
        free_mm=_FREE_MM,
    )


def _frame(inset_mm: float, height_mm: float, ink: Ink) -> Line:
    left, right = LEFT_MM + inset_mm, RIGHT_MM - inset_mm
    top, bottom = -inset_mm, -height_mm + inset_mm
    corners = ((left, bottom), (right, bottom), (right, top), (left, top))
    return Line(points=(*corners, corners[0]), pen=Pen.WIDE, ink=ink)


def _head(said: str) -> Block:
    high = STYLE.medium_mm
    rule = -step(high) - 2.0
    return Block(
        height_mm=step(high) + 3.0,
        items=(
            text(said, (0.0, 0.0), high, bold=True),
            Line(points=((LEFT_MM, rule), (RIGHT_MM, rule)), pen=Pen.WIDE),
        ),
        free_mm=_FREE_MM,
        heads=True,
    )


def _row(row: Row) -> Block:
    """Return a finding: its mark, its sentence, and what to do."""
    small, room = STYLE.small_mm, RIGHT_MM - LEFT_MM - _INDENT_MM
    said = unbroken(row.text) + (f"{NO_BREAK}*" if row.assumed else "")
    bold = row.verdict.fails
    told = wrapped(said, small, room, bold=bold)
    to_do = wrapped(row.to_do, small, room)
    lines = [(line, bold, Ink.BLACK) for line in told]
    lines += [(line, False, Ink.SOFT) for line in to_do]
    radius = 0.9 * STYLE.balloon_mm
    mark = Balloon(
        number=row.number,
        centre=(LEFT_MM + 3.8, small / 2 - step(small) - 0.4),
        radius_mm=radius,
        mark=MARKS[row.verdict],
        ref=row.ref,
    )
    words = (
        text(line, (_INDENT_MM, 0.4 + at * step(small)), small, bold=strong, ink=ink)
        for at, (line, strong, ink) in enumerate(lines)
    )
    return Block(
        height_mm=max(len(lines) * step(small) + 1.0, 2 * radius + 0.2),
        items=(mark, *words),
        free_mm=_APART_MM,
    )


def _list(lines: Sequence[str]) -> Block:
    """Return a list in two columns as one block."""
    items, height_mm = listed(lines)
    return Block(height_mm=height_mm, items=items)


def _parts(told: Sequence[PartLine]) -> Iterator[Block]:
    for items, height_mm in parts(told):
        yield Block(height_mm=height_mm, items=items)
