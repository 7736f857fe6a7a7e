"""The title block says every field whole, however narrow its cell."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.drawing.paper.boxes import apart, text_box, texts_of
from layout.drawing.paper.scene import Line
from layout.drawing.paper.style import STYLE
from layout.drawing.sheets.sheet import CHOSEN_FROM, Share, plans
from layout.drawing.sheets.title_block import Title, title_block
from layout.geometry.space import Box

_NAME = "Machine for the outside broadcast van of the northern harbour, second fitting"
_TITLE = Title(
    owner="Workshop for quiet machines and their keepers", creator="M. W. W."
)


@pytest.mark.parametrize("wide_mm", [95.0, 140.0, 180.0])
def test_what_is_wider_than_its_cell_takes_more_lines(wide_mm: float) -> None:
    case = Box((0.0, 0.0, 0.0), (430.0, 460.0, 200.0))
    plan = replace(
        plans(case, in_case=True, sheets=CHOSEN_FROM)[0],
        column=(0.0, 0.0, wide_mm, 200.0),
    )
    made, top = title_block(_NAME, _TITLE, plan, style=STYLE, share=Share())
    said = texts_of(made)
    told = " ".join(each.text for each in said)
    assert _NAME in told
    assert _TITLE.owner in told
    assert "…" not in told
    boxes = [text_box(each) for each in said]
    assert all(box[1] >= 0.0 and box[3] <= top for box in boxes)
    for place, each in enumerate(boxes):
        assert all(apart(each, other) for other in boxes[place + 1 :])
    rules = [
        each.points[0][1]
        for each in made
        if isinstance(each, Line) and each.points[0][1] == each.points[1][1]
    ]
    for box in boxes:
        assert all(not box[1] + 1e-6 < y < box[3] - 1e-6 for y in rules)
