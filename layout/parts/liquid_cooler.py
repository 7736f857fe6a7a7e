"""A liquid cooler: a pump block on the processor, its radiator on a fan mount."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from layout.geometry.solid import block
from layout.geometry.space import Axis
from layout.parts import cooler_readings, field
from layout.parts.fan import mount_wish
from layout.parts.form import Form, Piece, Role, Seat, SeatSort
from layout.parts.hookup import PLUGS, Listed, counted
from layout.parts.kit import KITS, Kit
from layout.parts.link import link
from layout.parts.radiator import Radiator
from layout.parts.reading import Told
from layout.parts.wish import Wish
from layout.standards.figure import Figure, practice

__all__ = ["LiquidCooler"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LiquidCooler:
    """A liquid cooler with two seats; hoses are not bodies yet."""

    kind: ClassVar[str] = "liquid cooler"

    block_height: Figure = field.length(
        "contact face to the pump block's highest point",
        practice(55.0, 10.0, assumed=True),
        least_mm=15,
        most_mm=120,
        readings=cooler_readings.HEIGHT,
    )
    block_width: Figure = field.length(
        "edge or diameter of the pump block",
        practice(75.0, 10.0, assumed=True),
        least_mm=40,
        most_mm=120,
    )
    radiator: Radiator = field.nested("the radiator: size, mount and the rest of it")
    measured_from: Told = field.measured_from()
    kits: tuple[Kit, ...] | None = field.nested(KITS, None)
    plugs: Listed | None = field.count(
        "plugs to be plugged in: {4-pin fan: 1, 5 V light: 1}; default: "
        "the pump and one lead for its fans",
        None,
        least=0,
        most=12,
    )

    def __post_init__(self) -> None:
        counted("plugs", self.plugs, PLUGS)

    def wishes(self) -> tuple[Wish, ...]:
        """Return the processor's top and the places on the mount."""
        radiator = self.radiator
        return (
            Wish(sort=SeatSort.COOLER, piece="block"),
            mount_wish(
                radiator.mount,
                radiator.side,
                radiator.places,
                piece="radiator",
                chosen_in="radiator",
            ),
        )

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return the piece that the wish is for."""
        if wish.sort is SeatSort.FANS:
            return self.radiator.made_for(wish, seat)
        half_mm = self.block_width.mm / 2
        square = (-half_mm, half_mm)
        return Form(
            pieces=(
                Piece(
                    name=wish.piece,
                    role=Role.PUMP_BLOCK,
                    solids=(block(square, square, (0.0, self.block_height.mm)),),
                    links=(
                        link(
                            "pump block's height",
                            self.block_height,
                            Axis.WIDTH,
                            tape="contact face to the pump block's highest point",
                            entry="block height",
                        ),
                        link(
                            "pump block's width",
                            self.block_width,
                            Axis.DEPTH,
                            Axis.HEIGHT,
                            tape="one side of the pump block to the other",
                            entry="block width",
                        ),
                    ),
                ),
            ),
            kits=self.kits,
        )
