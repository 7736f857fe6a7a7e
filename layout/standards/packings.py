"""How thick a bundle of wires is: factors of a wire's diameter, with sources."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Final

from layout.standards.sources import BUNDLE_NOTES, PACKING_TABLE
from layout.values import dataclass

__all__ = [
    "FACTOR_SOURCE",
    "LOOSE_FACTOR",
    "PACKINGS",
    "Packing",
    "bundle_mm",
    "mixed_bundle_mm",
]


@dataclass(frozen=True, slots=True)
class Packing:
    """A bundle of equal round wires, its diameter as a multiple of the wire's.

    Parameters
    ----------
    count : int
        How many wires.
    catalogue : float
        The factor a bundle maker's notes print.
    densest : float
        The diameter of the smallest circle that holds them.
    proved_by : str
        Who proved that no smaller one does; empty where that is conjectured.
    """

    count: int
    catalogue: float
    densest: float
    proved_by: str = ""

    @property
    def factor(self) -> float:
        """Return the larger: the catalogue prints 4.00 for 12, under what is proved."""
        return max(self.catalogue, self.densest)


FACTOR_SOURCE: Final = f"{BUNDLE_NOTES}; {PACKING_TABLE}"

_ROWS: Final = (
    Packing(1, 1.0, 1.0, "one wire"),
    Packing(2, 2.00, 2.0, "by symmetry"),
    Packing(3, 2.16, 1 + 2 / math.sqrt(3), "by symmetry"),
    Packing(4, 2.41, 1 + math.sqrt(2), "by symmetry"),
    Packing(5, 2.70, 1 + math.sqrt(2 + 2 / math.sqrt(5)), "Graham 1968"),
    Packing(6, 3.00, 3.0, "Graham 1968"),
    Packing(7, 3.00, 3.0, "Graham 1968"),
    Packing(8, 3.60, 1 + 1 / math.sin(math.pi / 7), "Pirl 1969"),
    Packing(9, 4.00, 1 + math.sqrt(2 * (2 + math.sqrt(2))), "Pirl 1969"),
    Packing(10, 4.00, 3.81302563, "Pirl 1969"),
    Packing(11, 4.00, 1 + 1 / math.sin(math.pi / 9), "Melissen 1994"),
    Packing(12, 4.00, 4.030, "Fodor 2000"),
    Packing(13, 4.41, 2 + math.sqrt(5), "Fodor 2003"),
    Packing(14, 4.41, 4.329, "2024"),
    Packing(15, 4.70, 4.522),
    Packing(16, 4.70, 4.616),
    Packing(17, 5.00, 4.793),
    Packing(18, 5.00, 1 + math.sqrt(2) + math.sqrt(6)),
    Packing(19, 5.00, 1 + math.sqrt(2) + math.sqrt(6), "Fodor 1999"),
    Packing(20, 5.31, 5.123),
)

PACKINGS: Final[Mapping[int, Packing]] = MappingProxyType(
    {each.count: each for each in _ROWS}
)
"""Up to 20 wires; where only three decimals are printed, the last one is rounded up."""

LOOSE_FACTOR: Final = 1.2
"""Mixed bundles, and those of more than 20 wires: 1.2 sqrt(sum of d squared)."""


def bundle_mm(count: int, wire_mm: float) -> float:
    """Return the diameter of a round bundle of equal wires.

    Examples
    --------
    >>> bundle_mm(7, 2.0)
    6.0
    """
    if count in PACKINGS:
        return PACKINGS[count].factor * wire_mm
    return mixed_bundle_mm([(count, wire_mm)])


def mixed_bundle_mm(groups: Iterable[tuple[int, float]]) -> float:
    """Return the diameter of a round bundle of several sizes: (how many, wire in mm).

    References
    ----------
    A bundle maker's notes, read where ``layout/standards/sources.py`` says.

    Examples
    --------
    >>> round(mixed_bundle_mm([(3, 1.19), (5, 1.40), (1, 1.65)]), 3)
    4.914
    """
    return LOOSE_FACTOR * math.sqrt(sum(count * mm**2 for count, mm in groups))
