from __future__ import annotations

import pytest

from layout.drawing.sheets.sheet import CHOSEN_FROM, NAMED, Plan, Sheet, plans
from layout.geometry.space import Box

_A2, _A3, _A4 = NAMED["A2"], NAMED["A3"], NAMED["A4"]
_LYING = (_A4[0], _A3[0], _A2[0])


def _box(depth: float, height: float, width: float) -> Box:
    return Box((0.0, 0.0, 0.0), (depth, height, width))


@pytest.mark.parametrize(
    ("size", "in_case", "sheets", "scale", "sheet"),
    [
        ((430, 460, 236), True, _A2, (1, 2), _A2[0]),
        ((430, 460, 210), True, CHOSEN_FROM, (1, 5), _A4[0]),
        ((430, 460, 236), True, _A3, (1, 5), _A3[0]),
        ((250, 280, 150), True, CHOSEN_FROM, (1, 2), _A3[0]),
        ((900, 1000, 400), True, CHOSEN_FROM, (1, 10), _A3[0]),
        ((900, 1000, 400), True, _A2, (1, 5), _A2[0]),
        ((10, 10, 10), True, _A3, (1, 2), _A3[0]),
        ((10, 10, 10), False, _A3[:1], (10, 1), _A3[0]),
        ((100, 90, 30), False, _A3[:1], (1, 1), _A3[0]),
        ((30000, 20000, 9000), False, _A3[:1], (1, 200), _A3[0]),
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
    plan = plans(_box(*size), in_case=in_case, sheets=sheets)[0]
    assert (plan.scale, plan.sheet) == (scale, sheet)


def _plan(size: tuple[float, float, float], sheet: Sheet) -> Plan:
    (plan,) = plans(_box(*size), in_case=True, sheets=(sheet,))
    return plan


@pytest.mark.parametrize("sheet", [each for both in NAMED.values() for each in both])
@pytest.mark.parametrize("size", [(430, 460, 236), (10, 900, 10), (900, 10, 10)])
def test_views_lie_in_the_field_and_nothing_in_anything_else(
    size: tuple[float, float, float], sheet: Sheet
) -> None:
    plan = _plan(size, sheet)
    left, bottom, right, top = plan.field
    for view in plan.views:
        assert left < view.frame[0] < view.frame[2] < right
        assert bottom < view.frame[1] < view.frame[3] < top
    rooms = [plan.field, plan.column, *([plan.aside] if plan.aside else [])]
    frame = sheet.border
    for n, one in enumerate(rooms):
        assert frame[0] <= one[0] < one[2] <= frame[2] + 1e-9
        assert frame[1] <= one[1] < one[3] <= frame[3] + 1e-9
        for other in rooms[n + 1 :]:
            beside = one[2] <= other[0] + 1e-9 or other[2] <= one[0] + 1e-9
            assert beside or one[3] <= other[1] + 1e-9 or other[3] <= one[1] + 1e-9


def test_the_side_view_stands_over_the_top_view_with_the_same_depth() -> None:
    for sheet in _LYING:
        side, top = _plan((430, 460, 236), sheet).views
        assert side.frame[0::2] == top.frame[0::2]
        assert side.frame[1] > top.frame[3]


def test_a_mid_tower_has_room_for_details_on_a3_and_not_on_a4() -> None:
    assert _plan((430, 460, 236), _A3[0]).aside is not None
    assert _plan((430, 520, 236), _A4[0]).aside is None


def test_border_after_iso_5457() -> None:
    assert _A3[0].border == (20.0, 10.0, 410.0, 287.0)
    assert _A3[1].border == (20.0, 10.0, 287.0, 410.0)


def test_every_size_lies_and_stands() -> None:
    for lying, standing in NAMED.values():
        assert not lying.stands
        assert standing.stands
        assert (lying.width_mm, lying.height_mm) == (
            standing.height_mm,
            standing.width_mm,
        )


def test_text_beside_the_views_is_at_most_180_wide() -> None:
    for sheet in _LYING:
        left, _, right, _ = _plan((430, 460, 236), sheet).column
        assert right - left <= 180.0
