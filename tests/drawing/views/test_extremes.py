"""The ends of a part's travel are drawn quietly, where it does not stand already."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from layout.build.placed import Build
from layout.drawing.charts.moved import positions_scene
from layout.drawing.composed.compose import scenes
from layout.drawing.paper.boxes import texts
from layout.drawing.paper.scene import Line, Pen
from layout.drawing.views.extremes import ends_of_travel
from layout.files.build_file import read_plan
from layout.parts.board.board import Board
from layout.parts.case.case_fields import Mount, Takes
from layout.parts.cooling.fan import Fan
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.radiator import Radiator
from layout.parts.form.form import Role
from layout.parts.kinds.kinds import Spec
from layout.questions.checking.check import check
from layout.questions.moving.moves import rail_mm
from layout.questions.moving.positions import positions
from layout.questions.moving.stretch import Travel, stretch
from tests.build.machines import built, mm, small_case
from tests.drawing.reading import outlines, overlapping, struck

_CASES = Path(__file__).parents[3] / "cases"


def test_both_ends_of_the_rail_but_not_where_the_cage_stands() -> None:
    plan, build = read_plan(_CASES / "archive-build.yaml")
    (cage,) = (each.body for each in build.bodies if each.role is Role.CAGE)
    rail = rail_mm(plan)
    ends = ends_of_travel(build, rail)
    low = min(x for x, _, _ in rail)
    here = next(each.at_mm for each in build.parts if each.key == "cage")
    off = cage.at_mm[0] - here[0]
    at = {low + off, max(x for x, _, _ in rail) + off}
    wanted = sorted(at - {cage.at_mm[0]})
    assert sorted(each.at_mm[0] for each in ends) == pytest.approx(wanted)
    assert {each.at_mm[1:] for each in ends} == {cage.at_mm[1:]}
    assert ends_of_travel(build, ()) == ()
    assert ends_of_travel(build, (here,)) == ()


def _slotted(slots_mm: float | None, **parts: Spec) -> Build:
    takes = Takes(
        size=120,
        count=2,
        start=mm(20),
        slots=None if slots_mm is None else mm(slots_mm),
    )
    mounts = (("front", Mount(takes=(takes,))),)
    return built(replace(small_case(), mounts=mounts), parts)


def test_a_fan_slides_half_the_slots_either_way() -> None:
    build = _slotted(16.0, fan=Fan(size=120, mount="front", place=2))
    (fan,) = (each.body for each in build.bodies if each.part == "fan")
    ends = ends_of_travel(build, ())
    heights = [each.at_mm[1] - fan.at_mm[1] for each in ends]
    assert heights == pytest.approx([-8.0, 8.0])
    assert {each.name for each in ends} == {fan.name}


def test_a_neighbour_on_the_mount_ends_the_travel() -> None:
    low, high = (Fan(size=120, mount="front", place=place) for place in (1, 2))
    ends = ends_of_travel(_slotted(16.0, low=low, high=high), ())
    assert [each.name for each in ends] == ["low", "high"]  # down, and up


def test_a_radiator_takes_its_fans_along_and_leaves_its_block() -> None:
    cooler = LiquidCooler(radiator=Radiator(size=240, mount="front"))
    build = _slotted(10.0, board=Board(socket="LGA1155"), cooler=cooler)
    ends = ends_of_travel(build, ())
    names = {each.name for each in ends}
    assert names == {"cooler/radiator", "cooler/fan 1", "cooler/fan 2"}
    assert len(ends) == 6


@pytest.mark.parametrize("slots_mm", [None, 4.0])
def test_no_slots_or_short_ones_are_no_travel_to_draw(slots_mm: float | None) -> None:
    build = _slotted(slots_mm, fan=Fan(size=120, mount="front"))
    assert ends_of_travel(build, ()) == ()


def test_the_legend_tells_the_lines_only_where_there_are_any() -> None:
    plan, build = read_plan(_CASES / "archive-build.yaml")
    answer, ends = check(build), ends_of_travel(build, rail_mm(plan))
    for extremes in (ends, ()):
        for one in scenes(build, answer, extremes=extremes):
            said = [each.text for each in texts(one)]
            told = any("end of a travel" in each for each in said)
            assert told is bool(extremes)
            assert any(each.startswith("opening") for each in said)
            assert not [each for each in said if each.endswith("...")]


def test_the_best_position_shows_the_ends_that_it_is_not_at() -> None:
    plan, build = read_plan(_CASES / "archive-build.yaml")
    along = stretch(plan, "cage", Travel(-20.0, 80.0, 50.0))
    named = positions(plan, ["cage"])
    for told, rail in ((named, rail_mm(plan)), (along, ())):
        drawn = positions_scene(told, build, rail)
        said = [each.text for each in texts(drawn)]
        assert any("double-dot: ends" in each for each in said)
    assert not any(
        "double-dot" in each.text for each in texts(positions_scene(named, build))
    )


def test_they_are_double_dot_lines_in_both_views_that_give_way_to_lettering() -> None:
    plan, build = read_plan(_CASES / "archive-build.yaml")
    ends = ends_of_travel(build, rail_mm(plan))
    drawn = scenes(build, check(build), extremes=ends)[0]
    lines = [
        each
        for each in drawn.items
        if isinstance(each, Line) and each.ref == "cage" and each.pen is Pen.PLACE
    ]
    heights = [y for line in lines for _, y in line.points]
    middle = drawn.height_mm / 2
    side, top = max(heights) > middle, min(heights) < middle
    assert side
    assert top
    assert struck(drawn, outlines(drawn)) == []
    assert overlapping(drawn) == []


def test_a_case_without_a_rail_has_none() -> None:
    plan, build = read_plan(_CASES / "reporter-build.yaml")
    assert rail_mm(plan) == ()
    assert ends_of_travel(build, rail_mm(plan)) == ()
