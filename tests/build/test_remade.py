"""A part made anew on its seat is where the whole plan put in place has it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from layout.build.errors import SeatError
from layout.build.placed import Build
from layout.build.remade import Remaker
from layout.files.build_file import read_made
from layout.parts.kinds.kinds import Spec
from layout.parts.kinds.places import places
from layout.questions.mending.changes import angled, turned

CASES = Path(__file__).parents[2] / "cases"
BUILDS = ("newsroom", "render")


def _changes(made: Remaker) -> Iterator[tuple[str, Spec | None]]:
    """Yield every part at each of its places, turned, and with angled plugs."""
    seats = tuple((each.host, each.seat) for each in made.tree.seats.offers)
    known = [(part.key, made.plan.spec(part.key)) for part in made.build.parts]
    specs = [(key, spec) for key, spec in known if spec is not None]
    for key, spec in specs:
        yield from ((key, placed) for _, placed in places(spec, seats))
    for change in (*turned(specs), *angled(specs)):
        yield from change.parts


def _told(build: Build) -> tuple[object, ...]:
    """Return all that two builds have in common where they are one, in any order."""
    bodies = {
        each.name: (each.body.bounds, each.role, each.where, each.chain)
        for each in build.bodies
    }
    return (
        list(bodies),
        bodies,
        {repr(each) for each in build.mates},
        {repr(each) for each in build.fixings},
        build.hookups,
        {repr(each) for each in build.plugs},
        {repr(each) for each in build.leads},
        build.parts,
    )


@pytest.mark.parametrize("name", BUILDS)
def test_one_part_made_anew_is_where_the_whole_plan_has_it(name: str) -> None:
    made = read_made(CASES / f"{name}-build.yaml")
    count = 0
    for key, spec in _changes(made):
        if spec is None:
            continue
        try:
            whole = made.changed(key, spec)
        except SeatError:
            continue
        assert _told(made.with_all([(key, spec)])) == _told(whole)
        names = {each.name for each in whole.bodies if each.part == key}
        if (part := made.partly(key, spec, names)) is not None:
            _check_partly(key, part, whole)
            count += 1
    assert count > 5


def _check_partly(key: str, part: Build, whole: Build) -> None:
    """Its bodies are where the whole build has them, and may enter as much."""
    there, own = (
        {e.name: (e.body.bounds, e.role, e.where, e.chain) for e in build.bodies}
        for build in (whole, part)
    )
    assert {name: there[name] for name in own} == own
    assert {e.name for e in whole.bodies if e.part == key} <= own.keys()
    assert {repr(e) for e in whole.mates if e.guest == key} <= {*map(repr, part.mates)}


@pytest.mark.parametrize("name", BUILDS)
def test_a_body_said_to_be_kept_is_where_it_was(name: str) -> None:
    made = read_made(CASES / f"{name}-build.yaml")
    before = {each.name: each.body for each in made.build.bodies}
    count = 0
    for key, spec in _changes(made):
        own = [each for each in before if each.partition("/")[0] == key]
        for body in own if spec is not None else ():
            try:
                kept = spec is not None and made.keeps(key, spec, {body})
            except SeatError:
                continue
            if kept and spec is not None:
                there = {e.name: e.body for e in made.with_all([(key, spec)]).bodies}
                assert there[body].bounds == before[body].bounds
                count += 1
    assert count > 0
