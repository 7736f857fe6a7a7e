"""Felt and foam on a case's walls, open where fans, bays and sheets stand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TypeAlias

from shapely.geometry import Polygon
from shapely.ops import unary_union

from layout.geometry.solids.solid import Solid, block, rectangle
from layout.geometry.space import Axis, Box, Direction
from layout.parts.case.case_bay import bay_box, grille_outline
from layout.parts.case.case_bays import bays_mm
from layout.parts.case.case_fields import Face
from layout.parts.case.case_inside import Inside
from layout.parts.case.case_mounts import mounts
from layout.parts.case.case_panels import Opens
from layout.parts.case.case_sheet import CaseSheet
from layout.parts.case.case_shroud_end import standing_shroud
from layout.parts.case.case_stands import ConnectorsAt
from layout.parts.form.errors import PartError
from layout.parts.form.form import Link, Piece, Portion, Role
from layout.parts.form.link import at_share, drawn, exact, less, sheet_link, size
from layout.parts.form.mounted import Span
from layout.standards.figure import Figure

__all__ = ["linings"]

_Hole: TypeAlias = tuple[Span, Span]
"""Stretches along a face's two axes, in axis order."""

_SLIVER_MM = 1e-3
"""A strip of lining that is thinner is none."""
_HOOKS_HIGH_MM = 6.0
"""Hooks along an edge, with the flange they hold on to; common practice, no source."""


def linings(case: CaseSheet, inside: Inside) -> tuple[Piece, ...]:
    """Return every lining, and the side panel's hooks.

    Raises
    ------
    PartError
        If a wall is lined that is not there, or that the connectors reach through.
    """
    return (
        *_side_panel(case, inside),
        *_hooks(case, inside),
        *_front(case, inside),
        *_top(case, inside),
        *_shroud(case, inside),
        *_back(case, inside),
    )


def _side_panel(case: CaseSheet, inside: Inside) -> Iterator[Piece]:
    lining = case.side_panel.lining
    if lining is None:
        return
    x_mm, y_mm, z_mm = inside.size_mm
    thick = size(sheet_link("panel lining", lining, Axis.WIDTH), Direction.TRAY)
    holes = _open(case, inside, Face.PANEL_SIDE, felt=lining)
    left = _left((0.0, x_mm), (0.0, y_mm), holes)
    z = (z_mm - lining.mm, z_mm)
    yield _felt(
        "panel lining",
        Role.SIDE_PANEL,
        [block(u, v, z) for u, v in left],
        inside.link(Axis.WIDTH),
        thick,
    )


def _hooks(case: CaseSheet, inside: Inside) -> Iterator[Piece]:
    """Yield the strips along the panel's edges that its hooks take."""
    panel = case.side_panel
    if panel.opens is not Opens.SLID_REAR:
        return
    x_mm, y_mm, z_mm = inside.size_mm
    z = (z_mm - panel.hooks.mm, z_mm - (panel.lining.mm if panel.lining else 0.0))
    if z[0] >= z[1]:
        return
    edges = ((0.0, _HOOKS_HIGH_MM), (y_mm - _HOOKS_HIGH_MM, y_mm))
    reach = sheet_link(
        "panel's hooks",
        panel.hooks,
        Axis.WIDTH,
        tape="inside of the side panel to the hooks' inner end",
        entry="side panel.hooks",
    )
    across = (inside.link(Axis.WIDTH), size(reach, Direction.TRAY))
    strip = exact("panel's hooks along its edges", _HOOKS_HIGH_MM, Axis.HEIGHT)
    lower, upper = (
        (size(strip, Direction.UP),),
        (
            inside.link(Axis.HEIGHT),
            size(strip, Direction.DOWN),
        ),
    )
    yield Piece(
        name="panel hooks",
        role=Role.SIDE_PANEL,
        solids=tuple(block((0.0, x_mm), y, z) for y in edges),
        links=across,
        portions=tuple(
            Portion(
                Box((0.0, y[0], z[0]), (x_mm, y[1], z[1])),
                (*across, inside.link(Axis.DEPTH), *edge),
            )
            for y, edge in zip(edges, (lower, upper), strict=True)
        ),
    )


def _panel_from_mm(case: CaseSheet, inside: Inside) -> float:
    """Return where the panel's own lining begins."""
    lining = case.side_panel.lining
    return inside.size_mm[2] - (lining.mm if lining else 0.0)


def _front(case: CaseSheet, inside: Inside) -> Iterator[Piece]:
    lining = case.lining.front
    if lining is None:
        return
    x_mm, y_mm, _ = inside.size_mm
    top = case.lining.top
    y = (0.0, y_mm - (top.mm if top else 0.0))
    z = (0.0, _panel_from_mm(case, inside))
    holes = [*_open(case, inside, Face.FRONT, felt=lining), *bays_mm(case.bays)]
    sheet = standing_shroud(case, inside)
    if sheet is not None:
        shroud = sheet.solids[0].bounds
        if shroud.high[0] > x_mm - lining.mm:
            thick_mm = case.lining.shroud.mm if case.lining.shroud else 0.0
            holes.append(((shroud.low[1], shroud.high[1] + thick_mm), z))
    x = (x_mm - lining.mm, x_mm)
    yield _felt(
        "front lining",
        Role.FRONT,
        [block(x, u, v) for u, v in _left(y, z, holes)],
        inside.link(Axis.DEPTH),
        _thick("front", lining, Direction.REAR),
    )


def _top(case: CaseSheet, inside: Inside) -> Iterator[Piece]:
    lining = case.lining.top
    if lining is None:
        return
    if case.connectors is ConnectorsAt.TOP:
        raise PartError(
            field="lining.top",
            found=f"{lining.mm:g} mm on the wall that the connectors reach through",
            right="none there",
        )
    x_mm, y_mm, _ = inside.size_mm
    spans = ((0.0, x_mm), (0.0, _panel_from_mm(case, inside)))
    y = (y_mm - lining.mm, y_mm)
    left = _left(*spans, _open(case, inside, Face.TOP, felt=lining))
    yield _felt(
        "top lining",
        Role.TOP,
        [block(u, y, v) for u, v in left],
        inside.link(Axis.HEIGHT),
        _thick("top", lining, Direction.DOWN),
    )


def _shroud(case: CaseSheet, inside: Inside) -> Iterator[Piece]:
    lining = case.lining.shroud
    if lining is None:
        return
    sheet = standing_shroud(case, inside)
    if sheet is None:
        raise PartError(
            field="lining.shroud",
            found=f"{lining.mm:g} mm on a shroud that is not there",
            right="'shroud' beside it",
        )
    (solid,) = sheet.solids
    _, _, end_mm, _ = solid.top.bounds
    far_mm = max(end_mm, _panel_from_mm(case, inside))
    open_ = [rectangle(*each) for each in _rows(case, inside, Face.SHROUD)]
    open_.append(rectangle((-1.0, inside.size_mm[0] + 1.0), (far_mm, far_mm + 900.0)))
    left = solid.top.difference(unary_union(open_))
    if not isinstance(left, Polygon):
        raise PartError(
            field="lining.shroud",
            found="openings that leave no lining in one piece",
            right="a lining with a rim round the fans",
        )
    x0, _, x1, _ = left.bounds
    over_mm = solid.bounds.high[1]
    yield Piece(
        name="shroud lining",
        role=Role.SHROUD,
        solids=(Solid(rectangle((x0, x1), (over_mm, over_mm + lining.mm)), left),),
        links=(
            *(at_share(e, Axis.HEIGHT, 1.0) for e in sheet.links),
            _thick("shroud", lining, Direction.UP),
        ),
    )


def _back(case: CaseSheet, inside: Inside) -> Iterator[Piece]:
    lining = case.lining.back_panel
    if lining is None:
        return
    x_mm, y_mm, _ = inside.size_mm
    near_mm = -case.tray_thickness.mm - case.behind_tray.mm
    z = (near_mm, near_mm + lining.mm)
    holes = _open(case, inside, Face.BACK_PANEL, felt=lining)
    behind = less(sheet_link("room behind the tray", case.behind_tray, Axis.WIDTH))
    tray = less(sheet_link("tray thickness", case.tray_thickness, Axis.WIDTH))
    yield _felt(
        "back panel lining",
        Role.BACK_PANEL,
        [block(u, v, z) for u, v in _left((0.0, x_mm), (0.0, y_mm), holes)],
        tray,
        behind,
        _thick("back panel", lining, Direction.PANEL),
    )


def _felt(name: str, role: Role, solids: Sequence[Solid], *links: Link) -> Piece:
    """Return a lining in strips round what it leaves open, each edge as drawn."""
    normal = next(k for k in range(3) if any(e.low[k] or e.high[k] for e in links))
    across = [axis for axis in Axis if axis.index != normal]
    return Piece(
        name=name,
        role=role,
        solids=tuple(solids),
        links=links,
        portions=tuple(_strip(name, each.bounds, across, *links) for each in solids),
    )


def _strip(name: str, box: Box, across: Sequence[Axis], *links: Link) -> Portion:
    spans = ((axis, (box.low[axis.index], box.high[axis.index])) for axis in across)
    edges = (drawn(name, axis, span) for axis, span in spans)
    return Portion(box, (*links, *(link for pair in edges for link in pair)))


def _thick(wall: str, lining: Figure, side: Direction) -> Link:
    return size(sheet_link(f"{wall} lining", lining, side.axis), side)


def _rows(case: CaseSheet, inside: Inside, face: Face) -> list[_Hole]:
    """Return what the fans on a face leave open, in axis order."""
    holes = []
    for seat in mounts(case, inside):
        if seat.face != face.value:
            continue
        for row in seat.rows:
            along = row.along
            (across,) = set(Axis) - {along, face.outwards.axis}
            middle_mm = seat.at_mm[across.index]
            half_mm = row.size_mm / 2
            end_mm = row.start_mm + row.count * row.size_mm + row.travel_mm
            long = (row.start_mm, end_mm)
            wide = (middle_mm - half_mm, middle_mm + half_mm)
            swapped = along.index > across.index
            holes.append((wide, long) if swapped else (long, wide))
    return holes


def _open(case: CaseSheet, inside: Inside, face: Face, *, felt: Figure) -> list[_Hole]:
    """Return what fans and the supply leave open of a wall's felt, in axis order."""
    return [*_rows(case, inside, face), *_bay(case, inside, face, felt_mm=felt.mm)]


def _bay(case: CaseSheet, inside: Inside, face: Face, *, felt_mm: float) -> list[_Hole]:
    """Return what is open at the supply: where it breathes, or stands at the wall."""
    bay, k = case.supply_bay, face.outwards.axis.index
    if bay.vented and bay.breathes is face.outwards:
        x0, v0, x1, v1 = grille_outline(case, inside).bounds
        return [((x0, x1), (v0, v1))]
    box = bay_box(case, inside)
    if face not in {Face.FRONT, Face.TOP} or box.high[k] < inside.size_mm[k] - felt_mm:
        return []
    u, v = ((box.low[i], box.high[i]) for i in range(3) if i != k)
    return [(u, v)]


def _left(u: Span, v: Span, holes: Sequence[_Hole]) -> Iterator[tuple[Span, Span]]:
    """Yield what holes leave of a rectangle, as rectangles that touch."""
    cuts = sorted(
        {*u, *(min(max(each, u[0]), u[1]) for hole, _ in holes for each in hole)}
    )
    for low, high in pairwise(cuts):
        if high - low < _SLIVER_MM:
            continue
        at = v[0]
        mine = sorted(w for hole, w in holes if hole[0] < high and low < hole[1])
        for start, end in (*mine, (v[1], v[1])):
            if min(start, v[1]) - at > _SLIVER_MM:
                yield (low, high), (at, min(start, v[1]))
            at = min(max(at, end), v[1])
