"""Charts of margins: a curve along a travel, or a bar for each named position."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from layout.drawing.charts.small_views import VERDICT_INKS, Shown
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.lettering import fitted, plain
from layout.drawing.paper.scene import (
    Align,
    Area,
    Circle,
    Hatch,
    Ink,
    Item,
    Line,
    Pen,
    Point,
    Text,
)
from layout.drawing.paper.style import STYLE
from layout.drawing.paper.words import length, signed
from layout.questions.findings.finding import Verdict

__all__ = ["bars", "curve", "ticks"]

_SMALL: Final = STYLE.small_mm
_ROW_MM: Final = 8.0
_TALL_ROW_MM: Final = 11.0
"""With a second line, which tells what limits a position."""
_RING_MM: Final = 1.6
_LEAST_BAR_MM: Final = 0.2


def ticks(low: float, high: float, most: int = 8) -> list[float]:
    """Return round places between two values, 0 among them where it lies there.

    Examples
    --------
    >>> ticks(-12.0, 41.0)
    [-10.0, 0.0, 10.0, 20.0, 30.0, 40.0]
    """
    span = max(high - low, 1e-9)
    power = 10.0 ** math.floor(math.log10(span / most))
    step = next(s * power for s in (1, 2, 5, 10) if span / (s * power) <= most)
    first = math.ceil(low / step - 1e-9)
    last = math.floor(high / step + 1e-9)
    return [round(k * step, 9) + 0.0 for k in range(first, last + 1)]


def curve(
    rows: Sequence[Shown],
    clear_mm: Sequence[tuple[float, float]],
    frame: Frame,
    *,
    best: Shown | None = None,
) -> tuple[Item, ...]:
    """Return margin against shift, the clear stretches shaded, the best one ringed."""
    left, bottom, right, top = frame
    left, bottom = left + 16.0, bottom + 14.0
    shifts = [row.at_mm or 0.0 for row in rows]
    known = [row.margin_mm for row in rows if row.margin_mm is not None]
    x0, x1 = min(shifts), max(*shifts, min(shifts) + 1.0)
    y0, y1 = min([0.0, *known]), max([1.0, *known])
    pad = 0.06 * (y1 - y0)
    y0, y1 = y0 - pad, y1 + pad

    def at(shift: float, margin: float) -> Point:
        across = left + (shift - x0) / (x1 - x0) * (right - left)
        return across, bottom + (margin - y0) / (y1 - y0) * (top - bottom)

    out: list[Item] = []
    for low, high in clear_mm:
        (a, _), (b, _) = at(low, 0.0), at(high, 0.0)
        corners = ((a, bottom), (b, bottom), (b, top), (a, top), (a, bottom))
        out.append(Area(outer=corners, fill=Ink.SHEET, hatch=Hatch.RISING))
    out += _axes((left, bottom, right, top), (x0, x1, y0, y1))
    line = [at(r.at_mm or 0.0, r.margin_mm) for r in rows if r.margin_mm is not None]
    if len(line) > 1:
        out.append(Line(points=tuple(line), pen=Pen.WIDE, ink=Ink.CLEAR))
    if best is not None and best.at_mm is not None and best.margin_mm is not None:
        out.append(
            Circle(
                centre=at(best.at_mm, best.margin_mm), radius_mm=_RING_MM, pen=Pen.WIDE
            )
        )
    return tuple(out)


def _axes(frame: Frame, spans: tuple[float, float, float, float]) -> list[Item]:
    left, bottom, right, top = frame
    x0, x1, y0, y1 = spans
    out: list[Item] = [Line(points=((left, top), (left, bottom)), pen=Pen.NARROW)]
    for value in ticks(y0, y1):
        y = bottom + (value - y0) / (y1 - y0) * (top - bottom)
        pen, ink = (Pen.NARROW, Ink.BLACK) if value == 0.0 else (Pen.NARROW, Ink.FAINT)
        out.append(Line(points=((left, y), (right, y)), pen=pen, ink=ink))
        out.append(_number(length(value), (left - 1.5, y - _SMALL / 2), Align.RIGHT))
    for value in ticks(x0, x1):
        x = left + (value - x0) / (x1 - x0) * (right - left)
        out.append(Line(points=((x, bottom), (x, bottom - 1.5)), pen=Pen.NARROW))
        out.append(_number(length(value), (x, bottom - 5.5), Align.CENTRE))
    out.append(_number("shift, mm", (right, bottom - 10.5), Align.RIGHT, soft=True))
    words = "least margin, mm; shaded: clear; ring: the best"
    out.append(_number(words, (left, top + 2.0), Align.LEFT, soft=True))
    return out


def _number(text: str, at: Point, align: Align, *, soft: bool = False) -> Text:
    ink = Ink.SOFT if soft else Ink.BLACK
    return Text(at=at, text=text, height_mm=_SMALL, align=align, ink=ink)


def bars(rows: Sequence[Shown], frame: Frame) -> tuple[Item, ...]:
    """Return a bar for each position: to the right room to spare, to the left none."""
    left, bottom, right, top = frame
    names = left + 0.36 * (right - left)
    known = [row.margin_mm for row in rows if row.margin_mm is not None]
    low, high = min([0.0, *known]), max([1.0, *known])
    start, end = names + 16.0, right - 14.0

    def x(margin: float) -> float:
        return start + (margin - low) / (high - low) * (end - start)

    tall = len(rows) * _TALL_ROW_MM <= top - bottom - 10.0
    row_mm = _TALL_ROW_MM if tall else _ROW_MM
    fit = int((top - bottom - 10.0) / row_mm)
    shown = rows if len(rows) <= fit else rows[: fit - 1]
    out: list[Item] = [
        _number("least margin, mm", (left, top + 2.0), Align.LEFT, soft=True)
    ]
    y = top
    for row in shown:
        y -= row_mm
        name = fitted(plain(row.name), _SMALL, names - left - 2.0)
        out.append(_number(name, (left, y), Align.LEFT))
        if tall:
            out.append(_limit(row, (left, y - 4.2), names + 12.0 - left))
        elif row.margin_mm is None:
            said = fitted(plain(row.limit or row.verdict), _SMALL, right - x(0.0) - 3.0)
            out.append(_number(said, (x(0.0) + 2.0, y), Align.LEFT, soft=True))
        if row.margin_mm is not None:
            out += _bar(row, y, (x(0.0), x(row.margin_mm)))
    out.append(Line(points=((x(0.0), top - 1.0), (x(0.0), y - 2.0)), pen=Pen.NARROW))
    if len(shown) < len(rows):
        more = f"and {len(rows) - len(shown)} more in the table"
        out.append(_number(more, (left, y - _ROW_MM), Align.LEFT, soft=True))
    return tuple(out)


def _limit(row: Shown, at: Point, wide: float) -> Text:
    """Return the verdict of a position and what limits it, in small letters."""
    told = plain(": ".join(filter(None, (row.verdict, row.limit))))
    return _number(fitted(told, _SMALL, wide), at, Align.LEFT, soft=True)


def _bar(row: Shown, y: float, ends: tuple[float, float]) -> list[Item]:
    """Return the bar between two places on paper, with the margin beyond it."""
    margin_mm = row.margin_mm or 0.0
    zero, end = ends
    low, high = y - 1.0, y + 3.6
    corners = ((zero, low), (end, low), (end, high), (zero, high), (zero, low))
    tight = row.verdict == Verdict.TIGHT.value
    hatch = Hatch.CLASH if row.fails else Hatch.RISING if tight else None
    out: list[Item] = []
    if abs(end - zero) > _LEAST_BAR_MM:
        fill = Ink.WHITE if row.fails or tight else Ink.FAN
        ink = VERDICT_INKS[row.verdict]
        bar = Area(outer=corners, fill=fill, hatch=hatch, pen=Pen.NARROW, edge=ink)
        out.append(bar)
    align, aside = (Align.RIGHT, -1.5) if margin_mm < 0 else (Align.LEFT, 1.5)
    out.append(_number(signed(margin_mm), (end + aside, y), align))
    return out
