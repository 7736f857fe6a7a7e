"""Liquid loops: hoses that reach, and pumps that must not be highest."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.build.placed import Build
from layout.parts.board import Board
from layout.parts.case import Case
from layout.parts.case_fields import Mount, Takes
from layout.parts.case_stands import Stands
from layout.parts.kinds import Spec
from layout.parts.liquid_cooler import LiquidCooler
from layout.parts.radiator import Radiator
from layout.parts.tower_cooler import TowerCooler
from layout.questions.check import check
from layout.questions.finding import Verdict
from tests.build.machines import built, mm

CASE = Case(
    depth=mm(430),
    height=mm(470),
    width=mm(190),
    mounts=(
        ("top", Mount(takes=(Takes(size=120, count=2, start=mm(60)),))),
        ("floor", Mount(takes=(Takes(size=120, count=2, start=mm(180)),))),
    ),
)


def wet(mount: str, hose_mm: float | None = None, case: Case = CASE) -> Build:
    cooler = LiquidCooler(
        hose_length=mm(hose_mm) if hose_mm else None,
        radiator=Radiator(size=240, mount=mount),
    )
    parts: dict[str, Spec] = {"board": Board(socket="AM5"), "cooler": cooler}
    return built(case, parts)


def test_hoses_that_are_too_short_are_missing_length() -> None:
    found = {each.rule: each for each in check(wet("floor", 120)).findings}
    assert found["hoses-reach"].verdict is Verdict.MISSING
    assert "turn the radiator end for end" in found["hoses-reach"].advice


def test_hoses_that_reach_are_told_only_when_asked() -> None:
    for every in (False, True):
        rules = {
            each.rule for each in check(wet("top", 400), every_pair=every).findings
        }
        assert ("hoses-reach" in rules) is every
    rules = {each.rule for each in check(wet("top"), every_pair=True).findings}
    assert "hoses-reach" not in rules


@pytest.mark.parametrize(
    ("mount", "stands", "cautioned"),
    [
        ("top", Stands.UPRIGHT, False),
        ("floor", Stands.UPRIGHT, True),
        ("top", Stands.TURNED_OVER, True),
        ("floor", Stands.TURNED_OVER, False),
    ],
)
def test_a_pump_that_is_the_highest_point_is_a_caution(
    mount: str, stands: Stands, *, cautioned: bool
) -> None:
    found = check(wet(mount, case=replace(CASE, stands=stands)))
    told = [note for note in found.notes if "highest point" in note]
    assert bool(told) is cautioned


@pytest.mark.parametrize(
    ("high_mm", "verdict"), [(4, Verdict.CLEAR), (6, Verdict.SHORT)]
)
def test_a_plate_behind_the_board_needs_room_before_the_tray(
    high_mm: float, verdict: Verdict
) -> None:
    cooler = TowerCooler(
        height=mm(150), width=mm(120), depth=mm(50), back_plate=mm(high_mm)
    )
    build = built(CASE, {"board": Board(socket="LGA1155"), "cooler": cooler})
    found = {each.rule: each for each in check(build).findings}["back-plate-to-tray"]
    assert found.verdict is verdict
    assert found.gap_mm == pytest.approx(6.35 - high_mm)
