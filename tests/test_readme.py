"""What the README shows is true."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from typer.main import get_group

from layout.cli import app
from layout.files.build_file import read_build
from layout.parts.kinds.kinds import KINDS
from layout.questions.checking.check import check
from layout.questions.findings.finding import Group, Verdict

ROOT = Path(__file__).parent.parent
PAGE = (ROOT / "README.md").read_text(encoding="utf-8")
COMMANDS = get_group(app).commands
BUILDS = re.findall(r"```yaml\n(.*?)```", PAGE, re.DOTALL)
CASES = re.findall(r"```yaml case\n(.*?)```", PAGE, re.DOTALL)


@pytest.mark.parametrize("name", sorted(COMMANDS))
def test_every_command_is_there_and_has_help(name: str) -> None:
    assert f"`case-layout {name}" in PAGE
    assert COMMANDS[name].help


@pytest.mark.parametrize("name", ["check", "draw"])
def test_every_option_is_there(name: str) -> None:
    options = {opt for param in COMMANDS[name].params for opt in param.opts}
    named = {opt for opt in options if opt.startswith("--") and opt != "--help"}
    assert named
    assert [opt for opt in named if opt not in PAGE] == []


def test_every_verdict_group_and_kind_is_there() -> None:
    words = [each.value for each in (*Verdict, *Group)] + list(KINDS)
    assert [word for word in words if word not in PAGE] == []


@pytest.mark.parametrize("text", CASES, ids=["taped", "data sheet"])
def test_the_cases_take_a_machine(text: str, tmp_path: Path) -> None:
    (tmp_path / "studio.yaml").write_text(text)
    build = tmp_path / "build.yaml"
    build.write_text(
        "case: studio.yaml\n"
        "parts:\n"
        "  board: {kind: board, form: ATX, socket: AM5}\n"
        "  front fans: {kind: fan, size: 140, count: 2, mount: front}\n"
        "  cooler: {kind: tower cooler, height: 158, width: 125, depth: 71}\n"
    )
    found = check(read_build(build))
    assert "panel-over-cooler:cooler:case/side panel" in {e.id for e in found.findings}
    assert not found.verdict.fails


@pytest.mark.parametrize("text", BUILDS, ids=["machine", "blocks"])
def test_the_examples_can_be_checked(text: str, tmp_path: Path) -> None:
    build = tmp_path / "shown.yaml"
    build.write_text(
        text.replace("felt-tower.yaml", str(ROOT / "cases/felt-tower.yaml"))
    )
    found = check(read_build(build))
    assert found.build in {"Sound archive machine", "shown"}
    assert {"leads-to-cage:supply:cage"} <= {each.id for each in found.findings} or (
        "block" in text
    )
