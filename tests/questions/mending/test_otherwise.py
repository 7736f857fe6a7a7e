"""Where about what lies between two readings is wanting, the other one is told."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.build.assemble import Entry
from layout.build.plan import Plan
from layout.build.remade import Remaker
from layout.parts.board.board import Board, BoardShape
from layout.parts.card.card import Card
from layout.parts.case.case import Case
from layout.parts.case.case_fields import Mount, Takes
from layout.parts.case.case_panels import Opens, SidePanel
from layout.parts.case.case_riser import Riser
from layout.parts.cooling.fan import Fan
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.kinds.kinds import Spec
from layout.questions.checking.check import check
from layout.questions.mending.mending import mended
from tests.build.machines import mm

AM5_MM = 7.25
"""Board's top to the heat spreader."""
OVER_MM = 6.35 + 1.57
"""Standoff and board."""
TELLS = "were the cooler's height told in the reading '{}', there would be room"


def advice(case: Case, parts: dict[str, Spec], rule: str) -> str:
    entries = tuple(Entry(key=key, spec=spec) for key, spec in parts.items())
    made = Remaker.of(Plan(name="test", entries=entries, case=case))
    found = mended(made, check(made.build))
    return next(e.advice for e in found.findings if e.rule == rule and e.verdict.fails)


def cooled(height_mm: float, told: str | None = None) -> str:
    """Return what is said of a tower in a case 190 wide."""
    cooler = TowerCooler(height=mm(height_mm), width=mm(120), depth=mm(50))
    if told:
        cooler = replace(cooler, measured_from=(("height", told),))
    case = Case(depth=mm(420), height=mm(440), width=mm(190))
    parts: dict[str, Spec] = {"board": Board(socket="AM5"), "cooler": cooler}
    return advice(case, parts, "panel-over-cooler")


def test_a_cooler_too_high_by_its_stack_may_be_measured_from_the_board() -> None:
    # 190 less 7.92, 7.25 and the panel's 2 leave 172.83; 178 is 5.17 too high
    assert TELLS.format("board surface") in cooled(178.0)


@pytest.mark.parametrize("height_mm", [174.0, 182.0, 200.0])
def test_another_difference_is_not_explained(height_mm: float) -> None:
    """1.2 too high, which the stack does not explain; 9.2 and 27.2, which it cannot."""
    assert "measured from" not in cooled(height_mm)


def test_a_figure_told_in_another_reading_may_be_the_usual_one_and_is_worse() -> None:
    told = cooled(190.0, "board surface")  # 182.75 over the spreader: 9.9 too high
    assert "measured from" not in told


def test_a_card_on_a_riser_is_not_explained_by_a_reading_that_makes_it_higher() -> None:
    """Every other reading of a card's height adds to it, and here it is too high."""
    card = Card(length=mm(285), height=mm(112), slots=2, riser="upright")
    case = Case(
        depth=mm(420),
        height=mm(440),
        width=mm(190),
        risers=(("upright", Riser(from_panel=mm(20), from_floor=mm(135))),),
    )
    parts: dict[str, Spec] = {"board": Board(socket="AM5"), "card": card}
    assert "measured from" not in advice(case, parts, "riser-card-to-panel")


def test_what_keeps_a_panel_shut_is_explained_by_no_reading() -> None:
    """It is no rule of two bodies: what does not ask it must not clear it."""
    card = Card(length=mm(280), height=mm(120), slots=2, riser="upright")
    case = Case(
        depth=mm(400),
        height=mm(420),
        width=mm(190),
        side_panel=SidePanel(opens=Opens.SLID_REAR),
        mounts=(
            ("panel side", Mount(takes=(Takes(size=120, count=2, start=mm(60)),))),
        ),
        risers=(("upright", Riser(from_panel=mm(60), from_floor=mm(120))),),
    )
    fans = Fan(size=120, count=2, mount="panel side")
    parts: dict[str, Spec] = {
        "board": Board(form=BoardShape.MINI_ITX, socket="LGA1700"),
        "card": card,
        "fans": fans,
    }
    assert "measured from" not in advice(case, parts, "panel-opens")
