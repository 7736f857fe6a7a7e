"""The title block: the fields of ISO 7200, the notes over them, the scale bar."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields
from typing import Final, TypeAlias

from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.lettering import plain, wrapped
from layout.drawing.paper.scene import Circle, Ink, Item, Line, Pen, Point, Text
from layout.drawing.paper.style import Style
from layout.drawing.sheets.scale_bar import scale_bar
from layout.drawing.sheets.sheet import Plan, Share
from layout.standards.drawing import TITLE_FIELDS
from layout.values import dataclass

__all__ = ["Title", "notes", "title_block"]

_TYPE: Final = "clearance drawing"
_NOTES: Final = (
    "All sizes in mm, from data sheets: measure before ordering.",
    (
        "Tolerances where none is stated: ISO 2768-1, class c for bent sheet metal, "
        "class m for machined and moulded parts."
    ),
)
_CELL: Final = 3.9
_STEP: Final = 1.45
"""Height of a cell of one line, and of each line more, per height of a capital."""

_NARROW_MM: Final = 150.0
"""A title block narrower than this has four rows instead of three."""

_SYMBOL: Final = "projection"
_SYMBOL_MM: Final = 38.0
"""A narrower cell has room for the symbol alone."""
_FIELD_OF: Final = {
    "owner": "legal owner",
    "number": "identification number",
    "date": "date of issue",
    "approver": "approval person",
    "creator": "creator",
    "revision": "revision index",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Title:
    """What a user states for the title block; what is empty is left to a pen.

    Notes
    -----
    The fields, and how many characters they hold, are those of ISO 7200:2004.
    """

    owner: str = ""
    number: str = ""
    date: str = ""
    approver: str = ""
    creator: str = ""
    revision: str = ""

    def too_long(self) -> Iterator[tuple[str, str, int]]:
        """Yield field, text and most characters of every text that is too long."""
        most = {each.name: each.most_characters for each in TITLE_FIELDS}
        for each in fields(self):
            text, limit = getattr(self, each.name), most[_FIELD_OF[each.name]]
            if limit is not None and len(text) > limit:
                yield each.name, text, limit


_Cell: TypeAlias = tuple[str, str, float]
"""Label, text, share of the width."""


def title_block(
    name: str, title: Title, plan: Plan, *, style: Style, share: Share
) -> tuple[tuple[Item, ...], float]:
    """Return the title block at the column's foot, and its upper edge.

    What is wider than its cell takes more lines: nothing of it is cut.  The notes
    stand over it, unless the plan has room for them beside the views.
    """
    left, bottom, right, _ = plan.column
    left = max(left, right - 180.0)
    rows = _rows(name, title, plan, share=share)
    heights = [_high_mm(row, right - left, style) for row in rows]
    out: list[Item] = []
    top = y = bottom + sum(heights)
    for row, high in zip(rows, heights, strict=True):
        out += _row(row, (left, y - high, right, y), style)
        y -= high
    said, head = ((), top) if plan.key else notes(plan, (left, top, right), style)
    frame = ((left, bottom), (left, head), (right, head))
    return (Line(points=frame, pen=Pen.WIDE), *out, *said), head


def _rows(
    name: str, title: Title, plan: Plan, *, share: Share
) -> tuple[tuple[_Cell, ...], ...]:
    scale, sheet = f"{plan.scale[0]}:{plan.scale[1]}", f"{share.number} of {share.of}"
    number, date = plain(title.number), plain(title.date)
    owner = ("legal owner", plain(title.owner))
    creator, approver = plain(title.creator), plain(title.approver)
    if plan.column[2] - plan.column[0] >= _NARROW_MM:
        return (
            ((*owner, 0.36), ("title", plain(name), 0.64)),
            (
                ("document type", _TYPE, 0.36),
                ("identification number", number, 0.28),
                ("revision", title.revision, 0.13),
                ("date of issue", date, 0.23),
            ),
            (
                ("creator", creator, 0.22),
                ("approved by", approver, 0.22),
                ("scale", scale, 0.1),
                ("format", plan.sheet.name, 0.11),
                ("sheet", sheet, 0.12),
                (_SYMBOL, "", 0.23),
            ),
        )
    return (
        ((*owner, 0.4), ("title", plain(name), 0.6)),
        (("document type", _TYPE, 0.4), ("identification number", number, 0.6)),
        (
            ("revision", title.revision, 0.19),
            ("date of issue", date, 0.29),
            ("scale", scale, 0.16),
            ("format", plan.sheet.name, 0.17),
            ("sheet", sheet, 0.19),
        ),
        (
            ("creator", creator, 0.36),
            ("approved by", approver, 0.36),
            (_SYMBOL, "", 0.28),
        ),
    )


def _lines(cell: _Cell, row_mm: float, style: Style) -> tuple[str, ...]:
    """Return what stands in a cell, in lines."""
    _, text, share = cell
    return wrapped(text, style.small_mm, share * row_mm - style.small_mm)


def _high_mm(row: tuple[_Cell, ...], row_mm: float, style: Style) -> float:
    """Return how high a row is for each text of it to stand whole."""
    most = max(1, *(len(_lines(cell, row_mm, style)) for cell in row))
    return (_CELL + _STEP * (most - 1)) * style.small_mm


def _row(row: tuple[_Cell, ...], where: Frame, style: Style) -> Iterator[Item]:
    left, bottom, right, top = where
    small = style.small_mm
    yield Line(points=((left, top), (right, top)), pen=Pen.NARROW)
    x = left
    for cell in row:
        label, _, share = cell
        wide = share * (right - left)
        if x > left:
            yield Line(points=((x, top), (x, bottom)), pen=Pen.NARROW)
        at = x + 0.5 * small
        if label != _SYMBOL or wide > _SYMBOL_MM:
            above = (at, top - 1.45 * small)
            yield Text(at=above, text=label, height_mm=small, ink=Ink.SOFT)
        if label == _SYMBOL:
            yield from _symbol((x + wide - 11.0, (bottom + top) / 2))
        for n, line in enumerate(_lines(cell, right - left, style)):
            y = top - (3.3 + _STEP * n) * small
            yield Text(at=(at, y), text=line, height_mm=small)
        x += wide


def notes(
    plan: Plan, where: tuple[float, float, float], style: Style
) -> tuple[tuple[Item, ...], float]:
    """Return scale bar and notes on the foot of a frame, and where they end.

    Parameters
    ----------
    where : (float, float, float)
        Left end, foot and right end.
    """
    left, bottom, right = where
    small, step = style.small_mm, style.line_step * style.small_mm
    room: Frame = (left + 0.5 * small, bottom, right - 0.5 * small, bottom)
    lines = [
        line for each in _NOTES for line in wrapped(each, small, room[2] - room[0])
    ]
    y = bottom + 0.7 * small
    out: list[Item] = []
    for line in reversed(lines):
        out.append(Text(at=(room[0], y), text=line, height_mm=small, ink=Ink.SOFT))
        y += step
    out += scale_bar(plan.scale, (room[0], y), style, room_mm=room[2] - room[0])
    return tuple(out), y + 4.2 * small


def _symbol(centre: Point) -> tuple[Item, ...]:
    """Return the first-angle symbol: a cone, small end left, and its left view right.

    ISO 5456-2, by construction from memory.
    """
    x, y = centre
    small, large = 1.3, 2.6
    cone = (
        (x - 6.5, y - small),
        (x - 1.5, y - large),
        (x - 1.5, y + large),
        (x - 6.5, y + small),
        (x - 6.5, y - small),
    )
    return (
        Line(points=cone, pen=Pen.NARROW),
        Circle(centre=(x + 3.5, y), radius_mm=small),
        Circle(centre=(x + 3.5, y), radius_mm=large),
        Line(points=((x - 7.3, y), (x - 0.7, y)), pen=Pen.CENTRE),
        Line(points=((x + 0.1, y), (x + 6.9, y)), pen=Pen.CENTRE),
        Line(points=((x + 3.5, y - 3.4), (x + 3.5, y + 3.4)), pen=Pen.CENTRE),
    )
