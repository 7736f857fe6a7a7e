"""Cases of the layouts beside the usual tower, each with a machine in it."""

from __future__ import annotations

from layout.build.placed import Build
from layout.parts.board.board import Board, BoardShape
from layout.parts.board.memory import Memory
from layout.parts.card.card import Card, PlugAt
from layout.parts.case.case import Case
from layout.parts.case.case_fields import Mount, Shroud, ShroudCutOut, SupplyBay, Takes
from layout.parts.case.case_riser import Riser, RiserLooks
from layout.parts.case.case_stands import ConnectorsAt, Stands
from layout.parts.case.case_supply import BayPlace, InletLooks
from layout.parts.cooling.fan import Fan
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Cables, Supply, SupplyShape
from tests.build.machines import built, mm

__all__ = ["chimney", "over", "riser", "sandwich", "two_chambers"]

COOLER = TowerCooler(height=mm(150), width=mm(125), depth=mm(50))


def chimney() -> Build:
    """Return a board turned a quarter, its connectors at the top."""
    case = Case(
        name="chimney",
        connectors=ConnectorsAt.TOP,
        depth=mm(380),
        height=mm(465),
        width=mm(190),
        behind_tray=mm(74),
        room_over_board=mm(40),
        mounts=(("floor", Mount(takes=(Takes(size=140, count=2),))),),
        supply_bay=SupplyBay(
            place=BayPlace.BEHIND_TRAY, form=SupplyShape.SFX, from_floor=mm(40)
        ),
    )
    parts: dict[str, Spec] = {
        "board": Board(socket="AM5"),
        "memory": Memory(),
        "cooler": COOLER,
        "card": Card(length=mm(267), slots=2, plug=PlugAt.TOP_EDGE),
        "supply": Supply(form=SupplyShape.SFX),
        "fans": Fan(size=140, count=2, mount="floor"),
    }
    return built(case, parts)


def over() -> Build:
    """Return a tower turned over, its supply under its top."""
    case = Case(
        stands=Stands.TURNED_OVER,
        depth=mm(400),
        height=mm(440),
        width=mm(185),
        supply_bay=SupplyBay(place=BayPlace.TOP_REAR),
        room_over_board=mm(100),
    )
    parts: dict[str, Spec] = {
        "board": Board(form=BoardShape.MICRO_ATX, socket="AM5"),
        "supply": Supply(cables=Cables.FIXED),
    }
    return built(case, parts)


def two_chambers(inlet: InletLooks = InletLooks.REAR) -> Build:
    """Return a cube with its supply behind the tray."""
    case = Case(
        depth=mm(400),
        height=mm(390),
        width=mm(185),
        behind_tray=mm(110),
        supply_bay=SupplyBay(
            place=BayPlace.BEHIND_TRAY,
            inlet=inlet,
            from_rear=mm(120),
            from_floor=mm(200 if inlet is InletLooks.UP else 15),
        ),
        mounts=(
            ("tray side", Mount(takes=(Takes(size=120, start=mm(262)),))),
            ("panel side", Mount(takes=(Takes(size=120, start=mm(20)),))),
        ),
    )
    parts: dict[str, Spec] = {
        "board": Board(socket="AM5"),
        "supply": Supply(),
        "tray fan": Fan(size=120, mount="tray side"),
        "panel fan": Fan(size=120, mount="panel side"),
    }
    return built(case, parts)


def sandwich(inlet: InletLooks = InletLooks.DOWN) -> Build:
    """Return a small case: supply in front, card behind the tray."""
    case = Case(
        depth=mm(330),
        height=mm(205),
        width=mm(72),
        behind_tray=mm(74),
        first_slot=mm(40),
        slots=0,
        supply_bay=SupplyBay(
            place=BayPlace.FRONT,
            form=SupplyShape.SFX,
            inlet=inlet,
            from_rear=mm(194),
            from_floor=mm(160 if inlet is InletLooks.UP else 35),
            from_tray=mm(4),
        ),
        risers=(
            (
                "spine",
                Riser(
                    looks=RiserLooks.BACK_PANEL, from_panel=mm(60), from_floor=mm(180)
                ),
            ),
        ),
    )
    parts: dict[str, Spec] = {
        "board": Board(form=BoardShape.MINI_ITX, socket="AM5"),
        "card": Card(length=mm(242), slots=2, riser="spine", plug=PlugAt.TOP_EDGE),
        "supply": Supply(form=SupplyShape.SFX),
    }
    return built(case, parts)


def riser() -> Build:
    """Return a tower with an upright card and a shroud opened for a radiator."""
    case = Case(
        depth=mm(440),
        height=mm(470),
        width=mm(210),
        shroud=Shroud(
            height=mm(110), cut_out=ShroudCutOut(from_depth=mm(370), from_tray=mm(25))
        ),
        risers=(("upright", Riser(from_panel=mm(72), from_floor=mm(135))),),
    )
    parts: dict[str, Spec] = {
        "board": Board(socket="AM5"),
        "card": Card(length=mm(285), slots=2, riser="upright", plug=PlugAt.TOP_EDGE),
        "supply": Supply(),
    }
    return built(case, parts)
