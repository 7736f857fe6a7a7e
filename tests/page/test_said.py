from __future__ import annotations

from dataclasses import replace

import pytest

from layout.drawing.paper.words import outcome
from layout.drawing.sheets.title_block import Title
from layout.files.build_file import read_build
from layout.geometry.relations.relation import Overlap
from layout.geometry.space import Axis
from layout.page.said import Page, Quote, page
from layout.page.sentences import sentence
from layout.questions.checking.check import check
from layout.questions.findings.answered import finding_of
from layout.questions.findings.finding import Check, Finding, Group, Verdict
from tests.page.pages import NEWSROOM

FOUND = Finding(
    id="leads-to-cage:supply:cage",
    rule="leads-to-cage",
    group=Group.DISTANCE,
    a="supply/leads",
    b="cage",
    gap_mm=7.0,
    need_mm=15.0,
    tolerance_mm=1.0,
    margin_mm=-8.0,
    verdict=Verdict.SHORT,
    axis=Axis.DEPTH,
    from_mm=(0.0, 0.0, 0.0),
    to_mm=(7.0, 0.0, 0.0),
    overlap=None,
    assumed=(),
    why="the leads must bend away behind their plugs",
    source="",
    advice="7.0 mm lie between them: move the cage",
)


@pytest.mark.parametrize(
    ("finding", "told"),
    [
        (
            FOUND,
            (
                "Too close by 8 mm: 7 mm between the supply's leads and the cage, "
                "15 mm needed."
            ),
        ),
        (
            replace(
                FOUND,
                verdict=Verdict.CLASH,
                gap_mm=0.0,
                overlap=Overlap(axis=Axis.DEPTH, mm=4.25, sign=1),
            ),
            "The supply's leads would stand 4.2 mm inside the cage.",
        ),
        (
            replace(FOUND, verdict=Verdict.TIGHT, gap_mm=15.5, margin_mm=0.5),
            (
                "15.5 mm between the supply's leads and the cage, 15 mm needed; the "
                "sizes may be off by 1 mm."
            ),
        ),
        (
            replace(FOUND, verdict=Verdict.CLEAR, gap_mm=20.0, margin_mm=5.0),
            "20 mm between the supply's leads and the cage, 15 mm needed.",
        ),
        (
            replace(FOUND, verdict=Verdict.CLEAR, gap_mm=20.0, need_mm=0.0),
            "20 mm between the supply's leads and the cage.",
        ),
        (
            replace(
                FOUND,
                a="cooler",
                b=None,
                verdict=Verdict.MISSING,
                gap_mm=None,
                need_mm=None,
                margin_mm=None,
                why="its box holds no kit for this socket",
            ),
            "The cooler lacks what it needs: its box holds no kit for this socket.",
        ),
    ],
)
def test_a_finding_is_a_sentence_and_never_a_code_word(
    finding: Finding, told: str
) -> None:
    assert sentence(finding) == told


def test_two_rows_on_one_gap_say_what_each_needs_it_for() -> None:
    bend = replace(FOUND, rule="supply-lead-bend", need_mm=19.0, margin_mm=-12.0)
    assert sentence(bend) == (
        "Too close by 12 mm: 7 mm between the supply's leads and the cage, "
        "19 mm needed for the cable to bend."
    )


def made(*verdicts: Verdict) -> Page:
    findings = tuple(
        replace(FOUND, id=f"r:{number}", verdict=verdict, margin_mm=float(number))
        for number, verdict in enumerate(verdicts)
    )
    worst = findings[0].verdict if findings else Verdict.CLEAR
    answer = Check(build="b", verdict=worst, findings=findings, notes=())
    return page(read_build(NEWSROOM), answer, Quote())


def test_every_finding_that_is_not_clear_is_on_the_page_and_the_closest_clear() -> None:
    shown = made(Verdict.SHORT, Verdict.TIGHT, *[Verdict.CLEAR] * 8)
    assert [row.number for row in shown.rows] == list(range(1, 7))
    assert shown.rest == "4 more places were looked at: each has 6 mm or more to spare."


def test_the_page_says_how_many_bad_findings_it_has_no_room_for() -> None:
    shown = made(*[Verdict.SHORT] * 20)
    assert len(shown.rows) == 12
    assert shown.rest == ("8 more, none worse than these, are in the drawing's table.")


@pytest.mark.parametrize(
    ("verdicts", "headline"),
    [
        ([Verdict.CLEAR], "Everything goes together."),
        (
            [Verdict.TIGHT],
            "Everything goes together if every size holds: measure before ordering.",
        ),
        ([], "Everything goes together."),
    ],
)
def test_the_verdict_line(verdicts: list[Verdict], headline: str) -> None:
    assert made(*verdicts).headline == headline


def test_the_verdict_line_of_a_bad_build_names_the_worst_place() -> None:
    build = read_build(NEWSROOM)
    shown = page(build, check(build), Quote())
    assert shown.headline == (
        "Does not go together yet: 2 places need a change. "
        "The cooler would stand 1.9 mm inside the side panel."
    )
    assert shown.rows[0].to_do == "Take a lower cooler, or a wider case."


def test_what_must_be_measured_is_told_once_and_in_the_verdict_line() -> None:
    shelf = read_build(NEWSROOM.with_name("playout-build.yaml"))
    shown = page(shelf, check(shelf), Quote())
    assert len(shown.measure) == len(set(shown.measure)) > 1
    assert any("processor lead, from" in each for each in shown.measure)
    calm = read_build(NEWSROOM.with_name("transcript-build.yaml"))
    answer = check(calm)
    clear = tuple(each for each in answer.findings if not each.verdict.fails)
    shown = page(calm, replace(answer, findings=clear, verdict=Verdict.CLEAR), Quote())
    assert shown.measure
    assert shown.headline == (
        "Everything goes together. Measure first what is listed below."
    )


def test_the_remedy_is_said_but_not_the_numbers_again() -> None:
    assert made(Verdict.SHORT).rows[0].to_do == "Move the cage."


def test_what_rests_on_an_assumption_is_marked_and_listed() -> None:
    build = read_build(NEWSROOM)
    shown = page(build, check(build), Quote())
    answer = {each.id: bool(each.assumed) for each in check(build).findings}
    for row in (*shown.rows, *shown.more):  # the stars of the drawing's table
        assert row.assumed is answer[row.ref]
    assert any(row.assumed for row in shown.rows)
    assert shown.measure
    assert shown.assumed.endswith("These could change the answer:")


def test_what_is_assumed_and_decides_nothing_is_marked_too() -> None:
    settled = replace(FOUND, verdict=Verdict.CLEAR, margin_mm=5.0, assumed=("a size",))
    for found, told in ((settled, "None of them could"), (FOUND, "")):
        answer = Check(build="b", verdict=found.verdict, findings=(found,), notes=())
        shown = page(read_build(NEWSROOM), answer, Quote())
        assert shown.measure == ()
        assert told in shown.assumed
        assert bool(shown.assumed) is bool(told)


@pytest.mark.parametrize("word", ["mains", "charged", "wrist strap", "sharp", "two"])
def test_the_usual_cautions_are_on_every_page(word: str) -> None:
    assert any(word in each for each in made().cautions)


def test_a_leak_is_minded_where_there_is_liquid() -> None:
    wet = read_build(NEWSROOM.with_name("survey-build.yaml"))
    dry = read_build(NEWSROOM)
    told = [
        any("leak" in each for each in page(build, check(build), Quote()).cautions)
        for build in (wet, dry)
    ]
    assert told == [True, False]


def test_the_title_block_states_what_fits_it() -> None:
    quote = Quote(number="Q-0117", dated="25 November 2026", workshop="The workshop")
    assert quote.title == Title(number="Q-0117", owner="The workshop")


def test_what_is_to_be_looked_up_is_not_said_to_be_there() -> None:
    load = finding_of(
        "splitter-load",
        Group.HOOKUP,
        ("hub", None),
        verdict=Verdict.CLEAR,
        why="its 3 fans may be too many",
        advice="confirm before ordering",
    )
    assert sentence(load) == "The hub, to be confirmed: its 3 fans may be too many."
    assert outcome(load) == "to be confirmed"
    assert outcome(replace(load, advice="")) == "has what it needs"
