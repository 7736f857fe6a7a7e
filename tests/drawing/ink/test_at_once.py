from __future__ import annotations

import os
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import pytest

from layout.build.remade import Remaker
from layout.drawing.ink import at_once
from layout.drawing.ink.at_once import CutOffError, Wanted, drawn, drawn_at_once
from layout.drawing.sheets.sheet import NAMED
from layout.drawing.sheets.title_block import Title
from layout.files.build_file import read_made
from tests.files.builds import BLOCKS, written

_WANTED = Wanted(kinds=("svg", "png"), sheets=NAMED["A4"], title=Title())


@pytest.fixture
def builds(tmp_path: Path) -> list[Remaker]:
    moved = BLOCKS.replace("[120, 40, 0]", "[0, 40, 0]")
    return [read_made(written(tmp_path, each)) for each in (BLOCKS, moved, BLOCKS)]


class _Deadly:
    """What ends a process that it is handed to."""

    build = SimpleNamespace(bodies=())

    def __reduce__(self) -> tuple[object, tuple[int]]:
        return os._exit, (3,)


def test_several_at_once_are_drawn_as_one_after_the_other(
    builds: list[Remaker],
) -> None:
    at_once_ = list(drawn_at_once(builds, _WANTED, cores=2))
    assert at_once_ == [drawn(each, _WANTED) for each in builds]
    assert [each.answer.verdict.fails for each in at_once_] == [True, False, True]
    with pytest.raises(CutOffError, match="3 builds, 2 at once: one was ended from"):
        list(drawn_at_once([*builds[:2], _Deadly()], _WANTED, cores=2))  # type: ignore[list-item]


def test_what_fails_elsewhere_fails_as_it_does_here(builds: list[Remaker]) -> None:
    unknown = replace(_WANTED, kinds=("bmp",))
    for cores in (1, 2):
        with pytest.raises(KeyError, match="bmp"):
            list(drawn_at_once(builds, unknown, cores=cores))


def test_one_build_or_one_core_starts_no_process(
    builds: list[Remaker], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delattr(at_once, "ProcessPoolExecutor")
    wanted = replace(_WANTED, kinds=("svg",))
    assert len(list(drawn_at_once(builds[:1], wanted, cores=2))) == 1
    assert len(list(drawn_at_once(builds[:2], wanted, cores=1))) == 2
