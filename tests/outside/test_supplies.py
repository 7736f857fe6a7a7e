"""Supply sizes, vents and leads against the published figures."""

from __future__ import annotations

import pytest

from layout.parts.form.form import Role
from layout.questions.checking.check import check
from layout.questions.findings.finding import Verdict
from layout.standards.supplies import (
    EDGE_DISTANCE,
    FORMS,
    LEAD_LEAST,
    LEAD_LEAST_20,
    LEAD_LEAST_20_12V,
    REAR_HOLES,
    VENT_CLEARANCE,
)
from layout.standards.units import MM_PER_INCH
from tests.questions.builds import build_of, placed


# Width, height, length.  A public library of supply models (ATX) and a public page of
# supply forms (the rest): all secondary, no design guide's outline was read.
@pytest.mark.parametrize(
    ("name", "published_mm"),
    [
        ("ATX", (150.0, 86.0, 140.0)),
        ("SFX", (125.0, 63.5, 100.0)),
        ("SFX-L", (125.0, 63.5, 130.0)),
        ("TFX", (85.0, 65.0, 175.0)),
        ("Flex", (81.5, 40.5, 150.0)),
    ],
)
def test_supply_sizes_are_the_published_ones(
    name: str, published_mm: tuple[float, float, float]
) -> None:
    form = FORMS[name]
    assert (form.width.mm, form.height.mm, form.length.mm) == published_mm
    assert not form.length.verified


# Outline figure of the ATX12V guide (from memory): 138 across, 114 at the offset end,
# 64 and 74 up, 6 from three edges; the holes themselves come from a model (secondary).
def test_the_rear_holes_stand_at_the_published_spacings() -> None:
    low_left, top_left, top_right, low_right = REAR_HOLES["ATX"]
    assert top_right.x.mm - top_left.x.mm == 138.0
    assert low_right.x.mm - low_left.x.mm == 114.0
    assert top_left.y.mm - low_left.y.mm == 64.0
    assert top_right.y.mm - low_right.y.mm == 74.0
    assert FORMS["ATX"].width.mm - 138.0 == 2 * EDGE_DISTANCE.mm
    assert FORMS["ATX"].height.mm - 74.0 == 2 * EDGE_DISTANCE.mm


# ATX Power Supply Design Guide 0.9, 4.3, ATX12V 2.0, 4.3 and ATX 3.0, Venting (all
# seen): nothing within 0.5 in of the fan's intake or exhaust.
def test_the_vent_clearance_is_half_an_inch() -> None:
    assert pytest.approx(0.5 * MM_PER_INCH, abs=1e-9) == VENT_CLEARANCE.mm


@pytest.mark.parametrize(
    ("gap_mm", "verdict"), [(12.6, Verdict.SHORT), (12.7, Verdict.CLEAR)]
)
def test_an_object_before_a_vent_is_told_from_one_beyond_its_reach(
    gap_mm: float, verdict: Verdict
) -> None:
    build = build_of(
        placed("supply/vent", Role.SUPPLY_VENT, ((0, 150), (49.9, 50), (0, 140))),
        placed("box", Role.BLOCK, ((0, 150), (40 - gap_mm, 49.9 - gap_mm), (0, 140))),
    )
    answer = check(build)
    assert [(each.rule, each.verdict) for each in answer.findings] == [
        ("supply-vent", verdict)
    ]
    assert answer.findings[0].margin_mm == pytest.approx(gap_mm - 12.7, abs=1e-6)


# ATX 3.0, DC Connectors: 150 for all (seen); ATX12V 2.0, 4.5: 280 for +12 V, 250 for
# the others (seen).
@pytest.mark.parametrize(
    ("lead_mm", "least_mm", "long_enough"),
    [
        (140.0, LEAD_LEAST.mm, False),
        (260.0, LEAD_LEAST.mm, True),
        (260.0, LEAD_LEAST_20_12V.mm, False),
        (260.0, LEAD_LEAST_20.mm, True),
    ],
)
def test_a_lead_is_judged_by_the_edition(
    lead_mm: float, least_mm: float, *, long_enough: bool
) -> None:
    assert (lead_mm >= least_mm) is long_enough
