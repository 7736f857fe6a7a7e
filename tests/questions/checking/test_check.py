from __future__ import annotations

from dataclasses import replace

import pytest

from layout.build.placed import Mate, OwnNeed
from layout.geometry.relations.relation import State
from layout.geometry.space import Axis, Box
from layout.parts.form.form import Role
from layout.questions.checking.check import check, surely_failed
from layout.questions.clearances.asked import making, unnamed
from layout.questions.clearances.rules import NO_INTERFERENCE, RULES
from layout.questions.findings.finding import Group, Verdict
from tests.questions.builds import build_of, link, panel_and_cooler, placed

NEED_MM = next(rule.need_mm for rule in RULES if rule.name == "panel-over-cooler")


@pytest.mark.parametrize(
    ("height_mm", "verdict", "margin_mm"),
    [
        (150.0, Verdict.CLEAR, 5.0 - NEED_MM),
        (153.0, Verdict.CLEAR, 2.0 - NEED_MM),
        (153.0 + 2e-6, Verdict.SHORT, 2.0 - 2e-6 - NEED_MM),
        (155.0, Verdict.SHORT, -NEED_MM),
        (158.5, Verdict.CLASH, -3.5 - NEED_MM),
    ],
)
def test_the_verdict_follows_the_gap_and_the_need(
    height_mm: float, verdict: Verdict, margin_mm: float
) -> None:
    build = panel_and_cooler(height_mm)
    (finding,) = check(build).findings
    assert finding.verdict is verdict
    assert surely_failed(build, making(build, {finding.id})) is verdict.fails
    assert finding.margin_mm == pytest.approx(margin_mm, abs=2e-6)
    assert (finding.a, finding.b) == ("cooler", "case/side panel")
    assert finding.id == "panel-over-cooler:cooler:case/side panel"


def test_a_clash_says_what_must_give_and_along_what() -> None:
    (finding,) = check(panel_and_cooler(158.5)).findings
    assert finding.axis is Axis.WIDTH
    assert finding.gap_mm == 0.0
    assert finding.from_mm is None
    assert finding.overlap is not None
    assert finding.overlap.mm == pytest.approx(3.5, abs=1e-6)
    assert "3.5 mm into the side panel" in finding.advice
    assert "5.5 mm must give along width" in finding.advice


def test_a_gap_that_its_tolerance_may_eat_is_tight() -> None:
    chain = (("cooler", link("height", (0.0, 0.0, 0.5))),)
    (finding,) = check(panel_and_cooler(152.8, cooler=chain)).findings
    assert finding.verdict is Verdict.TIGHT
    assert finding.tolerance_mm == pytest.approx(0.5)


def test_touching_bodies_are_told_along_the_way_across_their_face() -> None:
    beside = (("case", link("bay", (9.0, 9.0, 0.0))),)
    chain = (*beside, ("cooler", link("height", (0.0, 0.0, 0.5))))
    (finding,) = check(panel_and_cooler(155.0, cooler=chain)).findings
    assert finding.axis is Axis.WIDTH
    assert finding.tolerance_mm == pytest.approx(0.5)


def test_a_figure_that_both_bodies_share_cancels() -> None:
    shared = (("case", link("tray", (3.0, 3.0, 3.0))),)
    own = (*shared, ("cooler", link("height", (0.0, 0.0, 0.4))))
    build = panel_and_cooler(150.0, panel=shared, cooler=own)
    (finding,) = check(build).findings
    assert finding.tolerance_mm == pytest.approx(0.4)


def test_scatter_across_the_gap_does_not_count() -> None:
    chain = (("board", link("socket centre", (15.0, 15.0, 0.0), assumed=True)),)
    (finding,) = check(panel_and_cooler(150.0, cooler=chain)).findings
    assert finding.tolerance_mm == 0.0
    assert finding.assumed == ()


@pytest.mark.parametrize(
    ("scatter_mm", "advice"),
    [(2.0, ""), (4.0, "measure first: board: stack height (1 ± 4 assumed)")],
)
def test_a_gap_that_an_assumption_may_eat_asks_for_a_measurement(
    scatter_mm: float, advice: str
) -> None:
    chain = (("board", link("stack height", (0.0, 0.0, scatter_mm), assumed=True)),)
    (finding,) = check(panel_and_cooler(150.0, cooler=chain)).findings
    assert finding.assumed == ("board: stack height",)
    assert finding.advice == advice


def test_of_assumptions_that_only_together_eat_a_gap_one_is_enough() -> None:
    chain = tuple(
        ("board", link(label, (0.0, 0.0, 2.0), assumed=True)) for label in ("a", "b")
    )
    (finding,) = check(panel_and_cooler(150.0, cooler=chain)).findings
    assert finding.verdict is Verdict.CLEAR
    assert finding.advice == "measure first: board: a (1 ± 2 assumed)"


def test_a_build_file_changes_a_need() -> None:
    build = panel_and_cooler(150.0)
    changed = build_of(*build.bodies, needs=(("panel-over-cooler", 6.0),))
    (finding,) = check(changed).findings
    assert finding.verdict is Verdict.SHORT
    assert finding.source == "given in the file"


def test_a_build_file_adds_a_need_between_parts_or_bodies() -> None:
    need = OwnNeed(
        a="left", b="right/lug", need_mm=5.0, why="room for a hand", source="invented"
    )
    bodies = (
        placed("left", Role.BLOCK, ((0, 10), (0, 10), (0, 10))),
        placed("right/lug", Role.BLOCK, ((14, 20), (0, 10), (0, 10))),
        placed("right/foot", Role.BLOCK, ((12, 20), (0, 10), (0, 10))),
    )
    (finding,) = check(build_of(*bodies, own_needs=(need,))).findings
    assert finding.verdict is Verdict.SHORT
    assert finding.gap_mm == pytest.approx(4.0)
    assert finding.why == "room for a hand"


def test_pairs_that_no_rule_names_are_findings_only_when_they_interfere() -> None:
    left = placed("left", Role.BLOCK, ((0, 10), (0, 10), (0, 10)))
    apart = placed("right", Role.BLOCK, ((12, 20), (0, 10), (0, 10)))
    inside = placed("right", Role.BLOCK, ((8, 20), (0, 10), (0, 10)))
    assert check(build_of(left, apart)).findings == ()
    assert check(build_of(left, apart)).verdict is Verdict.CLEAR
    (finding,) = check(build_of(left, inside)).findings
    assert (finding.rule, finding.verdict) == (NO_INTERFERENCE, Verdict.CLASH)


def test_all_shows_every_pair_with_its_exact_gap() -> None:
    left = placed("left", Role.BLOCK, ((0, 10), (0, 10), (0, 10)))
    right = placed("right", Role.BLOCK, ((13, 20), (14, 20), (0, 10)))
    (finding,) = check(build_of(left, right), every_pair=True).findings
    assert finding.gap_mm == pytest.approx(5.0)
    assert finding.need_mm == 0.0


def test_bodies_of_one_part_are_not_asked_about() -> None:
    bodies = (
        placed("cage/shell", Role.CAGE, ((0, 10), (0, 10), (0, 10))),
        placed("cage/shelf", Role.CAGE, ((5, 10), (0, 10), (0, 10))),
    )
    found = check(build_of(*bodies), every_pair=True, with_pairs=True)
    assert found.findings == ()
    assert found.pairs == ()


def test_places_are_no_matter() -> None:
    bodies = (
        placed("case/cut-out", Role.CUT_OUT, ((0, 10), (0, 10), (-1, 20))),
        placed("plug", Role.BLOCK, ((0, 10), (0, 10), (0, 10))),
    )
    found = check(build_of(*bodies), with_pairs=True)
    assert found.findings == ()
    assert found.pairs == ()


@pytest.mark.parametrize(
    ("box", "verdict"),
    [
        (Box((0, 0, 8), (10, 10, 12)), Verdict.CLEAR),
        (Box((0, 0, 9), (10, 10, 12)), Verdict.CLASH),
    ],
)
def test_mated_parts_may_enter_one_another_within_their_seat_alone(
    box: Box, verdict: Verdict
) -> None:
    slot = placed("board/slot", Role.CARD_SLOT, ((0, 10), (0, 10), (0, 10)))
    card = placed("card", Role.CARD, ((2, 8), (2, 8), (8, 50)))
    build = build_of(
        slot, card, mates=(Mate(guest="card", role=Role.CARD_SLOT, box=box),)
    )
    assert check(build).verdict is verdict
    (pair,) = check(build, with_pairs=True).pairs or ()
    assert pair.state is State.INTERFERING
    asked = unnamed(build, [])
    assert surely_failed(replace(build, mates=()), asked)
    assert not surely_failed(build, asked)  # what they may share is not looked at


def test_only_the_nearest_object_before_a_vent_is_told() -> None:
    bodies = (
        placed("supply/vent", Role.SUPPLY_VENT, ((0, 100), (86, 87), (0, 100))),
        placed("near", Role.BLOCK, ((0, 100), (99.6, 101), (0, 100))),
        placed("far", Role.BLOCK, ((0, 100), (150, 151), (0, 100))),
    )
    vents = [f for f in check(build_of(*bodies)).findings if f.rule == "supply-vent"]
    (finding,) = vents
    assert (finding.b, finding.verdict) == ("near", Verdict.SHORT)
    assert finding.id == "supply-vent:supply"


def test_a_grille_is_no_object_before_a_vent() -> None:
    bodies = (
        placed("supply/vent", Role.SUPPLY_VENT, ((0, 100), (0, 1), (0, 100))),
        placed("case/grille", Role.GRILLE, ((0, 100), (-1, 0), (0, 100))),
    )
    assert check(build_of(*bodies)).findings == ()


def test_the_worst_comes_first_and_gives_the_verdict() -> None:
    build = build_of(
        *panel_and_cooler(150.0).bodies,
        placed("memory", Role.MEMORY, ((150.5, 160), (200, 320), (11, 55))),
        placed("post", Role.BLOCK, ((155, 165), (200, 220), (11, 30))),
    )
    found = check(build)
    assert [f.verdict for f in found.findings] == [
        Verdict.CLASH,
        Verdict.SHORT,
        Verdict.CLEAR,
    ]
    assert found.verdict is Verdict.CLASH


def test_a_group_that_is_not_asked_makes_no_finding() -> None:
    build = panel_and_cooler(158.5)
    assert check(build, groups=frozenset({Group.REACH})).findings == ()


def test_a_clash_that_rests_on_a_guess_asks_for_a_measurement() -> None:
    chain = (("board", link("heatsink's height", (0.0, 0.0, 10.0), assumed=True)),)
    build = build_of(
        placed("post", Role.BLOCK, ((0, 10), (0, 10), (0, 40)), chain=chain),
        placed("lid", Role.BLOCK, ((0, 10), (0, 10), (38, 60))),
    )
    (finding,) = check(build).findings
    assert finding.verdict is Verdict.CLASH
    assert finding.tolerance_mm == 0.0
    assert finding.advice.endswith(
        "; measure first: board: heatsink's height (1 ± 10 assumed)"
    )


def test_a_card_needs_room_under_the_next_one() -> None:
    build = build_of(
        placed("upper", Role.CARD, ((0, 200), (100, 140), (10, 120))),
        placed("lower", Role.CARD, ((0, 200), (60, 97), (10, 120))),
    )
    (finding,) = check(build).findings
    assert (finding.rule, finding.verdict) == ("card-over-card", Verdict.SHORT)
    assert finding.gap_mm == pytest.approx(3.0)


def test_leads_need_room_before_floor_fans_too() -> None:
    build = build_of(
        placed("supply/leads", Role.SUPPLY_LEADS, ((150, 175), (0, 80), (10, 160))),
        placed("fans", Role.FAN, ((180, 300), (0, 25), (10, 130)), where="floor"),
    )
    (finding,) = check(build).findings
    assert (finding.rule, finding.verdict) == ("leads-to-cage", Verdict.SHORT)


@pytest.mark.parametrize("pins_first", [True, False])
def test_of_equal_clashes_the_parts_main_body_is_told(*, pins_first: bool) -> None:
    chain = (("board", link("pins", (0.0, 10.0, 0.0), assumed=True)),)
    spans = ((0, 100), (96, 200), (10, 20))
    board = placed("board", Role.BOARD, spans)
    pins = placed("board/pins", Role.BOARD_CONNECTOR, spans, chain=chain)
    shroud = placed("case/shroud", Role.SHROUD, ((0, 100), (0, 100), (0, 50)))
    own = (pins, board) if pins_first else (board, pins)
    (finding,) = check(build_of(shroud, *own)).findings
    assert finding.parts == {"case", "board"}
    assert {finding.a, finding.b} == {"case/shroud", "board"}
    assert finding.margin_mm == pytest.approx(-4.0, abs=1e-5)
    assert "measure first" not in finding.advice
