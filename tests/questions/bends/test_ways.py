"""What limits each way, held against asking every body about every way."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from layout.build.placed import Build, PlacedBody
from layout.files.build_file import read_build
from layout.geometry.bodies.body import Body
from layout.geometry.relations.query import relations
from layout.parts.form.form import Role
from layout.parts.wiring.plug import deep_mm, face_reach_mm
from layout.questions.bends.bends import bends, bends_lacking
from layout.questions.bends.cable_ways import Way, ways_of
from layout.questions.bends.ways import Answer, answers, reach_mm, towards_limit
from layout.questions.findings.finding import Verdict
from layout.questions.findings.walls import outwards, room_wanting
from layout.questions.growing.bend_room import with_radius
from tests.build.any_machine import machine

CASES = Path(__file__).parents[3] / "cases"
SINKS = {Role.REGULATOR_HEATSINK, Role.CHIPSET_HEATSINK}
PLUGS = {Role.BOARD_CONNECTOR, Role.CARD_PLUG, Role.SUPPLY_LEADS}


def _behind(build: Build, body: Body) -> bool | None:
    """Tell whether a body lies wholly behind the tray; None where it reaches across."""
    (tray,) = (e.body.bounds for e in build.bodies if e.role is Role.TRAY)
    if body.bounds.high[2] <= tray.low[2]:
        return True
    return False if body.bounds.low[2] >= tray.high[2] else None


def _asked(build: Build, way: Way, body: PlacedBody) -> bool:
    if {_behind(build, way.body), _behind(build, body.body)} == {True, False}:
        return False
    own = body.part == way.placed.part and way.rule.on is not Role.CARD_PLUG
    own = own and body.role not in SINKS
    free = PLUGS | way.plug.passes
    ahead_mm = deep_mm(way.plug, way.to, straight_mm=way.straight_mm) - way.plug.body_mm
    if ahead_mm <= way.rule.elsewhere_mm:
        free |= way.rule.asked_elsewhere
    if own or body.role in free or not body.role.is_matter:
        return False
    out, k = way.plug.out, way.plug.out.axis.index
    if outwards(body) is out:
        return True
    if out.sign > 0:
        return body.body.bounds.high[k] > way.body.bounds.low[k]
    return body.body.bounds.low[k] < way.body.bounds.high[k]


def _limits(answer: Answer) -> bool:
    if answer.relation.overlap is not None:
        return True
    towards = towards_limit(answer)
    beyond_mm = reach_mm(answer, towards) - face_reach_mm(answer.way.plug, towards)
    return answer.spare_mm <= 250.0 and beyond_mm > 0.5


def _slowly(build: Build, ways: list[Way]) -> dict[int, float | None]:
    """Return what each way has to spare, every body asked; None for no limit."""
    crowd = [*(each.body for each in build.bodies), *(each.body for each in ways)]
    first = len(build.bodies)
    pairs = [
        (k, j)
        for k, way in enumerate(ways, start=first)
        for j, body in enumerate(build.bodies)
        if _asked(build, way, body)
    ]
    spare: dict[int, float | None] = {id(way): None for way in ways}
    for (k, j), stands in zip(
        pairs, relations(crowd, pairs, overlaps=False), strict=True
    ):
        way, body = ways[k - first], build.bodies[j]
        answer = Answer(way, body, room_wanting(way.body, body, stands))
        if _limits(answer):
            known = spare[id(way)]
            mm = answer.spare_mm
            spare[id(way)] = mm if known is None else min(known, mm)
    return spare


def _builds() -> list[Build]:
    return [
        read_build(CASES / "render-build.yaml"),
        machine("tower", 3).build,
    ]


@pytest.mark.parametrize("build", _builds(), ids=lambda build: str(build.name))
def test_boxes_leave_out_nothing_that_limits_a_way(build: Build) -> None:
    ways = list(ways_of(build))
    told = {id(each.way): each.spare_mm for each in answers(build, ways).limited}
    slow = _slowly(build, ways)
    open_ways = {way.of for way in ways if (slow[id(way)] or 0.0) >= 0.0}
    assert len(told) > 5
    for way in ways:
        mm = slow[id(way)]
        if mm is None or (mm < 0.0 and way.of in open_ways):
            assert id(way) not in told
        else:
            assert told[id(way)] == pytest.approx(mm, abs=1e-6)


def test_what_lacks_room_is_told_as_a_check_tells_it() -> None:
    told: set[str] = set()
    for build in _builds():
        plugs = with_radius(build.plugs[::3], 160.0)
        stiff = replace(build, plugs=plugs)
        short = {e.id: e for e in bends(stiff) if e.verdict is Verdict.SHORT}
        assert {e.id: e for e in bends_lacking(stiff)} == short
        told |= {*short}
    assert len(told) > 1
