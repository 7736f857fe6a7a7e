"""The legend tells whole words, and the numbers that stand for names on every sheet."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.drawing.paper.boxes import apart, text_box, texts_of
from layout.drawing.paper.scene import Line, Text
from layout.drawing.paper.style import STYLE
from layout.drawing.sheets.column import column
from layout.drawing.sheets.legend import END_OF_TRAVEL, legend
from layout.drawing.sheets.sheet import CHOSEN_FROM, plans
from layout.drawing.sheets.title_block import Title
from layout.drawing.views.compared import Before
from layout.drawing.views.views import bounds_of
from tests.drawing.samples import clear_tower, tower

_KEYS = (END_OF_TRAVEL, ("P1", "a post under the card, 105.4 high"))


@pytest.mark.parametrize("wide_mm", [95.0, 120.0, 153.0, 180.0])
def test_no_line_is_cut_or_runs_into_another(wide_mm: float) -> None:
    build, check = tower()
    long = (
        "P2",
        "a shelf over the whole depth of a case that stands on its back, " * 2,
    )
    frame = (0.0, 0.0, wide_mm, 200.0)
    made, top = legend(build, check, frame, style=STYLE, keys=(*_KEYS, long))
    said = texts_of(made)
    told = " ".join(each.text for each in said)
    assert all(each in told for _, each in _KEYS)
    assert long[1].strip() in told
    boxes = [text_box(each) for each in said]
    assert all(box[2] <= wide_mm for box in boxes)
    assert all(box[3] <= top for box in boxes)
    for place, box in enumerate(boxes):
        assert all(apart(box, other) for other in boxes[place + 1 :])


def test_each_line_is_told_once_with_all_that_it_stands_for() -> None:
    build, check = tower()
    frame = (0.0, 0.0, 120.0, 200.0)
    made, _ = legend(
        build,
        check,
        frame,
        style=STYLE,
        keys=_KEYS,
        before=Before(build=clear_tower()[0], check=check),
    )
    lines = [(each.pen, each.ink) for each in made if isinstance(each, Line)]
    assert len(set(lines)) == len(lines) > 2
    said = " ".join(each.text for each in texts_of(made))
    assert "opening, changed: before, end of a travel" in said


def test_a_short_one_tells_what_the_sheet_cannot_be_read_without() -> None:
    build, check = tower()
    frame = (0.0, 0.0, 120.0, 200.0)
    made, _ = legend(build, check, frame, style=STYLE, keys=_KEYS, short=True)
    said = {each.text for each in made if isinstance(each, Text)}
    assert said == {"P1", _KEYS[1][1], "end of a travel"}


def test_a_table_that_needs_the_legend_s_room_leaves_the_numbers_of_names() -> None:
    build, check = tower()
    box = bounds_of([each.body.bounds for each in build.bodies])
    crowded = replace(check, findings=check.findings * 40)
    plan = plans(box, in_case=True, sheets=CHOSEN_FROM)[0]
    made, left_out = column(
        build, crowded, plan, title=Title(), style=STYLE, keys=_KEYS
    )
    said = {each.text for each in texts_of(made)}
    assert left_out
    assert "hidden edge" not in said
    assert {"P1", _KEYS[1][1]} <= said
