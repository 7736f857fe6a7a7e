"""M.2 drives, chipset and cover, cards that breathe, bays, turned cages, lining."""

from __future__ import annotations

import pytest

from layout.build.placed import Build
from layout.geometry.relations.query import relation
from layout.geometry.relations.relation import State
from layout.geometry.space import Axis, Box
from layout.parts.board.board import Board, BoardShape
from layout.parts.board.board_m2 import BoardSide, M2Place
from layout.parts.board.m2_drive import M2Drive
from layout.parts.card.card import Card
from layout.parts.case.case import Case
from layout.parts.case.case_bays import Bays
from layout.parts.case.case_fields import CageRail, Position, SidePanel
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.drives.cage import Cage
from layout.parts.drives.drive import Drive, DriveShape
from layout.parts.kinds.kinds import Spec
from layout.questions.checking.check import check
from layout.questions.findings.finding import Finding, Verdict
from tests.build.machines import body, built, mm

CASE = Case(
    depth=mm(440),
    height=mm(470),
    width=mm(190),
    side_panel=SidePanel(lining=mm(4)),
    bays=Bays(count=2, from_floor=mm(360), from_tray=mm(20)),
    cage_rail=CageRail(
        positions=(("front", Position(from_rear=mm(270))),), from_tray=mm(12)
    ),
)


def machine(**parts: Spec) -> Build:
    named = {key.replace("_", " "): each for key, each in parts.items()}
    return built(CASE, {"board": Board(socket="AM5"), **named})


def box(build: Build, name: str) -> Box:
    return body(build, name).body.bounds


def found(build: Build, rule: str) -> Finding:
    return next(each for each in check(build).findings if each.rule == rule)


def test_an_m2_drive_lies_on_the_board() -> None:
    build = machine(stick=M2Drive(length=80, height=mm(12)))
    stick, board = box(build, "stick"), box(build, "board")
    assert stick.low[2] == board.high[2]
    assert stick.high[0] - stick.low[0] == pytest.approx(80)
    assert stick.high[2] - stick.low[2] == pytest.approx(12)


def test_behind_the_board_it_lies_turned_over_and_must_miss_the_tray() -> None:
    place = M2Place(from_rear=mm(60), from_top=mm(90), side=BoardSide.BEHIND)
    board = Board(form=BoardShape.MINI_ITX, socket="AM5", m2_places=(("back", place),))
    for high_mm, verdict in ((4.0, Verdict.CLEAR), (6.1, Verdict.SHORT)):
        stick = M2Drive(height=mm(high_mm), place="back")
        build = built(CASE, {"board": board, "stick": stick})
        assert box(build, "stick").high[2] == box(build, "board").low[2]
        assert found(build, "m2-behind-board").verdict is verdict


def test_a_card_must_pass_a_high_heatsink_under_it() -> None:
    for high_mm, fails in ((9.0, False), (18.0, True)):
        stick = M2Drive(height=mm(high_mm), place="m.2 2")
        build = machine(card=Card(length=mm(250), slots=2, slot=1), stick=stick)
        assert found(build, "card-over-board-parts").verdict.fails is fails


def test_a_cooler_must_pass_a_high_heatsink() -> None:
    cooler = TowerCooler(
        height=mm(150), width=mm(160), depth=mm(60), fins_from=mm(20), fans=0
    )
    stick = M2Drive(height=mm(40), place="m.2 1")
    assert found(machine(cooler=cooler, stick=stick), "cooler-over-m2").verdict.fails


def test_m2_lengths_are_those_there_are() -> None:
    with pytest.raises(ValueError, match="length: found 70"):
        M2Drive(length=70)


def test_a_cover_lies_over_the_rear_connectors() -> None:
    build = built(CASE, {"board": Board(socket="AM5", rear_cover=mm(50))})
    cover, ports = box(build, "board/rear cover"), box(build, "board/rear connectors")
    assert cover.low[2] == pytest.approx(ports.high[2])
    assert cover.high[2] == pytest.approx(box(build, "board").high[2] + 50)


def test_a_card_with_fans_needs_room_before_them() -> None:
    below = Card(length=mm(200), slot=3)
    build = machine(card=Card(length=mm(280), slots=2), sound=below)
    assert found(build, "card-breathes").b == "sound"
    assert found(build, "card-breathes").verdict is Verdict.SHORT
    still = machine(card=Card(length=mm(280), slots=2, fans=False), sound=below)
    assert "card-breathes" not in {each.rule for each in check(still).findings}


def test_a_back_plate_shifts_the_whole_card() -> None:
    plain, plated = (
        box(machine(card=Card(length=mm(250), back_plate=plate)), "card")
        for plate in (None, mm(5))
    )
    assert plated.high[1] - plain.high[1] == pytest.approx(5 - 2.67)


def test_a_drive_in_a_bay_ends_at_the_front() -> None:
    build = machine(reader=Drive(size=DriveShape.BAY))
    reader = box(build, "reader")
    assert reader.high[0] == pytest.approx(440)
    assert reader.high[0] - reader.low[0] == pytest.approx(203)
    assert reader.low[1] == 360
    assert reader.low[2] == pytest.approx(20)


def test_a_cage_may_be_turned_with_its_drives() -> None:
    build = machine(cage=Cage(position="front", turned=True), disk=Drive())
    cage, disk = box(build, "cage"), box(build, "disk")
    assert (cage.low[0], cage.low[2]) == (270, 12)
    assert (cage.high[0] - cage.low[0], cage.high[2] - cage.low[2]) == (155, 106)
    assert disk.high[0] - disk.low[0] == pytest.approx(147)
    stands = relation(body(build, "disk").body, body(build, "cage").body)
    assert stands.state is State.TOUCHING
    assert body(build, "disk").turn.axis(Axis.WIDTH) is Axis.DEPTH


def test_lining_takes_room_from_the_cooler() -> None:
    cooler = TowerCooler(height=mm(160), width=mm(120), depth=mm(50))
    build = machine(cooler=cooler)
    gaps = {
        each.b: each.gap_mm
        for each in check(build).findings
        if each.rule == "panel-over-cooler"
    }
    bare, lined = gaps["case/side panel"], gaps["case/panel lining"]
    assert bare is not None
    assert lined == pytest.approx(bare - 4)
