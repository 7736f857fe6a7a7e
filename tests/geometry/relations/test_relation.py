from __future__ import annotations

import pytest

from layout.geometry.relations.relation import Witness
from layout.geometry.space import Axis, Vector


@pytest.mark.parametrize(
    ("to_mm", "axis"),
    [
        ((5, 0, 0), Axis.DEPTH),
        ((0, -5, 0), Axis.HEIGHT),
        ((0, 1e-7, 5), Axis.WIDTH),
        ((3, 4, 0), None),
        ((0, 0, 0), None),
    ],
)
def test_a_gap_has_an_axis_where_its_points_differ_along_one(
    to_mm: Vector, axis: Axis | None
) -> None:
    assert Witness((0, 0, 0), to_mm).axis is axis


def test_a_witness_is_as_long_as_its_points_are_apart() -> None:
    assert Witness((1, 1, 1), (3, 4, 7)).length_mm == 7
