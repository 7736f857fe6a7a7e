"""What a part plugs in and what can be plugged into it, counted by kind."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final, TypeAlias

from layout.geometry.space import Vector
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.errors import PartError
from layout.standards.figure import Figure
from layout.values import dataclass

__all__ = [
    "EIGHTS_OF_16",
    "EIGHT_PINS",
    "FAMILIES",
    "HEADERS",
    "PINS",
    "PLUGS",
    "POWER",
    "Counts",
    "Fed",
    "Hookup",
    "Listed",
    "Outlets",
    "counted",
    "family_of",
]

Listed: TypeAlias = tuple[tuple[str, int], ...]
"""How many of each kind, as files write it."""

Counts: TypeAlias = tuple[tuple[ConnectorKind, int], ...]
"""How many of each kind."""

_Kinds: TypeAlias = frozenset[ConnectorKind]

FAMILIES: Final[tuple[_Kinds, ...]] = (
    frozenset({ConnectorKind.FAN_4, ConnectorKind.FAN_3}),
    frozenset({ConnectorKind.LIGHT_5V, ConnectorKind.LIGHT_12V}),
    frozenset({ConnectorKind.USB_9, ConnectorKind.USB_19, ConnectorKind.USB_20}),
    frozenset({ConnectorKind.CARD_8, ConnectorKind.CARD_6, ConnectorKind.CARD_16}),
)
"""Kinds for one purpose: who lists some of a family has no others."""

POWER: Final = frozenset(
    {
        ConnectorKind.MAIN,
        ConnectorKind.PROCESSOR,
        ConnectorKind.CARD_8,
        ConnectorKind.CARD_6,
        ConnectorKind.CARD_16,
        ConnectorKind.DRIVE_POWER,
    }
)
"""What a supply's leads feed."""

EIGHT_PINS: Final = frozenset(
    {ConnectorKind.PROCESSOR, ConnectorKind.CARD_8, ConnectorKind.CARD_6}
)
"""Kinds whose leads share their sockets at a modular supply."""

EIGHTS_OF_16: Final = 2
"""Sockets of 8 contacts that a 12V-2x6 lead takes where its supply has none of its
own; common practice, no source."""

HEADERS: Final = frozenset(ConnectorKind) - POWER
"""What a board has sockets for."""

PINS: Final = HEADERS - {ConnectorKind.DRIVE_DATA}
"""What leads of fans, hubs and the case's front end in."""

PLUGS: Final = frozenset(ConnectorKind) - {
    ConnectorKind.MAIN,
    ConnectorKind.PROCESSOR,
    ConnectorKind.DRIVE_DATA,
}
"""What fans, coolers and cases bring plugs of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlets:
    """Sockets that are there once a splitter's own plugs are in theirs.

    ``bears_ma`` is what all of them may draw together; None: nobody says.
    """

    kind: ConnectorKind
    count: int
    bears_ma: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fed:
    """Leads of one sort at their supply: each has plugs, and takes sockets there."""

    plug: ConnectorKind
    plugs: int
    count: int
    socket: ConnectorKind
    takes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Hookup:
    """One part's plugs and sockets.

    Parameters
    ----------
    demands : tuple of (ConnectorKind, int)
        What must be met: its plugs need sockets, its sockets need feeding.
    usual : bool
        Whether the demands are the usual ones of its kind: the file says nothing.
    draws_ma : int or None
        What each of its fans draws; None: nobody says.
    light_ma : int or None
        What goes through each plug of its lights; None: nobody says.
    spare : tuple of (ConnectorKind, int)
        Sockets of its own that may stay empty.
    provides : frozenset of ConnectorKind
        What its kind of part is there to offer.
    offers : tuple of (ConnectorKind, int)
        What it has for the demands of others.
    unsaid : frozenset of ConnectorKind
        Those that it is taken to offer although the file says nothing.
    refused : tuple of (str, ConnectorKind, int)
        Leads made for another supply: which, and what plugs they have.
    sockets : tuple of (ConnectorKind, int) or None
        A supply's own, for its leads; None: nobody counts them.
    fed : tuple of Fed
        The leads that are plugged in there.
    outlets : Outlets or None
        What a splitter offers.
    leads : tuple of (ConnectorKind, Figure, str)
        How long the leads are that end in its plugs, kind by kind, and the field that
        says so.
    pump_lead : Figure or None
        How long a pump's is, which ends in the first of its fan plugs.
    from_mm : Vector or None
        Where those of a case's front or of a splitter start, which has its outlets
        there; other parts' start at their fans.
    """

    demands: Counts = ()
    usual: bool = False
    draws_ma: int | None = None
    light_ma: int | None = None
    spare: Counts = ()
    provides: _Kinds = frozenset()
    offers: Counts = ()
    unsaid: _Kinds = frozenset()
    refused: tuple[tuple[str, ConnectorKind, int], ...] = ()
    sockets: Counts | None = None
    fed: tuple[Fed, ...] = ()
    outlets: Outlets | None = None
    leads: tuple[tuple[ConnectorKind, Figure, str], ...] = ()
    pump_lead: Figure | None = None
    from_mm: Vector | None = None


def family_of(kind: ConnectorKind) -> _Kinds:
    """Return the kinds that serve the same purpose, the kind itself among them."""
    return next((each for each in FAMILIES if kind in each), frozenset({kind}))


def counted(
    field: str, told: Listed | None, allowed: Iterable[ConnectorKind]
) -> Counts:
    """Return how many of each kind a file tells in a field.

    Raises
    ------
    PartError
        If it names a kind that does not exist, or that the field does not take.
    """
    if not told:
        return ()
    taken = set(allowed)
    known = {each.value: each for each in ConnectorKind if each in taken}
    for word, _ in told:
        if word not in known:
            raise PartError(
                field=f"{field}.{word}",
                found="an unknown kind",
                right=f"one of {', '.join(known)}",
            )
    return tuple((known[word], count) for word, count in told)
