"""How many hoses of water-cooled machines of any layout find a way.

``python -m tests.bench.hoses 60`` asks so many machines, always the same; putting them
together takes longer than the search.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from itertools import cycle, islice
from typing import Final

from layout.build.placed import Build
from layout.parts.form.form import Role
from layout.questions.reach.hoses import hoses_of
from layout.values import dataclass
from tests.build.any_machine import LAYOUTS, machine

__all__ = ["Ways", "main", "water_cooled", "ways"]

_MACHINES: Final = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Ways:
    """Hoses of some machines: how many found a way, and where not all did.

    ``whole_mm`` is the length of all ways that were found.
    """

    found: int
    sought: int
    whole_mm: float
    without: tuple[str, ...]


def water_cooled() -> Iterator[tuple[str, Build]]:
    """Yield water-cooled machines of every layout in turn, always the same."""
    for place, layout in enumerate(cycle(LAYOUTS)):
        seed = place // len(LAYOUTS)
        build = machine(layout, seed).build
        if any(each.role is Role.PUMP_BLOCK for each in build.bodies):
            yield f"{layout} {seed}", build


def ways(machines: Iterable[tuple[str, Build]]) -> Ways:
    """Return how many hoses of some machines find a way."""
    found, sought, whole_mm = 0, 0, 0.0
    without = []
    for name, build in machines:
        for hoses in hoses_of(build):
            found += len(hoses.ways)
            sought += len(hoses.pairs)
            whole_mm += sum(way.mm for way in hoses.ways)
            if len(hoses.ways) < len(hoses.pairs):
                without.append(name)
    return Ways(found=found, sought=sought, whole_mm=whole_mm, without=tuple(without))


def main() -> None:
    """Print how many find a way, and in which machines not all do."""
    machines = int(sys.argv[1]) if len(sys.argv) > 1 else _MACHINES
    told = ways(islice(water_cooled(), machines))
    print(
        f"{told.found} of {told.sought} hoses of {machines} machines find a way, "
        f"{told.whole_mm:.0f} mm in all; not all of: {', '.join(told.without)}"
    )


if __name__ == "__main__":
    main()
