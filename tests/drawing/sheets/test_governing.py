from __future__ import annotations

from dataclasses import replace

import pytest

from layout.drawing.composed.compose import scene
from layout.drawing.paper.boxes import text_box
from layout.drawing.paper.dimensions import dimension_lines
from layout.drawing.paper.scene import Dimension
from layout.drawing.paper.style import STYLE
from layout.drawing.sheets.governing import Extent, stacked
from tests.build.machines import built, tower, tower_case
from tests.drawing.samples import check_of


def _extent(low: float, high: float, ref: str = "x") -> Extent:
    return Extent(
        ends=((low, 0.0), (high, 0.0)),
        low=low,
        high=high,
        value_mm=5 * (high - low),
        reach_mm=0.0,
        ref=ref,
    )


def _rows(*spans: tuple[float, float], rows: int = 3) -> list[tuple[int, float, float]]:
    wanted = [_extent(*each) for each in spans]
    return [(row, each.low, each.high) for row, each in stacked(wanted, rows, STYLE)]


def test_what_lies_side_by_side_shares_a_row() -> None:
    assert _rows((0, 20), (30, 50)) == [(0, 0, 20), (0, 30, 50)]


def test_the_longer_stands_outside_the_shorter() -> None:
    assert _rows((0, 20), (0, 60)) == [(0, 0, 20), (1, 0, 60)]


def test_no_extension_line_cuts_a_dimension_line() -> None:
    assert _rows((0, 40), (20, 70)) == [(0, 0, 40)]


def test_rows_are_few_and_numbers_have_room() -> None:
    assert _rows((0, 20), (0, 60), rows=1) == [(0, 0, 20)]
    assert _rows((0, 2)) == []


def test_lengths_are_dimensioned_under_the_views_and_heights_beside_them() -> None:
    build = built(tower_case(), tower())
    drawn = scene(build, check_of(replace(build), ()))
    told = {
        each.text.text: each
        for each in drawn.items
        if isinstance(each, Dimension) and each.text is not None
    }
    factor = drawn.scale[0] / drawn.scale[1]
    for size_mm, along in ((160.0, 0), (155.0, 1), (430.0, 0), (460.0, 1)):
        each = told[f"{size_mm:.0f}"]
        drawn_mm = abs(each.end[along] - each.start[along])
        assert drawn_mm == pytest.approx(size_mm * factor)


def test_stacked_sizes_do_not_cross() -> None:
    build = built(tower_case(), tower())
    drawn = scene(build, check_of(replace(build), ()))
    stacks = [each for each in drawn.items if isinstance(each, Dimension) and each.text]
    for each in stacks:
        assert each.text is not None
        left, bottom, right, top = text_box(each.text)
        for other in stacks:
            for (x0, y0), (x1, y1) in dimension_lines(other, STYLE):
                apart_x = max(x0, x1) <= left or min(x0, x1) >= right
                apart_y = max(y0, y1) <= bottom or min(y0, y1) >= top
                assert apart_x or apart_y, (each.text.text, other.text)
