"""Cards whose brackets take openings that the case has not."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.build.assemble import Entry, SeatError
from layout.build.plan import Plan
from layout.parts.board.board import Board, BoardShape
from layout.parts.card.card import Card
from layout.parts.card.card_support import CardSupport, SupportShape
from layout.parts.case.case import Case
from layout.parts.case.case_fields import Mount, Takes
from layout.parts.case.case_riser import Riser
from layout.parts.case.case_stands import ConnectorsAt
from layout.parts.cooling.fan import Fan
from layout.parts.kinds.kinds import Spec
from layout.questions.growing.left_out import stand_ins
from layout.questions.moving.positions import positions
from tests.build.machines import built, mm, tower_case

BOARD = Board(socket="AM5")  # a socket at openings 1, 3, 4 and 7
ITX = Board(form=BoardShape.MINI_ITX, socket="AM5")
UPRIGHT = ("upright", Riser(from_panel=mm(72), from_floor=mm(135)))
FEW = replace(tower_case(), slots=4)
NONE = replace(tower_case(), slots=0)
ON_RISER = replace(NONE, risers=(UPRIGHT,))


def plan_of(case: Case, parts: dict[str, Spec]) -> Plan:
    """Return a plan of parts in a case."""
    entries = tuple(Entry(key=key, spec=each) for key, each in parts.items())
    return Plan(name="test", entries=entries, case=case)


def card(*, slot: int = 1, slots: int = 2, riser: str | None = None) -> Card:
    """Return a card of some openings."""
    return Card(length=mm(200), slots=slots, slot=slot, riser=riser)


@pytest.mark.parametrize(
    ("case", "spec", "field", "found", "right"),
    [
        (
            FEW,
            card(slot=4),
            "slot",
            "a card that takes openings 4 and 5, where the case has 4",
            "slot 1 or slot 3",
        ),
        (
            FEW,
            card(slot=7, slots=1),
            "slot",
            "a card that takes opening 7, where the case has 4",
            "slot 1 or slot 3 or slot 4",
        ),
        (
            NONE,
            card(slot=1),
            "slot",
            "a card that takes openings 1 and 2, where the case has none",
            "a case with an opening at one of the board's slots, or no card",
        ),
        (
            ON_RISER,
            card(slot=1),
            "slot",
            "a card that takes openings 1 and 2, where the case has none",
            "riser upright",
        ),
        (
            replace(FEW, slots=2),
            card(slot=1, slots=3),
            "slot",
            "a card that takes openings 1 to 3, where the case has 2",
            "a card of 2 openings at most",
        ),
        (
            ON_RISER,
            card(riser="upright", slots=3),
            "riser",
            "a card of 3 openings on a riser of 2",
            "a card of 2 openings at most",
        ),
    ],
)
def test_an_opening_that_is_not_there_is_refused(
    *, case: Case, spec: Card, field: str, found: str, right: str
) -> None:
    with pytest.raises(SeatError) as refused:
        built(case, {"board": BOARD, "card": spec})
    error = refused.value
    assert (error.part, error.field) == ("card", field)
    assert (error.found, error.right) == (found, right)


def test_a_slot_that_another_card_has_is_not_offered() -> None:
    parts: dict[str, Spec] = {
        "board": BOARD,
        "card": card(slot=1),
        "sound": card(slot=4),
    }
    with pytest.raises(SeatError, match=r"openings 4 and 5.*would be slot 3$"):
        built(FEW, parts)


@pytest.mark.parametrize("spec", [card(slot=3), card(slot=4, slots=1)])
def test_the_last_openings_are_taken(spec: Card) -> None:
    (seat,) = (
        part.seat
        for part in built(FEW, {"board": BOARD, "card": spec}).parts
        if part.key == "card"
    )
    assert seat == f"slot {spec.slot}"


def test_the_slot_counted_by_the_board_is_looked_up_first() -> None:
    counted = (("slot", "board's own count"),)
    third = replace(card(slot=3), measured_from=counted)  # opening 4
    with pytest.raises(SeatError, match="openings 4 and 5"):
        built(FEW, {"board": BOARD, "card": third})


def test_a_place_beyond_the_openings_is_no_position() -> None:
    plan = plan_of(FEW, {"board": BOARD, "card": card(slot=1)})
    rows = {row.position: row for row in positions(plan, ["card"]).rows}
    assert rows["slot 4"].note == (
        "found a card that takes openings 4 and 5, where the case has 4"
    )
    assert not rows["slot 3"].note


@pytest.mark.parametrize("case", [replace(tower_case(), slots=1), ON_RISER])
def test_a_card_that_is_left_out_takes_what_openings_there_are(case: Case) -> None:
    bare: Plan = plan_of(case, {"board": ITX})
    told = [each.dimension for each in stand_ins(bare, "card") if not each.suffix]
    assert told == ["length", "height"]


def test_a_hanging_card_is_asked_with_the_floor_bare_and_behind_a_radiator() -> None:
    mount = Mount(takes=(Takes(size=120, count=2),))
    case = replace(
        tower_case(),
        connectors=ConnectorsAt.TOP,
        mounts=(("floor", mount),),
        longest_card=None,
        longest_card_with=None,
        shroud=None,
    )
    fans = Fan(size=120, count=2, mount="floor")
    hung = plan_of(case, {"board": ITX, "fans": fans})
    suffixes = dict.fromkeys(each.suffix for each in stand_ins(hung, "card"))
    assert [*suffixes] == ["", ", floor bare", ", floor radiator"]


def test_a_support_is_screwed_to_no_opening_that_is_not_there() -> None:
    arm = CardSupport(shape=SupportShape.BRACKET)
    parts: dict[str, Spec] = {"board": BOARD, "card": card(slot=3), "arm": arm}
    with pytest.raises(SeatError, match=r"arm.shape: found a bracket at opening 5, wh"):
        built(FEW, parts)
    assert built(FEW, {**parts, "card": card(slot=1)}).bodies
    assert built(FEW, {**parts, "arm": CardSupport()}).bodies
