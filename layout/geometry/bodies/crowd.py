"""Bodies made ready for many questions: boxes, placed outlines and cells, each once."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from itertools import chain
from operator import attrgetter
from typing import Final, TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from layout.geometry.bodies.body import Body, Shape
from layout.geometry.bodies.gathered import Gathered, gather
from layout.geometry.solids.boxes import Boxes
from layout.geometry.solids.cells import Floats, Ints
from layout.geometry.space import Axis, Vector
from layout.values import dataclass

__all__ = ["CARRIED", "Crowd", "Outlines"]

Outlines: TypeAlias = NDArray[np.object_]
"""Polygons, one a body."""

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
        at = chain.from_iterable([body.at_mm for body in bodies])
        return cls(
            tuple([body.name for body in bodies]),
            tuple(shapes.values()),
            np.array([place[id(body.shape)] for body in bodies], np.intp),
            np.fromiter(at, float, 3 * len(bodies)).reshape(-1, 3),
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
        return Boxes(self._corners[0], self._corners[1])

    @cached_property
    def inner(self) -> Boxes:
        """A box within each body."""
        return Boxes(self._corners[2], self._corners[3])

    @cached_property
    def _corners(self) -> Floats:
        """Both corners of the boxes around and within each body, shape (4, 3, n)."""
        own = np.array([shape.corners for shape in self.shapes]).reshape(-1, 12).T
        corners: Floats = own.take(self.which, axis=1).reshape(4, 3, -1) + self.at.T
        return corners

    @cached_property
    def carried(self) -> NDArray[np.bool_]:
        """Which bodies are one outline carried along which axis, shape (2, n)."""
        along = chain.from_iterable([shape.carried_along for shape in self.shapes])
        own = np.fromiter(along, bool, 2 * len(self.shapes)).reshape(-1, 2)
        return own.T.take(self.which, axis=1)

    @cached_property
    def cells(self) -> Gathered:
        """The cells of all bodies in place."""
        return gather(self._shapes_of(self.which), self.at, self.boxes)

    def cells_of(self, index: Ints) -> tuple[Gathered, Ints]:
        """Return the cells that bodies need, and the bodies' places among them.

        Those of all bodies, if they are made already or half of them are asked for.
        """
        if "cells" in self.__dict__:
            return self.cells, index
        asked = self._asked(index)
        (body,) = asked.nonzero()
        if 2 * len(body) >= len(self):
            return self.cells, index
        own = self._shapes_of(self.which.take(body))
        gathered = gather(own, self.at.take(body, axis=0), self.boxes.take(body))
        return gathered, (asked.cumsum() - 1).take(index)

    def _asked(self, index: Ints) -> NDArray[np.bool_]:
        """Tell which bodies are among those of an index."""
        asked = np.zeros(len(self), bool)
        asked[index] = True
        return asked

    def _shapes_of(self, which: Ints) -> list[Shape]:
        return [self.shapes[k] for k in which.tolist()]

    def outlines(self, axis: Axis, index: Ints) -> Outlines:
        """Return outlines in place of bodies that are carried along an axis.

        Each is moved when first asked for, all of them as arrays.
        """
        placed, made = self._placed[CARRIED.index(axis)]
        (missing,) = (self._asked(index) > made).nonzero()
        if len(missing):
            placed[missing] = self._moved(axis, missing)
            made[missing] = True
        outlines: Outlines = placed.take(index)
        return outlines

    @cached_property
    def _placed(self) -> list[tuple[Outlines, NDArray[np.bool_]]]:
        """Outlines in place, and which are made, for each axis in ``CARRIED``."""
        return [
            (np.empty(len(self), object), np.zeros(len(self), bool)) for _ in CARRIED
        ]

    def _moved(self, axis: Axis, body: Ints) -> Outlines:
        """Return the outlines of bodies, moved to where those stand."""
        outline = attrgetter("side" if axis is Axis.WIDTH else "top")
        solids = [shape.solids[0] for shape in self._shapes_of(self.which.take(body))]
        own = np.fromiter(map(outline, solids), object, len(body))
        points = shapely.get_coordinates(own)
        shift = self.at[:, [0, 3 - axis.index]].take(body, axis=0)
        points += np.repeat(shift, shapely.get_num_coordinates(own), axis=0)
        moved: Outlines = shapely.set_coordinates(own, points)
        return moved
