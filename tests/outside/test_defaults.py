"""Defaults with a published source: the figure, its standing, and the part made of it.

Only what no other file here holds against its source.
"""

from __future__ import annotations

import pytest

from layout.parts.board.board import Board
from layout.parts.board.memory import Memory
from layout.parts.card.card import Card
from layout.parts.cooling.low_cooler import LowCooler
from layout.parts.form.form import Form, SeatSort
from layout.parts.supply.supply import Supply
from layout.standards import cards, fans, memory, processors, supplies
from layout.standards.figure import Figure, Standing
from tests.parts.seats import box, contact, mm, piece, seat, size_mm

# Drawn from PCI Express card specification 1.1: outlines (68.90, 104.86), brackets
# (120.02, 18.42); both secondary.
_TAB_MM, _LONG_MM, _WIDE_MM, _LOW_MM = 104.86, 120.02, 18.42, 68.90


@pytest.mark.parametrize(
    ("figure", "published_mm", "standing"),
    [
        (cards.LOW_HEIGHT, _LOW_MM, Standing.SECONDARY),
        (cards.BRACKET_LENGTH, _LONG_MM, Standing.SECONDARY),
        (cards.BRACKET_WIDTH, _WIDE_MM, Standing.SECONDARY),
        (cards.BRACKET_TAB_SEAT, _TAB_MM, Standing.SECONDARY),
        # ATX body of 140 (W x H x L 150 x 86 x 140): models after the ATX12V guide.
        (supplies.ATX_LENGTH, 140.0, Standing.SECONDARY),
        # A fan guide: slim fans are 15 thick.
        (fans.SLIM_THICKNESS, 15.0, Standing.SECONDARY),
        # A photo caption of a DDR4 module.
        (memory.BOARD_THICKNESS, 1.4, Standing.SECONDARY),
    ],
)
def test_the_figures_are_those_of_their_sources(
    figure: Figure, published_mm: float, standing: Standing
) -> None:
    assert figure.mm == published_mm
    assert figure.standing is standing


def made(card: Card) -> Form:
    (wish,) = card.wishes()
    return card.made_for(wish, seat(SeatSort.SLOT))


def test_a_bracket_is_as_long_and_wide_as_published() -> None:
    bracket = box(made(Card(length=mm(200))), "bracket")
    _, wide_mm, long_mm = size_mm(bracket)
    assert wide_mm == pytest.approx(_WIDE_MM)
    assert long_mm == pytest.approx(_LONG_MM)
    assert bracket.high[2] == pytest.approx(_TAB_MM)


@pytest.mark.parametrize(("height_mm", "low"), [(_LOW_MM, True), (69.0, False)])
def test_a_card_up_to_the_low_profile_has_the_low_bracket(
    height_mm: float,
    low: bool,  # noqa: FBT001
) -> None:
    bracket = box(made(Card(length=mm(160), height=mm(height_mm))), "bracket")
    assert (size_mm(bracket)[2] < _LONG_MM) is low


def test_regulator_heatsinks_keep_off_the_published_keep_in() -> None:
    # Socket design guide, Fig B-3: 94.76 over both sides of the socket's centre.
    assert processors.KEEP_IN.standing is Standing.SEEN
    near_mm = Board(socket="LGA1155").heatsink_from_socket.mm
    assert 94.76 / 2 <= near_mm <= 94.76 / 2 + 0.5


def test_a_supply_that_nobody_measured_is_the_published_box() -> None:
    supply = Supply()
    (wish,) = supply.wishes()
    body = box(supply.made_for(wish, seat(SeatSort.SUPPLY)))
    assert size_mm(body) == (140, 86, 150)


def test_a_low_cooler_has_a_slim_fan_and_a_module_its_bare_edge() -> None:
    cooler = LowCooler(height=mm(47), width=mm(90), depth=mm(90))
    (wish,) = cooler.wishes()
    fan = box(cooler.made_for(wish, contact(7.0)), "fan")
    assert fan.high[2] - fan.low[2] == 15
    module = Memory(modules=1)
    (wish,) = module.wishes()
    edge = piece(module.made_for(wish, seat(SeatSort.MEMORY))).solids[0].bounds
    assert edge.high[0] - edge.low[0] == pytest.approx(1.4)
