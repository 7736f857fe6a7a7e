"""Plugs and sockets of parts, and what their files may not say of them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from layout.files.build_file import read_build
from layout.files.errors import InputError
from layout.parts.board.board import Board
from layout.parts.card.card import Card
from layout.parts.cooling.fan import Fan
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.radiator import Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.form.connector import ConnectorKind as Kind
from layout.parts.form.errors import PartError
from layout.parts.kinds.hookups import hookup_of
from layout.parts.supply.supply_lead import SupplyLead
from layout.parts.wiring.hookup import FAMILIES, HEADERS, PLUGS, POWER, family_of
from layout.parts.wiring.splitter import Splitter
from layout.standards.figure import given
from tests.build.machines import tower_case
from tests.files.builds import written


def test_every_kind_is_fed_or_has_a_header() -> None:
    assert set(Kind) == HEADERS | POWER
    assert not HEADERS & POWER
    assert set(Kind) > PLUGS


def test_families_share_no_kind() -> None:
    assert sum(map(len, FAMILIES)) == len(frozenset().union(*FAMILIES))
    assert family_of(Kind.FAN_3) == family_of(Kind.FAN_4)
    assert family_of(Kind.AUDIO) == {Kind.AUDIO}


def test_a_board_that_lists_a_family_says_all_of_it() -> None:
    board = Board(
        socket="AM5", headers=(("5 V light", 2), ("8-pin processor power", 1))
    )
    hookup = hookup_of(board)
    assert hookup.offers == ((Kind.LIGHT_5V, 2),)
    assert Kind.LIGHT_12V not in hookup.unsaid
    assert Kind.FAN_4 in hookup.unsaid
    assert hookup.demands == ((Kind.MAIN, 1), (Kind.PROCESSOR, 1))
    assert hookup.spare == ()


@pytest.mark.parametrize(
    ("made", "field"),
    [
        (lambda: Board(socket="AM5", headers=(("24-pin", 1),)), "headers.24-pin"),
        (lambda: Board(socket="AM5", headers=(("6-pin fan", 1),)), "headers.6-pin fan"),
        (lambda: Fan(mount="front", size=120, plugs=(("24-pin", 1),)), "plugs.24-pin"),
        (lambda: Card(length=given(240), power=(("audio", 1),)), "power.audio"),
        (lambda: SupplyLead(plug=Kind.AUDIO), "plug"),
        (lambda: Splitter(plug=Kind.LIGHT_12V, gives=Kind.LIGHT_5V), "gives"),
        (lambda: Splitter(plug=Kind.LIGHT_5V, gives=Kind.LIGHT_12V), "gives"),
    ],
)
def test_what_cannot_be_plugged_so_is_refused(
    made: Callable[[], object], field: str
) -> None:
    with pytest.raises(PartError, match=r"right would be") as caught:
        made()
    assert caught.value.field == field


def test_a_powered_controller_may_give_any_light() -> None:
    hub = Splitter(plug=Kind.DRIVE_POWER, gives=Kind.LIGHT_5V, also=(("9-pin USB", 1),))
    assert hookup_of(hub).demands == ((Kind.DRIVE_POWER, 1), (Kind.USB_9, 1))


def test_a_cooler_without_fans_has_no_plug() -> None:
    cooler = TowerCooler(height=given(150), width=given(120), depth=given(50), fans=0)
    assert [count for _, count in hookup_of(cooler).demands] == [0]


def test_a_case_that_says_nothing_demands_nothing() -> None:
    assert hookup_of(tower_case()).demands == ()


def test_an_unknown_kind_in_a_file_is_told_with_its_line(tmp_path: Path) -> None:
    text = """\
case: case.yaml
parts:
  board:
    kind: board
    socket: AM5
    headers:
      4-pin fan: 3
      five pin light: 1
  supply:
    kind: supply
    length: 140
    leads: [{plug: 24-pin}, {plug: eps}]
"""
    written(tmp_path, "{depth: 400, height: 400, width: 180}", "case.yaml")
    with pytest.raises(InputError, match=r"build\.yaml:8: parts\.board\.headers") as at:
        read_build(written(tmp_path, text))
    assert [(each.line, each.field) for each in at.value.each] == [
        (8, "parts.board.headers.five pin light"),
        (12, "parts.supply.leads[1].plug"),
    ]


def test_a_splitter_in_a_file_needs_no_place(tmp_path: Path) -> None:
    text = """\
case: case.yaml
parts:
  board: {kind: board, socket: AM5}
  hub: {kind: splitter, plug: drive power, gives: 4-pin fan, outlets: 6}
"""
    written(tmp_path, "{depth: 400, height: 400, width: 180}", "case.yaml")
    build = read_build(written(tmp_path, text))
    assert "hub" in {each.key for each in build.parts}
    assert "hub" not in {each.part for each in build.bodies}


def test_chained_fans_draw_through_their_one_plug() -> None:
    chained = Fan(
        mount="front", size=120, count=3, plugs=(("4-pin fan", 1),), milliamperes=150
    )
    assert hookup_of(chained).draws_ma == 450
    apart = Fan(mount="front", size=120, count=3, milliamperes=150)
    assert hookup_of(apart).draws_ma == 150


def test_a_liquid_coolers_pump_comes_beside_its_radiators_plugs() -> None:
    radiator = Radiator(size=240, mount="top", plugs=(("3-pin fan", 2),))
    demands = dict(hookup_of(LiquidCooler(radiator=radiator)).demands)
    assert demands == {Kind.FAN_3: 2, Kind.FAN_4: 1}
    told = LiquidCooler(radiator=radiator, plugs=(("9-pin USB", 1),))
    assert hookup_of(told).demands == ((Kind.USB_9, 1),)
