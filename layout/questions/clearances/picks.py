"""Which bodies several rules mean alike."""

from __future__ import annotations

from typing import Final

from layout.geometry.space import Axis
from layout.parts.form.form import BEHIND_TRAY, Role
from layout.questions.clearances.rule import Picked, long, of

__all__ = [
    "ANYWHERE",
    "COOLER",
    "HANGING_CARD",
    "LEVEL_CARD",
    "ON_FRONT",
    "RISING",
    "SHROUD",
    "STORAGE",
]

ANYWHERE: Final = "top, front, floor, shroud, tray side, panel side"
"""Mounts before the tray, the rear one left out: what stands there is beside it."""
COOLER: Final = (of(Role.COOLER, Role.COOLER_FAN),)
LEVEL_CARD: Final = long(Axis.DEPTH, Role.CARD, Role.CARD_PLUG)
HANGING_CARD: Final = long(Axis.HEIGHT, Role.CARD, Role.CARD_PLUG)
"""A card in a board that is turned a quarter."""
ON_FRONT: Final = of(Role.FAN, Role.RADIATOR, on="front")
RISING: Final = (
    of(Role.BOARD, Role.MEMORY, Role.REGULATOR_HEATSINK),
    of(Role.REAR_CONNECTORS, Role.BOARD_CONNECTOR),
)
STORAGE: Final = (Picked(frozenset({Role.CAGE, Role.DRIVE}), elsewhere=BEHIND_TRAY),)
SHROUD: Final = (
    of(Role.SHROUD),
    Picked(frozenset({Role.GRILLE}), named="case/shroud"),  # a perforated one
)
