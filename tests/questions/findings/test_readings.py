"""A finding says what the figures it rests on are measured from."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.build.placed import Build
from layout.parts.card.card import Card
from layout.parts.case.case import Case
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.form.form import Link
from layout.parts.form.reading import restated
from layout.parts.kinds.kinds import Spec
from layout.questions.checking.check import check
from layout.questions.findings.readings import readings
from layout.standards.figure import given
from tests.build.machines import built, mm, tower, tower_case

COOLER = TowerCooler(height=mm(165), width=mm(120), depth=mm(60))
UP = (0.0, 0.0, 1.0)


def _link(reading: str, plus_minus_mm: float = 0.5) -> Link:
    figure = replace(given(165.0), reading=reading)
    return Link(
        label="cooler height",
        plus_minus_mm=(0.0, 0.0, plus_minus_mm),
        figure=figure,
        low=(0.0, 0.0, 0.0),
        high=UP,
    )


def test_only_what_acts_along_the_gap_is_told() -> None:
    links = (("cooler", _link("contact face")),)
    assert readings(links, UP) == ("cooler: cooler height, contact face",)
    assert readings(links, (1.0, 0.0, 0.0)) == ()
    assert readings((("cooler", _link("")),), UP) == ()


def test_a_restated_figure_is_told_as_it_was_given_too() -> None:
    from_board = replace(COOLER, measured_from=(("height", "board surface"),))
    height = restated(from_board, None).height
    links = (("cooler", replace(_link(""), figure=height)),)
    assert readings(links, UP) == (
        "cooler: cooler height, contact face (given as 165 by 'board surface')",
    )


def _machine(cooler: TowerCooler) -> Build:
    return built(tower_case(), {**tower(), "cooler": cooler})


def test_the_panels_finding_names_the_coolers_reading() -> None:
    found = {each.rule: each for each in check(_machine(COOLER)).findings}
    told = found["panel-over-cooler"].readings
    assert told == ("cooler: cooler height, contact face",)
    assert found["supply-vent"].readings == ()


def _told(case: Case, **parts: Spec) -> set[str]:
    machine = built(case, {**tower(), **parts})
    findings = check(machine, every_pair=True).findings
    return {each for found in findings for each in found.readings}


def test_what_no_file_gives_is_told_in_its_usual_reading_too() -> None:
    told = _told(tower_case(), card=Card(length=mm(250), slots=2, slot=3))
    assert {
        "card: slot 3, case's openings",
        "card: card thickness, back of the board to the fan side",
        "supply: main lead's length, case to the first plug",
    } <= told
    counted = (("slot", "board's own count"),)
    told = _told(
        tower_case(), card=Card(length=mm(250), slots=2, slot=2, measured_from=counted)
    )
    assert "card: slot 3, case's openings (given as 2 by 'board's own count')" in told


def test_a_stated_limit_names_its_own_reading() -> None:
    case = replace(tower_case(), tallest_cooler=mm(160), longest_card=mm(300))
    told = _told(case, cooler=COOLER, card=Card(length=mm(250)))
    assert "case: tallest cooler, heat spreader" in told
    assert "case: longest card, slot plane" in told
    told = _told(replace(case, width=None))
    assert "case: inside width, by its tallest cooler, heat spreader" in told


def test_a_cooler_told_from_the_board_leaves_more_room_by_its_processor() -> None:
    from_board = replace(COOLER, measured_from=(("height", "board surface"),))
    usual_mm, from_board_mm = (
        each.gap_mm
        for cooler in (COOLER, from_board)
        for each in check(_machine(cooler)).findings
        if each.rule == "panel-over-cooler"
    )
    assert usual_mm is not None
    # LGA1155: 7.781 from the board's top to the heat spreader (tests/outside).
    assert from_board_mm == pytest.approx(usual_mm + 7.781, abs=1e-9)
