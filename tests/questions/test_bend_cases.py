"""Every place where cables are known to lack room, from clear through tight to short.

One figure moves until the cable fails, and what is to spare falls by as much.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final, TypeAlias

import pytest

from layout.build.placed import Build, PlacedPlug
from layout.geometry.space import Axis, Direction
from layout.parts.board.board import Board
from layout.parts.card.card import Card, PlugAt
from layout.parts.card.card_headers import CardHeader
from layout.parts.case.case import Case
from layout.parts.case.case_fields import (
    CageRail,
    CutOut,
    DrivePlace,
    Mount,
    Position,
    Shroud,
    Takes,
)
from layout.parts.cooling.fan import Fan
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.radiator import Radiator
from layout.parts.drives.cage import Cage
from layout.parts.drives.drive import Drive, DriveShape
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import Plug, PlugShape, Role
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Supply
from layout.parts.wiring.adapter import Adapter, AdapterLooks, BoardAdapter
from layout.questions.bends.bends import bends
from layout.questions.checking.check import check
from layout.questions.findings.finding import Finding, Group, Verdict
from tests.build.machines import built, mm, tower, tower_case
from tests.questions.builds import build_of, link, placed

CASE: Final = tower_case()
BARE: Final = replace(
    CASE, shroud=None, mounts=(), cage_rail=None, cut_outs=(), drive_places=()
)
CARD: Final = Card(length=mm(285), height=mm(112), slots=2)
BOARD: Final = Board(socket="LGA1155")
ON_CARD: Final = CardHeader(kind=ConnectorKind.USB_9, at=mm(60))
WITHOUT_SMALL: Final = {k: v for k, v in tower().items() if k != "system disk"}
WET: Final = LiquidCooler(radiator=Radiator(size=360, mount="front"))
Machine: TypeAlias = tuple[Case, dict[str, Spec]]


def card_before_panel(width: float) -> Machine:
    card = replace(CARD, plug=PlugAt.TOP_EDGE)
    return replace(BARE, width=mm(width)), {"board": BOARD, "card": card}


def card_before_front(depth: float) -> Machine:
    card = replace(CARD, plug=PlugAt.FAR_END)
    return replace(BARE, depth=mm(depth)), {"board": BOARD, "card": card}


def card_before_fans(depth: float) -> Machine:
    case, parts = card_before_front(depth)
    fans = Fan(size=120, count=3, mount="front")
    case = replace(case, mounts=(("front", Mount(takes=(Takes(size=120, count=3),))),))
    return case, {**parts, "front fans": fans}


def card_socket_before_front(depth: float) -> Machine:
    card = replace(CARD, headers=(("9-pin USB", 1),), header_places=(ON_CARD,))
    return replace(BARE, depth=mm(depth)), {"board": BOARD, "card": card}


def main_under_fans(from_tray: float) -> Machine:
    """Fans that stand over the front of the board."""
    front = Mount(takes=(Takes(size=120, count=3),), from_tray=mm(60 + from_tray))
    case = replace(BARE, depth=mm(250), mounts=(("front", front),))
    return case, {"board": BOARD, "front fans": Fan(size=120, count=3, mount="front")}


def processor_under_fans(from_tray: float) -> Machine:
    top = Mount(
        takes=(Takes(size=120, count=3, start=mm(0)),), from_tray=mm(60 + from_tray)
    )
    case = replace(BARE, room_over_board=mm(8), mounts=(("top", top),))
    return case, {"board": BOARD, "top fans": Fan(size=120, count=3, mount="top")}


def lower_edge_under_fans(from_tray: float) -> Machine:
    floor = Mount(
        takes=(Takes(size=120, count=3, start=mm(20)),), from_tray=mm(60 + from_tray)
    )
    case = replace(BARE, room_over_board=mm(150), mounts=(("floor", floor),))
    fans = Fan(size=120, count=3, mount="floor", thickness=mm(38))
    return case, {"board": BOARD, "floor fans": fans}


def _wet(depth: float) -> Case:
    """Return a case whose front radiator reaches down to the tray."""
    front = Mount(takes=(Takes(size=120, count=3),), from_tray=mm(61))
    return replace(BARE, depth=mm(depth), mounts=(("front", front),))


def lying_before_radiator(depth: float) -> Machine:
    board = replace(BOARD, lying_sockets=("24-pin",))
    return _wet(depth), {"board": board, "cooler": WET}


def wide_before_radiator(depth: float) -> Machine:
    """A wide plug before two fans of a row at once."""
    board = replace(BOARD, lying_sockets=("19-pin USB",))
    return _wet(depth), {"board": board, "cooler": WET}


def data_before_radiator(depth: float) -> Machine:
    places = (("low", DrivePlace(from_rear=mm(100), from_floor=mm(20))),)
    disk = Drive(size=DriveShape.SMALL, place="low")
    case = replace(_wet(depth), drive_places=places)
    return case, {"board": BOARD, "cooler": WET, "disk": disk}


def drive_before_panel(width: float) -> Machine:
    return replace(CASE, width=mm(width), behind_tray=mm(10)), WITHOUT_SMALL


def drive_before_back(behind_tray: float) -> Machine:
    return replace(CASE, width=mm(170), behind_tray=mm(behind_tray)), WITHOUT_SMALL


def field_before_cage(from_rear: float) -> Machine:
    rail = CageRail(positions=(("front", Position(from_rear=mm(from_rear))),))
    return replace(CASE, cage_rail=rail), {**tower(), "cage": Cage(position="front")}


def behind_tray(room: float) -> Machine:
    return replace(CASE, behind_tray=mm(room)), WITHOUT_SMALL


@dataclass(frozen=True, slots=True)
class Sweep:
    """A figure of a machine that is clear, tight and short in turn before a body."""

    make: Callable[[float], Machine]
    rule: str
    figures: tuple[float, float, float]
    limit: str
    helps: str


ANGLED_CARD: Final = "take an angled plug ('plug shape: angled')"
ANGLED_DRIVE: Final = "or take angled plugs ('plug: angled')"
THINNER_FANS: Final = "take thinner fans, or another mount for them"
SWEEPS: Final = (
    Sweep(
        card_before_panel,
        "card-plug-bend",
        (160.0, 156.0, 150.0),
        "case/side panel",
        "take an angled plug ('plug shape: angled'), or a lower card",
    ),
    Sweep(
        card_before_front,
        "card-plug-bend",
        (325.0, 317.0, 310.0),
        "case/front",
        ANGLED_CARD,
    ),
    Sweep(
        card_before_fans,
        "card-plug-bend",
        (350.0, 342.0, 335.0),
        "front fans/fan 2",
        ANGLED_CARD,
    ),
    Sweep(
        card_socket_before_front,
        "card-socket-bend",
        (330.0, 325.0, 317.0),
        "case/front",
        "take angled plugs ('plug shape: angled' in its 'header places')",
    ),
    Sweep(
        main_under_fans,
        "main-power-bend",
        (50.0, 43.0, 38.0),
        "front fans/fan 3",
        THINNER_FANS,
    ),
    Sweep(
        processor_under_fans,
        "processor-power-bend",
        (50.0, 43.0, 38.0),
        "top fans/fan 1",
        THINNER_FANS,
    ),
    Sweep(
        lower_edge_under_fans,
        "lower-edge-bend",
        (44.0, 39.0, 30.0),
        "floor fans/fan 2",
        "take thinner fans on the floor",
    ),
    Sweep(
        lying_before_radiator,
        "main-power-bend",
        (345.0, 334.0, 325.0),
        "cooler/fan 3",
        "'angled plugs' of the board",
    ),
    Sweep(
        wide_before_radiator,
        "internal-usb-bend",
        (355.0, 345.0, 340.0),
        "cooler/fan 2",
        "'angled plugs' of the board",
    ),
    Sweep(
        data_before_radiator,
        "board-data-bend",
        (345.0, 334.0, 325.0),
        "cooler/fan 2",
        "'angled plugs' of the board",
    ),
    Sweep(
        drive_before_panel,
        "drive-plug-bend",
        (210.0, 198.0, 190.0),
        "case/side panel",
        ANGLED_DRIVE,
    ),
    Sweep(
        drive_before_back,
        "drive-plug-bend",
        (30.0, 22.0, 14.0),
        "case/back panel",
        ANGLED_DRIVE,
    ),
    Sweep(
        field_before_cage,
        "leads-to-cage",
        (215.0, 202.0, 190.0),
        "cage",
        "move the cage",
    ),
    Sweep(
        behind_tray,
        "room-behind-tray",
        (17.0, 15.2, 12.0),
        "case/back panel",
        "lead the thickest cable elsewhere",
    ),
)


def found(machine: Machine, rule: str, limit: str) -> Finding:
    build = built(*machine)
    asked = bends(build) if rule.endswith("-bend") else _distances(build)
    (one,) = (e for e in asked if e.rule == rule and limit in {e.a, e.b})
    return one


def _distances(build: Build) -> tuple[Finding, ...]:
    return check(build, groups=frozenset({Group.DISTANCE})).findings


@pytest.mark.parametrize("sweep", SWEEPS, ids=lambda each: each.make.__name__)
def test_what_is_to_spare_falls_with_the_figure_until_it_is_short(
    sweep: Sweep,
) -> None:
    three = [found(sweep.make(e), sweep.rule, sweep.limit) for e in sweep.figures]
    assert tuple(each.verdict for each in three) == _IN_TURN
    first, *others = zip(sweep.figures, three, strict=True)
    for each in others:
        assert each[1].need_mm == pytest.approx(first[1].need_mm)
        _falls(first, each)
    assert sweep.helps in three[-1].advice


def test_a_row_of_fans_gives_as_one() -> None:
    """No shift along the row frees a plug that lies across two of its fans."""
    rule = "internal-usb-bend"
    near = found(wide_before_radiator(340.0), rule, "cooler/fan 2")
    deep = found(wide_before_radiator(325.0), rule, "cooler/fan 3")
    assert near.margin_mm is not None
    assert deep.axis is Axis.DEPTH
    # 15 less, but for the other fan's own corner
    assert deep.margin_mm == pytest.approx(near.margin_mm - 15.0, abs=0.3)


_IN_TURN: Final = (Verdict.CLEAR, Verdict.TIGHT, Verdict.SHORT)


def _falls(first: tuple[float, Finding], then: tuple[float, Finding]) -> None:
    """Hold what two findings have to spare to the figure that moved between them."""
    moved_mm = then[0] - first[0]
    assert then[1].margin_mm is not None
    assert first[1].margin_mm is not None
    assert then[1].margin_mm - first[1].margin_mm == pytest.approx(moved_mm)


def before_cut_out(depth: float) -> Machine:
    """Fans that stand on the tray before the one hole at the board's front edge."""
    front = Mount(takes=(Takes(size=120, count=3),), from_tray=mm(61))
    hole = CutOut(from_rear=mm(259), from_floor=mm(150), depth=mm(22), height=mm(250))
    case = replace(
        BARE,
        depth=mm(depth),
        mounts=(("front", front),),
        shroud=Shroud(height=mm(100), to_depth=mm(depth)),
        cut_outs=(("front", hole),),
    )
    fans = Fan(size=120, count=3, mount="front")
    return case, {"board": BOARD, "supply": Supply(length=mm(140)), "front fans": fans}


def test_fans_close_the_hole_between_them_and_the_board_to_the_main_lead() -> None:
    """Through it while some of it is free, round the fans, then no way is left."""
    ways = []
    for depth_mm in (310.0, 284.0, 282.5):
        asked = check(built(*before_cut_out(depth_mm)), groups=frozenset({Group.REACH}))
        main = [e for e in asked.findings if e.rule == "main-lead-reach"]
        shut = [e for e in asked.notes if "no way for its main lead" in e]
        ways.append(([each.verdict for each in main], len(shut)))
    assert ways == [([Verdict.CLEAR], 0), ([Verdict.TIGHT], 0), ([], 1)]


def test_an_adapter_that_the_user_tries_mends_what_is_short() -> None:
    case, parts = card_before_panel(150.0)
    card = replace(CARD, plug=PlugAt.TOP_EDGE)
    up = Adapter(looks=AdapterLooks.UP, height=mm(16))
    tried = found_of((case, {**parts, "card": replace(card, adapter=up)}))
    assert tried["card-plug-bend"] is Verdict.CLEAR
    case, parts = card_socket_before_front(317.0)
    places = (replace(ON_CARD, plug_shape=PlugShape.ANGLED),)
    card = replace(CARD, headers=(("9-pin USB", 1),), header_places=places)
    tried = found_of((case, {**parts, "card": card}))
    assert tried["card-socket-bend"] is Verdict.CLEAR
    case, parts = main_under_fans(38.0)
    rear = BoardAdapter(kind=ConnectorKind.MAIN, looks=AdapterLooks.REAR, height=mm(20))
    board = replace(BOARD, adapters=(rear,))
    assert found_of((case, parts))["main-power-bend"] is Verdict.SHORT
    tried = found_of((case, {**parts, "board": board}))
    assert tried["main-power-bend"] is Verdict.CLEAR


def found_of(machine: Machine) -> dict[str, Verdict]:
    """Return the verdict of each rule for bends."""
    return {each.rule: each.verdict for each in bends(built(*machine))}


LOW: Final = (("part", link("plug", (0.0, 3.0, 0.0))),)
"""A plug that may be 3 lower than drawn."""


def _pins(under_mm: float) -> Build:
    """Return a right-angle plug at a board's lower edge with a card close over it.

    The shroud's top lies so far under the plug.
    """
    plug = Plug(
        name="pins",
        kind=ConnectorKind.USB_9,
        at_mm=(200.0, 100.0, 20.0),
        out=Direction.PANEL,
        along=Axis.DEPTH,
        size_mm=(12.7, 5.0),
        shape=PlugShape.ANGLED,
    )
    low_mm = 97.5 - under_mm
    build = build_of(
        placed("board", Role.BOARD, ((0, 244), (95, 400), (0, 8))),
        placed("board/pins", Role.BOARD_CONNECTOR, ((190, 210), (96, 104), (8, 20))),
        placed("card", Role.CARD, ((0, 285), (103, 122), (10, 120))),
        placed("case/shroud", Role.SHROUD, ((0, 400), (low_mm - 1, low_mm), (0, 186))),
    )
    return replace(build, plugs=(PlacedPlug(part="board", plug=plug, chain=LOW),))


def _field(over_mm: float) -> Build:
    """Return a supply's lead that can turn upwards alone, so far under the shroud."""
    plug = Plug(
        name="leads",
        kind=ConnectorKind.CARD_8,
        at_mm=(165.0, 43.0, 80.0),
        out=Direction.FRONT,
        along=Axis.WIDTH,
        size_mm=(20.0, 12.0),
    )
    low_mm = 49.0 + over_mm
    sides = [((165, 400), (30, 60), span) for span in ((60, 69), (91, 100))]
    build = build_of(
        placed("supply", Role.SUPPLY, ((0, 140), (0, 86), (0, 150))),
        placed("supply/leads", Role.SUPPLY_LEADS, ((140, 165), (8, 78), (8, 142))),
        placed("case/shroud", Role.SHROUD, ((0, 400), (low_mm, low_mm + 1), (60, 100))),
        placed("floor", Role.BLOCK, ((0, 400), (30, 36.9), (60, 100))),
        placed("ahead", Role.BLOCK, ((185, 400), (36.9, 49), (60, 100))),
        *(placed(f"side {k}", Role.BLOCK, spans) for k, spans in enumerate(sides)),
    )
    return replace(build, plugs=(PlacedPlug(part="supply", plug=plug, chain=LOW),))


@pytest.mark.parametrize(
    ("make", "rule", "helps"),
    [
        (_pins, "lower-edge-bend", "take a case with more room under the board"),
        (_field, "supply-lead-bend", "take a supply of a lower form"),
    ],
    ids=["pins over the shroud", "field under the shroud"],
)
def test_what_lies_along_a_shroud_falls_short_of_it_in_turn(
    make: Callable[[float], Build], rule: str, helps: str
) -> None:
    findings = []
    for room_mm in (8.0, 4.0, 1.0):
        (one,) = bends(make(room_mm))
        assert (one.rule, one.b, one.axis) == (rule, "case/shroud", Axis.HEIGHT)
        findings.append((room_mm, one))
    assert tuple(each.verdict for _, each in findings) == _IN_TURN
    first, *others = findings
    for each in others:
        _falls(first, each)
    assert helps in others[-1][1].advice
    # What is angled already is not told to be.
    assert "angled" not in others[-1][1].advice


def _under_card(over_mm: float) -> Build:
    """Return pins at a board's lower edge, a shroud near, a card so far over them."""
    plug = Plug(
        name="pins",
        kind=ConnectorKind.USB_9,
        at_mm=(200.0, 100.0, 20.0),
        out=Direction.PANEL,
        along=Axis.DEPTH,
        size_mm=(12.7, 5.0),
    )
    low_mm = 102.5 + over_mm
    build = build_of(
        placed("board", Role.BOARD, ((0, 244), (95, 400), (0, 8))),
        placed("board/pins", Role.BOARD_CONNECTOR, ((190, 210), (96, 104), (8, 20))),
        placed("card", Role.CARD, ((0, 285), (low_mm, low_mm + 20), (10, 120))),
        placed("case/shroud", Role.SHROUD, ((0, 400), (89, 90), (0, 186))),
    )
    return replace(build, plugs=(PlacedPlug(part="board", plug=plug, chain=LOW),))


def test_a_card_in_the_lowest_slots_takes_the_pins_their_room() -> None:
    """What stands beside a plug limits no cable until it is in the cable's way."""
    assert all(each.b != "card" for each in bends(_under_card(5.0)))
    found = [(mm, bends(_under_card(mm))[0]) for mm in (-1.0, -3.0)]
    for _, each in found:
        assert (each.rule, each.b) == ("lower-edge-bend", "card")
        assert (each.axis, each.verdict) == (Axis.HEIGHT, Verdict.SHORT)
        assert "take a thinner card, or angled plugs there" in each.advice
    _falls(*found)
