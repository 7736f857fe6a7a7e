"""Where else a part could go: its own description with another place in it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final, TypeAlias

from layout.geometry.space import Axis
from layout.parts.board.memory import Memory
from layout.parts.card.card import Card
from layout.parts.cooling.fan import Fan, MountSide
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.low_cooler import LowCooler
from layout.parts.cooling.on_socket import Blows
from layout.parts.cooling.radiator import PortEnd, Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.cooling.twin_tower import TwinTower
from layout.parts.drives.cage import Cage
from layout.parts.drives.drive import Drive
from layout.parts.form.form import BEHIND_TRAY, Seat, SeatSort
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Intake, Supply
from layout.parts.supply.supply_plate import face_screws
from layout.standards.figure import given

__all__ = ["TAKEN_OUT", "WANTED_SLOTS", "Offered", "Place", "places"]

TAKEN_OUT: Final = "taken out"
WANTED_SLOTS: Final = "slots that boards want"
"""The place of a cage that is not in the case."""

Place: TypeAlias = tuple[str, Spec | None]
"""A place's name, and the part described for it; None: taken out."""

Offered: TypeAlias = tuple[str, Seat]
"""A seat with the key of the part that offers it."""

_RAISED_MM: Final = range(0, 45, 5)
"""How far a cooler's front fan is tried higher."""
_OUTER: Final = " outer"


def places(
    spec: Spec, seats: Sequence[Offered], *, every_end: bool = False
) -> tuple[Place, ...]:
    """Return every place of a part among the seats offered, whether free or not.

    Parameters
    ----------
    spec : Spec
        The part as it is now.
    seats : sequence of (host, Seat)
        Every seat of the build.
    every_end : bool
        Whether a radiator whose tanks are alike is told both ways round as well: then
        its hoses alone are elsewhere.

    Returns
    -------
    tuple of (name, Spec or None)
        None for a cage that is taken out; empty for a part with one place alone.
    """
    return (*_in_case(spec, seats, every_end=every_end), *_on_parts(spec, seats))


def _in_case(
    spec: Spec, seats: Sequence[Offered], *, every_end: bool
) -> Iterator[Place]:
    """Yield the places of what sits in the case itself."""
    match spec:
        case Cage():
            rail = _of(seats, SeatSort.CAGE)
            yield from ((s.name, replace(spec, position=s.name)) for _, s in rail)
            yield TAKEN_OUT, None
        case Fan():
            yield from _fans(spec, seats)
        case Radiator():
            yield from _radiator(spec, seats, every_end=every_end)
        case LiquidCooler():
            every = _radiator(spec.radiator, seats, every_end=every_end)
            yield from ((name, replace(spec, radiator=each)) for name, each in every)
        case Supply():
            for intake in _turned(spec.intake, seats):
                yield f"intake {intake.value}", replace(spec, intake=intake)


def _on_parts(spec: Spec, seats: Sequence[Offered]) -> Iterator[Place]:
    """Yield the places of what sits on another part."""
    match spec:
        case Card():
            yield from _card(spec, seats)
        case Memory():
            yield from _memory(spec, seats)
        case Drive():
            yield from _drive(spec, seats)
        case TowerCooler() | TwinTower():
            yield from _raised(spec)
            if _turns(seats):
                yield from _blowing(spec)
        case LowCooler() if _differs(spec) and _turns(seats):
            yield "as it is", spec
            yield "turned by 90 degrees", _turned_low(spec)


def _turns(seats: Sequence[Offered]) -> bool:
    """Tell whether a cooler's kit lets it be turned by 90 degrees.

    On a square pattern it does, on an oblong one (AM5: 54 x 90) it does not; of a
    socket that no table holds nobody can say, and it is offered.
    """
    patterns = [each.screws for _, each in _of(seats, SeatSort.COOLER) if each.screws]
    wide = [
        tuple(
            max(hole.at_mm[axis] for hole in each.holes)
            - min(hole.at_mm[axis] for hole in each.holes)
            for axis in (0, 1)
        )
        for each in patterns
        if each.holes
    ]
    return all(abs(along - up) < _SQUARE_MM for along, up in wide)


_SQUARE_MM: Final = 0.1
"""Patterns whose sides differ by less are square; screws have more play."""


def _blowing(spec: TowerCooler | TwinTower) -> Iterator[Place]:
    """Yield a tower turned by 90 degrees either way, its fan where it is on it."""
    upright = spec.blows in {Blows.UP, Blows.DOWN}
    ways = (Blows.REAR, Blows.FRONT) if upright else (Blows.UP, Blows.DOWN)
    for way in ways:
        yield f"turned to blow {_WAYS[way]}", replace(spec, blows=way)


_WAYS: Final = {
    Blows.REAR: "to the rear",
    Blows.FRONT: "to the front",
    Blows.UP: "upwards",
    Blows.DOWN: "downwards",
}


def _differs(spec: LowCooler) -> bool:
    """Tell whether a low cooler turned by 90 degrees takes other room."""
    off_mm = [each.mm if each else 0.0 for each in (spec.forward, spec.upward)]
    return spec.width.mm != spec.depth.mm or any(off_mm)


def _turned_low(spec: LowCooler) -> LowCooler:
    """Return a low cooler turned by 90 degrees: what was forward is then upward."""
    back = spec.upward
    return replace(
        spec,
        width=spec.depth,
        depth=spec.width,
        upward=spec.forward,
        forward=replace(back, mm=-back.mm) if back else None,
    )


def _of(seats: Sequence[Offered], sort: SeatSort) -> list[Offered]:
    return [each for each in seats if each[1].sort is sort]


def _on_mounts(
    seats: Sequence[Offered], asked: tuple[int, int]
) -> Iterator[tuple[str, str, MountSide, int]]:
    """Yield name, mount, side and first place of every row that takes the fans."""
    size, count = asked
    for _, seat in _of(seats, SeatSort.FANS):
        mount = seat.name.removesuffix(_OUTER)
        side = MountSide.INNER if mount == seat.name else MountSide.OUTER
        for row in seat.rows:
            firsts = range(1, row.count - count + 2) if row.size_mm == size else ()
            for first in firsts:
                place = f", place {first}" if len(firsts) > 1 else ""
                yield f"{seat.name}{place}", mount, side, first


def _fans(spec: Fan, seats: Sequence[Offered]) -> Iterator[Place]:
    for name, mount, side, place in _on_mounts(seats, (spec.size, spec.count)):
        yield name, replace(spec, mount=mount, side=side, place=place)


def _radiator(
    spec: Radiator, seats: Sequence[Offered], *, every_end: bool
) -> Iterator[tuple[str, Radiator]]:
    """Yield a radiator's mounts, on each both ways round where that differs."""
    asked = (spec.usual.frame, spec.usual.fans)
    both = every_end or spec.port_tank is not None
    ends = tuple(PortEnd) if both else (spec.ports,)
    for name, mount, side, place in _on_mounts(seats, asked):
        for end in ends:
            way = f", ports {end.value}" if len(ends) > 1 else ""
            moved = replace(spec, mount=mount, side=side, place=place, ports=end)
            yield f"{name}{way}", moved


def _turned(intake: Intake | None, seats: Sequence[Offered]) -> tuple[Intake, ...]:
    """Return both ways in which a supply is turned over, then those of the bay's plate.

    A quarter turn needs a plate that is made for it, which the case must say.
    """
    bay = [seat for _, seat in _of(seats, SeatSort.SUPPLY)][:1]
    upright = any(each.turn.depth.axis is Axis.HEIGHT for each in bay)
    behind = any(each.face == BEHIND_TRAY for each in bay)
    usual = _BOTH_WAYS[1 if upright or behind else 0]
    over = next((pair for pair in _BOTH_WAYS if intake in pair), usual)
    others = (way for each in bay for way in Intake if _is_plate_for(way, each))
    return tuple(dict.fromkeys((*over, *others)))


def _is_plate_for(way: Intake, bay: Seat) -> bool:
    """Tell whether the case says that its bay's plate lets the fan look so."""
    plate = bay.screws
    if plate is None or not plate.given:
        return False
    looks = way.direction(behind=bay.face == BEHIND_TRAY)
    own = bay.turn.back.direction(looks)
    if own.axis is Axis.DEPTH:
        return False
    holes = face_screws(plate.name, [own], given=True).holes
    there = {each.at_mm for each in plate.holes}
    return bool(holes) and all(each.at_mm in there for each in holes)


_BOTH_WAYS: Final = (
    (Intake.DOWN, Intake.UP),
    (Intake.PANEL, Intake.TRAY),
    (Intake.REAR, Intake.FRONT),
)


def _card(spec: Card, seats: Sequence[Offered]) -> Iterator[Place]:
    """Yield the openings of the case that the board has slots for, and the risers."""
    counted = tuple(each for each in spec.measured_from if each[0] != "slot")
    for _, seat in _of(seats, SeatSort.SLOT):
        number = int(seat.name.removeprefix("slot "))
        slot = replace(spec, slot=number, riser=None, measured_from=counted)
        yield seat.name, slot
    for _, seat in _of(seats, SeatSort.RISER):
        yield f"riser {seat.name}", replace(spec, riser=seat.name)


def _memory(spec: Memory, seats: Sequence[Offered]) -> Iterator[Place]:
    slots = len(_of(seats, SeatSort.MEMORY))
    if spec.modules < slots:
        yield WANTED_SLOTS, replace(spec, slot=None)
    for first in range(1, slots - spec.modules + 2):
        named = ", ".join(str(first + n) for n in range(spec.modules))
        slot = "slot" if spec.modules == 1 else "slots"
        yield f"{slot} {named}", replace(spec, slot=first)


def _drive(spec: Drive, seats: Sequence[Offered]) -> Iterator[Place]:
    offered = _of(seats, SeatSort.DRIVE)
    names = [seat.name for _, seat in offered]
    for host, seat in offered:
        of = f" of {host}" if names.count(seat.name) > 1 else ""
        cage = None if host == "case" else host
        yield f"{seat.name}{of}", replace(spec, place=seat.name, cage=cage)


def _raised(spec: TowerCooler | TwinTower) -> Iterator[Place]:
    """Yield the heights of the front fan; without one there is nothing to raise."""
    if spec.fans < (1 if isinstance(spec, TowerCooler) else 2):
        return
    now_mm = spec.fan_raise.mm if spec.fan_raise else 0.0
    for raised_mm in sorted({now_mm, *map(float, _RAISED_MM)}):
        name = f"fan raised by {raised_mm:g} mm" if raised_mm else "fan at its lowest"
        yield name, replace(spec, fan_raise=given(raised_mm))
