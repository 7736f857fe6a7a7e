from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import combinations
from pathlib import Path

import pytest

from layout.drawing.charts.room_bars import span_of
from layout.drawing.charts.roomy import headroom_scenes
from layout.drawing.ink.figure import render_sheets
from layout.drawing.paper.boxes import apart, text_box, texts, within
from layout.drawing.paper.scene import Area, Hatch, Ink, Line, Pen, Scene
from layout.files.build_file import read_plan
from layout.questions.growing.headroom import Headroom, Room, headroom

CASES = Path(__file__).parents[3] / "cases"


@cache
def _told(name: str, *, bare: bool = False) -> Headroom:
    plan, _ = read_plan(CASES / f"{name}-build.yaml")
    if bare:
        entries = tuple(e for e in plan.entries if e.key in {"board", "case"})
        plan = replace(plan, entries=entries)
    return headroom(plan)


def _room(part: str, now_mm: float, largest_mm: float | None) -> Room:
    return Room(
        part=part,
        dimension="height",
        now_mm=now_mm,
        largest_mm=largest_mm,
        limited_by=(part, "case/top"),
        rule="x",
    )


FREE = replace(_room("memory", 30.0, None), limited_by=None, rule=None, end_mm=80.0)
ROWS = (
    _room("cooler", 50.0, 100.0),
    _room("card", 80.0, 60.0),
    replace(_room("hba", 20.0, None), but_for_mm=40.06),
    _room("disk", 10.0, None),
    FREE,
)


def _scene(rows: tuple[Room, ...] = ROWS) -> Scene:
    (scene,) = headroom_scenes(Headroom(build="Machine", rows=rows))
    return scene


@pytest.mark.parametrize("bare", [False, True])
def test_texts_stand_on_the_sheets_and_apart(bare: bool) -> None:  # noqa: FBT001 (parametrised)
    scenes = headroom_scenes(_told("audiobook", bare=bare))
    for scene in scenes:
        boxes = [text_box(each) for each in texts(scene)]
        paper = (20.0, 10.0, scene.width_mm - 10.0, scene.height_mm - 10.0)
        assert [each for each in boxes if not within(each, paper)] == []
        assert [pair for pair in combinations(boxes, 2) if not apart(*pair)] == []


def test_every_row_is_on_some_sheet_with_what_limits_it() -> None:
    told = _told("audiobook")
    said = [each.text for scene in headroom_scenes(told) for each in texts(scene)]
    parts = [row.part for row in told.rows]
    for part in {*parts}:
        there = sum(each == part or each.startswith(f"{part}, ") for each in said)
        assert there >= parts.count(part)
    assert sum(each.startswith("\N{EN DASH} ") for each in said) == sum(
        row.limited_by is not None for row in told.rows
    )


def test_bars_are_to_scale_as_built_and_as_large_as_would_clear() -> None:
    scene = _scene()
    whole = span_of(ROWS, (0.0, 0.0, 172.0, 0.0))
    per_mm = (whole.right - whole.left) / 100.0
    filled = [e for e in scene.items if isinstance(e, Area) and e.fill is Ink.FAN]
    left = [e for e in scene.items if isinstance(e, Area) and e.hatch is Hatch.RISING]
    over = [e for e in scene.items if isinstance(e, Area) and e.hatch is Hatch.CLASH]
    assert [_wide(each) / per_mm for each in filled] == pytest.approx([50, 60, 30])
    assert [_wide(each) / per_mm for each in left] == pytest.approx([50])
    # what is too much of the card, and all of what never fits
    assert [_wide(each) / per_mm for each in over] == pytest.approx([20, 20, 10])
    strokes = [e for e in scene.items if isinstance(e, Line) and e.pen is Pen.WIDE]
    assert len(strokes) == 2


def _wide(area: Area) -> float:
    places = [x for x, _ in area.outer]
    return max(places) - min(places)


def test_figures_are_never_rounded_up() -> None:
    said = {each.text for each in texts(_scene((_room("card", 0.0, 167.58),)))}
    assert "167.5" in said
    said = {each.text for each in texts(_scene())}
    assert {
        "100",
        "+50",
        "60",
        "\N{MINUS SIGN}20",
        "(40)",
        "none",
        "no limit",
        "up to 80",
    } <= said


def test_many_rows_go_on_on_a_further_sheet() -> None:
    rows = tuple(_room(f"card {n}", 50.0, 60.0 + n) for n in range(40))
    scenes = headroom_scenes(Headroom(build="Machine", rows=rows))
    assert len(scenes) == 2
    said = [each.text for scene in scenes for each in texts(scene)]
    told = dict.fromkeys(each for each in said if each.startswith("card "))
    assert list(told) == [f"card {n}" for n in range(40)]
    assert "sheet 2 of 2" in said
    assert "Sizes of parts, continued" in said
    assert all(each.startswith(b"<?xml") for each in render_sheets(scenes, "svg"))


def test_rows_of_several_places_are_told_apart_and_none_is_cut() -> None:
    places = ("top, place 1", "floor, place 1", "floor, place 2")
    row = _room("cooler", 27.0, 30.0)
    rows = [replace(row, dimension=f"radiator thickness, {each}") for each in places]
    said = [each.text for each in texts(_scene(tuple(rows)))]
    assert [each for each in said if "place" in each] == [
        f"cooler, {each}" for each in places
    ]
    assert said.count("radiator thickness") == len(places)
    long = replace(rows[0], part="cooler of the recording room upstairs")
    (upper,) = [e.text for e in texts(_scene((long,))) if "place" in e.text]
    assert upper.startswith("cooler of")
    assert upper.endswith("…, top, place 1")
