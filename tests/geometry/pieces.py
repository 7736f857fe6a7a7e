"""Second opinions on convex pieces that are made without the kernel's cells.

Both outlines are triangulated; where the depths of a triangle of each overlap, their
common part is cut at their corners into convex pieces of eight corners.
"""

from __future__ import annotations

from itertools import pairwise, product
from typing import TypeAlias

import fcl
import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from layout.geometry.bodies.body import Body
from layout.geometry.solids.solid import Solid

__all__ = ["brute_gap_mm", "fcl_gap_mm", "pieces", "volume_mm3"]

Points: TypeAlias = NDArray[np.float64]

_QUADS = (
    (0, 1, 3, 2),
    (4, 6, 7, 5),
    (0, 4, 5, 1),
    (2, 3, 7, 6),
    (0, 2, 6, 4),
    (1, 5, 7, 3),
)
"""Faces of a piece; corner 4 i + 2 j + k is at end i of x, j of y and k of z."""
_TRIANGLES = np.array([t for a, b, c, d in _QUADS for t in ((a, b, c), (a, c, d))])
_EDGES = np.array(
    [(i, i + step) for step in (1, 2, 4) for i in range(8) if not i & step]
)


def pieces(body: Body) -> Points:
    """Return the corners of the body's convex pieces, shape (n, 8, 3)."""
    found = [piece for solid in body.shape.solids for piece in _pieces(solid)]
    corners: Points = np.array(found) + np.array(body.at_mm)
    return corners


def _pieces(solid: Solid) -> list[list[tuple[float, float, float]]]:
    found = []
    for side, top in product(_triangles(solid.side), _triangles(solid.top)):
        low = max(side[:, 0].min(), top[:, 0].min())
        high = min(side[:, 0].max(), top[:, 0].max())
        xs = np.unique(np.concatenate([side[:, 0], top[:, 0]]))
        for x in pairwise(xs[(xs >= low) & (xs <= high)].tolist()):
            ys, zs = _section(side, x), _section(top, x)
            found.append(
                [(x[i], ys[i][j], zs[i][k]) for i, j, k in product((0, 1), repeat=3)]
            )
    return found


def _triangles(outline: Polygon) -> list[Points]:
    parts = shapely.constrained_delaunay_triangles(outline).geoms
    return [shapely.get_coordinates(part)[:3] for part in parts]


def _section(triangle: Points, x: tuple[float, float]) -> list[list[float]]:
    """Return low and high at both ends of a stretch of depth free of corners."""
    spanning = [
        (p, q)
        for p, q in (sorted(triangle[[i, i - 1]].tolist()) for i in range(3))
        if p[0] <= x[0] and q[0] >= x[1] and p[0] < q[0]
    ]
    ends = [[_height(edge, at) for edge in spanning] for at in x]
    return [sorted(end) for end in ends]


def _height(edge: tuple[list[float], list[float]], x: float) -> float:
    (x0, v0), (x1, v1) = edge
    return (v0 * (x1 - x) + v1 * (x - x0)) / (x1 - x0)


def volume_mm3(body: Body) -> float:
    """Return the volume of all pieces, each face seen from the piece's corner 0."""
    found = pieces(body)
    a, b, c = (found[:, _TRIANGLES[:, k]] - found[:, :1] for k in range(3))
    return float(np.abs(_dot(np.cross(a, b), c)).sum() / 6)


def _likely(a: Points, b: Points) -> list[tuple[int, int]]:
    """Return the pairs of pieces whose boxes are no farther apart than some corners."""
    steps = a.reshape(-1, 1, 3) - b.reshape(1, -1, 3)
    nearest = np.sqrt((steps**2).sum(axis=2)).min()
    a_low, a_high, b_low, b_high = a.min(1), a.max(1), b.min(1), b.max(1)
    apart = np.maximum(b_low - a_high[:, None], a_low[:, None] - b_high).clip(min=0.0)
    i, j = np.nonzero(np.sqrt((apart**2).sum(axis=2)) <= nearest)
    return list(zip(i.tolist(), j.tolist(), strict=True))


def fcl_gap_mm(a: Body, b: Body) -> float:
    """Return the gap by an outside distance library: 0 where any two pieces meet."""
    a_pieces, b_pieces = pieces(a), pieces(b)
    a_hulls, b_hulls = _hulls(a_pieces), _hulls(b_pieces)
    likely = _likely(a_pieces, b_pieces)
    return min(max(0.0, float(fcl.distance(a_hulls[i], b_hulls[j]))) for i, j in likely)


def _hulls(corners: Points) -> list[fcl.CollisionObject]:
    faces = np.array([n for quad in _QUADS for n in (4, *quad)])
    return [
        fcl.CollisionObject(fcl.Convex(piece, len(_QUADS), faces)) for piece in corners
    ]


def brute_gap_mm(a: Body, b: Body) -> float:
    """Return the gap of bodies that do not interfere by trying everything.

    The least over all corners against all faces and all edges against all edges.
    """
    a_pieces, b_pieces = pieces(a), pieces(b)
    i, j = np.array(_likely(a_pieces, b_pieces)).T
    p, q = a_pieces[i], b_pieces[j]
    return min(
        _edges_to_edges(p[:, _EDGES], q[:, _EDGES]),
        _corners_to_faces(p, q[:, _TRIANGLES]),
        _corners_to_faces(q, p[:, _TRIANGLES]),
    )


def _edges_to_edges(a: Points, b: Points) -> float:
    """Return the least distance, tried at the closest approach and from every end."""
    p, u = a[:, :, None, 0], (a[:, :, 1] - a[:, :, 0])[:, :, None]
    q, v = b[:, None, :, 0], (b[:, :, 1] - b[:, :, 0])[:, None]
    w = q - p
    normal = np.cross(u, v)
    crossing = _ratio(_dot(np.cross(w, v), normal), _dot(normal, normal))
    least = np.inf
    for start in (crossing, np.zeros_like(crossing), np.ones_like(crossing)):
        s = start.clip(0.0, 1.0)[..., None]
        t = _ratio(_dot(p + s * u - q, v), _dot(v, v)).clip(0.0, 1.0)[..., None]
        s = _ratio(_dot(q + t * v - p, u), _dot(u, u)).clip(0.0, 1.0)[..., None]
        gap = np.linalg.norm(p + s * u - q - t * v, axis=-1)
        least = min(least, float(gap.min()))
    return least


def _corners_to_faces(corners: Points, faces: Points) -> float:
    """Return the least distance of corners that stand square over a triangle."""
    a, b, c = (faces[:, None, :, k] for k in range(3))
    p = corners[:, :, None]
    normal = np.cross(b - a, c - a)
    area = np.sqrt(_dot(normal, normal))
    turns = [
        _dot(np.cross(end - start, p - start), normal)
        for start, end in ((a, b), (b, c), (c, a))
    ]
    over = (np.minimum.reduce(turns) >= 0) & (area > 0)
    height = np.abs(_ratio(_dot(p - a, normal), area))
    return float(np.where(over, height, np.inf).min())


def _dot(a: Points, b: Points) -> Points:
    total: Points = (a * b).sum(axis=-1)
    return total


def _ratio(value: Points, by: Points) -> Points:
    """Return value / by, 0 where by is 0."""
    value, by = np.broadcast_arrays(value, by)
    return np.divide(value, by, out=np.zeros(value.shape), where=by > 0)
