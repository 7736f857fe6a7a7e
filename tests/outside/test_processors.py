"""The processor stack and the reference cooler against the published figures."""

from __future__ import annotations

import pytest

from layout.parts.form.form import Role
from layout.questions.checking.check import check
from layout.questions.findings.finding import Verdict
from layout.questions.findings.tolerance import tolerance_mm
from layout.standards.figure import Figure, Standing
from layout.standards.processors import (
    PACKAGE,
    REFERENCE_COOLER,
    REFERENCE_OBSTRUCTION,
    SEATING_PLANE,
    SOCKETS,
)
from layout.standards.supplies import VENT_CLEARANCE
from layout.standards.units import MM_PER_INCH
from tests.questions.builds import build_of, link, placed

PUBLISHED = [name for name in SOCKETS if SOCKETS[name].stack.standing is Standing.SEEN]
WIDTH = (0.0, 0.0, 1.0)


def _plus_minus_mm(figure: Figure) -> float:
    assert figure.plus_minus_mm is not None
    return figure.plus_minus_mm


# Three thermal guides (LGA1155 and LGA1156 Table 5-2, LGA1150 Table 4; all seen) print
# the same: 3.4 +- 0.2 and 4.381 +- 0.269 give 7.781 +- 0.335 by root sum of squares.
# The worst case, 0.469, is worked out here.
def test_the_processor_stack_gives_the_published_height_and_scatter() -> None:
    parts = (SEATING_PLANE, PACKAGE)
    chain = tuple(
        ("processor", link(str(place), (0.0, 0.0, _plus_minus_mm(part))))
        for place, part in enumerate(parts)
    )
    assert sum(part.mm for part in parts) == pytest.approx(7.781, abs=1e-9)
    assert tolerance_mm(chain, WIDTH) == pytest.approx(0.335, abs=0.001)
    worst_mm = sum(map(_plus_minus_mm, parts))
    assert worst_mm == pytest.approx(0.469, abs=1e-9)


def test_three_families_were_read() -> None:
    assert PUBLISHED == ["LGA1150", "LGA1155", "LGA1156"]


@pytest.mark.parametrize("name", PUBLISHED)
def test_the_stored_stack_is_the_sum_of_its_parts(name: str) -> None:
    stack = SOCKETS[name].stack
    assert stack.mm == pytest.approx(SEATING_PLANE.mm + PACKAGE.mm, abs=1e-9)
    assert stack.plus_minus_mm == pytest.approx(0.335, abs=1e-9)


# 6.529 to 7.532 across parts of this family (from memory, unverified).
def test_the_recalled_range_lies_within_the_planned_one() -> None:
    stack = SOCKETS["LGA1700"].stack
    assert stack.standing is Standing.MEMORY
    assert stack.mm - _plus_minus_mm(stack) < 6.529
    assert stack.mm + _plus_minus_mm(stack) > 7.532


# LGA775 thermal and mechanical design guidelines, 6.6 (seen): cooler 71.12 (2.8 in) and
# obstruction 81.28 (3.2 in), both above the board's top: 10.16 of inlet between them.
def test_the_reference_cooler_leaves_its_inlet_under_an_obstruction() -> None:
    assert pytest.approx(2.8 * MM_PER_INCH, abs=1e-9) == REFERENCE_COOLER.mm
    assert pytest.approx(3.2 * MM_PER_INCH, abs=1e-9) == REFERENCE_OBSTRUCTION.mm
    cooler_mm, under_mm = REFERENCE_COOLER.mm, REFERENCE_OBSTRUCTION.mm
    build = build_of(
        placed("cooler", Role.COOLER, ((0, 90), (0, 90), (0, cooler_mm))),
        placed("frame", Role.BLOCK, ((0, 90), (0, 90), (under_mm, under_mm + 1))),
    )
    answer = check(build, every_pair=True)
    assert [each.gap_mm for each in answer.findings] == [pytest.approx(10.16, abs=1e-9)]
    # Less than a supply's vent needs, and no supply: rules are kept apart by kind.
    assert under_mm - cooler_mm < VENT_CLEARANCE.mm
    assert answer.verdict is Verdict.CLEAR
