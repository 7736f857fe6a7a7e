"""The bodies of a build as areas and lines: filled, outlined, or dashed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from layout.drawing.paper.scene import Area, Hatch, Ink, Item, Line, Pen, Point
from layout.drawing.paper.style import Style
from layout.drawing.views.kinds import FILLS
from layout.drawing.views.seen import DETAILS, Seen, is_sheet
from layout.parts.form.form import Role

__all__ = ["areas", "edges_of", "items_of"]

_EDGE_ON_MM = 2.5
"""A sheet thinner than this on paper is seen edge-on and filled."""

_ON_MM = 1e-3
"""By so much a perforated field may pass its wall's edge."""

_LEAST_STROKE_MM = 0.3
_LEAST_AREA_MM2 = 1e-4
"""Less is left behind by cutting outlines, and is not drawn."""


def items_of(bodies: Sequence[Seen], style: Style) -> tuple[Item, ...]:
    """Return a view's bodies as items: sheets first, fills over them, dashes last."""
    out: list[Item] = []
    meshes = _meshes(bodies)
    for each in bodies:
        if is_sheet(each.body):
            out.extend(_sheet(each, meshes))
    for each in bodies:
        if not each.see_through:
            out.extend(_filled(each, style))
    for each in bodies:
        out.extend(_drawn_over(each))
    return tuple(out)


def _meshes(bodies: Sequence[Seen]) -> list[BaseGeometry]:
    """Return where sheets seen from the front are perforated: fields within them."""
    sheets = [each for each in bodies if is_sheet(each.body)]
    fields = [each.outline for each in sheets if each.body.role is Role.GRILLE]
    walls = [each.outline for each in sheets if each.body.role is not Role.GRILLE]
    return [each for each in fields if any(_is_field(each, wall) for wall in walls)]


def _is_field(mesh: BaseGeometry, wall: BaseGeometry) -> bool:
    """Tell whether a mesh fills a hole of a wall, or what is cut out at its edge."""
    within = wall.envelope.buffer(_ON_MM).contains(mesh)
    return within and bool((mesh & wall).area < _LEAST_AREA_MM2)


def _sheet(each: Seen, meshes: Sequence[BaseGeometry]) -> Iterator[Item]:
    """Yield a sheet; the edge of a perforated field is an opening's, drawn once."""
    if each.outline in meshes:
        yield from _strokes(shapely.boundary(each.outline), Pen.PLACE, each.body.name)
        return
    thin = _thin(each.outline)
    own = [] if thin else [mesh for mesh in meshes if _is_field(mesh, each.outline)]
    yield from areas(
        shapely.union_all([each.outline, *own]),
        fill=Ink.FAINT if thin else None,
        pen=Pen.WIDE if thin else Pen.NARROW,
        edge=Ink.SOFT,
        ref=each.body.name,
    )


def _filled(each: Seen, style: Style) -> tuple[Area, ...]:
    """Return what is seen of a part; small things on the board have no hatch."""
    fill = FILLS.get(each.body.role)
    if fill is None:
        return ()
    detail = each.body.role in DETAILS
    return areas(
        each.visible,
        fill=fill,
        hatch=None if detail else style.fills[fill],
        pen=Pen.NARROW if detail else Pen.WIDE,
        ref=each.body.name,
    )


def _thin(outline: BaseGeometry) -> bool:
    """Tell whether a sheet or a face is seen edge-on."""
    x0, y0, x1, y1 = outline.bounds
    return bool(min(x1 - x0, y1 - y0) < _EDGE_ON_MM)


def _drawn_over(each: Seen) -> Iterator[Item]:
    """Yield what is drawn over the fills: cage, openings, hidden outlines."""
    name, role = each.body.name, each.body.role
    if is_sheet(each.body):
        return
    if each.see_through:
        yield from areas(each.outline, pen=Pen.WIDE, edge=Ink.SOFT, ref=name)
    elif not role.is_matter and not _thin(each.outline):
        yield from _strokes(shapely.boundary(each.outline), Pen.PLACE, name)
    elif role.is_matter and role not in DETAILS:
        yield from _strokes(_hidden_edges(each), Pen.HIDDEN, name)


def _hidden_edges(each: Seen) -> BaseGeometry:
    """Return the edges of a body's outline that something nearer covers."""
    edges = shapely.boundary(each.outline)
    if each.visible.is_empty:
        return edges
    return edges.difference(each.visible.buffer(1e-4))


def _strokes(lines: BaseGeometry, pen: Pen, ref: str) -> Iterator[Line]:
    joined = shapely.line_merge(lines) if lines.geom_type.startswith("Multi") else lines
    for each in shapely.get_parts(joined):
        if each.length > _LEAST_STROKE_MM:
            yield Line(points=_points(each), pen=pen, ink=Ink.SOFT, ref=ref)


def areas(
    shape: BaseGeometry,
    *,
    pen: Pen,
    fill: Ink | None = None,
    hatch: Hatch | None = None,
    edge: Ink = Ink.BLACK,
    ref: str = "",
) -> tuple[Area, ...]:
    """Return the polygons of a shape as areas, wound alike; slivers are left out."""
    parts = shapely.get_parts(shapely.orient_polygons(shapely.normalize(shape)))
    return tuple(
        Area(
            outer=_points(each.exterior),
            holes=tuple(_points(ring) for ring in each.interiors),
            fill=fill,
            hatch=hatch,
            pen=pen,
            edge=edge,
            ref=ref,
        )
        for each in parts
        if isinstance(each, Polygon) and each.area > _LEAST_AREA_MM2
    )


def edges_of(
    bodies: Sequence[Seen],
) -> tuple[list[BaseGeometry], list[BaseGeometry]]:
    """Return the edges that a view shows: those of fills, and those that give way."""
    solid: list[BaseGeometry] = []
    faint: list[BaseGeometry] = []
    for each in bodies:
        if each.see_through or each.body.role not in FILLS:
            whole = is_sheet(each.body) and _thin(each.outline)
            (solid if whole else faint).append(shapely.boundary(each.outline))
            continue
        solid.append(shapely.boundary(each.visible))
        if each.body.role not in DETAILS:
            faint.append(_hidden_edges(each))
    return _drawn(solid), _drawn(faint)


def _drawn(edges: Sequence[BaseGeometry]) -> list[BaseGeometry]:
    return [each for each in edges if not each.is_empty]


def _points(line: BaseGeometry) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in shapely.get_coordinates(line))
