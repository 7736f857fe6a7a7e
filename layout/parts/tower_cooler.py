"""A tower cooler: fins upright over the processor, blown through along depth."""

from __future__ import annotations

from dataclasses import replace
from enum import Enum
from typing import ClassVar

from shapely.geometry import Polygon

from layout.geometry.solid import Solid, rectangle
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

__all__ = ["FirstFan", "TowerCooler"]


class FirstFan(Enum):
    """Side of the tower on which its first fan is, the second on the other."""

    FRONT = "front"
    BEHIND = "behind"


@dataclass(frozen=True, slots=True, kw_only=True)
class TowerCooler:
    """A tower cooler with up to two fans: the first in front, the second behind."""

    kind: ClassVar[str] = "tower cooler"

    height: Figure = field.length(
        "contact face to the highest point, fans at their lowest place",
        least_mm=40,
        most_mm=220,
        readings=cooler_readings.HEIGHT,
    )
    width: Figure = field.length(
        "fins along the board's rear edge", least_mm=50, most_mm=200
    )
    depth: Figure = field.length(
        "fins from rear to front, without fans", least_mm=20, most_mm=160
    )
    fins_from: Figure | None = field.length(
        "contact face to the fins' lower edge; default: the fan's lower edge, 2/7 of "
        "the fan's size at least",
        None,
        least_mm=5,
        most_mm=120,
    )
    room_over_memory: Figure | None = field.length(
        "tallest module's own height that goes under fan and undercut",
        None,
        least_mm=15,
        most_mm=90,
        readings=cooler_readings.ROOM_OVER_MEMORY,
    )
    undercut: Figure | None = field.length(
        "how far the fins are cut for the memory, from their front edge back",
        None,
        least_mm=1,
        most_mm=120,
    )
    fans: int = field.count("how many fans", 1, least=0, most=2)
    fan_size: int = field.count("frame size", 120, least=80, most=150)
    fan_thickness: Figure | None = field.length(
        "frame thickness; default: the usual one", None, least_mm=10, most_mm=40
    )
    fan_raise: Figure | None = field.length(
        "how far the front fan is raised over the memory", None, least_mm=0, most_mm=60
    )
    first_fan: FirstFan = field.choice(
        "side of the first fan: front or behind", FirstFan.FRONT
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
        if self.undercut is not None and self.room_over_memory is None:
            raise PartError(
                field="undercut",
                found=f"{self.undercut.mm:g} mm without its height",
                right="'room over memory' beside it",
            )
        if self.undercut is not None and self.undercut.mm >= self.depth.mm:
            raise PartError(
                field="undercut",
                found=f"{self.undercut.mm:g} mm",
                right=f"less than the fins' depth of {self.depth.mm:g} mm",
            )

    def wishes(self) -> tuple[Wish, ...]:
        """Return the processor's top."""
        return (Wish(sort=SeatSort.COOLER),)

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return fins, base and fans over the contact face."""
        del wish
        stack_mm = seat.at_mm[2]
        front = self._fan(stack_mm, self.fan_raise)
        rear = self._fan(stack_mm, None)
        low = self.fins_from or rear.usual_fins
        half_mm = self.depth.mm / 2
        fins = (
            link("cooler height", self.height, Axis.WIDTH),
            link("fins' width", self.width, Axis.HEIGHT),
            link("fins' depth", self.depth, Axis.DEPTH),
        )
        places = [(front, half_mm), (rear, -half_mm - rear.frame.mm)]
        if self.first_fan is FirstFan.BEHIND:
            places.reverse()
        fans = tuple(
            fan.piece(f"fan {n}", at_mm, fins[2:])
            for n, (fan, at_mm) in enumerate(places[: self.fans], start=1)
        )
        body = Piece(
            name="",
            role=Role.COOLER,
            solids=self._solids(stack_mm, low.mm),
            links=(*fins, fins_link(low)),
        )
        form = Form(
            pieces=off_centre((body, *fans), self.forward, self.upward),
            size=f"{self.height.mm:g} high",
            kits=self.kits,
        )
        made = blowing(form, self.blows)
        plate = back_plate(self.back_plate, stack_mm)
        return replace(made, pieces=(*made.pieces, *plate))

    def _fan(self, stack_mm: float, raised: Figure | None) -> FanOnTower:
        return FanOnTower(
            size=self.fan_size,
            thickness=self.fan_thickness,
            height=self.height,
            room_over_memory=self.room_over_memory,
            raised=raised,
            stack_mm=stack_mm,
        )

    def _solids(self, stack_mm: float, low_mm: float) -> tuple[Solid, ...]:
        half_mm, wide_mm = self.depth.mm / 2, self.width.mm / 2
        side = rectangle((-half_mm, half_mm), (-wide_mm, wide_mm))
        pipes = heat_pipes(self.pipes_depth, self.pipes_from, low_mm)
        return (
            base(low_mm),
            *pipes,
            Solid(side=side, top=self._outline(low_mm, stack_mm)),
        )

    def _outline(self, low_mm: float, stack_mm: float) -> Polygon:
        """Return the fins from above: cut at the front side for the memory."""
        half_mm, high_mm = self.depth.mm / 2, self.height.mm
        if self.undercut is None or self.room_over_memory is None:
            return rectangle((-half_mm, half_mm), (low_mm, high_mm))
        room_mm = max(low_mm, above_contact_mm(self.room_over_memory, stack_mm))
        cut_mm = half_mm - self.undercut.mm
        return Polygon(
            [
                (-half_mm, low_mm),
                (cut_mm, low_mm),
                (cut_mm, room_mm),
                (half_mm, room_mm),
                (half_mm, high_mm),
                (-half_mm, high_mm),
            ]
        )
