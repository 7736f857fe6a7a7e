"""Radiators: there is no formal standard; all of it is what is sold.

A class is the number of fans times their frame, not the radiator's length.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from layout.standards.figure import Figure, memory, practice, secondary
from layout.standards.sources import RADIATOR_GUIDE, RADIATOR_TALK
from layout.values import dataclass

__all__ = [
    "CLASSES",
    "END_TANKS",
    "HOSE_BEND",
    "HOSE_LENGTH",
    "THICKNESS",
    "TUBE",
    "RadiatorClass",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class RadiatorClass:
    """A radiator's usual size, and the fans it takes."""

    size: int
    length: Figure
    width: Figure
    fans: int
    frame: int


def _recalled(mm: float, plus_minus_mm: float) -> Figure:
    """Return the middle of the lengths that are sold."""
    source = "middle of what is sold, from memory"
    return memory(mm, source, plus_minus_mm, assumed=True)


def _quoted(mm: float, plus_minus_mm: float) -> Figure:
    """Return a size quoted from one tech sheet; others differ by the plus-minus."""
    return secondary(mm, RADIATOR_TALK, plus_minus_mm, assumed=True)


def _class(frame: int, fans: int, length: Figure) -> RadiatorClass:
    """Return a class; widths are the frame and 0 to 4 more."""
    width = _quoted(frame + 2.0, 2.0)
    return RadiatorClass(
        size=frame * fans, length=length, width=width, fans=fans, frame=frame
    )


CLASSES: Final[Mapping[int, RadiatorClass]] = MappingProxyType(
    {
        120: _class(120, 1, _recalled(156.0, 1.0)),
        140: _class(140, 1, _recalled(176.5, 1.5)),
        240: _class(120, 2, _quoted(275.0, 2.0)),
        280: _class(140, 2, _quoted(315.0, 2.0)),
        360: _class(120, 3, _recalled(397.0, 3.0)),
        420: _class(140, 3, _recalled(455.0, 3.0)),
    }
)

END_TANKS: Final = secondary(35.0, f"275 - 240 and 315 - 280, {RADIATOR_TALK}")
"""Both end tanks together, over the fans' length."""
THICKNESS: Final = secondary(
    28.5, f"27 to 30, {RADIATOR_GUIDE}, centred", 1.5, assumed=True
)
"""Core of a usual radiator, without fans."""
TUBE: Final = memory(11.5, "10 to 13 sleeved, from memory", 1.5, assumed=True)
"""Outside diameter of a tube."""
HOSE_LENGTH: Final = practice(400.0, 50.0, assumed=True)
"""From fitting to fitting, of coolers that come filled; common practice, no source."""
HOSE_BEND: Final = memory(
    40.0,
    "3 to 4 outside diameters inside the bend, sleeved, from memory",
    6.0,
    assumed=True,
)
"""Least radius of a sleeved hose, to the inside of the bend."""
