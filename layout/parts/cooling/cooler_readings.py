"""What a cooler's figures are measured from; all of it common practice, no source."""

from __future__ import annotations

from typing import Final

from layout.parts.form.form import Seat
from layout.parts.form.link import CONTACT_EDGE, STACK
from layout.parts.form.reading import Reading, Readings
from layout.standards.figure import Figure
from layout.standards.memory import SEAT
from layout.standards.processors import SOCKETS

__all__ = ["HEIGHT", "ROOM_OVER_MEMORY"]


def _stack(spec: object, seat: Seat | None) -> Figure | None:
    """Return how high the processor under a cooler stands over its board."""
    del spec
    return seat.figure if seat else None


HEIGHT: Final = Readings(
    usual="contact face",
    others=(
        Reading(
            name="board surface",
            meaning="board's top to the highest point, the processor's stack included",
            step=SOCKETS["LGA1155"].stack,
            between=STACK,
            found=_stack,
        ),
    ),
)

ROOM_OVER_MEMORY: Final = Readings(
    usual="module's own height",
    others=(
        Reading(
            name="board surface",
            meaning="board's top to the lowest point over the memory",
            step=SEAT,
            between=CONTACT_EDGE,
        ),
    ),
)
