"""Figures in another reading than the usual one become the usual one, exactly."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from layout.geometry.space import Axis
from layout.parts.board.memory import Memory
from layout.parts.card.card import Card
from layout.parts.card.card_readings import PlugAt
from layout.parts.case.case import Case
from layout.parts.cooling.cooler_readings import HEIGHT
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.low_cooler import LowCooler
from layout.parts.cooling.radiator import Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.cooling.twin_tower import TwinTower
from layout.parts.form.errors import PartError
from layout.parts.form.form import Seat
from layout.parts.form.link import STACK as STACK_LABEL
from layout.parts.form.link import link, plus_minus_mm
from layout.parts.form.reading import Told, as_given, of, restated
from layout.parts.kinds.kinds import KINDS
from layout.standards import cards
from layout.standards.figure import Figure, Standing, given
from layout.standards.memory import SEAT
from layout.standards.tolerances import ToleranceClass
from tests.build.machines import tower_case
from tests.parts.seats import box, contact, mm

STACK = given(7.25, 0.5)
CONTACT = replace(contact(STACK.mm), figure=STACK)
COOLERS = (
    TowerCooler(height=mm(165), width=mm(120), depth=mm(60)),
    TwinTower(height=mm(165), width=mm(120), depth=mm(110)),
    LowCooler(height=mm(70), width=mm(120), depth=mm(60)),
)


def told(**readings: str) -> Told:
    return tuple((field.replace("_", " "), name) for field, name in readings.items())


def card(**more: object) -> Card:
    return Card(**{"length": mm(300), "height": mm(120), **more})  # type: ignore[arg-type]


@pytest.mark.parametrize("cooler", COOLERS, ids=lambda each: str(each.kind))
def test_a_cooler_told_from_the_board_ends_there_whatever_its_processor(
    cooler: TowerCooler | TwinTower | LowCooler,
) -> None:
    from_board = replace(cooler, measured_from=told(height="board surface"))
    usual = restated(from_board, CONTACT)
    assert usual.height.mm == cooler.height.mm - STACK.mm
    made = usual.made_for(usual.wishes()[0], CONTACT)
    top_mm = max(box(made, piece.name).high[2] for piece in made.pieces)
    assert top_mm + STACK.mm == pytest.approx(cooler.height.mm, abs=1e-12)


def test_a_pump_block_has_the_same_readings() -> None:
    cooler = LiquidCooler(
        block_height=mm(60),
        radiator=Radiator(size=240, mount="top"),
        measured_from=told(block_height="board surface"),
    )
    assert restated(cooler, CONTACT).block_height.mm == 60 - STACK.mm
    assert restated(cooler, CONTACT).radiator.thickness.reading == "core without fans"


def test_what_lies_between_two_readings_scatters_too() -> None:
    cooler = replace(
        COOLERS[0], height=given(165, 0.3), measured_from=told(height="board surface")
    )
    usual = restated(cooler, CONTACT)
    (form,) = (usual.made_for(wish, CONTACT) for wish in usual.wishes())
    links = {each.label: each for each in form.pieces[0].links}
    height = links["cooler height"]
    assert (height.figure.mm, height.plus_minus_mm[2]) == (165, 0.3)
    (stack,) = height.more
    assert (stack.label, stack.figure, stack.plus_minus_mm[2]) == (
        STACK_LABEL,
        STACK,
        0.5,
    )
    assert stack.high == (0.0, 0.0, -1.0)


def test_a_figure_without_a_plus_minus_keeps_the_general_one_of_its_size() -> None:
    assert HEIGHT.others[0].step is not None
    as_told = HEIGHT.others[0].usual_of(mm(165), None, CONTACT)
    made = link("cooler height", as_told, Axis.WIDTH)
    assert [each.plus_minus_mm[2] for each in (made, *made.more)] == [0.5, 0.5]
    assert plus_minus_mm(as_told, ToleranceClass.MEDIUM) == pytest.approx(
        math.hypot(0.5, 0.5)
    )


def test_without_a_seat_the_usual_stack_lies_between() -> None:
    cooler = replace(COOLERS[0], measured_from=told(height="board surface"))
    assert restated(cooler, None).height.mm == pytest.approx(165 - 7.781)


def test_room_over_memory_told_from_the_board_puts_the_fan_there() -> None:
    cooler = replace(
        COOLERS[0],
        room_over_memory=mm(40),
        measured_from=told(room_over_memory="board surface"),
    )
    usual = restated(cooler, CONTACT)
    fan = box(usual.made_for(usual.wishes()[0], CONTACT), "fan 1")
    assert fan.low[2] + STACK.mm == pytest.approx(40, abs=1e-12)


def test_a_module_told_above_the_board_is_its_seat_lower() -> None:
    memory = Memory(height=mm(34.25), measured_from=told(height="above the board"))
    usual = restated(memory, None).height
    assert (usual.mm, usual.assumed) == (34.25 - SEAT.mm, SEAT.assumed)
    assert as_given(usual) == "34.25 (above the board)"


@pytest.mark.parametrize(
    ("reading", "more_mm"),
    [
        ("contact fingers", 0.0),
        ("slot top", cards.SLOT_TOP.mm),
        ("board edge", cards.SHOULDER.mm),
        ("bracket top", cards.BRACKET_TAB_SEAT.mm),
    ],
)
def test_a_card_is_so_high_from_its_fingers(reading: str, more_mm: float) -> None:
    usual = restated(card(measured_from=told(height=reading)), None)
    assert usual.height.mm == pytest.approx(120 + more_mm)
    assert usual.height.reading == "contact fingers"


def test_a_card_over_its_bracket_may_be_given_by_less_than_it_is_high() -> None:
    over_bracket = card(height=mm(12), measured_from=told(height="bracket top"))
    assert restated(over_bracket, None).height.mm == pytest.approx(116.86)


def test_a_card_told_with_its_plug_is_shorter_by_this_cards_plug() -> None:
    with_plug = card(
        plug=PlugAt.FAR_END,
        plug_reach=mm(16),
        measured_from=told(length="with the power connector"),
    )
    assert restated(with_plug, None).length.mm == 300 - 16


def test_a_card_told_from_its_own_edge_begins_behind_its_bracket() -> None:
    from_edge = card(measured_from=told(length="circuit board's edge"))
    assert restated(from_edge, None).length.mm == pytest.approx(301.89)


def test_makers_do_not_all_mean_the_same_ends_of_a_card() -> None:
    assert restated(card(), None).length.plus_minus_mm == 2.0
    stated = restated(card(length=given(300, 0.5)), None).length
    assert stated.plus_minus_mm == 0.5


def test_a_slot_may_be_counted_by_the_boards_own_sockets() -> None:
    (by_case,) = card(slot=2).wishes()
    (by_board,) = card(slot=2, measured_from=told(slot="board's own count")).wishes()
    assert (by_case.seats, by_case.number) == (("slot 2",), None)
    assert (by_board.seats, by_board.number) == ((), 2)


@pytest.mark.parametrize(
    ("make", "field", "message"),
    [
        (
            lambda: restated(
                replace(
                    COOLERS[0],
                    measured_from=told(room_over_memory="board surface"),
                ),
                None,
            ),
            "measured from.room over memory",
            "a reading of a room over memory that is not given; right would be 'room",
        ),
        (
            lambda: restated(
                Memory(measured_from=told(height="above the board")), None
            ),
            "measured from.height",
            "found a reading of a height that is not given",
        ),
        (
            lambda: restated(card(measured_from=told(height="floor")), None),
            "measured from.height",
            "found floor; right would be one of contact fingers, slot top, board edge",
        ),
        (
            lambda: restated(card(measured_from=told(plug_reach="edge")), None),
            "measured from",
            "found a reading of plug reach; right would be one of length, height",
        ),
        (
            lambda: restated(
                card(
                    plug=PlugAt.TOP_EDGE,
                    measured_from=told(length="with the power connector"),
                ),
                None,
            ),
            "measured from.length",
            "'plug: far end' beside it, or slot plane",
        ),
        (
            lambda: Case(
                depth=mm(400),
                height=mm(450),
                width=mm(180),
                measured_from=told(tallest_cooler="floor"),
                tallest_cooler=mm(160),
            ),
            "measured from.tallest cooler",
            "one of heat spreader, board surface",
        ),
        (
            lambda: restated(
                replace(
                    COOLERS[0],
                    height=mm(125),
                    measured_from=told(height="board surface"),
                ),
                CONTACT,
            ),
            "fan size",
            "found 120 on a cooler 117.75 mm high",
        ),
    ],
)
def test_readings_that_are_none(make: type, field: str, message: str) -> None:
    with pytest.raises(PartError, match=message) as caught:
        make()
    assert caught.value.field == field


@pytest.mark.parametrize("kind", [*KINDS.values(), Case])
def test_every_reading_says_from_what_to_what_and_what_lies_between(kind: type) -> None:
    for readings in of(kind).values():
        assert readings.usual
        assert len(set(readings.names)) == len(readings.names)
        for each in readings.others:
            assert len(each.meaning.split()) > 4
            assert (each.step is None) == (each.name == "board's own count")


def test_restating_what_is_restated_changes_nothing() -> None:
    cooler = replace(COOLERS[0], measured_from=told(height="board surface"))
    once = restated(cooler, CONTACT)
    assert restated(once, CONTACT) == once


@pytest.mark.parametrize(
    ("limit_mm", "note"),
    [
        # Standoff and board take 7.92 of the 180: 172.08 lie over the board.
        (172, None),
        (164, "164 (board surface) disagree by 8.1 mm; the"),
        (150, "150 (board surface) disagree by 22.1 mm"),
    ],
)
def test_a_limit_told_from_the_board_is_compared_as_told(
    limit_mm: float, note: str | None
) -> None:
    case = Case(
        depth=mm(400),
        height=mm(450),
        width=mm(180),
        measured_from=told(tallest_cooler="board surface"),
        tallest_cooler=mm(limit_mm),
    )
    notes = case.form().notes
    assert len(notes) == (note is not None)
    assert note is None or note in notes[0]
    if note and note.endswith("the"):
        assert "the reading 'heat spreader' would explain it" in notes[0]


def test_a_width_from_a_limit_over_the_board_needs_no_processor() -> None:
    case = Case(
        height=mm(450),
        longest_card=mm(370),
        tallest_cooler=given(172, 0.5),
        measured_from=told(tallest_cooler="board surface"),
    )
    front = next(each for each in case.form().pieces if each.name == "side panel")
    assert "172 (board surface) over a board 7.9 from the tray" in case.form().notes[1]
    assert box(case.form(), "side panel").low[2] == pytest.approx(172 + 6.35 + 1.57 + 2)
    assert front.links[0].plus_minus_mm[2] == pytest.approx(0.5)


def test_a_supply_told_with_its_leads_would_meet_a_cage_position() -> None:
    # A position at 190, and 25 of plugs: 215 read as body alone meets none.
    (note,) = replace(tower_case(), longest_supply=mm(215)).form().notes
    assert "25.0 mm off; the reading 'with leads' would explain it" in note
    read_so = told(longest_supply="with leads")
    case = replace(tower_case(), longest_supply=mm(215), measured_from=read_so)
    assert not any("would explain it" in each for each in case.form().notes)


def test_a_reading_keeps_where_the_figure_comes_from() -> None:
    figure = Figure(mm=165.0, standing=Standing.TAPED, source="tape", plus_minus_mm=1.0)
    cooler = replace(
        COOLERS[0], height=figure, measured_from=told(height="board surface")
    )
    usual = restated(cooler, CONTACT).height
    assert (usual.standing, usual.source) == (Standing.TAPED, "tape")


def test_a_seat_hands_its_stack_on() -> None:
    seat: Seat = CONTACT
    assert HEIGHT.others[0].found(None, seat) == STACK
