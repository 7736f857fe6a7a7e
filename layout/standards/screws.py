"""Screws and the holes they pass: coolers by socket, fan frames, boards, drives."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from layout.standards.figure import Figure, memory, secondary
from layout.standards.processors import SOCKETS
from layout.standards.sources import SOCKET_TABLE

__all__ = [
    "BOARD_SCREW",
    "COOLER_HOLES",
    "DRIVE_SCREW",
    "FAN_HOLE",
    "FAN_SCREW",
    "KEEPS_ITS_PLATE",
    "PUNCHED",
    "SUPPLY_HOLE",
    "SUPPLY_SCREW",
    "TWICE_HELD",
]

_OLDER: Final = {"LGA775": (72.0, 72.0), "AM3": (48.0, 96.0), "AM2": (48.0, 96.0)}
"""Sockets that kits are still sold for and boards are no longer."""

COOLER_HOLES: Final[Mapping[str, tuple[Figure, Figure]]] = MappingProxyType(
    {name: socket.cooler_holes for name, socket in SOCKETS.items()}
    | {
        name: (secondary(along, SOCKET_TABLE), secondary(up, SOCKET_TABLE))
        for name, (along, up) in _OLDER.items()
    }
)
"""Spacing of the four cooler holes by socket family."""

KEEPS_ITS_PLATE: Final = frozenset({"AM4", "AM5", "LGA2011", "LGA2066"})
"""Sockets whose board brings the back plate, or the threads, that a cooler is screwed
to; from memory, unverified."""

TWICE_HELD: Final = frozenset({"AM5", "LGA2011", "LGA2066"})
"""Those of which that plate also holds the socket, and stays on the board; from memory,
unverified."""

BOARD_SCREW: Final = memory(3.5, "6-32 UNC, 0.138 in, from memory")
DRIVE_SCREW: Final = memory(3.5, "6-32 UNC in 3.5 in drives, from memory")
FAN_SCREW: Final = memory(4.0, "between self-cutting 5 and M4, from memory")
FAN_HOLE: Final = memory(4.3, "clearance hole for M4, from memory")
SUPPLY_SCREW: Final = memory(3.5, "6-32 UNC, from memory")
SUPPLY_HOLE: Final = memory(4.5, "clearance hole of a rear panel, from memory")
PUNCHED: Final = memory(0.3, "how far a punched hole is off, from memory")
