"""What keeps a card from sagging: a post under its far end, or a bracket beside it."""

from __future__ import annotations

from enum import Enum
from typing import ClassVar

from layout.geometry.bodies.turn import turn_of
from layout.geometry.solids.solid import Solid, block
from layout.geometry.space import Axis, Direction
from layout.parts.form import field
from layout.parts.form.errors import PartError
from layout.parts.form.form import Form, Link, Piece, Role, Seat, SeatSort
from layout.parts.form.link import at_share, centred, drawn, exact, less, link, size
from layout.parts.form.wish import Wish
from layout.standards import cards
from layout.standards.figure import Figure, given, practice
from layout.values import dataclass

__all__ = [
    "REACHES",
    "ROOM_UNDER",
    "CardSupport",
    "SupportShape",
    "post_seat",
    "support_seat",
]

REACHES = "support reaches"
ROOM_UNDER = "room under the card"
"""What a post states of itself, and of what it stands on."""

_CARD_LENGTH = "card length"
_ARM_TO_END_MM = 30.0
"""A bracket's arm usually ends so far before the card; common practice, no source."""


class SupportShape(Enum):
    """How a support bears a card."""

    POST = "post"  # stands on the floor or the shroud, under the card's far end
    BRACKET = "bracket"  # an arm under the card, screwed to the opening below it


@dataclass(frozen=True, slots=True, kw_only=True)
class CardSupport:
    """A support under a card in a slot, or a post under one on a riser."""

    kind: ClassVar[str] = "card support"

    card: str | None = field.word(
        "the card's key, where several could be borne; default: the first one", None
    )
    shape: SupportShape = field.choice(
        "a post between the floor or shroud and the card, or a bracket: an arm under "
        "the card, screwed to the opening below it",
        SupportShape.POST,
    )
    from_end: Figure = field.length(
        "post: card's far end to the post's middle",
        practice(25.0, 10.0, assumed=True),
        least_mm=5,
        most_mm=300,
    )
    height: Figure | None = field.length(
        "post: its height where it is a fixed one; default: set to the room there is",
        None,
        least_mm=10,
        most_mm=400,
    )
    shortest: Figure | None = field.length(
        "post: the least height it can be set to; default: not asked",
        None,
        least_mm=10,
        most_mm=400,
    )
    longest: Figure | None = field.length(
        "post: the greatest height it can be set to; default: not asked",
        None,
        least_mm=10,
        most_mm=600,
    )
    width: Figure = field.length(
        "post's diameter, or the arm across the card",
        practice(20.0, 5.0, assumed=True),
        least_mm=3,
        most_mm=80,
    )
    length: Figure | None = field.length(
        "bracket: slot plane to the arm's far end; default: 30 before the card's, "
        "assumed",
        None,
        least_mm=30,
        most_mm=450,
    )
    thickness: Figure = field.length(
        "bracket: the arm, under the card",
        practice(10.0, 3.0, assumed=True),
        least_mm=1,
        most_mm=40,
    )

    def __post_init__(self) -> None:
        least, most = self.shortest, self.longest
        if least is not None and most is not None and least.mm > most.mm:
            raise PartError(
                field="shortest",
                found=f"{least.mm:g} mm",
                right=f"no more than the longest, {most.mm:g} mm",
            )

    def wishes(self) -> tuple[Wish, ...]:
        """Return the place under the card."""
        return (Wish(sort=SeatSort.SUPPORT, host=self.card, field="card"),)

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return the support, its upper end at the card's lower side.

        The seat tells the card's length and the line of the opening below it, and of
        a post what room is under the card.
        """
        del wish
        if seat.takes not in {"", self.shape.value}:
            raise PartError(
                field="shape",
                found=f"a {self.shape.value} under a card on a riser",
                right=f"a {seat.takes}",
            )
        card_mm, line_mm = seat.room_mm or (0.0, 0.0)
        if self.shape is SupportShape.BRACKET:
            return self._bracket(card_mm, line_mm, seat.links)
        if seat.figure is None:
            raise PartError(
                field="shape",
                found="a post with neither floor nor shroud under it",
                right="a bracket, or a case around it",
            )
        return self._post(card_mm - self.from_end.mm, seat.figure)

    def _post(self, at_mm: float, room: Figure) -> Form:
        half_mm = self.width.mm / 2
        if at_mm < half_mm:
            raise PartError(
                field="from end",
                found=f"{self.from_end.mm:g} mm",
                right="a place under the card",
            )
        high_mm = self._high_mm(room)
        links = self._post_links(high_mm)
        solid = block(
            (at_mm - half_mm, at_mm + half_mm), (-high_mm, 0.0), (-half_mm, half_mm)
        )
        post = Piece(name="", role=Role.CARD_SUPPORT, solids=(solid,), links=links)
        return Form(
            pieces=(post,),
            size=f"{high_mm:.4g} high",
            stated=((REACHES, given(high_mm)), (ROOM_UNDER, room)),
        )

    def _high_mm(self, room: Figure) -> float:
        """Return how high a post stands: as it is, or as far as it can be set."""
        if self.height is not None:
            return self.height.mm
        most_mm = min(room.mm, self.longest.mm) if self.longest else room.mm
        return max(most_mm, self.shortest.mm) if self.shortest else most_mm

    def _post_links(self, high_mm: float) -> tuple[Link, ...]:
        place = less(
            link(
                "support from the card's end",
                self.from_end,
                Axis.DEPTH,
                tape="card's far end to the middle of the post under it",
                entry="from end",
            )
        )
        wide = centred(link("support's width", self.width, Axis.DEPTH, Axis.WIDTH))
        if self.height is None:
            high = exact("support's height as it is set", high_mm, Axis.HEIGHT)
        else:
            high = link("support's height", self.height, Axis.HEIGHT)
        return (place, wide, size(high, Direction.DOWN))

    def _bracket(self, card_mm: float, line_mm: float, seat: tuple[Link, ...]) -> Form:
        half_mm = self.width.mm / 2
        usual = practice(max(30.0, card_mm - _ARM_TO_END_MM), 15.0, assumed=True)
        length = self.length or usual
        links = (
            # its place is counted from the slot plane, a post's from the card's end
            *(
                less(link(_CARD_LENGTH, each.figure, Axis.DEPTH))
                for each in seat
                if each.label == _CARD_LENGTH
            ),
            size(
                link(
                    "support's arm",
                    length,
                    Axis.DEPTH,
                    tape="slot plane to the end of the arm under the card",
                    entry="length",
                ),
                Direction.FRONT,
            ),
            size(
                link("support's thickness", self.thickness, Axis.HEIGHT), Direction.DOWN
            ),
            centred(link("support's width", self.width, Axis.WIDTH)),
        )
        arm = block((0.0, length.mm), (-self.thickness.mm, 0.0), (-half_mm, half_mm))
        back_mm = line_mm + cards.THICKNESS.mm / 2 + cards.SOLDER_SIDE.mm
        foot_mm = cards.BRACKET_TAB_SEAT.mm - cards.BRACKET_LENGTH.mm
        middle_mm = foot_mm + cards.BRACKET_LENGTH.mm / 2
        cover = block(
            (-cards.BRACKET_THICKNESS.mm, 0.0),
            (back_mm - cards.BRACKET_WIDTH.mm, back_mm),
            (foot_mm - middle_mm, cards.BRACKET_LENGTH.mm - (middle_mm - foot_mm)),
        )
        return Form(
            pieces=(
                Piece(name="", role=Role.CARD_SUPPORT, solids=(arm,), links=links),
                _cover(links[:-3], cover),
            ),
            size=f"{length.mm:.4g} long",
        )


def _cover(place: tuple[Link, ...], solid: Solid) -> Piece:
    """Return the bracket's cover over its opening."""
    low, high = solid.bounds.low, solid.bounds.high
    faces = (drawn("support's cover", e, (low[e.index], high[e.index])) for e in Axis)
    return Piece(
        name="cover",
        role=Role.CARD_BRACKET,
        solids=(solid,),
        links=(*place, *(link for pair in faces for link in pair)),
    )


def post_seat(
    length_mm: float,
    y: tuple[float, float],
    edges: tuple[float, float],
    *,
    hangs: bool,
    links: tuple[Link, ...],
) -> Seat:
    """Return the place under a card on a riser, at its lower edge: for a post alone.

    Parameters
    ----------
    y, edges : (float, float), mm
        What the card takes across its circuit board; its shoulder and its top edge.
    hangs : bool
        Whether its contact edge looks up, and its top edge down.
    """
    up = Direction.TRAY if hangs else Direction.PANEL
    return Seat(
        name="support",
        sort=SeatSort.SUPPORT,
        at_mm=(0.0, (y[0] + y[1]) / 2, edges[1] if hangs else edges[0]),
        approach=up,
        turn=turn_of((Direction.UP, up), (Direction.FRONT, Direction.FRONT)),
        room_mm=(length_mm, 0.0),
        links=tuple(
            at_share(
                at_share(at_share(each, Axis.DEPTH, 1.0), Axis.HEIGHT, 0.5),
                Axis.WIDTH,
                1.0 if hangs else 0.0,
            )
            for each in links
        ),
        takes=SupportShape.POST.value,
    )


def support_seat(
    length_mm: float, low_mm: float, *, slots: int, links: tuple[Link, ...]
) -> Seat:
    """Return the place under a card, across it at the middle of its bracket.

    Its room is the card's length, and how far over its lower side the line of the
    next opening lies: below it, a negative number.
    """
    middle_mm = cards.BRACKET_TAB_SEAT.mm - cards.BRACKET_LENGTH.mm / 2
    return Seat(
        name="support",
        sort=SeatSort.SUPPORT,
        at_mm=(0.0, low_mm, middle_mm),
        approach=Direction.UP,
        room_mm=(length_mm, -slots * cards.SLOT_PITCH.mm - low_mm),
        links=(
            *(
                at_share(at_share(each, Axis.DEPTH, 1.0), Axis.HEIGHT, 0.0)
                for each in links
                if not any(each.low[2:] + each.high[2:])
            ),
            exact("support at its bracket's middle", middle_mm, Axis.WIDTH),
        ),
    )
