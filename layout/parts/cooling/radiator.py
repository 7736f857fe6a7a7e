"""A radiator with fans on either or both of its sides."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar, TypeAlias

from layout.geometry.space import Axis, Direction
from layout.parts.cooling.fan import fan_thickness, mount_wish
from layout.parts.cooling.fan_screws import fan_screws
from layout.parts.cooling.radiator_sheet import FanPlaces, PortEnd, RadiatorSheet
from layout.parts.form.form import FanRow, Form, Link, Piece, Role, Seat
from layout.parts.form.link import (
    at_share,
    centred,
    exact,
    facing,
    less,
    link,
    spanning,
    times,
)
from layout.parts.form.mounted import (
    Span,
    fan_boxes,
    frame_links,
    on_sheet,
    row_of,
    span_of,
)
from layout.parts.form.wish import Wish
from layout.parts.wiring.hoses import PortsLook, hoses
from layout.values import dataclass

__all__ = ["FanPlaces", "PortEnd", "PortsLook", "Radiator"]


_Row: TypeAlias = tuple[Span, tuple[Link, ...]]
"""How far off the sheet a row of fans is, and the figures it rests on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Radiator(RadiatorSheet):
    """A radiator; its class is the number of fans times their size."""

    kind: ClassVar[str] = "radiator"

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
        away = seat.approach.opposite
        thick = times(link("fan thickness", fan, off), float(away.sign))
        outer = (facing(thick, away),)
        at = _in_file(wish.piece)
        deep = times(
            link(
                "radiator thickness",
                self.thickness,
                off,
                tape="core's one face to the other, without fans",
                entry=f"{at}thickness",
            ),
            float(away.sign),
        )
        below = (thick,) if under else ()
        core = (*below, facing(deep, away))
        rows: list[_Row] = [((0.0, fan_mm), outer)] if under else []
        rows += [((high, high + fan_mm), (*below, deep, *outer))] if over else []
        return Form(
            pieces=(
                self._body(wish.piece, seat, ((low, high), core)),
                *self._fans(seat, rows),
                *self._hoses(seat, ((low, high), core)),
            ),
            size=f"{self.size}, {self.body_length.mm:g} long",
            screws=fan_screws(seat, self.places, spacing=None, pitch=self.fan_pitch),
            stated=(("radiator class", self.stated),),
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
        along, away = row_of(seat, self.usual.frame).along, seat.approach.opposite
        (across,) = set(Axis) - {along, away.axis}
        first = self.ports is PortEnd.FIRST
        end_mm = self._lowest_mm(seat) + (0.0 if first else self.body_length.mm)
        half_mm = self._tank_mm / 2
        in_tank_mm = end_mm + (half_mm if first else -half_mm)
        middle_mm, off_mm = (low_mm + high_mm) / 2, self._off_mm
        beside = across
        match self.ports_look:
            case PortsLook.AWAY:
                out, place = away, (in_tank_mm, high_mm, off_mm)
            case PortsLook.ALONG:
                out = Direction((along, -1 if first else 1))
                place = (end_mm, middle_mm, off_mm)
            case _:
                sign = 1 if self.ports_look is PortsLook.ASIDE else -1
                out, beside = Direction((across, sign)), along
                side_mm = off_mm + sign * (self.width or self.usual.width).mm / 2
                place = (in_tank_mm, middle_mm, side_mm)
        at = {along: place[0], away.axis: away.sign * place[1], across: place[2]}
        made = hoses(
            "radiator hoses",
            (at[Axis.DEPTH], at[Axis.HEIGHT], at[Axis.WIDTH]),
            out,
            beside=beside,
            diameter=self.hose_diameter,
            bend=self.hose_bend,
        )
        shares = {
            along: 0.0 if first else 1.0,
            away.axis: 0.5,
            across: 0.5,
        }
        if out.axis is not along:
            shares[out.axis] = 1.0 if out.sign > 0 else 0.0
        own = (*links, *self._on_row(seat, ""))
        for axis, share in shares.items():
            own = tuple(at_share(each, axis, share) for each in own)
        if out.axis is not along:
            own = (*own, *self._in_tank(seat, 1.0 if first else -1.0))
        return (replace(made, links=(*own, *made.links)),)

    @property
    def _off_mm(self) -> float:
        return self.off_middle.mm if self.off_middle else 0.0

    def _body(self, name: str, seat: Seat, row_off: _Row) -> Piece:
        off, links = row_off
        row = row_of(seat, self.usual.frame)
        low_mm = self._lowest_mm(seat)
        width = self.width or self.usual.width
        box = on_sheet(
            seat,
            row,
            along=(low_mm, low_mm + self.body_length.mm),
            across=(self._off_mm - width.mm / 2, self._off_mm + width.mm / 2),
            off=off,
        )
        return Piece(
            name=name,
            role=Role.RADIATOR,
            solids=(box,),
            links=(*links, *self._on_row(seat, _in_file(name))),
        )

    def _on_row(self, seat: Seat, at: str) -> tuple[Link, ...]:
        """Return what places the body on its sheet: along its row and across."""
        row, middle = row_of(seat, self.usual.frame), self.off_middle
        (across,) = set(Axis) - {row.along, seat.approach.axis}
        label = "radiator off its fans' middle"
        width = link(
            "radiator width",
            self.width or self.usual.width,
            across,
            tape="one side of the radiator's body to the other",
            entry=f"{at}width",
        )
        return (
            *self._along(row, at),
            centred(width),
            *((link(label, middle, across),) if middle else ()),
        )

    def _in_tank(self, seat: Seat, inwards: float) -> tuple[Link, ...]:
        """Return how far the ports are inside the body's end: half of their tank."""
        row = row_of(seat, self.usual.frame)
        if self.port_tank is not None:
            tank = link("tank with the ports", self.port_tank, row.along)
            return (times(tank, inwards / 2),)
        frames = exact("fan's frame", self.usual.frame, row.along)
        length = link("radiator length", self.body_length, row.along)
        return (
            times(length, inwards / 4),
            times(frames, -inwards * self.places.count / 4),
        )

    def _along(self, row: FanRow, at: str) -> tuple[Link, ...]:
        """Return what places the body along its row: its tanks beyond its fans."""
        length = link(
            "radiator length",
            self.body_length,
            row.along,
            tape="end of one tank to the end of the other",
            entry=f"{at}length",
        )
        frames = exact("fan's frame", self.usual.frame, row.along)
        before, count = self.places.first - 1, self.places.count
        if self.port_tank is None:
            return (times(frames, before + count / 2), centred(length))
        tank = link("tank with the ports", self.port_tank, row.along)
        if self.ports is PortEnd.FIRST:
            return (times(frames, before), less(tank), spanning(length, 0.0, 1.0))
        return (times(frames, before + count), tank, spanning(length, -1.0, 0.0))

    def _fans(self, seat: Seat, rows: list[_Row]) -> tuple[Piece, ...]:
        boxes = [
            (box, (*links, *own))
            for off, links in rows
            for box, own in zip(
                fan_boxes(seat, self.places, off),
                frame_links(seat, self.places),
                strict=True,
            )
        ]
        return tuple(
            Piece(name=f"fan {n}", role=Role.FAN, solids=(box,), links=links)
            for n, (box, links) in enumerate(boxes, start=1)
        )


def _in_file(piece: str) -> str:
    """Return what leads to the radiator's fields: it may belong to a liquid cooler."""
    return f"{piece}." if piece else ""
