"""What is only an outline in a view has its name there."""

from __future__ import annotations

from pathlib import Path

import pytest

from layout.drawing.composed.compose import scene
from layout.drawing.lettered.names import names
from layout.drawing.paper.scene import Leader
from layout.drawing.sheets.sheet import CHOSEN_FROM, plans
from layout.drawing.views.kinds import FILLS
from layout.drawing.views.seen import seen
from layout.drawing.views.views import bounds_of
from layout.files.build_file import read_build
from layout.questions.checking.check import check
from tests.build.any_machine import LAYOUTS, machine

_CASES = Path(__file__).parents[3] / "cases"


@pytest.mark.parametrize("layout", LAYOUTS)
def test_parts_that_are_outlined_over_others_are_named_beside_the_view(
    layout: str,
) -> None:
    for seed in range(3):
        build = machine(layout, seed).build
        box = bounds_of([each.body.bounds for each in build.bodies])
        plan = plans(box, in_case=True, sheets=CHOSEN_FROM)[0]
        views = tuple((view, seen(build.bodies, view)) for view in plan.views)
        told = [each for each in names(build, views) if not each.again]
        for index, (_, shown) in enumerate(views):
            bare = {
                each.body.part
                for each in shown
                if each.see_through and each.body.role in FILLS
            }
            assert bare <= {
                each.ref.split("/")[0] for each in told if each.view == index
            }


def test_a_radiator_at_the_top_is_named_in_both_views() -> None:
    build = read_build(_CASES / "orchestra-build.yaml")
    drawn = scene(build, check(build))
    at = [
        each.points[0][1]
        for each in drawn.items
        if isinstance(each, Leader) and each.ref == "cooler/radiator"
    ]
    assert len(at) == 2
    assert max(at) - min(at) > 50.0
