"""Expansion cards: envelope, bracket, slots, power plug."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from types import MappingProxyType
from typing import Final

from layout.standards.figure import Figure, memory, practice, secondary, seen
from layout.standards.sources import (
    BRACKET_CODE,
    CARD_KIT,
    CARD_LIST,
    CARD_OUTLINES,
    FOOTPRINTS,
    SLOT_BRACKET,
)

__all__ = [
    "ANGLED_PLUG_BEYOND_CARD",
    "BRACKET_GAP",
    "BRACKET_LENGTH",
    "BRACKET_OUTSIDE",
    "BRACKET_SCREW_SLOT",
    "BRACKET_TAB_SEAT",
    "BRACKET_THICKNESS",
    "BRACKET_WIDTH",
    "BRACKET_WIDTH_WITH_TAB",
    "COMPONENT_SIDE",
    "CONNECTOR_HEIGHT",
    "CONNECTOR_LENGTH",
    "CONNECTOR_WIDTH",
    "DUAL_HEIGHT",
    "FINGER_SEAT",
    "FINGER_TONGUE",
    "FIRST_SLOT",
    "FULL_HEIGHT",
    "FULL_LENGTH",
    "HALF_LENGTH",
    "LOW_BRACKET_LENGTH",
    "LOW_HEIGHT",
    "PCI_HEIGHT",
    "PLUG_BEYOND_CARD",
    "PLUG_STRAIGHT_RUN",
    "SHOULDER",
    "SLOT_PITCH",
    "SLOT_TOP",
    "SOLDER_SIDE",
    "THICKNESS",
    "TRIPLE_HEIGHT",
    "PlugPlace",
]

FULL_LENGTH: Final = secondary(312.00, f"{CARD_OUTLINES}: 266.85 + 45.15, at most")
"""From the card's edge at the bracket to its far end."""
HALF_LENGTH: Final = secondary(167.65, f"{CARD_OUTLINES}: 122.50 + 45.15, at most")
FULL_HEIGHT: Final = seen(111.15, f"{CARD_KIT}: 4.376 in, at most")
"""From the bottom of the fingers to the top edge."""
LOW_HEIGHT: Final = secondary(68.90, f"{CARD_OUTLINES}, at most")
PCI_HEIGHT: Final = seen(106.68, f"{CARD_LIST}, Fig 5-2", 0.127)
SHOULDER: Final = secondary(12.75, CARD_OUTLINES)
"""From the bottom of the fingers to the card's lower edge beside them."""
FINGER_TONGUE: Final = secondary(84.3, f"{CARD_OUTLINES}, 16 lanes")
THICKNESS: Final = secondary(1.57, f"{FOOTPRINTS}, note")

COMPONENT_SIDE: Final = secondary(
    14.47, f"{CARD_OUTLINES}, at most; its note prints 14,49"
)
"""Above the card's surface, one slot wide."""
DUAL_HEIGHT: Final = seen(34.80, f"{CARD_KIT}: 1.37 in, at most")
TRIPLE_HEIGHT: Final = secondary(55.12, "34.80 + 20.32, the pitch from public code")
SOLDER_SIDE: Final = secondary(2.67, f"{CARD_OUTLINES}, at most")

SLOT_PITCH: Final = secondary(20.32, f"{BRACKET_CODE}: 0.8 in")
FIRST_SLOT: Final = memory(
    139.7, "ATX Specification, Fig 3, not read, from memory", 3.0, assumed=True
)
"""Slot 1's card plane from the expansion edge of a full ATX board."""
FINGER_SEAT: Final = memory(3.5, "no text found: 3 to 4 from memory", 0.5, assumed=True)
"""Bottom of the fingers above the board's top when seated."""

CONNECTOR_LENGTH: Final[Mapping[int, Figure]] = MappingProxyType(
    {
        1: memory(25.0, "PCI Express card specification, Fig 6-1, from memory"),
        4: memory(39.0, "PCI Express card specification, Fig 6-1, from memory"),
        8: memory(56.0, "PCI Express card specification, Fig 6-1, from memory"),
        16: memory(89.0, "PCI Express card specification, Fig 6-1, from memory"),
    }
)
"""Length of a slot's body by lanes."""
CONNECTOR_WIDTH: Final = memory(
    7.5, "PCI Express card specification, Fig 6-1, from memory"
)
CONNECTOR_HEIGHT: Final = memory(
    11.25, "PCI Express card specification, Fig 6-1, from memory"
)

BRACKET_GAP: Final = secondary(1.03, f"{CARD_OUTLINES}: 46.18 - 45.15")
"""From the card's edge to the inside face of its bracket."""
BRACKET_THICKNESS: Final = secondary(0.86, f"{CARD_OUTLINES}: 47.04 - 46.18")
BRACKET_OUTSIDE: Final = secondary(1.89, f"{CARD_OUTLINES}: 47.04 - 45.15")
"""From the card's edge to the outside face of its bracket: the slot plane."""
BRACKET_LENGTH: Final = secondary(120.02, SLOT_BRACKET)
LOW_BRACKET_LENGTH: Final = memory(
    79.2, "PCI Express card specification, low-profile bracket, from memory"
)
"""Its foot stands where that of the long one does."""
BRACKET_WIDTH: Final = secondary(18.42, SLOT_BRACKET)
BRACKET_WIDTH_WITH_TAB: Final = secondary(21.59, SLOT_BRACKET)
BRACKET_SCREW_SLOT: Final = secondary(4.42, SLOT_BRACKET)
BRACKET_TAB_SEAT: Final = secondary(104.86, CARD_OUTLINES)
"""From the bottom of the fingers to the seat of the bracket's screw tab."""

SLOT_TOP: Final = memory(7.75, "11.25 - 3.5, both from memory", 0.5, assumed=True)
"""From the bottom of the seated fingers to the upper edge of their slot."""


class PlugPlace(Enum):
    """Where a card takes its power: the card specification does not fix it."""

    TOP_EDGE = "top edge"
    FAR_END = "far end"


PLUG_BEYOND_CARD: Final = practice(17.5, 2.5, assumed=True)
"""How far a power plug's body stands beyond the card's edge: 15 to 20."""
ANGLED_PLUG_BEYOND_CARD: Final = practice(13.0, 4.0, assumed=True)
"""The same of a right-angle plug or adapter, which is lower: 9 to 17."""
PLUG_STRAIGHT_RUN: Final = memory(35.0, "cable makers' advice, from memory, at least")
"""Straight run behind a 12V-2x6 plug before the first bend."""
