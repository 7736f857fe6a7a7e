"""What a post under a card stands on, and how far below the card it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from layout.build.placed import PlacedBody
from layout.build.seats import Offer
from layout.geometry.bodies.body import Body, Shape
from layout.geometry.relations.query import meeting
from layout.geometry.solids.solid import block
from layout.geometry.space import Direction, Vector, plus
from layout.parts.card.card_support import CardSupport
from layout.parts.form.form import Role
from layout.standards.figure import calculated

__all__ = ["looked_under"]

_BEARING = frozenset(
    {Role.FLOOR, Role.SHROUD, Role.FRONT, Role.REAR, Role.SIDE_PANEL, Role.TOP}
)
_SHROUD = "case/shroud"
_FAR_MM = 2000.0


def looked_under(
    spec: CardSupport, offer: Offer, bodies: Sequence[PlacedBody]
) -> Offer:
    """Return the offer with the room under the card where a post would stand."""
    seat = offer.seat
    length_mm, _ = seat.room_mm or (0.0, 0.0)
    foot = (length_mm - spec.from_end.mm, 0.0, 0.0)
    half_mm = spec.width.mm / 2
    x, y, z = seat.turn.vector((half_mm, _FAR_MM / 2, half_mm))
    down = seat.turn.direction(Direction.DOWN)
    start = plus(offer.at_mm, seat.turn.vector(foot))
    middle = plus(start, seat.turn.vector((0.0, -_FAR_MM / 2, 0.0)))
    column = Body(
        name="column",
        shape=Shape((block(*((-abs(each), abs(each)) for each in (x, y, z))),)),
        at_mm=middle,
    )
    rooms = [_below_mm(each, start, down) for each in bodies if _bears(each, column)]
    below = [each for each in rooms if each > 0.0]
    if not below:
        return offer
    room = calculated(min(below), "from the places of the card and what is under it")
    return replace(offer, seat=replace(seat, figure=room))


def _bears(body: PlacedBody, column: Body) -> bool:
    """Tell whether a body is a sheet that a post could stand on."""
    sheet = body.role in _BEARING or body.name == _SHROUD  # a perforated one too
    return sheet and bool(meeting([body.body, column], [(0, 1)]).any())


def _below_mm(body: PlacedBody, start: Vector, down: Direction) -> float:
    """Return how far below a place the near side of a sheet lies."""
    bounds, index = body.body.bounds, down.axis.index
    face_mm = bounds.low[index] if down.sign > 0 else bounds.high[index]
    return down.sign * (face_mm - start[index])
