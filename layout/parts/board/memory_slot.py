"""Memory slots: the size they take, and which way a module looks that sits in one."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from types import MappingProxyType
from typing import Final

from layout.geometry.bodies.turn import UPRIGHT, Turn, turn_of
from layout.geometry.space import Axis, Direction
from layout.standards import memory
from layout.standards.figure import Figure, practice
from layout.values import dataclass

__all__ = ["SLOTS", "MemoryLooks", "MemorySize", "SlotSize"]


class MemorySize(Enum):
    """The sizes memory modules are sold in."""

    FULL = "full size"
    LAPTOP = "laptop size"  # SO-DIMM


class MemoryLooks(Enum):
    """Where a module looks from its slot."""

    PANEL = "panel"  # upright on the board
    FRONT = "front"  # lying on the board's face, two over one another
    REAR = "rear"
    UP = "up"
    DOWN = "down"

    @property
    def lies(self) -> bool:
        """Tell whether modules lie on the board's face."""
        return self is not MemoryLooks.PANEL

    @property
    def direction(self) -> Direction:
        """Return where a module's upper edge looks."""
        return Direction[self.name]

    @property
    def turn(self) -> Turn:
        """Return how a module stands."""
        if self is MemoryLooks.PANEL:
            return UPRIGHT
        level = self.direction.axis is Axis.DEPTH
        long = Direction.UP if level else Direction.FRONT
        return turn_of((Direction.PANEL, self.direction), (Direction.UP, long))


@dataclass(frozen=True, slots=True, kw_only=True)
class SlotSize:
    """A slot for one size of module.

    Parameters
    ----------
    length, width, height : Figure
        Its body: along the module, across it, and upright over the board.
    pitch : Figure
        Middle to middle of slots that stand side by side.
    """

    length: Figure
    width: Figure
    height: Figure
    pitch: Figure


SLOTS: Final[Mapping[MemorySize, SlotSize]] = MappingProxyType(
    {
        MemorySize.FULL: SlotSize(
            length=memory.SOCKET_LENGTH,
            width=memory.SOCKET_WIDTH,
            height=practice(9.0, 1.0),  # latches left out
            pitch=memory.SLOT_PITCH,
        ),
        MemorySize.LAPTOP: SlotSize(
            length=memory.LAPTOP_SOCKET_LENGTH,
            width=memory.LAPTOP_SOCKET_WIDTH,
            height=practice(8.0, 2.0, assumed=True),
            pitch=practice(10.0, 1.5, assumed=True),
        ),
    }
)
