"""The legend: what fills, lines and marks stand for, as far as the sheet uses them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final, TypeAlias

from layout.build.placed import Build
from layout.drawing.findings.marks import MARKS
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.lettering import width_mm, wrapped
from layout.drawing.paper.scene import (
    Area,
    Balloon,
    Ink,
    Item,
    Line,
    Mark,
    Pen,
    Point,
    Text,
)
from layout.drawing.paper.style import STYLE, Style
from layout.drawing.views.compared import Before, outlined
from layout.drawing.views.kinds import FILLS, KINDS
from layout.questions.findings.finding import Check, Verdict

__all__ = ["END_OF_TRAVEL", "ROWS", "legend"]

_Key: TypeAlias = Ink | Pen | Mark | Line | str

ROWS: Final = (2.2, 1.75)
"""Height of a row per height of a capital, wished and least."""

_SWATCH = (3.2, 1.5)
"""Width and height of a swatch, per height of a capital."""

_ENTRY_MM = 47.0
"""Least width of an entry."""

_NAMED = 30
"""Letters of a name that no column is made wider for: a longer one takes two lines."""

_LINES = {
    Pen.HIDDEN: "hidden edge",
    Pen.CENTRE: "centre line",
    Pen.PLACE: "opening",
}
END_OF_TRAVEL = Line(points=(), pen=Pen.PLACE, ink=Ink.SOFT), "end of a travel"
"""What is told of lines at extreme positions."""

_CHANGES = ((Pen.HEAVY, "changed: now"), (Pen.PLACE, "changed: before"))
_MARKS = {
    Verdict.CLEAR: "room enough",
    Verdict.TIGHT: "just enough",
    Verdict.SHORT: "too close",
    Verdict.CLASH: "into one another",
    Verdict.MISSING: "not there",
}


def legend(
    build: Build,
    check: Check,
    column: Frame,
    *,
    style: Style,
    keys: Sequence[tuple[str | Line, str]] = (),
    before: Before | None = None,
    short: bool = False,
    row: float = ROWS[0],
) -> tuple[tuple[Item, ...], float]:
    """Return the legend, its foot at the foot of the column, and its upper edge.

    A ``short`` one tells ``keys`` alone, without which the sheet cannot be read.
    """
    drawn = (False, False) if before is None else outlined(before.build, build)
    changes = [each for each, there in zip(_CHANGES, drawn, strict=True) if there]
    every = [*keys] if short else [*_entries(build, check), *changes, *keys]
    entries = _told_once(every)
    left, bottom, right, _ = column
    small = style.small_mm
    columns = max(1, int((right - left) / _entry_mm(every, style)))
    wide = (right - left) / columns
    room_mm = wide - (_SWATCH[0] + 2.0) * small
    said = [wrapped(text, small, room_mm) for _, text in entries]
    places, rows = _placed([len(each) for each in said], columns)
    row_mm = row * small
    top = bottom + rows * row_mm
    out: list[Item] = []
    for (key, _), lines, (across, down) in zip(entries, said, places, strict=True):
        at = (left + across * wide, top - (down + 0.5) * row_mm)
        out.append(_swatch(key, at, style))
        x = at[0] + (_SWATCH[0] + 1.0) * small
        for n, line in enumerate(lines):
            y = at[1] - small / 2 - n * row_mm
            out.append(Text(at=(x, y), text=line, height_mm=small))
    return tuple(out), top


def _placed(lines: Sequence[int], columns: int) -> tuple[list[tuple[int, int]], int]:
    """Return the column and row in which each entry begins, and how many rows it takes.

    Entries go down the columns, each in one of them.
    """
    rows = max(-(-sum(lines) // columns), *lines, 0)
    while True:
        places = []
        across, down = 0, 0
        for each in lines:
            if down + each > rows:
                across, down = across + 1, 0
            places.append((across, down))
            down += each
        if across < columns:
            return places, rows
        rows += 1


def _entry_mm(entries: Sequence[tuple[_Key, str]], style: Style) -> float:
    """Return how wide entries must be for their words to stand whole."""
    small = style.small_mm
    words = (width_mm(text[:_NAMED], small) for _, text in entries)
    least_mm = _ENTRY_MM * small / STYLE.small_mm
    return max((least_mm, *((_SWATCH[0] + 2.0) * small + each for each in words)))


def _entries(build: Build, check: Check) -> Iterator[tuple[_Key, str]]:
    """Yield what a drawing of the build uses."""
    fills = {FILLS.get(each.role) for each in build.bodies}
    verdicts = {each.verdict for each in check.findings}
    yield from ((ink, text) for ink, text in KINDS.items() if ink in fills)
    if build.case_size_mm is not None:
        yield from _LINES.items()
    yield from ((MARKS[one], text) for one, text in _MARKS.items() if one in verdicts)


def _told_once(entries: Sequence[tuple[_Key, str]]) -> list[tuple[_Key, str]]:
    """Return the entries, those that share a line told beside each other in one."""
    out: dict[object, tuple[_Key, str]] = {}
    for key, text in entries:
        drawn: object = key
        if isinstance(key, Pen | Line):
            drawn = _line(key).pen, _line(key).ink
        if drawn in out:
            first, said = out[drawn]
            out[drawn] = first, f"{said}, {text}"
        else:
            out[drawn] = key, text
    return list(out.values())


def _line(key: Pen | Line) -> Line:
    """Return the line that an entry stands for, without a place."""
    if isinstance(key, Line):
        return key
    ink = Ink.BLACK if key is Pen.HEAVY else Ink.SOFT
    return Line(points=(), pen=key, ink=ink)


def _swatch(key: _Key, at: Point, style: Style) -> Item:
    """Return what an entry stands for, drawn small."""
    (x, y), small = at, style.small_mm
    wide, high = _SWATCH[0] * small, _SWATCH[1] / 2 * small
    match key:
        case Ink():
            low, up, right = y - high, y + high, x + wide
            return Area(
                outer=((x, low), (right, low), (right, up), (x, up), (x, low)),
                fill=key,
                hatch=style.fills[key],
                pen=Pen.NARROW,
            )
        case Pen() | Line():
            return replace(_line(key), points=((x, y), (x + wide, y)))
        case Mark():
            radius_mm = 0.7 * style.balloon_mm
            centre = (x + wide / 2, y)
            return Balloon(number=0, centre=centre, radius_mm=radius_mm, mark=key)
        case _:
            return Text(at=(x, y - small / 2), text=key, height_mm=small)
