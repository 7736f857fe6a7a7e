"""How a cooler stands on its socket: off its centre, turned, with a plate behind."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from enum import Enum
from typing import Final

from shapely import affinity

from layout.geometry.bodies.turn import Turn, turn_of
from layout.geometry.solids.solid import Solid, block
from layout.geometry.space import Axis, Direction
from layout.parts.form.form import Form, Link, Piece, Portion, Role, Seat
from layout.parts.form.link import STACK, THICKNESS, centred, less, link, size
from layout.parts.form.turned import turned
from layout.standards import boards
from layout.standards.figure import Figure, given, practice

__all__ = [
    "FORWARD",
    "UPWARD",
    "Blows",
    "back_plate",
    "blowing",
    "off_centre",
    "stack_of",
]

FORWARD: Final = "fins' middle before the socket's centre; behind it: a negative number"
UPWARD: Final = (
    "fins' middle beyond the socket's centre towards the board's upper edge; below it: "
    "a negative number"
)
"""What every kind of cooler says of these fields."""

_PLATE = practice(95.0, 10.0, assumed=True)
"""Edge of a plate behind the board, over the cooler's four holes."""


class Blows(Enum):
    """Where the air leaves a cooler; figures are told as it blows to the rear."""

    REAR = "rear"
    UP = "up"
    FRONT = "front"
    DOWN = "down"

    @property
    def turn(self) -> Turn:
        """Return how the cooler stands on an upright board."""
        panel = (Direction.PANEL, Direction.PANEL)
        return turn_of(panel, (Direction.REAR, Direction[self.name]))


def blowing(form: Form, blows: Blows) -> Form:
    """Return a cooler, made as it blows to the rear, turned on its socket."""
    return turned(form, blows.turn)


def off_centre(
    pieces: Sequence[Piece], forward: Figure | None, upward: Figure | None
) -> tuple[Piece, ...]:
    """Return a cooler's pieces with all but its base off the socket's centre.

    The base is the first solid of the cooler's own body, and its first portion.
    """
    by_mm = (forward.mm if forward else 0.0, upward.mm if upward else 0.0)
    links: list[Link] = []
    for label, figure, axis in (
        ("fins before the socket's centre", forward, Axis.DEPTH),
        ("fins beyond the socket's centre", upward, Axis.HEIGHT),
    ):
        if figure is not None:
            links.append(link(label, figure, axis))
    return tuple(
        replace(
            piece,
            solids=tuple(
                solid
                if piece.role is Role.COOLER and not index
                else _shifted(solid, by_mm)
                for index, solid in enumerate(piece.solids)
            ),
            links=(*piece.links, *links),
            portions=(
                *piece.portions[:1],
                *(
                    Portion(each.box.moved((*by_mm, 0.0)), (*each.links, *links))
                    for each in piece.portions[1:]
                ),
            ),
        )
        for piece in pieces
    )


def _shifted(solid: Solid, by_mm: tuple[float, float]) -> Solid:
    if not any(by_mm):
        return solid
    x, y = by_mm
    return Solid(
        affinity.translate(solid.side, x, y), affinity.translate(solid.top, x, 0.0)
    )


def stack_of(seat: Seat) -> Figure:
    """Return how high a cooler's seat stands over the board."""
    return seat.figure or given(seat.at_mm[2])


def back_plate(height: Figure | None, stack: Figure) -> tuple[Piece, ...]:
    """Return the plate behind the board, at the origin of the cooler's contact face.

    Parameters
    ----------
    height : Figure or None
        None: the cooler uses what the board has.
    stack : Figure
        The contact face above the board's top.
    """
    if height is None:
        return ()
    half_mm = _PLATE.mm / 2
    under_mm = -stack.mm - boards.THICKNESS.mm
    square = (-half_mm, half_mm)
    return (
        Piece(
            name="back plate",
            role=Role.BACK_PLATE,
            solids=(block(square, square, (under_mm - height.mm, under_mm)),),
            links=(
                less(link(STACK, stack, Axis.WIDTH)),
                less(link(THICKNESS, boards.THICKNESS, Axis.WIDTH)),
                size(link("back plate's height", height, Axis.WIDTH), Direction.TRAY),
                centred(link("back plate's edge", _PLATE, Axis.DEPTH, Axis.HEIGHT)),
            ),
        ),
    )
