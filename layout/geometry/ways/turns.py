"""Where a stiff hose may turn: beside its ends, and about the edges of boxes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import product
from typing import Final

import numpy as np

from layout.geometry.solids.cells import Floats
from layout.geometry.space import Box, Vector
from layout.values import dataclass

__all__ = [
    "BESIDE",
    "CLEAR_MM",
    "TWO_ARCS",
    "End",
    "arc",
    "bent",
    "inside",
    "near",
    "round_edges",
]

BESIDE: Final = 1.0 - math.sqrt(0.5)
"""How far off both faces of an edge a corner lies whose arc touches it, per radius."""
CLEAR_MM: Final = 0.5
"""How far off a box a hose turns at least."""
TWO_ARCS: Final = 2.01
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
        off_mm, turn = TWO_ARCS * radius_mm, self.turn(radius_mm)
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
    low = np.array([each.low for each in boxes], float).reshape(-1, 3)
    high = np.array([each.high for each in boxes], float).reshape(-1, 3)
    close = np.stack([low - CLEAR_MM, high + CLEAR_MM])
    far_mm = BESIDE * radius_mm + CLEAR_MM
    far = np.stack([low - far_mm, high + far_mm])
    found = [_corners(close), _corners(far)]
    for k, end in ((k, end[k]) for k in range(3) for end in ends):
        abreast = (low[:, k] < end) & (end < high[:, k])
        edges = far[:, abreast].copy()
        edges[:, :, k] = end
        found.append(_corners(edges))
    at = np.concatenate(found).tolist()
    return [*dict.fromkeys((x, y, z) for x, y, z in at)]


def bent(points: Sequence[Vector], radius_mm: float) -> tuple[Vector, ...]:
    """Return a way with every corner rounded by one radius, as points in order.

    However its turns share a leg: what they take of it is not held against its length.
    """
    at = np.array(points, float)
    out = [at[:1]]
    for before, corner, after in zip(at, at[1:], at[2:], strict=False):
        turn = arc(before, corner, after, radius_mm=radius_mm)
        out.append(corner[None] if turn is None else turn)
    every = np.concatenate([*out, at[-1:]]).tolist()
    return tuple((x, y, z) for x, y, z in every)


def arc(
    before: Floats, corner: Floats, after: Floats, *, radius_mm: float
) -> Floats | None:
    """Return points on the arc that rounds a corner, both its ends among them.

    None where the way goes straight on.
    """
    into, onward = (
        leg / math.sqrt(leg @ leg) for leg in (corner - before, after - corner)
    )
    cosine = float(np.clip(into @ onward, -1.0, 1.0))
    turn = math.acos(cosine)
    if turn < _STRAIGHT:
        return None
    inwards = (onward - cosine * into) / math.sin(turn)
    start = corner - radius_mm * math.tan(turn / 2) * into
    along = np.sin(turn * _PARTS) * into + (1.0 - np.cos(turn * _PARTS)) * inwards
    points: Floats = start + radius_mm * along
    return points


_STRAIGHT: Final = 1e-6
_PARTS: Final = np.linspace(0.0, 1.0, 9)[:, None]
"""Points on an arc, as parts of its turn, both ends among them."""


def inside(at: Sequence[Vector], box: Box) -> list[Vector]:
    """Return which places lie in a box or on its faces."""
    places = np.array(at, float).reshape(-1, 3)
    within = ((places >= box.low) & (places <= box.high)).all(axis=1)
    return [at[k] for k in np.flatnonzero(within).tolist()]


def near(
    at: Sequence[Vector],
    pairs: Sequence[tuple[End, End]],
    *,
    radius_mm: float,
    longer: float,
) -> list[Vector]:
    """Return the corners that ways no longer than so many straight lines may have.

    A hose passes each of its corners by less than half its radius.
    """
    places = np.array(at, float).reshape(-1, 3)
    within = np.zeros(len(places), bool)
    for pair in pairs:
        apart = sum(np.linalg.norm(places - end.at_mm, axis=1) for end in pair)
        straight_mm = math.dist(*(end.at_mm for end in pair))
        within |= apart - radius_mm <= longer * straight_mm
    return [at[k] for k in np.flatnonzero(within).tolist()]


def _corners(spans: Floats) -> Floats:
    """Return the corners of boxes, given their low and their high ones."""
    sides = [spans[pick, :, k] for k, pick in enumerate(_PICKS.T)]
    return np.stack(sides, axis=2).reshape(-1, 3)


_PICKS: Final = np.array([*product((0, 1), repeat=3)])
