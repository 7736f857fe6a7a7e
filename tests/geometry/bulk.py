"""Bodies in bulk: many separate pairs in one call, and other bodies made of them."""

from __future__ import annotations

from collections.abc import Iterable

import shapely
from shapely.geometry import Polygon

from layout.geometry.bodies.body import Body
from layout.geometry.relations.query import relations
from layout.geometry.relations.relation import Overlap, Relation
from layout.geometry.solids.solid import Solid
from layout.geometry.space import Axis, Vector

__all__ = ["along", "freed_by", "hull", "related"]


def related(
    pairs: Iterable[tuple[Body, Body]], *, overlaps: bool = True
) -> tuple[Relation, ...]:
    """Return how each pair's bodies stand, in order."""
    bodies = [body for pair in pairs for body in pair]
    index = [(i, i + 1) for i in range(0, len(bodies), 2)]
    return relations(bodies, index, overlaps=overlaps)


def along(axis: Axis, mm: float) -> Vector:
    """Return the vector of a length along an axis."""
    x, y, z = (mm if each is axis else 0.0 for each in Axis)
    return (x, y, z)


def freed_by(overlap: Overlap, less_mm: float = 0.0) -> Vector:
    """Return the shift that an overlap states, or one that is shorter."""
    return along(overlap.axis, overlap.sign * (overlap.mm - less_mm))


def hull(solid: Solid) -> Solid:
    """Return the solid without hollows: larger, over the same stretch of depth."""
    side, top = (
        Polygon(shapely.get_coordinates(outline.convex_hull))
        for outline in (solid.side, solid.top)
    )
    return Solid(side, top)
