from __future__ import annotations

from itertools import combinations
from pathlib import Path

import pytest
import shapely

from layout.drawing.charts.chain import chain_scene
from layout.drawing.ink.figure import render
from layout.drawing.paper.boxes import apart, text_box, texts, within
from layout.drawing.paper.scene import Area, Dimension, Ink, Line, Pen
from layout.files.build_file import read_build
from layout.parts.card.card import Card
from layout.questions.checking.check import check
from tests.build.machines import built, mm, tower, tower_case, wet
from tests.drawing.reading import cut
from tests.questions.explaining.test_explain import chained

_CASES = Path(__file__).parents[3] / "cases"
MACHINES = {"tower": built(tower_case(), tower()), "wet": built(tower_case(), wet())}
EVERY = [
    (name, finding.id)
    for name, build in MACHINES.items()
    for finding in check(build).findings
    if finding.gap_mm is not None
]


@pytest.mark.parametrize(("name", "id_"), EVERY)
def test_texts_stand_on_the_sheet_and_apart(name: str, id_: str) -> None:
    scene = chain_scene(chained(MACHINES[name], id_))
    boxes = [text_box(each) for each in texts(scene)]
    paper = (20.0, 10.0, scene.width_mm - 10.0, scene.height_mm - 10.0)
    assert [each for each in boxes if not within(each, paper)] == []
    assert [pair for pair in combinations(boxes, 2) if not apart(*pair)] == []


def test_steps_are_to_one_scale_and_carry_their_length() -> None:
    told = chained(MACHINES["tower"], "panel-over-cooler:cooler:case/side panel")
    drawn = [each for each in chain_scene(told).items if isinstance(each, Dimension)]
    a_way, b_way = told.by_figure
    assert b_way[-1].to_mm - a_way[-1].to_mm == pytest.approx(told.room_mm)
    sizes = [step.to_mm - step.from_mm for step in (*a_way, *b_way[::-1])]
    paper = [each.end[0] - each.start[0] for each in drawn]
    ratios = [abs(size) / width for size, width in zip(sizes, paper, strict=True)]
    assert ratios == pytest.approx([ratios[0]] * len(ratios))
    assert [each.text.text for each in drawn if each.text][-1] == "186"


def test_figures_stand_as_they_are_given_and_a_limit_has_no_tolerance() -> None:
    told = chained(MACHINES["tower"], "panel-over-cooler:cooler:case/side panel")
    said = [each.text for each in texts(chain_scene(told))]
    assert any("standoff height 6.35 ±" in each for each in said)
    card = Card(length=mm(420), height=mm(130))
    over = built(tower_case(), {**tower(), "card": card})
    limit = chain_scene(chained(over, "stated-limit:card:card length"))
    assert not any("±" in each.text for each in texts(limit))


@pytest.mark.parametrize(("name", "id_"), EVERY)
def test_no_label_is_cut_and_none_is_too_pale(name: str, id_: str) -> None:
    scene = chain_scene(chained(MACHINES[name], id_))
    assert cut(scene) == []
    assert Ink.TIGHT not in {each.ink for each in texts(scene)}


def test_a_long_label_takes_a_second_line_and_keeps_its_figure_whole() -> None:
    build = read_build(_CASES / "newsroom-build.yaml")
    said = [each.text for each in texts(chain_scene(chained(build, "3")))]
    row = said.index("memory module's contact edge over the board")
    assert said[row + 1].startswith("3 ±")
    assert said[row + 1].endswith("assumed")


def test_it_can_be_drawn() -> None:
    told = chained(MACHINES["tower"], "1")
    assert b"<svg" in render(chain_scene(told), "svg")


@pytest.mark.parametrize(("name", "id_"), EVERY)
def test_no_bar_runs_under_a_label(name: str, id_: str) -> None:
    scene = chain_scene(chained(MACHINES[name], id_))
    bars = [shapely.Polygon(e.outer) for e in scene.items if isinstance(e, Area)]
    labels = [shapely.box(*text_box(e)) for e in texts(scene) if "%" in e.text]
    assert labels
    assert not any(bar.intersects(label) for bar in bars for label in labels)


@pytest.mark.parametrize(("name", "id_"), EVERY)
def test_no_joint_runs_through_a_text(name: str, id_: str) -> None:
    scene = chain_scene(chained(MACHINES[name], id_))
    joints = [e for e in scene.items if isinstance(e, Line) and e.pen is Pen.CENTRE]
    boxes = [shapely.box(*text_box(each)) for each in texts(scene)]
    assert joints
    for joint in joints:
        line = shapely.LineString(joint.points)
        assert not any(line.intersects(box) for box in boxes)
