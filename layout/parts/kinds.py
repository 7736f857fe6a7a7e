"""Every kind of part, by the word that files use for it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, TypeAlias

from layout.parts.block import Block
from layout.parts.board import Board
from layout.parts.cage import Cage
from layout.parts.card import Card
from layout.parts.card_support import CardSupport
from layout.parts.drive import Drive
from layout.parts.fan import Fan
from layout.parts.liquid_cooler import LiquidCooler
from layout.parts.low_cooler import LowCooler
from layout.parts.m2_drive import M2Drive
from layout.parts.memory import Memory
from layout.parts.processor import Processor
from layout.parts.radiator import Radiator
from layout.parts.splitter import Splitter
from layout.parts.supply import Supply
from layout.parts.tower_cooler import TowerCooler
from layout.parts.twin_tower import TwinTower

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
