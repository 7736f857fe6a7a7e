"""What a customer sees: everything said, and nothing over anything else."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from functools import cache, partial
from pathlib import Path

import pytest
import shapely

from layout.build.placed import Build
from layout.drawing.composed.compose import scene, scenes
from layout.drawing.paper.boxes import text_box, texts
from layout.drawing.paper.scene import (
    Area,
    Balloon,
    Dimension,
    Hatch,
    Leader,
    Line,
    Mark,
    Pen,
    Scene,
    as_json,
)
from layout.drawing.sheets.sheet import NAMED, Sheet
from layout.files.build_file import read_build
from layout.questions.checking.check import check
from layout.questions.findings.advice import remedy_of
from layout.questions.findings.finding import Check, Verdict
from tests.drawing.naming import unnamed
from tests.drawing.reading import (
    drawn_lines,
    marked,
    outlines,
    outside,
    overlapping,
    rows,
    struck,
    tangled,
)
from tests.drawing.samples import blocks, clear_tower, random_build, tower

Sample = Callable[[], tuple[Build, Check]]
_CASES = Path(__file__).parents[3] / "cases"
_EXAMPLES = [
    each for each in sorted(_CASES.glob("*.yaml")) if "\nparts:" in each.read_text()
]


def _example(path: Path) -> tuple[Build, Check]:
    build = read_build(path)
    return build, check(build)


_SAMPLES: dict[str, Sample] = {
    "tower": tower,
    "clear tower": clear_tower,
    "blocks": blocks,
    **{f"random {seed}": partial(random_build, seed) for seed in (*range(10), 12, 20)},
    **{each.stem: partial(_example, each) for each in _EXAMPLES},
}


@cache
def _sheets(name: str) -> tuple[Build, Check, tuple[Scene, ...]]:
    build, found = _SAMPLES[name]()
    return build, found, scenes(build, found)


def _drawn(name: str) -> tuple[Build, Check, Scene]:
    build, found, sheets = _sheets(name)
    return build, found, sheets[0]


@pytest.fixture(params=_SAMPLES)
def drawn(request: pytest.FixtureRequest) -> Scene:
    return _drawn(str(request.param))[2]


def test_no_two_texts_overlap(drawn: Scene) -> None:
    assert overlapping(drawn) == []


def test_no_text_leaves_the_frame(drawn: Scene) -> None:
    assert outside(drawn) == []


def test_no_text_crosses_a_dimension_line_or_a_leader(drawn: Scene) -> None:
    assert struck(drawn, drawn_lines(drawn)) == []


@pytest.mark.parametrize("path", _EXAMPLES, ids=lambda each: each.stem)
def test_hardly_a_leader_of_an_example_crosses_another(path: Path) -> None:
    _, _, sheets = _sheets(path.stem)
    crossing = [len(tangled(each)) for each in sheets]
    assert max(crossing) <= 2
    assert sum(crossing) <= 3


def test_no_text_crosses_an_outline(drawn: Scene) -> None:
    assert struck(drawn, outlines(drawn)) == []


def test_hidden_edges_are_broken_where_lettering_stands(drawn: Scene) -> None:
    edges = [
        list(each.points)
        for each in drawn.items
        if isinstance(each, Line) and each.pen in {Pen.HIDDEN, Pen.PLACE} and each.ref
    ]
    struck = shapely.MultiLineString(edges)
    for each in texts(drawn):
        assert not shapely.box(*text_box(each)).intersects(struck), each.text


@pytest.mark.parametrize("name", _SAMPLES)
def test_every_finding_is_in_one_table_and_marked_on_its_sheet(name: str) -> None:
    _, found, sheets = _sheets(name)
    held = [number for each in sheets for number in sorted(rows(each))]
    assert held == list(range(1, len(found.findings) + 1))
    assert [marked(each) for each in sheets] == [rows(each) for each in sheets]


@pytest.mark.parametrize("name", ["tower", "clear tower", "blocks"])
def test_every_part_that_is_seen_is_named_with_its_size(name: str) -> None:
    build, _, drawn = _drawn(name)
    said = " | ".join(each.text for each in texts(drawn))
    for part in build.parts:
        if part.key != "processor":  # under the cooler, or not seen at all
            assert part.key in said
            assert part.size in said


@pytest.mark.parametrize("name", _SAMPLES)
def test_every_name_stands_on_every_sheet_if_only_as_a_number(name: str) -> None:
    build, found, sheets = _sheets(name)
    assert [unnamed(build, found, each) for each in sheets] == [[]] * len(sheets)


def test_each_verdict_has_its_mark() -> None:
    _, found, drawn = _drawn("tower")
    marks = {each.ref: each.mark for each in drawn.items if isinstance(each, Balloon)}
    forms = {finding.verdict: marks[finding.id] for finding in found.findings}
    assert forms == {
        Verdict.CLEAR: Mark.RING,
        Verdict.TIGHT: Mark.DOUBLE_RING,
        Verdict.SHORT: Mark.DIAMOND,
        Verdict.CLASH: Mark.STAR,
        Verdict.MISSING: Mark.SQUARE,
    }


def test_a_clash_is_hatched_crosswise_in_a_heavy_outline_in_both_views() -> None:
    _, found, drawn = _drawn("tower")
    (clash,) = (each for each in found.findings if each.verdict is Verdict.CLASH)
    areas = [
        each
        for each in drawn.items
        if isinstance(each, Area) and each.hatch is Hatch.CLASH
    ]
    assert {each.ref for each in areas} == {clash.id}
    assert len(areas) >= 2
    assert all(each.pen is Pen.HEAVY for each in areas)


def test_the_cases_inside_sizes_are_dimensioned_true_to_scale() -> None:
    build, _, drawn = _drawn("tower")
    told = {
        each.text.text: max(
            abs(each.end[0] - each.start[0]), abs(each.end[1] - each.start[1])
        )
        for each in drawn.items
        if isinstance(each, Dimension) and each.text is not None
    }
    assert build.case_size_mm is not None
    for size_mm in build.case_size_mm:
        assert told[f"{size_mm:.0f}"] == pytest.approx(size_mm / 5)
    assert told["24"] == pytest.approx(24 / 5)


def test_what_lies_behind_the_tray_is_dashed() -> None:
    _, _, drawn = _drawn("tower")
    dashed = {
        each.ref
        for each in drawn.items
        if isinstance(each, Line) and each.pen is Pen.HIDDEN
    }
    assert "small drive" in dashed
    assert "top fans/fan 1" not in dashed


def test_shroud_panels_and_cage_are_not_filled() -> None:
    _, _, drawn = _drawn("tower")
    filled = {
        each.ref
        for each in drawn.items
        if isinstance(each, Area) and each.fill and each.hatch
    }
    assert {"supply", "drive 1"} <= filled
    assert not {"cage", "case/shroud", "case/side panel"} & filled


def test_the_verdict_stands_on_the_sheet_in_plain_words() -> None:
    _, _, drawn = _drawn("tower")
    said = " ".join(each.text for each in texts(drawn))
    assert "Does not go together: 4 places need a change." in said
    assert "too close by 22 mm" in said


def test_the_sheet_says_its_scale() -> None:
    for name, scale in (("tower", "1:5"), ("blocks", "1:1")):
        _, _, drawn = _drawn(name)
        assert scale in {each.text for each in texts(drawn)}


@pytest.mark.parametrize("name", sorted(NAMED))
def test_any_sheet_can_be_asked_for(name: str) -> None:
    build, found, _ = _drawn("tower")
    made = scene(build, found, sheets=NAMED[name])
    sides = {made.width_mm, made.height_mm}
    assert sides == {NAMED[name][0].width_mm, NAMED[name][0].height_mm}
    assert made.scale == {"A4": (1, 10), "A3": (1, 5)}.get(name, (1, 2))
    assert overlapping(made) == []
    assert outside(made) == []


def test_more_findings_than_a_sheet_holds_stand_on_further_sheets() -> None:
    build, found, _ = _drawn("blocks")
    many = Check(
        build=found.build,
        verdict=found.verdict,
        findings=found.findings * 25,
        notes=(),
    )
    sheets = scenes(build, many)
    assert len(sheets) > 1
    held = [rows(each) for each in sheets]
    assert sorted(itertools.chain(*held)) == list(range(1, 76))
    for number, drawn in enumerate(sheets, start=1):
        said = {each.text for each in texts(drawn)}
        assert f"{number} of {len(sheets)}" in said
        following = 75 - max(held[number - 1])
        assert (f"and {following} more on sheet {number + 1}" in said) == (
            drawn is not sheets[-1]
        )
        assert {each.scale for each in sheets} == {drawn.scale}


def test_names_are_shown_as_they_are_written() -> None:
    _, _, drawn = _drawn("blocks")
    said = " ".join(each.text for each in texts(drawn))
    assert "blocks $1 of $2" in said
    assert "ramp $5 & <b>" in said


def test_the_same_build_makes_the_same_scene() -> None:
    first, second = (as_json(scene(*clear_tower())) for _ in range(2))
    assert first == second


def test_without_a_case_no_panel_is_spoken_of() -> None:
    _, _, drawn = _drawn("blocks")
    assert not any("panel" in each.text for each in texts(drawn))
    told = {
        each.text.text
        for each in drawn.items
        if isinstance(each, Dimension) and each.text
    }
    assert {"114.2", "90", "30"} <= told


def test_under_a_row_that_fails_stands_what_to_do_alone() -> None:
    build = read_build(_CASES / "newsroom-build.yaml")
    found = check(build)
    worst = found.findings[0]
    assert worst.verdict.fails
    said = [each.text for each in texts(scene(build, found))]
    told = remedy_of(worst)
    assert told[0].upper() + told[1:] in said
    assert not any("must give" in each for each in said)


@pytest.mark.parametrize("sheet", NAMED["A4"])
@pytest.mark.parametrize("name", ["tower", "newsroom-build", "archive-build"])
def test_what_fails_is_told_on_the_smallest_sheet(name: str, sheet: Sheet) -> None:
    build, found, _ = _drawn(name)
    made = scene(build, found, sheets=(sheet,))
    marked = {each.number for each in made.items if isinstance(each, Balloon)}
    failing = {n for n, each in enumerate(found.findings, 1) if each.verdict.fails}
    assert failing <= marked
    assert marked - {0}
    assert overlapping(made) == []
    assert outside(made) == []


def test_no_leader_parts_a_view_from_what_is_said_beside_it(drawn: Scene) -> None:
    said = {each.text: text_box(each) for each in texts(drawn)}
    lines = [
        shapely.LineString(each.points)
        for each in drawn.items
        if isinstance(each, Leader) or (isinstance(each, Line) and each.ref)
    ]
    for name, beside in (("Side view", "side panel "), ("Top view", "from above")):
        left, low, _, high = said[name]
        for text, note in said.items():
            if text.startswith(beside):
                joined = shapely.box(left, low, note[2], high)
                assert not any(joined.intersects(each) for each in lines)
