from __future__ import annotations

from itertools import pairwise

import pytest

from layout.build.placed import Build, OwnNeed, PlacedBody
from layout.parts.form import Role
from layout.questions.check import check
from layout.questions.explain import UnknownFindingError, explain
from layout.questions.finding import Group, Verdict
from layout.questions.tolerance import Stacking
from tests.build.machines import built, tower, tower_case
from tests.questions.builds import build_of, link, panel_and_cooler, placed

PANEL = (("case", link("inside width", (0.0, 0.0, 0.4))),)
COOLER = (
    ("cooler", link("cooler height", (0.0, 0.0, 0.3))),
    ("cooler", link("fins' depth", (0.5, 0.0, 0.0))),
)
MACHINE = built(tower_case(), tower())


def _build() -> Build:
    return panel_and_cooler(152.5, panel=PANEL, cooler=COOLER)


@pytest.mark.parametrize("name", ["1", "panel-over-cooler:cooler:case/side panel"])
def test_a_finding_is_known_by_its_number_and_its_id(name: str) -> None:
    told = explain(_build(), name)
    assert told.number == 1
    assert told.finding.verdict is Verdict.CLEAR


def test_the_chain_holds_what_acts_along_the_gap_with_its_share_of_variance() -> None:
    told = explain(_build(), "1")
    assert [(each.owner, each.link.label) for each in told.chain] == [
        ("cooler", "cooler height"),
        ("case", "inside width"),
    ]
    assert [each.share for each in told.chain] == pytest.approx([0.36, 0.64])
    assert [each.towards_b for each in told.chain] == [False, True]
    assert (told.rss_mm, told.worst_mm) == pytest.approx((0.5, 0.7))


def test_the_probability_is_that_of_the_margin() -> None:
    # margin 0.5, scatter 0.5 at 3 sigma: three deviations, one side
    assert explain(_build(), "1").chance == pytest.approx(0.00135, abs=1e-5)


def test_the_stack_asked_for_is_the_findings_tolerance() -> None:
    for stacking in (Stacking(worst_case=True), Stacking(sigma=6.0)):
        told = explain(_build(), "1", stacking=stacking)
        assert told.stacked_mm == told.finding.tolerance_mm


FOUND = check(MACHINE).findings
ASKED = [each.id for each in FOUND if each.group is not Group.REACH]


def test_a_leads_way_has_no_chain_to_explain() -> None:
    (led, *_) = (each.id for each in FOUND if each.group is Group.REACH)
    with pytest.raises(UnknownFindingError, match="without a distance"):
        explain(MACHINE, led)


@pytest.mark.parametrize("id_", ASKED, ids=str)
def test_both_ways_close_in_the_gap(id_: str) -> None:
    told = explain(MACHINE, id_)
    finding = told.finding
    assert told.a_steps[0].from_mm == pytest.approx(told.b_steps[0].from_mm)
    room_mm = -finding.overlap.mm if finding.overlap else finding.gap_mm
    gap_mm = told.b_steps[-1].to_mm - told.a_steps[-1].to_mm
    assert gap_mm == pytest.approx(room_mm, abs=1e-6)
    for way in (told.a_steps, told.b_steps):
        ends = [(one.to_mm, two.from_mm) for one, two in pairwise(way)]
        assert all(end == pytest.approx(start) for end, start in ends)


@pytest.mark.parametrize("id_", ASKED)
def test_shares_make_a_whole(id_: str) -> None:
    told = explain(MACHINE, id_)
    if told.chain:
        assert sum(each.share for each in told.chain) == pytest.approx(1.0)


def test_a_pair_that_no_rule_names_is_known_by_its_id() -> None:
    left = placed("left", Role.BLOCK, ((0, 10), (0, 10), (0, 10)))
    right = placed("right", Role.BLOCK, ((12, 20), (0, 10), (0, 10)))
    told = explain(build_of(left, right), "no-interference:left:right")
    assert (told.number, told.chain, told.chance) == (0, (), 0.0)


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
