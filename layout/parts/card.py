"""An expansion card, its bracket and its power plug."""

from __future__ import annotations

from enum import Enum
from typing import ClassVar

from layout.geometry.solid import block
from layout.geometry.space import Axis
from layout.parts import card_readings, field
from layout.parts.card_plug import kind_of, mated
from layout.parts.card_readings import PlugAt
from layout.parts.connector import ConnectorKind
from layout.parts.errors import PartError
from layout.parts.form import Form, Link, Piece, PlugShape, Role, Seat, SeatSort
from layout.parts.hookup import HEADERS, POWER, Counts, Listed, counted
from layout.parts.link import link
from layout.parts.reading import Told
from layout.parts.wish import Wish
from layout.standards import cards
from layout.standards.figure import Figure, calculated, practice
from layout.values import dataclass

__all__ = ["BracketShape", "Card", "PlugAt"]


_VENT_MARGIN_MM = 21.0
"""Card round its fans: more than the room they need, so that what stands beside the
card is never taken for an object before them; common practice, no source."""
_SKIN_MM = 0.1


class BracketShape(Enum):
    """How long a card's bracket is."""

    FULL = "full"
    LOW = "low"


_TONGUE_FROM_MM = 45.0
"""From the card's edge at the bracket to its fingers: the outline of 16 lanes gives
45.15 to the fingers' datum and 0.15 before it."""
_RISER_MARGIN_MM = 10.0
"""Riser's own board beyond the socket; common practice, no source."""
_ON_FINGERS_MM = cards.FINGER_TONGUE.mm
_PLUG_FROM_END = practice(60.0, 40.0, assumed=True)
_HALF_BOARD_MM = cards.THICKNESS.mm / 2
_BACK_MM = _HALF_BOARD_MM + cards.SOLDER_SIDE.mm
"""From the middle of the card's circuit board to the back of its own components."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """A card in a slot of the board, its components looking down."""

    kind: ClassVar[str] = "card"

    length: Figure = field.length(
        "outside of the bracket's slot plane to the far end, without a plug",
        least_mm=60,
        most_mm=450,
        readings=card_readings.LENGTH,
    )
    height: Figure = field.length(
        "bottom of the contact fingers to the top edge, without the plug",
        cards.FULL_HEIGHT,
        least_mm=40,
        most_mm=190,
        readings=card_readings.HEIGHT,
    )
    slots: int = field.count(
        "how many openings it takes; one called two and a half takes three",
        1,
        least=1,
        most=5,
    )
    thickness: Figure | None = field.length(
        "back of the circuit board's own components or back plate to the fan side; "
        "default: from the slots",
        None,
        least_mm=5,
        most_mm=120,
        readings=card_readings.THICKNESS,
    )
    slot: int = field.count(
        "the case's opening, 1 nearest the processor",
        1,
        least=1,
        most=8,
        readings=card_readings.SLOT,
    )
    fans: bool | None = field.flag(
        "whether fans draw through its lower side; default: from two openings on",
        default=None,
    )
    back_plate: Figure | None = field.length(
        "back plate over the circuit board's back; default: components' 2.67",
        None,
        least_mm=0.5,
        most_mm=15,
    )
    riser: str | None = field.word(
        "the case's riser bracket by its name; default: the card goes into its slot",
        None,
    )
    bracket: BracketShape | None = field.choice(
        "full or low; default: low on a card no higher than 68.9", None
    )
    plug: PlugAt = field.choice("power plug's place", PlugAt.NONE)
    plug_from_bracket: Figure | None = field.length(
        "slot plane to the middle of a plug at the top edge; "
        "default: 60 before the end",
        None,
        least_mm=20,
        most_mm=450,
    )
    plug_kind: ConnectorKind | None = field.choice(
        "power plug; default: the first that 'power' lists, else 8-pin card power", None
    )
    plug_shape: PlugShape = field.choice(
        "straight, or angled: a right-angle plug or adapter", PlugShape.STRAIGHT
    )
    plug_reach: Figure = field.length(
        "how far the mated plug stands beyond the card, before its cable's bend",
        cards.PLUG_BEYOND_CARD,
        least_mm=1,
        most_mm=80,
    )
    plug_width: Figure = field.length(
        "mated plug along the card's edge",
        practice(20.0, 5.0, assumed=True),
        least_mm=5,
        most_mm=60,
    )
    plug_thickness: Figure = field.length(
        "mated plug across the card",
        practice(12.0, 3.0, assumed=True),
        least_mm=5,
        most_mm=30,
    )
    measured_from: Told = field.measured_from()
    power: Listed | None = field.count(
        "power plugs it takes: {8-pin card power: 2}; default: what its plug needs, "
        "assumed",
        None,
        least=0,
        most=4,
    )
    headers: Listed = field.count(
        "sockets it has for plugs: {drive data: 4, 20-pin USB: 1}",
        (),
        least=0,
        most=16,
    )

    def __post_init__(self) -> None:
        kind_of(self.plug_kind, self._listed)
        counted("headers", self.headers, HEADERS)
        if self.measured_from:
            return
        if self.height.mm <= cards.SHOULDER.mm:
            raise PartError(
                field="height", found=f"{self.height.mm:g} mm", right="over the slot"
            )
        at = self.plug_from_bracket
        if at is not None and at.mm > self.length.mm:
            raise PartError(
                field="plug from bracket",
                found=f"{at.mm:g} mm",
                right=f"no more than the card's {self.length.mm:g} mm",
            )

    @property
    def _listed(self) -> Counts | None:
        return None if self.power is None else counted("power", self.power, POWER)

    @property
    def depth_across(self) -> Figure:
        """Return the card's thickness: its own, or that of its slots."""
        if self.thickness is not None:
            return self.thickness
        components_mm = cards.COMPONENT_SIDE.mm if self.slots == 1 else 0.0
        if self.slots > 1:
            components_mm = (
                cards.DUAL_HEIGHT.mm + (self.slots - 2) * cards.SLOT_PITCH.mm
            )
        return calculated(
            cards.SOLDER_SIDE.mm + cards.THICKNESS.mm + components_mm,
            "solder side, board and component side of the card specification",
            1.0,
        )

    def wishes(self) -> tuple[Wish, ...]:
        """Return the slot, or the riser bracket."""
        if self.riser is not None:
            return (Wish(sort=SeatSort.RISER, seats=(self.riser,), field="riser"),)
        if dict(self.measured_from).get("slot") == card_readings.BOARDS_COUNT:
            return (Wish(sort=SeatSort.SLOT, number=self.slot, field="slot"),)
        return (Wish(sort=SeatSort.SLOT, seats=(f"slot {self.slot}",), field="slot"),)

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return the card with the bottom of its fingers at the seat.

        So it is in its own axes, its fan side down; a riser's seat turns it.
        """
        del seat
        thick = self.depth_across
        back_mm = self._back_mm
        low_mm = back_mm - thick.mm
        links = (
            link("card length", self.length, Axis.DEPTH),
            link("card thickness", thick, Axis.HEIGHT),
            link("card height", self.height, Axis.WIDTH),
        )
        tongue_end_mm = min(_TONGUE_FROM_MM + _ON_FINGERS_MM, self.length.mm)
        body = Piece(
            name="",
            role=Role.CARD,
            solids=(
                block(
                    (0.0, self.length.mm),
                    (low_mm, back_mm),
                    (cards.SHOULDER.mm, self.height.mm),
                ),
                block(
                    (_TONGUE_FROM_MM, tongue_end_mm),
                    (-_HALF_BOARD_MM, _HALF_BOARD_MM),
                    (0.0, cards.SHOULDER.mm),
                ),
            ),
            links=links,
        )
        plug = self._plug(links)
        riser = (_riser(),) if wish.sort is SeatSort.RISER else ()
        return Form(
            pieces=(body, self._bracket(), *plug, *riser, *self._vent(low_mm, links)),
            size=f"{self.length.mm:g} long",
            stated=(("card length", self.length),),
            plugs=tuple(
                mated(
                    each,
                    kind_of(self.plug_kind, self._listed),
                    self.plug_shape,
                    ahead=self.plug is PlugAt.FAR_END,
                    size_mm=(self.plug_width.mm, self.plug_thickness.mm),
                )
                for each in plug
            ),
        )

    @property
    def _back_mm(self) -> float:
        """Return from the middle of the circuit board to the card's back."""
        plate = self.back_plate
        return _HALF_BOARD_MM + plate.mm if plate is not None else _BACK_MM

    def _vent(self, low_mm: float, links: tuple[Link, ...]) -> tuple[Piece, ...]:
        """Return the face with the fans: a skin, in from the edges beside it."""
        drawn = self.slots > 1 if self.fans is None else self.fans
        if not drawn:
            return ()
        # A short card's fans are there too: the same bodies whatever its size.
        x = _middle(0.0, self.length.mm)
        z = _middle(cards.SHOULDER.mm, self.height.mm)
        skin = block(x, (low_mm, low_mm + _SKIN_MM), z)
        return (Piece(name="vent", role=Role.CARD_VENT, solids=(skin,), links=links),)

    @property
    def _bracket_length(self) -> Figure:
        """Return the long bracket's length, or the short one's."""
        low = self.bracket is BracketShape.LOW
        usual = self.bracket is None and self.height.mm <= cards.LOW_HEIGHT.mm
        return cards.LOW_BRACKET_LENGTH if low or usual else cards.BRACKET_LENGTH

    def _bracket(self) -> Piece:
        """Return the bracket; its foot passes behind the board's rear edge."""
        foot_mm = cards.BRACKET_TAB_SEAT.mm - cards.BRACKET_LENGTH.mm
        top_mm = foot_mm + self._bracket_length.mm
        wide_mm = cards.BRACKET_WIDTH.mm + (self.slots - 1) * cards.SLOT_PITCH.mm
        return Piece(
            name="bracket",
            role=Role.CARD_BRACKET,
            solids=(
                block(
                    (-cards.BRACKET_THICKNESS.mm, 0.0),
                    (_BACK_MM - wide_mm, _BACK_MM),
                    (foot_mm, top_mm),
                ),
            ),
        )

    def _plug(self, links: tuple[Link, ...]) -> tuple[Piece, ...]:
        if self.plug is PlugAt.NONE:
            return ()
        half_mm, thick_mm = self.plug_width.mm / 2, self.plug_thickness.mm
        # Under the circuit board, where its connector is soldered.
        y = (-_HALF_BOARD_MM - thick_mm, -_HALF_BOARD_MM)
        reach_mm, end_mm, top_mm = self.plug_reach.mm, self.length.mm, self.height.mm
        if self.plug is PlugAt.FAR_END:
            reach = self._reach(Axis.DEPTH)
            middle_mm = top_mm / 2
            solid = block(
                (end_mm, end_mm + reach_mm),
                y,
                (middle_mm - half_mm, middle_mm + half_mm),
            )
            mine: tuple[Link, ...] = (reach,)
        else:
            at = self.plug_from_bracket or self._usual_plug_place
            reach = self._reach(Axis.WIDTH)
            solid = block(
                (at.mm - half_mm, at.mm + half_mm), y, (top_mm, top_mm + reach_mm)
            )
            place = link(
                "plug from the bracket",
                at,
                Axis.DEPTH,
                tape="slot plane to the middle of the power plug",
                entry="plug from bracket",
            )
            mine = (reach, place)
        return (
            Piece(
                name="plug",
                role=Role.CARD_PLUG,
                solids=(solid,),
                links=(*links, *mine),
            ),
        )

    def _reach(self, axis: Axis) -> Link:
        return link(
            "plug beyond the card",
            self.plug_reach,
            axis,
            tape="card's edge to the back of the plug in it",
            entry="plug reach",
        )

    @property
    def _usual_plug_place(self) -> Figure:
        mm = max(self.length.mm - _PLUG_FROM_END.mm, self.length.mm / 2)
        return practice(mm, _PLUG_FROM_END.plus_minus_mm, assumed=True)


def _middle(low_mm: float, high_mm: float) -> tuple[float, float]:
    """Return the stretch that fans take between two edges, 2 mm at least."""
    margin_mm = min(_VENT_MARGIN_MM, (high_mm - low_mm) / 2 - 1.0)
    return low_mm + margin_mm, high_mm - margin_mm


def _riser() -> Piece:
    """Return the socket that a riser bracket holds the card in, on its own board."""
    low_mm = -cards.FINGER_SEAT.mm
    along = (_TONGUE_FROM_MM, _TONGUE_FROM_MM + _ON_FINGERS_MM)
    half_mm = cards.CONNECTOR_WIDTH.mm / 2
    return Piece(
        name="riser",
        role=Role.CARD_SLOT,
        solids=(
            block(along, (-half_mm, half_mm), (low_mm, cards.CONNECTOR_HEIGHT.mm)),
            block(
                (along[0] - _RISER_MARGIN_MM, along[1] + _RISER_MARGIN_MM),
                (-_RISER_MARGIN_MM, _RISER_MARGIN_MM),
                (low_mm - cards.THICKNESS.mm, low_mm),
            ),
        ),
    )
