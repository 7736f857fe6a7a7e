"""What positions and headroom of a full build cost, in single checks of it.

A check is one through the library of the rule groups `distance` and `holes`: what a
position is judged by.  1,000 positions are set against one with pairs, headroom against
one without, which asks for less.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from pathlib import Path

from layout.build.plan import Plan
from layout.files.build_file import read_plan
from layout.parts.cooling.fan import Fan
from layout.parts.drives.cage import Cage
from layout.parts.supply.supply import Supply
from layout.questions.checking.check import check
from layout.questions.growing.headroom import headroom
from layout.questions.moving.positions import GROUPS
from layout.questions.moving.stretch import Travel, stretch

__all__ = ["main", "ratios"]

CASES = Path(__file__).parents[2] / "cases"


def ratios(plan: Plan, *, places: int = 1000, rounds: int = 3) -> dict[str, float]:
    """Return how many checks each question costs."""
    build = plan.build()
    travel = Travel(-60.0, 60.0, 120.0 / (places - 1))
    spent = _seconds(
        {
            "check": lambda: check(build, groups=GROUPS),
            "with pairs": lambda: check(build, groups=GROUPS, with_pairs=True),
            "places": lambda: stretch(plan, _moved(plan), travel),
            "headroom": lambda: headroom(plan),
        },
        rounds=rounds,
    )
    return {
        "places": spent["places"] / spent["with pairs"],
        "headroom": spent["headroom"] / spent["check"],
        "headroom, with pairs": spent["headroom"] / spent["with pairs"],
    }


def _moved(plan: Plan) -> str:
    """Return the cage, or else the first fans, or the supply."""
    of_sort = [
        each.key
        for kind in (Cage, Fan, Supply)
        for each in plan.entries
        if isinstance(each.spec, kind)
    ]
    return of_sort[0]


def _seconds(
    calls: Mapping[str, Callable[[], object]], *, rounds: int
) -> dict[str, float]:
    """Return the least processor time of each, in turns."""
    least = dict.fromkeys(calls, float("inf"))
    for _ in range(rounds):
        for name, call in calls.items():
            for _ in range(_OFTEN if "check" in name or "pairs" in name else 1):
                start = time.process_time()
                call()
                least[name] = min(least[name], time.process_time() - start)
    return least


_OFTEN = 5
"""How often what takes little is run in a turn."""


def main() -> None:
    """Print the ratios of every example."""
    for path in sorted(CASES.glob("*-build.yaml")):
        plan, _ = read_plan(path)
        told = ratios(plan)
        print(
            f"{path.stem}: 1,000 places of {_moved(plan)} cost {told['places']:.1f} "
            f"checks with pairs (aim: under 60), headroom {told['headroom']:.1f} "
            f"checks (aim: under 20), {told['headroom, with pairs']:.1f} with pairs"
        )


if __name__ == "__main__":
    main()
