"""Where a lead ends before its plug, and where it turns there."""

from __future__ import annotations

from typing import Final

from layout.build.placed import PlacedPlug
from layout.geometry.space import Vector
from layout.parts.plug import cable_of, run_mm
from layout.questions.passages import Passages, ahead

__all__ = ["WIRE_RADII", "plug_end"]

WIRE_RADII: Final = 3.5
"""Radius along the middle of a loose wire's bend, in its diameters."""


def plug_end(plug: PlacedPlug, space: Passages) -> tuple[Vector, ...]:
    """Return a plug's end, and where its cable turns where there is room for that."""
    mated = plug.plug
    radius_mm = WIRE_RADII * cable_of(mated).wire_mm
    for mm in (run_mm(mated) + radius_mm, radius_mm):
        turn = ahead(mated.at_mm, mated.out, mm)
        if space.holds(turn):
            return mated.at_mm, turn
    return (mated.at_mm,)
