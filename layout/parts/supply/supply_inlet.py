"""The face of a supply that takes the mains plug, where that is inside the case."""

from __future__ import annotations

from typing import Final

from layout.geometry.solids.solid import block
from layout.geometry.space import Axis, Direction, Vector
from layout.parts.form.form import Link, Piece, Role
from layout.parts.form.link import at_share, exact, size, spanning

__all__ = ["INSIDE_INLET", "inlet"]

INSIDE_INLET: Final = (
    "its mains inlet does not reach the rear panel: the case must bring its own inlet "
    "lead, with its earth; leave other mains wiring to licensed practice"
)
_RIM_MM = 5.0
_SKIN_MM = 0.1


def inlet(
    low: Vector, top: Vector, links: tuple[Link, ...], *, looks: Direction
) -> tuple[Piece, ...]:
    """Return the face with a mains inlet that does not reach through the rear panel.

    Where on its face the inlet is no data sheet tells: what lies before any of it, but
    for a rim, is asked.
    """
    if looks is Direction.REAR:
        return ()
    y, z = ((low[i] + _RIM_MM, top[i] - _RIM_MM) for i in (1, 2))
    rim = exact("rim round the inlet", _RIM_MM, Axis.HEIGHT, Axis.WIDTH)
    skin = size(exact("inlet's skin", _SKIN_MM, Axis.DEPTH), Direction.FRONT)
    at_face = tuple(at_share(each, Axis.DEPTH, 0.0) for each in links)
    return (
        Piece(
            name="inlet",
            role=Role.SUPPLY_INLET,
            solids=(block((low[0], low[0] + _SKIN_MM), y, z),),
            links=(*at_face, spanning(rim, 1.0, -1.0), skin),
        ),
    )
