"""Drives: the largest bodies the standards allow, and their holes."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from layout.standards.figure import Figure, memory, secondary
from layout.standards.sources import DRIVE_FORMS
from layout.values import dataclass

__all__ = [
    "HEIGHTS",
    "HOLES",
    "M2_LENGTHS",
    "M2_WIDTH",
    "SIZES",
    "DriveHoles",
    "DriveSize",
]

_SFF_LARGE = "SFF-8301, from memory"
_SFF_SMALL = "SFF-8201, from memory"


@dataclass(frozen=True, slots=True, kw_only=True)
class DriveSize:
    """A drive's body; length runs from its connector end."""

    name: str
    length: Figure
    width: Figure
    height: Figure


SIZES: Final[Mapping[str, DriveSize]] = MappingProxyType(
    {
        "3.5": DriveSize(
            name="3.5",
            length=memory(147.0, f"{_SFF_LARGE}, at most"),
            width=secondary(101.6, f"{DRIVE_FORMS}; plus-minus from memory", 0.25),
            height=secondary(26.1, f"{DRIVE_FORMS}, at most"),
        ),
        "2.5": DriveSize(
            name="2.5",
            length=memory(100.45, f"{_SFF_SMALL}, at most"),
            width=secondary(69.85, f"{DRIVE_FORMS}; plus-minus from memory", 0.25),
            height=secondary(9.5, DRIVE_FORMS),
        ),
        "5.25": DriveSize(
            name="5.25",
            length=secondary(203.0, DRIVE_FORMS),
            width=secondary(146.1, DRIVE_FORMS),
            height=secondary(41.4, DRIVE_FORMS),
        ),
    }
)

M2_WIDTH: Final = memory(22.0, "M.2 specification, from memory", 0.15)
"""A drive's card; makers' manuals give the same (22 x 80)."""
M2_LENGTHS: Final = (30, 42, 60, 80, 110)
"""Lengths in use, from memory."""

HEIGHTS: Final[Mapping[str, tuple[Figure, ...]]] = MappingProxyType(
    {
        "3.5": tuple(secondary(mm, DRIVE_FORMS) for mm in (19.9, 25.4, 26.1)),
        "2.5": tuple(secondary(mm, DRIVE_FORMS) for mm in (5.0, 7.0, 9.5, 12.5, 15.0)),
    }
)
"""Heights in use."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DriveHoles:
    """Screw holes: along the length from the connector end, and across below.

    ``pitches`` are those of the side holes, each from the first; ``side_height`` is how
    far over the underside they are.
    """

    first: Figure
    pitches: tuple[Figure, ...]
    side_height: Figure
    below_across: Figure
    below_pitch: Figure


HOLES: Final[Mapping[str, DriveHoles]] = MappingProxyType(
    {
        "3.5": DriveHoles(
            first=memory(28.50, _SFF_LARGE, 0.25),
            pitches=(memory(41.60, _SFF_LARGE, 0.25), memory(101.60, _SFF_LARGE, 0.25)),
            side_height=memory(6.35, _SFF_LARGE, 0.25),
            below_across=memory(95.25, _SFF_LARGE, 0.25),
            below_pitch=memory(44.45, _SFF_LARGE, 0.25),
        ),
        "2.5": DriveHoles(
            first=memory(14.00, _SFF_SMALL, 0.25),
            pitches=(memory(76.60, _SFF_SMALL, 0.25),),
            side_height=memory(3.00, _SFF_SMALL, 0.25),
            below_across=memory(61.72, _SFF_SMALL, 0.25),
            below_pitch=memory(76.60, _SFF_SMALL, 0.25),
        ),
    }
)
