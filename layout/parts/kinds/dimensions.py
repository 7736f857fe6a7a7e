"""The figures of a part that a builder asks the largest of."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import fields, replace
from typing import Any, Final

from layout.parts.board.m2_drive import M2Drive
from layout.parts.board.memory import Memory
from layout.parts.card.card import Card
from layout.parts.cooling.fan import Fan, fan_thickness
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.low_cooler import LowCooler
from layout.parts.cooling.radiator import Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.cooling.twin_tower import TwinTower
from layout.parts.form.errors import PartError
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Supply
from layout.standards.figure import given
from layout.standards.supplies import FORMS
from layout.values import dataclass

__all__ = ["FINE_MM", "Dimension", "dimensions"]

FINE_MM: Final = 0.002
"""How far halving goes where a figure is searched for."""

_LEAST_SHARE: Final = 0.5
"""Nobody sells the same sort of part at less than this share of its figure."""


@dataclass(frozen=True, slots=True)
class Dimension:
    """One figure: its name in files, its value now, and the part with another one.

    ``with_mm`` keeps all other figures; what follows from this one follows.
    ``most_mm`` is the largest that a file may give.
    """

    name: str
    now_mm: float
    with_mm: Callable[[float], Spec]
    most_mm: float

    @property
    def least_mm(self) -> float:
        """Return the least figure that the same sort of part is sold with."""
        return _LEAST_SHARE * self.now_mm

    def whole_mm(self, mm: float | None) -> float | None:
        """Return whole millimetres under the present figure; None without any."""
        if mm is None or mm >= self.now_mm - FINE_MM:
            return None
        return float(math.floor(mm + FINE_MM / 2))

    def can_be(self, mm: float) -> bool:
        """Tell whether there can be a part with a figure."""
        try:
            self.with_mm(mm)
        except PartError:
            return False
        return True


def dimensions(spec: Spec) -> tuple[Dimension, ...]:
    """Return the figures of a part, as its data sheet names them; often none."""
    return tuple(_dimensions(spec))


_FRONT_FAN: Final = {TowerCooler: 1, TwinTower: 2}
"""From how many fans on a tower has one in front, which can be raised."""


def _dimensions(spec: Spec) -> Iterator[Dimension]:
    match spec:
        case TowerCooler() | TwinTower():
            yield from _tower(spec)
        case LowCooler() | Memory() | M2Drive():
            yield _field(spec, "height")
        case LiquidCooler():
            yield _field(spec, "block_height")
            yield from _of_radiator(spec)
        case Radiator():
            yield from _radiator(spec)
        case Card():
            yield _field(spec, "length")
            yield _field(spec, "height")
            yield _field(spec, "thickness", spec.depth_across.mm)
        case Supply():
            yield _field(spec, "length", FORMS[spec.form.value].length.mm)
        case Fan():
            yield _field(spec, "thickness", fan_thickness(spec.size).mm)
        case _:
            pass


def _tower(spec: TowerCooler | TwinTower) -> Iterator[Dimension]:
    yield _field(spec, "height")
    if spec.fans >= _FRONT_FAN[type(spec)]:
        yield _field(spec, "fan_raise", 0.0)


def _field(spec: Spec, name: str, usual_mm: float = 0.0) -> Dimension:
    """Return a field as a dimension; ``usual_mm`` where the file does not give it."""
    figure = getattr(spec, name)
    changed: Any = replace  # the field's name is known at run time alone

    def with_mm(mm: float) -> Spec:
        other: Spec = changed(spec, **{name: given(mm)})
        return other

    now_mm = usual_mm if figure is None else figure.mm
    (declared,) = (each for each in fields(spec) if each.name == name)
    most_mm = float(declared.metadata["most_mm"])
    return Dimension(name.replace("_", " "), now_mm, with_mm, most_mm)


def _radiator(spec: Radiator) -> Iterator[Dimension]:
    yield _field(spec, "thickness")
    yield _field(spec, "length", spec.usual.length.mm)


def _of_radiator(spec: LiquidCooler) -> Iterator[Dimension]:
    """Yield a liquid cooler's radiator's figures."""
    for each in _radiator(spec.radiator):

        def with_mm(mm: float, of: Dimension = each) -> Spec:
            radiator = of.with_mm(mm)
            if not isinstance(radiator, Radiator):
                raise TypeError("a radiator's figure makes a radiator")
            return replace(spec, radiator=radiator)

        yield Dimension(f"radiator {each.name}", each.now_mm, with_mm, each.most_mm)
