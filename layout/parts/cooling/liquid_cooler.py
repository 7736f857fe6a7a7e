"""A liquid cooler: a pump block on the processor, its radiator on a fan mount."""

from __future__ import annotations

from dataclasses import replace
from enum import Enum
from typing import ClassVar

from layout.geometry.solids.solid import block
from layout.geometry.space import Axis, Direction
from layout.parts.cooling import cooler_box, cooler_readings
from layout.parts.cooling.fan import mount_wish
from layout.parts.cooling.on_socket import back_plate, stack_of
from layout.parts.cooling.radiator import Radiator
from layout.parts.form import field
from layout.parts.form.form import Form, Link, Piece, Role, Seat, SeatSort
from layout.parts.form.kit import Kit
from layout.parts.form.link import centred, link, size, times
from layout.parts.form.reading import Told
from layout.parts.form.wish import Wish
from layout.parts.wiring.hookup import PLUGS, Listed, counted
from layout.parts.wiring.hoses import HOSE_LENGTH, hoses
from layout.standards.figure import Figure, practice
from layout.standards.leads import PUMP_LEAD
from layout.values import dataclass

__all__ = ["HosesLook", "LiquidCooler"]

_UNDER_MM = 5.0
"""Pump block over its hoses; common practice, no source."""


class HosesLook(Enum):
    """Side of the pump block that the hoses leave, told on an upright board."""

    FRONT = "front"
    REAR = "rear"
    UP = "up"
    DOWN = "down"
    UNTOLD = "not told"  # hoses are left out


@dataclass(frozen=True, slots=True, kw_only=True)
class LiquidCooler:
    """A liquid cooler with two seats, and its hoses as far as they cannot turn away."""

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
    hoses_look: HosesLook = field.choice(
        "side of the pump block that its hoses leave, or not told", HosesLook.FRONT
    )
    hose_length: Figure | None = field.length(
        "hose from fitting to fitting; default: not asked",
        None,
        least_mm=100,
        most_mm=1200,
    )
    back_plate: Figure | None = cooler_box.back_plate()
    radiator: Radiator = field.nested("the radiator: size, mount and the rest of it")
    measured_from: Told = field.measured_from()
    kits: tuple[Kit, ...] | None = cooler_box.kits()
    pump_lead: Figure = cooler_box.lead(
        "the pump's lead, pump block to plug", PUMP_LEAD
    )
    plugs: Listed | None = cooler_box.plugs("the pump and one lead for its fans")

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
                        size(self._high, Direction.PANEL),
                        centred(self._wide(Axis.DEPTH, Axis.HEIGHT)),
                    ),
                ),
                *self._hoses(),
                *back_plate(self.back_plate, stack_of(seat)),
            ),
            kits=self.kits,
        )

    @property
    def _high(self) -> Link:
        return link(
            "pump block's height",
            self.block_height,
            Axis.WIDTH,
            tape="contact face to the pump block's highest point",
            entry="block height",
        )

    def _wide(self, *axes: Axis) -> Link:
        return link(
            "pump block's width",
            self.block_width,
            *axes,
            tape="one side of the pump block to the other",
            entry="block width",
        )

    def _hoses(self) -> tuple[Piece, ...]:
        """Return the hoses at the block: their elbows turn any way."""
        if self.hoses_look is HosesLook.UNTOLD:
            return ()
        out, diameter = Direction[self.hoses_look.name], self.radiator.hose_diameter
        off_mm = out.sign * self.block_width.mm / 2
        high_mm = max(
            diameter.mm / 2, self.block_height.mm - diameter.mm / 2 - _UNDER_MM
        )
        level = out.axis is Axis.DEPTH
        made = hoses(
            "block hoses",
            (off_mm if level else 0.0, 0.0 if level else off_mm, high_mm),
            out,
            beside=Axis.HEIGHT if level else Axis.DEPTH,
            diameter=diameter,
            bend=None,
        )
        length = self.hose_length
        told = (link(HOSE_LENGTH, length),) if length else ()
        beside = times(self._wide(out.axis), out.sign / 2)
        own = (*made.links, self._high, beside, *told)
        return (replace(made, links=own),)
