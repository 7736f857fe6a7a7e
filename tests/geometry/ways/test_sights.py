from __future__ import annotations

import math

import numpy as np
import pytest

from layout.geometry.solids.cells import Floats
from layout.geometry.space import Box
from layout.geometry.ways.sights import Bars, sights

WALL = Box((40.0, -50.0, -50.0), (60.0, 50.0, 50.0))


def _seen(*at: tuple[float, float, float], box: Box = WALL) -> Floats:
    return sights(np.array(at, float), Bars([box]))


def test_places_see_each_other_past_a_box_and_never_themselves() -> None:
    seen = _seen((0, 0, 0), (100, 0, 0), (50, 80, 0))
    assert seen[0, 1] == math.inf
    assert seen[0, 2] == seen[2, 0] == pytest.approx(math.hypot(50, 80))
    assert np.isinf(np.diag(seen)).all()


def test_along_a_face_or_an_edge_a_box_bars_nothing() -> None:
    assert np.isfinite(_seen((0, 50, 0), (100, 50, 0))[0, 1])
    assert np.isfinite(_seen((0, 50, 50), (100, 50, 50))[0, 1])
    assert np.isinf(_seen((0, 49.9, 0), (100, 49.9, 0))[0, 1])


def test_no_box_is_no_bar_and_no_place_is_no_row() -> None:
    assert sights(np.zeros((0, 3)), Bars([])).shape == (0, 0)
    two = sights(np.array([(0.0, 0.0, 0.0), (0.0, 3.0, 4.0)]), Bars([]))
    assert two[0, 1] == pytest.approx(5.0)


def test_what_is_seen_is_what_a_dense_line_of_points_meets_no_box_on() -> None:
    rng = np.random.default_rng(7)
    at = rng.uniform(-100, 100, (70, 3))  # more than are looked from at a time
    low = rng.uniform(-80, 40, (6, 3))
    ends = zip(low, low + rng.uniform(5, 60, (6, 3)), strict=True)
    boxes = [Box(tuple(a), tuple(b)) for a, b in ends]
    bars = Bars(boxes)
    seen, parts = sights(at, bars), np.linspace(0.0, 1.0, 400)[:, None]
    assert np.array_equal(seen, seen.T)
    for i, j in rng.integers(0, len(at), (300, 2)):
        if i != j and bars.hold(at[i] + parts * (at[j] - at[i])).any():
            assert seen[i, j] == math.inf
    apart = np.linalg.norm(at[:, None] - at[None], axis=2)
    clear = np.isfinite(seen)
    assert np.allclose(seen[clear], apart[clear])
    assert 0.1 < clear.mean() < 0.9


def test_points_on_a_face_are_not_held() -> None:
    points = np.array([(50.0, 0.0, 0.0), (40.0, 0.0, 0.0), (0.0, 0.0, 0.0)])
    assert Bars([WALL]).hold(points).tolist() == [True, False, False]
