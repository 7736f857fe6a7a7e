from __future__ import annotations

from itertools import combinations

import pytest

from layout.drawing.charts.margins import ticks
from layout.drawing.charts.moved import positions_scene
from layout.drawing.ink.figure import render
from layout.drawing.paper.boxes import apart, text_box, texts, within
from layout.drawing.paper.scene import Area, Hatch, Line, Pen, Scene
from layout.drawing.paper.words import named, signed
from layout.questions.moving.positions import positions
from layout.questions.moving.stretch import Travel, stretch
from tests.build.machines import tower
from tests.questions.moving.test_positions import long_supply, plan_of

PLAN = plan_of(long_supply())
BUILD = PLAN.build()


def _named(*moved: str) -> Scene:
    plan = PLAN if "rear fan" not in moved else plan_of(tower())
    return positions_scene(positions(plan, moved), plan.build())


def _along() -> Scene:
    return positions_scene(stretch(PLAN, "cage", Travel(-20, 80, 5)), BUILD)


SCENES = {
    "cage": lambda: _named("cage"),
    "two parts": lambda: _named("cage", "supply"),
    "rear fan": lambda: _named("rear fan"),
    "stretch": _along,
}


@pytest.mark.parametrize("name", SCENES)
def test_texts_stand_on_the_sheet_and_apart(name: str) -> None:
    scene = SCENES[name]()
    boxes = [text_box(each) for each in texts(scene)]
    paper = (10.0, 10.0, scene.width_mm - 10.0, scene.height_mm - 10.0)
    assert [each for each in boxes if not within(each, paper)] == []
    assert [pair for pair in combinations(boxes, 2) if not apart(*pair)] == []


def test_the_clear_stretch_is_shaded_between_its_ends() -> None:
    told = stretch(PLAN, "cage", Travel(-20, 80, 5))
    ((low, high),) = told.clear_mm
    scene = _along()
    (shade,) = [e for e in scene.items if isinstance(e, Area) and e.fill and not e.ref]
    assert shade.hatch is Hatch.RISING
    curve = next(e for e in scene.items if isinstance(e, Line) and len(e.points) == 21)
    per_mm = (curve.points[-1][0] - curve.points[0][0]) / 100
    edges = sorted({round(x, 6) for x, _ in shade.outer})
    assert (edges[1] - edges[0]) / per_mm == pytest.approx(high - low, abs=1e-4)
    assert (edges[0] - curve.points[0][0]) / per_mm == pytest.approx(low + 20, abs=1e-4)
    assert curve.pen is Pen.WIDE


def test_a_bar_tells_each_margin() -> None:
    told = positions(PLAN, ["cage"])
    said = {each.text for each in texts(_named("cage"))}
    for row in told.rows:
        assert str(row.position) in said
        if row.least_margin_mm is not None:
            assert signed(row.least_margin_mm) in said
            limit = " \N{EN DASH} ".join(map(named, row.limited_by or ()))
            assert f"{row.verdict.value}: {limit}" in said


def test_what_moves_across_the_side_view_is_drawn_from_above() -> None:
    """A fan that is raised looks the same from the side; what is moved is heavy."""
    scene = positions_scene(stretch(PLAN, "cooler", Travel(0, 10, 5)), BUILD)
    said = [each.text for each in texts(scene)]
    assert [each for each in said if "(from above)" in each] == [
        "+5 mm (from above)",
        "+10 mm (from above)",
    ]
    heavy = [e for e in scene.items if isinstance(e, Line) and e.pen is Pen.HEAVY]
    assert len(heavy) >= 4
    assert not any("(from above)" in each.text for each in texts(_named("cage")))


def test_ticks_are_round_and_hold_zero() -> None:
    assert ticks(-12.0, 41.0) == [-10.0, 0.0, 10.0, 20.0, 30.0, 40.0]
    assert ticks(0.0, 0.9)[:3] == [0.0, 0.2, 0.4]


def test_it_can_be_drawn() -> None:
    assert b"<svg" in render(_along(), "svg")
