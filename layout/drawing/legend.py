"""The legend: what fills, lines and marks stand for, as far as the sheet uses them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

from layout.drawing.boxes import Frame
from layout.drawing.kinds import KINDS
from layout.drawing.scene import Area, Balloon, Ink, Item, Line, Mark, Pen, Point, Text
from layout.drawing.style import Style

__all__ = ["legend"]

_Key: TypeAlias = Ink | Pen | Mark

_ROW = 2.6
_SWATCH = (3.6, 1.7)
"""Height of a row, width and height of a swatch, per height of a capital."""

_COLUMNS = 2
_LINES = {Pen.HIDDEN: "hidden edge", Pen.PLACE: "opening or free face"}
_MARKS = {
    Mark.RING: "room enough",
    Mark.DOUBLE_RING: "just enough: measure",
    Mark.DIAMOND: "too close",
    Mark.STAR: "into one another",
    Mark.SQUARE: "not there",
}


def legend(
    drawn: Sequence[Item], column: Frame, style: Style
) -> tuple[tuple[Item, ...], float]:
    """Return the legend, its foot at the foot of the column, and its upper edge."""
    fills = {each.fill for each in drawn if isinstance(each, Area)}
    pens = {each.pen for each in drawn if isinstance(each, Line)}
    marks = {each.mark for each in drawn if isinstance(each, Balloon)}
    entries: list[tuple[_Key, str]] = [
        *((ink, text) for ink, text in KINDS.items() if ink in fills),
        *((pen, text) for pen, text in _LINES.items() if pen in pens),
        *((mark, text) for mark, text in _MARKS.items() if mark in marks),
    ]
    left, bottom, right, _ = column
    rows = -(-len(entries) // _COLUMNS)
    row_mm = _ROW * style.small_mm
    top = bottom + rows * row_mm
    out: list[Item] = []
    for place, entry in enumerate(entries):
        x = left + (place // rows) * (right - left) / _COLUMNS
        out.extend(_entry(entry, (x, top - (place % rows + 0.5) * row_mm), style))
    return tuple(out), top


def _entry(entry: tuple[_Key, str], at: Point, style: Style) -> tuple[Item, Item]:
    key, text = entry
    (x, y), small = at, style.small_mm
    wide, high = _SWATCH[0] * small, _SWATCH[1] / 2 * small
    said = Text(at=(x + wide + small, y - small / 2), text=text, height_mm=small)
    match key:
        case Ink():
            low, up, right = y - high, y + high, x + wide
            swatch: Item = Area(
                outer=((x, low), (right, low), (right, up), (x, up), (x, low)),
                fill=key,
                hatch=style.fills[key],
                pen=Pen.NARROW,
            )
        case Pen():
            swatch = Line(points=((x, y), (x + wide, y)), pen=key, ink=Ink.SOFT)
        case Mark():
            radius_mm = 0.8 * style.balloon_mm
            centre = (x + wide / 2, y)
            swatch = Balloon(number=0, centre=centre, radius_mm=radius_mm, mark=key)
    return swatch, said
