"""The comparison of drawings runs, at a tiny size; nothing is timed here."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.bench.drawing import against_empty, in_one_run
from tests.drawing.samples import blocks
from tests.files.builds import BLOCKS, written


@pytest.mark.parametrize("kind", ["svg", "png", "pdf"])
def test_a_drawing_is_compared_with_an_empty_page(kind: str) -> None:
    whole, file = against_empty(*blocks(), kind, rounds=1)
    assert whole > 0
    assert file > 0


def test_several_drawings_are_compared_with_several_runs(tmp_path: Path) -> None:
    assert min(in_one_run([written(tmp_path, BLOCKS)], "svg")) > 0
