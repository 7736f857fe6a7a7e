"""A body: solids in place, with their convex cells kept beside them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from layout.geometry.cells import Cells, cut
from layout.geometry.errors import EmptyBodyError
from layout.geometry.outside import outside
from layout.geometry.solid import Solid
from layout.geometry.space import ORIGIN, Box, Vector, plus

__all__ = ["Body", "Shape", "shapes"]


@dataclass(frozen=True, slots=True)
class Shape:
    """Solids at their own origin, cut once; bodies in other places share it."""

    solids: tuple[Solid, ...]
    cells: Cells = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        if not self.solids:
            raise EmptyBodyError("a body needs at least one solid")
        (cells,) = cut([self.solids])
        if not len(cells):
            raise EmptyBodyError("the outlines of this body enclose no volume")
        object.__setattr__(self, "cells", cells)

    @classmethod
    def of_cells(cls, solids: tuple[Solid, ...], cells: Cells) -> Shape:
        """Return a shape of given cells: all, or a part, of what the solids enclose."""
        shape = object.__new__(cls)
        object.__setattr__(shape, "solids", solids)
        object.__setattr__(shape, "cells", cells)
        return shape


def shapes(groups: Sequence[tuple[Solid, ...]]) -> list[Shape]:
    """Return many shapes cut at once: the same as one by one, several times faster.

    Raises
    ------
    EmptyBodyError
        If a group has no solid, or its solids enclose nothing.
    """
    if not all(groups):
        raise EmptyBodyError("a body needs at least one solid")
    cells = cut(groups) if groups else []
    if not all(map(len, cells)):
        raise EmptyBodyError("the outlines of a body enclose no volume")
    return [Shape.of_cells(*each) for each in zip(groups, cells, strict=True)]


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
        return self.shape.cells.bounds.moved(self.at_mm)

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
