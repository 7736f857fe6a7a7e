"""Every example's scene is the one that was looked at and accepted."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.golden.__main__ import main
from tests.golden.scenes import DRAWINGS, STORED, drawn, stored

_HOW = "look at the drawing, then python -m tests.golden --accept"


@pytest.mark.parametrize("name", sorted(DRAWINGS))
def test_the_scene_is_as_it_was_accepted(name: str) -> None:
    kept, now = stored(name), drawn(name)
    assert sorted(now) == sorted(kept), f"other sheets are stored: {_HOW}"
    for path, text in now.items():
        assert text.splitlines() == kept[path].splitlines(), _HOW


def test_no_scene_is_stored_of_what_is_gone() -> None:
    known = {path for name in DRAWINGS for path in stored(name)}
    assert set(STORED.glob("*.json")) <= known


@pytest.mark.parametrize("path", sorted(STORED.glob("*.json")), ids=lambda p: p.stem)
def test_a_stored_scene_is_json_to_a_millionth_of_a_millimetre(path: Path) -> None:
    def rounded(text: str) -> float:
        assert len(text.partition(".")[2]) <= 6, text
        return float(text)

    told = json.loads(path.read_text(encoding="utf-8"), parse_float=rounded)
    assert told["is"] == "scene"
    assert list(told["items"][0]) == sorted(told["items"][0])


def test_other_words_are_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--aceept"]) == 2
    assert "--accept or nothing" in capsys.readouterr().out
