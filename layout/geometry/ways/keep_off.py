"""One hose past another: their middles no nearer than the hose is wide."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise, product
from typing import Final

import numpy as np

from layout.geometry.solids.cells import Floats
from layout.geometry.space import Vector
from layout.geometry.ways.legs import Legs

__all__ = ["Laid", "beside", "square_to"]

_EVERY_MM: Final = 4.0
"""How close together points on a hose lie: a distance is out by 0.2 at most."""
_STEPS: Final = (-1.0, 0.0, 1.0)
_SIDES: Final = [(x, y, z) for x, y, z in product(_STEPS, repeat=3) if x or y or z]
_SQUARE: Final = [each for each in _SIDES if math.hypot(*each) == 1.0]


class Laid:
    """A hose that lies already, given as points on its bent way.

    Parameters
    ----------
    line : sequence of Vector
    apart_mm : float
        How near another's middle may come.
    """

    __slots__ = ("apart_mm", "at")

    def __init__(self, line: Sequence[Vector], apart_mm: float) -> None:
        parts = [_parts(np.array(a), np.array(b)) for a, b in pairwise(line)]
        self.at: Floats = np.concatenate([*parts, np.array(line[-1:], float)])
        self.apart_mm = apart_mm

    def clear_of(self, line: Sequence[Vector]) -> bool:
        """Tell whether a line of points keeps off all along."""
        ends = np.array(line, float)
        begin, run = ends[:-1], np.diff(ends, axis=0)
        square = np.maximum((run**2).sum(axis=1), 1e-18)[:, None]
        to = self.at[None] - begin[:, None]
        part = np.clip((to * run[:, None]).sum(axis=2) / square, 0.0, 1.0)
        off = to - part[:, :, None] * run[:, None]
        return bool(((off**2).sum(axis=2) >= self.apart_mm**2).all())

    def bar(self, legs: Legs) -> None:
        """Take out the legs that come too near wherever their turns may begin.

        Those take a radius of a leg at most, so what lies farther in is straight.
        """
        i, j = np.nonzero(np.triu(legs.kept | legs.kept.T))
        long = legs.mm[i, j] > 2 * legs.radius_mm
        i, j = i[long], j[long]
        begin, mm = legs.at[i], legs.mm[i, j][:, None]
        along = (legs.at[j] - begin) / mm
        shift = (begin * along).sum(axis=1)[:, None]
        level = along @ self.at.T - shift
        part = np.clip(level, legs.radius_mm, mm - legs.radius_mm)
        square = (self.at**2).sum(axis=1) + (begin**2).sum(axis=1)[:, None]
        square = square - 2.0 * begin @ self.at.T - 2.0 * part * level + part**2
        near = (square < self.apart_mm**2).any(axis=1)
        i, j = i[near], j[near]
        legs.mm[i, j] = legs.mm[j, i] = np.inf
        legs.kept[i, j] = legs.kept[j, i] = False


def beside(points: Sequence[Vector], off_mm: float) -> list[Vector]:
    """Return places to every side of some corners, where a second hose may turn."""
    return _off(points, off_mm, _SIDES)


def square_to(points: Sequence[Vector], off_mm: float) -> list[Vector]:
    """Return places off some corners along each axis, either way."""
    return _off(points, off_mm, _SQUARE)


def _off(
    points: Sequence[Vector], off_mm: float, sides: Sequence[Vector]
) -> list[Vector]:
    at = np.array(points, float)[:, None] + off_mm * np.array(sides)
    return [(x, y, z) for x, y, z in at.reshape(-1, 3).tolist()]


def _parts(begin: Floats, end: Floats) -> Floats:
    steps = max(1, int(np.ceil(np.linalg.norm(end - begin) / _EVERY_MM)))
    parts: Floats = begin + np.arange(steps)[:, None] / steps * (end - begin)
    return parts
