"""What boards of a form usually have, where the file does not say."""

from __future__ import annotations

from dataclasses import replace

from layout.parts.board.board_m2 import M2Place, usual_places
from layout.parts.board.board_plan import CardSlot, Heatsinks
from layout.parts.board.memory_slot import MemoryLooks, MemorySize
from layout.standards import cards
from layout.standards.figure import Figure, practice

__all__ = [
    "FIRST_SLOT",
    "HEATSINK_HEIGHT",
    "LYING_PAIRS",
    "PLUGS_MM",
    "first_memory_slot",
    "lying_mm",
    "lying_reach_mm",
    "usual_card_slots",
    "usual_heatsinks",
    "usual_m2",
    "usual_slots",
    "usual_socket",
]

FIRST_SLOT = practice(62.0, 5.0, assumed=True)
HEATSINK_HEIGHT = practice(22.0, 12.0, assumed=True)
"""Regulator heatsinks over the board; common practice, no source."""
_FIRST_LYING = practice(47.0, 8.0, assumed=True)
"""A lying module ends before the plugs at the front edge of the smallest boards."""
_FIRST_LYING_FULL = practice(50.0, 8.0, assumed=True)
"""A full-size one is so long that it must pass the heatsinks at the socket's side."""
LYING_PAIRS = practice(45.0, 10.0, assumed=True)
"""From one pair of lying modules to the next."""
_LYING_MM = {MemorySize.LAPTOP: 30.0, MemorySize.FULL: 44.0}
PLUGS_MM = 12.0
"""The processor's power plugs at the top edge."""
_APART_MM = 2.0
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
    if not looks.lies or told is not FIRST_SLOT:
        return told
    return _FIRST_LYING if size is MemorySize.LAPTOP else _FIRST_LYING_FULL


def usual_slots(looks: MemoryLooks, *, small: bool) -> int:
    """Return how many memory slots there are: two where modules lie on the face."""
    return 2 if small or looks.lies else 4


def usual_socket(
    rear: Figure,
    top: Figure,
    *,
    reach_mm: float,
    looks: MemoryLooks,
    connectors_end_mm: float,
) -> tuple[Figure, Figure]:
    """Return the socket's usual place from the rear and the top edge.

    A board whose memory lies between the socket and the rear connectors, or the top
    edge, has its socket farther from them: ``reach_mm`` is what such modules take,
    from the socket's centre on.
    """
    if looks is MemoryLooks.REAR:
        return _at_least(rear, connectors_end_mm + _APART_MM + reach_mm), top
    if looks is MemoryLooks.UP:
        return rear, _at_least(top, PLUGS_MM + _APART_MM + reach_mm)
    return rear, top


def lying_mm(size: MemorySize) -> float:
    """Return what a lying module takes beyond its slot's middle.

    The higher ones with heat spreaders; common practice, no source.
    """
    return _LYING_MM[size]


def lying_reach_mm(
    first: Figure, pitch: Figure | None, size: MemorySize, *, slots: int
) -> float:
    """Return how far lying modules reach from the socket's centre."""
    pairs = (slots - 1) // 2
    between_mm = pairs * (pitch or LYING_PAIRS).mm
    return first.mm + between_mm + lying_mm(size) + _APART_MM


def _at_least(usual: Figure, mm: float) -> Figure:
    return usual if usual.mm >= mm else replace(usual, mm=mm)


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


def usual_heatsinks(looks: MemoryLooks, size: MemorySize) -> Heatsinks:
    """Return where regulators' heatsinks are: not where lying memory stands.

    Both are places that a file leaves untold, and a board has room for one of them.
    A full-size module over or under the socket is as long as the board is deep there.
    """
    full = size is MemorySize.FULL
    if looks is MemoryLooks.REAR or (full and looks is MemoryLooks.DOWN):
        return Heatsinks.TOP
    if looks is MemoryLooks.UP:
        return Heatsinks.NONE if full else Heatsinks.REAR
    return Heatsinks.REAR_AND_TOP
