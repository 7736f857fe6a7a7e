"""The holes by which a part is fixed, or that its seat has for it."""

from __future__ import annotations

from layout.geometry.holes.holes import STILL, Hole, Point, Rail
from layout.geometry.space import Axis
from layout.values import dataclass

__all__ = ["Screws"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Screws:
    """The holes of a part for its seat, or of a seat for its part.

    Parameters
    ----------
    name : str
        What the pattern is that of: ``ATX``, ``AM5``, ``fans of 120``.
    holes : tuple of Hole
        From the seat's origin, along ``across``.
    across : (Axis, Axis)
        The axes of the patterns' plane.
    screw_mm : float
        Diameter of the screws.
    rail : Rail
        How far a seat's slots let the part be shifted.
    covers_mm : (Point, Point) or None
        Low and high corner of what a part covers of its seat, where a thing that
        stands there without a hole over it would touch the part.
    given : bool
        Whether the file says anything of it.
    alike : str
        The form whose holes it is taken to have, since no text gives its own.
    """

    name: str
    holes: tuple[Hole, ...]
    across: tuple[Axis, Axis]
    screw_mm: float
    rail: Rail = STILL
    covers_mm: tuple[Point, Point] | None = None
    given: bool = False
    alike: str = ""
