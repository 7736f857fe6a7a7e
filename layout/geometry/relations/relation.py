"""How two bodies stand to one another: the values that every query returns."""

from __future__ import annotations

import math
from enum import Enum

from layout.geometry.space import Axis, Vector
from layout.values import dataclass

__all__ = ["CONTACT_TOLERANCE_MM", "Bound", "Overlap", "Relation", "State", "Witness"]

CONTACT_TOLERANCE_MM = 1e-6
"""Bodies that do not interfere and lie no further apart than this are touching."""


class State(Enum):
    """The three ways in which two bodies can stand."""

    APART = "apart"
    TOUCHING = "touching"
    INTERFERING = "interfering"


class Bound(Enum):
    """How far a gap can be trusted."""

    EXACT = "exact"
    LOWER = "lower"


@dataclass(frozen=True, slots=True)
class Witness:
    """The two nearest points, a's first, in mm."""

    from_mm: Vector
    to_mm: Vector

    @property
    def length_mm(self) -> float:
        """Return the distance between the two points."""
        return math.dist(self.from_mm, self.to_mm)

    @property
    def axis(self) -> Axis | None:
        """Return the axis along which alone the points differ, or None."""
        moved = [
            axis
            for axis in Axis
            if abs(self.from_mm[axis.index] - self.to_mm[axis.index])
            > CONTACT_TOLERANCE_MM
        ]
        return moved[0] if len(moved) == 1 else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Overlap:
    """The shortest shift of b along one axis, a staying, that frees the two."""

    axis: Axis
    mm: float
    sign: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Relation:
    """Everything a table, a drawing or a check by hand needs of one pair.

    Parameters
    ----------
    a, b : str
        Names of the bodies, in the order asked.
    gap_mm : float
        Least distance in space; 0 when interfering, never negative.
    bound : Bound
        ``LOWER`` where only a lower bound was asked for (the pair is farther apart
        than the request's limit); the witness is then None.
    witness : Witness or None
        The two nearest points; None when interfering.
    overlap : Overlap or None
        What must give; only when interfering.
    """

    a: str
    b: str
    state: State
    gap_mm: float
    bound: Bound
    witness: Witness | None
    overlap: Overlap | None
