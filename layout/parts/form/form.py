"""What a part is in space: bodies, seats for other parts, and what may enter what."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from layout.geometry.bodies.turn import UPRIGHT, Turn
from layout.geometry.solids.solid import Solid
from layout.geometry.space import Axis, Box, Direction, Vector
from layout.parts.form.cable import Cable
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.lead import Lead
from layout.parts.form.role import Role
from layout.parts.form.screws import Screws
from layout.standards.figure import Figure
from layout.values import dataclass

if TYPE_CHECKING:  # a kit is declared by fields, whose readings know seats
    from layout.parts.form.kit import Kit

__all__ = [
    "BEHIND_TRAY",
    "Allowance",
    "FanRow",
    "Form",
    "Link",
    "Piece",
    "Plug",
    "PlugShape",
    "Portion",
    "Role",
    "Seat",
    "SeatSort",
]


ONCE: Vector = (1.0, 1.0, 1.0)
"""A figure counts once along each axis along which it acts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """One figure of a tolerance chain: what it is and how far it may be off.

    ``plus_minus_mm`` is the scatter along depth, height and width; 0 where the
    figure does not act.  Two chains share a link when owner and label agree.
    ``tape`` says from what to what it is measured, where the label does not, and
    ``entry`` in which of its owner's fields a measured one is written.  ``low`` and
    ``high`` say how many times the figure goes into where the low and the high faces of
    a body lie along each axis, with sign; of a seat both are the same.  ``more`` are
    the figures that lie between it and the reading that the body is made from.
    ``instead`` are its owner's figures that the tape makes needless: it reaches from
    where they start.  Where they cancelled, they no longer do once it is written down.
    """

    label: str
    plus_minus_mm: Vector
    figure: Figure
    tape: str = ""
    entry: str = ""
    low: Vector = ONCE
    high: Vector = ONCE
    more: tuple[Link, ...] = ()
    instead: tuple[Link, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowance:
    """A volume in which a mated part may enter bodies of one role.

    The box is relative to the origin of the seat that states it, in the axes of the
    part that sits there.
    """

    role: Role
    box: Box


@dataclass(frozen=True, slots=True)
class Portion:
    """A box of a body whose faces rest on other figures than the rest of it.

    The base under a cooler's fins; what a cut-out leaves beside it.  At the origin of
    the seat, as the body is.
    """

    box: Box
    links: tuple[Link, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One body of a part, at the origin of the seat the part sits on.

    ``name`` is empty for the main body.  ``links`` are the part's own figures that
    the piece's faces rest on, but for those of its ``portions``.
    """

    name: str
    role: Role
    solids: tuple[Solid, ...]
    links: tuple[Link, ...] = ()
    portions: tuple[Portion, ...] = ()


BEHIND_TRAY = "behind tray"
"""The place of what lies flat on the tray's back."""


class SeatSort(Enum):
    """What a seat is for; ``value`` is the word errors use."""

    BOARD = "board seat"
    SUPPLY = "supply bay"
    CAGE = "cage position"
    FANS = "fan mount"
    PROCESSOR = "processor socket"
    MEMORY = "memory slot"
    SLOT = "card slot"
    RISER = "riser bracket"
    DRIVE = "drive place"
    M2 = "m.2 place"
    COOLER = "place on a processor"
    SUPPORT = "place under a card"


@dataclass(frozen=True, slots=True, kw_only=True)
class FanRow:
    """The row of fans of one size that a mount takes.

    Parameters
    ----------
    size_mm, count : int
        Frame size, and how many frames stand side by side.
    along : Axis
        The axis along which they stand.
    start_mm : float
        Where the first frame begins along that axis, from the seat's origin; across
        the row the origin lies on the frames' middle.
    links : tuple of Link
        The figures that place the row on its mount.
    screws : Screws or None
        The holes of all its places.
    travel_mm : float
        Length of the mount's slots: a fan may be off its place by half of it.
    """

    size_mm: int
    count: int
    along: Axis
    start_mm: float
    links: tuple[Link, ...] = ()
    screws: Screws | None = None
    travel_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """A place on a part where another part sits.

    Parameters
    ----------
    name : str
        Unique within the part: ``processor``, ``memory 2``, ``slot 1``, ``front``.
    sort : SeatSort
        What the seat is for.
    at_mm : Vector
        Origin, relative to the origin of the part that offers the seat.
    approach : Direction
        Which way the seated part is brought to it.
    turn : Turn
        How the seated part stands: its own axes in those of the part that offers the
        seat.
    room_mm : tuple of float, optional
        Size of the place along the two axes across the approach, in axis order,
        where the seated part must know it (a fan mount's face).
    links : tuple of Link
        The figures that place the seat on its part.
    allowances : tuple of Allowance
        Where the seated part may enter others.
    rows : tuple of FanRow
        What a fan mount takes; parts share it place by place.
    figure : Figure or None
        A figure that the seat hands on: a socket, and the processor in it, the
        height of the stack.
    face : str or None
        Which face of the case a fan mount is on: ``front``, ``top``, ...; or
        ``BEHIND_TRAY``.
    screws : Screws or None
        The holes it has for its part; a fan mount has them in its rows.
    takes : str
        The size of part it is made for, in files' words; empty: any that fits.
    """

    name: str
    sort: SeatSort
    at_mm: Vector
    approach: Direction
    turn: Turn = UPRIGHT
    room_mm: tuple[float, float] | None = None
    links: tuple[Link, ...] = ()
    allowances: tuple[Allowance, ...] = ()
    rows: tuple[FanRow, ...] = ()
    figure: Figure | None = None
    face: str | None = None
    screws: Screws | None = None
    takes: str = ""


class PlugShape(Enum):
    """Whether the cable leaves a plug straight on, or already turned."""

    STRAIGHT = "straight"
    ANGLED = "angled"  # a right-angle plug, or an adapter


@dataclass(frozen=True, slots=True, kw_only=True)
class Plug:
    """A mated plug of a part, at the origin of the seat the part sits on.

    Plugs of one name are one plug that may be at either place: a drive can be turned.

    Parameters
    ----------
    name : str
        Of the body the plug belongs to; empty for the part's main body.
    kind : ConnectorKind
    at_mm : Vector
        Middle of the plug's end, where its wires leave.
    out : Direction
        Which way the plug is pulled.
    along : Axis
        The axis along which the plug is long.
    size_mm : (float, float)
        The plug's section: along that axis, and across.
    body_mm : float
        Length of the plug where no body of the part holds it yet.
    passes : frozenset of Role
        Walls that are open behind this plug.
    sockets : int
        How many of its kind stand side by side in the section.
    cable : Cable or None
        What leaves one socket; None: what is usual for the kind.
    spare : bool
        Whether it is one of several that a lead may take: no room is asked of it by
        itself.
    """

    name: str
    kind: ConnectorKind
    at_mm: Vector
    out: Direction
    along: Axis
    size_mm: tuple[float, float]
    body_mm: float = 0.0
    shape: PlugShape = PlugShape.STRAIGHT
    passes: frozenset[Role] = frozenset()
    links: tuple[Link, ...] = ()
    sockets: int = 1
    cable: Cable | None = None
    spare: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A part made for its seat: its bodies and the seats it offers in turn.

    ``size`` is the governing size for a label, such as ``165 high``.  ``openings``
    are the holes in the part's walls that any other part may enter.  ``screws`` are
    the holes by which it is fixed to its seat, ``kits`` those in a cooler's box; None
    where the file says nothing of them; ``adapter`` likewise whether what makes it fit
    a seat of another pattern is there.  ``plugs`` are those whose cables need room,
    ``stated`` the figures for which cases state limits,
    ``leads`` those that must reach a plug elsewhere.
    """

    pieces: tuple[Piece, ...]
    seats: tuple[Seat, ...] = ()
    openings: tuple[Allowance, ...] = ()
    size: str = ""
    notes: tuple[str, ...] = ()
    stated: tuple[tuple[str, Figure], ...] = ()
    screws: Screws | None = None
    kits: tuple[Kit, ...] | None = None
    adapter: bool | None = None
    plugs: tuple[Plug, ...] = ()
    leads: tuple[Lead, ...] = ()
