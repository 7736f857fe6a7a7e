"""Connectors: outlines of bodies, looked at along the mating direction."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from layout.standards.cards import PLUG_STRAIGHT_RUN
from layout.standards.figure import Figure, memory, practice, seen
from layout.standards.sources import CONNECTOR_CHAPTER, FOOTPRINTS
from layout.values import dataclass

__all__ = [
    "ANGLED_DRIVE_PLUG",
    "DATA_CONTACT_PITCH",
    "OUTLINES",
    "POWER_PITCH",
    "POWER_ROW_PITCH",
    "ROOM_ABOVE_INTERNAL_USB",
    "STRAIGHT_RUNS",
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
            _recalled("20-pin internal USB", (13.0, 6.5)),
            _recalled("9-pin internal USB", (12.7, 5.1)),
            _recalled("front panel", (12.7, 5.1)),
            _recalled("audio", (12.7, 5.1)),
            _recalled("12V-2x6 plug", (22.0, 10.0)),
        )
    }
)

POWER_PITCH: Final = seen(4.20, f"{FOOTPRINTS}, pads of the power headers")
POWER_ROW_PITCH: Final = seen(5.50, f"{FOOTPRINTS}, pads of the power headers")
DATA_CONTACT_PITCH: Final = seen(1.27, CONNECTOR_CHAPTER)
ROOM_ABOVE_INTERNAL_USB: Final = memory(
    37.5, "35 to 40 above the board for the stiff 19-pin cable, from memory", 2.5
)

ANGLED_DRIVE_PLUG: Final = memory(
    10.0, "an angled drive plug stands 8 to 12 out, from memory", 2.0, assumed=True
)

_CRIMPED: Final = practice(5.0, 2.0, assumed=True)
_SMALL: Final = practice(3.0, 1.0, assumed=True)
_MOULDED: Final = practice(2.0, 1.0, assumed=True)

STRAIGHT_RUNS: Final[Mapping[str, Figure]] = MappingProxyType(
    {
        "12V-2x6": PLUG_STRAIGHT_RUN,
        **dict.fromkeys(
            (
                "24-pin",
                "8-pin processor power",
                "8-pin card power",
                "6-pin card power",
                "drive power",
            ),
            _CRIMPED,
        ),
        **dict.fromkeys(
            ("3-pin fan", "4-pin fan", "5 V light", "12 V light", "front panel"), _SMALL
        ),
        **dict.fromkeys(
            ("drive data", "9-pin USB", "19-pin USB", "20-pin USB", "audio"), _MOULDED
        ),
    }
)
"""From a plug's end to where its cable may bend, by the kind of connector."""
