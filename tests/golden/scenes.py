"""The stored scenes of the examples, and what the program draws today."""

from __future__ import annotations

from pathlib import Path

from layout.drawing.compose import scene
from layout.drawing.scene import as_json
from layout.files.build_file import read_build
from layout.questions.check import check

__all__ = ["BUILDS", "STORED", "drawn", "stored"]

BUILDS = sorted((Path(__file__).parents[2] / "cases").glob("*-build.yaml"))
STORED = Path(__file__).parent / "scenes"


def drawn(build: Path) -> str:
    """Return the scene of a build file as it is drawn today."""
    made = read_build(build)
    return as_json(scene(made, check(made)))


def stored(build: Path) -> Path:
    """Return where the accepted scene of a build file is kept."""
    return STORED / f"{build.stem}.json"
