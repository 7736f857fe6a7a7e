"""The bodies of a case: its walls, its tray, its shroud, its grilles."""

from __future__ import annotations

from dataclasses import replace

from shapely.geometry import Polygon
from shapely.ops import unary_union

from layout.geometry.solids.solid import Solid, block, rectangle
from layout.geometry.space import Axis, Direction
from layout.parts.case.case_bay import grille_outline
from layout.parts.case.case_fields import CutOut, Linings, Material
from layout.parts.case.case_inside import Inside
from layout.parts.case.case_mounts import covers
from layout.parts.case.case_panels import Opens
from layout.parts.case.case_sheet import CaseSheet
from layout.parts.case.case_shroud_end import standing_shroud
from layout.parts.form.errors import PartError
from layout.parts.form.form import Link, Piece, Portion, Role
from layout.parts.form.link import (
    THICKNESS,
    WALL,
    at_share,
    drawn,
    exact,
    facing,
    link,
    sheet_link,
    size,
    spanning,
    without,
)
from layout.parts.form.mounted import Span
from layout.parts.form.reading import usual
from layout.standards import boards

__all__ = ["walls"]


def walls(case: CaseSheet, inside: Inside) -> tuple[Piece, ...]:
    """Return every body of the case: plates that touch and never overlap."""
    return (
        *_shell(case, inside),
        *_lined(case, inside),
        *_level(case, inside),
        _tray(case, inside),
        *(each for each in [standing_shroud(case, inside)] if each),
        *covers(case, inside),
        *(_cut_out(case, name, each) for name, each in case.cut_outs if each.cables),
    )


def _lined(case: CaseSheet, inside: Inside) -> tuple[Piece, ...]:
    """Return linings and hooks, of which most cases have none."""
    panel = case.side_panel
    bare = panel.lining is None and panel.opens is not Opens.SLID_REAR
    if bare and case.lining == Linings():
        return ()
    from layout.parts.case.case_linings import linings  # noqa: PLC0415 (few cases)

    return linings(case, inside)


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
    depth, width = inside.level_links
    outside = (*_beyond(case, inside, Axis.DEPTH), *_beyond(case, inside, Axis.HEIGHT))
    across = (*_behind(case, 1.0, 0.0), size(width, Direction.PANEL))
    wall = sheet_link(WALL, case.wall_thickness, Axis.WIDTH)
    pane = sheet_link("side panel's thickness", case.side_panel.thickness, Axis.WIDTH)
    return (
        *_breathing(
            case,
            inside,
            _plate(
                "side panel",
                Role.SIDE_PANEL,
                (x, y, (width_mm, width_mm + panel_mm)),
                width,
                size(pane, Direction.PANEL),
                *outside,
            ),
            outwards=Direction.PANEL,
        ),
        *_breathing(
            case,
            inside,
            _plate(
                "back panel",
                Role.BACK_PANEL,
                (x, y, (back_mm - wall_mm, back_mm)),
                *_behind(case, 1.0, 1.0),
                size(wall, Direction.TRAY),
                *outside,
            ),
            outwards=Direction.TRAY,
        ),
        _plate(
            "rear",
            Role.REAR,
            ((-wall_mm, 0.0), y, z),
            size(sheet_link(WALL, case.wall_thickness, Axis.DEPTH), Direction.REAR),
            *_beyond(case, inside, Axis.HEIGHT),
            *across,
        ),
        _plate(
            "front",
            Role.FRONT,
            ((depth_mm, depth_mm + wall_mm), y, z),
            depth,
            size(sheet_link(WALL, case.wall_thickness, Axis.DEPTH), Direction.FRONT),
            *_beyond(case, inside, Axis.HEIGHT),
            *across,
        ),
    )


def _behind(case: CaseSheet, low: float, high: float) -> tuple[Link, Link]:
    """Return the back panel's inside as links, as often as low and high faces are."""
    behind = sheet_link(
        "room behind the tray",
        usual(case, "behind_tray") or case.behind_tray,
        Axis.WIDTH,
        tape="tray's back to the back panel's inside, at the flat",
        entry="behind tray",
    )
    tray = sheet_link("tray thickness", case.tray_thickness, Axis.WIDTH)
    return spanning(tray, -low, -high), spanning(behind, -low, -high)


def _beyond(case: CaseSheet, inside: Inside, axis: Axis) -> tuple[Link, Link]:
    """Return what a sheet over the whole of an axis rests on, its walls included."""
    wall = sheet_link(WALL, case.wall_thickness, axis)
    return spanning(inside.link(axis), 0.0, 1.0), spanning(wall, -1.0, 1.0)


def _level(case: CaseSheet, inside: Inside) -> tuple[Piece, ...]:
    """Return floor and top."""
    depth_mm, height_mm, width_mm = inside.size_mm
    wall_mm = case.wall_thickness.mm
    x, z = (0.0, depth_mm), (_back_mm(case), width_mm)
    top = (height_mm, height_mm + wall_mm)
    depth, width = inside.level_links
    wall = sheet_link(WALL, case.wall_thickness, Axis.HEIGHT)
    across = (
        size(depth, Direction.FRONT),
        *_behind(case, 1.0, 0.0),
        size(width, Direction.PANEL),
    )
    return (
        *_breathing(
            case,
            inside,
            _plate(
                "floor",
                Role.FLOOR,
                (x, (-wall_mm, 0.0), z),
                size(wall, Direction.DOWN),
                *across,
            ),
            outwards=Direction.DOWN,
        ),
        *_breathing(
            case,
            inside,
            _plate(
                "top",
                Role.TOP,
                (x, top, z),
                inside.link(Axis.HEIGHT),
                size(wall, Direction.UP),
                *across,
            ),
            outwards=Direction.UP,
        ),
    )


def _breathing(
    case: CaseSheet, inside: Inside, wall: Piece, *, outwards: Direction
) -> tuple[Piece, ...]:
    """Return a wall, with its grille beside it where the supply breathes through it."""
    bay = case.supply_bay
    glass = outwards is Direction.PANEL and case.side_panel.material is Material.GLASS
    if not bay.vented or bay.breathes is not outwards or glass:
        return (wall,)
    hole, level = grille_outline(case, inside), outwards.axis is not Axis.WIDTH
    (solid,) = wall.solids
    if outwards.axis is Axis.WIDTH:
        made = Solid(_pierced(solid.side, [hole]), solid.top)
        mesh = Solid(hole, rectangle(_span(hole), _across(solid.top)))
    else:
        made = Solid(solid.side, _pierced(solid.top, [hole]))
        mesh = Solid(rectangle(_span(hole), _across(solid.side)), hole)
    grille = Piece(
        name=f"perforated {wall.name}",
        role=Role.GRILLE,
        solids=(mesh,),
        links=_meshed(wall, hole, across=Axis.WIDTH if level else Axis.HEIGHT),
    )
    rims = _rims(wall, hole, across=Axis.WIDTH if level else Axis.HEIGHT)
    return (replace(wall, solids=(made,), portions=rims), grille)


def _meshed(wall: Piece, hole: Polygon, *, across: Axis) -> tuple[Link, ...]:
    """Return what a perforated part rests on: its wall, and its edges as drawn."""
    x0, v0, x1, v1 = hole.bounds
    own = (
        *drawn("perforated part", Axis.DEPTH, (x0, x1)),
        *drawn("perforated part", across, (v0, v1)),
    )
    return (*(without(without(e, Axis.DEPTH), across) for e in wall.links), *own)


def _rims(wall: Piece, hole: Polygon, *, across: Axis) -> tuple[Portion, ...]:
    """Return the closed sheet round a perforated part, on its four sides.

    The hole's edges are where they are drawn: no data sheet tells them.
    """
    box, (x0, v0, x1, v1) = wall.solids[0].bounds, hole.bounds
    made = []
    for axis, low_mm, high_mm in ((Axis.DEPTH, x0, x1), (across, v0, v1)):
        k = axis.index
        rim_mm = box.high[k] - high_mm
        edges = {
            "near": exact(f"perforated part's near edge, {axis.value}", low_mm, axis),
            "far": exact(f"perforated part's far edge, {axis.value}", rim_mm, axis),
        }
        back = Direction((axis, -1))
        near = [
            *(facing(e, back) for e in wall.links),
            spanning(edges["near"], 0.0, 1.0),
        ]
        far = [
            *(at_share(e, axis, 1.0) for e in wall.links),
            spanning(edges["far"], -1.0, 0.0),
        ]
        made += [
            Portion(box.between(axis, (box.low[k], low_mm)), tuple(near)),
            Portion(box.between(axis, (high_mm, box.high[k])), tuple(far)),
        ]
    return tuple(made)


def _span(outline: Polygon) -> Span:
    x0, _, x1, _ = outline.bounds
    return x0, x1


def _across(outline: Polygon) -> Span:
    _, low, _, high = outline.bounds
    return low, high


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
    end = case.tray_to_depth
    depth = inside.link(Axis.DEPTH)
    if end is not None and end.mm <= depth_mm:
        depth = sheet_link("tray's end", end, Axis.DEPTH)
    sheet = sheet_link("tray thickness", case.tray_thickness, Axis.WIDTH)
    links = (
        size(depth, Direction.FRONT),
        size(inside.link(Axis.HEIGHT), Direction.UP),
        size(sheet, Direction.TRAY),
    )
    return Piece(name="tray", role=Role.TRAY, solids=(solid,), links=links)


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
            size(
                sheet_link(f"cut-out {name}'s depth", cut_out.depth, Axis.DEPTH),
                Direction.FRONT,
            ),
            sheet_link(
                f"cut-out {name} from the floor", cut_out.from_floor, Axis.HEIGHT
            ),
            size(
                sheet_link(f"cut-out {name}'s height", cut_out.height, Axis.HEIGHT),
                Direction.UP,
            ),
            size(link("standoff height", case.standoff, Axis.WIDTH), Direction.PANEL),
            size(link(THICKNESS, boards.THICKNESS, Axis.WIDTH), Direction.PANEL),
            size(
                sheet_link("tray thickness", case.tray_thickness, Axis.WIDTH),
                Direction.TRAY,
            ),
        ),
    )


def _plate(
    name: str, role: Role, spans: tuple[Span, Span, Span], *links: Link
) -> Piece:
    return Piece(name=name, role=role, solids=(block(*spans),), links=links)
