"""A low cooler: fins flat over the board, blown through towards it."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar

from layout.geometry.solids.solid import block
from layout.geometry.space import Axis, Direction
from layout.parts.cooling import cooler_box, cooler_readings
from layout.parts.cooling.cooler_fan import (
    above_contact_mm,
    base,
    base_portions,
    checked_fins,
    fins_links,
)
from layout.parts.cooling.fan import fan_thickness
from layout.parts.cooling.on_socket import (
    FORWARD,
    UPWARD,
    back_plate,
    off_centre,
    stack_of,
)
from layout.parts.form import field
from layout.parts.form.errors import PartError
from layout.parts.form.form import Form, Link, Piece, Role, Seat, SeatSort
from layout.parts.form.kit import Kit
from layout.parts.form.link import centred, exact, facing, less, link, size
from layout.parts.form.reading import Told
from layout.parts.form.wish import Wish
from layout.parts.wiring.hookup import PLUGS, Listed, counted
from layout.standards import processors
from layout.standards.fans import SLIM_THICKNESS
from layout.standards.figure import Figure, practice
from layout.standards.leads import COOLER_FAN_LEAD
from layout.values import dataclass

__all__ = ["LowCooler"]

_FINS_FROM = 0.45
"""Share of what is under the fan that base and heat pipes take, fins the rest."""
_WITHIN_MM = 2 * (processors.KEEP_IN.mm - 1.0)
_THINNEST_FINS_MM = 5.0
_FINS_OVER_SINKS_MM = 18.0
"""Fins wider than what is kept free round the socket begin over usual heatsinks, as
far as the fan leaves room for them; common practice, no source."""
_SLIM_FAN = replace(SLIM_THICKNESS, plus_minus_mm=2.0, assumed=True)
_VENT_RIM_MM = 12.0
"""More than the room a vent needs: what stands beside the fan is not before it."""
_SKIN_MM = 0.1
_SLIM_UP_TO_MM = 60.0
"""Coolers up to this height usually have a slim fan; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LowCooler:
    """A down-draught cooler, its fan on top."""

    kind: ClassVar[str] = "low cooler"

    height: Figure = field.length(
        "contact face to the top of the fan",
        least_mm=20,
        most_mm=150,
        readings=cooler_readings.HEIGHT,
    )
    width: Figure = field.length(
        "fins along the board's rear edge", least_mm=50, most_mm=180
    )
    depth: Figure = field.length("fins from rear to front", least_mm=50, most_mm=180)
    room_over_memory: Figure | None = field.length(
        "tallest module's own height that goes under the fins",
        None,
        least_mm=15,
        most_mm=90,
        readings=cooler_readings.ROOM_OVER_MEMORY,
    )
    fins_from: Figure | None = field.length(
        "contact face to the fins' lower edge; default: from the room over memory",
        None,
        least_mm=3,
        most_mm=100,
    )
    fan_size: int = field.count("frame size", 92, least=60, most=150)
    fan_thickness: Figure | None = field.length(
        "frame thickness; default: the usual one, up to a height of 60 a slim one's 15",
        None,
        least_mm=10,
        most_mm=40,
    )
    forward: Figure | None = cooler_box.off_centre(FORWARD)
    upward: Figure | None = cooler_box.off_centre(UPWARD)
    back_plate: Figure | None = cooler_box.back_plate()
    measured_from: Told = field.measured_from()
    kits: tuple[Kit, ...] | None = cooler_box.kits()
    fan_lead: Figure = cooler_box.lead("its fan's lead, frame to plug", COOLER_FAN_LEAD)
    plugs: Listed | None = cooler_box.plugs("one fan lead")

    def __post_init__(self) -> None:
        counted("plugs", self.plugs, PLUGS)
        if self.measured_from:
            return
        if self._frame.mm >= self.height.mm - 1.0:
            raise PartError(
                field="height",
                found=f"{self.height.mm:g} mm",
                right=f"more than the fan's {self._frame.mm:g} mm: fins are under it",
            )
        checked_fins(self.height.mm - self._frame.mm, self.fins_from, None)

    @property
    def _frame(self) -> Figure:
        """Return the fan's thickness; one that nobody told leaves room for fins."""
        if self.fan_thickness is not None:
            return self.fan_thickness
        slim = self.height.mm <= _SLIM_UP_TO_MM
        return _SLIM_FAN if slim else fan_thickness(self.fan_size)

    def wishes(self) -> tuple[Wish, ...]:
        """Return the processor's top."""
        return (Wish(sort=SeatSort.COOLER),)

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return base, fins and fan over the contact face."""
        del wish
        top_mm = self.height.mm - self._frame.mm
        stack = stack_of(seat)
        low = self._lower_edge(stack.mm, top_mm)
        height = link("cooler height", self.height, Axis.WIDTH)
        thick = less(link("cooler's fan thickness", self._frame, Axis.WIDTH))
        square = centred(exact("fan's frame", self.fan_size, Axis.DEPTH, Axis.HEIGHT))
        top = (height, facing(thick, Direction.TRAY), square)
        room = self.room_over_memory if self.fins_from is None else None
        edge = fins_links(low, room, stack)
        fins = (
            *edge,
            *(facing(each, Direction.PANEL) for each in (height, thick)),
            centred(link("fins' width", self.width, Axis.HEIGHT)),
            centred(link("fins' depth", self.depth, Axis.DEPTH)),
        )
        x = (-self.depth.mm / 2, self.depth.mm / 2)
        y = (-self.width.mm / 2, self.width.mm / 2)
        fan = (-self.fan_size / 2, self.fan_size / 2)
        pieces = (
            Piece(
                name="",
                role=Role.COOLER,
                solids=(base(low.mm), block(x, y, (low.mm, top_mm))),
                links=fins,
                portions=base_portions(edge, low.mm),
            ),
            Piece(
                name="fan",
                role=Role.COOLER_FAN,
                solids=(block(fan, fan, (top_mm, self.height.mm)),),
                links=top,
            ),
            self._vent(height),
        )
        return Form(
            pieces=(
                *off_centre(pieces, self.forward, self.upward),
                *back_plate(self.back_plate, stack),
            ),
            size=f"{self.height.mm:g} high",
            kits=self.kits,
        )

    def _vent(self, height: Link) -> Piece:
        """Return where the fan draws its air: a skin, in from what stands beside."""
        wide_mm = self.fan_size - 2 * _VENT_RIM_MM
        half = (-wide_mm / 2, wide_mm / 2)
        skin = exact("vent's skin", _SKIN_MM, Axis.WIDTH)
        return Piece(
            name="vent",
            role=Role.COOLER_VENT,
            solids=(block(half, half, (self.height.mm - _SKIN_MM, self.height.mm)),),
            links=(
                height,
                size(skin, Direction.TRAY),
                centred(exact("vent's opening", wide_mm, Axis.DEPTH, Axis.HEIGHT)),
            ),
        )

    @property
    def reach_mm(self) -> float:
        """Return how far the fins reach from the socket's centre along an axis."""
        off_mm = [abs(each.mm) if each else 0.0 for each in (self.forward, self.upward)]
        return max(self.depth.mm / 2 + off_mm[0], self.width.mm / 2 + off_mm[1])

    @property
    def untold_fins_mm(self) -> float | None:
        """Return the fins' usual lower edge; None where the file says something."""
        told = self.fins_from is not None or self.room_over_memory is not None
        return None if told else self._usual_fins_mm(self.height.mm - self._frame.mm)

    def _usual_fins_mm(self, top_mm: float) -> float:
        usual_mm = top_mm * _FINS_FROM
        if max(self.width.mm, self.depth.mm) > _WITHIN_MM:
            over_mm = min(_FINS_OVER_SINKS_MM, top_mm - _THINNEST_FINS_MM)
            usual_mm = max(usual_mm, over_mm)
        return usual_mm

    def _lower_edge(self, stack_mm: float, top_mm: float) -> Figure:
        """Return the fins' lower edge above the contact face."""
        if self.fins_from is not None:
            return self.fins_from
        usual_mm = self._usual_fins_mm(top_mm)
        room = self.room_over_memory
        if room is None:
            return practice(usual_mm, usual_mm / 2, assumed=True)
        mm = min(max(1.0, above_contact_mm(room, stack_mm)), top_mm - 1.0)
        return replace(room, mm=mm)
