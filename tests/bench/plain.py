"""What one would write without the kernel: a plain loop of shapely calls a pair.

It knows prisms along width only: the distance of the side outlines and the interval
between the widths are square to one another, so their root sum of squares is the gap.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from shapely.affinity import translate
from shapely.geometry import Polygon

from layout.geometry.bodies.body import Body
from layout.geometry.space import Vector

__all__ = ["Prism", "loop", "prism", "slide"]

Answer = tuple[bool, float]
"""Whether the two interfere, and their gap in mm."""

_AREA_MM2 = 1e-6
"""Common area that counts: outlines which only touch share less by rounding."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Prism:
    """Both outlines in place, and the width covered."""

    side: Polygon
    top: Polygon
    z0: float
    z1: float

    def moved(self, by_mm: Vector) -> Prism:
        """Return the prism with its outlines moved."""
        x, y, z = by_mm
        return Prism(
            side=translate(self.side, x, y),
            top=translate(self.top, x, z),
            z0=self.z0 + z,
            z1=self.z1 + z,
        )


def prism(body: Body) -> Prism:
    """Return a body of one solid, a side outline carried along width, in place."""
    (solid,) = body.shape.solids
    low, high = solid.bounds.low, solid.bounds.high
    at_origin = Prism(side=solid.side, top=solid.top, z0=low[2], z1=high[2])
    return at_origin.moved(body.at_mm)


def loop(pairs: Iterable[tuple[Prism, Prism]]) -> list[Answer]:
    """Return how each pair stands, one after the other."""
    answers = []
    for a, b in pairs:
        away = a.side.distance(b.side)
        across = max(0.0, a.z0 - b.z1, b.z0 - a.z1)
        common = a.side.intersection(b.side).area, a.top.intersection(b.top).area
        interfering = min(common) > _AREA_MM2
        answers.append((interfering, 0.0 if interfering else math.hypot(away, across)))
    return answers


def slide(
    body: Prism, moves: Sequence[Vector], others: Sequence[Prism]
) -> list[Answer]:
    """Return how a body stands to all others at each of its places."""
    answers = []
    for move in moves:
        here = body.moved(move)
        answers += loop((here, other) for other in others)
    return answers
