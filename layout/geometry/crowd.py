"""Bodies made ready for many questions: boxes, placed outlines and cells, each once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray

from layout.geometry.body import Body, Shape
from layout.geometry.boxes import Boxes
from layout.geometry.cells import Floats, Ints
from layout.geometry.gathered import Gathered, gather
from layout.geometry.space import Axis, Vector

__all__ = ["CARRIED", "Crowd"]

CARRIED: Final = (Axis.WIDTH, Axis.HEIGHT)
"""The axes along which an outline can be carried; columns of ``Crowd.carried``."""


@dataclass(frozen=True, eq=False)
class Crowd:
    """Bodies in place, with what queries need of them; each is made when first asked.

    Parameters
    ----------
    names : tuple of str
    shapes : tuple of Shape
        Each once, however many bodies share it.
    which : array of shape (n,)
        The shape of each body.
    at : array of shape (n, 3), mm
        Where each body stands.

    Notes
    -----
    No slots, since a cached value needs a place of its own.
    """

    names: tuple[str, ...]
    shapes: tuple[Shape, ...]
    which: Ints
    at: Floats

    @classmethod
    def of(cls, bodies: Sequence[Body] | Crowd) -> Crowd:
        """Return the bodies made ready; a crowd is ready already."""
        if isinstance(bodies, Crowd):
            return bodies
        shapes = {id(body.shape): body.shape for body in bodies}
        place = {key: k for k, key in enumerate(shapes)}
        return cls(
            tuple(body.name for body in bodies),
            tuple(shapes.values()),
            np.array([place[id(body.shape)] for body in bodies], np.intp),
            np.array([body.at_mm for body in bodies]).reshape(-1, 3),
        )

    @classmethod
    def of_places(
        cls, body: Body, moves_mm: Sequence[Vector], others: Sequence[Body]
    ) -> Crowd:
        """Return one body at many places, then the others."""
        rest = cls.of(others)
        moves = np.array(moves_mm).reshape(-1, 3)
        first = np.zeros(len(moves), np.intp)
        return cls(
            (*[body.name] * len(moves), *rest.names),
            (body.shape, *rest.shapes),
            np.concatenate([first, rest.which + 1]),
            np.concatenate([moves + body.at_mm, rest.at]),
        )

    def __len__(self) -> int:
        return len(self.which)

    def body(self, k: int) -> Body:
        """Return one of the bodies."""
        x, y, z = self.at[k].tolist()
        shape = self.shapes[self.which[k]]
        return Body(name=self.names[k], shape=shape, at_mm=(x, y, z))

    @cached_property
    def boxes(self) -> Boxes:
        """The box around each body."""
        bounds = [shape.bounds for shape in self.shapes]
        low = np.array([each.low for each in bounds]).reshape(-1, 3)[self.which]
        high = np.array([each.high for each in bounds]).reshape(-1, 3)[self.which]
        return Boxes((low + self.at).T.copy(), (high + self.at).T.copy())

    @cached_property
    def carried(self) -> NDArray[np.bool_]:
        """Which bodies are one outline carried along which axis, shape (n, 2)."""
        along = [shape.carried_along for shape in self.shapes]
        return np.array(along, bool).reshape(-1, 2)[self.which]

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
        return gather(self.shapes, self.which, self.at)

    def _placed(self, column: int) -> NDArray[np.object_]:
        """Return outlines in place: made once at their origin, moved as arrays."""
        axis = CARRIED[column]
        outlines = np.empty(len(self.shapes), dtype=object)
        outlines[:] = [shape.outline(axis) for shape in self.shapes]
        pick = np.flatnonzero(self.carried[:, column])
        placed = np.full(len(self), None, dtype=object)
        chosen = outlines[self.which[pick]]
        points = shapely.get_coordinates(chosen)
        shift = self.at[pick][:, [0, 3 - axis.index]]
        points += np.repeat(shift, shapely.get_num_coordinates(chosen), axis=0)
        placed[pick] = shapely.set_coordinates(chosen, points)
        return placed
