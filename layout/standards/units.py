"""The one conversion table: lengths that people write, in mm."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

__all__ = ["MM_PER", "MM_PER_INCH"]

MM_PER_INCH: Final = 25.4
"""Exact, by the international yard and pound agreement of 1959."""

MM_PER: Final[Mapping[str, float]] = MappingProxyType(
    {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": MM_PER_INCH}
)
"""mm per unit, by the unit's sign."""
