"""The card envelope and the slot pitch against the published figures."""

from __future__ import annotations

import pytest

from layout.questions.findings.tolerance import tolerance_mm
from layout.standards.boards import FORMS, LOWER_EDGE
from layout.standards.cards import (
    ANGLED_PLUG_BEYOND_CARD,
    BRACKET_GAP,
    BRACKET_THICKNESS,
    COMPONENT_SIDE,
    CONNECTOR_LENGTH,
    DUAL_HEIGHT,
    FINGER_SEAT,
    FINGER_TONGUE,
    FIRST_SLOT,
    FULL_HEIGHT,
    FULL_LENGTH,
    HALF_LENGTH,
    PCI_HEIGHT,
    PLUG_BEYOND_CARD,
    SLOT_PITCH,
    SOLDER_SIDE,
    THICKNESS,
    TRIPLE_HEIGHT,
)
from layout.standards.figure import Figure
from layout.standards.units import MM_PER_INCH
from tests.questions.builds import link


# Outlines drawn from PCI Express card specification 1.1 (secondary): the far end from
# the outline's origin, and the card's edge at the bracket 45.15 before that origin.
@pytest.mark.parametrize(
    ("length", "far_end_mm"), [(FULL_LENGTH, 266.85), (HALF_LENGTH, 122.50)]
)
def test_card_lengths_are_the_outlines_two_parts(
    length: Figure, far_end_mm: float
) -> None:
    assert length.mm == pytest.approx(far_end_mm + 45.15, abs=0.01)


# Card specification 3.0 through a development kit's manual (seen): 4.376 in, 1.37 in.
@pytest.mark.parametrize(
    ("figure", "inches", "published_mm"),
    [(FULL_HEIGHT, 4.376, 111.15), (DUAL_HEIGHT, 1.37, 34.80)],
)
def test_card_heights_are_the_published_inches(
    figure: Figure, inches: float, published_mm: float
) -> None:
    assert figure.mm == pytest.approx(inches * MM_PER_INCH, abs=0.01)
    assert figure.mm == pytest.approx(published_mm, abs=0.01)


# 0.8 in: constant in the public code of a bracket model (secondary).
def test_the_slot_pitch_is_eight_tenths_of_an_inch() -> None:
    assert SLOT_PITCH.mm == pytest.approx(0.8 * MM_PER_INCH, abs=1e-9)


# 14.47 (secondary) + 20.32 against 1.37 in (seen); the note's 14,49 would give 34.81.
def test_a_second_slot_adds_one_pitch() -> None:
    assert COMPONENT_SIDE.mm + SLOT_PITCH.mm == pytest.approx(DUAL_HEIGHT.mm, abs=0.015)
    assert DUAL_HEIGHT.mm + SLOT_PITCH.mm == pytest.approx(TRIPLE_HEIGHT.mm, abs=1e-9)


# A card's component side and its neighbour's solder side share one pitch.
def test_neighbouring_cards_fit_within_one_pitch() -> None:
    assert COMPONENT_SIDE.mm + SOLDER_SIDE.mm < SLOT_PITCH.mm


# Outlines drawn from card specification 1.1 (secondary): bracket faces at 46.18 and
# 47.04 from the origin; sum worked out on the figures' own page: 313.89.
def test_the_bracket_adds_its_sheet_and_its_gap() -> None:
    assert pytest.approx(46.18 - 45.15, abs=1e-9) == BRACKET_GAP.mm
    assert pytest.approx(47.04 - 46.18, abs=1e-9) == BRACKET_THICKNESS.mm
    outside_mm = FULL_LENGTH.mm + BRACKET_GAP.mm + BRACKET_THICKNESS.mm
    assert outside_mm == pytest.approx(313.89, abs=0.005)


# Worked example on the special interest group's list, PCI 2.2, Fig 5-2 (seen):
# 12.07 + 89.53 + 10.16 / 2 = 106.68; with +-0.127 at most 106.807.
def test_the_card_height_chain_gives_the_published_height() -> None:
    chain = (("card", link("height", (0.0, PCI_HEIGHT.plus_minus_mm or 0.0, 0.0))),)
    nominal_mm = 12.07 + 89.53 + 10.16 / 2
    assert pytest.approx(nominal_mm, abs=1e-9) == PCI_HEIGHT.mm
    most_mm = nominal_mm + tolerance_mm(chain, (0.0, 1.0, 0.0))
    assert most_mm == pytest.approx(106.807, abs=1e-9)


# microATX 1.2, 2.3.1: up to 4 slots (seen); ATX 7 and Mini-ITX 1 (secondary).  The
# first slot's line is from memory, so this shows only that the figures go together.
@pytest.mark.parametrize(("form", "slots"), [("ATX", 7), ("microATX", 4)])
def test_as_many_slots_as_published_lie_on_the_board(form: str, slots: int) -> None:
    assert FORMS[form].slots == slots
    last_mm = FIRST_SLOT.mm - (slots - 1) * SLOT_PITCH.mm
    beyond_mm = last_mm - SLOT_PITCH.mm
    assert last_mm > LOWER_EDGE[form].mm > beyond_mm


def test_the_smallest_board_has_its_one_slot_at_its_lower_edge() -> None:
    assert FORMS["Mini-ITX"].slots == 1
    assert 0.0 < FIRST_SLOT.mm - LOWER_EDGE["Mini-ITX"].mm < SLOT_PITCH.mm


# A second sighting of the connectors' lengths (which are from memory): the courtyards
# of 1, 4 and 8 lanes in an open footprint library (secondary), 21.3, 35.3 and 52.3.
def test_slot_bodies_grow_like_the_courtyards_of_their_fingers() -> None:
    courtyards_mm = {1: 21.3, 4: 35.3, 8: 52.3}
    beyond_mm = [
        CONNECTOR_LENGTH[lanes].mm - length_mm
        for lanes, length_mm in courtyards_mm.items()
    ]
    assert beyond_mm == pytest.approx([beyond_mm[0]] * len(beyond_mm))


# Contacts a side 18, 32, 49 and 82 at 1.0 pitch (both from memory, unverified).
def test_slot_bodies_grow_by_a_millimetre_a_contact() -> None:
    contacts = {1: 18, 4: 32, 8: 49, 16: 82}
    rest_mm = {CONNECTOR_LENGTH[lanes].mm - n for lanes, n in contacts.items()}
    assert len(rest_mm) == 1
    # The tongue outline runs from -0.15 to 84.15 (secondary) and enters that body.
    assert pytest.approx(84.15 + 0.15, abs=1e-9) == FINGER_TONGUE.mm
    assert FINGER_TONGUE.mm < CONNECTOR_LENGTH[16].mm


# A footprint's note (secondary): the card is as thick as a board, 0.062 in.
def test_a_card_is_as_thick_as_a_board() -> None:
    assert pytest.approx(0.062 * MM_PER_INCH, abs=0.006) == THICKNESS.mm


# Both ranges are from memory or practice (unverified): fingers 3 to 4 above the board,
# a plug's body 15 to 20 beyond the card, an angled one's 9 to 17.
@pytest.mark.parametrize(
    ("figure", "least_mm", "most_mm"),
    [
        (FINGER_SEAT, 3.0, 4.0),
        (PLUG_BEYOND_CARD, 15.0, 20.0),
        (ANGLED_PLUG_BEYOND_CARD, 9.0, 17.0),
    ],
)
def test_an_assumed_place_covers_its_range(
    figure: Figure, least_mm: float, most_mm: float
) -> None:
    assert figure.assumed
    assert figure.plus_minus_mm is not None
    assert figure.mm - figure.plus_minus_mm == least_mm
    assert figure.mm + figure.plus_minus_mm == most_mm
