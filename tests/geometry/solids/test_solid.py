from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from shapely.geometry import Polygon

from layout.geometry.errors import OutlineError, SpanError
from layout.geometry.solids.solid import Solid, block, rectangle
from tests import strategies as own

_FLAT = rectangle((0, 10), (0, 5))

with np.errstate(invalid="ignore"):
    _NAN = Polygon([(0, 0), (10, 0), (10, math.nan)])
    _INFINITE = Polygon([(0, 0), (math.inf, 0), (10, 5)])


@pytest.mark.parametrize(
    ("outline", "reason"),
    [
        (Polygon(), "empty"),
        (Polygon([(0, 0), (10, 10), (10, 0), (0, 10)]), "not a simple area"),
        (_NAN, "not finite"),
        (_INFINITE, "not finite"),
        (Polygon([(0, 0), (10, 0), (5, 0)]), "not a simple area"),
        (
            Polygon(_FLAT.exterior, [rectangle((20, 30), (1, 2)).exterior]),
            "not a simple area",
        ),
    ],
    ids=["empty", "bow tie", "nan", "infinity", "flat", "hole outside"],
)
@pytest.mark.parametrize("name", ["side", "top"])
def test_bad_outlines_are_refused(outline: Polygon, reason: str, name: str) -> None:
    outlines = {"side": _FLAT, "top": _FLAT} | {name: outline}
    with pytest.raises(OutlineError, match=f"{name} outline .*{reason}"):
        Solid(**outlines)


def test_outlines_of_unequal_depth_are_refused() -> None:
    with pytest.raises(SpanError, match=r"0 to 10 mm but top covers x 0 to 10\.1 mm"):
        Solid(_FLAT, rectangle((0, 10.1), (0, 5)))


def test_depths_may_differ_by_rounding() -> None:
    solid = Solid(_FLAT, rectangle((5e-7, 10 - 5e-7), (0, 5)))
    assert solid.bounds.high == (10, 5, 5)


def test_the_same_ring_from_another_corner_is_the_same_solid() -> None:
    ring = list(_FLAT.exterior.coords)[:-1]
    turned = Polygon([*ring[2:], *ring[:2]][::-1])
    assert Solid(turned, _FLAT) == Solid(_FLAT, _FLAT)
    assert hash(Solid(turned, _FLAT)) == hash(Solid(_FLAT, _FLAT))


@given(own.spans(), own.spans(), own.spans())
def test_a_block_is_its_three_intervals(x: own.Span, y: own.Span, z: own.Span) -> None:
    bounds = block(x, y, z).bounds
    assert list(zip(bounds.low, bounds.high, strict=True)) == [x, y, z]
