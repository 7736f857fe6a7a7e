"""Random machines across all layouts, from a seed: such as go together.

Sizes are drawn so that every part finds its seat, and drawn again where two parts
that are not host and guest would be in one place.  What a guest does to its host is
for the tests to ask.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache
from random import Random
from typing import Final

from layout.build.assemble import Entry, assemble, grown
from layout.build.errors import SeatError
from layout.build.placed import Build, PlacedBody
from layout.geometry.bodies.crowd import Crowd
from layout.geometry.relations.query import clearances
from layout.parts.board.board import BoardShape
from layout.parts.case.case import Case
from layout.parts.case.case_bays import Bays
from layout.parts.case.case_fields import (
    CageRail,
    CutOut,
    DrivePlace,
    Face,
    Linings,
    Mount,
    Position,
    Shroud,
    ShroudCutOut,
    SidePanel,
    SupplyBay,
    Takes,
)
from layout.parts.case.case_panels import Opens
from layout.parts.case.case_riser import Riser, RiserLooks
from layout.parts.case.case_stands import ConnectorsAt, Stands
from layout.parts.case.case_supply import BayPlace, InletLooks
from layout.parts.form.errors import PartError
from layout.parts.form.form import Seat, SeatSort
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Intake, SupplyShape
from layout.questions.clearances.asked import pairs_of_parts
from tests.build.any_more import more_of
from tests.build.any_parts import Room, parts_for
from tests.build.machines import mm

__all__ = ["LAYOUTS", "Machine", "machine", "meeting"]

_MOST_TRIES: Final = 150
PLAIN: Final = 15
"""Seeds of machines whose files say no more than their layout asks for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Machine:
    """A case, what is in it, and the build they make.

    ``seats`` are all that are offered, by their part's key and their name; ``beyond``
    the bodies that enter one another more than their seats allow.
    """

    layout: str
    case: Case
    parts: dict[str, Spec]
    build: Build
    seats: dict[tuple[str, str], Seat]
    beyond: frozenset[tuple[str, str]]


@cache
def machine(layout: str, seed: int) -> Machine:
    """Return the machine of a layout and a seed."""
    for attempt in range(_MOST_TRIES):
        random = Random(f"{layout} {seed} {attempt}")  # noqa: S311  figures, not secrets
        try:
            case, room = LAYOUTS[layout](random)
            parts = parts_for(random, case, room)
            if seed >= PLAIN:
                case, parts = more_of(random, case, parts)
            build, seats = _assembled(case, parts)
        except (SeatError, PartError):
            continue
        beyond = frozenset(meeting(build))
        if all(at_a_seat(build, pair) for pair in beyond):
            return Machine(
                layout=layout,
                case=case,
                parts=parts,
                build=build,
                seats=seats,
                beyond=beyond,
            )
    raise AssertionError(f"no machine of layout {layout} for seed {seed}")


def meeting(build: Build) -> set[tuple[str, str]]:
    """Return the bodies that enter one another beyond what their seats allow."""
    bodies = build.bodies
    crowd = Crowd.of([each.body for each in bodies])
    stand = clearances(crowd, pairs_of_parts(build), limit_mm=0.0)
    return {
        (bodies[i].name, bodies[j].name)
        for i, j in stand.pairs[stand.interfering].tolist()
        if _beyond_seats(build, bodies[i], bodies[j])
    }


_WALLS: Final = {
    SeatSort.BOARD: {"case/tray"},
    SeatSort.SUPPLY: {"case/rear", "case/front", "case/floor", "case/top"},
    SeatSort.CAGE: {"case/floor", "case/tray"},
    SeatSort.DRIVE: {"case/tray"},
    SeatSort.SLOT: {"case/rear", "case/top"},
    SeatSort.RISER: {"case/rear"},
}
"""Walls at which a seat lies, or through which it lets its part reach."""


def at_a_seat(build: Build, pair: tuple[str, str]) -> bool:
    """Tell whether two bodies are a guest and its host, a case its wall at the seat."""
    parts = {name.split("/")[0]: name for name in pair}
    for fixing in build.fixings:
        if fixing.part not in parts:
            continue
        wall = parts.get("case", "")
        if fixing.sort is SeatSort.FANS and wall == f"case/{fixing.seat.split()[0]}":
            return True
        if wall in _WALLS.get(fixing.sort, set()):
            return True
        if fixing.host in parts and fixing.host != "case":
            return True
    return False


def _beyond_seats(build: Build, a: PlacedBody, b: PlacedBody) -> bool:
    """Tell whether two bodies share more than the volumes their seats state."""
    boxes = [
        mate.box
        for mate in build.mates
        for guest, host in ((a, b), (b, a))
        if mate.guest == guest.part and mate.role is host.role
    ]
    if not boxes:
        return True
    rest = a.body.outside(boxes)
    if rest is None:
        return False
    return bool(clearances([rest, b.body]).interfering.any())


_Seats = dict[tuple[str, str], Seat]


def _assembled(case: Case, parts: dict[str, Spec]) -> tuple[Build, _Seats]:
    entries = tuple(Entry(key=key, spec=spec) for key, spec in parts.items())
    tree = grown(entries, case)
    build = assemble(name="machine", entries=entries, case=case, tree=tree)
    return build, {(e.host, e.seat.name): e.seat for e in tree.seats.offers}


_Laid = tuple[Case, Room]


def _mm(random: Random, low: float, high: float) -> float:
    return round(random.uniform(low, high), 1)


_TANK_MM: Final = 32.0
"""Room at both ends of a row, so that most radiators end on their face."""


def _row(random: Random, size: int, free_mm: float, *, most: int = 3) -> Takes:
    """Return a row of as many fans as a face has room for, somewhere on it."""
    count = max(1, min(most, int((free_mm - 2 * _TANK_MM) // size)))
    spare_mm = max(0.0, free_mm - count * size)
    tank_mm = min(_TANK_MM, spare_mm / 2)
    start_mm = _mm(random, tank_mm, spare_mm - tank_mm)
    return Takes(size=size, count=count, start=mm(start_mm))


def _takes(random: Random, face: Face, *, size: int, free_mm: float) -> Takes:
    """Return a row for a face: at the rear close under the top, at a side in front."""
    if face is Face.REAR:
        return Takes(size=size, start=mm(free_mm - size - 5))
    if face in {Face.TRAY_SIDE, Face.PANEL_SIDE, Face.BACK_PANEL}:
        return Takes(
            size=size, start=mm(_mm(random, free_mm - size - 30, free_mm - size))
        )
    return _row(random, size, free_mm)


def _mounts(
    random: Random, size_mm: tuple[float, float, float], *faces: Face
) -> tuple[tuple[str, Mount], ...]:
    """Return a mount on each face, some with an outer side."""
    out = []
    for face in faces:
        free_mm = size_mm[face.along.index]
        wide = face is not Face.REAR
        size = random.choice([80, 92, 120, 140] if wide else [80, 92])
        if min(free_mm, size_mm[face.across.index]) < size + 2:
            continue
        half_mm, wide_mm = size / 2 + 1, size_mm[face.across.index]
        near_mm = half_mm if face is Face.FRONT else wide_mm - half_mm - 10
        across_mm = _mm(random, max(half_mm, near_mm), wide_mm - half_mm)
        outside = face in {Face.FRONT, Face.TOP} and random.random() < 0.5
        rear = face is Face.REAR
        mount = Mount(
            takes=(_takes(random, face, size=size, free_mm=free_mm),),
            from_tray=None if rear else mm(across_mm),
            outside=mm(_mm(random, 28, 60)) if outside else None,
        )
        out.append((face.value, mount))
    return tuple(out)


def _tower(random: Random) -> _Laid:
    """Return the usual tower, its shroud whole, half, opened or missing."""
    size = _mm(random, 380, 480), _mm(random, 430, 520), _mm(random, 170, 220)
    height_mm = _mm(random, 95, 115)
    end_mm = _mm(random, size[0] - 120, size[0] - 70)
    shrouds: list[Shroud | None] = [
        None,
        Shroud(height=mm(height_mm), to_depth=mm(end_mm)),
        Shroud(height=mm(height_mm), to_depth=mm(end_mm - 80), vented=True),
        Shroud(height=mm(height_mm), cut_out=ShroudCutOut(from_depth=mm(end_mm - 60))),
    ]
    shroud = random.choice(shrouds)
    roof = random.choice([Face.TOP, Face.TOP, Face.PANEL_SIDE])
    rail = CageRail(
        positions=(
            ("back", Position(from_rear=mm(_mm(random, 205, 230)))),
            ("fore", Position(from_rear=mm(_mm(random, 235, size[0] - 110)))),
        )
    )
    case = Case(
        depth=mm(size[0]),
        height=mm(size[1]),
        width=mm(size[2]),
        behind_tray=mm(_mm(random, 15, 35)),
        side_panel=SidePanel(
            thickness=mm(_mm(random, 0.8, 4)),
            lining=random.choice([None, mm(3)]),
            opens=random.choice(list(Opens)),
        ),
        lining=_linings(random),
        bays=_bays(random, size),
        room_over_board=mm(_mm(random, 8, size[1] - 305 - 118)),
        shroud=shroud,
        cage_rail=random.choice([None, rail, rail]),
        mounts=(
            *_mounts(random, size, Face.FRONT, Face.REAR, roof),
            *(_on_shroud(random, size) if shroud else ()),
        ),
        supply_bay=SupplyBay(from_tray=mm(_mm(random, 2, 15))),
        drive_places=(
            (
                "flat",
                DrivePlace(
                    from_rear=mm(_mm(random, 220, 300)),
                    from_floor=mm(_mm(random, 60, 300)),
                ),
            ),
        ),
        cut_outs=(
            (
                "socket",
                CutOut(
                    from_rear=mm(50),
                    from_floor=mm(180),
                    depth=mm(120),
                    height=mm(120),
                    cables=False,
                ),
            ),
        ),
    )
    return case, Room(cooler_mm=size[2] - 30, card_mm=size[0] - 60)


def _linings(random: Random) -> Linings:
    """Return felt on some of the walls."""
    front, top, back = (
        mm(_mm(random, 2, 5)) if random.random() < 0.3 else None for _ in range(3)
    )
    return Linings(front=front, top=top, back_panel=back)


def _bays(random: Random, size_mm: tuple[float, float, float]) -> Bays | None:
    """Return bays under the top, in some cases."""
    if random.random() < 0.6:
        return None
    count = random.randint(1, 2)
    high_mm = size_mm[1] - 43 * count
    return Bays(
        count=count,
        from_floor=mm(_mm(random, high_mm - 20, high_mm)),
        from_tray=mm(_mm(random, 2, size_mm[2] - 150)),
    )


def _on_shroud(
    random: Random, size_mm: tuple[float, float, float]
) -> tuple[tuple[str, Mount], ...]:
    """Return a mount for one fan on the shroud, in some cases."""
    if random.random() < 0.6:
        return ()
    start_mm = _mm(random, 5, size_mm[0] - 260)
    takes = (Takes(size=120, start=mm(start_mm)),)
    return (("shroud", Mount(takes=takes, from_tray=mm(size_mm[2] - 65))),)


def _over(random: Random) -> _Laid:
    """Return a tower turned over, its supply under its top or on its floor."""
    case, room = _tower(random)
    place = random.choice([BayPlace.TOP_REAR, BayPlace.FLOOR_REAR])
    case = replace(
        case,
        stands=Stands.TURNED_OVER,
        shroud=None,
        cage_rail=None,
        supply_bay=SupplyBay(place=place, from_tray=mm(_mm(random, 2, 15))),
        room_over_board=mm(95 if place is BayPlace.TOP_REAR else 20),
        mounts=tuple(each for each in case.mounts if each[0] == "front"),
        lining=replace(case.lining, shroud=None),
    )
    return case, room


def _chimney(random: Random) -> _Laid:
    """Return a case whose board is turned a quarter."""
    size = _mm(random, 340, 420), _mm(random, 400, 520), _mm(random, 170, 210)
    case = Case(
        connectors=ConnectorsAt.TOP,
        depth=mm(size[0]),
        height=mm(size[1]),
        width=mm(size[2]),
        behind_tray=mm(_mm(random, 75, 110)),
        room_over_board=mm(_mm(random, 2, size[0] - 306)),
        mounts=_mounts(random, size, Face.FLOOR, Face.FRONT, Face.REAR),
        supply_bay=SupplyBay(
            place=BayPlace.BEHIND_TRAY,
            form=SupplyShape.SFX,
            inlet=random.choice([InletLooks.REAR, InletLooks.DOWN, InletLooks.UP]),
            from_rear=mm(_mm(random, 10, 80)),
            from_floor=mm(_mm(random, 130, 180)),
            from_tray=mm(_mm(random, 0, 5)),
        ),
    )
    return case, Room(cooler_mm=size[2] - 30, card_mm=size[1] - 60, supply="SFX")


def _cube(random: Random) -> _Laid:
    """Return two chambers side by side."""
    size = _mm(random, 360, 440), _mm(random, 360, 420), _mm(random, 170, 220)
    case = Case(
        depth=mm(size[0]),
        height=mm(size[1]),
        width=mm(size[2]),
        behind_tray=mm(_mm(random, 96, 130)),
        room_over_board=mm(_mm(random, 20, 45)),
        mounts=_mounts(
            random,
            size,
            Face.FLOOR,
            Face.TOP,
            Face.TRAY_SIDE,
            Face.REAR,
            Face.FRONT,
            Face.BACK_PANEL,
        ),
        supply_bay=SupplyBay(
            place=BayPlace.BEHIND_TRAY,
            inlet=random.choice([InletLooks.REAR, InletLooks.FRONT]),
            from_floor=mm(_mm(random, 0, 40)),
            from_tray=mm(_mm(random, 0, 8)),
        ),
        drive_places=(
            ("high", DrivePlace(from_rear=mm(100), from_floor=mm(size[1] - 80))),
        ),
    )
    return case, Room(cooler_mm=size[2] - 30, card_mm=size[0] - 40)


def _sandwich(random: Random) -> _Laid:
    """Return a small case: supply in front, card behind the tray on a riser."""
    size = _mm(random, 320, 350), _mm(random, 190, 220), _mm(random, 70, 90)
    inlet = random.choice([InletLooks.DOWN, InletLooks.UP])
    case = Case(
        depth=mm(size[0]),
        height=mm(size[1]),
        width=mm(size[2]),
        behind_tray=mm(_mm(random, 72, 85)),
        first_slot=mm(_mm(random, 12, 22)),
        slots=0,
        mounts=_mounts(random, size, Face.TOP),
        supply_bay=SupplyBay(
            place=BayPlace.FRONT,
            form=SupplyShape.SFX,
            inlet=inlet,
            from_rear=mm(_mm(random, 178, size[0] - 127)),
            from_floor=mm(20 if inlet is InletLooks.DOWN else size[1] - 20),
            from_tray=mm(_mm(random, 2, 5)),
        ),
        risers=(
            (
                "spine",
                Riser(
                    looks=RiserLooks.BACK_PANEL,
                    from_panel=mm(_mm(random, 55, 58)),
                    from_floor=mm(size[1] - 25),
                ),
            ),
        ),
    )
    room = Room(
        cooler_mm=size[2] - 20,
        card_mm=size[0] - 20,
        board=BoardShape.MINI_ITX,
        supply="SFX",
        riser="spine",
        card_height_mm=130.0,
    )
    return case, room


def _flat(random: Random) -> _Laid:
    """Return a case that lies flat, for low cards."""
    size = _mm(random, 340, 400), _mm(random, 390, 430), _mm(random, 85, 110)
    case = Case(
        stands=Stands.LYING,
        depth=mm(size[0]),
        height=mm(size[1]),
        width=mm(size[2]),
        behind_tray=mm(_mm(random, 10, 20)),
        room_over_board=mm(_mm(random, 5, 15)),
        slots=4,
        mounts=_mounts(random, size, Face.FRONT),
        supply_bay=SupplyBay(form=SupplyShape.SFX, from_tray=mm(4), vented=False),
    )
    room = Room(
        cooler_mm=size[2] - 20,
        card_mm=180,
        intake=Intake.PANEL,
        board=BoardShape.MICRO_ATX,
        supply="SFX",
        card_height_mm=68.0,
    )
    return case, room


def _window(random: Random) -> _Laid:
    """Return a wide tower whose card stands upright before the panel."""
    case, room = _tower(random)
    width_mm = _mm(random, 215, 240)
    end_mm = case.depth.mm - 70 if case.depth else None
    shroud = Shroud(height=mm(100), to_depth=mm(end_mm)) if end_mm else None
    case = replace(
        case,
        width=mm(width_mm),
        shroud=shroud,
        cage_rail=None,
        risers=(
            (
                "upright",
                Riser(
                    looks=RiserLooks.PANEL,
                    from_panel=mm(_mm(random, 62, 75)),
                    from_floor=mm(_mm(random, 122, 140)),
                    slots=3,
                ),
            ),
        ),
    )
    return case, replace(room, riser="upright", cooler_mm=80.0)


LAYOUTS: Final[dict[str, Callable[[Random], _Laid]]] = {
    "tower": _tower,
    "turned over": _over,
    "board turned a quarter": _chimney,
    "two chambers": _cube,
    "sandwich": _sandwich,
    "flat": _flat,
    "card upright": _window,
}
