from __future__ import annotations

import pytest

from layout.drawing.sheet import A2, A3, A4, Sheet, planned
from layout.geometry.space import Box

_SHEETS = ((A3, A2), (A3,), (A4, A3))


def _box(depth: float, height: float, width: float) -> Box:
    return Box((0.0, 0.0, 0.0), (depth, height, width))


@pytest.mark.parametrize(
    ("size", "in_case", "sheets", "scale", "sheet"),
    [
        ((430, 460, 236), True, (A3, A2), (1, 2), A2),
        ((430, 460, 236), True, (A3,), (1, 5), A3),
        ((250, 280, 150), True, (A3, A2), (1, 2), A3),
        ((900, 1000, 400), True, (A3, A2), (1, 5), A2),
        ((10, 10, 10), True, (A3,), (1, 2), A3),
        ((10, 10, 10), False, (A3,), (10, 1), A3),
        ((100, 90, 30), False, (A3,), (1, 1), A3),
        ((30000, 20000, 9000), False, (A3,), (1, 500), A3),
    ],
)
def test_largest_standard_scale_on_the_smallest_sheet(
    size: tuple[float, float, float],
    *,
    in_case: bool,
    sheets: tuple[Sheet, ...],
    scale: tuple[int, int],
    sheet: Sheet,
) -> None:
    plan = planned(_box(*size), in_case=in_case, sheets=sheets)
    assert (plan.scale, plan.sheet) == (scale, sheet)


@pytest.mark.parametrize("sheets", _SHEETS)
@pytest.mark.parametrize("size", [(430, 460, 236), (10, 900, 10), (900, 10, 10)])
def test_views_lie_in_the_field_and_the_column_beside_it(
    size: tuple[float, float, float], sheets: tuple[Sheet, ...]
) -> None:
    plan = planned(_box(*size), in_case=True, sheets=sheets)
    for view in plan.views:
        left, bottom, right, top = view.frame
        assert plan.field[0] < left < right < plan.field[2]
        assert plan.field[1] < bottom < top < plan.field[3]
    assert plan.field[2] < plan.column[0]
    assert plan.column[2] == plan.sheet.border[2]


def test_border_after_iso_5457() -> None:
    assert A3.border == (20.0, 10.0, 410.0, 287.0)


def test_a_title_block_is_at_most_180_wide() -> None:
    assert all(each.column_mm <= 180.0 for each in (A4, A3, A2))
