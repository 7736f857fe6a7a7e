"""No remedy names a part, a slot, a shroud or a fan that the machine does not have."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import islice

import pytest

from layout.build.placed import Build, PlacedBody
from layout.parts.board.board import Board
from layout.parts.board.memory import Memory
from layout.parts.case.case_fields import Mount, Takes
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.radiator import Radiator
from layout.parts.form.form import Role
from layout.parts.kinds.kinds import Spec
from layout.questions.checking.check import check
from layout.questions.clearances.apart import apart_remedy
from layout.questions.clearances.asked import asked, unnamed
from layout.questions.clearances.plug_rules import PLUG_RULES
from layout.questions.findings.finding import Group
from layout.questions.findings.remedy import Remedy
from tests.build.any_machine import LAYOUTS, machine
from tests.build.machines import built, mm, tower_case
from tests.questions.builds import build_of, placed

EACH = 2
"""Machines of each layout; every rule is asked of every pair that it means."""

Bodies = tuple[PlacedBody, ...]


def has(*roles: Role, on: str | None = None) -> Callable[[Build, Bodies], bool]:
    """Ask whether the machine has such a body on a face."""
    return lambda build, _: any(
        each.role in roles and (on is None or (each.where or "").startswith(on))
        for each in build.bodies
    )


def _shroud(build: Build, _: Bodies) -> bool:
    return any(each.name == "case/shroud" for each in build.bodies)


def _kind(kind: str) -> Callable[[Build, Bodies], bool]:
    return lambda build, _: any(part.kind == kind for part in build.parts)


def _seats(build: Build, bodies: Bodies, kind: str) -> list[tuple[str, str]]:
    """Return seat and host of every part of a kind that the bodies belong to."""
    parts = {each.part for each in bodies}
    return [
        (part.seat, host)
        for part in build.parts
        if part.key in parts and part.kind == kind
        for host in (part.hosts or ("",))
    ]


def _on_riser(build: Build, bodies: Bodies) -> bool:
    return any(not s.startswith("slot") for s, _ in _seats(build, bodies, "card"))


def _other_slot(build: Build, bodies: Bodies) -> bool:
    hosts = [h for s, h in _seats(build, bodies, "card") if s.startswith("slot")]
    names = {each.name for each in build.bodies}
    return any(sum(n.startswith(f"{h}/slot") for n in names) > 1 for h in hosts)


def _caged(build: Build, bodies: Bodies) -> bool:
    cages = {part.key for part in build.parts if part.kind == "cage"}
    drives = {host for _, host in _seats(build, bodies, "drive")}
    return bool(_seats(build, bodies, "cage") or cages & drives)


NAMED: tuple[tuple[str, Callable[[Build, Bodies], bool]], ...] = (
    (r"\bcage\b", _caged),
    (r"\b(lower|higher|another) slot\b", _other_slot),
    (r"\bshroud\b", _shroud),
    (r"\briser\b", _on_riser),
    (r"\brear fan\b", has(Role.FAN, Role.RADIATOR, on="rear")),
    (r"\bfront fans\b", has(Role.FAN, on="front")),
    (r"\bfans at the top\b", has(Role.FAN, Role.RADIATOR, on="top")),
    (r"\bfans on the floor\b", has(Role.FAN, on="floor")),
    (r"\bfans?\b", has(Role.FAN, Role.COOLER_FAN, Role.CARD_VENT, Role.SUPPLY_VENT)),
    (r"\bradiator\b", has(Role.RADIATOR)),
    (r"\bmemory\b", has(Role.MEMORY)),
    (r"\bcooler\b", has(Role.COOLER, Role.PUMP_BLOCK)),
    (r"\bpump block\b", has(Role.PUMP_BLOCK)),
    (r"\bhoses?\b", has(Role.HOSE)),
    (r"\bcards?\b", has(Role.CARD)),
    (r"\bdrive\b", has(Role.DRIVE, Role.M2_DRIVE)),
    (r"\bsupply\b", has(Role.SUPPLY)),
    (r"\bsupport\b", _kind("card support")),
    (r"\bboard\b", has(Role.BOARD)),
)
"""What a remedy may name, and when it is there."""


def _told(build: Build) -> Iterator[tuple[str, Bodies]]:
    """Yield every remedy that any rule has for any pair of a machine."""
    bodies = build.bodies
    questions = asked(build)
    for each in questions:
        a, b = bodies[each.a], bodies[each.b]
        yield each.rule.remedy_for(build, a, b).told, (a, b)
    for each in unnamed(build, questions):
        a, b = bodies[each.a], bodies[each.b]
        yield apart_remedy(build, a, b).told, (a, b)
    for rule in PLUG_RULES:
        if any(body.role is rule.on for body in bodies):
            for body in bodies:
                yield rule.remedy_before(build, body).told, (body,)


@pytest.mark.parametrize("layout", LAYOUTS)
def test_no_remedy_names_what_the_machine_has_not(layout: str) -> None:
    asked_of = 0
    for seed in range(EACH):
        build = machine(layout, seed).build
        for told, bodies in _told(build):
            asked_of += 1
            names = tuple(each.name for each in bodies)
            for word, there in NAMED:
                if re.search(word, told):
                    assert there(build, bodies), (word, told, names)
    assert asked_of > 500


def test_every_remedy_is_about_one_of_the_two() -> None:
    """A part that neither is, nor carries one of the two, is no cure for them."""
    words = {"front fans": Role.FAN, "rear fan": Role.FAN, "radiator": Role.RADIATOR}
    for layout in LAYOUTS:
        build = machine(layout, 1).build
        for told, bodies in islice(_told(build), 3000):
            roles = {each.role for each in bodies}
            for word, role in words.items():
                if word in told and len(bodies) > 1:
                    assert roles & {role, Role.RADIATOR, Role.FAN, Role.HOSE}, told


def test_what_can_give_is_named_and_never_the_case() -> None:
    panel = placed("case/side panel", Role.SIDE_PANEL, ((0, 9), (0, 9), (8, 9)))
    fans = placed("floor fans/fan 1", Role.FAN, ((0, 5), (0, 5), (0, 9)), where="floor")
    build = build_of(panel, fans)
    remedy = Remedy(
        "move the floor fans to another mount",
        "take smaller floor fans, or take a case with more room there",
    )
    assert apart_remedy(build, panel, fans) == remedy
    assert apart_remedy(build, fans, panel) == remedy


def test_memory_under_a_radiator_may_ask_for_a_mount_farther_away() -> None:
    row = Takes(size=120, count=3, start=mm(20))
    case = replace(
        tower_case(),
        room_over_board=mm(20),
        mounts=(("top", Mount(takes=(row,), from_tray=mm(100))),),
    )
    parts: dict[str, Spec] = {
        "board": Board(socket="AM5"),
        "memory": Memory(height=mm(50)),
        "cooler": LiquidCooler(radiator=Radiator(size=360, mount="top")),
    }
    found = check(built(case, parts), groups=frozenset({Group.DISTANCE})).findings
    advice = next(e.advice for e in found if {*e.parts} == {"cooler", "memory"})
    assert advice.endswith("a case whose mount lies farther from the board")


def test_a_lining_is_cut_back_where_something_stands_in_it() -> None:
    felt = placed("case/top lining", Role.TOP, ((0, 90), (8, 9), (0, 9)))
    tank = placed("cooler/radiator", Role.RADIATOR, ((0, 9), (0, 9), (0, 9)))
    build = build_of(felt, tank)
    assert apart_remedy(build, felt, tank).left == "cut the lining back there"
