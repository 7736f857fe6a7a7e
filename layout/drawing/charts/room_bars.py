"""The bars of a headroom sheet: as built, what is left, and where it ends."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from layout.drawing.charts.margins import ticks
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.lettering import fitted, plain, width_mm
from layout.drawing.paper.scene import Align, Area, Hatch, Ink, Item, Line, Pen, Text
from layout.drawing.paper.style import STYLE
from layout.drawing.paper.words import length, named
from layout.questions.findings.shown import down
from layout.questions.growing.headroom import Room
from layout.values import dataclass

__all__ = ["AXIS_MM", "BEND", "ROW_MM", "Span", "axis", "bar", "span_of"]

ROW_MM: Final = 9.6
"""Height of a row: two lines of words."""
BEND: Final = "bend radius of "
"""How the dimensions of cables begin."""
AXIS_MM: Final = 13.0
"""Height of the scale under a group of rows."""
_SMALL: Final = STYLE.small_mm
_LINE_MM: Final = 4.0
_WORDS_MM: Final = 54.0
_LIMITS_MM: Final = 46.0
_FIGURES_MM: Final = 22.0
_BAR_MM: Final = 4.2
_LEAST_MM: Final = 0.2
"""Shorter pieces of a bar are not drawn."""


@dataclass(frozen=True, slots=True)
class Span:
    """Where words, bars and limits of a group stand, and what its scale ends at."""

    frame: Frame
    most_mm: float

    @property
    def left(self) -> float:
        """Return where the scale begins on paper."""
        return self.frame[0] + _WORDS_MM

    @property
    def right(self) -> float:
        """Return where it ends; the figures stand beyond."""
        return self.limits - _FIGURES_MM

    @property
    def limits(self) -> float:
        """Return where the words on what limits a figure begin."""
        return self.frame[2] - _LIMITS_MM

    def x(self, mm: float) -> float:
        """Return where a figure lies on paper."""
        return self.left + min(mm / self.most_mm, 1.0) * (self.right - self.left)


def span_of(rows: Sequence[Room], frame: Frame) -> Span:
    """Return the scale that holds every figure of a group."""
    figures = [
        figure
        for row in rows
        for figure in (row.now_mm, row.largest_mm, row.but_for_mm)
        if figure is not None
    ]
    return Span(frame, max([1.0, *figures]))


def axis(span: Span, y: float, top: float) -> tuple[Item, ...]:
    """Return the scale under a group, and its zero up to the top of the rows."""
    zero, end = span.x(0.0), span.x(span.most_mm)
    out: list[Item] = [
        Line(points=((zero, top), (zero, y - 1.0)), pen=Pen.NARROW),
        Line(points=((zero, y - 1.0), (end, y - 1.0)), pen=Pen.NARROW),
    ]
    for value in ticks(0.0, span.most_mm, 5):
        x = span.x(value)
        out.append(Line(points=((x, y - 1.0), (x, y - 2.2)), pen=Pen.NARROW))
        out.append(_text(length(value), (x, y - 6.0), align=Align.CENTRE))
    out.append(_text("mm", (zero - 6.0, y - 6.0), align=Align.RIGHT, soft=True))
    return tuple(out)


def bar(row: Room, y: float, span: Span) -> tuple[Item, ...]:
    """Return one row: what it is, its bar and figure, and what limits it."""
    upper, lower = y + _LINE_MM, y
    words = _WORDS_MM - 3.0
    a, b = (named(each) for each in row.limited_by) if row.limited_by else ("", "")
    to = f"\N{EN DASH} {b}" if b else ""
    part, what = _named(row, words)
    wide = span.frame[2] - span.limits
    said = (
        _text(
            fitted(part, _SMALL, words, bold=True), (span.frame[0], upper), bold=True
        ),
        _text(fitted(what, _SMALL, words), (span.frame[0], lower)),
        _text(fitted(a, _SMALL, wide), (span.limits, upper)),
        _text(fitted(to, _SMALL, wide), (span.limits, lower)),
    )
    return (*(each for each in said if each.text), *_pieces(row, lower + 1.4, span))


def _named(row: Room, words_mm: float) -> tuple[str, str]:
    """Return the lines that name a row: the part, with where it would be, and a figure.

    The place tells rows apart: where the upper line is too long the part's name is cut.
    """
    figure, comma, place = plain(row.dimension.removeprefix(BEND)).partition(", ")
    there = f"{comma}{place}"
    left_mm = words_mm - width_mm(there, _SMALL, bold=True)
    return f"{fitted(plain(row.part), _SMALL, left_mm, bold=True)}{there}", figure


def _pieces(row: Room, y: float, span: Span) -> tuple[Item, ...]:
    """Return the bar with its figure beside it."""
    now, largest = span.x(row.now_mm), row.largest_mm
    free = largest is None and row.limited_by is None
    if free:
        end, clear = span.right, now
    elif largest is None:
        end, clear = now, span.left
    else:
        end, clear = span.x(largest), min(now, span.x(largest))
    out: list[Item] = []
    out += _piece((span.left, clear), y, fill=Ink.FAN)
    if free:
        middle = y + _BAR_MM / 2
        line = ((now, middle), (end, middle))
        out.append(Line(points=line, pen=Pen.HIDDEN, ink=Ink.CLEAR))
    elif row.fits:
        out += _piece((clear, end), y, fill=Ink.WHITE, hatch=Hatch.RISING)
    if not row.fits:
        out += _piece((clear, now), y, fill=Ink.WHITE, hatch=Hatch.CLASH, ink=Ink.FAIL)
    stroke = largest if largest is not None else row.but_for_mm
    if stroke is not None:
        x = span.x(stroke)
        line = ((x, y - 0.8), (x, y + _BAR_MM + 0.8))
        pen = Pen.WIDE if largest is not None else Pen.HIDDEN
        out.append(Line(points=line, pen=pen))
    beyond = max(now, end, span.x(stroke or 0.0)) + 1.5
    return (*out, *_figure(row, (beyond, y), span))


def _piece(
    ends: tuple[float, float],
    y: float,
    *,
    fill: Ink,
    hatch: Hatch | None = None,
    ink: Ink = Ink.CLEAR,
) -> list[Item]:
    (left, right), high = ends, y + _BAR_MM
    if right - left < _LEAST_MM:
        return []
    corners = ((left, y), (right, y), (right, high), (left, high), (left, y))
    return [Area(outer=corners, fill=fill, hatch=hatch, pen=Pen.NARROW, edge=ink)]


def _figure(row: Room, at: tuple[float, float], span: Span) -> tuple[Item, ...]:
    """Return the largest figure and what is left, in two lines beyond the bar."""
    x, y = at
    if row.largest_mm is not None:
        left = _signed(row.left_mm or 0.0) if row.now_mm else ""
        lines = [_down(row.largest_mm), left]
    elif row.limited_by is None:
        lines = ["no limit", f"up to {row.end_mm:g}"]
    elif row.but_for_mm is not None:
        lines = [f"({_down(row.but_for_mm)})", "but for this"]
    else:
        lines = ["none", "fits"]
    ink = Ink.BLACK if row.fits else Ink.FAIL
    most = span.limits - x - 1.0
    return tuple(
        Text(
            at=(x, y + 2.6 - _LINE_MM * place),
            text=fitted(each, _SMALL, most),
            height_mm=_SMALL,
            ink=ink,
            bold=place == 0,
        )
        for place, each in enumerate(lines)
        if each
    )


def _down(mm: float) -> str:
    """Return a largest figure in tenths, under 1 mm finer, never above it."""
    return down(mm, 2 if mm < 1.0 else 1)


def _signed(mm: float) -> str:
    return f"+{length(mm)}" if mm > 0.0 else length(mm)


def _text(
    text: str,
    at: tuple[float, float],
    *,
    align: Align = Align.LEFT,
    soft: bool = False,
    bold: bool = False,
) -> Text:
    ink = Ink.SOFT if soft else Ink.BLACK
    return Text(at=at, text=text, height_mm=_SMALL, align=align, ink=ink, bold=bold)
