"""Bays at the front for drives of 5.25 in, one above the other."""

from __future__ import annotations

from typing import Final

from layout.geometry.bodies.turn import Turn
from layout.geometry.space import Axis, Direction
from layout.parts.form import field
from layout.parts.form.form import Link, Seat, SeatSort
from layout.parts.form.link import exact, link, sheet_link, times
from layout.parts.form.mounted import Span
from layout.standards.drives import SIZES
from layout.standards.figure import Figure, practice
from layout.values import dataclass

__all__ = ["Bays", "bay_seats", "bays_mm"]

_PITCH_MM: Final = 42.0
"""From one bay to the next; common practice, no source."""
_LENGTHWISE: Final = Turn(Direction.TRAY, Direction.UP)
"""A drive whose length runs from the rear to the front."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bays:
    """Bays behind the front."""

    count: int = field.count("how many, one above the other", 1, least=1, most=8)
    from_floor: Figure = field.length(
        "floor to the lowest bay's underside", least_mm=0, most_mm=900
    )
    from_tray: Figure = field.length(
        "tray to the drives' side",
        practice(15.0, 8.0, assumed=True),
        least_mm=0,
        most_mm=200,
    )


def bays_mm(bays: Bays | None) -> tuple[tuple[Span, Span], ...]:
    """Return what bays take of the front: height and width."""
    if bays is None:
        return ()
    size, low_mm, near_mm = SIZES["5.25"], bays.from_floor.mm, bays.from_tray.mm
    high_mm = low_mm + bays.count * _PITCH_MM
    return (((low_mm, high_mm), (near_mm, near_mm + size.width.mm)),)


def bay_seats(bays: Bays, *, depth_mm: float, depth: Link) -> tuple[Seat, ...]:
    """Return a seat for each bay: a drive ends at the front's inside."""
    size = SIZES["5.25"]
    return tuple(
        Seat(
            name=f"bay {number}",
            sort=SeatSort.DRIVE,
            at_mm=(
                depth_mm - size.length.mm / 2,
                bays.from_floor.mm + (number - 1) * _PITCH_MM,
                bays.from_tray.mm + size.width.mm / 2,
            ),
            approach=Direction.REAR,
            turn=_LENGTHWISE,
            links=(
                depth,
                times(link("drive length", size.length, Axis.DEPTH), -0.5),
                sheet_link("bays over the floor", bays.from_floor, Axis.HEIGHT),
                exact("bays under it", (number - 1) * _PITCH_MM, Axis.HEIGHT),
                sheet_link("bays from the tray", bays.from_tray, Axis.WIDTH),
                times(link("drive width", size.width, Axis.WIDTH), 0.5),
            ),
        )
        for number in range(1, bays.count + 1)
    )
