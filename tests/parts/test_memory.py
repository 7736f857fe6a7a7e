"""Memory of both sizes, upright and lying, in boards that take it."""

from __future__ import annotations

import pytest

from layout.build.errors import SeatError
from layout.build.placed import Build
from layout.geometry.query import clearances
from layout.parts.board import Board, BoardShape
from layout.parts.board_plan import Heatsinks
from layout.parts.case import Case
from layout.parts.memory import Memory
from layout.parts.memory_slot import MemoryLooks, MemorySize
from layout.standards import memory
from tests.build.any_machine import meeting
from tests.build.machines import body, built, mm
from tests.parts.seats import size_mm

LAPTOP = MemorySize.LAPTOP


def machine(modules: Memory, **board: object) -> Build:
    case = Case(depth=mm(420), height=mm(440), width=mm(190))
    sizes = {"form": BoardShape.ATX, "socket": "AM5", "memory_size": modules.size}
    on = Board(**{**sizes, **board})  # type: ignore[arg-type]
    return built(case, {"board": on, "memory": modules})


@pytest.mark.parametrize("looks", MemoryLooks)
@pytest.mark.parametrize("size", MemorySize)
@pytest.mark.parametrize("modules", [1, 2, 4])
def test_modules_sit_in_their_slots_and_in_nothing_else(
    looks: MemoryLooks, size: MemorySize, modules: int
) -> None:
    # Two pairs of lying modules need a deeper board than ATX.
    depth = mm(330) if modules > 2 else None
    parts = Memory(modules=modules, size=size)
    bare = {"heatsinks": Heatsinks.NONE, "form": BoardShape.FREE, "power_plugs": 0}
    bare |= {"memory_slots": 4}
    if modules <= 2:
        build = machine(parts, memory_looks=looks)
    elif looks in {MemoryLooks.REAR, MemoryLooks.UP, MemoryLooks.DOWN}:
        # such a board has nothing else round its socket
        from_top = mm(90 if looks is MemoryLooks.REAR else 160)
        bare |= {"socket_from_rear": mm(200), "socket_from_top": from_top}
        bare |= {"height": mm(420), "depth": mm(400)}
        build = machine(parts, memory_looks=looks, **bare)
    else:
        build = machine(parts, memory_looks=looks, depth=depth, memory_slots=4)
    assert not [pair for pair in meeting(build) if pair[1].startswith("memory")]
    own = [each.body for each in build.bodies if each.part == "memory"]
    assert len(own) == modules
    assert not clearances(own).interfering.any()


@pytest.mark.parametrize("looks", MemoryLooks)
@pytest.mark.parametrize("form", [BoardShape.MINI_ITX, BoardShape.MICRO_ATX])
def test_laptop_size_modules_end_before_usual_plugs_and_connectors(
    form: BoardShape, looks: MemoryLooks
) -> None:
    build = machine(Memory(modules=2, size=LAPTOP), form=form, memory_looks=looks)
    assert meeting(build) == set()


def test_a_socket_that_the_file_places_gives_no_way_to_lying_memory() -> None:
    told = machine(
        Memory(size=LAPTOP), memory_looks=MemoryLooks.REAR, socket_from_rear=mm(70)
    )
    chip = body(told, "processor").body.bounds
    edge_mm = body(told, "board").body.bounds.low[0]
    assert (chip.low[0] + chip.high[0]) / 2 - edge_mm == pytest.approx(70)


def test_a_lying_laptop_size_module_looks_to_the_front() -> None:
    build = machine(Memory(modules=1, size=LAPTOP), memory_looks=MemoryLooks.FRONT)
    box = body(build, "memory").body.bounds
    assert size_mm(box) == pytest.approx((30.0, 67.6, 3.8))
    board = body(build, "board").body.bounds
    assert box.low[2] - board.high[2] == pytest.approx(3.2 - 1.9)
    slot = body(build, "board/memory slot 1").body.bounds
    assert slot.low[0] < box.low[0] < slot.high[0] < box.high[0]


LOOKS = {
    # by hand, of a socket 200 from the rear and 160 from the top of a board 400 high:
    # 47 to the slot's middle, a module from there on 30 long
    MemoryLooks.FRONT: (0, 247.0, 277.0),
    MemoryLooks.REAR: (0, 123.0, 153.0),
    MemoryLooks.UP: (1, 287.0, 317.0),
    MemoryLooks.DOWN: (1, 163.0, 193.0),
}


@pytest.mark.parametrize("looks", LOOKS)
def test_a_lying_module_looks_where_the_board_says(looks: MemoryLooks) -> None:
    k, low_mm, high_mm = LOOKS[looks]
    on = {"form": BoardShape.FREE, "depth": mm(400), "height": mm(400)}
    socket = {"socket_from_rear": mm(200), "socket_from_top": mm(160)}
    build = machine(Memory(modules=1, size=LAPTOP), memory_looks=looks, **on, **socket)
    box = body(build, "memory").body.bounds
    edge_mm = body(build, "board").body.bounds.low[k]
    assert box.low[k] - edge_mm == pytest.approx(low_mm)
    assert box.high[k] - edge_mm == pytest.approx(high_mm)
    # along itself it lies over its slot's middle, beside the socket's centre
    slot = body(build, "board/memory slot 1").body.bounds
    j = 1 - k
    chip = body(build, "processor").body.bounds
    middle_mm = (chip.low[j] + chip.high[j]) / 2
    for each in (slot, box):
        assert (each.low[j] + each.high[j]) / 2 == pytest.approx(middle_mm)
    assert size_mm(box)[j] == pytest.approx(67.6)
    assert size_mm(box)[2] == pytest.approx(3.8)


def test_memory_under_the_socket_lies_where_its_middle_is_told() -> None:
    on = {"form": BoardShape.FREE, "depth": mm(400), "height": mm(400)}
    build = machine(
        Memory(modules=1, size=LAPTOP),
        memory_looks=MemoryLooks.DOWN,
        memory_from_rear=mm(70),
        **on,
    )
    box, board = (body(build, n).body.bounds for n in ("memory", "board"))
    assert (box.low[0] + box.high[0]) / 2 - board.low[0] == pytest.approx(70)


def test_of_two_lying_modules_one_lies_over_the_other() -> None:
    build = machine(Memory(modules=2, size=LAPTOP), memory_looks=MemoryLooks.FRONT)
    low, high = (body(build, f"memory/module {n}").body.bounds for n in (1, 2))
    assert low.high[2] <= high.low[2]
    assert high.low[0] < low.low[0]


def test_an_upright_laptop_size_module_stands_on_its_slot() -> None:
    build = machine(Memory(modules=1, size=LAPTOP))
    box = body(build, "memory").body.bounds
    assert size_mm(box) == pytest.approx((3.8, 67.6, 30.0))
    top_mm = body(build, "board").body.bounds.high[2]
    assert box.low[2] - top_mm == pytest.approx(memory.SEAT.mm)


def test_a_told_height_is_kept() -> None:
    module = Memory(modules=1, size=LAPTOP, height=mm(32))
    assert module.height.mm == 32
    assert Memory(size=LAPTOP).height is memory.LAPTOP_HEIGHT
    assert Memory().height is memory.HEIGHT


@pytest.mark.parametrize("size", MemorySize)
def test_the_wrong_size_goes_into_no_slot(size: MemorySize) -> None:
    (other,) = set(MemorySize) - {size}
    with pytest.raises(SeatError, match=f"size: found {size.value}.*{other.value}"):
        machine(Memory(size=size), memory_size=other)


@pytest.mark.parametrize(
    ("looks", "gone"), [(MemoryLooks.REAR, "rear"), (MemoryLooks.UP, "top")]
)
def test_untold_heatsinks_are_not_where_lying_memory_is(
    looks: MemoryLooks, gone: str
) -> None:
    build = machine(Memory(modules=2, size=LAPTOP), memory_looks=looks)
    assert f"board/{gone} heatsink" not in {each.name for each in build.bodies}
    told = machine(
        Memory(modules=2, size=LAPTOP),
        memory_looks=looks,
        heatsinks=Heatsinks.REAR_AND_TOP,
    )
    assert f"board/{gone} heatsink" in {each.name for each in told.bodies}
