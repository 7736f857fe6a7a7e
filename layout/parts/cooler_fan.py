"""A fan clipped to a tower: how low it sits, and where that leaves it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from layout.geometry.solid import Solid, block
from layout.geometry.space import Axis
from layout.parts.errors import PartError
from layout.parts.fan import fan_thickness
from layout.parts.form import Link, Piece, Role
from layout.parts.link import link
from layout.standards.figure import Figure, practice
from layout.standards.memory import SEAT

_PIPES_ABOVE_FAN_MM = 5.0
_PIPES_SCATTER_MM = 5.0
_LOWEST_MM = 8.0
_BASE = practice(40.0, 5.0, assumed=True)


def above_contact_mm(room_over_memory: Figure, stack_mm: float) -> float:
    """Return the height above the contact face that clears a module of that height.

    The room over the memory is told by the tallest module's own height; a seated
    module stands on its slot, and the contact face on the processor.
    """
    return room_over_memory.mm + SEAT.mm - stack_mm


def base(height_mm: float) -> Solid:
    """Return the base and heat pipes from the contact face up to the fins."""
    half_mm = _BASE.mm / 2
    square = (-half_mm, half_mm)
    return block(square, square, (0.0, height_mm))


def heat_pipes(
    depth: Figure | None, lowest: Figure, fins_mm: float
) -> tuple[Solid, ...]:
    """Return the heat pipes where they reach beyond the base under the fins."""
    if depth is None or lowest.mm >= fins_mm:
        return ()
    x = (-depth.mm / 2, depth.mm / 2)
    y = (-_BASE.mm / 2, _BASE.mm / 2)
    return (block(x, y, (lowest.mm, fins_mm)),)


def checked_fins(
    height_mm: float, fins_from: Figure | None, room_over_memory: Figure | None
) -> None:
    """Refuse fins that would begin above their own top."""
    for name, figure, more_mm in (
        ("fins from", fins_from, 0.0),
        ("room over memory", room_over_memory, SEAT.mm),
    ):
        if figure is not None and figure.mm + more_mm >= height_mm:
            raise PartError(
                field=name,
                found=f"{figure.mm:g} mm",
                right=f"less than the {height_mm:g} mm to the fins' top",
            )


def checked_fan(size: int, height: Figure) -> None:
    """Refuse a fan that does not fit under the cooler's highest point."""
    if size > height.mm:
        raise PartError(
            field="fan size",
            found=f"{size} on a cooler {height.mm:g} mm high",
            right=f"at most {height.mm:g}, or the height over the fan",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class FanOnTower:
    """A fan at its lowest place, and what raises it.

    Parameters
    ----------
    size : int
    thickness : Figure or None
        None: the size's usual one.
    height : Figure
        The cooler's, fans at their lowest place.
    room_over_memory, raised : Figure or None
    stack_mm : float
        The contact face above the board's top.
    """

    size: int
    thickness: Figure | None
    height: Figure
    room_over_memory: Figure | None
    raised: Figure | None
    stack_mm: float

    @property
    def frame(self) -> Figure:
        """Return the frame's thickness."""
        return self.thickness or fan_thickness(self.size)

    @property
    def lowest(self) -> Figure:
        """Return its lower edge above the contact face, not raised."""
        if self.room_over_memory is not None:
            room = self.room_over_memory
            return replace(room, mm=max(0.0, above_contact_mm(room, self.stack_mm)))
        under_pipes_mm = self.height.mm - _PIPES_ABOVE_FAN_MM - self.size
        return practice(
            max(_LOWEST_MM, under_pipes_mm), _PIPES_SCATTER_MM, assumed=True
        )

    @property
    def low_mm(self) -> float:
        """Return its lower edge above the contact face."""
        return self.lowest.mm + (self.raised.mm if self.raised else 0.0)

    @property
    def links(self) -> tuple[Link, ...]:
        """Return the figures that place it."""
        told = self.room_over_memory is not None
        label = "room over memory" if told else "fan's lower edge over the contact face"
        level = link(
            label,
            self.lowest,
            Axis.WIDTH,
            tape="board's surface to the fan's lower edge",
            entry="room over memory",
        )
        raised = (
            (link("fan raised by", self.raised, Axis.WIDTH),) if self.raised else ()
        )
        return (level, *raised, link("cooler's fan thickness", self.frame, Axis.DEPTH))

    def piece(self, name: str, rear_mm: float, links: tuple[Link, ...]) -> Piece:
        """Return the fan with its rear face at a depth from the socket's centre."""
        half_mm = self.size / 2
        solid = block(
            (rear_mm, rear_mm + self.frame.mm),
            (-half_mm, half_mm),
            (self.low_mm, self.low_mm + self.size),
        )
        return Piece(
            name=name,
            role=Role.COOLER_FAN,
            solids=(solid,),
            links=(*self.links, *links),
        )
