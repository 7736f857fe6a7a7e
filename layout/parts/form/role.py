"""What a body does in the machine."""

from __future__ import annotations

from enum import Enum

__all__ = ["Role"]


class Role(Enum):
    """What a body does: rules pick bodies by role, drawings fill them by role."""

    # Looked up very often: an enum would hash its name, in Python.
    __hash__ = object.__hash__

    SIDE_PANEL = "side panel"
    BACK_PANEL = "back panel"
    FLOOR = "floor"
    TOP = "top"
    FRONT = "front"
    REAR = "rear"
    TRAY = "tray"
    SHROUD = "shroud"
    GRILLE = "grille"  # a perforated wall or filter: air passes, parts do not
    CUT_OUT = "cut-out"  # not matter: the hole a cable passes, seen by rules only
    STANDOFF = "standoff"
    BOARD = "board"
    REAR_CONNECTORS = "rear connectors"
    REGULATOR_HEATSINK = "regulator heatsink"
    BOARD_CONNECTOR = "board connector"
    MEMORY_SLOT = "memory slot"
    CARD_SLOT = "card slot"
    PROCESSOR = "processor"
    MEMORY = "memory"
    COOLER = "cooler"
    COOLER_FAN = "cooler fan"
    PUMP_BLOCK = "pump block"
    BACK_PLATE = "back plate"
    HOSE = "hose"  # a hose from its port to the end of its first bend
    CARD = "card"
    CARD_BRACKET = "card bracket"
    CARD_PLUG = "card plug"
    CARD_SUPPORT = "card support"
    RADIATOR = "radiator"
    FAN = "fan"
    SUPPLY = "supply"
    SUPPLY_LEADS = "supply leads"
    SUPPLY_VENT = "supply vent"  # not matter: the face that must breathe
    CAGE = "cage"
    DRIVE = "drive"
    M2_DRIVE = "m.2 drive"
    CHIPSET_HEATSINK = "chipset heatsink"
    CARD_VENT = "card vent"  # not matter: the face with a card's fans
    COOLER_VENT = "cooler vent"  # not matter: where a low cooler's fan draws its air
    SUPPLY_INLET = "supply inlet"  # not matter: the face that takes the mains plug
    BLOCK = "block"

    @property
    def is_matter(self) -> bool:
        """Tell whether the body is material that others can run into."""
        return self not in _PLACES

    @property
    def stops_air(self) -> bool:
        """Tell whether the body is an object before a vent."""
        return self.is_matter and self is not Role.GRILLE


_PLACES = frozenset(
    {
        Role.CUT_OUT,
        Role.SUPPLY_VENT,
        Role.SUPPLY_INLET,
        Role.CARD_VENT,
        Role.COOLER_VENT,
    }
)
