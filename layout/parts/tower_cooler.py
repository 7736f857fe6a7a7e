"""A tower cooler: fins upright over the processor, blown through along depth."""

from __future__ import annotations

from dataclasses import dataclass
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
)
from layout.parts.errors import PartError
from layout.parts.form import Form, Piece, Role, Seat, SeatSort
from layout.parts.hookup import PLUGS, Listed, counted
from layout.parts.kit import KITS, Kit
from layout.parts.link import link
from layout.parts.reading import Told
from layout.parts.wish import Wish
from layout.standards.figure import Figure

__all__ = ["TowerCooler"]


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
        "contact face to the fins' lower edge; default: the fan's lower edge",
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
        half_mm = self.depth.mm / 2
        fins = (
            link("cooler height", self.height, Axis.WIDTH),
            link("fins' width", self.width, Axis.HEIGHT),
            link("fins' depth", self.depth, Axis.DEPTH),
        )
        places = [(front, half_mm), (rear, -half_mm - rear.frame.mm)][: self.fans]
        fans = tuple(
            fan.piece(f"fan {n}", at_mm, fins[2:])
            for n, (fan, at_mm) in enumerate(places, start=1)
        )
        body = Piece(
            name="", role=Role.COOLER, solids=self._solids(stack_mm, rear), links=fins
        )
        return Form(
            pieces=(body, *fans), size=f"{self.height.mm:g} high", kits=self.kits
        )

    def _fan(self, stack_mm: float, raised: Figure | None) -> FanOnTower:
        return FanOnTower(
            size=self.fan_size,
            thickness=self.fan_thickness,
            height=self.height,
            room_over_memory=self.room_over_memory,
            raised=raised,
            stack_mm=stack_mm,
        )

    def _solids(self, stack_mm: float, fan: FanOnTower) -> tuple[Solid, ...]:
        low_mm = self.fins_from.mm if self.fins_from else fan.lowest.mm
        half_mm, wide_mm = self.depth.mm / 2, self.width.mm / 2
        side = rectangle((-half_mm, half_mm), (-wide_mm, wide_mm))
        return (base(low_mm), Solid(side=side, top=self._outline(low_mm, stack_mm)))

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
