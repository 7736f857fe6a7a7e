from __future__ import annotations

import io

import numpy as np
import pytest
from matplotlib.image import imread
from numpy.typing import NDArray

from layout.drawing.ink.figure import render
from layout.drawing.ink.glyphs import is_outlined, outlines
from layout.drawing.paper.lettering import width_mm
from layout.drawing.paper.scene import Align, Scene, Text


def _text(text: str, *, align: Align = Align.LEFT, turned: bool = False) -> Text:
    return Text(at=(30.0, 20.0), text=text, height_mm=5.0, align=align, turned=turned)


def _points(text: Text) -> NDArray[np.float64]:
    return np.asarray(outlines([text]).vertices, dtype=np.float64)


def _dark(text: Text) -> NDArray[np.bool_]:
    drawn = Scene(
        title="letters",
        description="",
        width_mm=60.0,
        height_mm=40.0,
        scale=(1, 1),
        items=(text,),
        subjects=(),
    )
    picture = np.asarray(imread(io.BytesIO(render(drawn, "png"))), dtype=np.float64)
    dark: NDArray[np.bool_] = picture[:, :, 0] < 0.5
    return dark


@pytest.mark.parametrize("align", Align)
def test_outlines_stand_where_the_text_is_aligned(align: Align) -> None:
    points = _points(_text("HIH", align=align))
    low, high = points.min(axis=0), points.max(axis=0)
    wide = width_mm("HIH", 5.0)
    left = {Align.LEFT: 30.0, Align.CENTRE: 30.0 - wide / 2, Align.RIGHT: 30.0 - wide}
    assert low[0] == pytest.approx(left[align], abs=0.8)  # a letter's own white
    assert high[0] == pytest.approx(left[align] + wide, abs=0.8)
    assert (low[1], high[1]) == pytest.approx((20.0, 25.0), abs=0.01)


def test_turned_text_runs_up() -> None:
    points = _points(_text("HHHH", turned=True))
    low, high = points.min(axis=0), points.max(axis=0)
    assert (low[0], high[0]) == pytest.approx((25.0, 30.0), abs=0.01)
    assert high[1] - low[1] == pytest.approx(width_mm("HHHH", 5.0), abs=1.6)


def test_pairs_are_kerned() -> None:
    def wide(text: str) -> float:
        return float(np.ptp(_points(_text(text))[:, 0]))

    assert wide("AV") < wide("A") + wide("V") - 0.3


def test_letters_of_other_writing_are_left_to_the_library() -> None:
    known, other = _text("Gehäuse 4.5 mm \u2013 2"), _text("\u0394x")
    assert is_outlined(known)
    assert not is_outlined(other)
    assert _dark(other).any()


def test_a_hole_in_a_letter_stays_open() -> None:
    dark = _dark(Text(at=(10.0, 10.0), text="O", height_mm=20.0))
    rows, columns = np.nonzero(dark)
    middle = (rows.min() + rows.max()) // 2, (columns.min() + columns.max()) // 2
    assert not dark[middle]
