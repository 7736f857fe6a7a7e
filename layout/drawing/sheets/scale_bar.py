"""The scale bar: a round length that can be checked with a ruler."""

from __future__ import annotations

import math

from layout.drawing.paper.scene import Align, Area, Ink, Item, Pen, Point, Text
from layout.drawing.paper.style import Style
from layout.drawing.paper.words import length

__all__ = ["scale_bar"]

_PARTS = 4
_LONGEST_MM = 100.0
_THICK_MM = 1.8
_LETTERS = 8.0
"""Room for the last number, per height of a capital."""


def scale_bar(
    scale: tuple[int, int], at: Point, style: Style, *, room_mm: float
) -> tuple[Item, ...]:
    """Return a bar of round length in the case's mm, at most 100 long on paper.

    Parameters
    ----------
    room_mm : float
        Width of the bar with its lettering, at most.
    """
    factor = scale[0] / scale[1]
    longest_mm = min(_LONGEST_MM, room_mm - _LETTERS * style.small_mm)
    bar_mm = _round_down(longest_mm / factor)
    x, y = at
    step = bar_mm * factor / _PARTS
    out: list[Item] = []
    for part in range(_PARTS):
        left, right, top = x + part * step, x + (part + 1) * step, y + _THICK_MM
        corners = ((left, y), (right, y), (right, top), (left, top), (left, y))
        fill = Ink.WHITE if part % 2 else Ink.BLACK
        out.append(Area(outer=corners, fill=fill, pen=Pen.NARROW))
    texts = (
        (0, Align.LEFT, "0"),
        (2, Align.CENTRE, length(bar_mm * 2 / _PARTS)),
        (_PARTS, Align.LEFT, f"{length(bar_mm)} mm"),
    )
    for part, align, said in texts:
        out.append(
            Text(
                at=(x + part * step, y + _THICK_MM + 0.6 * style.small_mm),
                text=said,
                height_mm=style.small_mm,
                align=align,
            )
        )
    return tuple(out)


def _round_down(mm: float) -> float:
    """Return the largest of 1, 2, 5, 10, 20, ... that is not larger."""
    power = 10.0 ** math.floor(math.log10(mm))
    return max(step * power for step in (1, 2, 5) if step * power <= mm * (1 + 1e-9))
