"""Hoses to a radiator behind the tray: through its cut-outs, each with its room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest
from shapely.geometry import Polygon

from layout.build.placed import Build
from layout.geometry.bodies.body import Body, Shape
from layout.geometry.solids.solid import Solid, rectangle
from layout.geometry.space import Box
from layout.geometry.ways.keep_off import Laid
from layout.geometry.ways.stiff import StiffWay
from layout.geometry.ways.turns import End, bent
from layout.parts.case.case_fields import CutOut, Face, Mount, Takes
from layout.questions.checking.check import check
from layout.questions.findings.finding import Finding, Group, Verdict
from layout.questions.findings.holes import Passage
from layout.questions.findings.passages import boxes_of
from layout.questions.reach.hose_drift import laid_mm
from layout.questions.reach.hose_holes import through
from layout.questions.reach.hose_pair import Around, LaidOut
from layout.questions.reach.hoses import Hoses, hoses_of
from layout.questions.reach.loops import hose_led
from layout.questions.reach.reach import routes
from tests.build.machines import mm
from tests.questions.reach.test_hose_pair import WIDE, R, room
from tests.questions.reach.test_loops import CASE, wet

FREE = Box((0.0, 0.0, -150.0), (400.0, 400.0, 150.0))
MOST_MM = 900.0


def _around(*holes: Box) -> Around:
    """Return the room about a sheet with such holes, and ports on either side of it.

    The block's elbows are 100 over it, the radiator's ports look back as far under it.
    """
    cut = [rectangle((h.low[0], h.high[0]), (h.low[1], h.high[1])) for h in holes]
    whole = rectangle((0, 400), (0, 400)).exterior.coords
    sheet = Solid(
        side=Polygon(whole, [each.exterior.coords for each in cut]),
        top=rectangle((0, 400), (-1, 0)),
    )
    half = WIDE / 2
    bars = [
        Box(
            (x0 - half, y0 - half, z0 - half),
            (x1 + half, y1 + half, z1 + half),
        )
        for (x0, y0, z0), (x1, y1, z1) in (
            (box.low, box.high)
            for box in boxes_of(Body(name="tray", shape=Shape((sheet,))))
        )
    ]
    pairs = tuple(
        (End((60.0, y, 100.0)), End((340.0, y, -100.0), (-1.0, 0.0, 0.0)))
        for y in (192.0, 208.0)
    )
    return room(*pairs, boxes=bars, free=FREE)


def _hole(at: tuple[float, float], wide: float, high: float | None = None) -> Box:
    """Return a hole about its middle, square unless told."""
    (x, y), up = at, (high or wide) / 2
    return Box((x - wide / 2, y - up, -1.0), (x + wide / 2, y + up, 0.0))


def _laid(*holes: Box, hoses: Sequence[int] = (0, 1)) -> LaidOut:
    around = _around(*holes)
    around = replace(around, pairs=tuple(around.pairs[k] for k in hoses))
    named = [Passage(f"hole {k}", hole, 0.0) for k, hole in enumerate(holes)]
    return through(around, named, MOST_MM)


def _lines(ways: Sequence[StiffWay]) -> list[Laid]:
    return [Laid(bent(way.points, R), WIDE) for way in ways]


def test_a_hose_goes_square_through_a_hole_that_it_fills() -> None:
    (way,) = _laid(_hole((200, 192), 12.01), hoses=[0]).ways
    # From the elbow to over the hole, square through it, and level into the port: each
    # right angle ends in the sheet's middle.
    by_hand = [
        (60.0, 192.0, 100.0),
        (200.0, 192.0, R - 0.5),
        (200.0, 192.0, -R - 0.5),
        (300.0, 192.0, -100.0),
        (340.0, 192.0, -100.0),
    ]
    assert way.mm == pytest.approx(laid_mm(by_hand, R), abs=0.02)


@pytest.mark.parametrize("wide_mm", [11.9, 12.0])
def test_a_hole_lets_no_wider_hose_pass(wide_mm: float) -> None:
    laid = _laid(_hole((200, 192), wide_mm, 60), hoses=[0])
    assert len(laid.ways) == len(laid.holes) == int(wide_mm >= WIDE)


def test_of_several_holes_that_of_the_shortest_way_is_taken() -> None:
    holes = [_hole((200, 60), 14), _hole((120, 260), 14), _hole((260, 330), 14)]
    each = [_laid(hole, hoses=[0]).ways[0].mm for hole in holes]
    every = _laid(*holes, hoses=[0])
    assert every.ways[0].mm == pytest.approx(min(each), abs=1e-6)
    assert [e.name for e in every.holes] == [f"hole {each.index(min(each))}"]


def test_two_hoses_pass_a_hole_with_room_for_both() -> None:
    laid = _laid(_hole((200, 200), 14, 60))
    assert laid.apart
    assert [each.name for each in laid.holes] == ["hole 0"]
    one, other = laid.ways
    assert _lines([one])[0].clear_of(bent(other.points, R))


def test_a_hole_with_room_for_one_lets_but_one_pass() -> None:
    narrow = _hole((200, 200), 20)  # their middles 8 apart each way, 11.3 in all
    assert len(_laid(narrow).ways) == 1
    wider = _laid(_hole((200, 200), 20.6))  # 8.6 each way, 12.2 in all
    assert len(wider.ways) == 2


def test_of_two_such_holes_each_hose_takes_its_own() -> None:
    laid = _laid(_hole((200, 180), 20), _hole((200, 260), 20))
    assert laid.apart
    assert [each.name for each in laid.holes] == ["hole 0", "hole 1"]


def _two_chambers(**holes: tuple[float, float, float, float]) -> Build:
    """Return a machine with its radiator behind the tray, given the tray's holes."""
    back = Mount(face=Face.BACK_PANEL, takes=(Takes(size=120, count=2, start=mm(40)),))
    cut_outs = tuple(
        (name, CutOut(from_rear=mm(x), from_floor=mm(y), depth=mm(dx), height=mm(dy)))
        for name, (x, y, dx, dy) in holes.items()
    )
    case = replace(
        CASE, behind_tray=mm(108), mounts=(("back", back),), cut_outs=cut_outs
    )
    return wet("back", 480, case=case)


def _asked(build: Build) -> tuple[Hoses, Finding]:
    (hoses,) = hoses_of(build)
    asked = check(build, groups=frozenset({Group.REACH})).findings
    (found,) = (each for each in asked if each.rule == "hoses-reach")
    return hoses, found


def test_a_finding_names_the_cut_out_and_the_ways_are_drawn_through_it() -> None:
    build = _two_chambers(front=(262.0, 190.0, 60.0, 200.0))
    hoses, found = _asked(build)
    assert found.verdict is Verdict.CLEAR
    assert "mm of 480 through cut-out front, with every bend 40 inside" in found.why
    ((_, led),) = hose_led(build)
    assert [each.name for each in led.holes] == ["cut-out front"]
    drawn = [bent(e.points, e.radius_mm) for e in routes(build) if e.stiff]
    assert len(drawn) == 2
    assert all(hoses.laid.holes[0].used_by(line) for line in drawn)


def test_where_the_case_names_none_usual_openings_are_assumed_and_said() -> None:
    _, found = _asked(_two_chambers())
    assert "through an opening before the board" in found.why
    assert "case: an opening before the board in the tray" in found.assumed


def test_where_no_cut_out_is_wide_enough_the_finding_says_so() -> None:
    _, found = _asked(_two_chambers(front=(300.0, 190.0, 11.0, 200.0)))
    assert found.verdict is Verdict.TIGHT
    assert "no way found for both through the tray, each 11.5 wide" in found.why
    assert found.advice.startswith("measure first: no way was found")
