"""What positions and headroom of a full build cost, in single checks of it.

A check is one through the library with pairs; it asks more than a position does (bends
of cables, plugs), so the checks' own time without those is told as well.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

from layout.build.plan import Plan
from layout.files.build_file import read_plan
from layout.questions.asked import asked
from layout.questions.check import check, margins
from layout.questions.headroom import headroom
from layout.questions.stretch import Travel, stretch

__all__ = ["main", "ratios"]

CASES = Path(__file__).parents[2] / "cases"
FULL = ("audiobook", "newsroom", "archive")


def ratios(plan: Plan, *, moved: str = "cage", places: int = 1000) -> dict[str, float]:
    """Return how many checks each question costs."""
    build = plan.build()
    check_s = _seconds(lambda: check(build, with_pairs=True))
    pairs_s = _seconds(lambda: margins(build, asked(build)))
    travel = Travel(-60.0, 60.0, 120.0 / (places - 1))
    return {
        "places": _seconds(lambda: stretch(plan, moved, travel), rounds=2) / check_s,
        "headroom": _seconds(lambda: headroom(plan), rounds=1) / check_s,
        "distances alone": pairs_s / check_s,
    }


def _seconds(run: Callable[[], object], *, rounds: int = 5) -> float:
    least = float("inf")
    for _ in range(rounds):
        start = time.process_time()
        run()
        least = min(least, time.process_time() - start)
    return least


def main() -> None:
    """Print the ratios of the full examples."""
    for name in FULL:
        plan, _ = read_plan(CASES / f"{name}-build.yaml")
        told = ratios(plan)
        print(
            f"{name}: 1,000 places of the cage cost {told['places']:.1f} checks with "
            f"pairs (aim: under 60), headroom {told['headroom']:.1f} (aim: under 20); "
            f"a check's distances alone are {told['distances alone']:.2f} of it"
        )


if __name__ == "__main__":
    main()
