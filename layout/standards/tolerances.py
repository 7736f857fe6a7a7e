"""General tolerances: ISO 2768-1, linear sizes."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from types import MappingProxyType
from typing import Final

from layout.errors import LayoutError
from layout.standards.figure import Standing

__all__ = [
    "LEAST_MM",
    "SOURCE",
    "STANDING",
    "TABLE",
    "TAPED_PLUS_MINUS_MM",
    "UP_TO_MM",
    "ToleranceClass",
    "ToleranceError",
    "general_tolerance_mm",
]

SOURCE: Final = "ISO 2768-1, linear sizes, from memory"
STANDING: Final = Standing.MEMORY


class ToleranceClass(Enum):
    """How closely a size is held: bent sheet is coarse, machined parts medium."""

    FINE = "f"
    MEDIUM = "m"
    COARSE = "c"
    VERY_COARSE = "v"


class ToleranceError(LayoutError, ValueError):
    """The standard states no general tolerance for this size and class."""


TAPED_PLUS_MINUS_MM: Final = 1.0
"""What a tape measure inside a case is good for: common practice, no source."""

LEAST_MM: Final = 0.5
UP_TO_MM: Final = (3.0, 6.0, 30.0, 120.0, 400.0, 1000.0, 2000.0, 4000.0)
"""Upper ends of the ranges: over the one before, up to and including this one."""

TABLE: Final[Mapping[ToleranceClass, tuple[float | None, ...]]] = MappingProxyType(
    {
        ToleranceClass.FINE: (0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, None),
        ToleranceClass.MEDIUM: (0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2.0),
        ToleranceClass.COARSE: (0.2, 0.3, 0.5, 0.8, 1.2, 2.0, 3.0, 4.0),
        ToleranceClass.VERY_COARSE: (None, 0.5, 1.0, 1.5, 2.5, 4.0, 6.0, 8.0),
    }
)


def general_tolerance_mm(size_mm: float, cls: ToleranceClass) -> float:
    """Return the plus-minus of a size without one of its own.

    Raises
    ------
    ToleranceError
        If the size lies outside the table, or the class leaves its range out.

    Examples
    --------
    >>> general_tolerance_mm(120.0, ToleranceClass.MEDIUM)
    0.3
    """
    if size_mm >= LEAST_MM:
        for upper_mm, plus_minus_mm in zip(UP_TO_MM, TABLE[cls], strict=True):
            if size_mm <= upper_mm and plus_minus_mm is not None:
                return plus_minus_mm
            if size_mm <= upper_mm:
                break
    raise ToleranceError(
        f"{size_mm:g} mm has no general tolerance of class {cls.value}; "
        f"the table runs from {LEAST_MM:g} to {UP_TO_MM[-1]:g} mm, "
        "class f to 2000 mm, class v from over 3 mm: give the plus-minus itself"
    )
