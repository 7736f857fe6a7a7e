"""Liquid loops: hoses that reach, and pumps that must not be highest."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest

from layout.build.placed import Build
from layout.geometry.ways.turns import bent
from layout.parts.board.board import Board
from layout.parts.case.case import Case
from layout.parts.case.case_fields import Mount, Shroud, ShroudCutOut, Takes
from layout.parts.case.case_stands import Stands
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.radiator import PortEnd, Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.form.form import Role
from layout.parts.kinds.kinds import Spec
from layout.questions.checking.check import check
from layout.questions.findings.finding import Finding, Verdict
from layout.questions.findings.tolerance import RSS
from layout.questions.reach.drift import stacked_mm
from layout.questions.reach.hoses import hoses_of
from layout.questions.reach.loops import hose_led, hose_reach, pump_height
from layout.questions.reach.reach import routes
from tests.build.machines import built, mm
from tests.questions.builds import Span, placed

CASE = Case(
    depth=mm(430),
    height=mm(470),
    width=mm(190),
    mounts=(
        ("top", Mount(takes=(Takes(size=120, count=2, start=mm(60)),))),
        ("floor", Mount(takes=(Takes(size=120, count=2, start=mm(180)),))),
    ),
)


FRONT = replace(
    CASE, mounts=(("front", Mount(takes=(Takes(size=120, count=2, start=mm(60)),))),)
)


def wet(mount: str, hose_mm: float | None = None, case: Case = CASE) -> Build:
    cooler = LiquidCooler(
        hose_length=mm(hose_mm) if hose_mm else None,
        radiator=Radiator(size=240, mount=mount),
    )
    parts: dict[str, Spec] = {"board": Board(socket="AM5"), "cooler": cooler}
    return built(case, parts)


def _hoses(build: Build) -> Finding:
    (found,) = (each for each in check(build).findings if each.rule == "hoses-reach")
    return found


def test_hoses_that_are_too_short_say_by_how_much() -> None:
    enough = _hoses(wet("floor", 700))
    assert enough.verdict is Verdict.CLEAR
    assert (enough.a, enough.b) == ("cooler/block", "cooler/radiator")
    assert enough.gap_mm is not None
    way_mm = 700 - enough.gap_mm
    short = _hoses(wet("floor", round(way_mm) + 10))
    assert short.verdict is Verdict.SHORT
    assert short.need_mm == 20.0
    assert short.margin_mm == pytest.approx(round(way_mm) - way_mm - 10)
    assert "are 10 mm too short" in short.advice
    assert "turn the radiator end for end" in short.advice


def test_a_way_is_no_shorter_than_a_string_with_its_bend_into_the_fitting() -> None:
    build = wet("top", 400)
    found = _hoses(build)
    assert found.gap_mm is not None
    (hoses,) = hoses_of(build)
    for way in hoses.ways:
        straight_mm = math.dist(way.points[0], way.points[-1])
        assert straight_mm < way.mm < 1.5 * straight_mm
        assert 400 - found.gap_mm >= way.mm


def test_hoses_whose_length_nobody_tells_are_usual_ones_and_tight_before_short() -> (
    None
):
    found = _hoses(wet("top"))
    assert found.assumed[0] == "cooler: hose length"
    assert found.tolerance_mm is not None
    assert found.tolerance_mm > 50.0  # the socket's place, the fitting, ... besides


def test_hoses_go_round_what_stands_between_and_the_slack_is_the_files() -> None:
    build = wet("top", 400)
    free = _hoses(build)
    (hoses,) = hoses_of(build)
    low = [min(end[k] for end in hoses.ways[0].points) for k in range(3)]
    high = [max(end[k] for end in hoses.ways[0].points) for k in range(3)]
    x, y = (low[0] + high[0]) / 2, (low[1] + high[1]) / 2
    spans: tuple[Span, Span, Span] = ((x - 5, x + 5), (y - 60, y + 40), (1, 90))
    module = placed("memory/module 1", Role.MEMORY, spans)
    needs = (("hoses-reach", 35.0),)
    barred = replace(build, bodies=(*build.bodies, module), needs=needs)
    round_it = _hoses(barred)
    assert free.gap_mm is not None
    assert round_it.gap_mm is not None
    assert round_it.gap_mm < free.gap_mm - 1.0
    assert (round_it.need_mm, round_it.source) == (35.0, "given in the file")


def _walled(hose_mm: float | None) -> Build:
    walls = [
        placed(f"wall {k}", Role.BLOCK, ((330, 332), (0, 470), (z, z + 62)))
        for k, z in enumerate((0, 62, 124))
    ]
    build = wet("front", hose_mm, case=FRONT)
    return replace(build, bodies=(*build.bodies, *walls))


def test_hoses_without_a_way_that_a_straight_line_is_too_far_for_are_short() -> None:
    found = _hoses(_walled(60))
    assert found.verdict is Verdict.SHORT
    assert found.gap_mm is not None
    assert found.gap_mm < 0.0
    assert "straight line" in found.why
    assert "longer hoses" in found.advice


@pytest.mark.parametrize("hose_mm", [500, None])
def test_hoses_without_a_way_that_may_be_long_enough_are_tight(
    hose_mm: float | None,
) -> None:
    build = _walled(hose_mm)
    found = _hoses(build)
    assert found.verdict is Verdict.TIGHT
    assert found.margin_mm is not None
    assert found.tolerance_mm is not None
    assert found.margin_mm >= 0.0 > found.margin_mm - found.tolerance_mm
    assert "cooler: way of its hoses" in found.assumed
    assert found.advice.startswith("measure first: no way")
    ((id_, way),) = hose_led(build)
    assert id_ == found.id
    assert found.gap_mm == pytest.approx(way.length_mm - way.mm)
    assert stacked_mm(way.moved, RSS) == pytest.approx(found.tolerance_mm)


@pytest.mark.parametrize(
    ("mount", "stands", "cautioned"),
    [
        ("top", Stands.UPRIGHT, False),
        ("floor", Stands.UPRIGHT, True),
        ("top", Stands.TURNED_OVER, True),
        ("floor", Stands.TURNED_OVER, False),
    ],
)
def test_a_pump_that_is_the_highest_point_is_a_caution(
    mount: str, stands: Stands, *, cautioned: bool
) -> None:
    found = check(wet(mount, case=replace(CASE, stands=stands)))
    told = [note for note in found.notes if "highest point" in note]
    assert bool(told) is cautioned


@pytest.mark.parametrize(
    ("high_mm", "verdict"), [(4, Verdict.CLEAR), (6, Verdict.SHORT)]
)
def test_a_plate_behind_the_board_needs_room_before_the_tray(
    high_mm: float, verdict: Verdict
) -> None:
    cooler = TowerCooler(
        height=mm(150), width=mm(120), depth=mm(50), back_plate=mm(high_mm)
    )
    build = built(CASE, {"board": Board(socket="LGA1155"), "cooler": cooler})
    found = {each.rule: each for each in check(build).findings}["back-plate-to-tray"]
    assert found.verdict is verdict
    assert found.gap_mm == pytest.approx(6.35 - high_mm)


def test_the_way_that_explains_a_finding_is_the_longer_one() -> None:
    build = wet("top", 400)
    found = _hoses(build)
    ((id_, way),) = hose_led(build)
    assert id_ == found.id
    assert found.gap_mm == pytest.approx(400 - way.mm)


def test_hoses_are_drawn_as_long_as_their_ways_with_their_own_radius() -> None:
    build = wet("top", 400)
    (hoses,) = hoses_of(build)
    drawn = [each for each in routes(build) if each.stiff]
    assert [each.points for each in drawn] == [way.points for way in hoses.ways]
    for each, way in zip(drawn, hoses.ways, strict=True):
        line = bent(each.points, each.radius_mm)
        drawn_mm = sum(math.dist(a, b) for a, b in pairwise(line))
        assert drawn_mm == pytest.approx(way.mm, rel=1e-3)


def _two_loops(first: str, second: str) -> Build:
    """Return a machine with the loop of one mount, and one more of another beside."""
    build, other = wet(first, 400), wet(second, 150)
    more = tuple(
        replace(
            each,
            part="second cooler",
            body=replace(
                each.body, name=each.body.name.replace("cooler", "second cooler", 1)
            ),
        )
        for each in other.bodies
        if each.part == "cooler"
    )
    return replace(build, bodies=(*build.bodies, *more))


@pytest.mark.parametrize(
    ("mounts", "cautioned"),
    [
        (("top", "top"), []),
        (("top", "floor"), ["second cooler"]),
        (("floor", "top"), ["cooler"]),
        (("floor", "floor"), ["cooler", "second cooler"]),
    ],
)
def test_of_two_pumps_each_is_held_against_its_own_radiator(
    mounts: tuple[str, str], cautioned: list[str]
) -> None:
    notes = pump_height(_two_loops(*mounts), every=False).notes
    assert [note.partition(",")[0] for note in notes] == cautioned
    assert all("caution: its pump is the highest point" in note for note in notes)


def test_of_two_loops_each_has_its_own_hoses_and_lengths() -> None:
    found = hose_reach(_two_loops("top", "floor"), every=False).findings
    assert [(each.a, each.b) for each in found] == [
        ("cooler/block", "cooler/radiator"),
        ("second cooler/block", "second cooler/radiator"),
    ]
    assert len({each.id for each in found}) == len(found)
    assert [each.verdict.fails for each in found] == [False, True]


@pytest.mark.parametrize("is_open", [True, False])
def test_hoses_to_ports_under_a_shroud_go_through_its_opening(*, is_open: bool) -> None:
    cut = ShroudCutOut(from_depth=mm(300), from_tray=mm(5), width=mm(170))
    shroud = Shroud(height=mm(110), cut_out=cut if is_open else None)
    mount = Mount(takes=(Takes(size=120, count=2, start=mm(30)),))
    case = replace(CASE, shroud=shroud, mounts=(("front", mount),))
    cooler = LiquidCooler(
        hose_length=mm(700),
        radiator=Radiator(size=240, mount="front", ports=PortEnd.FIRST),
    )
    build = built(case, {"board": Board(socket="AM5"), "cooler": cooler})
    (found,) = hose_reach(build, every=False).findings
    assert ("through the shroud's opening, with every bend" in found.why) is is_open
    assert ("no way found" in found.why) is not is_open
