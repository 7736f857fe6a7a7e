"""Posts and brackets under cards."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.build.assemble import Entry
from layout.build.errors import SeatError
from layout.build.placed import Build
from layout.build.plan import Plan
from layout.geometry.relations.query import relation
from layout.parts.board.board import Board
from layout.parts.card.card import Card
from layout.parts.card.card_support import CardSupport, SupportShape
from layout.parts.case.case import Case
from layout.parts.case.case_riser import Riser, RiserLooks
from layout.parts.case.case_stands import Stands
from layout.parts.form.errors import PartError
from layout.parts.form.form import Role
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Supply
from layout.questions.checking.check import check
from layout.questions.findings.finding import Finding, Verdict
from layout.questions.growing.headroom import headroom
from layout.standards import cards
from tests.build.any_machine import meeting
from tests.build.machines import body, built, mm, tower, tower_case

POST = CardSupport()


def machine(support: CardSupport, case: Case | None = None, **more: Spec) -> Build:
    parts = {**tower(), **more, "support": support}
    parts.pop("cage")
    parts.pop("disk")
    return built(case or tower_case(), parts)


def found(build: Build, rule: str) -> Finding | None:
    return next((e for e in check(build).findings if e.rule == rule), None)


@pytest.mark.parametrize("shroud", [True, False])
def test_a_post_stands_on_shroud_or_floor_and_bears_the_card(shroud: bool) -> None:  # noqa: FBT001
    case = tower_case() if shroud else replace(tower_case(), shroud=None)
    build = machine(POST, case)
    post, card = body(build, "support").body, body(build, "card").body
    on = body(build, "case/shroud" if shroud else "case/floor").body
    assert relation(post, card).gap_mm == pytest.approx(0.0, abs=1e-6)
    assert relation(post, on).gap_mm == pytest.approx(0.0, abs=1e-6)
    assert meeting(build) == set()
    low, high = post.bounds.low, post.bounds.high
    assert (low[0] + high[0]) / 2 == pytest.approx(card.bounds.high[0] - 25.0)


def test_a_post_that_cannot_be_set_so_high_says_what_lacks() -> None:
    room_mm = _high_mm(machine(POST))
    short = machine(CardSupport(longest=mm(room_mm - 7)))
    told = found(short, "support-reaches")
    assert told is not None
    assert (told.verdict, told.b) == (Verdict.SHORT, "card")
    assert told.margin_mm == pytest.approx(-7.0)
    assert "7.0 mm longer" in told.advice
    assert found(machine(CardSupport(longest=mm(room_mm))), "support-reaches") is None


def test_a_post_that_is_too_long_goes_into_what_it_stands_on() -> None:
    room_mm = _high_mm(machine(POST))
    for post in (
        CardSupport(height=mm(room_mm + 5)),
        CardSupport(shortest=mm(room_mm + 5)),
    ):
        build = machine(post)
        assert ("case/shroud", "support") in meeting(build)
        (told,) = [e for e in check(build).findings if e.a == "case/shroud"]
        assert f"take a post that sets to {int(room_mm)} mm or shorter" in told.advice


def test_a_bracket_takes_the_opening_under_the_card_and_room_below_it() -> None:
    build = machine(CardSupport(shape=SupportShape.BRACKET))
    assert meeting(build) == set()
    arm, card = body(build, "support").body.bounds, body(build, "card").body.bounds
    assert arm.high[1] == pytest.approx(card.low[1])
    assert arm.high[0] == pytest.approx(card.high[0] - 30.0)
    cover, own = (body(build, name).body.bounds for name in _BRACKETS)
    assert own.low[1] - cover.high[1] == pytest.approx(20.32 - 18.42, abs=0.05)
    assert (cover.low[2], cover.high[2]) == pytest.approx((own.low[2], own.high[2]))


_BRACKETS = ("support/cover", "card/bracket")


def test_a_support_keeps_off_what_is_under_the_card() -> None:
    bare = replace(tower_case(), shroud=None)
    supply = Supply(length=mm(280))
    build = machine(CardSupport(from_end=mm(40)), bare, supply=supply)
    told = found(build, "support-to-others")
    assert told is not None
    assert told.verdict is Verdict.CLASH
    assert body(build, "support").role is Role.CARD_SUPPORT


@pytest.mark.parametrize("stands", Stands)
def test_a_support_above_the_card_is_said_to_bear_nothing(stands: Stands) -> None:
    build = machine(POST, replace(tower_case(), stands=stands))
    idle = any("it bears nothing" in each for each in check(build).notes)
    assert idle is (stands is not Stands.UPRIGHT)


def test_without_a_card_there_is_nothing_to_bear() -> None:
    with pytest.raises(SeatError, match="a part of kind card"):
        built(tower_case(), {"support": POST})


def _on_riser(support: CardSupport, looks: RiserLooks) -> Build:
    """Return a card of 285 in a case whose shroud, or floor, lies under it."""
    behind = looks is RiserLooks.BACK_PANEL
    bracket = Riser(
        looks=looks, from_panel=mm(72), from_floor=mm(300 if behind else 200)
    )
    case = replace(
        tower_case(),
        risers=(("upright", bracket),),
        behind_tray=mm(120 if behind else 22),
    )
    card = Card(length=mm(285), height=mm(112), slots=2, riser="upright")
    return built(case, {"board": Board(socket="AM5"), "card": card, "support": support})


def test_a_post_stands_under_the_edge_of_a_card_on_a_riser() -> None:
    build = _on_riser(POST, RiserLooks.PANEL)
    post, card = body(build, "support").body.bounds, body(build, "card").body.bounds
    shroud = body(build, "case/shroud").body.bounds
    # its lower edge are the shoulders beside the fingers, as far over the riser's 200
    assert post.high[1] == pytest.approx(200 + cards.SHOULDER.mm)
    assert post.low[1] == pytest.approx(shroud.high[1])
    assert (post.low[0] + post.high[0]) / 2 == pytest.approx(card.high[0] - 25.0)
    assert (post.low[2] + post.high[2]) / 2 == pytest.approx(
        (card.low[2] + card.high[2]) / 2
    )
    assert not [pair for pair in meeting(build) if "support" in pair[1]]


def test_behind_the_tray_a_post_stands_under_the_top_edge() -> None:
    build = _on_riser(POST, RiserLooks.BACK_PANEL)
    post = body(build, "support").body.bounds
    assert post.high[1] == pytest.approx(300 - 112)
    assert post.low[1] == pytest.approx(0.0)


def test_a_bracket_bears_no_card_on_a_riser() -> None:
    arm = CardSupport(shape=SupportShape.BRACKET)
    with pytest.raises(
        SeatError, match="shape: found a bracket under a card on a riser"
    ):
        _on_riser(arm, RiserLooks.PANEL)


def test_supports_that_are_none() -> None:
    with pytest.raises(PartError, match="shortest: found 90 mm"):
        CardSupport(shortest=mm(90), longest=mm(80))
    with pytest.raises(SeatError, match="from end: found 195 mm"):
        machine(CardSupport(from_end=mm(195)), card=Card(length=mm(200), slots=2))


def _high_mm(build: Build) -> float:
    bounds = body(build, "support").body.bounds
    return bounds.high[1] - bounds.low[1]


def test_a_post_gives_way_to_a_thicker_card() -> None:
    parts = {**tower(), "support": CardSupport(shortest=mm(70))}
    parts.pop("cage")
    parts.pop("disk")
    entries = tuple(Entry(key=key, spec=spec) for key, spec in parts.items())
    plan = Plan(name="propped", entries=entries, case=tower_case())
    rows = {e.dimension: e for e in headroom(plan, part="card").rows}
    room_mm = _high_mm(plan.build())
    largest = rows["thickness"].largest_mm
    assert largest is not None
    # down to the post at its shortest
    assert largest == pytest.approx(rows["thickness"].now_mm + room_mm - 70, abs=0.02)


def test_a_post_under_a_riser_card_is_told_no_bracket_instead() -> None:
    build = _on_riser(CardSupport(longest=mm(60)), RiserLooks.PANEL)
    told = found(build, "support-reaches")
    assert told is not None
    assert told.verdict is Verdict.SHORT
    assert told.advice.endswith("mm longer")
