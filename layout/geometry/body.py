"""A body: solids in place, with their convex cells kept beside them."""

from __future__ import annotations

from dataclasses import dataclass, field

from layout.geometry.cells import Cells, cut
from layout.geometry.errors import EmptyBodyError
from layout.geometry.solid import Solid
from layout.geometry.space import ORIGIN, Box, Vector, plus

__all__ = ["Body", "Shape"]


@dataclass(frozen=True, slots=True)
class Shape:
    """Solids at their own origin, cut once; bodies in other places share it."""

    solids: tuple[Solid, ...]
    cells: Cells = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        if not self.solids:
            raise EmptyBodyError("a body needs at least one solid")
        object.__setattr__(self, "cells", cut(self.solids))
        if not len(self.cells):
            raise EmptyBodyError("the outlines of this body enclose no volume")


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
