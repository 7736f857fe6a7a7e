"""What a random machine's files may also say, beyond what its layout asks for.

Each field is told now and then, about as large as it usually is, so that a machine
goes together as often as it would without.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from random import Random
from typing import Any, Final, TypeVar

from layout.parts.board.board import Board, BoardShape
from layout.parts.board.board_headers import HeaderPlace
from layout.parts.board.board_plan import CardSlot, Heatsinks
from layout.parts.board.board_usual import FIRST_SLOT
from layout.parts.board.m2_drive import M2Drive
from layout.parts.board.memory import Memory
from layout.parts.board.memory_slot import MemoryLooks, MemorySize
from layout.parts.board.standoffs import Standoffs
from layout.parts.card.card import Card, PlugAt
from layout.parts.card.card_headers import CardHeader
from layout.parts.card.card_sheet import BracketShape
from layout.parts.card.card_support import CardSupport
from layout.parts.case.case import Case
from layout.parts.case.case_fields import (
    CageRail,
    CutOut,
    Face,
    LimitWith,
    Material,
    Mount,
    Rows,
    Shroud,
    ShroudCutOut,
    SidePanel,
    SupplyBay,
)
from layout.parts.case.case_stands import ConnectorsAt
from layout.parts.cooling.fan import Fan
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.low_cooler import LowCooler
from layout.parts.cooling.on_socket import Blows
from layout.parts.cooling.radiator import Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.cooling.twin_tower import TwinTower
from layout.parts.drives.cage import Cage
from layout.parts.drives.drive import Drive, DriveShape
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import PlugShape
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Supply, SupplyShape
from layout.parts.wiring.adapter import Adapter, AdapterLooks, BoardAdapter
from layout.standards import radiators
from layout.standards.figure import Figure
from tests.build.machines import mm

__all__ = ["UNTOLD", "more_of"]

_OFTEN: Final = 0.2
_SIDES: Final = {Face.TRAY_SIDE, Face.PANEL_SIDE, Face.BACK_PANEL}

_Of = TypeVar("_Of")


def more_of(
    random: Random, case: Case, parts: Mapping[str, Spec]
) -> tuple[Case, dict[str, Spec]]:
    """Return a machine of which more is told."""
    told = {key: _told(random, _ready(random, spec)) for key, spec in parts.items()}
    memory, board, cooler = told["memory"], told["board"], told["cooler"]
    if isinstance(memory, Memory) and isinstance(board, Board):
        if "rear fans" in parts:
            board = replace(board, rear_cover=None)  # they would seldom pass it
        told["board"] = _board_for(random, board, memory)
    if isinstance(cooler, TowerCooler | TwinTower | LiquidCooler) and "stick" in parts:
        told["cooler"] = replace(cooler, back_plate=None)  # it may lie behind the board
    return _case(random, case), told


def _ready(random: Random, spec: Spec) -> Spec:
    """Return a part that says what more can be said of."""
    if isinstance(spec, Card) and random.random() < _OFTEN:
        return replace(spec, headers=(("4-pin fan", 1),))
    if isinstance(spec, LowCooler) and random.random() < _OFTEN:
        return replace(spec, room_over_memory=_near(random, 10, 16))
    if isinstance(spec, LiquidCooler):
        plate = random.choice([None, mm(4)])
        radiator = _told(random, spec.radiator)
        return replace(spec, radiator=radiator, back_plate=plate)
    return spec


def _told(random: Random, spec: _Of) -> _Of:
    ways: Callable[[Random, Any], dict[str, object]] | None = _WAYS.get(type(spec))
    if ways is None:
        return spec
    often = _RARE.get(type(spec), _OFTEN)
    every = ways(random, spec)
    told = {name for name in every if random.random() < often} | _ALWAYS
    some = {name: every[name] for name in every if name in told}
    return replace(spec, **some)  # type: ignore[type-var]  # specs are dataclasses


def _near(random: Random, low: float, high: float) -> Figure:
    return mm(round(random.uniform(low, high), 1))


def _plate(random: Random, board: Board) -> dict[str, object]:
    """Return what a board's file may say of any form."""
    return {
        "thickness": _near(random, 1.5, 2.4),
        "stack": _near(random, 6, 9),
        "socket_from_rear": _near(random, 92, 108),
        "socket_from_top": _near(random, 68, 82),
        "heatsink_from_socket": _near(random, 46, 52),
        "chipset_height": _near(random, 4, 12),
        "rear_connector_depth": _near(random, 26, 33),
        "rear_connector_height": _near(random, 30, 40),
        "headers": (("4-pin fan", 5), ("19-pin USB", 1)),
        "angled_plugs": ("24-pin",),
        "memory_from_top": _near(random, 73, 85),
        "m2_places": tuple(
            (name, replace(place, from_rear=_near(random, 28, 32), from_top=mm(111)))
            for name, place in board.m2_places
        ),
    }


def _board_for(random: Random, spec: Board, memory: Memory) -> Board:
    """Return a board of which more is told that its form or its memory decides."""
    if spec.form is BoardShape.MINI_ITX:
        return spec
    place = HeaderPlace(
        kind=ConnectorKind.AUDIO,
        from_rear=mm(random.randint(20, 60)),
        from_top=_near(random, 236, 239),
    )
    lies = spec.memory_looks.lies
    some: dict[str, object] = {
        "depth": _near(random, 238, 244),
        "height": _near(random, 240, 244)
        if spec.form is BoardShape.MICRO_ATX
        else None,
        "card_slots": (CardSlot(opening=1), CardSlot(opening=4, lanes=4)),
        "header_places": (place,),
        "lying_sockets": () if spec.angled_plugs else ("24-pin",),
        "adapters": _adapters(random, spec),
        "holes": ("C", "F", "H", "J"),
        "memory_slots": 2 if memory.modules < 3 else 4,
        "memory_pitch": None if lies else _near(random, 9, 10.5),
        "first_memory_slot": spec.first_memory_slot if lies else _near(random, 58, 65),
    }
    told = {k: v for k, v in some.items() if random.random() < _OFTEN}
    if told.get("lying_sockets"):
        told.pop("adapters", None)
    if spec.memory_size is MemorySize.LAPTOP and random.random() < 2 * _OFTEN:
        told |= _lying(random)
    return replace(spec, **told)  # type: ignore[arg-type]  # by name


def _adapters(random: Random, spec: Board) -> tuple[BoardAdapter, ...]:
    if spec.angled_plugs:
        return ()
    adapter = BoardAdapter(
        kind=ConnectorKind.MAIN, looks=AdapterLooks.FRONT, **_of_adapter(random)
    )
    return (adapter,)


def _of_adapter(random: Random) -> dict[str, Figure]:
    return {"height": _near(random, 20, 25), "length": _near(random, 12, 16)}


def _lying(random: Random) -> dict[str, object]:
    """Return a board whose modules lie anywhere round its socket."""
    looks = random.choice([MemoryLooks.REAR, MemoryLooks.UP, MemoryLooks.DOWN])
    level = looks is MemoryLooks.REAR
    return {
        "memory_looks": looks,
        "memory_pitch": None,
        "first_memory_slot": FIRST_SLOT,
        "memory_from_top": None,
        "memory_from_rear": None if level else mm(random.randint(80, 110)),
        "heatsinks": Heatsinks.NONE,
        "socket_from_rear": None,
        "socket_from_top": None,
        "rear_cover": None,
        "memory_slots": 2,
    }


def _cage(random: Random, cage: Cage) -> dict[str, object]:
    deep_mm, high_mm = cage.outer_depth.mm, cage.outer_height.mm
    return {
        "depth": _near(random, deep_mm, deep_mm + 6),
        "height": _near(random, high_mm, high_mm + 6),
        "width": _near(random, 150, 158),
        "small_drives": True,
    }


def _card(random: Random, card: Card) -> dict[str, object]:
    thick_mm = 20.32 * card.slots - 2
    top = card.plug is PlugAt.TOP_EDGE
    at_mm = round(card.length.mm / 2)
    shape = PlugShape.ANGLED if at_mm > 90 else PlugShape.STRAIGHT
    fan = CardHeader(
        kind=ConnectorKind.FAN_4,
        at=mm(at_mm),
        plug_shape=shape,
        plug_reach=mm(8 + at_mm % 7),
    )
    return {
        "thickness": _near(random, thick_mm - 6, thick_mm),
        "fans": random.random() < 0.5,
        "plug_from_bracket": _near(random, 80, card.length.mm - 20) if top else None,
        "plug_from_fingers": _near(random, 20, card.height.mm - 20),
        "plug_kind": ConnectorKind.CARD_16,
        "plug_shape": PlugShape.ANGLED,
        "adapter": Adapter(looks=AdapterLooks.DOWN, **_of_adapter(random))
        if top
        else None,
        "plug_reach": _near(random, 8, 20),
        "plug_width": _near(random, 18, 24),
        "plug_thickness": _near(random, 10, 13),
        "bracket": BracketShape.LOW if card.height.mm < 68 else BracketShape.FULL,
        "header_places": (fan,) if card.headers else (),
    }


def _support(random: Random, support: CardSupport) -> dict[str, object]:
    del support
    return {
        "from_end": _near(random, 15, 40),
        "width": _near(random, 12, 25),
        "thickness": _near(random, 5, 12),
    }


def _drive(random: Random, drive: Drive) -> dict[str, object]:
    bay = drive.size is DriveShape.BAY
    return {
        "height": _near(random, 38, 42) if bay else drive.height,
        "plug": PlugShape.ANGLED,
    }


def _fan(random: Random, fan: Fan) -> dict[str, object]:
    return {"thickness": _near(random, 14, 28), "count": random.randint(1, fan.count)}


def _liquid(random: Random, cooler: LiquidCooler) -> dict[str, object]:
    del cooler
    return {
        "block_width": _near(random, 60, 80),
        "hose_length": _near(random, 350, 500),
    }


def _radiator(random: Random, radiator: Radiator) -> dict[str, object]:
    usual = radiators.CLASSES[radiator.size]
    long_mm = usual.length.mm + random.randint(-4, 4)
    frame_mm = 120 if radiator.size % 120 == 0 else 140
    return {
        "length": mm(long_mm),
        "width": _near(random, usual.width.mm - 2, usual.width.mm + 2),
        "port_tank": _near(random, 14, 22),
        "hose_diameter": _near(random, 10, 14),
        "hose_bend": _near(random, 30, 50),
        "fan_thickness": _near(random, 15, 28),
        "fan_pitch": _near(random, frame_mm, frame_mm + 1),
    }


def _low(random: Random, cooler: LowCooler) -> dict[str, object]:
    return {
        "fins_from": _near(random, 12, cooler.height.mm - 18)
        if cooler.room_over_memory is None
        else None,
        "fan_thickness": _near(random, 12, 15),
        "forward": _near(random, -5, 5),
        "upward": _near(random, -5, 5),
        "back_plate": mm(3),
    }


def _tower(random: Random, cooler: TowerCooler | TwinTower) -> dict[str, object]:
    fans = cooler.fans > 0
    own: dict[str, object] = {"blows": random.choice([Blows.REAR, Blows.FRONT])}
    if isinstance(cooler, TowerCooler):
        own = {"undercut": _near(random, 5, cooler.depth.mm / 2)}
    return own | {
        "fins_from": _near(random, 30, 45),
        "fan_thickness": _near(random, 15, 27) if fans else None,
        "fan_raise": _near(random, 1, 8) if fans else None,
        "upward": _near(random, -6, 6),
        "pipes_depth": _near(random, 50, 65),
        "pipes_from": _near(random, 12, 20),
    }


def _memory(random: Random, memory: Memory) -> dict[str, object]:
    full = memory.size is MemorySize.FULL
    return {
        "thickness": _near(random, 4, 8) if full else mm(3.8),
        "slot": 2 if memory.modules == 1 else 1,
    }


def _stick(random: Random, stick: M2Drive) -> dict[str, object]:
    del stick
    return {"width": _near(random, 22, 25)}


def _supply(random: Random, supply: Supply) -> dict[str, object]:
    atx = supply.form is SupplyShape.ATX
    return {
        "width": _near(random, 148, 150) if atx else None,
        "height": _near(random, 84, 86) if atx else None,
    }


_WAYS: Final[Mapping[type, Callable[[Random, Any], dict[str, object]]]] = {
    Board: _plate,
    Cage: _cage,
    Card: _card,
    CardSupport: _support,
    Drive: _drive,
    Fan: _fan,
    LiquidCooler: _liquid,
    LowCooler: _low,
    M2Drive: _stick,
    Memory: _memory,
    Radiator: _radiator,
    Supply: _supply,
    TowerCooler: _tower,
    TwinTower: _tower,
}


_RARE: Final[Mapping[type, float]] = {
    Cage: 0.4,
    LiquidCooler: 0.5,
    Radiator: 0.4,
    TwinTower: 0.4,
}
"""Parts that few machines have are told more of: no field hangs on one machine."""
_ALWAYS: Final = frozenset({"header_places"})
"""What only parts can tell that say something else first."""


def _case(random: Random, case: Case) -> Case:
    depth_mm = case.depth.mm if case.depth else 0.0
    some: dict[str, object] = {
        "tray_thickness": _near(random, 0.6, 1.5),
        "wall_thickness": _near(random, 0.6, 3),
        "standoff": _near(random, 5, 9),
        "tray_to_depth": mm(depth_mm - random.randint(0, 40)),
        "side_panel": _side_panel(random, case.side_panel),
        "standoffs": Standoffs(forms=("ATX", "microATX", "Mini-ITX")),
        "tallest_cooler": _near(random, 150, 200),
        "longest_card": _near(random, 300, 420),
        "longest_card_with": _with(random, case),
        "longest_supply": _near(random, 150, 220),
        "shroud": _shroud(random, case.shroud),
        "cage_rail": _rail(random, case.cage_rail),
        "supply_bay": _bay(random, case.supply_bay),
        "cut_outs": (*case.cut_outs, *_cut_outs(random, depth_mm)),
    }
    told = {k: v for k, v in some.items() if random.random() < _OFTEN}
    mounts = tuple((n, _mount(random, (n, m), depth_mm)) for n, m in case.mounts)
    if case.shroud is not None and random.random() < _OFTEN:
        told["lining"] = replace(case.lining, shroud=_near(random, 2, 4))
    return replace(case, mounts=mounts, **told)  # type: ignore[arg-type]  # by name


def _with(random: Random, case: Case) -> LimitWith | None:
    if case.connectors is ConnectorsAt.TOP:
        return random.choice([LimitWith.FLOOR_FANS, LimitWith.NO_FLOOR_FANS])
    return random.choice([LimitWith.FANS, LimitWith.NO_FANS])


def _side_panel(random: Random, panel: SidePanel) -> SidePanel:
    glass = random.random() < 0.5
    return replace(
        panel,
        material=Material.GLASS if glass else Material.STEEL,
        vented=not glass,
        slide=_near(random, 8, 20),
        hooks=_near(random, 4, 8),
    )


def _shroud(random: Random, shroud: Shroud | None) -> Shroud | None:
    if shroud is None:
        return None
    hole = shroud.cut_out
    if hole is not None:
        hole = ShroudCutOut(
            from_depth=hole.from_depth,
            from_tray=_near(random, 2, 10),
            width=_near(random, 100, 150),
        )
    return replace(
        shroud,
        thickness=_near(random, 0.8, 1.5),
        from_depth=_near(random, 0, 20),
        cut_out=hole,
    )


def _rail(random: Random, rail: CageRail | None) -> CageRail | None:
    if rail is None:
        return None
    return replace(rail, base=_near(random, 0, 4), from_tray=_near(random, 5, 14))


def _bay(random: Random, bay: SupplyBay) -> SupplyBay:
    return replace(bay, vented=random.random() < 0.5)


def _cut_outs(random: Random, depth_mm: float) -> Iterator[tuple[str, CutOut]]:
    yield (
        "edge",
        CutOut(
            from_rear=mm(depth_mm - 70),
            from_floor=mm(random.randint(120, 150)),
            depth=mm(25),
            height=mm(random.randint(40, 60)),
        ),
    )


def _mount(random: Random, named: tuple[str, Mount], depth_mm: float) -> Mount:
    """Return a mount: at a side upright, now and then, one fan over the other."""
    name, mount = named
    face = mount.face or Face(name)
    (row, *_) = mount.takes
    if face in _SIDES and random.random() < 0.5:
        row = replace(row, start=_near(random, 20, 120))
        return replace(
            mount,
            rows=Rows.UPRIGHT,
            takes=(row,),
            from_tray=mm(depth_mm - row.size / 2 - random.randint(2, 30)),
        )
    slots = mm(random.randint(5, 20))
    if random.random() < _OFTEN:
        row = replace(row, slots=slots, hole_spacing=None)
    return replace(mount, takes=(row, *mount.takes[1:]))


UNTOLD: Final[Mapping[str, str]] = {
    "hookup": "data_lead lead pump_lead fan_lead leads front_leads plugs sockets power "
    "milliamperes light_milliamperes plug_kind wires bend_rule kits adapter_plate",
    "screws": "hole_spacing plate_for held_by own holes forms radiators",
    "names": "name cage card slot place face longest_supply_with kind",
    "read otherwise": "measured_from",
    "must meet its drives": "drives",
    "must meet its card": "CardSupport.height CardSupport.length shortest longest",
    "of adapters, and which side": "looks plug side",
}
"""Fields that no random machine tells, by what they are about: they move no body, or
tests of their own drive them."""
