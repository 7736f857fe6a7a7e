"""What a cooler's figures are measured from; all of it common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Final

from layout.parts.cooling.fan import fan_thickness
from layout.parts.form.errors import PartError
from layout.parts.form.form import Seat
from layout.parts.form.link import CONTACT_EDGE, STACK
from layout.parts.form.reading import Reading, Readings
from layout.standards.figure import Figure, practice
from layout.standards.memory import SEAT
from layout.standards.processors import SOCKETS

__all__ = ["DEPTH", "HEIGHT", "ROOM_OVER_MEMORY", "STACKS_DEPTH"]


def _stack(spec: object, seat: Seat | None) -> Figure | None:
    """Return how high the processor under a cooler stands over its board."""
    del spec
    return seat.figure if seat else None


def _fans(spec: Any, seat: Seat | None) -> Figure:  # noqa: ANN401 (a cooler)
    """Return how thick the fans before and behind a cooler's fins are together."""
    del seat
    outer: int = spec.outer_fans
    if outer < 1:
        raise PartError(
            field="measured from.depth",
            found="a depth with the fans in it, and no fan before or behind the fins",
            right="'fans' beside it, or fins alone",
        )
    one: Figure = spec.fan_thickness or fan_thickness(spec.fan_size)
    off_mm = one.plus_minus_mm
    return replace(
        one,
        mm=outer * one.mm,
        plus_minus_mm=None if off_mm is None else outer * off_mm,
    )


_WITH_FANS: Final = Reading(
    name="with its fans",
    meaning="from the rear of the rearmost to the front of the foremost, fins or fan",
    step=practice(25.0),
    between="fans before and behind the fins",
    found=_fans,
)
DEPTH: Final = Readings(usual="fins alone", others=(_WITH_FANS,))
STACKS_DEPTH: Final = Readings(
    usual="both stacks and the fan between", others=(_WITH_FANS,)
)

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
