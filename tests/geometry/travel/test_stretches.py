"""Unions of intervals, by owner."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from layout.geometry.travel.stretches import clear_of, merged, union

_ENDS = st.tuples(st.integers(0, 40), st.integers(0, 6)).map(
    lambda pair: (float(pair[0]), float(pair[0] + pair[1]))
)
_OWNED = st.lists(st.tuples(st.integers(0, 3), _ENDS), max_size=30)


def _arrays(
    owned: list[tuple[int, tuple[float, float]]],
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    owner = np.array([each for each, _ in owned], np.intp)
    low, high = np.array([ends for _, ends in owned]).reshape(-1, 2).T
    return owner, low, high


@given(_OWNED)
def test_a_union_holds_the_same_points_and_is_disjoint(
    owned: list[tuple[int, tuple[float, float]]],
) -> None:
    found = union(*_arrays(owned))
    for owner in range(4):
        stretches = found.of(owner)
        for x in np.arange(-0.5, 47.0, 0.25):
            inside = any(low <= x <= high for _, (low, high) in _own(owned, owner))
            assert any(low <= x <= high for low, high in stretches) == inside
        ends = [end for stretch in stretches for end in stretch]
        assert ends == sorted(ends)
        assert all(a[1] < b[0] for a, b in pairwise(stretches))


def _own(
    owned: list[tuple[int, tuple[float, float]]], owner: int
) -> list[tuple[int, tuple[float, float]]]:
    return [each for each in owned if each[0] == owner]


@given(_OWNED, _OWNED)
def test_what_is_covered_lies_within_one_of_the_owners_intervals(
    owned: list[tuple[int, tuple[float, float]]],
    asked: list[tuple[int, tuple[float, float]]],
) -> None:
    found = union(*_arrays(owned))
    covered = found.covers(*_arrays(asked))
    for (owner, (low, high)), told in zip(asked, covered, strict=True):
        within = [a <= low and high <= b for a, b in found.of(owner)]
        assert any(within) == told


@given(_OWNED, _OWNED)
def test_more_is_the_union_of_both(
    owned: list[tuple[int, tuple[float, float]]],
    more: list[tuple[int, tuple[float, float]]],
) -> None:
    added = union(*_arrays(owned)).with_more(*_arrays(more))
    both = union(*_arrays(owned + more))
    assert [added.of(k) for k in range(4)] == [both.of(k) for k in range(4)]
    parts = [[ends for _, ends in _own(each, 0)] for each in (owned, more)]
    assert merged(tuple(part) for part in parts) == both.of(0)


def test_what_is_clear_is_the_rest() -> None:
    assert clear_of(((0.0, 9.0),), (0.0, 9.0)) == ()
    assert clear_of(((3.0, 4.0),), (0.0, 9.0)) == ((0.0, 3.0), (4.0, 9.0))
    assert clear_of((), (0.0, 9.0)) == ((0.0, 9.0),)
    assert clear_of(((2.0, 2.0),), (2.0, 2.0)) == ()
