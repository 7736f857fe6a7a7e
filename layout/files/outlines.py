"""Lists of points to outlines, and outlines to solids: nothing repaired in silence."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
import shapely
from shapely.geometry import Point, Polygon

from layout.files.errors import FieldError, nearest, shown
from layout.files.numbers import LARGEST_MM, found, length_mm
from layout.geometry.errors import OutlineError
from layout.geometry.solids.solid import SPAN_TOLERANCE_MM, Solid, rectangle
from layout.geometry.space import Vector
from layout.values import dataclass

__all__ = ["SolidForm", "Span", "interval", "outline", "solid", "vector"]

_FORMS = "side and z, top and y, or side and top"
_MOST_POINTS = 1000
"""Drawn outlines have a few dozen; the cells of a comb grow with the square."""

_THINNEST_MM = SPAN_TOLERANCE_MM
_THICKER = f"at least {_THINNEST_MM:g} mm"

_At: TypeAlias = tuple[str | int, ...]
Span: TypeAlias = tuple[float, float]
"""Lower and upper end, mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SolidForm:
    """A solid as files write it: in one of three forms."""

    side: Polygon | None = None
    top: Polygon | None = None
    y: Span | None = None
    z: Span | None = None


def vector(value: object) -> Vector:
    """Return a place: x, y, z."""
    x, y, z = _numbers(value, ("depth", "height", "width"), ())
    return (x, y, z)


def interval(value: object) -> Span:
    """Return the lower and the upper end of a stretch."""
    low, high = _numbers(value, ("lower end", "upper end"), ())
    if not low < high:
        raise FieldError(f"[{low:.9g}, {high:.9g}]", "the lower end before the upper")
    if high - low < _THINNEST_MM:
        raise FieldError(f"a thickness of {high - low:.3g} mm", _THICKER)
    return low, high


def outline(value: object) -> Polygon:
    """Return the area inside a list of points, or ``{outer: ..., holes: [...]}``.

    Raises
    ------
    FieldError
        If a ring has fewer than three points or crosses itself, or a hole lies
        outside its outline or crosses another one.
    """
    if isinstance(value, list):
        return _ring(value, ())
    if not isinstance(value, dict):
        raise FieldError(found(value), "a list of points or {outer: ..., holes: [...]}")
    for key in value:
        if key not in {"outer", "holes"}:
            right = nearest(key, ("outer", "holes"))
            raise FieldError("an unknown key", right, (key,))
    if "outer" not in value:
        raise FieldError("nothing", "a list of points", ("outer",))
    outer = _ring(value["outer"], ("outer",))
    holes = value.get("holes", [])
    if not isinstance(holes, list):
        raise FieldError(found(holes), "a list of holes", ("holes",))
    rings = [_ring(hole, ("holes", index)) for index, hole in enumerate(holes)]
    return _with_holes(outer, rings)


def solid(form: SolidForm) -> Solid:
    """Return the solid of one of the three forms."""
    side, top, y, z = form.side, form.top, form.y, form.z
    if side and top and not (y or z):
        return _of_two(side, top)
    if side and z and not (top or y):
        return _of_two(side, rectangle(_depths(side), z))
    if top and y and not (side or z):
        return _of_two(rectangle(_depths(top), y), top)
    words = [name for name in ("side", "top", "y", "z") if getattr(form, name)]
    raise FieldError(" and ".join(words) or "nothing", _FORMS)


def _of_two(side: Polygon, top: Polygon) -> Solid:
    a, b = _depths(side), _depths(top)
    if max(abs(a[0] - b[0]), abs(a[1] - b[1])) > SPAN_TOLERANCE_MM:
        raise FieldError(
            f"top over x {b[0]:.9g} to {b[1]:.9g} mm "
            f"but side over x {a[0]:.9g} to {a[1]:.9g} mm",
            f"the same x range in both, within {SPAN_TOLERANCE_MM:g} mm,",
            ("top",),
        )
    try:
        return Solid(side, top)
    except OutlineError as error:
        raise FieldError(f"outlines that fail: {error}", "simple outlines") from error


def _depths(outline: Polygon) -> Span:
    x0, _, x1, _ = outline.bounds
    return x0, x1


def _numbers(value: object, names: tuple[str, ...], at: _At) -> list[float]:
    right = f"[{', '.join(names)}]"
    if not isinstance(value, list) or len(value) != len(names):
        more = f" of {len(value)}" if isinstance(value, list) else ""
        raise FieldError(found(value) + more, right, at)
    return [_number(each, (*at, index)) for index, each in enumerate(value)]


def _number(value: object, at: _At) -> float:
    try:
        return length_mm(value, f"a number of mm up to {LARGEST_MM:g}")
    except FieldError as error:
        raise FieldError(error.found, error.right, at) from error


def _ring(value: object, at: _At) -> Polygon:
    """Return the area inside one closed line; repeating its first point is allowed."""
    if not isinstance(value, list):
        raise FieldError(found(value), "a list of points", at)
    points = [
        tuple(_numbers(each, ("depth", "height or width"), (*at, index)))
        for index, each in enumerate(value[: _MOST_POINTS + 1])
    ]
    if len(points) > 1 and points[0] == points[-1]:
        points.pop()
    if len(set(points)) < 3:
        right = "an outline of three points or more"
        raise FieldError("fewer than three different points", right, at)
    if len(points) > _MOST_POINTS:
        right = f"an outline of at most {_MOST_POINTS} points"
        raise FieldError(f"{len(value)} points", right, at)
    area = Polygon(points)
    x0, y0, x1, y1 = area.bounds
    if 0.0 < min(x1 - x0, y1 - y0) < _THINNEST_MM:
        thin_mm = min(x1 - x0, y1 - y0)
        raise FieldError(f"an outline {thin_mm:.3g} mm thin", _THICKER, at)
    if area.area == 0.0 and not _crosses(area):
        raise FieldError("points on one line", "an outline that encloses an area", at)
    if not area.is_valid:
        raise FieldError(
            f"an outline {_fault(area)}", "one that meets itself never", at
        )
    return area


def _crosses(area: Polygon) -> bool:
    """Tell a bow tie, whose halves cancel out, from points on one line."""
    return bool(shapely.convex_hull(area).area > 0.0)


def _with_holes(outer: Polygon, holes: list[Polygon]) -> Polygon:
    right = "holes inside their outline, apart from one another,"
    for index, hole in enumerate(holes):
        if not outer.covers(hole):
            x, y = _outermost(hole, outer)
            where = f"a hole that leaves its outline at ({x:g}, {y:g})"
            raise FieldError(where, right, ("holes", index))
    rings = np.array(holes, dtype=object)
    one, two = shapely.STRtree(holes).query(rings, predicate="intersects")
    one, two = one[one < two], two[one < two]
    crossed = shapely.area(shapely.intersection(rings[one], rings[two])) > 0.0
    if crossed.any():
        index = int(two[crossed].min())
        raise FieldError("a hole that crosses another", right, ("holes", index))
    whole = Polygon(outer.exterior, [hole.exterior for hole in holes])
    if not whole.is_valid:
        raise FieldError(f"an outline {_fault(whole)}", right)
    return whole


def _outermost(hole: Polygon, outer: Polygon) -> tuple[float, float]:
    """Return the corner of a hole that lies farthest outside its outline."""
    corners = hole.exterior.coords
    x, y = max(corners, key=lambda corner: outer.distance(Point(corner)))
    return x, y


def _fault(area: Polygon) -> str:
    """Return shapely's reason in our words."""
    reason = shapely.is_valid_reason(area)
    name, _, place = reason.partition("[")
    x, _, y = place.rstrip("]").partition(" ")
    what = {
        "Self-intersection": "that crosses itself",
        "Ring Self-intersection": "that touches itself",
        "Interior is disconnected": "whose inside falls apart",
    }
    return f"{what.get(name, f'that is not simple ({shown(name)})')} at ({x}, {y})"
