"""Processors: height of the stack, cooler holes, place of the socket.

A stack from memory is published by its maker but was not read, so it is marked
unverified; the place of the socket is published nowhere, so it is an assumption.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from layout.standards.figure import Figure, memory, secondary, seen
from layout.standards.sources import (
    COOLER_GUIDE,
    SOCKET_1150,
    SOCKET_1155,
    SOCKET_1156,
    SOCKET_SCATTER,
    SOCKET_TABLE,
)
from layout.values import dataclass

__all__ = [
    "CENTRE",
    "KEEP_IN",
    "PACKAGE",
    "REFERENCE_COOLER",
    "REFERENCE_OBSTRUCTION",
    "SEATING_PLANE",
    "SOCKETS",
    "Socket",
    "named",
]

SEATING_PLANE: Final = seen(3.4, f"{SOCKET_1155}, Table 5-2", 0.2)
"""From the board's top to the seat of the package."""
PACKAGE: Final = seen(4.381, f"{SOCKET_1155}, Table 5-2", 0.269)
"""From the package's lands to the top of its heat spreader."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Socket:
    """A socket family.

    Parameters
    ----------
    stack : Figure
        From the board's top to the top of the processor's heat spreader.
    cooler_holes : tuple of Figure
        Spacing of the four cooler holes along depth and along height on an upright
        board; which way the unequal ones lie is from memory.
    """

    name: str
    stack: Figure
    cooler_holes: tuple[Figure, Figure]


def _socket(name: str, stack: Figure, holes_mm: tuple[float, float]) -> Socket:
    """Return a family; all hole spacings come from one table."""
    along, up = (secondary(mm, SOCKET_TABLE) for mm in holes_mm)
    return Socket(name=name, stack=stack, cooler_holes=(along, up))


def _published(source: str) -> Figure:
    """Return the stack height that three guides give alike, stated as RSS."""
    return seen(7.781, source, 0.335)


def _recalled(mm: float, plus_minus_mm: float) -> Figure:
    """Return a stack height from memory."""
    return memory(mm, "from memory, confirm in the socket's guide", plus_minus_mm)


SOCKETS: Final[Mapping[str, Socket]] = MappingProxyType(
    {
        each.name: each
        for each in (
            _socket("LGA1150", _published(f"{SOCKET_1150}, Table 4"), (75, 75)),
            _socket("LGA1151", _recalled(7.8, 0.5), (75, 75)),
            _socket("LGA1155", _published(f"{SOCKET_1155}, Table 5-2"), (75, 75)),
            _socket("LGA1156", _published(f"{SOCKET_1156}, Table 5-2"), (75, 75)),
            _socket("LGA1200", _recalled(7.8, 0.5), (75, 75)),
            _socket("LGA1366", _recalled(7.7, 0.3), (80, 80)),
            _socket("LGA1700", _recalled(7.0, 0.6), (78, 78)),
            _socket("LGA1851", _recalled(7.0, 0.6), (78, 78)),
            _socket("LGA2011", _recalled(8.2, 0.3), (80, 80)),
            _socket("LGA2066", _recalled(8.2, 0.3), (80, 80)),
            _socket("AM4", _recalled(7.5, 0.5), (54, 90)),
            _socket("AM5", _recalled(7.25, 0.5), (54, 90)),
        )
    }
)


def named(socket: str) -> str:
    """Return a socket family's name as it is known, however it is spelled.

    Examples
    --------
    >>> named("am5"), named("LGA 1700"), named("lga-1851"), named("Slot 9")
    ('AM5', 'LGA1700', 'LGA1851', 'Slot 9')
    """
    bare = "".join(each for each in socket.upper() if each not in " -_")
    return bare if bare in SOCKETS else socket


def _centre(
    from_rear_mm: float, from_top_mm: float, plus_minus_mm: float
) -> tuple[Figure, Figure]:
    """Return a socket's place from the board's rear and top edges."""
    source = f"place from memory; scatter from {SOCKET_SCATTER}"
    return (
        memory(from_rear_mm, source, plus_minus_mm, assumed=True),
        memory(from_top_mm, source, plus_minus_mm, assumed=True),
    )


CENTRE: Final[Mapping[str, tuple[Figure, Figure]]] = MappingProxyType(
    {
        "ATX": _centre(100.0, 78.0, 15.0),
        "microATX": _centre(100.0, 78.0, 15.0),
        "Mini-ITX": _centre(80.0, 66.0, 5.0),
        "SSI EEB": _centre(100.0, 78.0, 15.0),
        "SSI CEB": _centre(100.0, 78.0, 15.0),
    }
)
"""Centre of the socket by board form: no specification fixes it."""

KEEP_IN: Final = seen(47.5, f"half of 94.76, Fig B-3 of {SOCKET_1155}, rounded up")
"""From the socket's centre to what coolers leave to others."""

REFERENCE_COOLER: Final = seen(71.12, f"{COOLER_GUIDE}, 6.6, at most")
REFERENCE_OBSTRUCTION: Final = seen(81.28, f"{COOLER_GUIDE}, 6.6, at least")
"""Height above the board's top that the reference cooler leaves to the case."""
