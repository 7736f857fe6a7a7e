"""The page as scenes: A4 sheets of words, set before anything is drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import zip_longest
from typing import Final

from layout.drawing.paper.scene import Align, Balloon, Ink, Item, Line, Pen, Scene, Text
from layout.drawing.paper.style import STYLE
from layout.page.blocks import Block, blocks
from layout.page.listed import LEFT_MM, RIGHT_MM
from layout.page.said import Page

__all__ = ["sheets"]

_WIDTH_MM: Final = 210.0
_HEIGHT_MM: Final = 297.0
_TOP_MM: Final = 282.0
_FOOT_MM: Final = 18.0
_LOWEST_MM: Final = 20.0
"""Where the foot begins, and the lowest words over it."""

_LEFT_FREE: Final = (1.0, 0.75, 0.5)
"""Shares of the free paper between blocks that are left, the wished one first: a page
that is a little too long stands closer."""

_FINE_MM: Final = 1.8
"""The smallest lettering (ISO 3098)."""

_FOOTER: Final = (
    "Sizes are in mm and come from data sheets unless they are said to be measured; "
    "measure before ordering."
)


def sheets(page: Page, *, drawn: int = 1) -> tuple[Scene, ...]:
    """Return the page's words on as many sheets as they need.

    ``drawn`` is the number of the drawing's sheets, which follow them.
    """
    whole = tuple(blocks(page))
    filled = min((_filled(whole, each) for each in _LEFT_FREE), key=len)
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


def _filled(whole: Sequence[Block], left: float) -> list[list[Item]]:
    """Return what stands on each sheet, with a share of the free paper left."""
    filled: list[list[Item]] = [[]]
    y = _TOP_MM
    for block, following in zip_longest(whole, whole[1:]):
        over_mm = left * block.free_mm
        together_mm = over_mm + block.height_mm
        if block.heads and following is not None:
            together_mm += left * following.free_mm + following.height_mm
        if y - together_mm < _LOWEST_MM:
            filled.append([])
            y = _TOP_MM
        y -= over_mm
        filled[-1].extend(_moved(item, y) for item in block.items)
        y -= block.height_mm
    return filled


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
        Line(points=((LEFT_MM, rule), (RIGHT_MM, rule)), pen=Pen.NARROW),
        Text(at=(LEFT_MM, low), text=_FOOTER, height_mm=_FINE_MM, ink=Ink.SOFT),
        Text(
            at=(RIGHT_MM, low),
            text=f"{number} of {count}",
            height_mm=small,
            align=Align.RIGHT,
            ink=Ink.SOFT,
        ),
    )
