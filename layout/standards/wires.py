"""Wires by gauge: the conductor, solid and stranded, and the insulation round it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from layout.standards.figure import Figure, practice, seen
from layout.standards.sources import GAUGE_FORMULA, GAUGE_TABLE, STRAND_CHART
from layout.standards.units import MM_PER_INCH

__all__ = [
    "FORMULA_SOURCE",
    "LEAST_GAUGE",
    "MOST_GAUGE",
    "SOLID",
    "STRANDED",
    "WALL",
    "solid_mm",
]

LEAST_GAUGE: Final = 0
MOST_GAUGE: Final = 40


def solid_mm(gauge: int) -> float:
    """Return the diameter of a solid conductor of an American wire gauge.

    References
    ----------
    ASTM B258: 0.005 in at gauge 36, growing by 92 ** (1 / 39) from gauge to gauge.

    Examples
    --------
    >>> round(solid_mm(18), 3)
    1.024
    """
    if not LEAST_GAUGE <= gauge <= MOST_GAUGE:
        raise ValueError(
            f"gauge {gauge}: the formula is used from {LEAST_GAUGE} to {MOST_GAUGE}"
        )
    return _AT_36_MM * math.pow(92.0, (36 - gauge) / 39)


_AT_36_MM: Final = 0.127
FORMULA_SOURCE: Final = GAUGE_FORMULA

SOLID: Final[Mapping[int, Figure]] = MappingProxyType(
    {
        gauge: seen(mm, GAUGE_TABLE)
        for gauge, mm in ((16, 1.291), (18, 1.024), (20, 0.812), (28, 0.321))
    }
)
"""Solid conductors as a table prints them; the formula is checked against it."""


def _strands(inch: float, strands: str) -> Figure:
    return seen(inch * MM_PER_INCH, f"{STRAND_CHART}, strands {strands}")


STRANDED: Final[Mapping[int, Figure]] = MappingProxyType(
    {
        16: _strands(0.059, "26/30"),
        18: _strands(0.047, "16/30"),
        20: _strands(0.035, "10/30"),
        28: _strands(0.015, "7/36"),
    }
)
"""Stranded conductors, thicker than solid ones of their gauge."""

WALL: Final = practice(0.016 * MM_PER_INCH)
"""Insulation round a hook-up wire of the usual thin sort, one side: 0.016 in."""
