"""A fan clipped to a tower: how low it sits, and where that leaves it."""

from __future__ import annotations

from dataclasses import replace

from layout.geometry.solids.solid import Solid, block
from layout.geometry.space import Axis, Box, Direction
from layout.parts.cooling.cooler_readings import HEIGHT, ROOM_OVER_MEMORY
from layout.parts.cooling.fan import fan_thickness
from layout.parts.form.errors import PartError
from layout.parts.form.form import Link, Piece, Portion, Role
from layout.parts.form.link import (
    CONTACT_EDGE,
    STACK,
    centred,
    exact,
    facing,
    less,
    link,
    size,
)
from layout.parts.form.reading import as_given
from layout.standards.figure import Figure, practice
from layout.standards.memory import SEAT
from layout.values import dataclass

_PIPES_ABOVE_FAN_MM = 5.0
_PIPES_SCATTER_MM = 5.0
_LOWEST_MM = 8.0
_AGREE_MM = 1.0
"""What rounding leaves between two figures of one cooler."""
OVER_HEATSINKS_MM = 25.0
"""Where a large fan leaves no room over its pipes, its edge is up to here over the
contact face: it clears a heatsink of 30 over the board; common practice, no source."""
_BASE = practice(40.0, 5.0, assumed=True)
_FINS_OF_FAN = 40.0 / 140.0
"""Fins of a tower with a fan of 140 begin about 40 over the contact face, over the
heatsinks round the socket, and those of smaller ones in proportion: common practice,
no source."""
_FINS_SCATTER_MM = 10.0


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


def base_portions(
    top: tuple[Link, ...], height_mm: float, pipes: tuple[Figure, Figure] | None = None
) -> tuple[Portion, ...]:
    """Return what the base rests on, and the heat pipes beyond it.

    Parameters
    ----------
    top : tuple of Link
        The fins' lower edge, as it places their underside.
    height_mm : float
        Where it lies over the contact face.
    pipes : (Figure, Figure), optional
        Their depth and their lowest place.
    """
    wide, half_mm = "cooler's base across", _BASE.mm / 2
    ends = tuple(map(_turned_over, top))
    square = centred(link(wide, _BASE, Axis.DEPTH, Axis.HEIGHT))
    box = Box((-half_mm, -half_mm, 0.0), (half_mm, half_mm, height_mm))
    under = Portion(box, (square, *ends))
    if pipes is None or pipes[1].mm >= height_mm:
        return (under,)
    depth, lowest = pipes
    low = link("lowest heat pipe over the contact face", lowest, Axis.WIDTH)
    sides = (
        centred(link("heat pipes' depth", depth, Axis.DEPTH)),
        centred(link(wide, _BASE, Axis.HEIGHT)),
    )
    box = Box((-depth.mm / 2, -half_mm, lowest.mm), (depth.mm / 2, half_mm, height_mm))
    return (under, Portion(box, (*sides, facing(low, Direction.TRAY), *ends)))


def _turned_over(edge: Link) -> Link:
    """Return a figure of an underside as it places the top of what is under it."""
    more = tuple(map(_turned_over, edge.more))
    return replace(edge, low=edge.high, high=edge.low, more=more)


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


def over_memory(room: Figure, stack: Figure) -> tuple[Link, ...]:
    """Return a lower edge told by the room over the memory, from the contact face."""
    return (
        link(
            "room over memory",
            room,
            Axis.WIDTH,
            tape="board's surface to the fan's lower edge",
            entry="room over memory",
        ),
        link(CONTACT_EDGE, SEAT, Axis.WIDTH),
        less(link(STACK, stack, Axis.WIDTH)),
    )


def fins_links(fins: Figure, room: Figure | None, stack: Figure) -> tuple[Link, ...]:
    """Return the fins' lower edge, which places their underside alone.

    ``room`` is the room over the memory where the edge follows from it.
    """
    if room is not None:
        return tuple(facing(e, Direction.TRAY) for e in over_memory(room, stack))
    made = link(
        "fins' lower edge over the contact face",
        fins,
        Axis.WIDTH,
        tape="contact face to the fins' lower edge",
        entry="fins from",
    )
    return (facing(made, Direction.TRAY),)


def height_link(height: Figure) -> Link:
    """Return the cooler's height, which places the top of its fins alone."""
    return size(link("cooler height", height, Axis.WIDTH), Direction.PANEL)


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
    stack : Figure
        The contact face above the board's top.
    """

    size: int
    thickness: Figure | None
    height: Figure
    room_over_memory: Figure | None
    raised: Figure | None
    stack: Figure

    @property
    def frame(self) -> Figure:
        """Return the frame's thickness."""
        return self.thickness or fan_thickness(self.size)

    @property
    def lowest(self) -> Figure:
        """Return its lower edge above the contact face, not raised."""
        if self.room_over_memory is not None:
            room = self.room_over_memory
            return replace(room, mm=max(0.0, above_contact_mm(room, self.stack.mm)))
        at_top_mm = self.height.mm - self.size
        wanted_mm = max(at_top_mm - _PIPES_ABOVE_FAN_MM, OVER_HEATSINKS_MM)
        lowest_mm = max(_LOWEST_MM, min(at_top_mm, wanted_mm))
        return practice(lowest_mm, _PIPES_SCATTER_MM, assumed=True)

    @property
    def disagrees(self) -> str:
        """Return that room over the memory and height put its top elsewhere, or none.

        The room places it; the height is that of the highest point, fans included.
        """
        top_mm = self.lowest.mm + self.size
        over_mm = top_mm - self.height.mm
        if self.room_over_memory is None or over_mm <= _AGREE_MM:
            return ""
        given, room = as_given(self.height), as_given(self.room_over_memory)
        return (
            f"height {given} and room over memory {room} disagree by {over_mm:.1f} mm: "
            f"a fan of {self.size} that leaves such room ends {top_mm:.1f} over the "
            f"contact face{self._explained(over_mm)}; the room places the fan"
        )

    def _explained(self, over_mm: float) -> str:
        """Return which other reading of the two would explain what they are off by."""
        height = HEIGHT.explaining(self.height, over_mm, within_mm=_AGREE_MM)
        if height is not None:
            return f"; a height measured from the {height} would explain it"
        room = self.room_over_memory
        told = room and ROOM_OVER_MEMORY.explaining(room, -over_mm, within_mm=_AGREE_MM)
        return f"; a room measured from the {told} would explain it" if told else ""

    @property
    def usual_fins(self) -> Figure:
        """Return the fins' lower edge above the contact face where none is told.

        Fins begin where the fan does, but seldom lower than the heatsinks round the
        socket let them; a told room over the memory says where.
        """
        usual_mm = self.size * _FINS_OF_FAN
        if self.room_over_memory is not None or self.lowest.mm >= usual_mm:
            return self.lowest
        return practice(usual_mm, _FINS_SCATTER_MM, assumed=True)

    @property
    def low_mm(self) -> float:
        """Return its lower edge above the contact face."""
        return self.lowest.mm + (self.raised.mm if self.raised else 0.0)

    @property
    def links(self) -> tuple[Link, ...]:
        """Return the figures that place it."""
        level = self._level
        if self.raised:
            level = (*level, link("fan raised by", self.raised, Axis.WIDTH))
        frame = exact("fan's frame", self.size, Axis.WIDTH)
        across = centred(exact("fan's frame across", self.size, Axis.HEIGHT))
        return (*level, size(frame, Direction.PANEL), across)

    @property
    def _level(self) -> tuple[Link, ...]:
        if self.room_over_memory is not None:
            return over_memory(self.room_over_memory, self.stack)
        label = "fan's lower edge over the contact face"
        tape = "board's surface to the fan's lower edge"
        return (
            link(label, self.lowest, Axis.WIDTH, tape=tape, entry="room over memory"),
        )

    def piece(self, name: str, rear_mm: float, links: tuple[Link, ...]) -> Piece:
        """Return the fan with its rear face at a depth from the socket's centre."""
        half_mm = self.size / 2
        blown = Direction.FRONT
        solid = block(
            (rear_mm, rear_mm + self.frame.mm),
            (-half_mm, half_mm),
            (self.low_mm, self.low_mm + self.size),
        )
        return Piece(
            name=name,
            role=Role.COOLER_FAN,
            solids=(solid,),
            links=(
                *self.links,
                size(link("cooler's fan thickness", self.frame, Axis.DEPTH), blown),
                *links,
            ),
        )
