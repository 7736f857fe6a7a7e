"""A body: solids in place, with their convex cells kept beside them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field
from typing import TypeAlias

import numpy as np

from layout.geometry.bodies.outside import outside
from layout.geometry.errors import EmptyBodyError
from layout.geometry.pairs.interference import CUBE_MM, worn
from layout.geometry.pairs.runs import first_least
from layout.geometry.solids.boxes import Boxes
from layout.geometry.solids.cells import Cells, Floats, Ints, cut
from layout.geometry.solids.solid import Solid, are_rectangles
from layout.geometry.space import ORIGIN, Box, Vector, plus
from layout.values import dataclass

__all__ = ["Body", "Shape", "shapes", "shapes_of_rows"]


@dataclass(frozen=True, slots=True)
class Shape:
    """Solids at their own origin, cut once; bodies in other places share it.

    Attributes
    ----------
    cells : Cells
        What the solids enclose, in convex pieces.
    rows : array of shape (20, n), mm
        The cells' rows, and after them, in the same form, where the low corner of
        the cube may stand in each.
    bounds : Box
        The smallest box around them, mm.
    corners : array of shape (12,), mm
        Low and high corner of that box, then of the largest of the boxes within one
        cell (a point where there is none): what is asked of many bodies at once.
    carried_along : (bool, bool)
        Whether the shape is one outline carried straight along width, and along
        height: both for a box, neither for most.
    """

    solids: tuple[Solid, ...]
    cells: Cells = field(init=False, repr=False, compare=False)
    rows: Floats = field(init=False, repr=False, compare=False)
    bounds: Box = field(init=False, repr=False, compare=False)
    corners: Floats = field(init=False, repr=False, compare=False)
    carried_along: tuple[bool, bool] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        (made,), (carried_along,) = _made([self.solids]), _carried([self.solids])
        self._keep(made, carried_along)

    @classmethod
    def of_cells(cls, solids: tuple[Solid, ...], cells: Cells) -> Shape:
        """Return a shape of given cells: a part of what the solids enclose."""
        shape = object.__new__(cls)
        object.__setattr__(shape, "solids", solids)
        (made,) = _ready(cells.rows, np.array([len(cells)]))
        shape._keep(made, (False, False))
        return shape

    def _keep(self, made: _Made, carried_along: tuple[bool, bool]) -> None:
        told = "cells", "rows", "bounds", "corners"
        for name, value in zip(told, made, strict=True):
            object.__setattr__(self, name, value)
        object.__setattr__(self, "carried_along", carried_along)


def shapes(groups: Sequence[tuple[Solid, ...]]) -> list[Shape]:
    """Return many shapes cut at once: the same as one by one, several times faster.

    Raises
    ------
    EmptyBodyError
        If a group has no solid, or its solids enclose nothing.
    """
    made_shapes = []
    each = zip(groups, _made(groups), _carried(groups), strict=True)
    for solids, made, carried_along in each:
        shape = object.__new__(Shape)
        object.__setattr__(shape, "solids", solids)
        shape._keep(made, carried_along)
        made_shapes.append(shape)
    return made_shapes


def shapes_of_rows(groups: Sequence[Floats]) -> list[Shape]:
    """Return shapes of cells that are known already; they have no solids to draw.

    Each of shape (10, n), mm.
    """
    if not groups:
        return []
    each = [rows[:, np.argsort(rows[0] - rows[1], kind="stable")] for rows in groups]
    count = np.array([rows.shape[1] for rows in each])
    made_shapes = []
    for made in _ready(np.concatenate(each, axis=1), count):
        shape = object.__new__(Shape)
        object.__setattr__(shape, "solids", ())
        shape._keep(made, (False, False))
        made_shapes.append(shape)
    return made_shapes


def _carried(groups: Sequence[tuple[Solid, ...]]) -> list[tuple[bool, bool]]:
    """Tell which groups are one outline carried along width, and along height."""
    across = [outline for group in groups for outline in (group[0].top, group[0].side)]
    flat = are_rectangles(across)
    return [
        (flat[2 * k] and len(group) == 1, flat[2 * k + 1] and len(group) == 1)
        for k, group in enumerate(groups)
    ]


_Made: TypeAlias = tuple[Cells, Floats, Box, Floats]
"""Cells, their rows whole and worn, the box around them, and corners of boxes."""


def _made(groups: Sequence[tuple[Solid, ...]]) -> list[_Made]:
    if not all(groups):
        raise EmptyBodyError("a body needs at least one solid")
    if not groups:
        return []
    return _ready(*cut(groups))


def _ready(rows: Floats, count: Ints) -> list[_Made]:
    """Return what is kept of the cells of each group, all worked out at once."""
    if not count.all():
        raise EmptyBodyError("the outlines of this body enclose no volume")
    both = np.concatenate([rows, worn(rows, CUBE_MM)])
    both.setflags(write=False)
    each = np.split(both, np.cumsum(count)[:-1], axis=1)
    cells = (Cells(one[:10]) for one in each)
    around = Boxes.around(rows).merged(np.cumsum(count) - count)
    inner = _inner(rows, count)
    corners = np.concatenate([around.low, around.high, inner.low, inner.high]).T
    corners.setflags(write=False)
    return [*zip(cells, each, around.told(), corners, strict=True)]


def _inner(rows: Floats, count: Ints) -> Boxes:
    """Return the largest box within one cell of each group."""
    boxes = Boxes.within(rows)
    size = np.maximum(boxes.high - boxes.low, 0.0).prod(axis=0)
    owner = np.repeat(np.arange(len(count)), count)
    best = boxes.take(first_least(owner, -size))
    return Boxes(best.low, np.maximum(best.low, best.high))


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
