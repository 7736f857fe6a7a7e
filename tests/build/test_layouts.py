"""Layouts beside the usual tower: parts lie where their turned seats say."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from layout.build.assemble import SeatError
from layout.build.placed import Build
from layout.geometry.relations.query import relation
from layout.geometry.relations.relation import State
from layout.geometry.space import Axis, Box, Direction
from layout.parts.card.card import Card
from layout.parts.case.case import Case
from layout.parts.case.case_fields import Mount, Rows, SupplyBay, Takes
from layout.parts.case.case_supply import BayPlace, InletLooks
from layout.parts.cooling.fan import Fan
from layout.parts.cooling.radiator import Radiator
from layout.parts.form.errors import PartError
from layout.parts.form.form import Role
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Supply, SupplyShape
from layout.questions.checking.check import check
from layout.questions.findings.finding import Verdict
from layout.standards import cards
from tests.build.layouts import chimney, over, riser, sandwich, two_chambers
from tests.build.machines import body, built, mm, small_case

EVERY = [chimney(), over(), two_chambers(), sandwich(), riser()]


def box(build: Build, name: str) -> Box:
    return body(build, name).body.bounds


@pytest.mark.parametrize("build", EVERY, ids=["chimney", "over", "cube", "small", "up"])
def test_nothing_interferes_beyond_its_seat(build: Build) -> None:
    findings = check(build, every_pair=True).findings
    assert [each.id for each in findings if each.verdict is Verdict.CLASH] == []


@pytest.mark.parametrize(
    ("build", "a", "b"),
    [
        (chimney(), "board/standoffs", "case/tray"),
        (chimney(), "processor", "cooler"),
        (chimney(), "card", "card/bracket"),
        (chimney(), "supply", "case/rear"),
        (over(), "supply", "case/rear"),
        (over(), "supply", "case/perforated top"),
        (two_chambers(), "supply", "case/rear"),
        (two_chambers(), "tray fan", "case/tray"),
        (two_chambers(), "panel fan", "case/side panel"),
        (sandwich(), "supply", "supply/leads"),
    ],
)
def test_contact_faces_touch(build: Build, a: str, b: str) -> None:
    assert relation(body(build, a).body, body(build, b).body).state is State.TOUCHING


def test_a_board_turned_a_quarter_hangs_its_cards_from_the_top() -> None:
    build = chimney()
    card, board = box(build, "card"), box(build, "board")
    assert card.high[1] == 465
    assert card.low[1] == 465 - 267
    # its upper edge, from the front; 304.8 exactly, 305 as published
    assert board.high[0] == pytest.approx(380 - 40, abs=0.21)
    assert board.low[0] == pytest.approx(340 - 305, abs=0.21)
    assert body(build, "card").turn.axis(Axis.DEPTH) is Axis.HEIGHT
    assert box(build, "processor").low[0] > card.high[0]


def test_its_brackets_reach_through_the_top() -> None:
    build = chimney()
    bracket = box(build, "card/bracket")
    top = [each.box for each in build.mates if each.role is Role.TOP]
    assert bracket.high[1] > 465
    assert any(bracket.meets(each) for each in top)


def test_a_card_hanging_down_is_asked_about_what_is_under_it() -> None:
    rules = {each.rule for each in check(chimney()).findings}
    assert "card-to-floor" in rules
    assert not rules & {"card-to-front", "card-above-floor"}


def test_a_turned_part_carries_its_scatter_with_it() -> None:
    chain = {
        link.label: link.plus_minus_mm
        for owner, link in body(chimney(), "card").chain
        if owner == "card"
    }
    x, y, z = chain["card length"]
    assert (x, z) == (0.0, 0.0)
    assert y > 0.0


@pytest.mark.parametrize("inlet", list(InletLooks))
def test_a_supply_behind_the_tray_stays_there(inlet: InletLooks) -> None:
    build = two_chambers(inlet)
    supply, leads = box(build, "supply"), box(build, "supply/leads")
    tray, back = box(build, "case/tray"), box(build, "case/back panel")
    assert back.high[2] <= supply.low[2]
    assert supply.high[2] <= tray.low[2]
    ends = inlet.direction
    face = (supply.high if ends.sign > 0 else supply.low)[ends.axis.index]
    far = (leads.low if ends.sign > 0 else leads.high)[ends.axis.index]
    assert (face - far) * ends.sign > 140  # leads at the other end


@pytest.mark.parametrize("inlet", [InletLooks.DOWN, InletLooks.UP])
def test_a_supply_in_front_stands_on_end(inlet: InletLooks) -> None:
    build = sandwich(inlet)
    supply = box(build, "supply")
    assert supply.low[0] == 194
    assert supply.high[1] - supply.low[1] == 100
    at_mm = supply.low[1] if inlet is InletLooks.DOWN else supply.high[1]
    assert at_mm == (35 if inlet is InletLooks.DOWN else 160)
    part = next(each for each in build.parts if each.key == "supply")
    assert "licensed practice" in part.notes[0]


def test_a_supply_whose_place_nobody_told_leaves_room_for_its_mains_plug() -> None:
    bay = SupplyBay(place=BayPlace.FRONT, form=SupplyShape.SFX)
    case = Case(depth=mm(330), height=mm(300), width=mm(150), supply_bay=bay)
    build = built(case, {"supply": Supply(form=SupplyShape.SFX)})
    (plug,) = (e for e in check(build).findings if e.rule == "mains-plug")
    assert plug.gap_mm == pytest.approx(45.0)
    assert plug.verdict is Verdict.CLEAR


def test_fans_stand_one_above_the_other_beside_the_board() -> None:
    takes = (Takes(size=120, count=2, start=mm(40)),)
    side = Mount(takes=takes, rows=Rows.UPRIGHT, from_tray=mm(330))
    case = Case(
        depth=mm(420), height=mm(400), width=mm(180), mounts=(("tray side", side),)
    )
    fans: dict[str, Spec] = {"fans": Fan(size=120, count=2, mount="tray side")}
    low, high = (box(built(case, fans), f"fans/fan {n}") for n in (1, 2))
    assert (low.low, low.high) == ((270, 40, 0), (390, 160, 25))
    assert (high.low, high.high) == ((270, 160, 0), (390, 280, 25))
    wet: dict[str, Spec] = {"radiator": Radiator(size=240, mount="tray side")}
    core = box(built(case, wet), "radiator")
    assert core.high[1] - core.low[1] > 240 > core.high[0] - core.low[0]
    untold = replace(case, mounts=(("tray side", replace(side, from_tray=None)),))
    assert box(built(untold, fans), "fans/fan 1").high[0] == 420 - 30
    with pytest.raises(PartError, match=r"mounts.top.rows: found an upright row"):
        replace(case, mounts=(("top", replace(side)),)).form()


def test_a_supply_at_the_rear_has_its_inlet_there() -> None:
    with pytest.raises(PartError, match="inlet: found down at the floor rear"):
        SupplyBay(place=BayPlace.FLOOR_REAR, inlet=InletLooks.DOWN)


def test_a_card_on_its_riser_stands_so_far_from_its_panel() -> None:
    build = riser()
    card, socket = box(build, "card"), box(build, "card/riser")
    half_mm = cards.THICKNESS.mm / 2 + cards.SOLDER_SIDE.mm
    assert card.low[2] == pytest.approx(210 - 72 - half_mm)
    assert socket.low[1] < 135 == card.low[1]
    assert box(build, "card/plug").low[1] == card.high[1]  # its plug looks up
    assert body(build, "card").turn.direction(Direction.DOWN) is Direction.PANEL


def test_behind_the_tray_a_riser_card_looks_at_the_back_panel() -> None:
    build = sandwich()
    card = box(build, "card")
    half_mm = cards.THICKNESS.mm / 2 + cards.SOLDER_SIDE.mm
    assert card.high[2] == pytest.approx(-75 + 60 + half_mm)
    assert card.high[1] == 180
    found = {each.rule: each for each in check(build).findings}
    assert found["riser-card-to-back-panel"].need_mm == 2.0
    assert found["card-breathes"].need_mm == 20.0
    assert found["card-breathes"].b == "case/back panel"


def test_a_case_without_risers_takes_no_standing_card() -> None:
    with pytest.raises(SeatError, match=re.escape("a case with 'risers'")):
        built(small_case(), {"card": Card(length=mm(200), riser="upright")})


def test_a_shroud_is_open_where_it_is_cut_out() -> None:
    shroud = body(riser(), "case/shroud").body
    (solid,) = shroud.shape.solids
    assert solid.top.area == pytest.approx(440 * 210 - 70 * (210 - 25))
    assert solid.top.bounds[2] == 440


def test_a_turned_over_case_is_said_to_be() -> None:
    build = over()
    assert build.stands.up is Direction.DOWN
    assert any("turned 180° about depth" in note for note in build.notes)
