"""Memory, processor, cage, drive, block: sizes and places at their own seats."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.geometry.errors import EmptyBodyError
from layout.geometry.solids.solid import block
from layout.geometry.space import Direction
from layout.parts.board.memory import Memory
from layout.parts.cooling.processor import Processor
from layout.parts.drives.cage import Cage
from layout.parts.drives.drive import Drive, DriveShape
from layout.parts.form.errors import PartError
from layout.parts.form.form import SeatSort
from layout.parts.form.wish import Wish
from layout.parts.kinds.block import Block
from layout.parts.kinds.kinds import KINDS
from tests.build.any_machine import meeting
from tests.build.machines import body, built, tower_case
from tests.parts.seats import box, mm, piece, seat, size_mm

SLOT = seat(SeatSort.MEMORY)


@pytest.mark.parametrize(
    ("memory", "thickness_mm"),
    [
        (Memory(modules=1), 4.0),
        (Memory(modules=1, height=mm(44)), 7.75),
        (Memory(modules=1, height=mm(44), thickness=mm(8.2)), 8.2),
    ],
)
def test_a_module_stands_on_its_contact_edge(
    memory: Memory, thickness_mm: float
) -> None:
    (wish,) = memory.wishes()
    form = memory.made_for(wish, SLOT)
    found = box(form)
    assert size_mm(found) == pytest.approx((thickness_mm, 133.35, memory.height.mm))
    assert found.low[2] == 0
    edge = piece(form).solids[0].bounds
    assert edge.high[0] - edge.low[0] == pytest.approx(1.4)


@pytest.mark.parametrize(
    ("memory", "seats"),
    [
        (Memory(modules=1), [("memory 2", "memory 1")]),
        (Memory(modules=2, slot=1), [("memory 1",), ("memory 2",)]),
        (Memory(modules=4), [(f"memory {n}",) for n in (1, 2, 3, 4)]),
    ],
)
def test_modules_ask_for_slots(memory: Memory, seats: list[tuple[str, ...]]) -> None:
    assert [wish.seats for wish in memory.wishes()] == seats


def test_a_processor_is_as_high_as_its_sockets_stack_or_its_own() -> None:
    socket = replace(seat(SeatSort.PROCESSOR), figure=mm(7.781))
    wish = Wish(sort=SeatSort.PROCESSOR)
    usual = Processor().made_for(wish, socket)
    own = Processor(stack=mm(8.2)).made_for(wish, socket)
    assert [form.seats[0].at_mm[2] for form in (usual, own)] == [7.781, 8.2]
    assert box(usual).high[2] == 7.781


def test_a_cage_is_a_frame_that_drives_lie_in() -> None:
    cage = Cage(places=3, drives=DriveShape.LARGE)
    (wish,) = cage.wishes()
    form = cage.made_for(wish, seat(SeatSort.CAGE))
    outside = box(form)
    assert size_mm(outside)[1] == pytest.approx(3 * 30 + 2 * 1.2)
    for place in form.seats:
        drive = Drive().made_for(Wish(sort=SeatSort.DRIVE), place)
        lies = box(drive).moved(place.at_mm)
        assert outside.low[0] + 1.2 <= lies.low[0]
        assert lies.high[0] <= outside.high[0] - 1.2
        assert lies.high[1] <= outside.high[1] - 1.2
    assert form.seats[0].at_mm[1] == pytest.approx(1.2)


def test_a_cage_too_shallow_for_its_drives_is_none() -> None:
    with pytest.raises(PartError, match=r"room for a drive 101\.6 mm wide"):
        Cage(depth=mm(100))
    assert Cage(depth=mm(80), drives=DriveShape.SMALL).places == 2


def test_a_drive_behind_the_tray_lies_against_its_back() -> None:
    behind = replace(seat(SeatSort.DRIVE), approach=Direction.PANEL)
    drive = Drive(size=DriveShape.SMALL, height=mm(7))
    found = box(drive.made_for(drive.wishes()[0], behind))
    assert (found.low[2], found.high[2]) == (-7, 0)
    assert size_mm(found)[:2] == pytest.approx((69.85, 100.45))


def test_a_block_has_no_tolerance_unless_it_says_so() -> None:
    solid = block((0, 10), (0, 20), (0, 30))
    plain = Block(solids=(solid,))
    loose = Block(solids=(solid,), plus_minus_mm=(0.5, 0.0, 1.0))
    assert piece(plain.form()).links == ()
    assert piece(loose.form()).links[0].plus_minus_mm == (0.5, 0.0, 1.0)
    with pytest.raises(EmptyBodyError, match="at least one solid"):
        Block(solids=())


def test_kinds_are_found_by_the_word_files_use() -> None:
    assert {word: kind.kind for word, kind in KINDS.items()} == {
        word: word for word in KINDS
    }
    assert "tower cooler" in KINDS


def test_drives_on_edge_stand_one_before_the_other() -> None:
    cage = Cage(on_edge=True, places=3)
    build = built(
        replace(tower_case(), mounts=(), shroud=None),
        {"cage": cage, "disk 1": Drive(), "disk 2": Drive(place="place 3")},
    )
    first, last = (body(build, f"disk {n}").body.bounds for n in (1, 2))
    assert size_mm(first) == pytest.approx((26.1, 101.6, 147.0))
    assert last.low[0] - first.low[0] == pytest.approx(60.0)
    frame = body(build, "cage").body.bounds
    assert size_mm(frame)[:2] == pytest.approx((92.4, 106.0))
    assert meeting(build) == set()


def test_a_cage_on_edge_is_as_high_as_its_drives_are_wide() -> None:
    with pytest.raises(PartError, match="height: found 90 mm"):
        Cage(on_edge=True, height=mm(90))
