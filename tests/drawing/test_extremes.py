"""The ends of a cage's travel are drawn quietly, where it does not stand already."""

from __future__ import annotations

from pathlib import Path

import pytest

from layout.drawing.compose import scenes
from layout.drawing.extremes import ends_of_travel
from layout.drawing.scene import Line, Pen
from layout.files.build_file import read_plan
from layout.parts.form import Role
from layout.questions.check import check
from layout.questions.moves import rail_mm
from tests.drawing.reading import outlines, overlapping, struck

_CASES = Path(__file__).parents[2] / "cases"


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
