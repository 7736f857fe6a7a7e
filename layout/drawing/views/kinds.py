"""Which fill a body has: the kinds of part a drawing tells apart by colour."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from layout.drawing.paper.scene import Ink
from layout.parts.form.form import Role

__all__ = ["FILLS", "KINDS"]

FILLS: Final[Mapping[Role, Ink]] = MappingProxyType(
    {
        Role.STANDOFF: Ink.BOARD,
        Role.BOARD: Ink.BOARD,
        Role.REAR_CONNECTORS: Ink.BOARD,
        Role.REGULATOR_HEATSINK: Ink.BOARD,
        Role.BOARD_CONNECTOR: Ink.BOARD,
        Role.MEMORY_SLOT: Ink.BOARD,
        Role.CARD_SLOT: Ink.BOARD,
        Role.PROCESSOR: Ink.BOARD,
        Role.MEMORY: Ink.MEMORY,
        Role.COOLER: Ink.COOLER,
        Role.PUMP_BLOCK: Ink.COOLER,
        Role.BACK_PLATE: Ink.COOLER,
        Role.HOSE: Ink.COOLER,
        Role.COOLER_FAN: Ink.FAN,
        Role.FAN: Ink.FAN,
        Role.RADIATOR: Ink.RADIATOR,
        Role.CARD: Ink.CARD,
        Role.CARD_BRACKET: Ink.CARD,
        Role.CARD_PLUG: Ink.CARD,
        Role.CARD_SUPPORT: Ink.CARD,
        Role.SUPPLY: Ink.SUPPLY,
        Role.SUPPLY_LEADS: Ink.SUPPLY,
        Role.DRIVE: Ink.DRIVE,
        Role.M2_DRIVE: Ink.DRIVE,
        Role.CHIPSET_HEATSINK: Ink.BOARD,
        Role.BLOCK: Ink.BLOCK,
    }
)
"""The fill of each role; roles that are not here are outlines."""

KINDS: Final[Mapping[Ink, str]] = MappingProxyType(
    {
        Ink.BOARD: "board, with its parts",
        Ink.MEMORY: "memory",
        Ink.COOLER: "cooler",
        Ink.FAN: "fan",
        Ink.RADIATOR: "radiator",
        Ink.CARD: "card",
        Ink.SUPPLY: "supply and its leads",
        Ink.DRIVE: "drive",
        Ink.BLOCK: "other part",
    }
)
"""What each fill stands for, as the legend says it."""
