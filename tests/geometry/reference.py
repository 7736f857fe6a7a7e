"""Independent answers in space: whole concave solids, by an outside 3D library.

A solid is one outline carried along width, intersected with the other carried along
height.  Prisms are made as double-precision meshes straight from the outlines' corners:
the library's own 2D input would round them to a grid of some 1e-8 mm, which steep
faces make large.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import reduce
from typing import TypeAlias

import manifold3d
import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from layout.geometry.bodies.body import Body
from layout.geometry.solids.solid import Solid
from layout.geometry.space import Vector

__all__ = ["Manifold", "common_volume_mm3", "gap_mm", "manifold", "search_length_mm"]

Points: TypeAlias = NDArray[np.float64]
Manifold: TypeAlias = manifold3d.Manifold


def manifold(body: Body) -> Manifold:
    """Return the body in place as one closed mesh."""
    solids = [_solid(solid, body.at_mm) for solid in body.shape.solids]
    return reduce(lambda whole, more: whole + more, solids)


def gap_mm(a: Manifold, b: Manifold) -> float:
    """Return the least distance, 0 for bodies that meet."""
    return float(a.min_gap(b, search_length_mm(a, b)))


def search_length_mm(a: Manifold, b: Manifold) -> float:
    """Return the diagonal of the box around both bodies."""
    boxes = np.array([a.bounding_box(), b.bounding_box()])
    return math.dist(boxes[:, :3].min(axis=0), boxes[:, 3:].max(axis=0))


def common_volume_mm3(a: Manifold, b: Manifold) -> float:
    """Return the volume that two bodies share."""
    return float((a ^ b).volume())


def _solid(solid: Solid, at_mm: Vector) -> Manifold:
    """Return both prisms' common part; each juts out past the other's faces."""
    (x, y, z) = at_mm
    low, high = solid.bounds.low, solid.bounds.high
    across = _prism(solid.side, (low[2] - 1, high[2] + 1), height_axis=2)
    upright = _prism(solid.top, (low[1] - 1, high[1] + 1), height_axis=1)
    whole: Manifold = (across ^ upright).translate((x, y, z))
    return whole


def _prism(
    outline: Polygon, span: tuple[float, float], *, height_axis: int
) -> Manifold:
    outer = shapely.geometry.polygon.orient(outline)
    rings = [np.array(r.coords)[:-1] for r in (outer.exterior, *outer.interiors)]
    caps = np.asarray(manifold3d.triangulate(rings), dtype=np.uint32)
    flat = np.concatenate(rings)
    corners = np.concatenate([_placed(flat, level, height_axis) for level in span])
    faces = np.concatenate([caps[:, ::-1], caps + len(flat), _walls(rings, len(flat))])
    if height_axis == 1:  # y and z change places, which turns every face inside out
        faces = faces[:, ::-1]
    mesh = manifold3d.Mesh64(corners, np.ascontiguousarray(faces, dtype=np.uint64))
    solid = Manifold(mesh)
    assert solid.status() == manifold3d.Error.NoError
    return solid


def _placed(flat: Points, level: float, height_axis: int) -> Points:
    """Return the outline's corners in space, at one level of the third axis."""
    return np.insert(flat, height_axis, level, axis=1)


def _walls(rings: Sequence[Points], corners: int) -> NDArray[np.uint32]:
    """Return two triangles for every edge of every ring."""
    faces, start = [], 0
    for ring in rings:
        here = start + np.arange(len(ring))
        after = start + (np.arange(len(ring)) + 1) % len(ring)
        faces += [
            np.column_stack([here, after, after + corners]),
            np.column_stack([here, after + corners, here + corners]),
        ]
        start += len(ring)
    return np.concatenate(faces).astype(np.uint32)
