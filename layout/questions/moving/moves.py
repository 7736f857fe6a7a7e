"""Which parts can be moved, and along which axis a stretch of travel runs."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

from layout.build.assemble import offers
from layout.build.placed import Build
from layout.build.plan import Plan
from layout.errors import LayoutError
from layout.geometry.space import Axis, Vector
from layout.parts.form.form import Seat, SeatSort
from layout.parts.kinds.block import Block
from layout.parts.kinds.kinds import Spec
from layout.parts.kinds.places import Place, places

__all__ = ["MoveError", "moved_bodies", "places_of", "rail_mm", "travel_axis"]


class MoveError(LayoutError, ValueError):
    """A part that is not there, or that cannot be moved as asked."""


_TRAVEL = {
    SeatSort.SUPPLY: (Axis.DEPTH, "it is pushed in against the rear panel"),
    SeatSort.CAGE: (Axis.DEPTH, "its rail runs along depth"),
    SeatSort.MEMORY: (Axis.DEPTH, "its slots follow one another along depth"),
    SeatSort.SLOT: (Axis.HEIGHT, "its slots follow one another along height"),
    SeatSort.RISER: (Axis.DEPTH, "its bracket stands on the case"),
    SeatSort.SUPPORT: (Axis.DEPTH, "it stands under the card"),
    SeatSort.COOLER: (Axis.WIDTH, "it stands on the processor"),
    SeatSort.DRIVE: (Axis.WIDTH, "it slides in along width"),
    SeatSort.BOARD: (Axis.HEIGHT, "it is hung on its standoffs"),
    SeatSort.PROCESSOR: (Axis.WIDTH, "it stands on the board"),
}


def places_of(plan: Plan, key: str) -> tuple[Place, ...]:
    """Return every named place of a part.

    Raises
    ------
    MoveError
        If there is no such part, or it has one place alone.
    """
    seats = tuple((each.host, each.seat) for each in offers(plan.entries, plan.case))
    found = places(_spec(plan, key), seats, every_end=True)
    if len(found) > 1:
        return found
    others = [
        each.key
        for each in plan.entries
        if len(places(each.spec, seats, every_end=True)) > 1
    ]
    right = f"one of {', '.join(others)}" if others else "none of this build"
    raise MoveError(f"found {key}, which has one place alone; {right} would be right")


def _spec(plan: Plan, key: str) -> Spec:
    spec = plan.spec(key)
    if spec is None:
        raise MoveError(_unknown(key, [each.key for each in plan.entries]))
    return spec


def _unknown(name: str, known: Iterable[str]) -> str:
    every = tuple(dict.fromkeys(known))
    near = get_close_matches(name, every, n=1)
    right = near[0] if near else f"one of {', '.join(every)}"
    return f"found no part {name!r} in the build; {right} would be right"


def moved_bodies(build: Build, name: str) -> tuple[int, ...]:
    """Return the indices of the bodies that move with a part, or with one body.

    Raises
    ------
    MoveError
        If there is no such part or body.
    """
    if "/" in name:
        own = {name}
        found = [i for i, each in enumerate(build.bodies) if each.name in own]
    else:
        carried = build.carried_by(name)
        found = [i for i, each in enumerate(build.bodies) if each.part in carried]
        # of a liquid cooler what hangs on its mount travels, the block stays
        mounted = [i for i in found if build.bodies[i].where is not None]
        found = mounted or found
    if not found or name.partition("/")[0] == "case":
        parts = [part.key for part in build.parts]
        pieces = [each.name for each in build.bodies if each.part != "case"]
        raise MoveError(_unknown(name, [*parts, *(pieces if "/" in name else ())]))
    return tuple(found)


def rail_mm(plan: Plan) -> tuple[Vector, ...]:
    """Return where the places of the case's rail for a cage lie; none without one."""
    if plan.case is None:
        return ()
    offered = (each.seat for each in offers(plan.entries, plan.case))
    return tuple(each.at_mm for each in offered if each.sort is SeatSort.CAGE)


def travel_axis(plan: Plan, name: str) -> tuple[Axis, str]:
    """Return the axis along which a part travels on its seat, and why.

    Raises
    ------
    MoveError
        If there is no such part.
    """
    key = name.partition("/")[0]
    spec = plan.spec(key)
    if spec is None and key == name:
        _spec(plan, key)
    if spec is None or isinstance(spec, Block):
        return Axis.DEPTH, "it sits on no seat"
    wishes = spec.wishes()
    if not wishes:
        return Axis.DEPTH, "it is taken out"
    on_mount = [each for each in wishes if each.sort is SeatSort.FANS]
    if not on_mount or name.endswith("/block"):
        return _TRAVEL.get(wishes[0].sort, (Axis.DEPTH, "its seat names no other"))
    seats = {
        each.seat.name: each.seat
        for each in offers(plan.entries, plan.case)
        if each.seat.sort is SeatSort.FANS
    }
    return _along_row(seats[on_mount[0].seats[0]])


def _along_row(seat: Seat) -> tuple[Axis, str]:
    along = seat.rows[0].along
    return along, f"the row of its mount runs along {along.value}"
