"""Machines of every layout and kind, described as their files would."""

from __future__ import annotations

from layout.build.assemble import Entry, assemble
from layout.build.placed import Build, PlacedBody
from layout.parts.board.board import Board, BoardShape
from layout.parts.board.memory import Memory
from layout.parts.card.card import Card, PlugAt
from layout.parts.case.case import Case
from layout.parts.case.case_fields import (
    CageRail,
    CutOut,
    DrivePlace,
    LimitWith,
    Mount,
    Position,
    Shroud,
    SupplyBay,
    Takes,
)
from layout.parts.cooling.fan import Fan
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.radiator import Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.drives.cage import Cage
from layout.parts.drives.drive import Drive, DriveShape
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Supply, SupplyShape
from layout.standards.figure import Figure, given

__all__ = ["body", "built", "mm", "small_case", "tower", "tower_case", "wet"]


def mm(value: float) -> Figure:
    return given(value)


def tower_case() -> Case:
    """Return the usual tower: 430 deep, 460 high, room for a 165 high cooler."""
    return Case(
        name="usual tower",
        depth=mm(430),
        height=mm(460),
        width=mm(186),
        behind_tray=mm(22),
        room_over_board=mm(32),
        shroud=Shroud(height=mm(100), to_depth=mm(370)),
        mounts=(
            (
                "front",
                Mount(
                    takes=(Takes(size=120, count=3), Takes(size=140, count=3)),
                    outside=mm(35),
                ),
            ),
            ("top", Mount(takes=(Takes(size=120, count=3, start=mm(45)),))),
            ("rear", Mount(takes=(Takes(size=120, count=1, start=mm(310)),))),
        ),
        cage_rail=CageRail(
            positions=(
                ("rear", Position(from_rear=mm(190))),
                ("front", Position(from_rear=mm(255))),
            )
        ),
        cut_outs=(
            (
                "front",
                CutOut(
                    from_rear=mm(285), from_floor=mm(150), depth=mm(35), height=mm(250)
                ),
            ),
            (
                "socket",
                CutOut(
                    from_rear=mm(50),
                    from_floor=mm(280),
                    depth=mm(130),
                    height=mm(130),
                    cables=False,
                ),
            ),
        ),
        drive_places=(("behind 1", DrivePlace(from_rear=mm(220), from_floor=mm(190))),),
        tallest_cooler=mm(170),
        longest_card=mm(405),
        longest_card_with=LimitWith.FANS,
        longest_supply=mm(190),
    )


def tower() -> dict[str, Spec]:
    """Return an air-cooled machine that goes together in the usual tower."""
    return {
        "board": Board(socket="LGA1155"),
        "memory": Memory(modules=2),
        "cooler": TowerCooler(
            height=mm(155), width=mm(125), depth=mm(50), room_over_memory=mm(40)
        ),
        "card": Card(
            length=mm(285), height=mm(112), slots=2, plug=PlugAt.TOP_EDGE, slot=1
        ),
        "supply": Supply(length=mm(160)),
        "cage": Cage(position="front"),
        "disk": Drive(),
        "system disk": Drive(size=DriveShape.SMALL, place="behind 1"),
        "front fans": Fan(size=120, count=3, mount="front"),
        "rear fan": Fan(size=120, mount="rear"),
    }


def wet() -> dict[str, Spec]:
    """Return the same machine cooled by a radiator at the front."""
    return {
        "board": Board(form=BoardShape.MICRO_ATX, socket="LGA1155"),
        "memory": Memory(modules=2),
        "cooler": LiquidCooler(radiator=Radiator(size=360, mount="front")),
        "card": Card(length=mm(267), slots=2),
        "supply": Supply(length=mm(140)),
        "rear fan": Fan(size=120, mount="rear"),
    }


def small_case() -> Case:
    """Return a small case for Mini-ITX and an SFX supply."""
    return Case(
        name="small",
        depth=mm(330),
        height=mm(330),
        width=mm(150),
        behind_tray=mm(15),
        room_over_board=mm(30),
        slots=2,
        supply_bay=SupplyBay(form=SupplyShape.SFX, from_tray=mm(12)),
        mounts=(("front", Mount(takes=(Takes(size=120, count=2),))),),
    )


def built(case: Case, parts: dict[str, Spec]) -> Build:
    entries = tuple(Entry(key=key, spec=spec) for key, spec in parts.items())
    return assemble(name="machine", entries=entries, case=case)


def body(build: Build, name: str) -> PlacedBody:
    return next(each for each in build.bodies if each.name == name)
