"""A twin tower: two stacks of fins with a fan between them."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar

from layout.geometry.solid import Solid, block
from layout.geometry.space import Axis
from layout.parts import cooler_readings, field
from layout.parts.cooler_fan import (
    FanOnTower,
    above_contact_mm,
    base,
    checked_fan,
    checked_fins,
    fins_link,
    heat_pipes,
)
from layout.parts.errors import PartError
from layout.parts.form import Form, Piece, Role, Seat, SeatSort
from layout.parts.hookup import PLUGS, Listed, counted
from layout.parts.kit import KITS, Kit
from layout.parts.link import link
from layout.parts.on_socket import (
    BACK_PLATE,
    FORWARD,
    UPWARD,
    Blows,
    back_plate,
    blowing,
    off_centre,
)
from layout.parts.reading import Told
from layout.parts.wish import Wish
from layout.standards.figure import Figure, practice
from layout.values import dataclass

__all__ = ["TwinTower"]

_THINNEST_STACK_MM = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TwinTower:
    """A twin tower with up to three fans: between the stacks, in front, behind."""

    kind: ClassVar[str] = "twin tower"

    height: Figure = field.length(
        "contact face to the highest point, fans at their lowest place",
        least_mm=60,
        most_mm=220,
        readings=cooler_readings.HEIGHT,
    )
    width: Figure = field.length(
        "fins along the board's rear edge", least_mm=60, most_mm=200
    )
    depth: Figure = field.length(
        "both stacks and the fan between them, without the fan in front",
        least_mm=50,
        most_mm=200,
    )
    fins_from: Figure | None = field.length(
        "contact face to the fins' lower edge; default: the middle fan's lower edge, "
        "2/7 of the fan's size at least",
        None,
        least_mm=5,
        most_mm=120,
    )
    room_over_memory: Figure | None = field.length(
        "tallest module's own height that goes under the fan in front",
        None,
        least_mm=15,
        most_mm=90,
        readings=cooler_readings.ROOM_OVER_MEMORY,
    )
    fans: int = field.count("how many fans", 2, least=1, most=3)
    fan_size: int = field.count("frame size", 120, least=80, most=150)
    fan_thickness: Figure | None = field.length(
        "frame thickness; default: the usual one", None, least_mm=10, most_mm=40
    )
    fan_raise: Figure | None = field.length(
        "how far the front fan is raised over the memory", None, least_mm=0, most_mm=60
    )
    forward: Figure | None = field.length(FORWARD, None, least_mm=-60, most_mm=60)
    upward: Figure | None = field.length(UPWARD, None, least_mm=-60, most_mm=60)
    blows: Blows = field.choice("where the air leaves it", Blows.REAR)
    pipes_depth: Figure | None = field.length(
        "heat pipes under the fins, from rear to front; default: within the base",
        None,
        least_mm=20,
        most_mm=200,
    )
    pipes_from: Figure = field.length(
        "contact face to the heat pipes' lowest point beside the base",
        practice(15.0, 8.0, assumed=True),
        least_mm=1,
        most_mm=100,
    )
    back_plate: Figure | None = field.length(BACK_PLATE, None, least_mm=0.5, most_mm=15)
    measured_from: Told = field.measured_from()
    kits: tuple[Kit, ...] | None = field.nested(KITS, None)
    plugs: Listed | None = field.count(
        "plugs to be plugged in: {4-pin fan: 1, 5 V light: 1}; default: "
        "one lead for all its fans",
        None,
        least=0,
        most=12,
    )

    def __post_init__(self) -> None:
        counted("plugs", self.plugs, PLUGS)
        if self.measured_from:
            return
        checked_fan(self.fan_size, self.height)
        checked_fins(self.height.mm, self.fins_from, self.room_over_memory)
        stack_mm = self._stack_mm(self._fan(0.0, None, None))
        if stack_mm < _THINNEST_STACK_MM:
            raise PartError(
                field="depth",
                found=f"{self.depth.mm:g} mm",
                right=f"two stacks of {_THINNEST_STACK_MM:g} mm and a fan at least",
            )

    def wishes(self) -> tuple[Wish, ...]:
        """Return the processor's top."""
        return (Wish(sort=SeatSort.COOLER),)

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return both stacks, base and fans over the contact face."""
        del wish
        room = self.room_over_memory
        middle = self._fan(seat.at_mm[2], None, None)
        front = self._fan(seat.at_mm[2], room, self.fan_raise)
        half_mm, thick_mm = self.depth.mm / 2, middle.frame.mm
        places = [
            (middle, -thick_mm / 2),
            (front, half_mm),
            (middle, -half_mm - thick_mm),
        ]
        fins = (
            link("cooler height", self.height, Axis.WIDTH),
            link("fins' width", self.width, Axis.HEIGHT),
            link("fins' depth", self.depth, Axis.DEPTH),
        )
        fans = tuple(
            fan.piece(f"fan {n}", at_mm, fins[2:])
            for n, (fan, at_mm) in enumerate(places[: self.fans], start=1)
        )
        low = self.fins_from or middle.usual_fins
        body = Piece(
            name="",
            role=Role.COOLER,
            solids=self._solids(middle, low.mm),
            links=(*fins, fins_link(low)),
        )
        form = Form(
            pieces=off_centre((body, *fans), self.forward, self.upward),
            size=f"{self.height.mm:g} high",
            kits=self.kits,
        )
        made = blowing(form, self.blows)
        plate = back_plate(self.back_plate, seat.at_mm[2])
        return replace(made, pieces=(*made.pieces, *plate))

    def _fan(
        self, stack_mm: float, room: Figure | None, raised: Figure | None
    ) -> FanOnTower:
        return FanOnTower(
            size=self.fan_size,
            thickness=self.fan_thickness,
            height=self.height,
            room_over_memory=room,
            raised=raised,
            stack_mm=stack_mm,
        )

    def _stack_mm(self, middle: FanOnTower) -> float:
        return (self.depth.mm - middle.frame.mm) / 2

    def _solids(self, middle: FanOnTower, low_mm: float) -> tuple[Solid, ...]:
        front_mm = low_mm
        if self.room_over_memory is not None:
            over_mm = above_contact_mm(self.room_over_memory, middle.stack_mm)
            # What is told outranks where fins usually begin, fins that are told both.
            least_mm = low_mm if self.fins_from else min(low_mm, middle.lowest.mm)
            front_mm = min(max(least_mm, over_mm), self.height.mm - 1.0)
        half_mm, stack_mm = self.depth.mm / 2, self._stack_mm(middle)
        y = (-self.width.mm / 2, self.width.mm / 2)
        z = (low_mm, self.height.mm)
        return (
            base(low_mm),
            *heat_pipes(self.pipes_depth, self.pipes_from, min(low_mm, front_mm)),
            block((-half_mm, -half_mm + stack_mm), y, z),
            block((half_mm - stack_mm, half_mm), y, (front_mm, self.height.mm)),
        )
