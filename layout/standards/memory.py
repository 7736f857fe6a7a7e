"""Memory modules and their sockets."""

from __future__ import annotations

from typing import Final

from layout.standards.figure import memory, practice, secondary, seen
from layout.standards.sources import MEMORY_PATENT, MEMORY_SHEET

__all__ = [
    "BOARD_THICKNESS",
    "HEIGHT",
    "HEIGHT_DDR4",
    "LAPTOP_HEIGHT",
    "LAPTOP_LENGTH",
    "LAPTOP_SOCKET_HEIGHTS",
    "LAPTOP_SOCKET_LENGTH",
    "LAPTOP_SOCKET_WIDTH",
    "LAPTOP_THICKNESS",
    "LENGTH",
    "SEAT",
    "SLOT_PITCH",
    "SOCKET_LENGTH",
    "SOCKET_WIDTH",
    "SPREADER_HIGHEST",
    "SPREADER_LOWEST",
    "THICKNESS_BARE",
    "THICKNESS_SPREADER",
]

LENGTH: Final = seen(133.35, f"{MEMORY_PATENT}; plus-minus from memory", 0.15)
HEIGHT: Final = seen(31.25, f"{MEMORY_PATENT}; plus-minus from memory", 0.15)
"""A bare module, from the bottom of its fingers."""
HEIGHT_DDR4: Final = seen(31.25, f"{MEMORY_SHEET}; plus-minus from memory", 0.15)
BOARD_THICKNESS: Final = secondary(
    1.4, "a photo caption of a DDR4 module; plus-minus from memory", 0.1
)
THICKNESS_BARE: Final = memory(4.0, "module data classes, from memory, at most")
THICKNESS_SPREADER: Final = practice(7.75, 0.75, assumed=True)
"""With a heat spreader: 7 to 8.5."""
SPREADER_LOWEST: Final = practice(32.0)
SPREADER_HIGHEST: Final = practice(55.0)

SLOT_PITCH: Final = memory(
    9.4, "no text found: 9.4 common, 7.6 to 10.2 met, from memory", 1.8, assumed=True
)
"""Centre to centre; the plus-minus reaches the farther end of what is met."""
SEAT: Final = memory(3.0, "no text found: about 3, from memory", 0.5, assumed=True)
"""Bottom of a seated module's fingers above the board's top."""
SOCKET_LENGTH: Final = memory(142.0, "about, from memory")
SOCKET_WIDTH: Final = memory(6.5, "about, from memory")

LAPTOP_LENGTH: Final = memory(67.6, "JEDEC MO-310 (SO-DIMM), from memory", 0.15)
LAPTOP_HEIGHT: Final = memory(30.0, "JEDEC MO-310 (SO-DIMM), from memory", 0.15)
"""A bare laptop-size module, from the bottom of its fingers."""
LAPTOP_THICKNESS: Final = memory(3.8, "JEDEC MO-310 (SO-DIMM), from memory, at most")
LAPTOP_SOCKET_LENGTH: Final = memory(73.0, "about, from memory")
LAPTOP_SOCKET_WIDTH: Final = memory(8.0, "about, from memory", 1.0, assumed=True)
LAPTOP_SOCKET_HEIGHTS: Final = (
    memory(5.2, "low right-angle sockets, from memory", 0.3),
    memory(9.2, "high right-angle sockets, from memory", 0.3),
)
"""Over the board, of two sockets whose modules lie over one another."""
