"""Boxes of lettering on paper: what must not be drawn over."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeAlias

from layout.drawing.paper.lettering import ASCENT, DESCENT, width_mm
from layout.drawing.paper.scene import Align, Balloon, Dimension, Item, Scene, Text

__all__ = [
    "Frame",
    "apart",
    "text_box",
    "texts",
    "texts_of",
    "within",
]

Frame: TypeAlias = tuple[float, float, float, float]
"""Left, bottom, right, top, in mm on paper."""

_SHIFT = {Align.LEFT: 0.0, Align.CENTRE: 0.5, Align.RIGHT: 1.0}


def text_box(text: Text) -> Frame:
    """Return the box around a line of text, accents and tails included."""
    width = width_mm(text.text, text.height_mm, bold=text.bold)
    x, y = text.at
    start = -_SHIFT[text.align] * width
    low, high = -DESCENT * text.height_mm, ASCENT * text.height_mm
    if text.turned:
        return x - high, y + start, x - low, y + start + width
    return x + start, y + low, x + start + width, y + high


def texts(scene: Scene) -> tuple[Text, ...]:
    """Return every line of text of a scene, those within other items included."""
    return texts_of(scene.items)


def texts_of(items: Iterable[Item]) -> tuple[Text, ...]:
    """Return every line of text among items, those within other items included."""
    out: list[Text] = []
    for item in items:
        match item:
            case Text():
                out.append(item)
            case Dimension(text=Text() as text) | Balloon(value=Text() as text):
                out.append(text)
            case _:
                pass
    return tuple(out)


def apart(a: Frame, b: Frame, by_mm: float = 0.0) -> bool:
    """Tell whether two boxes lie at least so far apart."""
    return (
        a[2] + by_mm <= b[0]
        or b[2] + by_mm <= a[0]
        or a[3] + by_mm <= b[1]
        or b[3] + by_mm <= a[1]
    )


def within(a: Frame, b: Frame) -> bool:
    """Tell whether a box lies in another."""
    return a[0] >= b[0] and a[1] >= b[1] and a[2] <= b[2] and a[3] <= b[3]
