"""The stored scenes of the examples, sheet by sheet, and what is drawn today."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Final

from layout.drawing.charts.chain import chain_scene
from layout.drawing.charts.moved import positions_scene
from layout.drawing.charts.roomy import headroom_scenes
from layout.drawing.composed.compose import scenes
from layout.drawing.paper.scene import Scene, as_json
from layout.drawing.views.compared import Before
from layout.files.build_file import read_build, read_plan
from layout.questions.checking.check import check
from layout.questions.explaining.explain import explain
from layout.questions.findings.explanation import Explanation
from layout.questions.growing.headroom import headroom
from layout.questions.moving.journey import Travel
from layout.questions.moving.moves import rail_mm
from layout.questions.moving.positions import positions
from layout.questions.moving.stretch import stretch

__all__ = ["DRAWINGS", "STORED", "drawn", "stored"]

STORED = Path(__file__).parent / "scenes"
_CASES: Final = Path(__file__).parents[2] / "cases"


def _build(path: Path) -> Sequence[Scene]:
    made = read_build(path)
    return scenes(made, check(made))


def _compared(first: str, second: str) -> Sequence[Scene]:
    before, made = (read_build(_CASES / name) for name in (first, second))
    return scenes(made, check(made), before=Before(before, check(before)))


def _moved(name: str, part: str, travel: Travel | None = None) -> Sequence[Scene]:
    plan, build = read_plan(_CASES / name)
    told = stretch(plan, part, travel) if travel else positions(plan, [part])
    return [positions_scene(told, build, rail_mm(plan))]


def _roomy(name: str) -> Sequence[Scene]:
    return headroom_scenes(headroom(read_plan(_CASES / name)[0]))


def _explained(name: str, finding: str) -> Sequence[Scene]:
    told = explain(read_build(_CASES / name), finding)
    assert isinstance(told, Explanation)
    return [chain_scene(told)]


_ARCHIVE: Final = "archive-build.yaml"
_NEWSROOM: Final = "newsroom-build.yaml"
DRAWINGS: Final[dict[str, Callable[[], Sequence[Scene]]]] = {
    **{each.stem: partial(_build, each) for each in _CASES.glob("*-build.yaml")},
    "archive-cage": partial(_moved, _ARCHIVE, "cage"),
    "archive-cage-along": partial(_moved, _ARCHIVE, "cage", Travel(0.0, 60.0, 2.0)),
    "newsroom-chain": partial(_explained, _NEWSROOM, "1"),
    "newsroom-headroom": partial(_roomy, _NEWSROOM),
    "render-compared": partial(
        _compared, "render-build.yaml", "render-angled-build.yaml"
    ),
}
"""Every picture in ``out/`` that has a scene, by its name there."""


def drawn(name: str) -> dict[Path, str]:
    """Return the scenes of a drawing as they are today, by where they go."""
    sheets = DRAWINGS[name]()
    return {
        _stored(name, number): as_json(each)
        for number, each in enumerate(sheets, start=1)
    }


def stored(name: str) -> dict[Path, str]:
    """Return the accepted scenes of a drawing, by where they are kept."""
    paths = [_stored(name, 1), *STORED.glob(f"{name}-[0-9].json")]
    return {each: each.read_text(encoding="utf-8") for each in paths if each.exists()}


def _stored(name: str, number: int) -> Path:
    return STORED / f"{name}{'' if number == 1 else f'-{number}'}.json"
