"""Every kind of part, by the word that files use for it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, TypeAlias

from layout.parts.board.board import Board
from layout.parts.board.m2_drive import M2Drive
from layout.parts.board.memory import Memory
from layout.parts.card.card import Card
from layout.parts.card.card_support import CardSupport
from layout.parts.cooling.fan import Fan
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.low_cooler import LowCooler
from layout.parts.cooling.processor import Processor
from layout.parts.cooling.radiator import Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.cooling.twin_tower import TwinTower
from layout.parts.drives.cage import Cage
from layout.parts.drives.drive import Drive
from layout.parts.kinds.block import Block
from layout.parts.supply.supply import Supply
from layout.parts.wiring.splitter import Splitter

__all__ = ["KINDS", "Spec"]

Spec: TypeAlias = (
    Block
    | Board
    | Cage
    | Card
    | CardSupport
    | Drive
    | Fan
    | LiquidCooler
    | LowCooler
    | M2Drive
    | Memory
    | Processor
    | Radiator
    | Splitter
    | Supply
    | TowerCooler
    | TwinTower
)

_CLASSES: Final[tuple[type[Spec], ...]] = (
    Board,
    Processor,
    Memory,
    TowerCooler,
    TwinTower,
    LowCooler,
    LiquidCooler,
    Card,
    CardSupport,
    Radiator,
    Fan,
    Supply,
    Cage,
    Drive,
    M2Drive,
    Splitter,
    Block,
)

KINDS: Final[Mapping[str, type[Spec]]] = MappingProxyType(
    {each.kind: each for each in _CLASSES}
)
