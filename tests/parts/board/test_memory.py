"""Memory of both sizes, upright and lying, in boards that take it."""

from __future__ import annotations

import pytest

from layout.build.errors import SeatError
from layout.build.placed import Build
from layout.geometry.relations.query import clearances
from layout.parts.board.board import Board, BoardShape
from layout.parts.board.board_plan import Heatsinks
from layout.parts.board.memory import Memory
from layout.parts.board.memory_slot import MemoryLooks, MemorySize
from layout.parts.case.case import Case
from layout.parts.form.connector import ConnectorKind
from layout.questions.findings.tolerance import links_between
from layout.standards import memory
from tests.build.any_machine import meeting
from tests.build.machines import body, built, mm, tower, tower_case
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


@pytest.mark.parametrize(
    "looks", [each for each in MemoryLooks if each is not MemoryLooks.PANEL]
)
def test_usual_connectors_give_way_to_full_size_modules_that_lie(
    looks: MemoryLooks,
) -> None:
    lying = {"form": BoardShape.MINI_ITX, "memory_looks": looks}
    build = machine(Memory(modules=2, height=mm(44)), **lying)
    assert meeting(build) == set()
    names = {each.name for each in build.bodies}
    gone = {each for each in _AT_FRONT if f"board/{each}" not in names}
    told = [each for each in build.notes if "this one has its memory" in each]
    assert bool(gone) is bool(told)
    assert all(each in told[0] for each in gone)
    assert ("main power" in gone) is (looks is not MemoryLooks.REAR)
    kinds = {each.plug.kind for each in build.plugs if each.part == "board"}
    assert (ConnectorKind.MAIN in kinds) is ("main power" not in gone)
    upright = machine(Memory(modules=2), form=BoardShape.MINI_ITX)
    usual = {each.plug.kind for each in upright.plugs if each.part == "board"}
    for kind in usual - kinds - _OF_BODIES:
        assert f"the {kind.value} header" in told[0]
    box = body(build, "memory/module 1").body.bounds
    low, high = box.low, box.high
    for each in build.plugs:
        x, y, _ = each.plug.at_mm
        inside = low[0] + 2 < x < high[0] - 2 and low[1] + 2 < y < high[1] - 2
        assert not (each.part == "board" and inside), each.plug


_OF_BODIES = {
    ConnectorKind.MAIN,
    ConnectorKind.USB_19,
    ConnectorKind.DRIVE_DATA,
    ConnectorKind.PROCESSOR,
}
_AT_FRONT = ("main power", "internal usb", "drive data", "processor power")


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


MIDDLES = {
    # by hand: full-size slots reach 71 from their middle, and 2 more to the top edge
    "beside the socket": ({}, 78.0, ("socket centre from the board's top edge",)),
    "told": ({"memory_from_top": mm(90)}, 90.0, ()),
    "under the top edge": ({"socket_from_top": mm(66)}, 73.0, ()),
}


@pytest.mark.parametrize("case", MIDDLES)
def test_untold_slots_lie_beside_the_socket_and_rest_on_its_place(case: str) -> None:
    board, middle_mm, rests = MIDDLES[case]
    build = machine(Memory(modules=1), **board)
    slot, top = (body(build, f"board{n}").body.bounds for n in ("/memory slot 1", ""))
    assert top.high[1] - (slot.low[1] + slot.high[1]) / 2 == pytest.approx(middle_mm)
    links = {e.label: e for _, e in body(build, "memory").chain if e.low[1]}
    assert tuple(e for e in links if e.startswith("socket")) == rests
    (middle,) = (e for e in links.values() if e.label.startswith("memory slots' mid"))
    assert tuple(each.label for each in middle.instead) == rests
    assert middle.figure.assumed is (case != "told")


def test_a_cooler_and_the_memory_beside_it_share_the_sockets_place() -> None:
    build = built(tower_case(), tower())
    cooler, memory_, top = (
        body(build, each) for each in ("cooler", "memory/module 1", "case/top")
    )
    label = ("board", "socket centre from the board's top edge")
    for other, shared in ((cooler, True), (top, False)):
        found = {
            (owner, e.label): e
            for owner, e in links_between(memory_, other)
            if e.low[1]
        }
        assert ("board", "memory slots' middle from the socket's centre") in found
        assert (label in found) is not shared


ALONG_DEPTH = {
    # by hand, of laptop-size modules, whose slots reach 36.5 from their middle and
    # 2 more: on a board 244 deep with its socket here, the middle lies there
    "over the socket": (244, 110, 110.0),
    "before the rear connectors": (244, 30, 10.16 - 11.3 + 30 + 38.5),
    "behind the front edge": (244, 230, 244 - 38.5),
}


@pytest.mark.parametrize("case", ALONG_DEPTH)
def test_slots_over_the_socket_end_on_the_board(case: str) -> None:
    deep_mm, socket_mm, middle_mm = ALONG_DEPTH[case]
    build = machine(
        Memory(modules=1, size=LAPTOP),
        memory_looks=MemoryLooks.UP,
        form=BoardShape.FREE,
        depth=mm(deep_mm),
        height=mm(300),
        socket_from_rear=mm(socket_mm),
    )
    slot, board = (body(build, n).body.bounds for n in ("board/memory slot 1", "board"))
    found_mm = (slot.low[0] + slot.high[0]) / 2 - board.low[0]
    assert found_mm == pytest.approx(middle_mm)
    for name in ("board/memory slot 1", "memory"):
        placed = body(build, name)
        links = [one for _, e in placed.chain for one in (e, *e.more)]
        for face, counts in (("low", "low"), ("high", "high")):
            told_mm = sum(getattr(e, counts)[0] * e.figure.mm for e in links)
            at_mm = getattr(placed.body.bounds, face)[0]
            assert told_mm == pytest.approx(at_mm, abs=1e-6)
