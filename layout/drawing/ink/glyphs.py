"""Letters as outlines: every text of one ink is filled at one go.

The renderer of pictures sets and draws each letter by itself, text by text; here a
letter's outline and what a pair of letters is moved together by are asked once.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, lru_cache
from itertools import pairwise
from typing import Final

import numpy as np
from matplotlib.font_manager import FontProperties, findfont
from matplotlib.ft2font import FT2Font, Kerning, LoadFlags
from matplotlib.path import Path
from numpy.typing import NDArray

from layout.drawing.paper.lettering import EM_PER_HEIGHT, has_outlines
from layout.drawing.paper.scene import Align, Text

__all__ = ["FAMILY", "SHIFT", "is_outlined", "outlines"]

FAMILY: Final = "DejaVu Sans"

_SIZE: Final = 100.0
"""Size at which outlines are read; without hints they are alike at every size."""

SHIFT: Final = {Align.LEFT: 0.0, Align.CENTRE: 0.5, Align.RIGHT: 1.0}
"""Where on a text its place is, of its width."""


def is_outlined(text: Text) -> bool:
    """Tell whether every letter stands for itself: others need a library's layout."""
    return has_outlines(text.text)


def outlines(texts: Sequence[Text]) -> Path:
    """Return the outlines of texts on paper, in mm; blanks have none."""
    placed, codes = [], []
    for each in texts:
        points, own, wide = _line(each.text, bold=each.bold)
        em_mm = EM_PER_HEIGHT * each.height_mm
        at = em_mm * (points - np.array((SHIFT[each.align] * wide, 0.0)))
        if each.turned:
            at = np.stack([-at[:, 1], at[:, 0]], axis=1)
        placed.append(at + np.array(each.at))
        codes.append(own)
    return Path(np.concatenate(placed), np.concatenate(codes))


@lru_cache(maxsize=4096)  # words of the legend and the table come on every sheet
def _line(
    text: str, *, bold: bool
) -> tuple[NDArray[np.float64], NDArray[np.uint8], float]:
    """Return points and codes of a line of letters, and its width, of an em."""
    points: list[NDArray[np.float64]] = [np.empty((0, 2))]
    codes: list[NDArray[np.uint8]] = [np.empty(0, dtype=Path.code_type)]
    x = 0.0
    after = [*(_kerning(a + b, bold=bold) for a, b in pairwise(text)), 0.0]
    for letter, closer in zip(text, after, strict=True):
        own, lines, wide = _letter(letter, bold=bold)
        points.append(own + np.array((x, 0.0)))
        codes.append(lines)
        x += wide + closer
    return np.concatenate(points), np.concatenate(codes), x


@cache
def _letter(
    letter: str, *, bold: bool
) -> tuple[NDArray[np.float64], NDArray[np.uint8], float]:
    """Return points and codes of a letter, and how far on the next stands, of an em."""
    font = _font(bold=bold)
    glyph = font.load_char(ord(letter), flags=LoadFlags.NO_HINTING)
    points, codes = font.get_path()
    own = codes.astype(Path.code_type)
    return points.reshape(-1, 2) / _SIZE, own, glyph.linearHoriAdvance / 65536 / _SIZE


@cache
def _kerning(pair: str, *, bold: bool) -> float:
    """Return by how much the second of two letters stands farther on, of an em."""
    font = _font(bold=bold)
    first, second = (font.get_char_index(ord(each)) for each in pair)
    return font.get_kerning(first, second, Kerning.UNFITTED) / 64 / _SIZE


@cache
def _font(*, bold: bool) -> FT2Font:
    """Return a font of our own: the library sets others' sizes on its shared one."""
    weight = "bold" if bold else "normal"
    font = FT2Font(str(findfont(FontProperties(family=FAMILY, weight=weight))))
    font.set_size(_SIZE, 72)
    return font
