from __future__ import annotations

import pytest

from layout.geometry.space import Axis, Box, Direction, plus


def test_axes_stand_in_the_order_of_a_vector() -> None:
    assert [axis.index for axis in Axis] == [0, 1, 2]
    assert [axis.value for axis in Axis] == ["depth", "height", "width"]


@pytest.mark.parametrize("direction", Direction)
def test_a_direction_and_its_opposite_cancel(direction: Direction) -> None:
    opposite = direction.opposite
    assert opposite is not direction
    assert opposite.opposite is direction
    assert plus(direction.vector, opposite.vector) == (0, 0, 0)
    assert direction.vector[direction.axis.index] == direction.sign


def test_a_box_that_runs_backwards_is_refused() -> None:
    with pytest.raises(ValueError, match="runs backwards"):
        Box((0, 0, 0), (1, -1, 1))


def test_a_moved_box() -> None:
    assert Box((0, 0, 0), (1, 2, 3)).moved((1, 1, -1)) == Box((1, 1, -1), (2, 3, 2))
