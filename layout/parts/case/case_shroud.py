"""The sheet over the supply: whole, half, or cut out for a front radiator."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from shapely.geometry import Polygon

from layout.geometry.solids.solid import Solid, rectangle
from layout.geometry.space import Axis, Box, Direction, Vector
from layout.parts.form import field
from layout.parts.form.errors import PartError
from layout.parts.form.form import Link, Piece, Portion, Role
from layout.parts.form.link import sheet_link, size, spanning
from layout.standards.figure import Figure, practice
from layout.values import dataclass

__all__ = ["Shroud", "ShroudCutOut", "shroud_piece"]

_EDGE: Final = "shroud's opening from the rear"
_NEAR: Final = "shroud's opening from the tray"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShroudCutOut:
    """An opening that lets a front radiator and its fans pass."""

    from_depth: Figure = field.length(
        "rear panel to its rear edge; it is open to the shroud's front end",
        least_mm=20,
        most_mm=800,
    )
    from_tray: Figure = field.length(
        "tray to its near edge", practice(0.0, 0.0), least_mm=0, most_mm=400
    )
    width: Figure | None = field.length(
        "near edge to far edge; default: up to the side panel",
        None,
        least_mm=20,
        most_mm=600,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Shroud:
    """The sheet over the supply."""

    height: Figure = field.length(
        "floor to the shroud's underside", least_mm=30, most_mm=250
    )
    from_depth: Figure = field.length(
        "rear panel to where it begins", practice(0.0, 0.0), least_mm=0, most_mm=700
    )
    to_depth: Figure | None = field.length(
        "rear panel to where it ends; default: the whole depth, or, where the front's "
        "fans reach below it and no opening is told, 60 before the front",
        None,
        least_mm=50,
        most_mm=800,
    )
    cut_out: ShroudCutOut | None = field.nested(
        "opening at its front end for a radiator", None
    )
    thickness: Figure = field.length("sheet", practice(1.0), least_mm=0.4, most_mm=6)
    vented: bool = field.flag("perforated, so that air passes", default=False)


def shroud_piece(
    shroud: Shroud, inside_mm: Vector, inside_links: tuple[Link, Link]
) -> Piece:
    """Return the shroud of a case with such an inside.

    Raises
    ------
    PartError
        If it ends before it begins, or its opening leaves nothing of it.
    """
    depth_mm, _, width_mm = inside_mm
    end_mm = min(shroud.to_depth.mm, depth_mm) if shroud.to_depth else depth_mm
    if shroud.from_depth.mm >= end_mm:
        raise PartError(
            field="shroud",
            found=f"a shroud from {shroud.from_depth.mm:g} to {end_mm:g} mm",
            right="'from depth' before 'to depth' and the front",
        )
    x = (shroud.from_depth.mm, end_mm)
    y = (shroud.height.mm, shroud.height.mm + shroud.thickness.mm)
    top = _pierced(shroud, rectangle(x, (0.0, width_mm)))
    x0, _, x1, _ = top.bounds
    return Piece(
        name="shroud",
        role=Role.GRILLE if shroud.vented else Role.SHROUD,
        solids=(Solid(rectangle((x0, x1), y), top),),
        links=_links(shroud, *inside_links),
        portions=_beside(
            shroud, Box((x0, y[0], 0.0), (x1, y[1], width_mm)), inside_links
        ),
    )


def _links(shroud: Shroud, depth: Link, width: Link) -> tuple[Link, ...]:
    sheet = sheet_link("shroud's sheet", shroud.thickness, Axis.HEIGHT)
    begins = sheet_link("shroud's begin", shroud.from_depth, Axis.DEPTH)
    links = [
        sheet_link("shroud height", shroud.height, Axis.HEIGHT),
        size(sheet, Direction.UP),
        spanning(begins, 1.0, 0.0),
        size(width, Direction.PANEL),
    ]
    if shroud.cut_out is not None:
        edge, near = shroud.cut_out.from_depth, shroud.cut_out.from_tray
        edge_link = sheet_link(_EDGE, edge, Axis.DEPTH)
        near_link = sheet_link(_NEAR, near, Axis.WIDTH)
        return (
            *links[:3],
            spanning(edge_link, 0.0, 1.0),
            spanning(near_link, 0.0, 1.0),
        )
    end = depth
    if shroud.to_depth is not None and shroud.to_depth.mm < depth.figure.mm:
        end = sheet_link(
            "shroud's end",
            shroud.to_depth,
            Axis.DEPTH,
            tape="rear panel to the shroud's end",
            entry="shroud.to depth",
        )
    return (*links, size(end, Direction.FRONT))


def _beside(
    shroud: Shroud, whole: Box, inside_links: tuple[Link, Link]
) -> tuple[Portion, ...]:
    """Return what is left of a shroud behind its opening, and on either side of it."""
    cut = shroud.cut_out
    if cut is None:
        return ()
    low, high = whole.low, whole.high
    near_mm, edge_mm = min(cut.from_tray.mm, high[2]), min(cut.from_depth.mm, high[0])
    plain = replace(shroud, cut_out=None)
    *rest, across, end = _links(plain, *inside_links)
    near = size(sheet_link(_NEAR, cut.from_tray, Axis.WIDTH), Direction.PANEL)
    edge = size(sheet_link(_EDGE, cut.from_depth, Axis.DEPTH), Direction.FRONT)
    (x0, y0, z0), (x1, y1, z1) = low, high
    made = []
    if edge_mm > x0:
        made.append(Portion(Box(low, (edge_mm, y1, z1)), (*rest, across, edge)))
    if near_mm > z0:
        made.append(Portion(Box((x0, y0, z0), (x1, y1, near_mm)), (*rest, near, end)))
    if cut.width is not None and (far_mm := near_mm + cut.width.mm) < z1:
        wide = sheet_link("shroud's opening, width", cut.width, Axis.WIDTH)
        starts = sheet_link(_NEAR, cut.from_tray, Axis.WIDTH)
        sides = (spanning(wide, 1.0, 0.0), spanning(starts, 1.0, 0.0))
        box = Box((x0, y0, far_mm), (x1, y1, z1))
        made.append(Portion(box, (*rest, across, *sides, end)))
    return tuple(made)


def _pierced(shroud: Shroud, whole: Polygon) -> Polygon:
    cut = shroud.cut_out
    if cut is None:
        return whole
    _, _, end_mm, width_mm = whole.bounds
    far_mm = cut.from_tray.mm + cut.width.mm if cut.width else width_mm
    hole = (
        (cut.from_depth.mm, max(end_mm, cut.from_depth.mm + 1.0)),
        (cut.from_tray.mm, max(far_mm, cut.from_tray.mm + 1.0)),
    )
    left = whole.difference(rectangle(*hole))
    if not isinstance(left, Polygon) or left.is_empty:
        raise PartError(
            field="shroud.cut out",
            found=f"an opening from {cut.from_depth.mm:g} mm on",
            right="one that leaves the shroud in one piece",
        )
    return left
