"""The sheets of headroom: a bar for each figure, and what limits it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, TypeAlias

from layout.drawing.charts.room_bars import AXIS_MM, BEND, ROW_MM, axis, bar, span_of
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.lettering import fitted, plain, wrapped
from layout.drawing.paper.scene import Align, Ink, Item, Line, Pen, Scene, Text
from layout.drawing.paper.style import STYLE
from layout.drawing.paper.words import about
from layout.drawing.sheets.sheet import NAMED
from layout.questions.growing.headroom import Headroom, Room

__all__ = ["headroom_scenes"]

_SMALL: Final = STYLE.small_mm
_LEADING_MM: Final = 4.6
_GROUP_MM: Final = 8.0
"""Height of a group's name."""
_FOOT_MM: Final = 8.0
_SAID: Final = (
    "Filled: as built. Hatched: room left, all else as built. Crossed: too much. "
    "Upright stroke: the largest that clears."
)
_COULD: Final = "How large each part could be, and what limits it."
_TAKES: Final = "What would fit, of the parts that are not in the build."
_CAUTION: Final = "Sizes in mm. Not a safety approval: measure before ordering."

_Group: TypeAlias = tuple[str, tuple[Room, ...]]
"""A group's name, and its rows."""


def headroom_scenes(told: Headroom) -> tuple[Scene, ...]:
    """Return the drawing of a headroom: its sheets, the rows of parts before cables."""
    (_, sheet) = NAMED["A4"]
    left, bottom, right, top = sheet.border
    field = (left + 4.0, bottom + _FOOT_MM, right - 4.0, top - 4.0)
    data_sheet = bool(told.rows) and not any(row.now_mm for row in _sizes(told))
    said = f"{_TAKES if data_sheet else _COULD} {_SAID}"
    pages = list(_pages(told, said, field))
    corners = ((left, bottom), (right, bottom), (right, top), (left, top))
    return tuple(
        Scene(
            title=plain(told.build),
            description=plain(said),
            width_mm=sheet.width_mm,
            height_mm=sheet.height_mm,
            scale=(1, 1),
            items=(
                Line(points=(*corners, corners[0]), pen=Pen.FRAME),
                *items,
                *_foot((left + 4.0, bottom + 3.0, right - 4.0), (number, len(pages))),
            ),
        )
        for number, items in enumerate(pages, start=1)
    )


def _sizes(told: Headroom) -> tuple[Room, ...]:
    return tuple(row for row in told.rows if not _is_bend(row))


def _is_bend(row: Room) -> bool:
    return row.dimension.startswith(BEND)


def _pages(told: Headroom, said: str, field: Frame) -> Iterator[tuple[Item, ...]]:
    """Yield what stands on each sheet; a group that is too high goes on on the next."""
    left, bottom, right, _ = field
    waiting: list[_Group] = [
        ("Sizes of parts", _sizes(told)),
        ("Cables: least radius of bend", tuple(filter(_is_bend, told.rows))),
    ]
    waiting = [each for each in waiting if each[1]]
    words = _last_words(told, right - left)
    out, y = _head(told.build, said, field)
    while waiting:
        (name, rows), *rest = waiting
        fit = int((y - bottom - _GROUP_MM - AXIS_MM) // ROW_MM)
        if fit < min(len(rows), 2):
            yield tuple(out)
            out, y = _head(told.build, said, field)
            continue
        made, y = _group(name, rows[:fit], (left, bottom, right, y))
        out += made
        waiting = [(f"{name}, continued", rows[fit:]), *rest] if rows[fit:] else rest
    if y - len(words) * _LEADING_MM < bottom:
        yield tuple(out)
        out, y = _head(told.build, said, field)
    for line in words:
        y -= _LEADING_MM
        out.append(Text(at=(left, y), text=line, height_mm=_SMALL))
    yield tuple(out)


def _head(title: str, said: str, field: Frame) -> tuple[list[Item], float]:
    left, _, right, top = field
    y = top - STYLE.large_mm
    text = fitted(plain(title), STYLE.large_mm, right - left, bold=True)
    out: list[Item] = [
        Text(at=(left, y), text=text, height_mm=STYLE.large_mm, bold=True)
    ]
    y -= 2.0
    for line in wrapped(plain(said), _SMALL, right - left):
        y -= _LEADING_MM
        out.append(Text(at=(left, y), text=line, height_mm=_SMALL, ink=Ink.SOFT))
    return out, y - 4.0


def _group(
    name: str, rows: Sequence[Room], frame: Frame
) -> tuple[tuple[Item, ...], float]:
    """Return a group's rows over their scale, and where it ends."""
    left, _, _, top = frame
    y = top - 4.6
    span = span_of(rows, frame)
    out: list[Item] = [
        Text(at=(left, y), text=name, height_mm=STYLE.medium_mm, bold=True)
    ]
    y = first = top - _GROUP_MM + 1.0
    bars: list[Item] = []
    for row in rows:
        y -= ROW_MM
        bars += bar(row, y, span)
    return (*out, *axis(span, y, first), *bars), y - AXIS_MM


def _last_words(told: Headroom, wide_mm: float) -> list[str]:
    """Return the notes, the fans that stand together, and what is not looked at."""
    said = [f"{each[0].upper()}{each[1:]}." for each in told.notes]
    if told.faces:
        said.append("Fans side by side, whatever is there now (radiators likewise):")
        said += [f"{each.name}: {each.told}." for each in told.faces]
    if told.elsewhere:
        found = "; ".join(dict.fromkeys(map(about, told.elsewhere)))
        said.append(f"Reach and hook-up are not looked at here; not clear: {found}.")
    return [line for each in said for line in wrapped(plain(each), _SMALL, wide_mm)]


def _foot(
    at: tuple[float, float, float], number_of: tuple[int, int]
) -> tuple[Item, ...]:
    """Return the caution and which sheet it is."""
    left, y, right = at
    number, count = number_of
    which = f"sheet {number} of {count}"
    end = Align.RIGHT
    return (
        Text(at=(left, y), text=_CAUTION, height_mm=_SMALL, ink=Ink.SOFT),
        Text(at=(right, y), text=which, height_mm=_SMALL, align=end, ink=Ink.SOFT),
    )
