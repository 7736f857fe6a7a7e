"""What a finding is about where several bodies of two parts meet at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from layout.files.build_file import read_build
from layout.questions.checking.check import check

_CASE = """\
name: Corner
depth: 470
height: 520
width: 205
room over board: 70
mounts:
  front: {takes: [{size: 120, count: 3, start: 120}], radiators: [360]}
  top: {takes: [{size: 120, count: 3, start: 60}], radiators: [360], from tray: 110}
supply bay: {place: floor rear}
"""
_BUILD = """\
name: Two radiators
case: case.yaml
parts:
  board: {kind: board, form: ATX, socket: AM5}
  cooler:
    kind: liquid cooler
    radiator: {size: 360, thickness: 27, mount: front, fans: inner}
  top radiator: {kind: radiator, size: 360, thickness: 30, mount: top, fans: inner}
"""


def test_fans_that_meet_are_told_beside_hoses_that_do(tmp_path: Path) -> None:
    (tmp_path / "case.yaml").write_text(_CASE, encoding="utf-8")
    path = tmp_path / "build.yaml"
    path.write_text(_BUILD, encoding="utf-8")
    found = check(read_build(path)).findings
    meeting = {frozenset((e.a, e.b)): e.overlap for e in found if e.verdict.fails}
    corner = meeting.get(frozenset(("cooler/fan 3", "top radiator/fan 3")))
    assert corner is not None
    # front fans reach back 27 + 25 from 470, the top ones to 60 + 360: 2 in one place
    assert corner.mm == pytest.approx(2.0)
