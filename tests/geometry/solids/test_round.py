from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from shapely.geometry import Point
from shapely.geometry.base import BaseGeometry

from layout.geometry.solids.round import (
    CHORD_MM,
    NEST_MM,
    disc_outline,
    hole_outline,
    rod_along_depth,
)

_DIAMETERS_MM = (0.5, 3.0, 25.0, 120.0, 200.0)


def _radii(outline: BaseGeometry, centre: tuple[float, float]) -> np.ndarray:
    u, v = (shapely.get_coordinates(outline) - centre).T
    radii: np.ndarray = np.hypot(u, v)
    return radii


@pytest.mark.parametrize("diameter_mm", _DIAMETERS_MM)
def test_a_disc_is_drawn_outside_its_circle(diameter_mm: float) -> None:
    outline, radius = disc_outline((7, -3), diameter_mm), diameter_mm / 2
    assert outline.exterior.distance(Point(7, -3)) == pytest.approx(radius)
    assert _radii(outline, (7, -3)).max() < radius + CHORD_MM
    low_u, low_v, high_u, high_v = outline.bounds
    assert (high_u - low_u, high_v - low_v) == pytest.approx((diameter_mm, diameter_mm))


@pytest.mark.parametrize("diameter_mm", _DIAMETERS_MM)
def test_a_hole_is_drawn_inside_its_circle(diameter_mm: float) -> None:
    outline, radius = hole_outline((7, -3), diameter_mm), diameter_mm / 2
    assert _radii(outline, (7, -3)) == pytest.approx(radius)
    assert outline.exterior.distance(Point(7, -3)) > radius - CHORD_MM


@pytest.mark.parametrize("diameter_mm", _DIAMETERS_MM)
def test_a_rod_along_depth_covers_its_circle_and_little_more(
    diameter_mm: float,
) -> None:
    solids = rod_along_depth((0, 9), (5, 8), diameter_mm)
    rectangles = [
        shapely.box(
            s.bounds.low[1], s.bounds.low[2], s.bounds.high[1], s.bounds.high[2]
        )
        for s in solids
    ]
    section = shapely.union_all(rectangles)
    turns = np.linspace(0, 2 * math.pi, 3600)
    circle = np.column_stack([np.cos(turns), np.sin(turns)]) * diameter_mm / 2
    rim = shapely.points(circle + np.array([5, 8]))
    assert shapely.distance(section, rim).max() < 1e-9
    assert _radii(section, (5, 8)).max() <= diameter_mm / 2 + NEST_MM
    assert {s.bounds.low[0] for s in solids} == {0.0}
    assert {s.bounds.high[0] for s in solids} == {9.0}
