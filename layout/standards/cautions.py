"""Cautions that a sheet may print, in our own words, each with its source."""

from __future__ import annotations

from typing import Final

from layout.standards.figure import COMMON_PRACTICE, Standing
from layout.standards.sources import (
    COOLER_GUIDE,
    SUPPLY_GUIDE_20,
    SUPPLY_SAFETY,
    UPKEEP_GUIDE,
    WIRE_CRAFT,
)
from layout.values import dataclass

__all__ = ["CAUTIONS", "ESTIMATE_ONLY", "LEAKS", "Caution"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """A sentence for the person who assembles, and who says so."""

    text: str
    standing: Standing
    source: str


def _seen(text: str, source: str) -> Caution:
    """Return a caution whose source was read."""
    return Caution(text=text, standing=Standing.SEEN, source=source)


def _recalled(text: str, source: str) -> Caution:
    """Return a caution whose source was not read."""
    return Caution(text=text, standing=Standing.MEMORY, source=f"{source}, from memory")


ESTIMATE_ONLY: Final = Caution(
    text="This is an estimate of room from data sheets, not a safety approval.",
    standing=Standing.PRACTICE,
    source=COMMON_PRACTICE,
)

CAUTIONS: Final = (
    _seen("Unplug the mains lead before any work.", f"{SUPPLY_GUIDE_20}, 4.5"),
    _seen("Never open the power supply.", f"{SUPPLY_SAFETY}, 5.1"),
    _seen(
        "Parts can stay charged or hot after power-off.", f"{UPKEEP_GUIDE}, Table 4-7"
    ),
    _seen(
        "Keep hands and cables off sharp edges; cooler fins cut.",
        f"{COOLER_GUIDE}, 6.5",
    ),
    _seen("No wire may pull at its connector.", f"{WIRE_CRAFT}; {SUPPLY_GUIDE_20}"),
    _recalled(
        "Wear an earthed wrist strap and hold boards by the edge.", "IEC 61340-5-1"
    ),
    Caution(
        text="Lift a loaded case with two hands and a straight back, or by two people.",
        standing=Standing.PRACTICE,
        source=COMMON_PRACTICE,
    ),
    ESTIMATE_ONLY,
)

LEAKS: Final = Caution(
    text="Test liquid cooling for leaks before any power is on.",
    standing=Standing.PRACTICE,
    source=COMMON_PRACTICE,
)
"""Where there is liquid."""
