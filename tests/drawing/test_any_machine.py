"""Lettering on random machines of every layout, read from the scene's boxes and lines.

42 machines in every run; 203 where the environment asks for every check.
"""

from __future__ import annotations

import os

import pytest

from layout.drawing.composed.compose import scenes
from layout.questions.checking.check import check
from tests.build.any_machine import LAYOUTS, machine
from tests.drawing.naming import unnamed
from tests.drawing.reading import (
    cut,
    drawn_lines,
    left_out,
    marked,
    outlines,
    outside,
    overlapping,
    rows,
    struck,
)

_EACH = 29 if "CASE_LAYOUT_EVERY_CHECK" in os.environ else 6


@pytest.mark.parametrize("layout", LAYOUTS)
def test_lettering_stands_free_and_every_finding_is_marked(layout: str) -> None:
    for seed in range(_EACH):
        build = machine(layout, seed).build
        found = check(build)
        numbers: list[set[int]] = []
        for drawn in scenes(build, found):
            assert cut(drawn) == [], seed
            assert overlapping(drawn) == [], seed
            assert outside(drawn) == [], seed
            assert struck(drawn, drawn_lines(drawn)) == [], seed
            assert struck(drawn, outlines(drawn)) == [], seed
            assert left_out(drawn) == 0, seed
            assert unnamed(build, found, drawn) == [], seed
            numbers.append(marked(drawn))
            assert rows(drawn) == numbers[-1], seed
        assert set().union(*numbers) == set(range(1, len(found.findings) + 1)), seed
