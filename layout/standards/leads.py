"""How long the leads of fans and case fronts usually are: nothing is published."""

from __future__ import annotations

from typing import Final

from layout.standards.figure import Figure, practice

__all__ = [
    "CASE_FAN_LEAD",
    "COOLER_FAN_LEAD",
    "PUMP_LEAD",
    "SPLITTER_LEAD",
    "front_lead",
]

CASE_FAN_LEAD: Final = practice(450.0, 100.0, assumed=True)
"""Of a fan sold by itself; the scatter is that of what is sold."""
COOLER_FAN_LEAD: Final = practice(300.0, 100.0, assumed=True)
"""Of a fan that comes with a cooler, to a header beside its socket."""
PUMP_LEAD: Final = practice(400.0, 100.0, assumed=True)

SPLITTER_LEAD: Final = practice(300.0, 100.0, assumed=True)
"""Of a splitter or hub, to the header that it is plugged into."""

_FRONT_PLUS_MINUS_MM: Final = 100.0


def front_lead(inside_mm: tuple[float, float, float], part: float) -> Figure:
    """Return a usual lead of a case's front, as a part of the case's depth and height.

    Who makes a case makes its leads for it, so they grow with it.

    Parameters
    ----------
    inside_mm : (float, float, float)
        The case's depth, height and width.
    part : float
        Audio goes farthest, to the board's rear lower corner; USB least far.
    """
    depth_mm, height_mm, _ = inside_mm
    mm = part * (depth_mm + height_mm)
    return practice(round(mm), _FRONT_PLUS_MINUS_MM, assumed=True)
