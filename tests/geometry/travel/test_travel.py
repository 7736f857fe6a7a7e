"""What is blocked on the way: against stepping, closed forms, and by properties."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.geometry.bodies.body import Body, Shape
from layout.geometry.bodies.crowd import Crowd
from layout.geometry.relations.query import clearances, relation
from layout.geometry.relations.relation import State
from layout.geometry.solids.round import disc_outline
from layout.geometry.solids.solid import Solid, block, rectangle
from layout.geometry.space import Axis, Vector
from layout.geometry.travel.stretches import Stretches
from layout.geometry.travel.travel import blocked, blocked_pairs
from tests import strategies as own
from tests.geometry.bulk import along
from tests.geometry.random_bodies import random_pairs
from tests.zoo import ZOO, animal

TRAVEL_MM = (-150.0, 150.0)
NEEDS_MM = (0.0, 1e-6, 0.5, 4.0, 25.0)


def _box(name: str, *spans: tuple[float, float]) -> Body:
    return Body(name=name, shape=Shape((block(*spans),)))


def _stepped(
    pair: tuple[Body, Body], axis: Axis, shifts: list[float]
) -> list[tuple[bool, float]]:
    """Return at each shift of b whether the two interfere, and their gap."""
    a, b = pair
    moves = [along(axis, shift) for shift in shifts]
    crowd = Crowd.of_places(b, moves, [a])
    found = clearances(crowd, [(len(moves), k) for k in range(len(moves))])
    return [*zip(found.interfering.tolist(), found.gap_mm.tolist(), strict=True)]


def _hindered(stands: tuple[bool, float], need_mm: float) -> bool:
    interfering, gap_mm = stands
    return interfering or gap_mm < need_mm - 1e-6


@pytest.mark.parametrize("axis", Axis)
@pytest.mark.parametrize("need_mm", NEEDS_MM)
def test_every_step_agrees(axis: Axis, need_mm: float) -> None:
    steps = np.linspace(-149.0, 149.0, 61).tolist()
    met = 0
    for a, b in random_pairs(51, 60):
        found = blocked(a, b, axis, travel_mm=TRAVEL_MM, need_mm=need_mm)
        for shift, stands in zip(steps, _stepped((a, b), axis, steps), strict=True):
            inside = any(low < shift < high for low, high in found)
            assert _hindered(stands, need_mm) == inside
            met += inside
    assert met > 200


@pytest.mark.parametrize("axis", Axis)
@pytest.mark.parametrize("need_mm", NEEDS_MM)
def test_ends_are_clear_and_a_hair_inside_is_not(axis: Axis, need_mm: float) -> None:
    seen = 0
    for a, b in random_pairs(52, 75):
        found = blocked(a, b, axis, travel_mm=TRAVEL_MM, need_mm=need_mm)
        inner = [
            (end, inward)
            for low, high in found
            for end, inward in ((low, 1), (high, -1))
            if abs(end) < TRAVEL_MM[1]
        ]
        seen += len(inner)
        ends = [end for end, _ in inner]
        for stands in _stepped((a, b), axis, ends):
            assert not _hindered(stands, need_mm)
        within = [end + inward * 3e-9 for end, inward in inner]
        for (interfering, gap_mm), short in zip(
            _stepped((a, b), axis, within), within, strict=True
        ):
            # A slope may take the gap a rounding under its need, no more.
            assert interfering or gap_mm < need_mm - 1e-6 + 1e-11, short
    assert seen > 60


def test_the_gap_at_an_end_is_the_need() -> None:
    for axis in Axis:
        for a, b in random_pairs(53, 75):
            found = blocked(a, b, axis, travel_mm=TRAVEL_MM, need_mm=7.0)
            ends = [end for stretch in found for end in stretch if abs(end) < 150]
            for _, gap_mm in _stepped((a, b), axis, ends):
                assert gap_mm == pytest.approx(7.0 - 1e-6, abs=2e-9)


@pytest.mark.parametrize("axis", Axis)
def test_boxes_are_blocked_as_intervals_are(axis: Axis) -> None:
    a, b = _box("a", (0, 10), (0, 20), (0, 30)), _box("b", (0, 1), (0, 2), (0, 3))
    size, own_size = (10, 20, 30)[axis.index], (1, 2, 3)[axis.index]
    ((low, high),) = blocked(a, b, axis, travel_mm=(-90, 90))
    assert low == pytest.approx(-own_size + 1e-6, abs=2e-9)
    assert high == pytest.approx(size - 1e-6, abs=2e-9)
    ((low, high),) = blocked(a, b, axis, travel_mm=(-90, 90), need_mm=5)
    assert low == pytest.approx(-own_size - 5 + 1e-6, abs=2e-9)
    assert high == pytest.approx(size + 5 - 1e-6, abs=2e-9)


def test_a_box_passing_beside_comes_near_by_a_right_triangle() -> None:
    a, b = _box("a", (0, 10), (0, 10), (0, 10)), _box("b", (0, 4), (13, 15), (0, 10))
    ((low, high),) = blocked(a, b, Axis.DEPTH, travel_mm=(-90, 90), need_mm=5)
    half = math.sqrt((5 - 1e-6) ** 2 - 9)
    assert low == pytest.approx(-4 - half, abs=2e-9)
    assert high == pytest.approx(10 + half, abs=2e-9)
    assert blocked(a, b, Axis.DEPTH, travel_mm=(-90, 90), need_mm=3) == ()


def test_two_rods_pass_one_another_by_their_radii() -> None:
    """Round outlines carried along width: corner to corner along height."""
    rod = Body(
        name="rod",
        shape=Shape((Solid(disc_outline((0, 0), 20), rectangle((-10, 10), (0, 5))),)),
    )
    other = rod.moved((15, 0, 0))
    ((low, high),) = blocked(rod, other, Axis.HEIGHT, travel_mm=(-90, 90), need_mm=2)
    # True circles of radius 10: the polygons lie up to 0.05 mm outside.
    half = math.sqrt(22**2 - 15**2)
    assert half < high < math.sqrt(22.1**2 - 15**2)
    assert low == pytest.approx(-high, abs=1e-9)


def test_a_slot_as_wide_as_the_body_lets_it_stand_in_between() -> None:
    rack = Body(
        name="rack",
        shape=Shape((block((0, 10), (0, 9), (0, 9)), block((30, 40), (0, 9), (0, 9)))),
    )
    plate = _box("plate", (0, 20), (0, 9), (0, 9))
    (_, first), (second, _) = blocked(rack, plate, Axis.DEPTH, travel_mm=(-90, 90))
    assert first == pytest.approx(10, abs=2e-6)
    assert second == pytest.approx(10, abs=2e-6)
    assert first < 10 < second
    assert len(blocked(rack, plate, Axis.DEPTH, travel_mm=(-90, 90), need_mm=1)) == 1


def test_faces_that_slide_along_one_another_do_not_block() -> None:
    a = _box("a", (0, 10), (0, 10), (0, 10))
    b = _box("b", (-50, -40), (10, 20), (0, 10))
    assert blocked(a, b, Axis.DEPTH, travel_mm=(0, 90)) == ()
    pressed = b.moved((0, -2e-5, 0))
    assert len(blocked(a, pressed, Axis.DEPTH, travel_mm=(0, 90))) == 1
    assert len(blocked(a, b, Axis.DEPTH, travel_mm=(0, 90), need_mm=0.1)) == 1


def test_a_stretch_is_cut_off_where_the_travel_ends() -> None:
    a, b = _box("a", (0, 10), (0, 10), (0, 10)), _box("b", (2, 8), (0, 10), (0, 10))
    assert blocked(a, b, Axis.DEPTH, travel_mm=(-1, 1)) == ((-1.0, 1.0),)
    assert blocked(a, b, Axis.DEPTH, travel_mm=(0, 0)) == ((0.0, 0.0),)
    assert blocked(a, b, Axis.DEPTH, travel_mm=(50, 90)) == ()
    ((low, high),) = blocked(a, b, Axis.DEPTH, travel_mm=(5, 90))
    assert low == 5
    assert high == pytest.approx(8, abs=2e-6)


_PAIRS = st.tuples(own.bodies("a"), own.bodies("b"))
_NEEDS = st.integers(1, 600).map(lambda tenths: tenths / 10)


@settings(max_examples=60)
@given(_PAIRS, st.sampled_from(Axis), _NEEDS)
def test_the_other_way_round_is_the_mirror_image(
    pair: tuple[Body, Body], axis: Axis, need_mm: float
) -> None:
    a, b = pair
    for need in (0.0, need_mm):
        one = blocked(a, b, axis, travel_mm=(-80, 120), need_mm=need)
        other = blocked(b, a, axis, travel_mm=(-120, 80), need_mm=need)
        _assert_same(one, tuple((-high, -low) for low, high in reversed(other)))


@settings(max_examples=100)
@given(_PAIRS, own.decimal_moves(), st.sampled_from(NEEDS_MM))
def test_a_start_elsewhere_moves_the_stretches(
    pair: tuple[Body, Body], move: Vector, need_mm: float
) -> None:
    a, b = pair
    axis = max(Axis, key=lambda each: abs(move[each.index]))
    by_mm = move[axis.index]
    one = blocked(a, b, axis, travel_mm=(-80, 80), need_mm=need_mm)
    there = b.moved(along(axis, by_mm))
    travel_mm = (-80 - by_mm, 80 - by_mm)
    other = blocked(a, there, axis, travel_mm=travel_mm, need_mm=need_mm)
    _assert_same(one, tuple((low + by_mm, high + by_mm) for low, high in other))


@settings(max_examples=60)
@given(own.bodies("a"), own.bodies("b"), st.sampled_from(Axis))
def test_a_larger_need_blocks_more(a: Body, b: Body, axis: Axis) -> None:
    before: Stretches = ()
    for need_mm in NEEDS_MM:
        found = blocked(a, b, axis, travel_mm=(-80, 80), need_mm=need_mm)
        for low, high in before:
            assert any(c <= low + 1e-8 and high - 1e-8 <= d for c, d in found)
        before = found


@settings(max_examples=60)
@given(own.bodies("a"), own.bodies("b"), st.sampled_from(Axis))
def test_relation_agrees_where_the_body_stands(a: Body, b: Body, axis: Axis) -> None:
    stands = relation(a, b)
    hit = stands.state is State.INTERFERING
    for need_mm in (0.0, stands.gap_mm + 0.01, max(0.0, stands.gap_mm - 0.01)):
        found = blocked(a, b, axis, travel_mm=(0, 0), need_mm=need_mm)
        assert bool(found) == _hindered((hit, stands.gap_mm), need_mm)


def _assert_same(one: Stretches, other: Stretches) -> None:
    assert len(one) == len(other)
    assert np.abs(np.subtract(one, other)).max(initial=0.0) < 1e-8


@pytest.mark.parametrize("name", ZOO)
def test_each_of_the_zoo_passes_its_like(name: str) -> None:
    a, b = animal(name), animal(name).moved((0.3, 0.2, 0.1))
    steps = np.linspace(-89.0, 89.0, 37).tolist()
    for axis in Axis:
        for need_mm in (0.0, 3.0):
            found = blocked(a, b, axis, travel_mm=(-90, 90), need_mm=need_mm)
            told = [any(low < x < high for low, high in found) for x in steps]
            stepped = _stepped((a, b), axis, steps)
            assert told == [_hindered(each, need_mm) for each in stepped]


@pytest.mark.parametrize("axis", Axis)
def test_many_pairs_at_once_are_the_same_as_one_by_one(axis: Axis) -> None:
    bodies = [body for pair in random_pairs(54, 12) for body in pair]
    pairs = [(i, j) for i in range(len(bodies)) for j in range(len(bodies)) if i != j]
    needs = [NEEDS_MM[k % len(NEEDS_MM)] for k in range(len(pairs))]
    found = blocked_pairs(
        Crowd.of(bodies), pairs, axis, travel_mm=TRAVEL_MM, need_mm=needs
    )
    for (i, j), need_mm, stretches in zip(pairs, needs, found, strict=True):
        alone = blocked(
            bodies[i], bodies[j], axis, travel_mm=TRAVEL_MM, need_mm=need_mm
        )
        _assert_same(stretches, alone)


def test_no_pairs_block_nothing() -> None:
    assert blocked_pairs([], [], Axis.DEPTH, travel_mm=(0, 1)) == ()


@pytest.mark.parametrize("travel_mm", [(1, 0), (math.nan, 1), (0, math.inf)])
def test_a_travel_that_is_none_is_refused(travel_mm: tuple[float, float]) -> None:
    a = _box("a", (0, 1), (0, 1), (0, 1))
    with pytest.raises(ValueError, match="two finite shifts in rising order"):
        blocked(a, a, Axis.DEPTH, travel_mm=travel_mm)


def test_a_need_without_end_is_refused() -> None:
    a = _box("a", (0, 1), (0, 1), (0, 1))
    with pytest.raises(ValueError, match="not finite"):
        blocked(a, a, Axis.DEPTH, travel_mm=(0, 1), need_mm=math.inf)
