"""A body: solids in place, with their convex cells kept beside them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from shapely.geometry import Polygon

from layout.geometry.cells import Cells, Floats, cut
from layout.geometry.errors import EmptyBodyError
from layout.geometry.interference import CUBE_MM, worn
from layout.geometry.outside import outside
from layout.geometry.solid import Solid, is_rectangle
from layout.geometry.space import ORIGIN, Axis, Box, Vector, plus

__all__ = ["Body", "Shape", "shapes"]


@dataclass(frozen=True, slots=True)
class Shape:
    """Solids at their own origin, cut once; bodies in other places share it.

    Attributes
    ----------
    cells : Cells
        What the solids enclose, in convex pieces.
    worn : array of shape (10, n), mm
        Where the low corner of the cube may stand in each cell.
    bounds : Box
        The smallest box around them, mm.
    carried : tuple of Axis
        Axes along which the shape is one outline carried straight: width, height,
        both for a box, none for the rest.
    """

    solids: tuple[Solid, ...]
    cells: Cells = field(init=False, repr=False, compare=False)
    worn: Floats = field(init=False, repr=False, compare=False)
    bounds: Box = field(init=False, repr=False, compare=False)
    carried: tuple[Axis, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        (made,) = _made([self.solids])
        self._keep(made, _carried(self.solids))

    @classmethod
    def of_cells(cls, solids: tuple[Solid, ...], cells: Cells) -> Shape:
        """Return a shape of given cells: a part of what the solids enclose."""
        shape = object.__new__(cls)
        object.__setattr__(shape, "solids", solids)
        shape._keep((cells, worn(cells.rows, CUBE_MM)), ())
        return shape

    def _keep(self, made: tuple[Cells, Floats], carried: tuple[Axis, ...]) -> None:
        cells, places = made
        if not len(cells):
            raise EmptyBodyError("the outlines of this body enclose no volume")
        object.__setattr__(self, "cells", cells)
        object.__setattr__(self, "worn", places)
        object.__setattr__(self, "bounds", cells.bounds)
        object.__setattr__(self, "carried", carried)

    @property
    def carried_along(self) -> tuple[bool, bool]:
        """Tell whether the shape is carried along width, and along height."""
        return Axis.WIDTH in self.carried, Axis.HEIGHT in self.carried

    def outline(self, axis: Axis) -> Polygon:
        """Return the outline that is carried along an axis in ``carried``."""
        return self.solids[0].side if axis is Axis.WIDTH else self.solids[0].top


def _carried(solids: Sequence[Solid]) -> tuple[Axis, ...]:
    if len(solids) > 1:
        return ()
    outlines = ((Axis.WIDTH, solids[0].top), (Axis.HEIGHT, solids[0].side))
    return tuple(axis for axis, across in outlines if is_rectangle(across))


def shapes(groups: Sequence[tuple[Solid, ...]]) -> list[Shape]:
    """Return many shapes cut at once: the same as one by one, several times faster.

    Raises
    ------
    EmptyBodyError
        If a group has no solid, or its solids enclose nothing.
    """
    made_shapes = []
    for solids, made in zip(groups, _made(groups), strict=True):
        shape = object.__new__(Shape)
        object.__setattr__(shape, "solids", solids)
        shape._keep(made, _carried(solids))
        made_shapes.append(shape)
    return made_shapes


def _made(groups: Sequence[tuple[Solid, ...]]) -> list[tuple[Cells, Floats]]:
    """Return the cells of each group of solids, whole and worn."""
    if not all(groups):
        raise EmptyBodyError("a body needs at least one solid")
    if not groups:
        return []
    cells = cut(groups)
    places = worn(np.concatenate([each.rows for each in cells], axis=1), CUBE_MM)
    ends = np.cumsum([len(each) for each in cells])[:-1]
    return [*zip(cells, np.split(places, ends, axis=1), strict=True)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """A named shape in place.

    Parameters
    ----------
    name : str
        The part's key, or ``part/body``.
    shape : Shape
        Solids and cells at their own origin.
    at_mm : Vector
        Where the origin stands, mm.
    """

    name: str
    shape: Shape
    at_mm: Vector = ORIGIN

    @property
    def bounds(self) -> Box:
        """Return the smallest box around the body, mm."""
        return self.shape.bounds.moved(self.at_mm)

    def moved(self, by_mm: Vector) -> Body:
        """Return the body shifted by a vector; its cells are shared, not cut anew."""
        return Body(name=self.name, shape=self.shape, at_mm=plus(self.at_mm, by_mm))

    def outside(self, boxes: Sequence[Box]) -> Body | None:
        """Return what of the body lies outside the boxes, or None for nothing."""
        x, y, z = self.at_mm
        cells = self.shape.cells
        for box in boxes:
            cells = outside(cells, box.moved((-x, -y, -z)))
        if not len(cells):
            return None
        shape = Shape.of_cells(self.shape.solids, cells)
        return Body(name=self.name, shape=shape, at_mm=self.at_mm)
