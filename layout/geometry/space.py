"""The words for space: axes, directions, vectors, boxes."""

from __future__ import annotations

from enum import Enum
from functools import cached_property
from typing import TypeAlias

from layout.values import dataclass

__all__ = ["ORIGIN", "Axis", "Box", "Direction", "Vector", "plus"]

Vector: TypeAlias = tuple[float, float, float]
"""x, y, z in mm: depth to the front, height to the top, width to the side panel."""

ORIGIN: Vector = (0.0, 0.0, 0.0)


class Axis(Enum):
    """One of the three axes; ``value`` is the word used in files and on drawings."""

    DEPTH = "depth"
    HEIGHT = "height"
    WIDTH = "width"

    # Looked up very often: an enum would hash its name, in Python.
    __hash__ = object.__hash__

    @cached_property
    def index(self) -> int:
        """The place of the axis in a vector."""
        return [*Axis].index(self)


class Direction(Enum):
    """One of the six axis-parallel directions, named for the case's faces."""

    REAR = (Axis.DEPTH, -1)
    FRONT = (Axis.DEPTH, 1)
    DOWN = (Axis.HEIGHT, -1)
    UP = (Axis.HEIGHT, 1)
    TRAY = (Axis.WIDTH, -1)
    PANEL = (Axis.WIDTH, 1)

    __hash__ = object.__hash__

    @cached_property
    def axis(self) -> Axis:
        """The axis that the direction runs along."""
        axis, _ = self.value
        return axis

    @cached_property
    def sign(self) -> int:
        """1 along the axis, -1 against it."""
        _, sign = self.value
        return sign

    @cached_property
    def vector(self) -> Vector:
        """The unit vector."""
        x, y, z = (self.sign if axis is self.axis else 0 for axis in Axis)
        return (float(x), float(y), float(z))

    @cached_property
    def opposite(self) -> Direction:
        """The direction that runs the other way."""
        return Direction((self.axis, -self.sign))


@dataclass(frozen=True, slots=True)
class Box:
    """An axis-parallel box in mm, from its low corner to its high corner."""

    low: Vector
    high: Vector

    def __post_init__(self) -> None:
        (x0, y0, z0), (x1, y1, z1) = self.low, self.high
        if x0 > x1 or y0 > y1 or z0 > z1:
            raise ValueError(f"box runs backwards: {self.low} to {self.high}")

    def moved(self, by: Vector) -> Box:
        """Return the box shifted by a vector."""
        return Box(plus(self.low, by), plus(self.high, by))

    def between(self, axis: Axis, span: tuple[float, float]) -> Box:
        """Return what the box has between two places along an axis."""
        low, high = list(self.low), list(self.high)
        low[axis.index], high[axis.index] = span
        return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))

    def meets(self, other: Box) -> bool:
        """Tell whether two boxes share a volume; faces that touch share none."""
        (x0, y0, z0), (x1, y1, z1) = self.low, self.high
        (u0, v0, w0), (u1, v1, w1) = other.low, other.high
        # written out: asked thousands of times a check
        return x0 < u1 and u0 < x1 and y0 < v1 and v0 < y1 and z0 < w1 and w0 < z1


def plus(a: Vector, b: Vector) -> Vector:
    """Return the sum of two vectors."""
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])
