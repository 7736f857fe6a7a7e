from __future__ import annotations

import os
from pathlib import Path

import pytest

from layout.drawing.ink.figure import render_sheets
from layout.drawing.paper.scene import Scene
from layout.drawing.sheets.sheet import SHEET_MARK
from layout.files.errors import OutputError
from layout.files.stale import stale_sheets
from layout.files.whole import write_whole

_PAPER = Scene(
    title="x" * 200,
    description="y" * 200,
    width_mm=60.0,
    height_mm=40.0,
    scale=(1, 1),
    items=(),
    subjects=(),
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for kind in ("svg", "png"):
        for place, made in enumerate(render_sheets([_PAPER] * 3, kind), start=1):
            further = f"-{place}" if place > 1 else ""
            (tmp_path / f"a{further}.{kind}").write_bytes(made)
    return tmp_path


def test_sheets_that_a_drawing_has_no_more_are_found(folder: Path) -> None:
    svg, png = folder / "a.svg", folder / "a.png"
    written = [svg, folder / "a-2.svg", png]
    stale = stale_sheets([svg, png], written, mark=SHEET_MARK)
    assert [each.name for each in stale] == ["a-2.png", "a-3.png", "a-3.svg"]


def test_only_the_formats_drawn_now_count(folder: Path) -> None:
    svg = folder / "a.svg"
    assert {each.suffix for each in stale_sheets([svg], [svg], mark=SHEET_MARK)} == {
        ".svg"
    }


def test_files_of_such_names_that_are_no_further_sheet_are_left(folder: Path) -> None:
    svg = folder / "a.svg"
    (folder / "a-2.svg").write_bytes(svg.read_bytes())  # another drawing's first sheet
    (folder / "a-3.svg").write_text("<svg>someone's own</svg>")
    (folder / "a-4.svg").mkdir()
    (folder / "a-02.svg").write_bytes((folder / "a-2.png").read_bytes())
    (folder / "a-b-2.svg").write_bytes((folder / "a-2.png").read_bytes())
    assert stale_sheets([svg], [svg], mark=SHEET_MARK) == ()


def test_no_folder_yet(tmp_path: Path) -> None:
    target = tmp_path / "none" / "a.svg"
    assert stale_sheets([target], [target], mark=SHEET_MARK) == ()


def test_what_goes_goes_with_what_comes(folder: Path) -> None:
    stale = stale_sheets([folder / "a.svg"], [folder / "a.svg"], mark=SHEET_MARK)
    write_whole({folder / "a.svg": b"new"}, instead_of=stale)
    assert sorted(each.name for each in folder.glob("*.svg")) == ["a.svg"]
    assert len(list(folder.glob("*.png"))) == 3


def test_where_a_stale_file_cannot_go_everything_is_as_it_was(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = {each.name: each.read_bytes() for each in folder.iterdir()}
    real = Path.unlink

    def failing(self: Path, *, missing_ok: bool = False) -> None:
        if self.name == "a-3.svg":
            raise OSError(13, os.strerror(13), str(self))
        real(self, missing_ok=missing_ok)

    monkeypatch.setattr(Path, "unlink", failing)
    stale = stale_sheets([folder / "a.svg"], [folder / "a.svg"], mark=SHEET_MARK)
    with pytest.raises(OutputError, match=r"a-3\.svg cannot be written"):
        write_whole({folder / "a.svg": b"new"}, instead_of=stale)
    assert {each.name: each.read_bytes() for each in folder.iterdir()} == before


def test_what_can_be_no_folder_holds_no_sheets(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    for name in ("file", "x" * 300):
        target = tmp_path / name / "a.svg"
        assert stale_sheets([target], [target], mark=SHEET_MARK) == ()
