"""What boards of a form usually have, where the file does not say."""

from __future__ import annotations

from layout.parts.board_m2 import M2Place, usual_places
from layout.parts.board_plan import CardSlot, Heatsinks
from layout.parts.memory_slot import MemoryLooks, MemorySize
from layout.standards import cards
from layout.standards.figure import Figure, practice

__all__ = [
    "FIRST_SLOT",
    "HEATSINK_HEIGHT",
    "first_memory_slot",
    "usual_card_slots",
    "usual_heatsinks",
    "usual_m2",
]

FIRST_SLOT = practice(62.0, 5.0, assumed=True)
HEATSINK_HEIGHT = practice(22.0, 12.0, assumed=True)
"""Regulator heatsinks over the board; common practice, no source."""
_FIRST_LYING = practice(47.0, 8.0, assumed=True)
"""A lying module ends before the plugs at the front edge of the smallest boards."""

_SMALL_BOARD_MM = 200.0
_USUAL_CARD_SLOTS = (
    CardSlot(opening=1, lanes=16),
    CardSlot(opening=3, lanes=1),
    CardSlot(opening=4, lanes=16),
    CardSlot(opening=7, lanes=4),
)
"""Which openings have a socket differs from board to board; common practice, no
source."""


def first_memory_slot(told: Figure, looks: MemoryLooks, size: MemorySize) -> Figure:
    """Return the first memory slot's place from the socket's centre."""
    lying = looks.lies and size is MemorySize.LAPTOP
    return _FIRST_LYING if lying and told is FIRST_SLOT else told


def usual_card_slots(lower_mm: float) -> tuple[CardSlot, ...]:
    """Return the usual openings whose sockets lie on a board.

    ``lower_mm`` is its expansion edge in the board frame.
    """
    half_mm = cards.CONNECTOR_WIDTH.mm / 2
    return tuple(
        each for each in _USUAL_CARD_SLOTS if _line_mm(each) - half_mm >= lower_mm
    )


def usual_m2(
    slots: tuple[CardSlot, ...], lower_mm: float, height_mm: float
) -> tuple[tuple[str, M2Place], ...]:
    """Return the usual places for M.2 drives beside a board's card slots."""
    return usual_places(
        upper_mm=lower_mm + height_mm,
        slots_mm=tuple(sorted(map(_line_mm, slots), reverse=True)),
        small=height_mm < _SMALL_BOARD_MM,
    )


def _line_mm(slot: CardSlot) -> float:
    return cards.FIRST_SLOT.mm - (slot.opening - 1) * cards.SLOT_PITCH.mm


def usual_heatsinks(looks: MemoryLooks) -> Heatsinks:
    """Return where regulators' heatsinks are: not where lying memory stands.

    Both are places that a file leaves untold, and a board has room for one of them.
    """
    if looks is MemoryLooks.REAR:
        return Heatsinks.TOP
    return Heatsinks.REAR if looks is MemoryLooks.UP else Heatsinks.REAR_AND_TOP
