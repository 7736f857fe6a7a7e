"""The page as scenes: A4 sheets of words, set before anything is drawn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import zip_longest
from typing import Final

from layout.drawing.lettering import NO_BREAK, width_mm, wrapped
from layout.drawing.marks import MARKS
from layout.drawing.scene import (
    Align,
    Balloon,
    Ink,
    Item,
    Line,
    Pen,
    Point,
    Scene,
    Text,
)
from layout.drawing.style import STYLE
from layout.page.said import Page, PartLine, Row
from layout.page.sentences import unbroken
from layout.values import dataclass

__all__ = ["sheets"]

_WIDTH_MM: Final = 210.0
_HEIGHT_MM: Final = 297.0
_LEFT_MM: Final = 20.0
_RIGHT_MM: Final = 195.0
_TOP_MM: Final = 282.0
_FOOT_MM: Final = 18.0
"""A4 upright; 20 on the left leaves room to file the page (ISO 5457)."""

_INDENT_MM: Final = 10.0
"""Where the words of a finding begin."""

_UNDER_MM: Final = 4.0
"""How far what is said of a part is set in under its name."""

_FREE_MM: Final = 3.2
"""Free paper over a heading."""

_FINE_MM: Final = 1.8
"""The smallest lettering (ISO 3098)."""

_FOOTER: Final = (
    "Sizes are in mm and come from data sheets unless they are said to be measured; "
    "measure before ordering."
)


@dataclass(frozen=True, slots=True)
class _Block:
    """Items that stay together, over a base line at 0, and the height they take.

    One that ``heads`` stays with the block that follows it.
    """

    height_mm: float
    items: tuple[Item, ...]
    heads: bool = False


def sheets(page: Page, *, drawn: int = 1) -> tuple[Scene, ...]:
    """Return the page's words on as many sheets as they need.

    ``drawn`` is the number of the drawing's sheets, which follow them.
    """
    filled: list[list[Item]] = [[]]
    y = _TOP_MM
    blocks = tuple(_blocks(page))
    for block, following in zip_longest(blocks, blocks[1:]):
        together_mm = block.height_mm
        if block.heads and following is not None:
            together_mm += following.height_mm
        if y - together_mm < _FOOT_MM:
            filled.append([])
            y = _TOP_MM
        filled[-1].extend(_moved(item, y) for item in block.items)
        y -= block.height_mm
    return tuple(
        Scene(
            title=page.title,
            description=page.headline,
            width_mm=_WIDTH_MM,
            height_mm=_HEIGHT_MM,
            scale=(1, 1),
            items=(*items, *_foot(number, len(filled) + drawn)),
        )
        for number, items in enumerate(filled, start=1)
    )


def _blocks(page: Page) -> Iterator[_Block]:
    """Yield the page from its head to its foot."""
    yield from _lines(page.title, STYLE.large_mm, bold=True)
    yield from _lines(page.case, STYLE.small_mm, ink=Ink.SOFT)
    yield from _lines(_quote(page), STYLE.small_mm, ink=Ink.SOFT)
    yield _headline(page)
    yield _head("The room that matters")
    yield from map(_row, page.rows)
    yield from _lines(page.rest, STYLE.small_mm)
    if page.measure:
        yield _head("* Measure first")
        yield from _lines(
            "No data sheet states these, and nobody has measured them; the lines with "
            "a star hang on them.",
            STYLE.small_mm,
        )
        yield _listed(page.measure)
    yield _head("The parts")
    yield from _parts(page.parts)
    yield _head("Take care")
    yield _listed(page.cautions)


def _quote(page: Page) -> str:
    quote = page.quote
    said = (
        ("for", quote.customer),
        ("quote", quote.number),
        ("date", quote.dated),
        ("from", quote.workshop),
    )
    return ",  ".join(f"{label} {value}" for label, value in said if value)


def _step(height_mm: float) -> float:
    return STYLE.line_step * height_mm


def _lines(
    text: str, height_mm: float, *, bold: bool = False, ink: Ink = Ink.BLACK
) -> Iterator[_Block]:
    """Yield a paragraph, line by line."""
    for line in wrapped(text, height_mm, _RIGHT_MM - _LEFT_MM, bold=bold):
        yield _Block(
            _step(height_mm), (_text(line, (0.0, 0.0), height_mm, bold=bold, ink=ink),)
        )


def _text(
    text: str,
    at: Point,
    height_mm: float,
    *,
    bold: bool = False,
    ink: Ink = Ink.BLACK,
) -> Text:
    """Return a line of text in a block, indented and so far below its first line."""
    indent_mm, below_mm = at
    x, y = _LEFT_MM + indent_mm, -_step(height_mm) - below_mm
    return Text(at=(x, y), text=text, height_mm=height_mm, bold=bold, ink=ink)


def _headline(page: Page) -> _Block:
    """Return the verdict in a frame; a double one where something must change."""
    high, pad = STYLE.medium_mm, 2.5
    room = _RIGHT_MM - _LEFT_MM - 2 * pad
    lines = wrapped(unbroken(page.headline), high, room, bold=True)
    height = len(lines) * _step(high) + 2 * pad
    ink = Ink.FAIL if page.verdict.fails else Ink.CLEAR
    frames = [0.0, 1.0] if page.verdict.fails else [0.0]
    return _Block(
        height + _FREE_MM + 1.0,
        (
            *(_frame(each, height, ink) for each in frames),
            *(
                _text(line, (pad, _FREE_MM + 1.0 + row * _step(high)), high, bold=True)
                for row, line in enumerate(lines)
            ),
        ),
    )


def _frame(inset_mm: float, height_mm: float, ink: Ink) -> Line:
    left, right = _LEFT_MM + inset_mm, _RIGHT_MM - inset_mm
    top, bottom = -_FREE_MM - inset_mm, -_FREE_MM - height_mm + inset_mm
    corners = ((left, bottom), (right, bottom), (right, top), (left, top))
    return Line(points=(*corners, corners[0]), pen=Pen.WIDE, ink=ink)


def _head(text: str) -> _Block:
    high = STYLE.medium_mm
    rule = -_step(high) - _FREE_MM - 2.0
    return _Block(
        _step(high) + _FREE_MM + 3.0,
        (
            _text(text, (0.0, _FREE_MM), high, bold=True),
            Line(points=((_LEFT_MM, rule), (_RIGHT_MM, rule)), pen=Pen.WIDE),
        ),
        heads=True,
    )


def _row(row: Row) -> _Block:
    """Return a finding: its mark, its sentence, and what to do."""
    small, room = STYLE.small_mm, _RIGHT_MM - _LEFT_MM - _INDENT_MM
    said = unbroken(row.text) + (f"{NO_BREAK}*" if row.assumed else "")
    bold = row.verdict.fails
    told = wrapped(said, small, room, bold=bold)
    to_do = wrapped(row.to_do, small, room)
    lines = [(line, bold, Ink.BLACK) for line in told]
    lines += [(line, False, Ink.SOFT) for line in to_do]
    height = max(len(lines) * _step(small) + 2.0, 6.4)
    middle = -_step(small) + small / 2 - 0.4
    return _Block(
        height,
        (
            Balloon(
                number=row.number,
                centre=(_LEFT_MM + 3.8, middle),
                radius_mm=0.9 * STYLE.balloon_mm,
                mark=MARKS[row.verdict],
                ref=row.ref,
            ),
            *(
                _text(
                    line,
                    (_INDENT_MM, 0.4 + at * _step(small)),
                    small,
                    bold=strong,
                    ink=ink,
                )
                for at, (line, strong, ink) in enumerate(lines)
            ),
        ),
    )


def _listed(lines: Sequence[str]) -> _Block:
    """Return a list in two columns, as long as one another as far as that goes."""
    small, column = STYLE.small_mm, (_RIGHT_MM - _LEFT_MM) / 2
    told = [wrapped(each, small, column - 8.0) for each in lines]
    high = [len(each) for each in told]
    longest, half = min(
        (max(sum(high[:at]), sum(high[at:])), at) for at in range(len(told) + 1)
    )
    items: list[Item] = []
    for index, entries in enumerate((told[:half], told[half:])):
        row = 0
        for entry in entries:
            items.extend(_entry(entry, (index * column, row * _step(small))))
            row += len(entry)
    return _Block(longest * _step(small), tuple(items))


def _entry(lines: tuple[str, ...], at: Point) -> Iterator[Text]:
    (indent_mm, below_mm), small = at, STYLE.small_mm
    yield _text("\N{EN DASH}", at, small)
    for row, line in enumerate(lines):
        yield _text(line, (indent_mm + 4.0, below_mm + row * _step(small)), small)


def _parts(parts: Sequence[PartLine]) -> Iterator[_Block]:
    """Yield the parts, two beside one another."""
    column = (_RIGHT_MM - _LEFT_MM) / 2
    half = (len(parts) + 1) // 2
    for pair in zip_longest(parts[:half], parts[half:]):
        told = [list(_part(each)) if each else [] for each in pair]
        items = [
            replace(item, at=(item.at[0] + index * column, item.at[1]))
            for index, each in enumerate(told)
            for item in each
        ]
        lowest = min(item.at[1] for item in items)
        yield _Block(-lowest, tuple(items))


def _part(part: PartLine) -> Iterator[Text]:
    """Yield a part's name and what it is, beside its name or under it."""
    small, room = STYLE.small_mm, (_RIGHT_MM - _LEFT_MM) / 2 - 2.0
    names = wrapped(part.name, small, room, bold=True)
    for row, line in enumerate(names):
        yield _text(line, (0.0, row * _step(small)), small, bold=True)
    last = len(names) - 1
    name_mm = width_mm(f"{names[-1]}  ", small, bold=True)
    if width_mm(part.told, small) <= room - name_mm:
        yield _text(part.told, (name_mm, last * _step(small)), small)
        return
    told = wrapped(part.told, small, room - _UNDER_MM)
    for row, line in enumerate(told, start=len(names)):
        yield _text(line, (_UNDER_MM, row * _step(small)), small)


def _moved(item: Item, up_mm: float) -> Item:
    """Return an item of a block at its place on the sheet."""
    match item:
        case Text(at=(x, y)):
            return replace(item, at=(x, y + up_mm))
        case Line(points=points):
            return replace(item, points=tuple((x, y + up_mm) for x, y in points))
        case Balloon(centre=(x, y)):
            return replace(item, centre=(x, y + up_mm))
        case _:
            raise TypeError(f"a block holds no {type(item).__name__}")


def _foot(number: int, count: int) -> tuple[Item, ...]:
    small = STYLE.small_mm
    low = _FOOT_MM - 6.0
    rule = low + 1.8 * small
    return (
        Line(points=((_LEFT_MM, rule), (_RIGHT_MM, rule)), pen=Pen.NARROW),
        Text(at=(_LEFT_MM, low), text=_FOOTER, height_mm=_FINE_MM, ink=Ink.SOFT),
        Text(
            at=(_RIGHT_MM, low),
            text=f"{number} of {count}",
            height_mm=small,
            align=Align.RIGHT,
            ink=Ink.SOFT,
        ),
    )
