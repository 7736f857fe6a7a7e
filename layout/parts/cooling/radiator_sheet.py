"""What a radiator's data sheet says, and where it goes."""

from __future__ import annotations

from dataclasses import replace
from enum import Enum
from typing import Final

from layout.parts.cooling.fan import MountSide
from layout.parts.form import field
from layout.parts.form.errors import PartError
from layout.parts.form.reading import Readings
from layout.parts.form.wish import Places
from layout.parts.wiring.hookup import PLUGS, Listed, counted
from layout.parts.wiring.hoses import PortsLook
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

__all__ = ["FanPlaces", "PortEnd", "RadiatorSheet"]


_CLASS: Final = Readings(usual="fans times frame size")
_LENGTH: Final = Readings(usual="body with both end tanks")


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


@dataclass(frozen=True, slots=True, kw_only=True)
class RadiatorSheet:
    """The figures of a radiator."""

    size: int = field.count(
        "class: 120, 240, 360, 280, ...",
        least=120,
        most=420,
        readings=_CLASS,
    )
    length: Figure | None = field.length(
        "body with both end tanks; default: the class's usual one",
        None,
        least_mm=120,
        most_mm=520,
        readings=_LENGTH,
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
        "where its ports look: away from the sheet, along the radiator, aside (to the "
        "panel, on a side face to the top), to the other side, or not told",
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
        # no body is as long as its fans alone: then its class was taken for its length
        port_mm = self.port_tank.mm if self.port_tank else 0.0
        if self.tanks_mm <= 0.0 or self.tanks_mm < port_mm:
            raise PartError(
                field="length",
                found=f"{self.body_length.mm:g} mm",
                right=f"more than the fans' {self.row_mm:g} mm: {_LENGTH.usual}",
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
        if self.length is not None:
            return self.length
        read = f"{_LENGTH.usual}, as usual of its class ({_CLASS.usual})"
        return replace(self.usual.length, reading=read)

    @property
    def stated(self) -> Figure:
        """Return its class as the figure that a case states limits for."""
        return _CLASS.of_usual(given(float(self.size)))

    @property
    def tanks_mm(self) -> float:
        """Return what both end tanks take beyond the fans."""
        return self.body_length.mm - self.row_mm
