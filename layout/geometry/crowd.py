"""Bodies made ready for many questions: boxes, placed outlines and cells, each once."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray

from layout.geometry.body import Body, Shape
from layout.geometry.boxes import Boxes
from layout.geometry.cells import Floats, Ints
from layout.geometry.gathered import Gathered, gather
from layout.geometry.space import Axis, Box, Vector
from layout.values import dataclass

__all__ = ["CARRIED", "Crowd"]

CARRIED: Final = (Axis.WIDTH, Axis.HEIGHT)
"""The axes along which an outline can be carried; rows of ``Crowd.carried``."""


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
        return self._in_place([shape.bounds for shape in self.shapes])

    @cached_property
    def inner(self) -> Boxes:
        """A box within each body."""
        return self._in_place([shape.inner for shape in self.shapes])

    def _in_place(self, boxes: list[Box]) -> Boxes:
        ends = np.array([(*each.low, *each.high) for each in boxes]).reshape(-1, 6).T
        low, high = ends.reshape(2, 3, -1).take(self.which, axis=2)
        return Boxes(low + self.at.T, high + self.at.T)

    @cached_property
    def carried(self) -> NDArray[np.bool_]:
        """Which bodies are one outline carried along which axis, shape (2, n)."""
        along = [shape.carried_along for shape in self.shapes]
        return np.array(along, bool).reshape(-1, 2).T.take(self.which, axis=1)

    @cached_property
    def cells(self) -> Gathered:
        """The cells of all bodies in place."""
        return gather(self.shapes, self.which, (self.at, self.boxes))

    def cells_of(self, index: Ints) -> tuple[Gathered, Ints]:
        """Return the cells that bodies need, and the bodies' places among them.

        Those of all bodies, if they are made already or half of them are asked for.
        """
        body, place = _numbered(index, len(self))
        if "cells" in self.__dict__ or 2 * len(body) >= len(self):
            return self.cells, index
        shape, of_shape = _numbered(self.which[body], len(self.shapes))
        own = [self.shapes[k] for k in shape.tolist()]
        return gather(own, of_shape, (self.at[body], self.boxes.take(body))), place

    def outlines(self, axis: Axis, index: Ints) -> NDArray[np.object_]:
        """Return outlines in place of bodies that are carried along an axis.

        Each is moved when first asked for, all of them as arrays.
        """
        placed, known = self._placed[CARRIED.index(axis)]
        missing = index[~known[index]]
        if len(missing):
            body, _ = _numbered(missing, len(self))
            own = [self.shapes[k].outline(axis) for k in self.which[body].tolist()]
            points = shapely.get_coordinates(own)
            shift = self.at[body][:, [0, 3 - axis.index]]
            points += np.repeat(shift, shapely.get_num_coordinates(own), axis=0)
            # The array is new: outlines at their origin are left as they are.
            placed[body] = shapely.set_coordinates(np.array(own), points)
            known[body] = True
        outlines: NDArray[np.object_] = placed[index]
        return outlines

    @cached_property
    def _placed(self) -> list[tuple[NDArray[np.object_], NDArray[np.bool_]]]:
        """Outlines in place, and which are made, for each axis in ``CARRIED``."""
        return [(np.full(len(self), None), np.zeros(len(self), bool)) for _ in CARRIED]


def _numbered(index: Ints, count: int) -> tuple[Ints, Ints]:
    """Return which of so many are asked for, and the index in terms of those."""
    asked = np.zeros(count, bool)
    asked[index] = True
    return np.flatnonzero(asked), (np.cumsum(asked) - 1)[index]
