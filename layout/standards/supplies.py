"""Power supplies: sizes by form, rear holes, vents, leads."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from layout.standards.figure import Figure, practice, secondary, seen
from layout.standards.sources import (
    SUPPLY_GUIDE_09,
    SUPPLY_GUIDE_20,
    SUPPLY_GUIDE_30,
    SUPPLY_MODELS,
    SUPPLY_SIZES,
    WIRE_CRAFT,
)
from layout.values import dataclass

__all__ = [
    "ATX_LENGTH",
    "EDGE_DISTANCE",
    "FORMS",
    "LEAD_LEAST",
    "LEAD_LEAST_20",
    "LEAD_LEAST_20_12V",
    "NO_TENSION",
    "PLUGS",
    "REAR_HOLES",
    "VENT_CLEARANCE",
    "RearHole",
    "SupplyForm",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyForm:
    """A supply's body; length runs from its rear face into the case.

    ATX bodies are sold in many lengths; the one here is the shortest usual one.
    """

    name: str
    width: Figure
    height: Figure
    length: Figure


def _form(name: str, size_mm: tuple[float, float, float], source: str) -> SupplyForm:
    """Return a form; the plus-minus of 1 mm is from memory."""
    width, height, length = (
        secondary(mm, f"{source}; plus-minus from memory", 1.0) for mm in size_mm
    )
    return SupplyForm(name=name, width=width, height=height, length=length)


FORMS: Final[Mapping[str, SupplyForm]] = MappingProxyType(
    {
        "ATX": _form("ATX", (150.0, 86.0, 140.0), SUPPLY_MODELS),
        "SFX": _form("SFX", (125.0, 63.5, 100.0), SUPPLY_SIZES),
        "SFX-L": _form("SFX-L", (125.0, 63.5, 130.0), SUPPLY_SIZES),
        "TFX": _form("TFX", (85.0, 65.0, 175.0), SUPPLY_SIZES),
        "Flex": _form("Flex", (81.5, 40.5, 150.0), SUPPLY_SIZES),
    }
)

VENT_CLEARANCE: Final = seen(
    12.7,
    f"{SUPPLY_GUIDE_30}, Venting; same in {SUPPLY_GUIDE_20}, 4.3 "
    f"and {SUPPLY_GUIDE_09}, 4.3",
)
"""Room free of objects at the fan's intake or exhaust."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RearHole:
    """A hole in the rear face, from the face's centre, seen from outside."""

    x: Figure
    y: Figure


def _hole(x_mm: float, y_mm: float) -> RearHole:
    """Return a hole; its plus-minus of 0.2 mm is from memory."""
    source = f"{SUPPLY_MODELS}; plus-minus from memory"
    return RearHole(x=secondary(x_mm, source, 0.2), y=secondary(y_mm, source, 0.2))


REAR_HOLES: Final[Mapping[str, tuple[RearHole, ...]]] = MappingProxyType(
    {
        "ATX": (
            _hole(-69.0, -27.0),
            _hole(-69.0, 37.0),
            _hole(69.0, 37.0),
            _hole(45.0, -37.0),
        ),
    }
)
"""Holes of the rear face by form; no text gave those of the other forms."""

EDGE_DISTANCE: Final = secondary(6.0, f"75 - 69 and 43 - 37, {SUPPLY_MODELS}", 0.2)
"""From the rear holes' centres to the face's edges, at three sides."""

ATX_LENGTH: Final = secondary(
    140.0, f"{SUPPLY_MODELS}; often 160, 180, 200, from memory", 60.0, assumed=True
)
"""Length of an ATX supply that nobody stated: the shortest usual one, the plus-minus
up to the longest."""

PLUGS: Final = practice(25.0, 5.0, assumed=True)
"""Plugs in a supply's connector field, beyond its body and before the bend."""

LEAD_LEAST: Final = seen(150.0, f"{SUPPLY_GUIDE_30}, DC Connectors")
"""Shortest lead recommended, from the supply's case to the first connector."""
LEAD_LEAST_20: Final = seen(250.0, f"{SUPPLY_GUIDE_20}, 4.5")
LEAD_LEAST_20_12V: Final = seen(280.0, f"{SUPPLY_GUIDE_20}, 4.5, processor power")

NO_TENSION: Final = f"{SUPPLY_GUIDE_20}, 4.5, and {WIRE_CRAFT}"
"""Who says that no wire may pull at its connector."""
