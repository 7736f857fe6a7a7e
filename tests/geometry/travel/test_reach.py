"""Where cells are nearer than a distance, against the distance itself."""

from __future__ import annotations

import math

import numpy as np
import pytest
from numpy.typing import NDArray

from layout.geometry.pairs.gap import nearest_places
from layout.geometry.solids.cells import moved
from layout.geometry.space import Axis
from layout.geometry.travel.reach import near_intervals
from tests.geometry.random_bodies import random_pairs

Rows = NDArray[np.float64]


@pytest.fixture(scope="module")
def cells() -> tuple[Rows, Rows, Rows]:
    """Return some cells of random pairs, and a distance for each pair of cells."""
    rng = np.random.default_rng(41)
    a: list[Rows] = []
    b: list[Rows] = []
    for one, other in random_pairs(41, 300):
        for body, into in ((one, a), (other, b)):
            rows = moved(body.shape.cells, body.at_mm)
            into.append(rows[:, rng.integers(rows.shape[1], size=20)])
    count = 20 * len(a)
    within = 10 ** rng.uniform(-5.0, 1.7, count)
    return np.concatenate(a, axis=1), np.concatenate(b, axis=1), within


def _distance(a: Rows, b: Rows, by: tuple[Axis, Rows]) -> Rows:
    """Return how far the cells of a stand from those of b, shifted along an axis."""
    axis, shift = by
    rows = b.copy()
    own = {Axis.DEPTH: slice(2), Axis.HEIGHT: slice(2, 6), Axis.WIDTH: slice(6, 10)}
    rows[own[axis]] += shift
    distance: Rows = np.sqrt(nearest_places(a, rows).square)
    return distance


@pytest.mark.parametrize("axis", Axis)
def test_at_both_ends_cells_stand_so_far_apart(
    cells: tuple[Rows, Rows, Rows], axis: Axis
) -> None:
    a, b, within = cells
    low, high = near_intervals(a, b, axis, within_mm=within)
    near = np.flatnonzero(low <= high)
    assert len(near) > 1000
    for end in (low, high):
        gaps = _distance(a[:, near], b[:, near], (axis, end[near]))
        assert np.abs(gaps - within[near]).max() < 1e-11


@pytest.mark.parametrize("axis", Axis)
def test_they_are_nearer_within_and_only_there(
    cells: tuple[Rows, Rows, Rows], axis: Axis
) -> None:
    a, b, within = cells
    low, high = near_intervals(a, b, axis, within_mm=within)
    for shift in np.linspace(-160.0, 160.0, 65):
        gaps = _distance(a, b, (axis, np.full(len(within), shift)))
        inside = (low < shift) & (shift < high)
        clear = np.abs(gaps - within) > 1e-9
        assert (inside == (gaps < within))[clear].all()


def test_a_slope_is_met_square_to_its_face() -> None:
    """A wedge rising at 30 degrees: a body above it keeps r / cos 30 upright."""
    rise = math.tan(math.radians(30))
    wedge = np.array([[0, 100, 0, 0, 0, 100 * rise, 0, 0, 10, 10]], float).T
    point = np.array([[50, 50.001, 80, 80, 90, 90, 2, 2, 4, 4]], float).T
    _, high = near_intervals(wedge, point, Axis.HEIGHT, within_mm=np.array([3.0]))
    expected = 50.001 * rise + 3.0 / math.cos(math.radians(30)) - 80
    assert high[0] == pytest.approx(expected, abs=1e-9)
