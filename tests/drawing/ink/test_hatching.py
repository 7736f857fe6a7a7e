from __future__ import annotations

import math

import pytest
from shapely.geometry import LineString, Point, Polygon, box

from layout.drawing.ink.hatching import hatching
from layout.drawing.paper.style import STYLE, Pattern

_AREA = box(3, 4, 33, 24)


@pytest.mark.parametrize("angle_deg", [0.0, 45.0, 65.0, 90.0, -45.0])
def test_lines_lie_in_the_area_at_the_angle_and_distance(angle_deg: float) -> None:
    lines = hatching(_AREA, Pattern((angle_deg,), 2.0))
    assert sum(math.dist(*each) for each in lines) == pytest.approx(
        _AREA.area / 2.0, rel=0.1
    )
    for a, b in lines:
        assert _AREA.buffer(1e-6).contains(LineString([a, b]))
        turn = math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])) - angle_deg
        assert min(turn % 180, 180 - turn % 180) == pytest.approx(0.0, abs=1e-6)


def test_holes_stay_free() -> None:
    ring = Polygon(_AREA.exterior, [Point(15, 14).buffer(5).exterior])
    for a, b in hatching(ring, Pattern((0.0, 90.0), 1.0)):
        assert LineString([a, b]).distance(Point(15, 14)) > 4.9


def test_dashes_are_broken_and_staggered() -> None:
    lines = hatching(_AREA, Pattern((0.0,), 4.0, (3.0, 3.0)))
    assert max(math.dist(*each) for each in lines) <= 3.0 + 1e-9
    starts = {round(a[0] % 6.0, 6) for a, b in lines if math.dist(a, b) > 2.9}
    assert starts == {0.0, 3.0}


def test_neighbours_of_one_kind_share_their_lines() -> None:
    left = hatching(box(0, 0, 10, 10), Pattern((0.0,), 2.5))
    right = hatching(box(10, 0, 20, 10), Pattern((0.0,), 2.5))
    assert {a[1] for a, _ in left} == {a[1] for a, _ in right}


def test_an_empty_area_has_no_lines() -> None:
    assert all(not hatching(Polygon(), each) for each in STYLE.patterns.values())
