"""General tolerances and stacks against the published tables and examples."""

from __future__ import annotations

import numpy as np
import pytest

from layout.files.numbers import figure
from layout.files.tree import Scalar
from layout.questions.findings.tolerance import (
    STATED_SIGMA,
    Stacking,
    chance_under,
    tolerance_mm,
)
from layout.standards.figure import Standing
from layout.standards.processors import SOCKETS
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


# Published stacks, root sum of squares and worst case: the processor's (drawing of a
# socket family: 3.4 +/-0.2 under 4.381 +/-0.269 gives 7.781 +/-0.335, seen; its worst
# case is calculated), the clip pocket, the housing gap and the two of unknown standing
# as above.
@pytest.mark.parametrize(
    ("sizes", "plus_minus", "gap", "rss", "worst", "within"),
    [
        ((3.4, 4.381), (0.2, 0.269), 7.781, 0.335, 0.469, 0.0005),
        ((20.2, -6, -9, -5), (0.05, 0.10, 0.12, 0.08), 0.20, 0.18, 0.35, 0.005),
        (
            (4.020, -2.0, -1.5, -0.5),
            (0.005, 0.005, 0.003, 0.002),
            0.020,
            0.00794,
            0.015,
            0.00001,
        ),
        ((0.0,), (0.1,) * 10, 0.0, 0.316, 1.0, 0.001),
        ((17.0,), (0.20, 0.10, 0.15), 17.0, 0.27, 0.45, 0.005),
    ],
    ids=["processor", "clip pocket", "housing gap", "ten parts", "three parts"],
)
def test_stacks_give_the_published_sums(  # noqa: PLR0917 (columns of a table)
    sizes: tuple[float, ...],
    plus_minus: tuple[float, ...],
    gap: float,
    rss: float,
    worst: float,
    within: float,
) -> None:
    chain = tuple(
        ("part", link(str(place), (each, 0.0, 0.0)))
        for place, each in enumerate(plus_minus)
    )
    along = (1.0, 0.0, 0.0)
    assert sum(sizes) == pytest.approx(gap, abs=1e-9)
    assert tolerance_mm(chain, along) == pytest.approx(rss, abs=within)
    stacked_mm = tolerance_mm(chain, along, Stacking(worst_case=True))
    assert stacked_mm == pytest.approx(worst, abs=1e-9)


def test_the_processors_stack_is_the_boards_own() -> None:
    # The published sum is what a board of that socket hands to its cooler.
    stack = SOCKETS["LGA1155"].stack
    assert stack.mm == pytest.approx(7.781, abs=1e-9)
    assert stack.plus_minus_mm == pytest.approx(0.335, abs=0.0005)


def test_confidence_scales_the_root_sum_of_squares_alone() -> None:
    chain = (("part", link("one", (0.3, 0.0, 0.0))),)
    along = (1.0, 0.0, 0.0)
    assert tolerance_mm(chain, along, Stacking(sigma=6.0)) == pytest.approx(0.6)
    worst = Stacking(worst_case=True, sigma=6.0)
    assert tolerance_mm(chain, along, worst) == pytest.approx(0.3)


# "RSS with plus-minus meaning 3 sigma expects about 0.27 % outside" (the pages above):
# both sides together, so half of it below.
def test_at_the_edge_of_its_tolerance_a_gap_falls_short_as_often_as_published() -> None:
    assert 2 * chance_under(0.3, 0.3) == pytest.approx(0.0027, abs=0.00005)


@pytest.mark.parametrize("need_mm", [-0.1, 0.1, 0.15, 0.2, 0.27])
def test_a_fixed_simulation_of_the_clip_pocket_agrees_with_the_probability(
    need_mm: float,
) -> None:
    trials = 200_000
    rng = np.random.default_rng(20261125)
    plus_minus = np.array((0.05, 0.10, 0.12, 0.08))
    sizes = np.array((20.2, -6.0, -9.0, -5.0))
    drawn = sizes + rng.normal(0.0, plus_minus / STATED_SIGMA, (trials, 4))
    share = float((drawn.sum(axis=1) < need_mm).mean())
    chance = chance_under(0.20 - need_mm, _stacked_mm(*plus_minus))
    error = max(np.sqrt(chance * (1 - chance) / trials), 1 / trials)
    assert abs(share - chance) < 3 * error


# A unilateral tolerance is re-centred first, to 35.95 +/-0.05 (mevirtuoso.com,
# tolerance analysis, RSS and worst case, seen).
@pytest.mark.parametrize("text", ["36 +0 -0.1", "36 +0/-0.1", "36.0 + 0 / \u2212 0.1"])
def test_a_one_sided_tolerance_is_centred(text: str) -> None:
    read = figure(Scalar(text, quoted=True, line=1), least_mm=0, most_mm=100)
    assert read.mm == pytest.approx(35.95)
    assert read.plus_minus_mm == pytest.approx(0.05)
    assert "centred" in read.source
