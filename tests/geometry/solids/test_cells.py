from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from shapely.geometry import Point

from layout.geometry.bodies.body import Shape
from layout.geometry.solids.cells import HIGH, LOW, X0, X1, spread
from layout.geometry.solids.solid import Solid
from tests import strategies as own
from tests.zoo import ZOO


@pytest.mark.parametrize(
    ("name", "cells"),
    [
        ("box", 1),
        ("wedge across", 1),
        ("letter L", 2),
        ("letter C", 3),
        ("frame", 4),
        ("two holes", 7),
        ("C and comb", 10),
        ("face of no thickness", 2),
        ("boxes face to face", 2),
    ],
)
def test_slabs_hold_a_cell_for_each_interval(name: str, cells: int) -> None:
    assert len(ZOO[name].cells) == cells


@pytest.mark.parametrize("name", list(ZOO))
def test_no_cell_is_too_thin_to_move(name: str) -> None:
    """Moved away, both ends of a slab as thin as rounding would meet."""
    rows = ZOO[name].cells.rows
    assert (rows[X1] - rows[X0]).min() > 1e-10


@pytest.mark.parametrize("name", ZOO)
def test_cells_are_read_only(name: str) -> None:
    with pytest.raises(ValueError, match="read-only"):
        ZOO[name].cells.rows[0] = 0.0


@given(own.solids())
def test_bounds_never_cross(solid: Solid) -> None:
    rows = Shape((solid,)).cells.rows
    assert (rows[X1] > rows[X0]).all()
    for axis in (1, 2):
        assert (rows[HIGH[axis]] - rows[LOW[axis]] > -1e-9).all()


@given(own.solids())
def test_a_point_is_in_a_cell_where_both_outlines_hold_it(solid: Solid) -> None:
    rows = Shape((solid,)).cells.rows
    rng = np.random.default_rng(0)
    low, high = solid.bounds.low, solid.bounds.high
    for x, y, z in rng.uniform(low, high, (30, 3)).tolist():
        inside = solid.side.contains(Point(x, y)) and solid.top.contains(Point(x, z))
        assert _held(rows, (x, y, z)) == inside


def _held(rows: np.ndarray, point: tuple[float, float, float]) -> bool:
    x = point[0]
    part = (x - rows[X0]) / (rows[X1] - rows[X0])
    held = (part >= 0) & (part <= 1)
    for axis in (1, 2):
        for bound, way in ((LOW[axis], 1), (HIGH[axis], -1)):
            start, end = rows[bound]
            held &= way * (point[axis] - (start + (end - start) * part)) >= 0
    return bool(held.any())


def test_spread_copies_each_index() -> None:
    owner, copy = spread(np.array([2, 0, 3]))
    assert owner.tolist() == [0, 0, 2, 2, 2]
    assert copy.tolist() == [0, 1, 0, 1, 2]
