"""A processor in its socket: what a cooler stands on."""

from __future__ import annotations

from typing import ClassVar

from layout.geometry.solids.solid import block
from layout.geometry.space import Axis, Direction
from layout.parts.form import field
from layout.parts.form.form import Form, Piece, Role, Seat, SeatSort
from layout.parts.form.link import STACK, centred, link, size
from layout.parts.form.wish import Wish
from layout.standards.figure import Figure, practice
from layout.values import dataclass

__all__ = ["Processor"]

_SPREADER = practice(36.0, 3.0, assumed=True)
"""Edge of a heat spreader: it decides nothing but the drawing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Processor:
    """A processor; builds that name none get one for their board's socket."""

    kind: ClassVar[str] = "processor"

    stack: Figure | None = field.length(
        "board's top to the top of the heat spreader; default: the socket family's",
        None,
        least_mm=3,
        most_mm=15,
    )

    def wishes(self) -> tuple[Wish, ...]:
        """Return the socket."""
        return (Wish(sort=SeatSort.PROCESSOR),)

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return the stack on the board; its top is the cooler's contact face."""
        del wish
        stack = self.stack or seat.figure
        if stack is None:
            raise TypeError(f"seat {seat.name} states no stack height")
        links = (link(STACK, stack, Axis.WIDTH),)
        spreader = centred(
            link(
                "heat spreader's edge",
                _SPREADER,
                *(Axis.DEPTH, Axis.HEIGHT),
                tape="across the processor's heat spreader",
            )
        )
        half_mm = _SPREADER.mm / 2
        square = (-half_mm, half_mm)
        return Form(
            pieces=(
                Piece(
                    name="",
                    role=Role.PROCESSOR,
                    solids=(block(square, square, (0.0, stack.mm)),),
                    links=(size(links[0], Direction.PANEL), spreader),
                ),
            ),
            seats=(
                Seat(
                    name="processor",
                    sort=SeatSort.COOLER,
                    at_mm=(0.0, 0.0, stack.mm),
                    approach=Direction.TRAY,
                    links=links,
                    figure=stack,
                    screws=seat.screws,
                ),
            ),
            size=f"{stack.mm:g} high",
        )
