"""A sheet without details gives their room to the views."""

from __future__ import annotations

from pathlib import Path

import pytest
import shapely

from layout.drawing.composed.compose import scenes
from layout.drawing.paper.boxes import texts
from layout.drawing.paper.scene import Scene
from layout.drawing.sheets.aside import keyed, opened
from layout.drawing.sheets.sheet import NAMED, Plan, plans
from layout.files.build_file import read_build
from layout.geometry.space import Box
from layout.questions.checking.check import check

_CASES = Path(__file__).parents[3] / "cases"
_TOWER = Box((0.0, 0.0, -25.0), (425.0, 470.0, 182.0))
_FLAT = Box((0.0, 0.0, -25.0), (200.0, 100.0, 60.0))


@pytest.mark.parametrize(
    "plan",
    [
        each
        for box in (_TOWER, _FLAT)
        for name in ("A3", "A2")
        for each in plans(box, in_case=True, sheets=NAMED[name])
    ],
)
def test_the_views_have_the_room_of_details_at_the_same_scale(plan: Plan) -> None:
    made = opened(plan)
    if plan.aside is None:
        assert made is plan
        return
    field = shapely.box(*made.field)
    for each in (plan.field, plan.aside, *(view.frame for view in made.views)):
        assert field.contains(shapely.box(*each))
    assert field.area == pytest.approx(_area(plan.field) + _area(plan.aside))
    assert made.aside is None
    assert {each.scale for each in made.views} == {plan.views[0].scale}


def _area(frame: tuple[float, float, float, float]) -> float:
    return float(shapely.box(*frame).area)


def test_details_with_the_legend_beside_them_keep_their_room() -> None:
    (plan,) = plans(_TOWER, in_case=True, sheets=NAMED["A3"][:1])
    for each in keyed(plan):
        assert opened(each) is each


def test_a_further_sheet_has_no_empty_strip_under_its_views() -> None:
    build = read_build(_CASES / "newsroom-build.yaml")
    first, second = scenes(build, check(build))
    assert _apart_mm(second) > _apart_mm(first) + 10.0
    assert _foot_mm(second) < 40.0


def _apart_mm(drawn: Scene) -> float:
    """Return how far the views' captions stand apart."""
    at = {each.text: each.at[1] for each in texts(drawn)}
    return at["Side view"] - at["Top view"]


def _foot_mm(drawn: Scene) -> float:
    """Return how far over the frame line the lowest lettering by the views stands."""
    return min(each.at[1] for each in texts(drawn) if each.at[0] < 220.0) - 10.0
