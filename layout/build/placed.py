"""A build: every part in place, with the chain of figures that put it there."""

from __future__ import annotations

from layout.geometry.bodies.body import Body
from layout.geometry.bodies.turn import UPRIGHT, Turn
from layout.geometry.space import ORIGIN, Box, Direction, Vector
from layout.parts.case.case_limits import Limits
from layout.parts.case.case_panels import SidePanel
from layout.parts.case.case_stands import Stands
from layout.parts.form.form import FanRow, Link, Plug, Role, SeatSort
from layout.parts.form.kit import Kit
from layout.parts.form.lead import Lead
from layout.parts.form.screws import Screws
from layout.parts.wiring.hookup import Hookup
from layout.standards.figure import Figure
from layout.values import dataclass

__all__ = [
    "Build",
    "Fixing",
    "Mate",
    "OwnNeed",
    "PlacedBody",
    "PlacedLead",
    "PlacedPart",
    "PlacedPlug",
    "PlacedPortion",
]


@dataclass(frozen=True, slots=True)
class PlacedPortion:
    """A box of a body, in the case, whose faces rest on a chain of its own."""

    box: Box
    chain: tuple[tuple[str, Link], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedBody:
    """A body in the case, with what rules and drawings ask of it.

    Parameters
    ----------
    part : str
        Key of the part in the build file; ``case`` for the case's own bodies.
    body : Body
        Solids in place; ``body.name`` is the key, or ``key/piece``.
    where : str or None
        Face of the fan mount the part sits on (``front``, ``top``, ...), ``behind
        tray``, or None.
    chain : tuple of (owner, Link)
        Every figure from the case to this body's faces, root first.
    portions : tuple of PlacedPortion
        Where its faces rest on others.
    turn : Turn
        How its part stands: a card along height, say.
    """

    part: str
    body: Body
    role: Role
    where: str | None
    chain: tuple[tuple[str, Link], ...]
    portions: tuple[PlacedPortion, ...] = ()
    turn: Turn = UPRIGHT

    @property
    def name(self) -> str:
        """Return the body's name."""
        return self.body.name


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedPlug:
    """A mated plug in the case.

    Parameters
    ----------
    part : str
        Key of the part it belongs to.
    plug : Plug
        With its place in the case's axes.
    chain : tuple of (owner, Link)
        Every figure from the case to the plug, root first.
    """

    part: str
    plug: Plug
    chain: tuple[tuple[str, Link], ...]

    @property
    def name(self) -> str:
        """Return the name of the body the plug belongs to."""
        return f"{self.part}/{self.plug.name}" if self.plug.name else self.part


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedLead:
    """A lead in the case; ``lead`` has its place in the case's axes."""

    part: str
    lead: Lead

    @property
    def name(self) -> str:
        """Return the name of the body it leaves."""
        return f"{self.part}/{self.lead.of}" if self.lead.of else self.part


@dataclass(frozen=True, slots=True, kw_only=True)
class Mate:
    """A volume, in the case's own axes, in which two parts may enter one another.

    The guest's bodies may enter those of ``role`` that belong to another part.
    """

    guest: str
    role: Role
    box: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedPart:
    """One part of the build as a list or a label shows it.

    ``hosts`` are the keys of the parts it sits on.
    ``stated`` holds the figures for which cases state limits: ``card length``, ...
    ``assumed`` marks a part that the build does not name.
    """

    key: str
    kind: str
    size: str
    seat: str
    at_mm: Vector
    approach: Direction | None
    notes: tuple[str, ...] = ()
    hosts: tuple[str, ...] = ()
    stated: tuple[tuple[str, Figure], ...] = ()
    assumed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixing:
    """What holds a part, or one of its pieces, on its seat.

    Parameters
    ----------
    part, host : str
        Keys of the part and of the one that offers the seat.
    sort : SeatSort
    seat : str
        The seat's name.
    own : Screws or None
        The part's own holes.
    theirs : Screws or None
        The seat's.
    kits : tuple of Kit or None
        A cooler's kits; None where the file says nothing of them.
    adapter : bool or None
        Whether what makes it fit another pattern is there; None: nobody says.
    at_mm, turn
        Where both patterns lie in the case, and how they stand there.
    span_mm : (float, float) or None
        The stretch that it takes of a fan mount.
    rows : tuple of FanRow
        What a fan mount takes.
    """

    part: str
    host: str
    sort: SeatSort
    seat: str
    own: Screws | None
    theirs: Screws | None
    kits: tuple[Kit, ...] | None
    adapter: bool | None = None
    at_mm: Vector = ORIGIN
    turn: Turn = UPRIGHT
    span_mm: tuple[float, float] | None = None
    rows: tuple[FanRow, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnNeed:
    """A need between two parts (or bodies) that the build file adds."""

    a: str
    b: str
    need_mm: float
    why: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """Everything in place: the value that every question is asked of.

    Parameters
    ----------
    bodies : tuple of PlacedBody
        In the file's order, the case's own bodies first.
    needs : tuple of (rule name, mm)
        Needs that the build file changes.
    notes : tuple of str
        What was derived, defaulted without a verified source, or contradicts itself.
    case_size_mm : Vector or None
        Inside depth, height and width; None for a build of blocks alone.
    limits : Limits or None
        What the case's data sheet states to fit.
    stands : Stands
        How the case stands on the desk; bodies lie as if it stood upright.
    panel : SidePanel or None
        The panel over the board, and how it opens.
    """

    name: str
    parts: tuple[PlacedPart, ...]
    bodies: tuple[PlacedBody, ...]
    mates: tuple[Mate, ...] = ()
    fixings: tuple[Fixing, ...] = ()
    hookups: tuple[tuple[str, Hookup], ...] = ()
    needs: tuple[tuple[str, float], ...] = ()
    own_needs: tuple[OwnNeed, ...] = ()
    notes: tuple[str, ...] = ()
    plugs: tuple[PlacedPlug, ...] = ()
    leads: tuple[PlacedLead, ...] = ()
    case_name: str | None = None
    case_size_mm: Vector | None = None
    stands: Stands = Stands.UPRIGHT
    limits: Limits | None = None
    panel: SidePanel | None = None

    def carried_by(self, key: str) -> frozenset[str]:
        """Return a part's key with those of all that sit on it, or on what does."""
        carried = {key}
        while more := {
            part.key
            for part in self.parts
            if part.key not in carried and carried & {*part.hosts}
        }:
            carried |= more
        return frozenset(carried)
