"""The stored scenes of the examples, sheet by sheet, and what is drawn today."""

from __future__ import annotations

from pathlib import Path

from layout.drawing.composed.compose import scenes
from layout.drawing.paper.scene import as_json
from layout.files.build_file import read_build
from layout.questions.checking.check import check

__all__ = ["BUILDS", "STORED", "drawn", "stored"]

BUILDS = sorted((Path(__file__).parents[2] / "cases").glob("*-build.yaml"))
STORED = Path(__file__).parent / "scenes"


def drawn(build: Path) -> dict[Path, str]:
    """Return the scenes of a build file as they are drawn today, by where they go."""
    made = read_build(build)
    sheets = scenes(made, check(made))
    return {
        _stored(build, number): as_json(each)
        for number, each in enumerate(sheets, start=1)
    }


def stored(build: Path) -> dict[Path, str]:
    """Return the accepted scenes of a build file, by where they are kept."""
    paths = [_stored(build, 1), *STORED.glob(f"{build.stem}-[0-9].json")]
    return {each: each.read_text(encoding="utf-8") for each in paths if each.exists()}


def _stored(build: Path, number: int) -> Path:
    return STORED / f"{build.stem}{'' if number == 1 else f'-{number}'}.json"
