"""A power supply, with its vent and what its cables take at once."""

from __future__ import annotations

from enum import Enum
from typing import ClassVar

from layout.geometry.solids.solid import Solid, block
from layout.geometry.space import Axis, Direction, Vector
from layout.parts.form import field
from layout.parts.form.cable import CableForm
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.errors import PartError
from layout.parts.form.form import (
    BEHIND_TRAY,
    Form,
    Link,
    Piece,
    Role,
    Seat,
    SeatSort,
)
from layout.parts.form.link import (
    at_share,
    centred,
    drawn,
    exact,
    link,
    size,
    spanning,
    times,
    without,
)
from layout.parts.form.reading import Readings
from layout.parts.form.wish import Wish
from layout.parts.supply.supply_inlet import INSIDE_INLET, inlet
from layout.parts.supply.supply_lead import SupplyLead
from layout.parts.supply.supply_leads import (
    middle_of_face,
    plugs_of_leads,
    supply_leads,
)
from layout.parts.supply.supply_plate import face_screws
from layout.parts.wiring.hookup import POWER, Counts, Listed, counted
from layout.standards.bends import BendRule
from layout.standards.figure import Figure, practice
from layout.standards.supplies import ATX_LENGTH, FORMS, PLUGS
from layout.values import dataclass

__all__ = ["Cables", "Intake", "Supply", "SupplyShape"]


class SupplyShape(Enum):
    """The forms supplies are sold in."""

    ATX = "ATX"
    SFX = "SFX"
    SFX_L = "SFX-L"
    TFX = "TFX"
    FLEX = "Flex"


class Intake(Enum):
    """Where the supply's fan looks; to a side, the supply stands on edge."""

    DOWN = "down"
    UP = "up"
    TRAY = "tray"
    PANEL = "panel"  # behind the tray: the panel on that side
    REAR = "rear"
    FRONT = "front"

    def direction(self, *, behind: bool = False) -> Direction:
        """Return the direction in the case, for a supply before or behind the tray."""
        looks = Direction[self.name]
        swapped = behind and looks.axis is Axis.WIDTH
        return looks.opposite if swapped else looks


class Cables(Enum):
    """How cables leave the supply."""

    MODULAR = "modular"
    FIXED = "fixed"


_LENGTH = Readings(usual="body alone")
_REACH = {
    Cables.MODULAR: PLUGS,
    Cables.FIXED: practice(20.0, 5.0, assumed=True),
}
_VENT_MARGIN_MM = 15.0
"""Body around the vent's opening; more than the room a vent needs, so that what
stands beside the supply is never taken for an object before its vent."""
_VENT_LARGEST_MM = 140.0
_SKIN_MM = 0.1
_FIELD_MARGIN_MM = 8.0
_SIDES = ("supply width", "supply height")
"""Across and upright in its own axes; on edge the other way round."""
_EXIT_MM = (40.0, 30.0)
"""A fixed cable exit, across and along the supply's face."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """A power supply."""

    kind: ClassVar[str] = "supply"

    form: SupplyShape = field.choice("form", SupplyShape.ATX)
    length: Figure | None = field.length(
        "body alone, no leads, no plugs; default: the form's, of ATX the shortest "
        "usual one, assumed",
        None,
        least_mm=80,
        most_mm=300,
        readings=_LENGTH,
    )
    width: Figure | None = field.length(
        "body; default: the form's", None, least_mm=60, most_mm=180
    )
    height: Figure | None = field.length(
        "body, vent to back; default: the form's", None, least_mm=35, most_mm=120
    )
    intake: Intake | None = field.choice(
        "where its fan looks; default: down, to the panel where it stands upright or "
        "behind the tray",
        None,
    )
    cables: Cables = field.choice("connector field or fixed exit", Cables.MODULAR)
    cable_depth: Figure | None = field.length(
        "plugs or cable exit beyond the body, before the bend; default: usual",
        None,
        least_mm=5,
        most_mm=120,
    )
    adapter_plate: bool | None = field.flag(
        "a plate in its box that fits it to a larger opening; default: one if needed, "
        "assumed",
        None,
    )
    wires: CableForm = field.choice(
        "how its cables' wires are held together", CableForm.LOOSE
    )
    bend_rule: BendRule | None = field.choice(
        "by which rule its cables bend; default: the usual one of such wires", None
    )
    leads: tuple[SupplyLead, ...] | None = field.nested(
        "its leads, all of them; default: as many as are needed, assumed", None
    )
    sockets: Listed | None = field.count(
        "sockets at a modular supply by kind, those of 8 contacts for processor and "
        "card together: {8-pin card power: 5, 12V-2x6: 1, drive power: 4}; default: "
        "not asked",
        None,
        least=0,
        most=12,
    )

    def __post_init__(self) -> None:
        if self.sockets and self.cables is Cables.FIXED:
            raise PartError(
                field="sockets",
                found="sockets of a supply with fixed leads",
                right="'cables: modular', or no sockets",
            )
        counted("sockets", self.sockets, POWER)

    @property
    def counted_sockets(self) -> Counts | None:
        """Return its sockets by kind; None where the file does not count them.

        The main lead's is there unless the file tells another number.
        """
        if self.sockets is None:
            return None
        told = dict(counted("sockets", self.sockets, POWER))
        return tuple(({ConnectorKind.MAIN: 1} | told).items())

    def wishes(self) -> tuple[Wish, ...]:
        """Return the supply bay."""
        return (Wish(sort=SeatSort.SUPPLY),)

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return the supply, centred in its bay's opening, its inlet to the rear.

        So it is in its own axes; its seat turns it.
        """
        del wish
        usual = FORMS[self.form.value]
        length = self.length or _usual_length(self.form)
        sizes = (self.width or usual.width, self.height or usual.height)
        intake = self._own_intake(seat)
        on_edge = intake.axis is Axis.WIDTH
        wide, high = reversed(sizes) if on_edge else sizes
        across, upright = reversed(_SIDES) if on_edge else _SIDES
        room_high_mm, room_wide_mm = seat.room_mm or (high.mm, wide.mm)
        if on_edge:
            room_high_mm, room_wide_mm = room_wide_mm, room_high_mm
        y_mm = (room_high_mm - high.mm) / 2 if high.mm < room_high_mm else 0.0
        z_mm = (room_wide_mm - wide.mm) / 2 if wide.mm < room_wide_mm else 0.0
        low: Vector = (0.0, y_mm, z_mm)
        top: Vector = (length.mm, y_mm + high.mm, z_mm + wide.mm)
        long = link(
            "supply length",
            length,
            Axis.DEPTH,
            tape="rear face of the supply to its other end, without plugs",
            entry="length",
        )
        links = (
            size(long, Direction.FRONT),
            *_in_opening(upright, high, (Axis.HEIGHT, room_high_mm)),
            *_in_opening(across, wide, (Axis.WIDTH, room_wide_mm)),
        )
        reach = self.cable_depth or _REACH[self.cables]
        plugs_link = size(_plugs(reach), Direction.FRONT)
        at_end = (*(at_share(e, Axis.DEPTH, 1.0) for e in links), plugs_link)
        at_plug = at_end
        for axis, share in ((Axis.DEPTH, 1.0), (Axis.HEIGHT, 0.5), (Axis.WIDTH, 0.5)):
            at_plug = tuple(at_share(each, axis, share) for each in at_plug)
        leads = self._leads(low, top, reach.mm, tray=_to_tray(seat))
        return Form(
            pieces=(
                Piece(name="", role=Role.SUPPLY, solids=(_box(low, top),), links=links),
                Piece(
                    name="vent",
                    role=Role.SUPPLY_VENT,
                    solids=(_vent(low, top, intake),),
                    links=_vent_links(links, low, top, intake=intake),
                ),
                Piece(
                    name="leads",
                    role=Role.SUPPLY_LEADS,
                    solids=(leads,),
                    links=self._ends(at_end, leads),
                ),
                *inlet(low, top, links, looks=seat.turn.direction(Direction.REAR)),
            ),
            size=f"{length.mm:g} long",
            screws=face_screws(self.form.value, [intake], given=False, thread=True),
            adapter=self.adapter_plate,
            stated=(("supply length", length), ("plugs at the supply", reach)),
            notes=() if seat.turn.depth is Direction.FRONT else (INSIDE_INLET,),
            plugs=plugs_of_leads(
                leads,
                at_plug,
                modular=self.cables is Cables.MODULAR,
                native=self._native,
            ),
            leads=supply_leads(
                self.leads,
                small=self.form is not SupplyShape.ATX,
                made=(self.wires, self.bend_rule),
                at_mm=middle_of_face(leads),
                ahead_mm=reach.mm,
            ),
        )

    @property
    def _native(self) -> bool:
        """Tell whether it has a 12V-2x6 socket: counted, or named by a lead of it."""
        own = ConnectorKind.CARD_16
        named = any(each.socket is own for each in self.leads or ())
        return named or bool(dict(self.counted_sockets or ()).get(own))

    def _ends(self, at_end: tuple[Link, ...], leads: Solid) -> tuple[Link, ...]:
        """Return what plugs or a fixed exit rest on; where that is, is as drawn."""
        if self.cables is Cables.MODULAR:
            return (*at_end, *self._rims)
        low, high = leads.bounds.low, leads.bounds.high
        made = at_end
        for axis in (Axis.HEIGHT, Axis.WIDTH):
            span = (low[axis.index], high[axis.index])
            kept = (without(each, axis) for each in made)
            made = (*kept, *drawn("cable exit", axis, span))
        return made

    @property
    def _rims(self) -> tuple[Link, ...]:
        """Return the rim round a modular field."""
        if self.cables is not Cables.MODULAR:
            return ()
        rim = exact("rim round the field", _FIELD_MARGIN_MM, Axis.HEIGHT, Axis.WIDTH)
        return (spanning(rim, 1.0, -1.0),)

    def _own_intake(self, seat: Seat) -> Direction:
        """Return where the fan looks in the supply's own axes."""
        behind = seat.face == BEHIND_TRAY
        inlet = seat.turn.direction(Direction.REAR)
        upright = inlet.axis is Axis.HEIGHT
        usual = Intake.PANEL if behind or upright else Intake.DOWN
        looks = (self.intake or usual).direction(behind=behind)
        if looks.axis is inlet.axis:
            raise PartError(
                field="intake",
                found=looks.name.lower(),
                right="a side of the supply, not the ends with its inlet and leads",
            )
        return seat.turn.back.direction(looks)

    def _leads(
        self, low: Vector, top: Vector, reach_mm: float, *, tray: Direction
    ) -> Solid:
        x = (top[0], top[0] + reach_mm)
        if self.cables is Cables.MODULAR:
            y, z = (
                (low[i] + _FIELD_MARGIN_MM, top[i] - _FIELD_MARGIN_MM) for i in (1, 2)
            )
            return block(x, y, z)
        wide_mm, high_mm = _EXIT_MM
        # The exit lies at the tray's side, where the cables go.
        index = tray.axis.index
        near_mm = low[index] + _FIELD_MARGIN_MM
        spans = {index: (near_mm, min(near_mm + wide_mm, top[index]))}
        if tray.sign > 0:
            far_mm = top[index] - _FIELD_MARGIN_MM
            spans[index] = (max(far_mm - wide_mm, low[index]), far_mm)
        other = 3 - index
        middle_mm = (low[other] + top[other]) / 2
        spans[other] = (middle_mm - high_mm / 2, middle_mm + high_mm / 2)
        return block(x, spans[1], spans[2])


def _to_tray(seat: Seat) -> Direction:
    """Return where the tray is, in the supply's own axes."""
    looks = Direction.PANEL if seat.face == BEHIND_TRAY else Direction.TRAY
    return seat.turn.back.direction(looks)


def _usual_length(form: SupplyShape) -> Figure:
    """Return a form's length; ATX bodies are sold in many."""
    atx = form is SupplyShape.ATX
    return _LENGTH.of_usual(ATX_LENGTH if atx else FORMS[form.value].length)


def _plugs(reach: Figure) -> Link:
    return link(
        "plugs at the supply",
        reach,
        Axis.DEPTH,
        tape="supply's body to the back of the plugs in it",
        entry="cable depth",
    )


def _box(low: Vector, top: Vector) -> Solid:
    x, y, z = zip(low, top, strict=True)
    return block(x, y, z)


def _in_opening(
    label: str, figure: Figure, room: tuple[Axis, float]
) -> tuple[Link, ...]:
    """Return a size that is centred in its bay's opening, or at its corner."""
    axis, room_mm = room
    made = link(label, figure, axis)
    if figure.mm >= room_mm:
        return (spanning(made, 0.0, 1.0),)
    return (times(exact("supply's opening", room_mm, axis), 0.5), centred(made))


def _vent_links(
    links: tuple[Link, ...], low: Vector, top: Vector, *, intake: Direction
) -> tuple[Link, ...]:
    """Return the figures of the vent: at the face, in the middle of its sides."""
    at = dict.fromkeys(Axis, 0.5) | {intake.axis: 1.0 if intake.sign > 0 else 0.0}
    for axis, share in at.items():
        links = tuple(at_share(each, axis, share) for each in links)
    across = [axis for axis in Axis if axis is not intake.axis]
    opening = exact("vent's opening", _opening_mm(low, top, intake), *across)
    skin = exact("vent's skin", _SKIN_MM, intake.axis)
    return (*links, centred(opening), size(skin, intake.opposite))


def _opening_mm(low: Vector, top: Vector, intake: Direction) -> float:
    sides = [b - a for a, b in zip(low, top, strict=True)]
    across = [axis.index for axis in Axis if axis is not intake.axis]
    return min(_VENT_LARGEST_MM, *(sides[i] - 2 * _VENT_MARGIN_MM for i in across))


def _vent(low: Vector, top: Vector, intake: Direction) -> Solid:
    """Return a skin over the vent's opening, inside the supply's face."""
    opening_mm = _opening_mm(low, top, intake)
    spans = [
        ((a + b - opening_mm) / 2, (a + b + opening_mm) / 2)
        for a, b in zip(low, top, strict=True)
    ]
    i = intake.axis.index
    face_mm = top[i] if intake.sign > 0 else low[i]
    spans[i] = (
        (face_mm - _SKIN_MM, face_mm)
        if intake.sign > 0
        else (face_mm, face_mm + _SKIN_MM)
    )
    x, y, z = spans
    return block(x, y, z)
