"""Whole machines: everything touches where it sits and enters nothing else."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.build.assemble import SeatError
from layout.build.placed import Build
from layout.geometry.relations.query import relation
from layout.geometry.relations.relation import State
from layout.parts.board.board import Board, BoardShape
from layout.parts.board.memory import Memory
from layout.parts.card.card import Card, PlugAt
from layout.parts.case.case import Case
from layout.parts.cooling.fan import Fan, MountSide
from layout.parts.cooling.low_cooler import LowCooler
from layout.parts.cooling.radiator import FanPlaces, Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.cooling.twin_tower import TwinTower
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Cables, Intake, Supply, SupplyShape
from layout.questions.checking.check import check
from layout.questions.findings.finding import Verdict
from tests.build.machines import body, built, mm, small_case, tower, tower_case, wet

SMALL: dict[str, Spec] = {
    "board": Board(form=BoardShape.MINI_ITX, socket="AM5"),
    "memory": Memory(modules=2),
    "cooler": LowCooler(
        height=mm(66), width=mm(95), depth=mm(95), room_over_memory=mm(32)
    ),
    "card": Card(length=mm(170), slots=2),
    "supply": Supply(form=SupplyShape.SFX, cables=Cables.FIXED),
    "fan": Fan(size=120, mount="front", place=2),
}

TWIN: dict[str, Spec] = {
    "board": Board(form=BoardShape.SSI_EEB, socket="LGA2066"),
    "memory": Memory(modules=4, height=mm(34)),
    "cooler": TwinTower(
        height=mm(160), width=mm(140), depth=mm(110), room_over_memory=mm(35)
    ),
    "supply": Supply(length=mm(200), intake=Intake.UP),
    "outer fans": Fan(size=140, count=3, mount="front", side=MountSide.OUTER),
    "top fans": Fan(size=120, count=2, mount="top", place=1),
}

BOTH_SIDES: dict[str, Spec] = {
    "board": Board(form=BoardShape.FREE, depth=mm(200), height=mm(230), socket="AM4"),
    "radiator": Radiator(size=240, mount="front", fans=FanPlaces.BOTH, place=2),
    "low fan": Fan(size=120, mount="front", place=1),
    "card": Card(length=mm(242), slots=3, slot=1, plug=PlugAt.FAR_END),
}

MACHINES = [
    pytest.param(tower_case(), tower(), id="air"),
    pytest.param(tower_case(), wet(), id="liquid"),
    pytest.param(small_case(), SMALL, id="small"),
    pytest.param(replace(tower_case(), cut_outs=()), TWIN, id="twin"),
    pytest.param(tower_case(), BOTH_SIDES, id="both sides"),
]


@pytest.mark.parametrize(("case", "parts"), MACHINES)
def test_nothing_interferes_beyond_its_seat(case: Case, parts: dict[str, Spec]) -> None:
    findings = check(built(case, parts), every_pair=True).findings
    clashes = [each.id for each in findings if each.verdict is Verdict.CLASH]
    assert findings
    assert clashes == []


@pytest.mark.parametrize(("case", "parts"), MACHINES)
def test_every_body_has_a_name_of_its_own(case: Case, parts: dict[str, Spec]) -> None:
    names = [each.name for each in built(case, parts).bodies]
    assert len(names) == len(set(names))


AIR = built(tower_case(), tower())
WET = built(tower_case(), wet())
FREE = built(tower_case(), BOTH_SIDES)
OUTER = built(tower_case(), TWIN)


@pytest.mark.parametrize(
    ("build", "a", "b"),
    [
        (AIR, "case/tray", "board/standoffs"),
        (AIR, "board/standoffs", "board"),
        (AIR, "board", "processor"),
        (AIR, "processor", "cooler"),
        (AIR, "cooler", "cooler/fan 1"),
        (AIR, "card", "card/plug"),
        (AIR, "card", "card/bracket"),
        (AIR, "supply", "case/rear"),
        (AIR, "supply", "case/perforated floor"),
        (AIR, "supply", "supply/leads"),
        (AIR, "cage", "case/floor"),
        (AIR, "disk", "cage"),
        (AIR, "system disk", "case/tray"),
        (AIR, "front fans/fan 2", "case/front"),
        (AIR, "front fans/fan 2", "front fans/fan 3"),
        (AIR, "rear fan", "case/rear"),
        (WET, "cooler/radiator", "case/front"),
        (WET, "cooler/radiator", "cooler/fan 3"),
        (WET, "processor", "cooler/block"),
        (FREE, "radiator/fan 1", "case/front"),
        (FREE, "radiator/fan 1", "radiator"),
        (FREE, "radiator", "radiator/fan 4"),
        (OUTER, "outer fans/fan 1", "case/front"),
        (OUTER, "top fans/fan 1", "case/top"),
        (OUTER, "cooler", "cooler/fan 1"),
    ],
)
def test_contact_faces_touch(build: Build, a: str, b: str) -> None:
    found = relation(body(build, a).body, body(build, b).body)
    assert found.state is State.TOUCHING
    assert found.gap_mm <= 1e-6


def test_a_liquid_cooler_is_told_by_its_radiator() -> None:
    cooler = next(part for part in WET.parts if part.key == "cooler")
    assert (cooler.size, cooler.seat) == ("360, 397 long", "processor, front")
    where = {each.name: each.where for each in WET.bodies if each.part == "cooler"}
    assert where["cooler/block"] is None
    assert where["cooler/radiator"] == "front"


@pytest.mark.parametrize(
    ("build", "guest", "host"),
    [(AIR, "memory/module 1", "board/memory slot 2"), (AIR, "card", "board/slot 1")],
)
def test_mated_parts_enter_one_another(build: Build, guest: str, host: str) -> None:
    found = relation(body(build, guest).body, body(build, host).body)
    assert found.state is State.INTERFERING


def test_a_card_past_the_last_opening_is_refused() -> None:
    parts: dict[str, Spec] = {
        "board": Board(form=BoardShape.MINI_ITX, socket="AM5"),
        "card": Card(length=mm(170), slots=3),
    }
    with pytest.raises(SeatError, match="openings 1 to 3, where the case has 2"):
        built(small_case(), parts)


def test_a_tall_cooler_stops_the_panel_by_what_it_is_too_high() -> None:
    cooler = TowerCooler(height=mm(174), width=mm(125), depth=mm(50))
    build = built(tower_case(), {**tower(), "cooler": cooler})
    found = next(
        each for each in check(build).findings if each.rule == "panel-over-cooler"
    )
    # 6.35 + 1.57 + 7.781 under the cooler, 186 to the panel.
    assert found.overlap is not None
    assert found.overlap.mm == pytest.approx(6.35 + 1.57 + 7.781 + 174 - 186)
    assert found.verdict is Verdict.CLASH
