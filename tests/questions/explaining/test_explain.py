from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from layout.answers.explained import as_json, as_table
from layout.build.placed import Build, OwnNeed, PlacedBody
from layout.files.build_file import read_plan
from layout.parts.card.card import Card
from layout.parts.form.form import Role
from layout.questions.checking.check import check
from layout.questions.explaining.explain import UnknownFindingError, explain, explained
from layout.questions.explaining.rests import REST
from layout.questions.findings.explanation import Account, Explanation
from layout.questions.findings.finding import Group, Verdict
from layout.questions.findings.tolerance import RSS, Stacking
from tests.build.machines import built, mm, tower, tower_case
from tests.questions.builds import build_of, link, panel_and_cooler, placed

PANEL = (("case", link("inside width", (0.0, 0.0, 0.4))),)
COOLER = (
    ("cooler", link("cooler height", (0.0, 0.0, 0.3))),
    ("cooler", link("fins' depth", (0.5, 0.0, 0.0))),
)
CASES = Path(__file__).parents[3] / "cases"
MACHINE = built(tower_case(), tower())


def _build() -> Build:
    return panel_and_cooler(152.5, panel=PANEL, cooler=COOLER)


def test_no_figure_is_told_only_to_be_taken_off_again() -> None:
    # the near side of a heatsink keeps off the socket, whatever its other sides do
    plan, _ = read_plan(CASES / "orchestra-build.yaml")
    told = chained(plan.build(), "block-over-board-parts:cooler:board")
    assert [each.link.label for each in told.chain] == [
        "pump block's width",
        "regulator heatsinks from the socket's centre",
    ]


@pytest.mark.parametrize("name", ["1", "panel-over-cooler:cooler:case/side panel"])
def test_a_finding_is_known_by_its_number_and_its_id(name: str) -> None:
    told = chained(_build(), name)
    assert told.number == 1
    assert told.finding.verdict is Verdict.CLEAR


def test_the_chain_holds_what_acts_along_the_gap_with_its_share_of_variance() -> None:
    told = chained(_build(), "1")
    chain = [each for each in told.chain if each.link.label != REST]
    assert [(each.owner, each.link.label) for each in chain] == [
        ("cooler", "cooler height"),
        ("case", "inside width"),
    ]
    assert [each.share for each in chain] == pytest.approx([0.36, 0.64])
    assert [each.towards_b for each in chain] == [False, True]
    assert (told.rss_mm, told.worst_mm) == pytest.approx((0.5, 0.7))


def test_the_probability_is_that_of_the_margin() -> None:
    # margin 0.5, scatter 0.5 at 3 sigma: three deviations, one side
    assert chained(_build(), "1").chance == pytest.approx(0.00135, abs=1e-5)


def test_the_stack_asked_for_is_the_findings_tolerance() -> None:
    for stacking in (Stacking(worst_case=True), Stacking(sigma=6.0)):
        told = chained(_build(), "1", stacking=stacking)
        assert told.stacked_mm == told.finding.tolerance_mm
        assert ("Judged by the latter." in as_table(told)) is stacking.worst_case


def test_a_number_of_another_stacking_is_told_with_that_on_drawings() -> None:
    drawn = [each.id for each in check(MACHINE).findings]
    at_worst = Stacking(worst_case=True)
    others = 0
    for number, each in enumerate(check(MACHINE, stacking=at_worst).findings, start=1):
        told = explain(MACHINE, str(number), stacking=at_worst)
        on_drawings = as_json(told)["number_on_drawings"]
        assert drawn[on_drawings - 1] == each.id
        other = on_drawings != number
        others += other
        assert (f"{number} (on drawings {on_drawings}). " in as_table(told)) is other
    assert others


def chained(build: Build, name: str, stacking: Stacking = RSS) -> Explanation:
    told = explain(build, name, stacking=stacking)
    assert isinstance(told, Explanation)
    return told


ASKED = [each.id for each in check(MACHINE).findings if each.gap_mm is not None]


def test_a_lead_is_explained_by_its_way_and_its_length() -> None:
    ids = [id_ for id_ in ASKED if "-lead-reach" in id_]
    assert ids
    for id_ in ids:
        told = chained(MACHINE, id_)
        *pieces, length = (*told.a_steps, *told.b_steps)
        assert length.to_mm - pieces[-1].to_mm == pytest.approx(told.finding.gap_mm)
        assert told.closing == "left of the lead"
        assert told.rss_mm == told.finding.tolerance_mm


def test_a_stated_limit_is_explained_by_both_figures() -> None:
    parts = {**tower(), "card": Card(length=mm(420), height=mm(130))}
    told = chained(built(tower_case(), parts), "stated-limit:card:card length")
    assert [each.to_mm for each in (*told.a_steps, *told.b_steps)] == pytest.approx(
        [420.0, 420.0 + (told.finding.margin_mm or 0.0)]
    )
    assert "card length, slot plane" in as_table(told)


def test_a_lacking_plug_is_explained_by_what_is_needed_and_what_is_there() -> None:
    _, build = read_plan(CASES / "mixing-build.yaml")
    told = explain(build, "card-power-8:card")
    assert isinstance(told, Account)
    said = [(each.owner, each.what, each.source) for each in told.facts]
    assert said[:2] == [
        ("card", "needs 2 x 8-pin card power", "given in the file"),
        ("supply", "has 1 x 8-pin card power", "given in the file"),
    ]
    assert "made for the supply of studio 1: refused" in said[2][1]
    table = as_table(told)
    assert "This finding has no length" in table
    assert "What to do: 1 of the card's 2 sockets" in table
    assert as_json(told)["facts"][0]["part"] == "card"


def test_a_kit_is_explained_by_the_socket_and_by_what_the_box_holds() -> None:
    _, build = read_plan(CASES / "dictation-build.yaml")
    told = explain(build, "1")
    assert isinstance(told, Account)
    assert [each.what for each in told.facts] == [
        "holes of AM5, 4 holes",
        "a kit for LGA115x/1200",
        "a kit for AM4",
    ]


EXAMPLES = sorted(CASES.glob("*-build.yaml"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: str(path.stem))
def test_every_finding_of_an_example_explains_itself(path: Path) -> None:
    _, build = read_plan(path)
    for number, finding in enumerate(check(build).findings, start=1):
        if finding.group is Group.DISTANCE and finding.b is not None:
            continue  # asked of every finding of a machine below
        told = explained(build, number, finding)
        assert as_table(told)
        assert isinstance(told, Account) == (finding.gap_mm is None)
        if isinstance(told, Account):
            assert told.facts, finding.id


@pytest.mark.parametrize("id_", ASKED, ids=str)
def test_both_ways_close_in_the_gap(id_: str) -> None:
    told = chained(MACHINE, id_)
    finding = told.finding
    assert told.a_steps[0].from_mm == pytest.approx(told.b_steps[0].from_mm)
    room_mm = -finding.overlap.mm if finding.overlap else told.room_mm
    gap_mm = told.b_steps[-1].to_mm - told.a_steps[-1].to_mm
    assert gap_mm == pytest.approx(room_mm, abs=1e-6)
    for way in (told.a_steps, told.b_steps):
        ends = [(one.to_mm, two.from_mm) for one, two in pairwise(way)]
        assert all(end == pytest.approx(start) for end, start in ends)


@pytest.mark.parametrize("id_", ASKED)
def test_shares_make_a_whole(id_: str) -> None:
    told = chained(MACHINE, id_)
    if told.rss_mm:
        assert sum(each.share for each in told.chain) == pytest.approx(1.0)


def test_a_pair_that_no_rule_names_is_known_by_its_id() -> None:
    left = placed("left", Role.BLOCK, ((0, 10), (0, 10), (0, 10)))
    right = placed("right", Role.BLOCK, ((12, 20), (0, 10), (0, 10)))
    told = chained(build_of(left, right), "no-interference:left:right")
    assert (told.number, told.chance) == (0, 0.0)
    assert [each.link.label for each in told.chain] == [REST]


def _blocks() -> tuple[PlacedBody, PlacedBody]:
    return (
        placed("left", Role.BLOCK, ((0, 10), (0, 10), (0, 10))),
        placed("right", Role.BLOCK, ((14, 20), (0, 10), (0, 10))),
    )


def test_an_unknown_one_is_answered_with_the_right_ones() -> None:
    need = OwnNeed(a="left", b="right", need_mm=5.0, why="a hand", source="invented")
    build = build_of(*_blocks(), own_needs=(need,))
    with pytest.raises(UnknownFindingError, match="own-need:left:right would be right"):
        explain(build, "own-need:left:rigth")
    with pytest.raises(UnknownFindingError, match="a number from 1 to 1"):
        explain(build, "2")
    with pytest.raises(UnknownFindingError, match="it has none"):
        explain(build_of(*_blocks()), "1")
