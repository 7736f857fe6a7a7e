from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from layout.build.assemble import Entry
from layout.build.placed import Build, Fixing
from layout.build.plan import Plan
from layout.files.build_file import read_plan
from layout.geometry.space import Axis, plus
from layout.questions.case.stated import STATED_LIMIT
from layout.questions.checking.check import check
from layout.questions.findings.finding import Group, Verdict
from layout.questions.hookup.screws import screwed
from layout.questions.moving.moves import MoveError
from layout.questions.moving.positions import GROUPS, positions
from layout.questions.moving.stretch import Travel, stretch
from tests.build.any_machine import machine
from tests.build.machines import mm, tower, wet
from tests.questions.moving.test_positions import long_supply, plan_of

CASES = Path(__file__).parents[3] / "cases"
MACHINES = {"long supply": long_supply(), "tower": tower(), "wet": wet()}


def _moved(build: Build, key: str, along: tuple[Axis, float]) -> Build:
    carried, (axis, mm) = build.carried_by(key), along
    x, y, z = (mm if each is axis else 0.0 for each in Axis)
    return replace(
        build,
        bodies=tuple(
            replace(each, body=each.body.moved((x, y, z)))
            if each.part in carried
            else each
            for each in build.bodies
        ),
        plugs=tuple(
            replace(
                each, plug=replace(each.plug, at_mm=plus(each.plug.at_mm, (x, y, z)))
            )
            if each.part in carried
            else each
            for each in build.plugs
        ),
    )


@pytest.mark.parametrize(
    ("name", "key", "travel", "axis"),
    [
        ("long supply", "cage", Travel(-80, 90, 17), None),
        ("long supply", "supply", Travel(-5, 120, 12.5), None),
        ("tower", "card", Travel(-45, 25, 7), None),
        ("tower", "cooler", Travel(-10, 30, 4), None),
        ("tower", "front fans", Travel(-60, 60, 13), None),
        # Through the shroud, which gives upwards at first and then downwards.
        ("tower", "supply", Travel(0, 120, 20), Axis.HEIGHT),
    ],
)
def test_a_stretch_is_what_check_says_at_each_of_its_positions(
    name: str, key: str, travel: Travel, *, axis: Axis | None
) -> None:
    plan = plan_of(MACHINES[name])
    build = plan.build()
    told = stretch(plan, key, travel, axis=axis)
    assert told.axis is not None
    for row in told.rows:
        there = _moved(build, key, (told.axis, float(str(row.position))))
        found = check(there, groups=frozenset({Group.DISTANCE}))
        own = [
            each
            for each in found.findings
            if each.parts & build.carried_by(key)
            and (each.verdict.fails or not each.rule.endswith("-bend"))
        ]
        margins = [each.margin_mm for each in own if each.margin_mm is not None]
        if row.verdict is not Verdict.MISSING:  # then it cannot be screwed down there
            assert row.verdict is (own[0].verdict if own else Verdict.CLEAR)
        assert row.least_margin_mm == pytest.approx(
            min(margins, default=None), abs=1e-5
        )


def _random_plan(layout: str, seed: int) -> Plan:
    made = machine(layout, seed)
    entries = tuple(Entry(key=key, spec=spec) for key, spec in made.parts.items())
    return Plan(name="machine", entries=entries, case=made.case)


@pytest.mark.parametrize(
    ("plan", "key"),
    [
        (plan_of(long_supply()), "cage"),
        (plan_of(tower()), "card"),
        (_random_plan("tower", 5), "cooler"),
        (_random_plan("turned over", 3), "card"),
        (_random_plan("flat", 4), "card"),
    ],
)
def test_the_clear_stretches_end_exactly_where_a_finding_fails(
    plan: Plan, key: str
) -> None:
    build = plan.build()
    travel = Travel(-90, 90, 90)
    told = stretch(plan, key, travel)
    assert told.axis is not None

    def fails(mm: float) -> bool:
        assert told.axis is not None
        there = _moved(build, key, (told.axis, mm))
        return check(there, of=build.carried_by(key)).verdict.fails

    for low, high in told.clear_mm:
        assert not fails((low + high) / 2)
        for end, outwards in ((low, -1), (high, 1)):
            assert not fails(end)
            if end not in {travel.first_mm, travel.last_mm}:
                assert fails(end + 1e-4 * outwards)
    if not told.clear_mm:
        assert all(fails(mm) for mm in (-90.0, -30.0, 0.0, 30.0, 90.0))


def test_the_axis_follows_from_the_seat() -> None:
    plan = plan_of(tower())
    travel = Travel(0, 4, 2)
    assert stretch(plan, "cage", travel).axis is Axis.DEPTH
    assert stretch(plan, "front fans", travel).axis is Axis.HEIGHT
    told = stretch(plan, "card", travel)
    assert (told.axis, told.reason) == (
        Axis.HEIGHT,
        "its slots follow one another along height",
    )
    assert stretch(plan, "card", travel, axis=Axis.DEPTH).axis is Axis.DEPTH


def test_one_body_of_a_part_moves_alone() -> None:
    told = stretch(plan_of(tower()), "cooler/fan 1", Travel(0, 40, 20))
    assert told.axis is Axis.WIDTH
    assert [row.verdict.fails for row in told.rows] == [False, True, True]
    ((low, high),) = told.clear_mm
    assert (low, 0 < high < 20) == (0.0, True)


@pytest.mark.parametrize("travel", [(5, 0, 1), (0, 5, 0), (0, 5, -1), (0, 1e9, 1)])
def test_a_travel_that_leads_nowhere_is_refused(
    travel: tuple[float, float, float],
) -> None:
    with pytest.raises(MoveError, match="would be right"):
        Travel(*travel)


@pytest.mark.parametrize("name", ["cooler/fan 9", "fans", "case", "case/floor"])
def test_an_unknown_part_or_body_is_refused(name: str) -> None:
    with pytest.raises(MoveError, match="would be right"):
        stretch(plan_of(tower()), name, Travel(0, 10, 5))


def test_of_a_liquid_cooler_the_radiator_travels_and_the_block_stays() -> None:
    told = stretch(plan_of(wet()), "cooler", Travel(-60, 60, 20))
    assert told.axis is Axis.HEIGHT
    limits = {name for row in told.rows for name in row.limited_by or ()}
    assert "cooler/radiator" in limits
    assert "cooler/block" not in limits


def test_fans_clear_only_where_their_holes_meet_the_mounts() -> None:
    # three places of 120 on the mount, two of them taken: holes meet at each place
    told = stretch(plan_of(tower()), "front fans", Travel(-250, 250, 0.5))
    assert told.clear_mm
    assert all(high - low < 2.0 for low, high in told.clear_mm)
    screwed = [row for row in told.rows if row.verdict is not Verdict.MISSING]
    assert 0 < len(screwed) < 20
    assert any(row.position == 0.0 for row in screwed)


def test_a_slot_lets_fans_travel_as_far_as_it_is_long() -> None:
    build = plan_of(tower()).build()
    (fixing,) = [each for each in build.fixings if each.part == "front fans"]
    assert fixing.theirs is not None
    up = fixing.theirs.across.index(Axis.HEIGHT)
    slots = replace(
        fixing.theirs,
        holes=tuple(
            replace(
                hole,
                to_mm=(
                    hole.at_mm[0] + 12.0 * (up == 0),
                    hole.at_mm[1] + 12.0 * (up == 1),
                ),
            )
            for hole in fixing.theirs.holes
        ),
    )
    round_ones, slotted = (
        screwed(
            _with_fixing(build, each),
            "front fans",
            Axis.HEIGHT,
            travel_mm=(-30.0, 30.0),
        )
        for each in (fixing, replace(fixing, theirs=slots))
    )
    assert round_ones
    assert slotted
    (low, high), (first, last) = round_ones[0], slotted[0]
    assert (last - first) - (high - low) == pytest.approx(12.0)


@pytest.mark.parametrize(
    ("name", "key", "axis"),
    [
        ("tower", "front fans", Axis.DEPTH),
        ("tower", "supply", Axis.DEPTH),
        ("tower", "rear fan", Axis.DEPTH),
        ("wet", "cooler", Axis.DEPTH),
    ],
)
def test_off_the_holes_plane_a_part_is_held_only_where_it_stands(
    name: str, key: str, axis: Axis
) -> None:
    plan = plan_of(MACHINES[name])
    build = plan.build()
    assert screwed(build, key, axis, travel_mm=(-30.0, 30.0)) == ((0.0, 0.0),)
    assert screwed(build, key, axis, travel_mm=(1.0, 30.0)) == ()
    told = stretch(plan, key, Travel(0.0, 2.0, 1.0), axis=axis)
    off = [row.verdict is Verdict.MISSING for row in told.rows]
    assert off == [False, True, True]
    assert told.clear_mm in {(), ((0.0, 0.0),)}


def test_along_their_plane_holes_are_met_on_stretches() -> None:
    build = plan_of(tower()).build()
    (along,) = screwed(build, "front fans", Axis.HEIGHT, travel_mm=(-1.0, 1.0)) or ()
    assert along[0] < 0.0 < along[1]


def _with_fixing(build: Build, fixing: Fixing) -> Build:
    fixings = tuple(fixing if e.part == fixing.part else e for e in build.fixings)
    return replace(build, fixings=fixings)


def test_a_fan_rises_no_farther_than_the_cooler_height_that_is_stated() -> None:
    """What a stretch tells is what the named heights of the same fan tell."""
    plan, _ = read_plan(CASES / "mixing-build.yaml")
    told = stretch(plan, "cooler/fan 1", Travel(0, 20, 10))
    by_name = {row.position: row for row in positions(plan, ["cooler"]).rows}
    names = ("fan at its lowest", "fan raised by 10 mm", "fan raised by 20 mm")
    for row, name in zip(told.rows, names, strict=True):
        named = by_name[name]
        assert row.verdict is named.verdict
        assert row.least_margin_mm == pytest.approx(named.least_margin_mm)
        assert row.limited_by == named.limited_by
    ((low_mm, high_mm),) = told.clear_mm
    # by hand: 164 are stated, and the fan of 120 stands 145 high at its lowest
    assert (low_mm, high_mm) == pytest.approx((0.0, 19.0))


def test_a_card_longer_than_is_stated_is_so_at_every_place() -> None:
    plan = plan_of(tower())
    assert plan.case is not None
    plan = replace(plan, case=replace(plan.case, longest_card=mm(200)))
    found = check(plan.build(), of={"card"}, groups=GROUPS).findings
    (stated,) = (each for each in found if each.rule == STATED_LIMIT)
    told = stretch(plan, "card", Travel(-2.0, 2.0, 1.0), axis=Axis.DEPTH)
    assert stated.margin_mm is not None
    assert stated.margin_mm < 0.0
    assert all(stated.margin_mm in row.margins_mm for row in told.rows)
    assert all(row.verdict.fails for row in told.rows)
    assert told.clear_mm == ()
