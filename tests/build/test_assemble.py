"""Builds as values: chains that share what they rest on, notes, mates, blocks."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.build.assemble import CASE, Entry, SeatError, assemble
from layout.build.placed import OwnNeed
from layout.geometry.solids.solid import block
from layout.parts.board.board import Board
from layout.parts.case.case_supply import BayPlace, SupplyBay
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.form.form import Role
from layout.parts.kinds.block import Block
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Supply
from layout.questions.findings.tolerance import links_between
from tests.build.machines import body, built, mm, tower, tower_case

AIR = built(tower_case(), tower())


def test_a_build_of_blocks_needs_no_case() -> None:
    solid = block((0, 10), (0, 20), (0, 30))
    spec = Block(at_mm=(5.0, -5.0, 1.0), solids=(solid,))
    build = assemble(name="blocks", entries=(Entry(key="odd", spec=spec),))
    assert [each.name for each in build.bodies] == ["odd"]
    assert build.bodies[0].body.bounds.low == (5.0, -5.0, 1.0)
    assert build.bodies[0].chain == ()
    assert (build.case_name, build.case_size_mm) == (None, None)
    assert build.parts[0].kind == "block"


def test_a_part_without_a_case_has_no_seat() -> None:
    entry = Entry(key="board", spec=Board(socket="AM5"))
    with pytest.raises(SeatError, match=r"no board seat in the build; .* a case"):
        assemble(name="none", entries=(entry,))


def test_the_case_comes_first_and_says_its_size() -> None:
    assert AIR.bodies[0].part == CASE
    assert AIR.case_name == "usual tower"
    assert AIR.case_size_mm == (430, 460, 186)
    assert CASE not in [part.key for part in AIR.parts]


def test_needs_are_handed_on() -> None:
    own = OwnNeed(a="card", b="cage", need_mm=3.0, why="air", source="given")
    build = assemble(
        name="needs",
        entries=(),
        case=tower_case(),
        needs=(("card-to-front", 12.0),),
        own_needs=(own,),
    )
    assert build.needs == (("card-to-front", 12.0),)
    assert build.own_needs == (own,)


@pytest.mark.parametrize(
    ("a", "b", "labels"),
    [
        (
            "cooler",
            "case/side panel",
            {
                "standoff height",
                "board thickness",
                "board's top to heat spreader",
                "cooler height",
                "inside width",
            },
        ),
        # What memory and cooler share, the board and the socket's place, cancels.
        (
            "memory/module 1",
            "cooler",
            {
                "first memory slot from the socket's centre",
                "memory slots' pitch",
                "module thickness",
                "fins' depth",
            },
        ),
        (
            "front fans/fan 1",
            "card",
            # A card's bracket is held by the case: where the board lies cancels.
            {"inside depth", "fan thickness", "card length"},
        ),
    ],
)
def test_chains_hold_what_a_gap_rests_on(a: str, b: str, labels: set[str]) -> None:
    along = {"cooler": (0.0, 0.0, 1.0)}.get(a)
    links = links_between(body(AIR, a), body(AIR, b), along)
    axis = {"cooler": 2, "memory/module 1": 0, "front fans/fan 1": 0}[a]
    found = {link.label for _, link in links if link.plus_minus_mm[axis]}
    assert found == labels


def test_fans_say_which_face_they_are_on() -> None:
    assert body(AIR, "front fans/fan 1").where == "front"
    assert body(AIR, "cooler/fan 1").where is None


def test_mates_are_where_parts_enter_one_another() -> None:
    by_guest = {(mate.guest, mate.role) for mate in AIR.mates}
    assert by_guest == {
        ("memory", Role.MEMORY_SLOT),
        ("card", Role.CARD_SLOT),
        ("card", Role.REAR),
    }


def test_notes_tell_each_parts_assumptions_in_one_line() -> None:
    starts = [note.split(":")[0] for note in AIR.notes]
    assert len(starts) == len(set(starts))
    assert "board, assumed" in starts
    (board,) = (note for note in AIR.notes if note.startswith("board, assumed"))
    assert "socket centre from the board's top edge 78 ± 15" in board
    (cooler,) = (note for note in AIR.notes if note.startswith("cooler, assumed"))
    assert cooler.endswith("memory module's contact edge over the board 3 ± 0.5")


def test_what_the_file_gives_is_no_note() -> None:
    assert not any("inside width" in note for note in AIR.notes)


@pytest.mark.parametrize(
    ("left_out", "told"),
    [
        ((), None),
        (("supply",), "not in the build, so nothing is asked of it: a supply"),
        (
            ("memory", "cooler"),
            "not in the build, so nothing is asked of them: memory, a cooler",
        ),
    ],
)
def test_what_a_machine_needs_and_is_not_there_is_said(
    left_out: tuple[str, ...], told: str | None
) -> None:
    parts = {key: spec for key, spec in tower().items() if key not in left_out}
    notes = [n for n in built(tower_case(), parts).notes if n.startswith("not in the")]
    assert notes == ([told] if told else [])


def test_what_a_part_says_of_its_place_is_a_note_of_the_build() -> None:
    bay = SupplyBay(place=BayPlace.FRONT, from_rear=mm(200), from_floor=mm(60))
    case = replace(tower_case(), supply_bay=bay, shroud=None, cage_rail=None)
    parts: dict[str, Spec] = {"board": Board(socket="AM5"), "psu": Supply()}
    (note,) = (n for n in built(case, parts).notes if n.startswith("psu: its mains"))
    assert "leave other mains wiring to licensed practice" in note
    away = built(tower_case(), parts).notes
    assert not [each for each in away if "mains inlet" in each]


@pytest.mark.parametrize(
    ("height_mm", "room_mm", "told"),
    [
        # by hand: 40 and 3 under the module, less a stack of 7.25 and with a fan of
        # 120, is 155.75
        (150.0, 40.0, "disagree by 5.8 mm: a fan of 120"),
        (153.0, 40.0, "; a room measured from the board surface would explain it"),
        (155.0, 40.0, None),
        (170.0, 40.0, None),
    ],
)
def test_a_fan_that_ends_over_the_height_told_is_said(
    height_mm: float, room_mm: float, told: str | None
) -> None:
    cooler = TowerCooler(
        height=mm(height_mm),
        width=mm(120),
        depth=mm(50),
        room_over_memory=mm(room_mm),
    )
    parts: dict[str, Spec] = {"board": Board(socket="AM5"), "cooler": cooler}
    notes = [n for n in built(tower_case(), parts).notes if "room over memory" in n]
    assert len(notes) == (told is not None)
    assert told is None or told in notes[0]


@pytest.mark.parametrize(
    ("socket", "told"),
    [("AM5", "9.8 mm over a processor of AM5, 7.25 high"), ("LGA1155", "9.3 mm")],
)
def test_a_tallest_cooler_is_compared_over_the_builds_own_processor(
    socket: str, told: str
) -> None:
    case = replace(tower_case(), width=mm(205), tallest_cooler=mm(180))
    notes = built(case, {"board": Board(socket=socket)}).notes
    (note,) = (each for each in notes if "tallest cooler 180" in each)
    assert told in note
