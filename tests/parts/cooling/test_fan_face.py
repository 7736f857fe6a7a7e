"""Fans side by side on one face, against every way to choose and shift them."""

from __future__ import annotations

import doctest
from itertools import chain, pairwise, permutations

from hypothesis import given
from hypothesis import strategies as st

from layout.geometry.space import Axis
from layout.parts.cooling import fan_face
from layout.parts.cooling.fan_face import arranged, together
from layout.parts.form.form import FanRow


def row(size: int, count: int, start_mm: float, *, travel_mm: float = 0.0) -> FanRow:
    return FanRow(
        size_mm=size,
        count=count,
        along=Axis.HEIGHT,
        start_mm=start_mm,
        travel_mm=travel_mm,
    )


def test_the_example_holds() -> None:
    assert doctest.testmod(fan_face).failed == 0


def test_frames_may_touch() -> None:
    assert together([row(120, 1, 0.0), row(140, 1, 120.0)]) == (((120, 1), (140, 1)),)
    assert together([row(120, 1, 0.0), row(140, 1, 119.9)]) == (
        ((120, 1),),
        ((140, 1),),
    )


def test_slots_make_room() -> None:
    rows = [row(120, 1, 0.0), row(140, 1, 110.0, travel_mm=20.0)]
    assert together(rows) == (((120, 1), (140, 1)),)
    less = [row(120, 1, 0.0), row(140, 1, 110.0, travel_mm=19.0)]
    assert together(less) == (((120, 1),), ((140, 1),))


def test_a_mount_without_rows_takes_nothing() -> None:
    assert together([]) == ((),)


ROWS = st.lists(
    st.tuples(
        st.sampled_from([2, 3]), st.integers(1, 2), st.integers(0, 4), st.integers(0, 2)
    ),
    max_size=2,
    unique_by=lambda each: each[0],
)


@given(ROWS)
def test_no_choice_is_left_out(told: list[tuple[int, int, int, int]]) -> None:
    rows = [
        row(size, count, float(at), travel_mm=float(more))
        for size, count, at, more in told
    ]
    frames = [
        (each.size_mm, each.start_mm + n * each.size_mm, each.travel_mm)
        for each in rows
        for n in range(each.count)
    ]
    orders = chain.from_iterable(
        permutations(frames, length) for length in range(len(frames) + 1)
    )
    possible = {
        tuple(sorted((s, sum(f[0] == s for f in each)) for s in {f[0] for f in each}))
        for each in orders
        if stands(each)
    }
    assert set(together(rows)) == {
        each for each in possible if not any(part_of(each, o) for o in possible)
    }


def stands(frames: tuple[tuple[int, float, float], ...]) -> bool:
    """Tell whether frames stand in this order, each as far down as it can."""
    end_mm = float("-inf")
    for size, low_mm, travel_mm in frames:
        at_mm = max(low_mm - travel_mm / 2, end_mm)
        if at_mm > low_mm + travel_mm / 2:
            return False
        end_mm = at_mm + size
    return True


def part_of(
    few: tuple[tuple[int, int], ...], many: tuple[tuple[int, int], ...]
) -> bool:
    of = dict(many)
    return few != many and all(of.get(size, 0) >= count for size, count in few)


@given(
    st.lists(
        st.tuples(st.integers(0, 9), st.sampled_from([2, 3]), st.integers(0, 3)),
        max_size=4,
    )
)
def test_parts_are_arranged_where_any_order_lets_them(
    told: list[tuple[int, int, int]],
) -> None:
    parts = [(float(at), float(at + size), float(slack)) for at, size, slack in told]
    frames = [(size, float(at), 2.0 * slack) for at, size, slack in told]
    shifts = arranged(parts)
    assert (shifts is not None) is any(stands(each) for each in permutations(frames))
    if shifts is None:
        return
    ends = sorted(
        (start + by, end + by)
        for (start, end, _), by in zip(parts, shifts, strict=True)
    )
    assert all(a[1] <= b[0] + 1e-9 for a, b in pairwise(ends))
    assert all(
        abs(by) <= slack + 1e-9 for (_, _, slack), by in zip(parts, shifts, strict=True)
    )
