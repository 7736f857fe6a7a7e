from __future__ import annotations

import math

import pytest

from layout.drawing.paper.boxes import text_box
from layout.drawing.paper.dimensions import (
    arrows,
    dimension_lines,
    gap_dimension,
    level,
    upright,
)
from layout.drawing.paper.scene import Dimension, Ink, Pen, Point
from layout.drawing.paper.style import STYLE


def _gap(start: Point, end: Point) -> Dimension:
    return gap_dimension(
        (start, end), pen=Pen.NARROW, ink=Ink.CLEAR, ref="r", style=STYLE
    )


def test_value_stands_over_the_middle_of_a_level_line() -> None:
    made = level(((10, 50), (60, 50)), 40.0, 100.0, style=STYLE)
    assert made.text is not None
    left, bottom, right, _ = text_box(made.text)
    assert made.text.text == "100"
    assert (left + right) / 2 == pytest.approx(35.0)
    assert bottom > 40.0 - STYLE.small_mm / 2 + STYLE.pad_mm


def test_value_of_an_upright_line_reads_upwards_on_its_left() -> None:
    made = upright(((50, 10), (50, 90)), 40.0, 160.0, style=STYLE)
    assert made.text is not None
    assert made.text.turned
    assert text_box(made.text)[2] < 40.0


@pytest.mark.parametrize("size", [3.0, 6.0, 8.0, 40.0])
def test_no_value_is_crossed_by_its_own_line(size: float) -> None:
    for made in (
        level(((10, 50), (10 + size, 50)), 40.0, 2 * size, style=STYLE),
        upright(((50, 10), (50, 10 + size)), 40.0, 2 * size, style=STYLE),
    ):
        assert made.text is not None
        left, bottom, right, top = text_box(made.text)
        for (x0, y0), (x1, y1) in dimension_lines(made, STYLE)[:1]:
            over = x0 <= right and x1 >= left and y0 <= top and y1 >= bottom
            assert not over


def test_extension_lines_pass_slightly_beyond_the_dimension_line() -> None:
    made = level(((10, 50), (60, 50)), 40.0, 100.0, style=STYLE)
    _, first, second = dimension_lines(made, STYLE)
    assert first == ((10, 50), (10, 40.0 - STYLE.overshoot_mm))
    assert second == ((60, 50), (60, 40.0 - STYLE.overshoot_mm))


def test_a_gap_needs_no_extension_lines() -> None:
    assert len(dimension_lines(_gap((0, 0), (30, 0)), STYLE)) == 1


def test_arrows_stand_inside_a_long_line_and_point_outwards() -> None:
    long = _gap((0, 0), (30, 0))
    (tip, *foot), (other, *_) = arrows(long, STYLE)
    assert (tip, other) == ((0, 0), (30, 0))
    assert all(x == pytest.approx(STYLE.arrow_mm) for x, _ in foot)


def test_arrows_of_a_short_gap_stand_outside_with_tails() -> None:
    short = _gap((0, 0), (2, 0))
    assert short.outside
    (_, *foot), _ = arrows(short, STYLE)
    assert all(x == pytest.approx(-STYLE.arrow_mm) for x, _ in foot)
    ((start, end),) = dimension_lines(short, STYLE)
    assert start[0] < -STYLE.arrow_mm
    assert end[0] > 2 + STYLE.arrow_mm


def test_arrows_are_at_least_15_degrees_wide() -> None:
    (tip, a, b), _ = arrows(_gap((0, 0), (0, 30)), STYLE)
    half = math.atan2(math.dist(a, b) / 2, abs(a[1] - tip[1]))
    assert math.degrees(2 * half) >= 15.0


def test_a_line_of_no_length_has_arrows_all_the_same() -> None:
    assert len(arrows(_gap((5, 5), (5, 5)), STYLE)) == 2
