from __future__ import annotations

import pytest
from hypothesis import given

from layout.geometry.bodies.body import Body, Shape
from layout.geometry.errors import EmptyBodyError
from layout.geometry.solids.solid import Solid, block, rectangle
from layout.geometry.space import Vector
from tests import strategies as own
from tests.zoo import ZOO, animal


def test_no_solid_is_refused() -> None:
    with pytest.raises(EmptyBodyError, match="at least one solid"):
        Shape(())


def test_a_moved_body_shares_its_cells() -> None:
    body = animal("C and comb")
    moved = body.moved((1, 2, 3)).moved((1, 0, 0))
    assert moved.shape is body.shape
    assert moved.at_mm == (2, 2, 3)
    assert moved.name == body.name


@pytest.mark.parametrize("name", ZOO)
def test_bounds_are_those_of_the_solids(name: str) -> None:
    bounds = animal(name).bounds
    solids = [solid.bounds for solid in ZOO[name].solids]
    for axis in range(3):
        low = min(each.low[axis] for each in solids)
        high = max(each.high[axis] for each in solids)
        # A face of no thickness reaches nowhere, nor do ranges that stick out a little.
        assert bounds.low[axis] == pytest.approx(low, abs=1e-6)
        assert bounds.high[axis] == pytest.approx(high, abs=1e-6)


@given(own.bodies(), own.decimal_moves())
def test_bounds_move_along(body: Body, by_mm: Vector) -> None:
    assert body.moved(by_mm).bounds.low == pytest.approx(
        [low + by for low, by in zip(body.bounds.low, by_mm, strict=True)]
    )


def test_bodies_of_equal_shape_and_place_are_equal() -> None:
    one, other = (
        Body(name="a", shape=Shape((block((0, 1), (0, 1), (0, 1)),))) for _ in range(2)
    )
    assert one == other
    assert one != other.moved((0.1, 0, 0))


def test_outlines_that_enclose_nothing_are_refused() -> None:
    side, top = rectangle((0, 4e-7), (0, 1)), rectangle((5e-7, 9e-7), (0, 1))
    with pytest.raises(EmptyBodyError, match="no volume"):
        Shape((Solid(side, top),))
