from __future__ import annotations

from dataclasses import replace

import pytest

from layout.geometry.relations.relation import Overlap
from layout.geometry.space import Axis
from layout.questions.findings.advice import advice, remedy_of, spoken, whose
from layout.questions.findings.finding import Verdict
from tests.drawing.samples import tower


@pytest.mark.parametrize(
    ("name", "sentence_name"),
    [
        ("card", "the card"),
        ("disk 1", "disk 1"),
        ("case/side panel", "the side panel"),
        ("cooler/fan 1", "the cooler's fan 1"),
        ("front fans/fan 2", "the front fans' fan 2"),
    ],
)
def test_a_body_is_named_as_people_name_it(name: str, sentence_name: str) -> None:
    assert spoken(name) == sentence_name


def _advice(verdict: Verdict, numbers: tuple[float, float, float]) -> str:
    return advice(
        ("card", "front fans/fan 1"),
        verdict,
        numbers=numbers,
        axis=Axis.DEPTH,
        overlap=None,
        remedy="take a shorter card",
        measure=(),
    )


def test_short_says_how_much_must_give() -> None:
    assert _advice(Verdict.SHORT, (1.5, 5.0, 0.0)) == (
        "1.5 mm lie between the card and the front fans' fan 1 where 5.0 are needed; "
        "3.5 mm must give along depth: take a shorter card"
    )


def test_tight_says_by_how_much_the_figures_may_be_off() -> None:
    assert "may be off by 1.2" in _advice(Verdict.TIGHT, (6.0, 5.0, 1.2))


def test_clear_says_nothing() -> None:
    assert _advice(Verdict.CLEAR, (60.0, 5.0, 1.2)) == ""


@pytest.mark.parametrize(
    ("name", "verb"), [("card", "reaches"), ("supply/leads", "reach")]
)
def test_a_clash_agrees_in_number(name: str, verb: str) -> None:
    told = advice(
        (name, "cage"),
        Verdict.CLASH,
        numbers=(0.0, 0.0, 0.0),
        axis=Axis.DEPTH,
        overlap=Overlap(axis=Axis.DEPTH, mm=7.25, sign=1),
        remedy="",
        measure=(),
    )
    assert f" {verb} 7.2 mm into the cage; 7.2 mm must give along depth" in told


def test_a_need_missed_by_less_than_a_tenth_is_told_in_hundredths() -> None:
    assert _advice(Verdict.SHORT, (4.98, 5.0, 0.0)).startswith("4.98 mm lie between")
    assert "; 0.02 mm must give" in _advice(Verdict.SHORT, (4.98, 5.0, 0.0))


def test_what_is_wanting_far_under_its_tolerance_is_measured_before_it_is_ordered() -> (
    None
):
    told = _advice(Verdict.SHORT, (32.97, 33.0, 5.6))
    assert told.startswith("32.97 mm lie between")
    assert "33.00 are needed; 0.03 mm must give along depth" in told
    assert "far less than the figures may be off (5.6)" in told
    assert told.endswith("; measure first: the gap itself")
    assert "shorter card" not in told
    assert "take a shorter card" in _advice(Verdict.SHORT, (30.0, 33.0, 5.6))


@pytest.mark.parametrize(
    ("told", "verdict", "remedy"),
    [
        (
            "8.0 mm must give: move the fan to the mount: top; measure first: cage",
            Verdict.SHORT,
            "move the fan to the mount: top",
        ),
        (
            "3.0 mm must give: take angled plugs ('plug: angled') or another place",
            Verdict.SHORT,
            "take angled plugs ('plug: angled') or another place",
        ),
        (
            "the card: card length 322 is 2 mm over (stated: 320): take a shorter one",
            Verdict.SHORT,
            "take a shorter one",
        ),
        (
            "11.0 mm must give: turn the radiator end for end (ports: first)",
            Verdict.SHORT,
            "turn the radiator end for end (ports: first)",
        ),
        (
            "the card and the tuner take the same opening of the case: put it lower",
            Verdict.CLASH,
            "put it lower",
        ),
        ("4.9 mm must give along height; measure first: case", Verdict.CLASH, ""),
        ("measure first: case: top edge (25 assumed)", Verdict.TIGHT, ""),
        ("its plug finds no socket: order 1 x hub", Verdict.MISSING, "order 1 x hub"),
        ("order 1 x hub", Verdict.MISSING, "order 1 x hub"),
    ],
)
def test_the_remedy_is_told_without_what_is_wrong(
    told: str, verdict: Verdict, remedy: str
) -> None:
    _, found = tower()
    finding = replace(found.findings[0], a="card", verdict=verdict, advice=told)
    assert remedy_of(finding) == remedy


def test_two_brackets_that_meet_take_one_opening() -> None:
    told = advice(
        ("card/bracket", "sound card/bracket"),
        Verdict.CLASH,
        numbers=(0.0, 0.0, 0.0),
        axis=Axis.DEPTH,
        overlap=Overlap(axis=Axis.DEPTH, mm=0.86, sign=1),
        remedy="put the sound card into slot 4",
        measure=(),
    )
    assert told == (
        "the card and the sound card take the same opening of the case: "
        "put the sound card into slot 4"
    )


def test_the_owner_of_several_things_takes_no_second_s() -> None:
    assert whose("supply") == "the supply's"
    assert whose("front fans") == "the front fans'"
    assert whose("disk 1") == "disk 1's"
