"""What must give at a wall: the wall along its normal, never past what sticks through.

The shortest shift that frees a thin panel from a plug may lead to the plug's other
side, by the panel's thickness and the plug's; a builder needs a wider case or a lower
card, and by how much tells only the way out along the wall's own normal.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from layout.build.assemble import CASE
from layout.build.placed import PlacedBody
from layout.geometry.bodies.body import Body
from layout.geometry.relations.overlap import freed, overlap
from layout.geometry.relations.relation import Overlap, Relation, State
from layout.geometry.solids.solid import rectangle
from layout.geometry.space import Axis, Direction
from layout.parts.form.form import Role

__all__ = [
    "OUTWARDS",
    "gives",
    "is_beyond",
    "is_inner",
    "outwards",
    "room_wanting",
    "way_out",
]

OUTWARDS: Final = {
    Role.SIDE_PANEL: Direction.PANEL,
    Role.BACK_PANEL: Direction.TRAY,
    Role.FLOOR: Direction.DOWN,
    Role.TOP: Direction.UP,
    Role.FRONT: Direction.FRONT,
    Role.REAR: Direction.REAR,
}
"""Which way each outer wall of a case gives."""

_LEVEL: Final = frozenset({"case/shroud", "case/shroud lining"})
_INNER: Final = _LEVEL | {"case/tray"}
"""Sheets with room on both sides."""

_THROUGH_REAR: Final = frozenset({Role.CARD_BRACKET, Role.REAR_CONNECTORS})
"""What is meant to stand in the rear's openings: it misses them along the wall."""

_INWARDS: Final = {
    way: other
    for way in Direction
    for other in Direction
    if other.axis is way.axis and other is not way
}


def way_out(a: PlacedBody, b: PlacedBody) -> Direction | None:
    """Return which way b goes for the wall among the two to give; None without one.

    Where a is the wall, b goes inwards instead.  A shroud or a tray gives away from
    a part that lies against it with its whole face; at its edges and openings a
    builder may as well go past it, and it is no wall.
    """
    if Role.REAR in {a.role, b.role} and {a.role, b.role} & _THROUGH_REAR:
        return None
    if (to := outwards(b)) is not None:
        return to
    if (to := outwards(a)) is not None:
        return _INWARDS[to]
    if is_inner(b):
        return _off_sheet(a.body, b)
    off = _off_sheet(b.body, a) if is_inner(a) else None
    return _INWARDS[off] if off else None


def outwards(body: PlacedBody) -> Direction | None:
    """Return which way an outer wall gives, its perforated part and covers likewise.

    None for what is no outer wall.  Meshes lie flat on the case's planes, those of no
    coordinate under zero among them.
    """
    if body.role is not Role.GRILLE:
        return OUTWARDS.get(body.role)
    if body.part != CASE or is_inner(body):
        return None
    low, high = body.body.bounds.low, body.body.bounds.high
    axis = min(Axis, key=lambda each: high[each.index] - low[each.index])
    beyond = high[axis.index] > 0.0
    return next(d for d in Direction if d.axis is axis and (d.sign > 0) is beyond)


def is_inner(body: PlacedBody) -> bool:
    """Tell whether a body is the shroud, perforated or not, its lining or the tray."""
    return body.name in _INNER


def _off_sheet(part: Body, placed: PlacedBody) -> Direction | None:
    """Return which way an inner sheet leaves a part; None where it does not cover it.

    Most of the part decides: what reaches through from below lies below.
    """
    sheet, level = placed.body, placed.name in _LEVEL
    axis, across = (Axis.HEIGHT, Axis.WIDTH) if level else (Axis.WIDTH, Axis.HEIGHT)
    low, high = part.bounds.low, part.bounds.high
    x, v = (
        (low[k] - sheet.at_mm[k], high[k] - sheet.at_mm[k]) for k in (0, across.index)
    )
    outlines = (each.top if level else each.side for each in sheet.shape.solids)
    if not any(each.covers(rectangle(x, v)) for each in outlines):
        return None
    k, beside = axis.index, sheet.bounds
    before = low[k] + high[k] < beside.low[k] + beside.high[k]
    if level:
        return Direction.UP if before else Direction.DOWN
    return Direction.PANEL if before else Direction.TRAY


def gives(
    a: PlacedBody, b: PlacedBody, stands: Relation, *, rest: Body | None = None
) -> Relation:
    """Return how two bodies stand, with what must give at a wall as the overlap.

    ``rest`` is what of a counts, where its seat lets the two share the rest.
    """
    to = way_out(a, b)
    if stands.overlap is None or to is None:
        return stands
    return replace(stands, overlap=freed(rest or a.body, b.body, to))


def room_wanting(room: Body, wall: PlacedBody, stands: Relation) -> Relation:
    """Return how the room behind a plug stands to a body, at a wall its way out.

    A room that begins beyond a wall meets nothing, and lacks all the more.  What must
    give is worked out here where the two interfere.
    """
    to = outwards(wall)
    if to is None:
        if stands.state is not State.INTERFERING or stands.overlap is not None:
            return stands
        return replace(stands, overlap=overlap(room, wall.body))
    if is_beyond(room, wall):
        _, end_mm = _span(room, to)
        inside_mm, _ = _span(wall.body, to)
        gives_mm = Overlap(axis=to.axis, mm=end_mm - inside_mm, sign=to.sign)
        return replace(
            stands,
            state=State.INTERFERING,
            gap_mm=0.0,
            witness=None,
            overlap=gives_mm,
        )
    if stands.state is not State.INTERFERING:
        return stands
    return replace(stands, overlap=freed(room, wall.body, to))


def is_beyond(room: Body, wall: PlacedBody) -> bool:
    """Tell whether a room lies past an outer wall, before its outside."""
    to = outwards(wall)
    if to is None or _span(room, to)[0] < _span(wall.body, to)[1]:
        return False
    a, b = room.bounds, wall.body.bounds
    return all(
        a.low[k] < b.high[k] and b.low[k] < a.high[k]
        for k in (axis.index for axis in Axis if axis is not to.axis)
    )


def _span(body: Body, to: Direction) -> tuple[float, float]:
    """Return where a body begins and ends one way, mm from the case's origin."""
    low, high = (e[to.axis.index] for e in (body.bounds.low, body.bounds.high))
    return (low, high) if to.sign > 0 else (-high, -low)
