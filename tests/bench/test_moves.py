from __future__ import annotations

from tests.bench.moves import ratios
from tests.build.machines import tower
from tests.questions.moving.test_positions import plan_of


def test_the_bench_runs_and_tells_ratios() -> None:
    parts = {key: tower()[key] for key in ("board", "supply", "cage")}
    told = ratios(plan_of(parts), places=5, rounds=1)
    assert set(told) == {"places", "headroom", "headroom, with pairs"}
    assert min(told.values()) > 0.0
