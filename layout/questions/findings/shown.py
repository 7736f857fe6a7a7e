"""Lengths as tables tell them: in tenths, finer where a tenth would show nothing."""

from __future__ import annotations

import math
from typing import Final

__all__ = ["down", "places_of", "shown", "trimmed"]

_LEAST_MM: Final = 5e-5
"""Less than this is nothing."""
_TENTH_SHOWS_MM: Final = 0.05
_HUNDREDTH_SHOWS_MM: Final = 0.005


def shown(mm: float | None, *, signed: bool = False, places: int = 1) -> str:
    """Return a length, never ``-0.0`` and never 0 where it is not.

    Examples
    --------
    >>> shown(-0.04, signed=True), shown(4.25, signed=True), shown(None), shown(0.0)
    ('-0.04', '+4.2', '', '0.0')
    >>> shown(0.002), shown(33.0264, places=2)
    ('0.002', '33.03')
    """
    if mm is None:
        return ""
    sign = "+" if signed and abs(mm) >= _LEAST_MM else ""
    if _LEAST_MM <= abs(mm) < _HUNDREDTH_SHOWS_MM:
        return f"{mm:{sign}.1g}"
    rounded = round(mm, max(places, places_of(mm))) + 0.0
    return f"{rounded:{sign}.{max(places, places_of(mm))}f}"


def places_of(margin_mm: float | None) -> int:
    """Return to how many places a row's figures are told, so that they add up.

    Examples
    --------
    >>> places_of(-0.0264), places_of(4.25), places_of(0.0), places_of(None)
    (2, 1, 1, 1)
    """
    if margin_mm is None:
        return 1
    return 2 if _LEAST_MM <= abs(margin_mm) < _TENTH_SHOWS_MM else 1


def trimmed(mm: float, places: int = 2) -> str:
    """Return a length without noughts that say nothing.

    Examples
    --------
    >>> trimmed(6.35), trimmed(172.0), trimmed(0.5)
    ('6.35', '172', '0.5')
    """
    return f"{mm:.{places}f}".rstrip("0").rstrip(".")


def down(mm: float, places: int = 2) -> str:
    """Return a largest figure to so many places, never above it.

    Examples
    --------
    >>> down(146.079), down(172.0), down(118.02), down(146.079, 1)
    ('146.07', '172', '118.02', '146')
    """
    scale = 10.0**places
    return trimmed(math.floor(scale * mm + _ROUNDING) / scale, places)


_ROUNDING: Final = 1e-6
"""Of the last place, that floats leave under a round figure."""
