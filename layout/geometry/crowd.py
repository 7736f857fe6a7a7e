"""Bodies made ready for many questions: boxes, placed outlines and cells, each once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray

from layout.geometry.body import Body
from layout.geometry.boxes import Boxes
from layout.geometry.gathered import Gathered, gather
from layout.geometry.space import Axis

__all__ = ["CARRIED", "Crowd"]

CARRIED: Final = (Axis.WIDTH, Axis.HEIGHT)
"""The axes along which an outline can be carried; columns of ``Crowd.carried``."""


@dataclass(frozen=True, eq=False)
class Crowd:
    """Bodies in place, with what queries need of them; each is made when first asked.

    No slots, since a cached value needs a place of its own.
    """

    bodies: tuple[Body, ...]

    @classmethod
    def of(cls, bodies: Sequence[Body] | Crowd) -> Crowd:
        """Return the bodies made ready; a crowd is ready already."""
        return bodies if isinstance(bodies, Crowd) else cls(tuple(bodies))

    @cached_property
    def boxes(self) -> Boxes:
        """The box around each body."""
        return Boxes.of_bodies(self.bodies)

    @cached_property
    def carried(self) -> NDArray[np.bool_]:
        """Which bodies are one outline carried along which axis, shape (n, 2)."""
        along = [body.shape.carried_along for body in self.bodies]
        return np.array(along, bool).reshape(-1, 2)

    @cached_property
    def sides(self) -> NDArray[np.object_]:
        """Side outlines in place of the bodies carried along width."""
        return self._placed(0)

    @cached_property
    def tops(self) -> NDArray[np.object_]:
        """Top outlines in place of the bodies carried along height."""
        return self._placed(1)

    @cached_property
    def cells(self) -> Gathered:
        """The cells of all bodies in place."""
        return gather(self.bodies)

    def _placed(self, column: int) -> NDArray[np.object_]:
        """Return outlines in place: made once at their origin, moved as arrays."""
        placed = np.full(len(self.bodies), None, dtype=object)
        pick = np.flatnonzero(self.carried[:, column])
        chosen = [self.bodies[k] for k in pick]
        outlines = np.empty(len(chosen), dtype=object)
        outlines[:] = [body.shape.outline(CARRIED[column]) for body in chosen]
        at = np.array([body.at_mm for body in chosen]).reshape(-1, 3)
        shift = at[:, [0, 3 - CARRIED[column].index]]
        points = shapely.get_coordinates(outlines)
        points += np.repeat(shift, shapely.get_num_coordinates(outlines), axis=0)
        placed[pick] = shapely.set_coordinates(outlines, points)
        return placed
