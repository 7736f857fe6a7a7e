"""Hole patterns against hand sums, and against distances an outside library gives."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import LineString, Point

from layout.geometry.errors import HoleError
from layout.geometry.holes.holes import Hole, Rail, meeting

SCREW_MM = 3.0
HARD_TO_TELL_MM = 1e-6


def square(side_mm: float, *, diameter_mm: float = 3.0) -> tuple[Hole, ...]:
    half_mm = side_mm / 2
    return tuple(
        Hole(name=name, at_mm=(x, y), diameter_mm=diameter_mm)
        for name, x, y in (
            ("a", -half_mm, -half_mm),
            ("b", half_mm, -half_mm),
            ("c", half_mm, half_mm),
            ("d", -half_mm, half_mm),
        )
    )


def test_a_pattern_meets_itself() -> None:
    found = meeting(square(75.0), square(75.0), screw_mm=SCREW_MM)
    assert found.missed == ()
    assert [own == other for own, other in found.met] == [True] * 4
    assert found.ranges_mm == ((0.0, 0.0),)


def test_a_larger_square_misses_at_every_corner_along_both_axes() -> None:
    found = meeting(square(75.0), square(78.0), screw_mm=SCREW_MM)
    assert found.met == ()
    for miss in found.missed:
        assert miss.nearest == miss.hole
        assert [abs(each) for each in miss.by_mm] == pytest.approx([1.5, 1.5])
        assert miss.length_mm == pytest.approx(math.hypot(1.5, 1.5))


@pytest.mark.parametrize(("diameter_mm", "meets"), [(5.1, False), (5.2, True)])
def test_play_of_both_holes_counts(diameter_mm: float, *, meets: bool) -> None:
    # A corner is off by 1.5 * sqrt(2) = 2.121; each hole gives half of d - 3.
    found = meeting(
        square(75.0, diameter_mm=diameter_mm),
        square(78.0, diameter_mm=diameter_mm),
        screw_mm=SCREW_MM,
    )
    assert (found.missed == ()) is meets


def test_a_slot_takes_a_screw_anywhere_between_its_ends() -> None:
    slot = Hole(name="s", at_mm=(0.0, 0.0), to_mm=(10.0, 0.0), diameter_mm=3.0)
    for x_mm, wanting_mm in ((-2.0, 2.0), (0.0, 0.0), (7.5, 0.0), (12.5, -2.5)):
        hole = Hole(name="h", at_mm=(x_mm, 0.0), diameter_mm=3.0)
        found = meeting((hole,), (slot,), screw_mm=SCREW_MM)
        missed = [each.by_mm[0] for each in found.missed]
        assert missed == ([pytest.approx(wanting_mm)] if wanting_mm else [])


def test_crossed_slots_meet_where_they_cross() -> None:
    lying = Hole(name="s", at_mm=(-5.0, 0.0), to_mm=(5.0, 0.0), diameter_mm=3.0)
    upright = Hole(name="u", at_mm=(4.0, -9.0), to_mm=(4.0, 9.0), diameter_mm=3.0)
    beside = Hole(name="u", at_mm=(6.5, -9.0), to_mm=(6.5, 9.0), diameter_mm=3.0)
    assert meeting((lying,), (upright,), screw_mm=SCREW_MM).missed == ()
    (miss,) = meeting((lying,), (beside,), screw_mm=SCREW_MM).missed
    assert miss.by_mm == pytest.approx((1.5, 0.0))


def test_a_rail_finds_the_place_where_all_meet() -> None:
    rail = Rail(along=(0.0, 1.0), length_mm=50.0)
    theirs = [
        Hole(name=each.name, at_mm=(each.at_mm[0], each.at_mm[1] + 30), diameter_mm=4)
        for each in square(75.0)
    ]
    found = meeting(square(75.0), theirs, screw_mm=SCREW_MM, rail=rail)
    assert found.missed == ()
    assert found.shift_mm == pytest.approx(29.5)
    ((low_mm, high_mm),) = found.ranges_mm
    assert (low_mm, high_mm) == pytest.approx((29.5, 30.5))


def test_where_no_place_meets_all_the_one_that_meets_most_is_told() -> None:
    own = [Hole(name=str(x), at_mm=(x, 0.0), diameter_mm=3.0) for x in (0, 10, 20)]
    theirs = [Hole(name=str(x), at_mm=(x, 0.0), diameter_mm=3.0) for x in (4, 14, 26)]
    rail = Rail(along=(1.0, 0.0), length_mm=8.0)
    found = meeting(own, theirs, screw_mm=SCREW_MM, rail=rail)
    assert found.met == (("0", "4"), ("10", "14"))
    (miss,) = found.missed
    assert (miss.hole, miss.nearest) == ("20", "26")
    assert miss.by_mm == pytest.approx((2.0, 0.0))
    assert found.ranges_mm == ()


def test_a_hole_without_any_other_has_no_nearest() -> None:
    (*_, last) = meeting(square(75.0), (), screw_mm=SCREW_MM).missed
    assert (last.hole, last.nearest, last.by_mm) == ("d", None, (0.0, 0.0))


def test_what_a_place_may_be_off_is_no_miss() -> None:
    taped = Hole(name="t", at_mm=(1.2, 0.0), diameter_mm=3.0, off_mm=1.0)
    hole = Hole(name="h", at_mm=(0.0, 0.0), diameter_mm=3.0)
    (miss,) = meeting((hole,), (taped,), screw_mm=SCREW_MM).missed
    assert miss.length_mm == pytest.approx(0.2)


def test_a_hole_narrower_than_the_screw_is_refused() -> None:
    with pytest.raises(HoleError, match=r"hole a of 3 mm takes no screw of 4 mm"):
        meeting(square(75.0), square(75.0), screw_mm=4.0)


LENGTHS = st.floats(-20.0, 20.0, allow_subnormal=False)
PLACES = st.tuples(LENGTHS, LENGTHS)


@st.composite
def patterns(draw: st.DrawFn) -> tuple[Hole, ...]:
    count = draw(st.integers(1, 3))
    return tuple(
        Hole(
            name=str(number),
            at_mm=draw(PLACES),
            to_mm=draw(st.none() | PLACES),
            diameter_mm=draw(st.floats(SCREW_MM, 9.0)),
        )
        for number in range(count)
    )


def outside_miss_mm(own: Hole, theirs: Hole, shift: tuple[float, float]) -> float:
    """Return how far two holes miss, by the outside library's distance."""
    lines = [
        LineString([each.at_mm, each.to_mm]) if each.to_mm else Point(each.at_mm)
        for each in (own, theirs)
    ]
    far_mm = affinity.translate(lines[0], *shift).distance(lines[1])
    play_mm = (own.diameter_mm + theirs.diameter_mm) / 2 - SCREW_MM
    return float(far_mm) - play_mm


@given(own=patterns(), theirs=patterns())
def test_misses_are_the_outside_distances(
    own: tuple[Hole, ...], theirs: tuple[Hole, ...]
) -> None:
    found = meeting(own, theirs, screw_mm=SCREW_MM)
    missed = {each.hole: each for each in found.missed}
    for hole in own:
        least_mm = min(outside_miss_mm(hole, each, (0, 0)) for each in theirs)
        if abs(least_mm) < HARD_TO_TELL_MM:
            continue
        assert (hole.name in missed) == (least_mm > 0.0)
        if hole.name in missed:
            assert missed[hole.name].length_mm == pytest.approx(least_mm, abs=1e-6)
    assert len(found.met) + len(found.missed) == len(own)


@given(
    own=patterns(),
    theirs=patterns(),
    angle=st.sampled_from([0.0, 30.0, 90.0, 225.0]),
    length_mm=st.floats(0.0, 40.0),
    share=st.floats(0.0, 1.0),
)
def test_the_stretches_of_a_rail_are_those_where_all_meet(
    own: tuple[Hole, ...],
    theirs: tuple[Hole, ...],
    *,
    angle: float,
    length_mm: float,
    share: float,
) -> None:
    along = (math.cos(math.radians(angle)), math.sin(math.radians(angle)))
    rail = Rail(along=along, length_mm=length_mm)
    found = meeting(own, theirs, screw_mm=SCREW_MM, rail=rail)
    assert (found.missed == ()) == bool(found.ranges_mm)
    at_mm = share * length_mm
    shift = (along[0] * at_mm, along[1] * at_mm)
    worst_mm = max(min(outside_miss_mm(a, b, shift) for b in theirs) for a in own)
    within = any(low <= at_mm <= high for low, high in found.ranges_mm)
    if abs(worst_mm) > HARD_TO_TELL_MM:
        assert within == (worst_mm < 0.0)
