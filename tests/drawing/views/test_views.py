from __future__ import annotations

import pytest

from layout.drawing.sheets.sheet import NAMED, plans
from layout.drawing.views.views import Facing, View, bounds_of
from layout.geometry.bodies.body import Body, Shape
from layout.geometry.solids.solid import block
from layout.geometry.space import Box

_CASE = Box((0.0, 0.0, -25.0), (400.0, 420.0, 200.0))


@pytest.fixture
def views() -> tuple[View, View]:
    return plans(_CASE, in_case=True, sheets=NAMED["A2"])[0].views


def test_rear_is_on_the_left_in_both_views(views: tuple[View, View]) -> None:
    for view in views:
        assert view.point((0, 0, 0))[0] < view.point((400, 0, 0))[0]


def test_height_grows_up_the_page_and_width_down(views: tuple[View, View]) -> None:
    side, top = views
    assert side.point((0, 10, 0))[1] > side.point((0, 0, 0))[1]
    assert top.point((0, 0, 10))[1] < top.point((0, 0, 0))[1]


def test_top_view_lies_under_the_side_view_at_the_same_depth(
    views: tuple[View, View],
) -> None:
    side, top = views
    assert top.frame[3] < side.frame[1]
    for depth in (0.0, 123.4, 400.0):
        assert side.point((depth, 0, 0))[0] == top.point((depth, 0, 0))[0]
    assert side.scale == top.scale


def test_silhouette_is_the_outline_in_place_and_to_scale(
    views: tuple[View, View],
) -> None:
    side, top = views
    body = Body(
        name="b", shape=Shape((block((0, 10), (0, 20), (0, 30)),)), at_mm=(5, 6, 7)
    )
    low, high = side.point((5, 6, 0)), side.point((15, 26, 0))
    assert side.silhouette(body).bounds == pytest.approx((*low, *high))
    assert top.silhouette(body).area == pytest.approx(10 * 30 * top.scale**2)
    assert top.silhouette(body).bounds[3] == pytest.approx(top.point((0, 0, 7))[1])


def test_the_side_view_looks_along_width_and_the_top_view_along_height() -> None:
    assert [each.depth_order.value for each in Facing] == ["width", "height"]
    assert [each.across.value for each in Facing] == ["height", "width"]


def test_bounds_of_boxes_hold_all_of_them() -> None:
    boxes = [Box((0, 1, 2), (3, 4, 5)), Box((-1, 2, 2), (2, 9, 3))]
    assert bounds_of(boxes) == Box((-1, 1, 2), (3, 9, 5))
