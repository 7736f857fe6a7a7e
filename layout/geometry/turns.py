"""Where a stiff hose may turn: beside its ends, and about the edges of boxes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import product
from typing import Final

from layout.geometry.space import Box, Vector
from layout.values import dataclass

__all__ = ["BESIDE", "CLEAR_MM", "End", "round_edges"]

BESIDE: Final = 1.0 - math.sqrt(0.5)
"""How far off both faces of an edge a corner lies whose arc touches it, per radius."""
CLEAR_MM: Final = 0.5
"""How far off a box a hose turns at least."""
_TWO_ARCS: Final = 2.01
"""What two right angles at the ends of one leg take of it, per radius."""


@dataclass(frozen=True, slots=True)
class End:
    """An end of a hose: where it leaves its fitting, and which way.

    ``out`` is a unit vector, or None for an elbow that turns any way.
    """

    at_mm: Vector
    out: Vector | None = None

    def turn(self, radius_mm: float) -> Vector:
        """Return where the hose turns first: one radius out, or at its elbow."""
        if self.out is None:
            return self.at_mm
        x, y, z = (
            at + radius_mm * step for at, step in zip(self.at_mm, self.out, strict=True)
        )
        return x, y, z

    def beside(self, radius_mm: float) -> list[Vector]:
        """Return where a hose that comes from behind turns before its last turn.

        Beside that one, and there farther back, so that it comes past it in line.
        """
        if self.out is None:
            return []
        off_mm, turn = _TWO_ARCS * radius_mm, self.turn(radius_mm)
        across = [k for k in range(3) if self.out[k] == 0.0]
        found = []
        for k, side, back in product(across, (-off_mm, off_mm), (0.0, off_mm)):
            x, y, z = (
                at + side * (i == k) - back * step
                for i, (at, step) in enumerate(zip(turn, self.out, strict=True))
            )
            found.append((x, y, z))
        return found


def round_edges(
    boxes: Sequence[Box], ends: Sequence[Vector], radius_mm: float
) -> list[Vector]:
    """Return where a hose may turn about boxes.

    At each corner of a box, close by for a slight turn and so far off that the arc of
    a right angle clears it, and on each edge abreast of the ends, as far off.
    """
    found: dict[Vector, None] = {}
    far_mm = BESIDE * radius_mm + CLEAR_MM
    for box in boxes:
        found |= dict.fromkeys(_corners(_around(box, CLEAR_MM)))
        spans = _around(box, far_mm)
        found |= dict.fromkeys(_corners(spans))
        for k, end in ((k, end[k]) for k in range(3) for end in ends):
            if box.low[k] < end < box.high[k]:
                edges = [*spans[:k], (end,), *spans[k + 1 :]]
                found |= dict.fromkeys(_corners(edges))
    return [*found]


def _around(box: Box, off_mm: float) -> list[tuple[float, ...]]:
    ends = zip(box.low, box.high, strict=True)
    return [(low - off_mm, high + off_mm) for low, high in ends]


def _corners(spans: Sequence[Sequence[float]]) -> Iterator[Vector]:
    xs, ys, zs = spans
    yield from product(xs, ys, zs)
