"""What lies between two readings of a figure, against published figures."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.parts.card.card import Card
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.cooling.twin_tower import TwinTower
from layout.parts.form.reading import restated
from layout.standards import cards
from layout.standards.figure import Standing, given
from layout.standards.processors import (
    REFERENCE_COOLER,
    REFERENCE_OBSTRUCTION,
    SOCKETS,
)
from tests.parts.seats import contact


# Thermal guides of three sockets, Table 5-2 and Table 4 (seen): 7.781 +-0.335 from
# the board's top to the heat spreader.  The reference cooler of the LGA775 guide, 6.6
# (seen), is 71.12 high over the board and wants 81.28 there: told by either reading
# it leaves the 10.16 that the guide leaves.
def test_the_reference_cooler_leaves_its_published_room_by_either_reading() -> None:
    stack = SOCKETS["LGA1155"].stack
    seat = replace(contact(stack.mm), figure=stack)
    cooler = TowerCooler(
        height=given(REFERENCE_COOLER.mm),
        width=given(90.0),
        depth=given(60.0),
        fans=0,
        fan_size=80,
        measured_from=(("height", "board surface"),),
    )
    with pytest.raises(ValueError, match=r"found 80 on a cooler 63\.339 mm high"):
        restated(cooler, seat)
    height = restated(replace(cooler, fan_size=60), seat).height
    assert REFERENCE_OBSTRUCTION.mm - stack.mm - height.mm == pytest.approx(10.16)
    assert height.restated is not None
    assert height.restated.step.plus_minus_mm == 0.335


# A frame of 120 is 25 thick (a public library of fan models, seen): fans before and
# behind the fins take 50 of a tower's depth with them, of a twin tower, whose first
# fan stands between the stacks, the others alone.
@pytest.mark.parametrize(
    ("kind", "fans", "usual_mm"),
    [
        (TowerCooler, 1, 75),
        (TowerCooler, 2, 50),
        (TwinTower, 2, 75),
        (TwinTower, 3, 50),
    ],
)
def test_a_depth_with_its_fans_is_less_the_fans_outside(
    kind: type[TowerCooler | TwinTower], fans: int, usual_mm: float
) -> None:
    cooler = kind(
        height=given(155.0),
        width=given(120.0),
        depth=given(100.0),
        fans=fans,
        measured_from=(("depth", "with its fans"),),
    )
    assert restated(cooler, None).depth.mm == pytest.approx(usual_mm)


# Outlines drawn from card specification 1.1 (secondary): a full-length card is 312.00
# from its own edge, and its far end 313.89 from the bracket's outside; the shoulder
# lies 12.75 over the fingers, the bracket's screw tab 104.86.
@pytest.mark.parametrize(
    ("field", "reading", "given_mm", "usual_mm"),
    [
        ("length", "circuit board's edge", 312.00, 313.89),
        ("height", "board edge", 111.15 - 12.75, 111.15),
        ("height", "bracket top", 111.15 - 104.86, 111.15),
        # 11.25 over the board less 3.5, the fingers' seat (both from memory)
        ("height", "slot top", 103.40, 111.15),
    ],
)
def test_a_full_size_card_is_one_card_by_every_reading(
    field: str, reading: str, *, given_mm: float, usual_mm: float
) -> None:
    mm = {"length": 312.0, "height": 111.15, field: given_mm}
    card = Card(
        length=given(mm["length"]),
        height=given(mm["height"]),
        measured_from=((field, reading),),
    )
    card = restated(card, None)
    figure = {"length": card.length, "height": card.height}[field]
    assert figure.mm == pytest.approx(usual_mm, abs=0.005)


def test_what_lies_between_says_how_far_it_can_be_trusted() -> None:
    assert cards.BRACKET_OUTSIDE.standing is Standing.SECONDARY
    assert cards.SHOULDER.standing is Standing.SECONDARY
    assert cards.SLOT_TOP.standing is Standing.MEMORY
    assert cards.SLOT_TOP.assumed
