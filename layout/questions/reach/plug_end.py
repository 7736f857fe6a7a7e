"""Where a lead ends before its plug, and where it turns there."""

from __future__ import annotations

from typing import Final

from layout.build.placed import PlacedPlug
from layout.geometry.space import Vector
from layout.parts.form.form import PlugShape
from layout.parts.wiring.plug import beside, cable_of, leaves, run_mm
from layout.questions.findings.passages import Passages, ahead

__all__ = ["WIRE_RADII", "plug_ends"]

WIRE_RADII: Final = 3.5
"""Radius along the middle of a loose wire's bend, in its diameters."""


def plug_ends(plug: PlacedPlug, space: Passages) -> tuple[tuple[Vector, ...], ...]:
    """Return a plug's end, and where its cable turns where there is room for that.

    The cable of an angled plug may leave to either side: an end for each with room.
    """
    mated = plug.plug
    ways = (
        [(beside(mated, to), to) for to in leaves(mated)]
        if mated.shape is PlugShape.ANGLED
        else [(mated.at_mm, mated.out)]
    )
    radius_mm = WIRE_RADII * cable_of(mated).wire_mm
    for mm in (run_mm(mated) + radius_mm, radius_mm):
        turns = [(at, ahead(at, to, mm)) for at, to in ways]
        if open_ := tuple(each for each in turns if space.holds(each[-1])):
            return open_
    return ((mated.at_mm,),)
