"""What a part is in space: bodies, seats for other parts, and what may enter what."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TypeAlias

from layout.geometry.solid import Solid
from layout.geometry.space import ORIGIN, Axis, Box, Direction, Vector
from layout.standards.figure import Figure

__all__ = [
    "Allowance",
    "Form",
    "Link",
    "Piece",
    "Role",
    "Seat",
]


class Role(Enum):
    """What a body does: rules pick bodies by role, drawings fill them by role."""

    SIDE_PANEL = "side panel"
    BACK_PANEL = "back panel"
    FLOOR = "floor"
    TOP = "top"
    FRONT = "front"
    REAR = "rear"
    TRAY = "tray"
    SHROUD = "shroud"
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
    CARD = "card"
    CARD_BRACKET = "card bracket"
    CARD_PLUG = "card plug"
    RADIATOR = "radiator"
    FAN = "fan"
    SUPPLY = "supply"
    SUPPLY_LEADS = "supply leads"
    SUPPLY_VENT = "supply vent"  # not matter: the face that must breathe
    CAGE = "cage"
    DRIVE = "drive"
    BLOCK = "block"

    @property
    def is_matter(self) -> bool:
        """Tell whether the body is material that others can run into."""
        return self not in _PLACES


_PLACES = frozenset({Role.CUT_OUT, Role.SUPPLY_VENT})


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """One figure of a tolerance chain: what it is and how far it may be off.

    ``plus_minus_mm`` is the scatter along depth, height and width; 0 where the
    figure does not act.  Two chains share a link when owner and label agree.
    """

    label: str
    plus_minus_mm: Vector
    figure: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowance:
    """A volume in which a mated part may enter bodies of one role.

    The box is relative to the origin of the seat that states it.
    """

    role: Role
    box: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One body of a part, at the origin of the seat the part sits on.

    ``name`` is empty for the main body.  ``links`` are the part's own figures that
    the piece's faces rest on.
    """

    name: str
    role: Role
    solids: tuple[Solid, ...]
    links: tuple[Link, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """A place on a part where another part sits.

    Parameters
    ----------
    name : str
        Unique within the part: ``processor``, ``memory 2``, ``slot 1``, ``front``.
    at_mm : Vector
        Origin, relative to the origin of the part that offers the seat.
    approach : Direction
        Which way the seated part is brought to it.
    room_mm : tuple of float, optional
        Size of the place along the two axes across the approach, in axis order,
        where the seated part must know it (a fan mount's face).
    links : tuple of Link
        The figures that place the seat on its part.
    allowances : tuple of Allowance
        Where the seated part may enter others.
    holds : int
        How many parts may sit here at once.
    """

    name: str
    at_mm: Vector
    approach: Direction
    room_mm: tuple[float, float] | None = None
    links: tuple[Link, ...] = ()
    allowances: tuple[Allowance, ...] = ()
    holds: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A part made for its seat: its bodies and the seats it offers in turn.

    ``size`` is the governing size for a label, such as ``165 high``.
    """

    pieces: tuple[Piece, ...]
    seats: tuple[Seat, ...] = ()
    allowances: tuple[Allowance, ...] = ()
    size: str = ""
    at_mm: Vector = ORIGIN


PlusMinus: TypeAlias = float


def along(axis: Axis, plus_minus_mm: PlusMinus) -> Vector:
    """Return a scatter that acts along one axis only."""
    x, y, z = (plus_minus_mm if each is axis else 0.0 for each in Axis)
    return (x, y, z)
