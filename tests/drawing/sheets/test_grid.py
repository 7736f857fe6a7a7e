"""The heads of the table's columns stand apart."""

from __future__ import annotations

from itertools import combinations

import pytest

from layout.drawing.paper.boxes import apart, text_box, texts_of
from layout.drawing.paper.style import STYLE
from layout.drawing.sheets.table import table
from layout.drawing.views.compared import Before
from tests.drawing.samples import tower

_APART_MM = 2.0


@pytest.mark.parametrize("compared", [False, True])
def test_two_heads_do_not_read_as_one(*, compared: bool) -> None:
    build, found = tower()
    before = Before(build=build, check=found) if compared else None
    column = (230.0, 20.0, 405.0, 280.0)
    items, _ = table(found.findings, column, STYLE, before=before)
    heads = [
        each
        for each in texts_of(items)
        if each.text in {"between", "gap", "before", "need", "which means"}
    ]
    assert len(heads) == 4 + compared
    boxes = [text_box(each) for each in heads]
    assert all(apart(a, b, _APART_MM) for a, b in combinations(boxes, 2))
