"""Openings that a hand or a tool needs: least sizes, not comfortable ones."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from layout.standards.figure import Figure, memory, seen
from layout.standards.sources import HANDS
from layout.values import dataclass

__all__ = ["GLOVE", "HAND_BREADTH", "OPENINGS", "Opening"]

HAND_BREADTH: Final = seen(95.0, f"{HANDS}, men 19 to 65, 95th percentile")
"""At the knuckles: openings use the large hand, reach the small one."""
GLOVE: Final = seen(25.0, f"{HANDS}, at most")


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """A least opening; a round one has equal sides."""

    name: str
    width: Figure
    height: Figure


def _opening(name: str, width_mm: float, height_mm: float) -> Opening:
    """Return an opening from the military access figures, which were not read."""
    source = "MIL-STD-1472 and MIL-HDBK-759 access figures, from memory"
    return Opening(
        name=name, width=memory(width_mm, source), height=memory(height_mm, source)
    )


OPENINGS: Final[Mapping[str, Opening]] = MappingProxyType(
    {
        each.name: each
        for each in (
            _opening("finger", 32.0, 32.0),
            _opening("flat hand", 55.0, 100.0),
            _opening("fist", 95.0, 125.0),
            _opening("hand holding a 25 mm object", 95.0, 95.0),
            _opening("arm to the elbow", 100.0, 115.0),
            _opening("screwdriver in a hand", 107.0, 117.0),
            _opening("pliers", 132.0, 115.0),
            _opening("hexagon key, 60 degrees", 122.0, 155.0),
            _opening("open-end wrench, 60 degrees", 272.0, 203.0),
        )
    }
)
