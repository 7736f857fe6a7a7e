from __future__ import annotations

import pytest

from layout.questions.reach.hoses import hoses_of
from tests.bench.hoses import ways
from tests.questions.reach.test_loops import wet


def test_the_bench_counts_hoses_and_their_ways() -> None:
    build = wet("top", 400)
    (hoses,) = hoses_of(build)
    told = ways([("one", build), ("two", build)])
    assert (told.found, told.sought, told.without) == (4, 4, ())
    assert told.whole_mm == pytest.approx(2 * sum(way.mm for way in hoses.ways))
