"""How tightly a cable may be bent: multiples of a diameter, each with its source."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from types import MappingProxyType
from typing import Final

from layout.standards.figure import Standing
from layout.standards.sources import (
    BEND_PAGE,
    BUILDING_CABLE,
    RACK_GUIDE,
    WIRE_CRAFT_WIRES,
)
from layout.values import dataclass

__all__ = ["BENDS", "Bend", "BendOf", "BendRule", "bend_length_mm"]


class BendOf(Enum):
    """Whose diameter is multiplied."""

    WIRE = "single wire"
    BUNDLE = "whole bundle"


class BendRule(Enum):
    """The rules to choose from; the radius is that of the bend's inside."""

    LOOSE = "loose wires"
    SHORT_TERM = "bundle, short term"
    LONG_TERM = "bundle, long term"
    IN_THE_RUN = "bundle, in the run"
    AT_A_CONNECTOR = "bundle, at a connector"
    TWISTED = "twisted pairs"
    SHIELDED = "shielded"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bend:
    """A rule: how many diameters, of what, and who says so."""

    multiple: float
    of: BendOf
    standing: Standing
    source: str

    def radius_mm(self, *, wire_mm: float, bundle_mm: float) -> float:
        """Return the least radius of the bend's inside."""
        return self.multiple * (wire_mm if self.of is BendOf.WIRE else bundle_mm)


BENDS: Final[Mapping[BendRule, Bend]] = MappingProxyType(
    {
        BendRule.LOOSE: Bend(
            multiple=3.0,
            of=BendOf.WIRE,
            standing=Standing.MEMORY,
            source="IPC/WHMA-A-620, hook-up wire 2 to 3 diameters, from memory",
        ),
        BendRule.SHORT_TERM: Bend(
            multiple=6.0,
            of=BendOf.BUNDLE,
            standing=Standing.SEEN,
            source=f"{WIRE_CRAFT_WIRES}, short term",
        ),
        BendRule.LONG_TERM: Bend(
            multiple=10.0,
            of=BendOf.BUNDLE,
            standing=Standing.SEEN,
            source=f"{WIRE_CRAFT_WIRES}, long term",
        ),
        BendRule.IN_THE_RUN: Bend(
            multiple=2.0,
            of=BendOf.BUNDLE,
            standing=Standing.SEEN,
            source=f"{RACK_GUIDE}, in the run",
        ),
        BendRule.AT_A_CONNECTOR: Bend(
            multiple=5.0,
            of=BendOf.BUNDLE,
            standing=Standing.SEEN,
            source=f"{RACK_GUIDE}, at a connector",
        ),
        BendRule.TWISTED: Bend(
            multiple=4.0,
            of=BendOf.BUNDLE,
            standing=Standing.SEEN,
            source=BUILDING_CABLE,
        ),
        BendRule.SHIELDED: Bend(
            multiple=5.0,
            of=BendOf.BUNDLE,
            standing=Standing.SECONDARY,
            source=f"IPC/WHMA-A-620, class 3, {BEND_PAGE}",
        ),
    }
)
"""Bundle rules suit what is sleeved or taped; loose wires bend each by itself."""


def bend_length_mm(inside_mm: float, thickness_mm: float, angle_rad: float) -> float:
    """Return how much of a cable a bend takes, along its middle.

    Examples
    --------
    >>> round(bend_length_mm(450.0, 70.0, 1.5708))
    762
    """
    return (inside_mm + thickness_mm / 2) * angle_rad
