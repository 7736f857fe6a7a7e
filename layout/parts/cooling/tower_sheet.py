"""What the data sheets of towers and twin towers say alike."""

from __future__ import annotations

import math
from dataclasses import replace

from layout.geometry.solids.solid import Solid
from layout.geometry.space import Axis
from layout.parts.cooling import cooler_box, cooler_readings
from layout.parts.cooling.cooler_fan import (
    FanOnTower,
    base_portions,
    checked_fan,
    checked_fins,
    fins_links,
    height_link,
)
from layout.parts.cooling.on_socket import (
    FORWARD,
    UPWARD,
    Blows,
    back_plate,
    blowing,
    off_centre,
)
from layout.parts.form import field
from layout.parts.form.form import Form, Link, Piece, Role, SeatSort
from layout.parts.form.kit import Kit
from layout.parts.form.link import centred, less, link, times
from layout.parts.form.reading import Told
from layout.parts.form.wish import Wish
from layout.parts.wiring.hookup import PLUGS, Listed, counted
from layout.standards.figure import Figure, practice
from layout.standards.leads import COOLER_FAN_LEAD
from layout.values import dataclass

__all__ = ["TowerSheet"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TowerSheet:
    """A cooler with upright fins, and fans that blow through them."""

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
        "fins from rear to front, without fans",
        least_mm=20,
        most_mm=160,
        readings=cooler_readings.DEPTH,
    )
    fins_from: Figure | None = field.length(
        "contact face to the fins' lower edge; default: the fan's lower edge (of a "
        "twin tower the middle one's), 2/7 of the fan's size at least",
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
    fans: int = field.count("how many fans", 1, least=0, most=2)
    fan_size: int = field.count("frame size", 120, least=80, most=150)
    fan_thickness: Figure | None = field.length(
        "frame thickness; default: the usual one", None, least_mm=10, most_mm=40
    )
    fan_raise: Figure | None = field.length(
        "how far the front fan is raised over the memory", None, least_mm=0, most_mm=60
    )
    forward: Figure | None = cooler_box.off_centre(FORWARD)
    upward: Figure | None = cooler_box.off_centre(UPWARD)
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
    back_plate: Figure | None = cooler_box.back_plate()
    measured_from: Told = field.measured_from()
    kits: tuple[Kit, ...] | None = cooler_box.kits()
    fan_lead: Figure = cooler_box.lead("its fans' lead, frame to plug", COOLER_FAN_LEAD)
    plugs: Listed | None = cooler_box.plugs("one lead for all its fans")

    def __post_init__(self) -> None:
        counted("plugs", self.plugs, PLUGS)
        if self.measured_from:
            return
        checked_fan(self.fan_size, self.height)
        checked_fins(self.height.mm, self.fins_from, self.room_over_memory)
        self.check_sizes()

    def check_sizes(self) -> None:
        """Refuse sizes that do not go together, all told in their usual readings."""

    @property
    def outer_fans(self) -> int:
        """Return how many fans stand before and behind the fins."""
        return self.fans

    def wishes(self) -> tuple[Wish, ...]:
        """Return the processor's top."""
        return (Wish(sort=SeatSort.COOLER),)

    def fan(
        self, stack: Figure, room: Figure | None, raised: Figure | None
    ) -> FanOnTower:
        """Return one of its fans over a contact face."""
        return FanOnTower(
            size=self.fan_size,
            thickness=self.fan_thickness,
            height=self.height,
            room_over_memory=room,
            raised=raised,
            stack=stack,
        )

    def standing(
        self,
        solids: tuple[Solid, ...],
        low: Figure,
        fans: list[tuple[FanOnTower, float]],
        *,
        stack: Figure,
    ) -> Form:
        """Return fins and fans off the socket's centre, turned as the air blows.

        Parameters
        ----------
        solids : tuple of Solid
            Base, pipes and fins; the base first.
        low : Figure
            The fins' lower edge over the contact face.
        fans : list of (FanOnTower, float)
            Every place a fan has, with its rear face from the socket's centre in mm.
        """
        depth = link("fins' depth", self.depth, Axis.DEPTH)
        wide = centred(link("fins' width", self.width, Axis.HEIGHT))
        from_room = self.fins_from is None and low == fans[-1][0].lowest
        under = fins_links(low, self.room_over_memory if from_room else None, stack)
        pipes = (self.pipes_depth, self.pipes_from) if self.pipes_depth else None
        body = Piece(
            name="",
            role=Role.COOLER,
            solids=solids,
            links=(height_link(self.height), wide, centred(depth), *under),
            portions=base_portions(under, low.mm, pipes),
        )
        pieces = tuple(
            fan.piece(f"fan {n}", at_mm, _beside(depth, fan, at_mm))
            for n, (fan, at_mm) in enumerate(fans[: self.fans], start=1)
        )
        form = Form(
            pieces=off_centre((body, *pieces), self.forward, self.upward),
            size=f"{self.height.mm:g} high",
            kits=self.kits,
            notes=tuple(
                dict.fromkeys(
                    fan.disagrees for fan, _ in fans[: self.fans] if fan.disagrees
                )
            ),
        )
        made = blowing(form, self.blows)
        plate = back_plate(self.back_plate, stack)
        return replace(made, pieces=(*made.pieces, *plate))


def _beside(depth: Link, fan: FanOnTower, rear_mm: float) -> tuple[Link, ...]:
    """Return what places a fan's rear face: it stands against the fins."""
    thick = link("cooler's fan thickness", fan.frame, Axis.DEPTH)
    if rear_mm >= depth.figure.mm / 2:
        return (times(depth, 0.5),)
    behind = -depth.figure.mm / 2 - fan.frame.mm
    if math.isclose(rear_mm, behind):
        return (times(depth, -0.5), less(thick))
    return (times(thick, -0.5),)  # between two stacks
