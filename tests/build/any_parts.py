"""Random parts for a case: such as fit its seats, the rest left to chance."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from layout.parts.board.board import Board, BoardShape
from layout.parts.board.board_m2 import BoardSide, M2Place
from layout.parts.board.board_plan import Heatsinks
from layout.parts.board.m2_drive import M2Drive
from layout.parts.board.memory import Memory
from layout.parts.board.memory_slot import MemoryLooks, MemorySize
from layout.parts.card.card import Card, PlugAt
from layout.parts.card.card_support import CardSupport, SupportShape
from layout.parts.case.case import Case
from layout.parts.case.case_fields import Mount
from layout.parts.cooling.fan import Fan, MountSide
from layout.parts.cooling.liquid_cooler import HosesLook, LiquidCooler
from layout.parts.cooling.low_cooler import LowCooler
from layout.parts.cooling.on_socket import Blows
from layout.parts.cooling.radiator import FanPlaces, PortEnd, Radiator
from layout.parts.cooling.tower_cooler import FirstFan, TowerCooler
from layout.parts.cooling.twin_tower import TwinTower
from layout.parts.drives.cage import Cage
from layout.parts.drives.drive import Drive, DriveShape
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Cables, Intake, Supply, SupplyShape
from layout.parts.wiring.hoses import PortsLook
from layout.standards.processors import SOCKETS
from layout.standards.radiators import CLASSES
from tests.build.machines import mm

__all__ = ["Room", "parts_for"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What a layout leaves to its parts."""

    cooler_mm: float
    card_mm: float
    board: BoardShape | None = None
    supply: str = "ATX"
    intake: Intake | None = None
    riser: str | None = None
    card_height_mm: float = 150.0


def parts_for(random: Random, case: Case, room: Room) -> dict[str, Spec]:
    """Return parts with their keys."""
    wet = _radiator_mounts(case)
    board = _board(random, room)
    parts: dict[str, Spec] = {
        "board": board,
        "memory": _memory(random, board),
        "supply": _supply(random, room),
    }
    if room.cooler_mm < 70:
        parts["cooler"] = _low(random, room)
    elif wet and random.random() < 0.4:
        parts["cooler"] = _liquid(random, wet)
    else:
        parts["cooler"] = _tower(random, room)
    if random.random() < 0.8:
        parts["card"] = _card(random, room)
        if room.riser is None and random.random() < 0.4:
            parts["support"] = CardSupport(shape=random.choice(list(SupportShape)))
    parts |= _storage(random, case)
    if random.random() < 0.5:
        parts["stick"] = M2Drive(
            length=random.choice([60, 80]), height=mm(_mm(random, 3, 5.5))
        )
    return parts | _fans(random, case, taken=_taken(parts["cooler"]))


def _mm(random: Random, low: float, high: float) -> float:
    return round(random.uniform(low, max(low, high)), 1)


def _board(random: Random, room: Room) -> Board:
    shapes = [BoardShape.ATX, BoardShape.MICRO_ATX, BoardShape.MINI_ITX]
    small = random.random() < 0.3
    size = MemorySize.LAPTOP if small else MemorySize.FULL
    return Board(
        form=room.board or random.choice(shapes),
        socket=random.choice(sorted(SOCKETS)),
        heatsinks=random.choice(list(Heatsinks)),
        heatsink_height=mm(_mm(random, 8, 20)),
        power_plugs=random.randint(0, 2),
        memory_size=size,
        memory_looks=random.choice(_LOOKS) if small else MemoryLooks.PANEL,
        rear_cover=random.choice([None, None, mm(_mm(random, 46, 50))]),
        m2_places=(("under", _UNDER),) if random.random() < 0.3 else (),
    )


_LOOKS = (MemoryLooks.PANEL, MemoryLooks.FRONT)
"""Modules that look elsewhere ask for a board with room there."""
_UNDER = M2Place(from_rear=mm(30), from_top=mm(110), side=BoardSide.BEHIND)
"""Behind the board, where no standoff is."""


def _memory(random: Random, board: Board) -> Memory:
    """Return modules such as the board's slots take."""
    small = board.form is BoardShape.MINI_ITX
    lying = board.memory_looks.lies
    counts = [1, 2, 2] if small or lying else [1, 2, 2, 4]
    modules = random.choice(counts)
    if board.memory_size is MemorySize.LAPTOP:
        return Memory(size=MemorySize.LAPTOP, modules=modules)
    return Memory(modules=modules, height=mm(_mm(random, 30, 44)))


def _supply(random: Random, room: Room) -> Supply:
    form = SupplyShape(room.supply)
    return Supply(
        form=form,
        intake=room.intake,
        length=mm(_mm(random, 130, 180)) if form is SupplyShape.ATX else None,
        cables=random.choice(list(Cables)),
        cable_depth=mm(_mm(random, 10, 30)),
    )


def _low(random: Random, room: Room) -> Spec:
    edge_mm = _mm(random, 70, 95)
    return LowCooler(
        height=mm(_mm(random, 35, room.cooler_mm - 12)),
        width=mm(edge_mm),
        depth=mm(edge_mm),
        fan_size=random.choice([80, 92]),
        fan_thickness=mm(15),
    )


def _tower(random: Random, room: Room) -> Spec:
    height_mm = _mm(random, 125, room.cooler_mm)
    if room.cooler_mm < 130:
        return _low(random, room)
    if random.random() < 0.3:
        return TwinTower(
            height=mm(height_mm),
            width=mm(_mm(random, 100, 140)),
            depth=mm(_mm(random, 90, 115)),
            room_over_memory=mm(_mm(random, 46, 50)),
            fans=random.randint(1, 2),
            fan_size=random.choice([92, 120]),
            forward=mm(_mm(random, -6, 6)),
            back_plate=random.choice([None, mm(4)]),
        )
    return TowerCooler(
        height=mm(height_mm),
        width=mm(_mm(random, 80, 130)),
        depth=mm(_mm(random, 40, 70)),
        room_over_memory=mm(_mm(random, 46, 50)),
        fans=random.randint(0, 2),
        fan_size=random.choice([92, 120]),
        first_fan=random.choice(list(FirstFan)),
        forward=mm(_mm(random, -8, 8)),
        upward=mm(_mm(random, -6, 6)),
        blows=random.choice([Blows.REAR, Blows.REAR, Blows.UP, Blows.FRONT]),
        pipes_depth=random.choice([None, mm(60)]),
        back_plate=random.choice([None, mm(4)]),
    )


def _liquid(random: Random, mounts: list[tuple[str, Mount]]) -> Spec:
    name, mount = random.choice(mounts)
    row = mount.takes[0]
    count = random.randint(1, row.count)
    side = MountSide.OUTER if mount.outside and random.random() < 0.4 else None
    return LiquidCooler(
        block_height=mm(_mm(random, 35, 60)),
        hoses_look=random.choice(list(HosesLook)),
        radiator=Radiator(
            size=row.size * count,
            mount=name,
            side=side or MountSide.INNER,
            place=random.randint(1, row.count - count + 1),
            thickness=mm(_mm(random, 25, 40)),
            fans=random.choice([FanPlaces.INNER, FanPlaces.OUTER, FanPlaces.NONE]),
            ports=random.choice(list(PortEnd)),
            ports_look=random.choice(list(PortsLook)),
            off_middle=random.choice([None, mm(_mm(random, -1, 1))]),
        ),
    )


def _radiator_mounts(case: Case) -> list[tuple[str, Mount]]:
    return [
        (name, mount) for name, mount in case.mounts if mount.takes[0].size in CLASSES
    ]


def _taken(cooler: Spec) -> str:
    return cooler.radiator.mount if isinstance(cooler, LiquidCooler) else ""


def _card(random: Random, room: Room) -> Card:
    length_mm = _mm(random, 150, room.card_mm)
    plugs = [PlugAt.NONE, PlugAt.TOP_EDGE, PlugAt.FAR_END]
    height_mm = _mm(random, 60, min(room.card_height_mm, 118))
    low = height_mm <= 68.9
    return Card(
        length=mm(length_mm),
        height=mm(height_mm),
        slots=random.randint(1, 2),
        riser=room.riser,
        plug=PlugAt.NONE if low else random.choice(plugs),
        back_plate=random.choice([None, mm(_mm(random, 1, 4))]),
    )


def _storage(random: Random, case: Case) -> dict[str, Spec]:
    parts: dict[str, Spec] = {}
    if case.cage_rail is not None:
        position = random.choice([name for name, _ in case.cage_rail.positions])
        parts["cage"] = Cage(
            position=position,
            places=random.randint(1, 3),
            on_edge=random.random() < 0.5,
            turned=random.random() < 0.5,
        )
        parts["disk"] = Drive(height=mm(_mm(random, 15, 26)))
    if case.bays is not None:
        parts["bay drive"] = Drive(size=DriveShape.BAY)
    if case.drive_places:
        name, _ = case.drive_places[0]
        parts["flat drive"] = Drive(size=DriveShape.SMALL, height=mm(7), place=name)
    return parts


def _fans(random: Random, case: Case, *, taken: str) -> dict[str, Spec]:
    parts: dict[str, Spec] = {}
    for name, mount in case.mounts:
        if name == taken or random.random() < 0.3:
            continue
        row = mount.takes[0]
        count = random.randint(1, row.count)
        outer = mount.outside is not None and random.random() < 0.5
        parts[f"{name} fans"] = Fan(
            size=row.size,
            count=count,
            mount=name,
            place=random.randint(1, row.count - count + 1),
            side=MountSide.OUTER if outer else MountSide.INNER,
            thickness=mm(random.choice([15, 25])),
        )
    return parts
