"""Which seat a part gets, and what is said where it gets none."""

from __future__ import annotations

import pytest

from layout.build.assemble import SeatError
from layout.build.placed import Build
from layout.parts.board.board import Board, BoardShape
from layout.parts.board.memory import Memory
from layout.parts.card.card import Card
from layout.parts.cooling.fan import Fan, MountSide
from layout.parts.cooling.processor import Processor
from layout.parts.cooling.radiator import Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.drives.cage import OUT, Cage
from layout.parts.drives.drive import Drive, DriveShape
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Supply
from layout.standards.memory import SLOT_PITCH
from tests.build.machines import body, built, mm, small_case, tower_case

BOARD = Board(socket="AM5")
ITX = Board(form=BoardShape.MINI_ITX, socket="AM5")
COOLER = TowerCooler(height=mm(150), width=mm(120), depth=mm(50))
CARD = Card(length=mm(200))
TOP_FAN = Fan(size=120, mount="top", place=2)


def test_a_slot_counted_by_the_board_is_its_own_opening() -> None:
    second = Card(
        length=mm(200), slot=2, measured_from=(("slot", "board's own count"),)
    )
    build = built(tower_case(), {"board": BOARD, "card": second})
    (card,) = (part for part in build.parts if part.key == "card")
    assert card.seat == "slot 3"  # openings 1, 3, 4 and 7 have a socket
    told = "card: slot 2 by the board's own count is the case's slot 3"
    assert told in build.notes
    usual = built(tower_case(), {"board": BOARD, "card": CARD})
    assert not any("own count" in each for each in usual.notes)


@pytest.mark.parametrize(
    ("parts", "part", "found", "right"),
    [
        (
            {"disk": Drive()},
            ("disk", "place"),
            "no place 1",
            "a part of kind cage, or a case with 'drive places'; or one of behind 1",
        ),
        (
            {
                "board": BOARD,
                "card": Card(
                    length=mm(200),
                    slot=5,
                    measured_from=(("slot", "board's own count"),),
                ),
            },
            ("card", "slot"),
            "number 5",
            "no more than the 4 there are: slot 1, slot 3, slot 4, slot 7",
        ),
        (
            {"board": BOARD, "card": Card(length=mm(200), slot=2)},
            ("card", "slot"),
            "slot 2",
            "one of slot 1, slot 3, slot 4, slot 7",
        ),
        (
            {"board": BOARD, "card": CARD, "sound": CARD},
            ("sound", "slot"),
            "slot 1, taken by card",
            "a free one: slot 3, slot 4, slot 7",
        ),
        (
            {"cooler": COOLER},
            ("cooler", None),
            "no place on a processor in the build",
            "a part of kind board",
        ),
        (
            {"board": BOARD, "other": BOARD},
            ("other", None),
            "board, taken by board",
            "one part fewer",
        ),
        (
            {"supply": Supply(), "spare": Supply()},
            ("spare", None),
            "supply bay, taken by supply",
            "one part fewer",
        ),
        (
            {"board": ITX, "memory": Memory(modules=2, slot=2)},
            ("memory", "slot"),
            "2 modules from slot 2",
            "slot 1",
        ),
        (
            {"board": ITX, "memory": Memory(modules=1, slot=3)},
            ("memory", "slot"),
            "slot 3",
            "a slot from 1 to 2",
        ),
        (
            {"board": ITX, "memory": Memory(modules=4)},
            ("memory", "modules"),
            "4, where 2 find room",
            "2 at most",
        ),
        (
            {"board": ITX, "memory": Memory(modules=3, slot=2)},
            ("memory", "modules"),
            "3, where 2 find room",
            "2 at most",
        ),
        (
            {"fans": Fan(size=120, mount="side")},
            ("fans", "mount"),
            "side",
            "one of front, front outer, top, rear",
        ),
        (
            {"fans": Fan(size=120, count=3, mount="front", place=2)},
            ("fans", "mount"),
            "3 of 120 from place 2 on front",
            "what it takes: 3 of 120, so place 1",
        ),
        (
            {"fans": Fan(size=120, count=2, mount="front", place=3)},
            ("fans", "mount"),
            "2 of 120 from place 3 on front",
            "what it takes: 3 of 120, so a place from 1 to 2",
        ),
        (
            {"fans": Fan(size=120, mount="front", place=4)},
            ("fans", "mount"),
            "place 4 of 120 on front",
            "what it takes: 3 of 120, so a place from 1 to 3",
        ),
        (
            {"fans": Fan(size=120, count=4, mount="front", place=2)},
            ("fans", "mount"),
            "4 of 120 on front",
            "what it takes: 3 of 120",
        ),
        (
            {"fans": Fan(size=200, mount="front")},
            ("fans", "mount"),
            "fans of 200 on front",
            "what it takes: 3 of 120, 3 of 140",
        ),
        (
            {"cage": Cage(position="middle")},
            ("cage", "position"),
            "middle",
            "one of rear, front",
        ),
        (
            {"cage": Cage(places=1), "a": Drive(), "b": Drive()},
            ("b", "place"),
            "place 1, taken by a",
            "a free one: behind 1",
        ),
        (
            {"cage": Cage(), "disk": Drive(place="place 1", cage="other")},
            ("disk", "place"),
            "no drive place of other in the build",
            "a part of kind cage, or a case with 'drive places'",
        ),
    ],
)
def test_a_seat_that_is_not_to_be_had(
    *,
    parts: dict[str, Spec],
    part: tuple[str, str | None],
    found: str,
    right: str,
) -> None:
    with pytest.raises(SeatError) as refused:
        built(tower_case(), parts)
    error = refused.value
    assert (error.part, error.field) == part
    assert (error.found, error.right) == (found, right)


def test_fans_share_a_mount_place_by_place() -> None:
    build = built(
        tower_case(),
        {
            "radiator": Radiator(size=240, mount="front", place=2),
            "fan": Fan(size=120, mount="front", place=1),
            "outer": Fan(size=120, count=3, mount="front", side=MountSide.OUTER),
        },
    )
    assert [part.seat for part in build.parts] == ["front", "front", "front outer"]
    lowest, next_one = body(build, "fan"), body(build, "radiator/fan 1")
    assert lowest.body.bounds.high[1] == next_one.body.bounds.low[1]


def test_two_modules_go_where_boards_want_them() -> None:
    four = built(tower_case(), {"board": BOARD, "memory": Memory()})
    two = built(tower_case(), {"board": ITX, "memory": Memory()})
    assert _seat(four, "memory") == "memory 2, memory 4"
    assert _seat(two, "memory") == "memory 2, memory 1"
    first, second = (body(four, f"memory/module {n}").body.at_mm[0] for n in (1, 2))
    assert second - first == pytest.approx(2 * SLOT_PITCH.mm)


def test_a_board_brings_a_processor_unless_one_is_named() -> None:
    implied = built(tower_case(), {"board": BOARD})
    named = built(
        tower_case(), {"board": BOARD, "chip": Processor(stack=mm(8)), "cooler": COOLER}
    )
    assert [part.key for part in implied.parts] == ["board", "processor"]
    assert [part.key for part in named.parts] == ["board", "chip", "cooler"]
    assert body(named, "cooler").body.at_mm[2] == pytest.approx(6.35 + 1.57 + 8)


def test_parts_keep_the_order_of_the_file_though_hosts_are_placed_first() -> None:
    build = built(tower_case(), {"cooler": COOLER, "card": CARD, "board": BOARD})
    assert [part.key for part in build.parts] == [
        "cooler",
        "card",
        "board",
        "processor",
    ]
    assert build.bodies[0].part == "case"


def test_a_cage_that_is_taken_out_leaves_no_body() -> None:
    build = built(tower_case(), {"cage": Cage(position=OUT)})
    assert [(part.key, part.seat) for part in build.parts] == [("cage", "out")]
    assert {each.part for each in build.bodies} == {"case"}


def test_drives_find_their_places() -> None:
    build = built(
        tower_case(),
        {
            "cage": Cage(),
            "disk": Drive(),
            "second": Drive(),
            "flat": Drive(size=DriveShape.SMALL),
        },
    )
    seats = {part.key: part.seat for part in build.parts}
    assert seats == {
        "cage": "rear",
        "disk": "place 1",
        "second": "place 2",
        "flat": "behind 1",
    }


def test_a_case_without_a_rail_takes_no_cage() -> None:
    with pytest.raises(SeatError, match=r"no cage position in the build.*cage rail"):
        built(small_case(), {"cage": Cage()})


def _seat(build: Build, key: str) -> str:
    return next(part.seat for part in build.parts if part.key == key)
