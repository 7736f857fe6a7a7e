"""Connectors: outlines of bodies, looked at along the mating direction."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from layout.standards.figure import Figure, memory, seen
from layout.standards.sources import CONNECTOR_CHAPTER, FOOTPRINTS

__all__ = [
    "DATA_CONTACT_PITCH",
    "OUTLINES",
    "POWER_PITCH",
    "POWER_ROW_PITCH",
    "ROOM_ABOVE_INTERNAL_USB",
    "Outline",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A connector's body; ``height`` is None where nobody gave it."""

    name: str
    length: Figure
    width: Figure
    height: Figure | None = None


def _drawn(name: str, length_mm: float, width_mm: float) -> Outline:
    """Return a body read from a footprint's outline."""
    source = f"{FOOTPRINTS}, {name}"
    return Outline(
        name=name, length=seen(length_mm, source), width=seen(width_mm, source)
    )


def _recalled(name: str, size_mm: tuple[float, ...]) -> Outline:
    """Return a body from memory; the third size, where given, is its height."""
    length, width, *height = (memory(mm, "about, from memory") for mm in size_mm)
    return Outline(
        name=name, length=length, width=width, height=height[0] if height else None
    )


OUTLINES: Final[Mapping[str, Outline]] = MappingProxyType(
    {
        each.name: each
        for each in (
            _drawn("6-pin power, upright", 14.15, 11.35),
            _drawn("8-pin power, upright", 18.35, 11.35),
            _drawn("24-pin power, upright", 51.95, 11.35),
            _drawn("6-pin power, lying", 13.80, 12.80),
            _drawn("8-pin power, lying", 18.00, 12.80),
            _drawn("24-pin power, lying", 51.60, 12.80),
            _drawn("4-pin fan", 10.10, 5.80),
            _drawn("drive receptacle", 42.40, 12.40),
            _recalled("drive data plug", (14.0, 6.0, 20.0)),
            _recalled("drive power plug", (25.0, 6.0, 20.0)),
            _recalled("19-pin internal USB", (27.0, 9.0)),
        )
    }
)

POWER_PITCH: Final = seen(4.20, f"{FOOTPRINTS}, pads of the power headers")
POWER_ROW_PITCH: Final = seen(5.50, f"{FOOTPRINTS}, pads of the power headers")
DATA_CONTACT_PITCH: Final = seen(1.27, CONNECTOR_CHAPTER)
ROOM_ABOVE_INTERNAL_USB: Final = memory(
    37.5, "35 to 40 above the board for the stiff 19-pin cable, from memory", 2.5
)
