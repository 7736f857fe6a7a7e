"""The bodies of a case: its walls, its tray, its shroud, its grilles."""

from __future__ import annotations

from shapely.geometry import Polygon
from shapely.ops import unary_union

from layout.geometry.solid import Solid, block, rectangle
from layout.geometry.space import Axis
from layout.parts.case_fields import BayPlace, CutOut
from layout.parts.case_inside import Inside
from layout.parts.case_mounts import covers
from layout.parts.case_sheet import CaseSheet
from layout.parts.errors import PartError
from layout.parts.form import Link, Piece, Role
from layout.parts.link import sheet_link
from layout.parts.mounted import Span
from layout.parts.reading import usual
from layout.standards import boards

__all__ = ["walls"]

_GRILLE_MARGIN_MM = 1.0
_GRILLE_LONGEST_MM = 220.0


def walls(case: CaseSheet, inside: Inside) -> tuple[Piece, ...]:
    """Return every body of the case: plates that touch and never overlap."""
    return (
        *_shell(case, inside),
        *_level(case, inside),
        _tray(case, inside),
        *_shroud(case, inside),
        *covers(case, inside),
        *(_cut_out(case, name, each) for name, each in case.cut_outs if each.cables),
    )


def _back_mm(case: CaseSheet) -> float:
    """Return where the back panel's inside lies."""
    return -case.tray_thickness.mm - case.behind_tray.mm


def _shell(case: CaseSheet, inside: Inside) -> tuple[Piece, ...]:
    """Return the upright walls: side panel, back panel, rear and front."""
    depth_mm, height_mm, width_mm = inside.size_mm
    wall_mm, back_mm = case.wall_thickness.mm, _back_mm(case)
    x = (-wall_mm, depth_mm + wall_mm)
    y = (-wall_mm, height_mm + wall_mm)
    z = (back_mm, width_mm)
    panel_mm = case.side_panel.thickness.mm
    room = usual(case, "behind_tray") or case.behind_tray
    behind = sheet_link("room behind the tray", room, Axis.WIDTH)
    return (
        _plate(
            "side panel",
            Role.SIDE_PANEL,
            (x, y, (width_mm, width_mm + panel_mm)),
            inside.link(Axis.WIDTH),
        ),
        _plate(
            "back panel", Role.BACK_PANEL, (x, y, (back_mm - wall_mm, back_mm)), behind
        ),
        _plate("rear", Role.REAR, ((-wall_mm, 0.0), y, z)),
        _plate(
            "front",
            Role.FRONT,
            ((depth_mm, depth_mm + wall_mm), y, z),
            inside.link(Axis.DEPTH),
        ),
    )


def _level(case: CaseSheet, inside: Inside) -> tuple[Piece, ...]:
    """Return floor and top, the one at the supply with its grille."""
    depth_mm, height_mm, width_mm = inside.size_mm
    wall_mm = case.wall_thickness.mm
    whole = rectangle((0.0, depth_mm), (_back_mm(case), width_mm))
    grille = _grille(case, inside)
    at_floor = case.supply_bay.place is BayPlace.FLOOR_REAR
    pieces = []
    for name, role, y, links, has_grille in (
        ("floor", Role.FLOOR, (-wall_mm, 0.0), (), at_floor),
        (
            "top",
            Role.TOP,
            (height_mm, height_mm + wall_mm),
            (inside.link(Axis.HEIGHT),),
            not at_floor,
        ),
    ):
        hole = grille if has_grille else None
        plate = _pierced(whole, [hole] if hole else [])
        side = rectangle((0.0, depth_mm), y)
        pieces.append(
            Piece(name=name, role=role, solids=(Solid(side, plate),), links=links)
        )
        if hole is not None:
            x0, z0, x1, z1 = hole.bounds
            solid = block((x0, x1), y, (z0, z1))
            pieces.append(
                Piece(
                    name="supply grille", role=Role.GRILLE, solids=(solid,), links=links
                )
            )
    return tuple(pieces)


def _grille(case: CaseSheet, inside: Inside) -> Polygon | None:
    """Return the perforated part of the wall at the supply, in depth and width.

    It is as wide as the chamber: a supply's vent then has no rim of sheet beside it,
    wherever in its bay it stands.
    """
    depth_mm, _, width_mm = inside.size_mm
    margin_mm = _GRILLE_MARGIN_MM
    if not case.supply_bay.vented:
        return None
    return rectangle(
        (0.0, min(_GRILLE_LONGEST_MM, depth_mm - margin_mm)),
        (margin_mm, width_mm - margin_mm),
    )


def _pierced(whole: Polygon, holes: list[Polygon]) -> Polygon:
    pierced = whole.difference(unary_union(holes))
    if not isinstance(pierced, Polygon) or pierced.is_empty:
        raise PartError(
            field="cut outs",
            found="holes that leave no tray in one piece",
            right="holes with sheet round them",
        )
    return pierced


def _tray(case: CaseSheet, inside: Inside) -> Piece:
    depth_mm, height_mm, _ = inside.size_mm
    if case.tray_to_depth is not None:
        depth_mm = min(depth_mm, case.tray_to_depth.mm)
    whole = rectangle((0.0, depth_mm), (0.0, height_mm))
    holes = [rectangle(*_cut_out_mm(each)) for _, each in case.cut_outs]
    for (name, _), hole in zip(case.cut_outs, holes, strict=True):
        if not whole.contains(hole):
            _, _, x_mm, y_mm = hole.bounds
            raise PartError(
                field=f"cut outs.{name}",
                found=f"a hole up to {x_mm:g} from the rear, {y_mm:g} from the floor",
                right=f"one inside the tray's {depth_mm:g} x {height_mm:g} mm",
            )
    z = (-case.tray_thickness.mm, 0.0)
    solid = Solid(side=_pierced(whole, holes), top=rectangle((0.0, depth_mm), z))
    return Piece(name="tray", role=Role.TRAY, solids=(solid,))


def _cut_out_mm(cut_out: CutOut) -> tuple[Span, Span]:
    x_mm, y_mm = cut_out.from_rear.mm, cut_out.from_floor.mm
    return (x_mm, x_mm + cut_out.depth.mm), (y_mm, y_mm + cut_out.height.mm)


def _cut_out(case: CaseSheet, name: str, cut_out: CutOut) -> Piece:
    """Return the place that cables take in a hole: up to the board's top."""
    x, y = _cut_out_mm(cut_out)
    top_mm = case.standoff.mm + boards.THICKNESS.mm
    return Piece(
        name=f"cut-out {name}",
        role=Role.CUT_OUT,
        solids=(block(x, y, (-case.tray_thickness.mm, top_mm)),),
        links=(
            sheet_link(f"cut-out {name} from the rear", cut_out.from_rear, Axis.DEPTH),
            sheet_link(f"cut-out {name}'s depth", cut_out.depth, Axis.DEPTH),
            sheet_link(
                f"cut-out {name} from the floor", cut_out.from_floor, Axis.HEIGHT
            ),
            sheet_link(f"cut-out {name}'s height", cut_out.height, Axis.HEIGHT),
        ),
    )


def _shroud(case: CaseSheet, inside: Inside) -> tuple[Piece, ...]:
    shroud = case.shroud
    if shroud is None:
        return ()
    depth_mm, _, width_mm = inside.size_mm
    end_mm = min(shroud.to_depth.mm, depth_mm) if shroud.to_depth else depth_mm
    if shroud.from_depth.mm >= end_mm:
        raise PartError(
            field="shroud",
            found=f"a shroud from {shroud.from_depth.mm:g} to {end_mm:g} mm",
            right="'from depth' before 'to depth' and the front",
        )
    links = [sheet_link("shroud height", shroud.height, Axis.HEIGHT)]
    if shroud.to_depth is not None:
        links.append(sheet_link("shroud's end", shroud.to_depth, Axis.DEPTH))
    y = (shroud.height.mm, shroud.height.mm + shroud.thickness.mm)
    spans = ((shroud.from_depth.mm, end_mm), y, (0.0, width_mm))
    role = Role.GRILLE if shroud.vented else Role.SHROUD
    return (_plate("shroud", role, spans, *links),)


def _plate(
    name: str, role: Role, spans: tuple[Span, Span, Span], *links: Link
) -> Piece:
    return Piece(name=name, role=role, solids=(block(*spans),), links=links)
