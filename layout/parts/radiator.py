"""A radiator with fans on either or both of its sides."""

from __future__ import annotations

from dataclasses import replace
from enum import Enum
from typing import ClassVar, TypeAlias

from layout.geometry.space import Axis, Direction
from layout.parts import field
from layout.parts.errors import PartError
from layout.parts.fan import MountSide, fan_thickness, mount_wish
from layout.parts.fan_screws import fan_screws
from layout.parts.form import Form, Link, Piece, Role, Seat
from layout.parts.hookup import PLUGS, Listed, counted
from layout.parts.hoses import PortsLook, hoses
from layout.parts.link import link
from layout.parts.mounted import Span, fan_boxes, on_sheet, row_of, span_of
from layout.parts.reading import Readings
from layout.parts.wish import Places, Wish
from layout.standards.figure import Figure, given
from layout.standards.leads import CASE_FAN_LEAD
from layout.standards.radiators import (
    CLASSES,
    HOSE_BEND,
    THICKNESS,
    TUBE,
    RadiatorClass,
)
from layout.values import dataclass

__all__ = ["FanPlaces", "PortEnd", "PortsLook", "Radiator"]


class FanPlaces(Enum):
    """On which side of the radiator its fans are."""

    INNER = "inner"
    OUTER = "outer"  # between the radiator and the mount's sheet
    BOTH = "both"
    NONE = "none"


class PortEnd(Enum):
    """At which end of its mount the radiator's ports are."""

    FIRST = "first"  # at the floor, or at the rear
    LAST = "last"


_Row: TypeAlias = tuple[Span, tuple[Link, ...]]
"""How far off the sheet a row of fans is, and the figures it rests on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Radiator:
    """A radiator; its class is the number of fans times their size."""

    kind: ClassVar[str] = "radiator"

    size: int = field.count(
        "class: 120, 240, 360, 280, ...",
        least=120,
        most=420,
        readings=Readings(usual="fans times frame size"),
    )
    length: Figure | None = field.length(
        "body with both end tanks; default: the class's usual one",
        None,
        least_mm=120,
        most_mm=520,
        readings=Readings(usual="body with both end tanks"),
    )
    width: Figure | None = field.length(
        "body across the fans; default: the class's usual one",
        None,
        least_mm=115,
        most_mm=230,
    )
    thickness: Figure = field.length(
        "core without fans",
        THICKNESS,
        least_mm=15,
        most_mm=90,
        readings=Readings(usual="core without fans"),
    )
    port_tank: Figure | None = field.length(
        "end tank with the ports, beyond the fans; default: half of what the length "
        "leaves",
        None,
        least_mm=0,
        most_mm=120,
    )
    ports: PortEnd = field.choice(
        "end of the mount with the ports: turned end for end, the other one",
        PortEnd.LAST,
    )
    ports_look: PortsLook = field.choice(
        "where its ports look: away from the sheet, along the radiator, or not told",
        PortsLook.AWAY,
    )
    hose_diameter: Figure = field.length(
        "hose's outside, sleeve included", TUBE, least_mm=6, most_mm=25
    )
    hose_bend: Figure = field.length(
        "hose's least radius, to the inside of the bend",
        HOSE_BEND,
        least_mm=10,
        most_mm=150,
    )
    off_middle: Figure | None = field.length(
        "fans' middle line to the body's, across the row: towards the panel, on a side "
        "face towards the top; the other way: a negative number",
        None,
        least_mm=-30,
        most_mm=30,
    )
    fans: FanPlaces = field.choice("side of the radiator", FanPlaces.INNER)
    fan_thickness: Figure | None = field.length(
        "fan frame's thickness; default: the usual one", None, least_mm=10, most_mm=60
    )
    mount: str = field.word("the case's mount: front, top, ...")
    place: int = field.count(
        "first place on the mount, from the floor or from the rear", 1, least=1, most=6
    )
    side: MountSide = field.choice("side of the mount's sheet", MountSide.INNER)
    fan_pitch: Figure | None = field.length(
        "from one fan's middle to the next; default: the frame size",
        None,
        least_mm=110,
        most_mm=170,
    )
    fan_lead: Figure = field.length(
        "each fan's lead, frame to plug", CASE_FAN_LEAD, least_mm=30, most_mm=1500
    )
    plugs: Listed | None = field.count(
        "plugs to be plugged in: {4-pin fan: 1, 5 V light: 1}; default: "
        "one for each fan",
        None,
        least=0,
        most=12,
    )

    def __post_init__(self) -> None:
        counted("plugs", self.plugs, PLUGS)
        if self.size not in CLASSES:
            classes = ", ".join(map(str, CLASSES))
            raise PartError(
                field="size", found=str(self.size), right=f"one of {classes}"
            )
        if self.tanks_mm < (self.port_tank.mm if self.port_tank else 0.0):
            raise PartError(
                field="length",
                found=f"{self.body_length.mm:g} mm",
                right=f"at least the fans' {self.row_mm:g} mm and the end tanks",
            )

    @property
    def usual(self) -> RadiatorClass:
        """Return the class's usual figures."""
        return CLASSES[self.size]

    @property
    def places(self) -> Places:
        """Return what the radiator takes of its mount."""
        return Places(size_mm=self.usual.frame, first=self.place, count=self.usual.fans)

    @property
    def row_mm(self) -> int:
        """Return the length of its fans side by side."""
        return self.usual.frame * self.usual.fans

    @property
    def body_length(self) -> Figure:
        """Return the length of the body with both end tanks."""
        return self.length or self.usual.length

    @property
    def tanks_mm(self) -> float:
        """Return what both end tanks take beyond the fans."""
        return self.body_length.mm - self.row_mm

    def wishes(self) -> tuple[Wish, ...]:
        """Return the places on the mount."""
        return (mount_wish(self.mount, self.side, self.places),)

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return the radiator and its fans; ``wish.piece`` names the body."""
        fan = self.fan_thickness or fan_thickness(self.usual.frame)
        fan_mm, off = fan.mm, seat.approach.axis
        under = self.fans in {FanPlaces.OUTER, FanPlaces.BOTH}
        over = self.fans in {FanPlaces.INNER, FanPlaces.BOTH}
        low = fan_mm if under else 0.0
        high = low + self.thickness.mm
        outer = (link("fan thickness", fan, off),)
        at = _in_file(wish.piece)
        core = (
            *(outer if under else ()),
            link(
                "radiator thickness",
                self.thickness,
                off,
                tape="core's one face to the other, without fans",
                entry=f"{at}thickness",
            ),
        )
        rows: list[_Row] = [((0.0, fan_mm), outer)] if under else []
        rows += [((high, high + fan_mm), (*core, *outer))] if over else []
        return Form(
            pieces=(
                self._body(wish.piece, seat, ((low, high), core)),
                *self._fans(seat, rows),
                *self._hoses(seat, ((low, high), core)),
            ),
            size=f"{self.size}, {self.body_length.mm:g} long",
            screws=fan_screws(seat, self.places, spacing=None, pitch=self.fan_pitch),
            stated=(("radiator class", given(float(self.size))),),
        )

    def _lowest_mm(self, seat: Seat) -> float:
        """Return where the body begins along its row."""
        start_mm, _ = span_of(row_of(seat, self.usual.frame), self.places)
        first = self.ports is PortEnd.FIRST
        return start_mm - (self._tank_mm if first else self.tanks_mm - self._tank_mm)

    @property
    def _tank_mm(self) -> float:
        """Return the end tank with the ports."""
        return self.port_tank.mm if self.port_tank else self.tanks_mm / 2

    def _hoses(self, seat: Seat, row_off: _Row) -> tuple[Piece, ...]:
        """Return both hoses at the tank with the ports."""
        if self.ports_look is PortsLook.UNTOLD:
            return ()
        (low_mm, high_mm), links = row_off
        along = row_of(seat, self.usual.frame).along
        away = seat.approach.opposite
        first = self.ports is PortEnd.FIRST
        start_mm = self._lowest_mm(seat)
        end_mm = start_mm if first else start_mm + self.body_length.mm
        if self.ports_look is PortsLook.AWAY:
            half_mm = self._tank_mm / 2
            place = (end_mm + half_mm if first else end_mm - half_mm, high_mm)
            out = away
        else:
            place = (end_mm, (low_mm + high_mm) / 2)
            out = Direction((along, -1 if first else 1))
        (across,) = set(Axis) - {along, away.axis}
        at = {along: place[0], away.axis: away.sign * place[1], across: self._off_mm}
        made = hoses(
            "radiator hoses",
            (at[Axis.DEPTH], at[Axis.HEIGHT], at[Axis.WIDTH]),
            out,
            beside=across,
            diameter=self.hose_diameter,
            bend=self.hose_bend,
        )
        return (replace(made, links=(*links, *made.links)),)

    @property
    def _off_mm(self) -> float:
        return self.off_middle.mm if self.off_middle else 0.0

    def _body(self, name: str, seat: Seat, row_off: _Row) -> Piece:
        off, links = row_off
        row = row_of(seat, self.usual.frame)
        low_mm = self._lowest_mm(seat)
        width = self.width or self.usual.width
        (across,) = set(Axis) - {row.along, seat.approach.axis}
        box = on_sheet(
            seat,
            row,
            along=(low_mm, low_mm + self.body_length.mm),
            across=(self._off_mm - width.mm / 2, self._off_mm + width.mm / 2),
            off=off,
        )
        middle = self.off_middle
        aside = (
            (link("radiator off its fans' middle", middle, across),) if middle else ()
        )
        at = _in_file(name)
        sizes = (
            link(
                "radiator length",
                self.body_length,
                row.along,
                tape="end of one tank to the end of the other",
                entry=f"{at}length",
            ),
            link(
                "radiator width",
                width,
                across,
                tape="one side of the radiator's body to the other",
                entry=f"{at}width",
            ),
        )
        return Piece(
            name=name, role=Role.RADIATOR, solids=(box,), links=(*links, *sizes, *aside)
        )

    def _fans(self, seat: Seat, rows: list[_Row]) -> tuple[Piece, ...]:
        boxes = [
            (box, links)
            for off, links in rows
            for box in fan_boxes(seat, self.places, off)
        ]
        return tuple(
            Piece(name=f"fan {n}", role=Role.FAN, solids=(box,), links=links)
            for n, (box, links) in enumerate(boxes, start=1)
        )


def _in_file(piece: str) -> str:
    """Return what leads to the radiator's fields: it may belong to a liquid cooler."""
    return f"{piece}." if piece else ""
