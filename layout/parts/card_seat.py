"""The place under a card where a support bears it."""

from __future__ import annotations

from layout.geometry.space import Direction
from layout.parts.form import Link, Seat, SeatSort
from layout.standards import cards

__all__ = ["support_seat"]


def support_seat(
    length_mm: float, low_mm: float, *, slots: int, links: tuple[Link, ...]
) -> Seat:
    """Return the place under a card, across it at the middle of its bracket.

    Its room is the card's length, and how far over its lower side the line of the
    next opening lies: below it, a negative number.
    """
    foot_mm = cards.BRACKET_TAB_SEAT.mm - cards.BRACKET_LENGTH.mm
    return Seat(
        name="support",
        sort=SeatSort.SUPPORT,
        at_mm=(0.0, low_mm, foot_mm + cards.BRACKET_LENGTH.mm / 2),
        approach=Direction.UP,
        room_mm=(length_mm, -slots * cards.SLOT_PITCH.mm - low_mm),
        links=links,
    )
