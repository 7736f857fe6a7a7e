"""General tolerances and stacks against the published tables and examples."""

from __future__ import annotations

import pytest

from layout.questions.tolerance import tolerance_mm
from layout.standards.figure import Standing
from layout.standards.tolerances import (
    STANDING,
    ToleranceClass,
    ToleranceError,
    general_tolerance_mm,
)
from tests.questions.builds import link

# ISO 2768-1, linear sizes, from memory (unverified), typed here a second time as it is
# printed: one line a range, classes f m c v.
PRINTED = """
   0.5     3  0.05  0.1  0.2    -
     3     6  0.05  0.1  0.3  0.5
     6    30   0.1  0.2  0.5    1
    30   120  0.15  0.3  0.8  1.5
   120   400   0.2  0.5  1.2  2.5
   400  1000   0.3  0.8    2    4
  1000  2000   0.5  1.2    3    6
  2000  4000     -    2    4    8
"""
RANGES = [line.split() for line in PRINTED.strip().splitlines()]


@pytest.mark.parametrize("row", RANGES, ids=lambda row: f"{row[0]} to {row[1]}")
@pytest.mark.parametrize("cls", ToleranceClass)
def test_general_tolerances_are_those_of_the_table(
    row: list[str], cls: ToleranceClass
) -> None:
    middle_mm = (float(row[0]) + float(row[1])) / 2
    printed = row[2 + list(ToleranceClass).index(cls)]
    assert STANDING is Standing.MEMORY
    if printed == "-":
        with pytest.raises(ToleranceError, match="no general tolerance"):
            general_tolerance_mm(middle_mm, cls)
    else:
        assert general_tolerance_mm(middle_mm, cls) == float(printed)


def _stacked_mm(*plus_minus: float) -> float:
    """Return the scatter of a chain along one axis."""
    chain = tuple(
        ("part", link(str(place), (each, 0.0, 0.0)))
        for place, each in enumerate(plus_minus)
    )
    return tolerance_mm(chain, (1.0, 0.0, 0.0))


# Published root-sum-of-squares results:
# ten equal parts, 10 x 0.1 -> 0.316 (a page of unknown standing, secondary);
# three parts -> 0.27 (the same, secondary);
# clip pocket -> 0.18 (physicalai-bmi.org, tolerance stack-up, seen);
# housing gap in inches -> 0.00794 (ficientdesign.com, stack-up analysis, seen).
@pytest.mark.parametrize(
    ("plus_minus", "published", "within"),
    [
        ((0.1,) * 10, 0.316, 0.001),
        ((0.20, 0.10, 0.15), 0.27, 0.005),
        ((0.05, 0.10, 0.12, 0.08), 0.18, 0.005),
        ((0.005, 0.005, 0.003, 0.002), 0.00794, 0.00001),
    ],
    ids=["ten equal parts", "three parts", "clip pocket", "housing gap"],
)
def test_stacks_give_the_published_root_sum_of_squares(
    plus_minus: tuple[float, ...], published: float, within: float
) -> None:
    assert _stacked_mm(*plus_minus) == pytest.approx(published, abs=within)
