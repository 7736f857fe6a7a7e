"""A finding says what the figures it rests on are measured from."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.build.placed import Build
from layout.parts.form import Link
from layout.parts.reading import restated
from layout.parts.tower_cooler import TowerCooler
from layout.questions.check import check
from layout.questions.readings import readings
from layout.standards.figure import given
from tests.build.machines import built, mm, tower, tower_case

COOLER = TowerCooler(height=mm(165), width=mm(120), depth=mm(60))
UP = (0.0, 0.0, 1.0)


def _link(reading: str, plus_minus_mm: float = 0.5) -> Link:
    figure = replace(given(165.0), reading=reading)
    return Link(
        label="cooler height", plus_minus_mm=(0.0, 0.0, plus_minus_mm), figure=figure
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
