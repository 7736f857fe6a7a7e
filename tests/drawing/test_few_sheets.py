from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from layout.build.placed import Build
from layout.drawing.composed.compose import scenes
from layout.drawing.paper.boxes import texts, texts_of
from layout.drawing.paper.scene import Line, Scene
from layout.drawing.paper.style import STYLE
from layout.drawing.sheets.sheet import NAMED
from layout.drawing.sheets.table import table
from layout.files.build_file import read_build
from layout.questions.checking.check import check
from layout.questions.findings.advice import remedy_of
from layout.questions.findings.finding import Check, Verdict
from tests.build.any_machine import machine
from tests.drawing.reading import marked, outside, overlapping

_CASES = Path(__file__).parents[2] / "cases"


@cache
def _drawn(name: str, sheet: str = "") -> tuple[Build, Check, tuple[Scene, ...]]:
    build = read_build(_CASES / f"{name}-build.yaml")
    found = check(build)
    if sheet:
        return build, found, scenes(build, found, sheets=NAMED[sheet])
    return build, found, scenes(build, found)


def test_two_sheets_read_with_ease_rather_than_a_crowded_one() -> None:
    _, found, sheets = _drawn("reporter")
    assert [each.scale for each in sheets] == [(1, 2)] * 2
    rows = set(range(1, len(found.findings) + 1))
    assert marked(sheets[0]) | marked(sheets[1]) == rows


def test_a_flat_case_takes_a_smaller_scale_rather_than_three_sheets() -> None:
    build, found, _ = _drawn("reporter")
    (made,) = scenes(build, found, sheets=NAMED["A3"][:1])
    assert made.scale == (1, 5)
    assert marked(made) == set(range(1, len(found.findings) + 1))


def test_no_scale_under_one_to_five_for_the_sake_of_a_sheet() -> None:
    _, found, sheets = _drawn("mixing")
    assert len(sheets) > 1
    assert {each.scale for each in sheets} == {(1, 5)}
    failing = {n for n, each in enumerate(found.findings, 1) if each.verdict.fails}
    assert failing
    assert failing <= marked(sheets[0])


def test_a_wide_column_has_the_legend_beside_the_table() -> None:
    build, found, _ = _drawn("reporter")
    (made, *_) = scenes(build, found, sheets=NAMED["A3"][1:])
    placed = {each.text: each.at for each in texts(made)}
    assert placed["hidden edge"][0] > placed["which means"][0]
    assert placed["legal owner"][0] > placed["which means"][0]
    assert overlapping(made) == []
    assert outside(made) == []


def test_columns_are_split_where_rows_take_fewer_lines(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    _, found, _ = _drawn("mixing")
    widths = (100.0, 120.0, 140.0, 177.0)
    split = [_high(found, wide) for wide in widths]
    monkeypatch.setattr("layout.drawing.sheets.table._PLACES", (0.48,))
    fixed = [_high(found, wide) for wide in widths]
    assert all(a <= b for a, b in zip(split, fixed, strict=True))
    assert split != fixed


def _high(found: Check, wide: float) -> float:
    items, left_out = table(found.findings[:20], (0.0, 0.0, wide, 900.0), STYLE)
    assert left_out == 0
    return 900.0 - min(each.points[0][1] for each in items if isinstance(each, Line))


def test_the_table_takes_more_rows_the_higher_it_is_and_all_that_is_to_be_done() -> (
    None
):
    _, found, _ = _drawn("archive")
    failing = [each for each in found.findings if each.verdict.fails]
    assert failing
    every = failing * 3
    rows = []
    for high in range(60, 200, 4):
        items, left_out = table(every, (0.0, 0.0, 177.0, high), STYLE)
        rows.append(len(every) - left_out)
        told = " ".join(each.text for each in texts_of(items)).lower()
        assert all(remedy_of(each).lower() in told for each in every[: rows[-1]])
    assert all(b >= a for a, b in pairwise(rows))
    assert rows[0] < rows[-1]


def test_a_legend_beside_the_table_stands_closer_before_it_is_given_up() -> None:
    build = machine("sandwich", 1).build
    answer = check(build)
    for name, whole in ((build.name, True), ("a long name " * 40, False)):
        named = replace(build, name=name)
        (made, *_) = scenes(named, answer, sheets=NAMED["A3"][1:])
        assert overlapping(made) == []
        assert ("hidden edge" in {each.text for each in texts(made)}) is whole


@pytest.mark.parametrize("name", ["dubbing", "playout"])  # in two columns, in one
def test_legend_and_notes_give_the_table_the_room_that_saves_a_sheet(name: str) -> None:
    _, found, sheets = _drawn(name)
    (made,) = sheets
    assert marked(made) == set(range(1, len(found.findings) + 1))
    placed = {each.text: each.at for each in texts(made)}
    assert placed["hidden edge"][0] < placed["which means"][0]
    assert "legal owner" in placed
    assert any(
        said.startswith("Tolerances") and at[0] < placed["which means"][0]
        for said, at in placed.items()
    )
    assert overlapping(made) == []
    assert outside(made) == []


def test_sheets_hold_about_as_many_rows_and_the_first_all_that_is_urgent() -> None:
    for name in ("archive", "mixing"):
        _, found, sheets = _drawn(name)
        rows = [marked(each) for each in sheets]
        assert len(rows) > 1
        assert max(map(len, rows)) - min(map(len, rows)) <= 1
        assert set().union(*rows) == set(range(1, len(found.findings) + 1))
        urgent = sum(each.verdict is not Verdict.CLEAR for each in found.findings)
        assert set(range(1, urgent + 1)) <= rows[0]


def test_details_and_legend_find_room_where_the_views_spare_a_little() -> None:
    _, found, sheets = _drawn("broadcast")
    (made,) = sheets
    assert made.width_mm > made.height_mm
    assert marked(made) == set(range(1, len(found.findings) + 1))
    assert "hidden edge" in {each.text for each in texts(made)}
    assert overlapping(made) == []
    assert outside(made) == []


def test_a_further_sheet_explains_no_mark_that_it_has_not() -> None:
    _, _, (first, second) = _drawn("archive")
    said = [{each.text for each in texts(sheet)} for sheet in (first, second)]
    assert {"too close", "room enough"} <= said[0]
    assert "room enough" in said[1]
    assert "too close" not in said[1]
