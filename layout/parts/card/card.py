"""An expansion card, its bracket and its power plug."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar

from layout.geometry.solids.solid import block
from layout.geometry.space import Axis, Box, Direction
from layout.parts.card import card_readings
from layout.parts.card.card_headers import header_plugs
from layout.parts.card.card_plug import kind_of, mated
from layout.parts.card.card_readings import PlugAt
from layout.parts.card.card_sheet import BracketShape, CardSheet
from layout.parts.card.card_support import post_seat, support_seat
from layout.parts.form.form import (
    Form,
    Link,
    Piece,
    Plug,
    Portion,
    Role,
    Seat,
    SeatSort,
)
from layout.parts.form.link import at_share, centred, drawn, exact, link, size, spanning
from layout.parts.form.wish import Wish
from layout.parts.wiring.adapter import adapted
from layout.parts.wiring.hookup import HEADERS, counted
from layout.standards import cards
from layout.standards.figure import Figure, Restated, practice
from layout.values import dataclass

__all__ = ["BracketShape", "Card", "PlugAt"]


_VENT_MARGIN_MM = 21.0
"""Card round its fans: more than the room they need, so that what stands beside the
card is never taken for an object before them; common practice, no source."""
_SKIN_MM = 0.1


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
class Card(CardSheet):
    """A card in a slot of the board, its components looking down."""

    kind: ClassVar[str] = "card"

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
        thick = self.depth_across
        back_mm = self._back_mm
        low_mm = back_mm - thick.mm
        links = (
            size(link("card length", self.length, Axis.DEPTH), Direction.FRONT),
            self._back,
            size(link("card thickness", thick, Axis.HEIGHT), Direction.DOWN),
            size(link("card height", self.height, Axis.WIDTH), Direction.PANEL),
            spanning(
                exact("card's lower edge", cards.SHOULDER.mm, Axis.WIDTH), 1.0, 0.0
            ),
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
            portions=_tongue(tongue_end_mm),
        )
        plug, plugs = self._plugged(links)
        riser = (_riser(),) if wish.sort is SeatSort.RISER else ()
        under = support_seat(self.length.mm, low_mm, slots=self.slots, links=links)
        if riser:
            under = post_seat(
                self.length.mm,
                (low_mm, back_mm),
                (cards.SHOULDER.mm, self.height.mm),
                hangs=seat.turn.width is Direction.DOWN,
                links=links,
            )
        pieces = (body, self._bracket(), *plug, *riser, *self._vent(low_mm, links))
        return Form(
            pieces=self._in_slot(pieces, wish, seat),
            seats=(under,),
            size=f"{self.length.mm:g} long",
            notes=self._read_slot(wish, seat),
            stated=(("card length", self.length),),
            plugs=(
                *plugs,
                *header_plugs(
                    counted("headers", self.headers, HEADERS),
                    self.header_places,
                    length_mm=self.length.mm,
                    height_mm=self.height.mm,
                    links=links,
                ),
            ),
        )

    def _in_slot(
        self, pieces: tuple[Piece, ...], wish: Wish, seat: Seat
    ) -> tuple[Piece, ...]:
        """Return its bodies, each with its slot's number and what that counts.

        The seat places the slot: the number adds nothing.  A riser has none.
        """
        if wish.sort is not SeatSort.SLOT:
            return pieces
        told = exact(seat.name, 0.0, Axis.HEIGHT)
        count = card_readings.SLOT.of_usual(told.figure)
        if wish.number is not None:
            name = card_readings.BOARDS_COUNT
            own = Restated(mm=self.slot, reading=name, step=told.figure)
            count = replace(count, restated=own)
        slot = replace(told, figure=count)
        return tuple(replace(each, links=(*each.links, slot)) for each in pieces)

    def _read_slot(self, wish: Wish, seat: Seat) -> tuple[str, ...]:
        """Return where it is, if its slot is told by the board's own count."""
        if wish.number is None:
            return ()
        count = card_readings.BOARDS_COUNT
        return (f"slot {self.slot} by the {count} is the case's {seat.name}",)

    def _plugged(
        self, links: tuple[Link, ...]
    ) -> tuple[tuple[Piece, ...], tuple[Plug, ...]]:
        """Return the bodies of its power plug, with its adapter's, and the plug."""
        if self.plug is PlugAt.NONE:
            return (), ()
        piece = self._plug(links)
        plug = mated(
            piece,
            kind_of(self.plug_kind, self.listed_power),
            self.plug_shape,
            ahead=self.plug is PlugAt.FAR_END,
            size_mm=(self.plugs_wide_mm, self.plug_thickness.mm),
            sockets=self.plugs_in_row,
        )
        if self.adapter is None:
            return (piece,), (plug,)
        beside, turned = adapted(plug, self.adapter, name=piece.name, role=piece.role)
        return (replace(piece, name="adapter"), beside), (turned,)

    @property
    def _back(self) -> Link:
        label = "middle of the card's board to its back"
        plate = self.back_plate
        if plate is None:
            return exact(label, _BACK_MM, Axis.HEIGHT)
        return link(label, replace(plate, mm=self._back_mm), Axis.HEIGHT)

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
        rim = exact("card's rim round its fans", x[0], Axis.DEPTH)
        rims = exact("card's rim round its fans", z[0] - cards.SHOULDER.mm, Axis.WIDTH)
        own = (
            *(at_share(each, Axis.HEIGHT, 0.0) for each in links),
            spanning(rim, 1.0, -1.0),
            spanning(rims, 1.0, -1.0),
        )
        return (Piece(name="vent", role=Role.CARD_VENT, solids=(skin,), links=own),)

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
            links=(
                size(
                    exact("bracket's sheet", cards.BRACKET_THICKNESS.mm, Axis.DEPTH),
                    Direction.REAR,
                ),
                exact("card's back at the bracket", _BACK_MM, Axis.HEIGHT),
                size(exact("bracket's width", wide_mm, Axis.HEIGHT), Direction.DOWN),
                exact("bracket's foot", foot_mm, Axis.WIDTH),
                size(
                    exact("bracket's length", top_mm - foot_mm, Axis.WIDTH),
                    Direction.PANEL,
                ),
            ),
        )

    def _plug(self, links: tuple[Link, ...]) -> Piece:
        half_mm, thick_mm = self.plugs_wide_mm / 2, self.plug_thickness.mm
        # Under the circuit board, where its connector is soldered.
        y = (-_HALF_BOARD_MM - thick_mm, -_HALF_BOARD_MM)
        reach_mm, end_mm, top_mm = self.plug_beyond.mm, self.length.mm, self.height.mm
        if self.plug is PlugAt.FAR_END:
            reach = self._reach(Axis.DEPTH)
            over = self.plug_from_fingers or self._usual_end_plug
            middle_mm = over.mm
            solid = block(
                (end_mm, end_mm + reach_mm),
                y,
                (middle_mm - half_mm, middle_mm + half_mm),
            )
            along = exact("plug's width", self.plugs_wide_mm, Axis.WIDTH)
            mine: tuple[Link, ...] = (
                centred(along),
                *(at_share(each, Axis.DEPTH, 1.0) for each in links[:1]),
                size(reach, Direction.FRONT),
                link(
                    "plug over the contact fingers",
                    over,
                    Axis.WIDTH,
                    tape="bottom of the contact fingers to the middle of the plug",
                    entry="plug from fingers",
                ),
            )
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
            high = (at_share(each, Axis.WIDTH, 1.0) for each in links[3:4])
            along = centred(exact("plug's width", self.plugs_wide_mm, Axis.DEPTH))
            mine = (*high, size(reach, Direction.PANEL), place, along)
        return Piece(
            name="plug",
            role=Role.CARD_PLUG,
            solids=(solid,),
            links=(*mine, *_under(thick_mm)),
        )

    def _reach(self, axis: Axis) -> Link:
        return link(
            "plug beyond the card",
            self.plug_beyond,
            axis,
            tape="card's edge to the back of the plug in it",
            entry="adapter.height" if self.adapter else "plug reach",
        )

    @property
    def _usual_end_plug(self) -> Figure:
        scatter_mm = max(0.0, self.height.mm - self.plugs_wide_mm) / 2
        return practice(self.height.mm / 2, scatter_mm, assumed=True)

    @property
    def _usual_plug_place(self) -> Figure:
        mm = max(self.length.mm - _PLUG_FROM_END.mm, self.length.mm / 2)
        return practice(mm, _PLUG_FROM_END.plus_minus_mm, assumed=True)


def _tongue(end_mm: float) -> tuple[Portion, ...]:
    """Return the card's contact edge, which reaches into its slot.

    A card that ends before it has none.
    """
    if end_mm <= _TONGUE_FROM_MM:
        return ()
    from_mm, half_mm, high_mm = _TONGUE_FROM_MM, _HALF_BOARD_MM, cards.SHOULDER.mm
    begins = exact("contact edge from the slot plane", from_mm, Axis.DEPTH)
    ends = exact("contact edge's end from the slot plane", end_mm, Axis.DEPTH)
    box = Box((from_mm, -half_mm, 0.0), (end_mm, half_mm, high_mm))
    links = (
        spanning(begins, 1.0, 0.0),
        spanning(ends, 0.0, 1.0),
        centred(exact("card's board", 2 * half_mm, Axis.HEIGHT)),
        size(exact("card's lower edge", high_mm, Axis.WIDTH), Direction.PANEL),
    )
    return (Portion(box, links),)


def _under(thick_mm: float) -> tuple[Link, Link]:
    """Return where a plug lies under the card's board."""
    return (
        exact("middle of the card's board to its face", -_HALF_BOARD_MM, Axis.HEIGHT),
        size(exact("plug's thickness", thick_mm, Axis.HEIGHT), Direction.DOWN),
    )


def _middle(low_mm: float, high_mm: float) -> tuple[float, float]:
    """Return the stretch that fans take between two edges, 2 mm at least."""
    margin_mm = min(_VENT_MARGIN_MM, (high_mm - low_mm) / 2 - 1.0)
    return low_mm + margin_mm, high_mm - margin_mm


def _riser() -> Piece:
    """Return the socket that a riser bracket holds the card in, on its own board."""
    low_mm = -cards.FINGER_SEAT.mm
    along = (_TONGUE_FROM_MM, _TONGUE_FROM_MM + _ON_FINGERS_MM)
    half_mm = cards.CONNECTOR_WIDTH.mm / 2
    boxes = (
        Box(
            (along[0], -half_mm, low_mm), (along[1], half_mm, cards.CONNECTOR_HEIGHT.mm)
        ),
        Box(
            (
                along[0] - _RISER_MARGIN_MM,
                -_RISER_MARGIN_MM,
                low_mm - cards.THICKNESS.mm,
            ),
            (along[1] + _RISER_MARGIN_MM, _RISER_MARGIN_MM, low_mm),
        ),
    )
    return Piece(
        name="riser",
        role=Role.CARD_SLOT,
        solids=tuple(block(*zip(e.low, e.high, strict=True)) for e in boxes),
        portions=tuple(map(_drawn, boxes)),
    )


def _drawn(box: Box) -> Portion:
    """Return a box of the riser with its faces where they are drawn."""
    spans = zip(Axis, box.low, box.high, strict=True)
    faces = (drawn("riser", axis, (low, high)) for axis, low, high in spans)
    return Portion(box, tuple(link for pair in faces for link in pair))
