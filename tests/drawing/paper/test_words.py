from __future__ import annotations

import re
from dataclasses import replace

import pytest

from layout.drawing.composed.compose import scene
from layout.drawing.paper.boxes import texts_of
from layout.drawing.paper.words import length, named, outcome, shown_gap, summary
from layout.page.sentences import sentence
from layout.questions.findings.finding import Check, Finding, Group, Verdict
from tests.drawing.samples import clear_tower, tower

_CODE_WORDS = {"clear", "tight", "short", "clash", "missing"}


@pytest.mark.parametrize(
    ("mm", "text"),
    [
        (12.0, "12"),
        (8.46, "8.5"),
        (0.96, "1"),
        (0.04, "0.04"),
        (0.0012, "0.001"),
        (0.0, "0"),
        (-1e-7, "0"),
        (-0.04999, "\N{MINUS SIGN}0.05"),
        (243.84, "243.8"),
        (100.0, "100"),
    ],
)
def test_lengths(mm: float, text: str) -> None:
    assert length(mm) == text


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("case/side panel", "side panel"),
        ("cooler/fan 1", "cooler, fan 1"),
        ("radiator/radiator", "radiator"),
        ("odd\nbracket", "odd bracket"),
    ],
)
def test_names(name: str, text: str) -> None:
    assert named(name) == text


def test_no_verdict_is_told_by_its_code_word() -> None:
    _, check = tower()
    assert {each.verdict for each in check.findings} == set(Verdict)
    for each in check.findings:
        assert not _CODE_WORDS & set(outcome(each).split())
    assert not _CODE_WORDS & set(summary(check).split())


def test_outcomes_say_by_how_much() -> None:
    _, check = tower()
    told = {each.verdict: outcome(each) for each in check.findings}
    assert told[Verdict.SHORT] == "too close by 10 mm"
    assert told[Verdict.CLASH] == "7 mm into one another along depth"
    assert told[Verdict.TIGHT] == "1 mm to spare, sizes may be off by 1.5 mm"
    assert told[Verdict.CLEAR].endswith(" mm to spare")


def test_a_lead_too_long_a_way_from_its_plug_is_wanting_not_too_close() -> None:
    _, check = tower()
    close = next(each for each in check.findings if each.margin_mm == -10.0)
    led = replace(
        close,
        group=Group.REACH,
        a="supply/leads",
        b="board/main power",
        lead="main lead",
    )
    assert outcome(led) == "10 mm of main lead are wanting"
    spare = replace(led, verdict=Verdict.CLEAR, margin_mm=30.0)
    assert outcome(spare) == "30 mm of main lead to spare"
    assert sentence(led) == (
        "The main lead from the supply to the board's main power socket lacks 10 mm "
        "with its slack."
    )
    enough = replace(led, verdict=Verdict.CLEAR, gap_mm=90.0, need_mm=20.0)
    assert sentence(enough).endswith("has 90 mm left, 20 mm needed.")


def _led(
    gap_mm: float,
    *,
    rule: str = "supply-reach",
    a: str = "supply",
    tolerance_mm: float = 0.0,
) -> Finding:
    _, check = tower()
    close = next(each for each in check.findings if each.margin_mm == -10.0)
    margin_mm = gap_mm - 20.0
    return replace(
        close,
        group=Group.REACH,
        lead="hose" if rule == "hoses-reach" else "main lead",
        b="board",
        gap_mm=gap_mm,
        need_mm=20.0,
        margin_mm=margin_mm,
        rule=rule,
        a=a,
        tolerance_mm=tolerance_mm,
    )


def test_a_customer_sees_no_negative_gap() -> None:
    build, check = tower()
    led = _led(-72.4, tolerance_mm=101.1)
    assert shown_gap(led) is None
    assert shown_gap(_led(7.6)) == 7.6
    drawn = scene(build, replace(check, verdict=Verdict.SHORT, findings=(led,)))
    said = [each.text for each in texts_of(drawn.items)]
    said += [each.told for each in drawn.subjects]
    assert any("92.4 mm of main lead are wanting" in each for each in said)
    assert not [each for each in said if re.search(r"(?<![\w.])-\d", each)]


def test_a_hose_is_not_called_a_lead() -> None:
    hose = _led(10.0, rule="hoses-reach", a="cooler/block", tolerance_mm=1.2)
    hose = replace(hose, b="cooler/radiator")
    assert outcome(hose) == "10 mm of hose are wanting"
    assert sentence(hose) == (
        "The hose from the cooler's block to the cooler's radiator lacks 10 mm "
        "with its slack."
    )
    spare = replace(hose, verdict=Verdict.CLEAR, margin_mm=6.0)
    assert outcome(spare) == "6 mm of hose to spare"


@pytest.mark.parametrize(
    ("tolerance_mm", "told"),
    [
        (5.1, "measure first: 0.03 mm too little, sizes may be off by 5.1 mm"),
        (0.3, "measure first: 0.03 mm too little, sizes may be off by 0.3 mm"),
        (0.2, "too close by 0.03 mm"),
        (0.0, "too close by 0.03 mm"),
    ],
)
def test_a_want_far_under_its_tolerance_is_to_be_measured(
    tolerance_mm: float, told: str
) -> None:
    _, check = tower()
    close = next(each for each in check.findings if each.margin_mm == -10.0)
    want = replace(
        close, gap_mm=32.97, need_mm=33.0, margin_mm=-0.03, tolerance_mm=tolerance_mm
    )
    assert outcome(want) == told
    alone = replace(check, verdict=Verdict.SHORT, findings=(want,))
    asked = told.startswith("measure first")
    assert sentence(want).startswith("Measure first: ") is asked
    assert ("measure 1 place first" in summary(alone)) is asked
    with_more = replace(alone, findings=(close, want))
    assert "2 places need a change" in summary(with_more)


def test_summary_of_a_build_that_fits_names_the_least_room() -> None:
    _, check = clear_tower()
    said = summary(check)
    assert said.startswith("Everything goes together.")
    assert "the supply and the shroud, 7 mm to spare" in said


def test_summary_counts_the_places_that_need_a_change() -> None:
    _, check = tower()
    assert "4 places need a change" in summary(check)


def test_summary_of_a_tight_build_asks_to_measure() -> None:
    _, check = tower()
    only = tuple(each for each in check.findings if each.verdict is Verdict.TIGHT)
    tight = Check(build="b", verdict=Verdict.TIGHT, findings=only, notes=())
    assert "measure before ordering" in summary(tight)


def test_summary_without_findings() -> None:
    empty = Check(build="b", verdict=Verdict.CLEAR, findings=(), notes=())
    assert "nothing was asked" in summary(empty)


def test_a_hole_is_covered_not_reached_into() -> None:
    _, check = tower()
    (clash,) = (each for each in check.findings if each.verdict is Verdict.CLASH)
    over = replace(clash, a="board", b="case/cut-out edge")
    assert outcome(over) == "7 mm covered along depth"
    assert sentence(over) == "The board would cover 7 mm of the cut-out “edge”."
