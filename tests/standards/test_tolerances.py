from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.errors import LayoutError
from layout.standards.tolerances import (
    LEAST_MM,
    TABLE,
    UP_TO_MM,
    ToleranceClass,
    ToleranceError,
    general_tolerance_mm,
)

SIZES = st.floats(min_value=3.1, max_value=2000.0)


@pytest.mark.parametrize("cls", ToleranceClass)
@pytest.mark.parametrize("upper_mm", UP_TO_MM[1:-2])
def test_a_range_ends_with_its_upper_size(upper_mm: float, cls: ToleranceClass) -> None:
    at = general_tolerance_mm(upper_mm, cls)
    assert general_tolerance_mm(math.nextafter(upper_mm, 0.0), cls) == at
    assert general_tolerance_mm(math.nextafter(upper_mm, math.inf), cls) >= at


@given(st.tuples(SIZES, SIZES), st.sampled_from(ToleranceClass))
def test_a_larger_size_is_never_held_closer(
    sizes_mm: tuple[float, float], cls: ToleranceClass
) -> None:
    smaller_mm, larger_mm = sorted(sizes_mm)
    assert general_tolerance_mm(smaller_mm, cls) <= general_tolerance_mm(larger_mm, cls)


@given(SIZES)
def test_each_class_is_wider_than_the_one_before(size_mm: float) -> None:
    widths = [general_tolerance_mm(size_mm, cls) for cls in ToleranceClass]
    assert all(closer < wider for closer, wider in pairwise(widths))


@pytest.mark.parametrize("cls", ToleranceClass)
def test_every_class_has_a_place_for_every_range(cls: ToleranceClass) -> None:
    assert len(TABLE[cls]) == len(UP_TO_MM)


@pytest.mark.parametrize(
    ("size_mm", "cls"),
    [
        (math.nextafter(LEAST_MM, 0.0), ToleranceClass.MEDIUM),
        (0.0, ToleranceClass.MEDIUM),
        (-10.0, ToleranceClass.MEDIUM),
        (4000.1, ToleranceClass.COARSE),
        (math.inf, ToleranceClass.COARSE),
        (math.nan, ToleranceClass.COARSE),
        (2000.1, ToleranceClass.FINE),
        (3.0, ToleranceClass.VERY_COARSE),
    ],
)
def test_outside_the_table_there_is_no_general_tolerance(
    size_mm: float, cls: ToleranceClass
) -> None:
    with pytest.raises(ToleranceError, match="has no general tolerance of class"):
        general_tolerance_mm(size_mm, cls)
    assert issubclass(ToleranceError, LayoutError)
    assert issubclass(ToleranceError, ValueError)
