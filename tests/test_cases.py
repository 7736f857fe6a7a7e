"""The examples say what their first lines promise."""

from __future__ import annotations

from functools import reduce
from operator import getitem
from pathlib import Path
from typing import Any

import pytest
import yaml

from layout.build.placed import Build
from layout.drawing.paper.scene import Text
from layout.drawing.paper.style import STYLE
from layout.drawing.sheets.frame import heading
from layout.drawing.sheets.sheet import Share
from layout.files.build_file import read_build
from layout.questions.checking.check import check
from layout.questions.findings.finding import Finding, Verdict
from layout.questions.findings.measure import shortest

CASES = Path(__file__).parent.parent / "cases"
BUILDS = sorted(CASES.glob("*-build.yaml"))


def _build(name: str) -> Build:
    return read_build(CASES / f"{name}-build.yaml")


def _failing(name: str) -> list[Finding]:
    return [each for each in check(_build(name)).findings if each.verdict.fails]


def test_there_are_two_cases_and_four_builds_at_least() -> None:
    assert len(BUILDS) >= 4
    assert len({read_build(path).case_name for path in BUILDS}) >= 2


@pytest.mark.parametrize("path", BUILDS, ids=lambda path: str(path.stem))
def test_every_example_says_that_it_is_invented(path: Path) -> None:
    assert "nvented" in path.read_text(encoding="utf-8").splitlines()[0]


LAYOUTS = ["broadcast", "dubbing", "mapping", "orchestra", "playout", "reporter"]


@pytest.mark.parametrize("name", LAYOUTS)
def test_machines_of_other_layouts_go_together(name: str) -> None:
    assert _failing(name) == []
    assert len(check(_build(name)).findings) > 8


STANDS = {
    "dubbing": "turned 180° about depth",
    "playout": "flat",
    "broadcast": "the board turned a quarter, its connectors at the top",
}


def test_a_drawing_says_how_a_case_stands() -> None:
    for name, words in STANDS.items():
        build = _build(name)
        column = (0.0, 0.0, 600.0, 400.0)
        head, _ = heading(build, check(build), column, style=STYLE, share=Share())
        assert any(isinstance(e, Text) and words in e.text for e in head)


def test_one_goes_together_comfortably() -> None:
    found = check(_build("audiobook"))
    assert found.verdict is Verdict.CLEAR
    assert len(found.findings) > 15


def test_one_cooler_keeps_the_panel_from_closing_by_a_few_millimetres() -> None:
    finding, stated = _failing("newsroom")
    assert finding.rule == "panel-over-cooler"
    assert stated.rule == "stated-limit"
    assert stated.margin_mm == pytest.approx(-4.0)
    assert finding.overlap is not None
    assert 0.5 < finding.overlap.mm < 5.0


def test_one_supply_clears_the_cage_only_in_another_position() -> None:
    assert {each.rule for each in _failing("archive")} == {"leads-to-cage"}
    assert _failing("archive-moved") == []


def test_one_front_radiator_takes_the_cards_room() -> None:
    finding, stated = _failing("survey")
    assert finding.rule == "card-to-front"
    assert stated.rule == "stated-limit"
    assert stated.margin_mm == pytest.approx(-2.0)
    assert finding.b == "cooler/fan 2"


def test_one_coolers_box_lacks_the_sockets_kit() -> None:
    (finding,) = _failing("dictation")
    assert finding.rule == "cooler-kit"
    assert finding.why.endswith("none for AM5")


def test_one_build_has_room_but_lacks_a_header_and_a_lead() -> None:
    assert {each.id for each in _failing("mixing")} == {
        "card-power-8:card",
        "fan-3-pin:rear fan",
        "lead-of-another-supply:supply",
    }
    found = check(_build("mixing"))
    assert [each.owner for each in found.to_order] == ["card", "rear fan"]
    (kit,) = (each for each in found.findings if each.rule == "cooler-kit")
    assert kit.advice.startswith("confirm the box's revision")


def test_one_card_plug_meets_the_panel_until_it_is_angled() -> None:
    (finding,) = _failing("render")
    assert finding.rule == "card-plug-bend"
    assert finding.b == "case/side panel"
    assert "plug shape: angled" in finding.advice
    assert _failing("render-angled") == []


def test_one_processor_lead_is_too_short() -> None:
    (finding,) = _failing("transcript")
    assert finding.rule == "processor-lead-reach"
    assert "through cut-out top edge" in finding.why
    assert "57 mm too short" in finding.advice


def test_the_gap_over_the_cooler_is_the_sum_a_builder_does_by_hand() -> None:
    # Standoff and board: boards.STANDOFF, boards.THICKNESS; stack of LGA1700: from
    # memory, unverified; cooler and width: the example's own invented figures.
    width_mm, standoff_mm, board_mm, stack_mm, cooler_mm = 181, 6.35, 1.57, 7.0, 148
    by_hand_mm = width_mm - standoff_mm - board_mm - stack_mm - cooler_mm
    found = {each.id: each for each in check(_build("audiobook")).findings}
    finding = found["panel-over-cooler:cooler:case/side panel"]
    assert finding.gap_mm == pytest.approx(by_hand_mm, abs=0.01)


def test_what_is_taped_as_it_is_listed_asks_for_nothing_more(tmp_path: Path) -> None:
    asked = shortest(check(_build("mapping")).findings)
    assert len(asked) > 2
    file = _loaded("mapping-build.yaml")
    case = _loaded(file["case"])
    for each in asked:
        *nested, last = each.entry.split(".")
        whole = case if each.part == "case" else file["parts"][each.part]
        reduce(getitem, nested, whole)[last] = f"{each.assumed_mm:g} taped"
    file["case"] = "case.yaml"
    for name, text in (("case.yaml", case), ("build.yaml", file)):
        (tmp_path / name).write_text(yaml.safe_dump(text), encoding="utf-8")
    assert shortest(check(read_build(tmp_path / "build.yaml")).findings) == ()


def _loaded(name: str) -> Any:  # noqa: ANN401  (what a file holds)
    return yaml.safe_load((CASES / name).read_text(encoding="utf-8"))
