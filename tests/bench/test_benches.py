"""The comparisons run, and their answers are equal, on crowds of a tiny size."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from layout.geometry.relations.query import Clearances
from tests.bench import geometry
from tests.bench.geometry import Comparison, UnequalError
from tests.bench.shares import shares

_TINY: dict[str, Callable[[], Comparison]] = {
    "crowd": lambda: geometry.crowd(8),
    "whole solids": lambda: geometry.whole_solids(5),
    "slide": lambda: geometry.slide(places=6, others=7),
}


@pytest.mark.parametrize("name", _TINY)
def test_answers_are_equal_and_the_report_says_so(name: str) -> None:
    lines = geometry.report(_TINY[name](), rounds=1)
    assert "all equal" in lines[1]
    assert "times as fast" in lines[3]


def test_another_gap_is_refused() -> None:
    comparison = geometry.whole_solids(5)
    other = [(met, gap_mm + 1e-5) for met, gap_mm in comparison.theirs()]
    with pytest.raises(UnequalError, match="but the baseline"):
        geometry.check(replace(comparison, theirs=lambda: other))


def test_a_pair_left_out_that_matters_is_refused() -> None:
    comparison = geometry.whole_solids(5)
    nothing = Clearances(
        np.zeros((0, 2), dtype=np.intp), np.zeros(0, dtype=bool), np.zeros(0)
    )
    with pytest.raises(UnequalError, match="left out"):
        geometry.check(replace(comparison, ours=lambda: nothing))


def test_shares_make_a_whole() -> None:
    parts = shares(geometry.crowd(8).ours)
    assert sum(parts.values()) == pytest.approx(1.0)
    assert parts["numpy"] > parts["shapely"]
