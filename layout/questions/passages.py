"""Where leads can pass in a case: what bars their way, and the holes they use."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise, product
from typing import TypeAlias

import numpy as np

from layout.build.placed import Build, PlacedBody
from layout.geometry.body import Body
from layout.geometry.boxes import Boxes
from layout.geometry.routes import Routes
from layout.geometry.space import Axis, Box, Direction, Vector, plus
from layout.parts.form import Link, Role
from layout.questions.bearing import Bearing, Chain
from layout.standards.figure import practice
from layout.values import dataclass

__all__ = [
    "Passage",
    "Passages",
    "ahead",
    "boxes_of",
    "holes_of",
    "inside_of",
    "passages",
    "sheet_boxes",
    "usual_openings",
]

OFF_MM = 4.0
"""How far a lead's middle keeps off an edge it turns about: half a lead."""
_MOST_CELLS = 24
"""A body in more pieces bars the way as the box around it."""
_LARGE_MM = 60.0
"""Smaller bodies bar the way, but leads are not led about their edges."""
_FREE = frozenset(
    {
        Role.SIDE_PANEL,
        Role.BACK_PANEL,
        Role.FLOOR,
        Role.TOP,
        Role.FRONT,
        Role.REAR,
        Role.BOARD_CONNECTOR,
        Role.CARD_PLUG,
        Role.SUPPLY_LEADS,
        Role.STANDOFF,
        Role.MEMORY_SLOT,
        Role.CARD_SLOT,
        Role.CARD_BRACKET,
        Role.PROCESSOR,
    }
)
"""Walls, which bound the space, and what is too small or soft to bar a lead."""
_BESIDE_LEADS_MM = (10.0, 70.0)
_FROM_EDGES_MM = 10.0
_SLIT_MM = 20.0
_USUAL_HOLES = 2
_USUAL_OFF_MM = 10.0
"""How far a usual hole may be from where it is taken to be; common practice."""
_USUAL_HOLE_MM = (30.0, 100.0)
"""A usual hole for cables, across and along the board's edge; common practice."""

_Span: TypeAlias = tuple[float, float]
_Hole: TypeAlias = tuple[str, _Span, _Span]


@dataclass(frozen=True, slots=True)
class Passage:
    """A hole in the tray: its name, its place, and whether it is only assumed.

    ``top_mm`` is the level up to which leads rise in it before they turn, ``chain``
    every figure that its place rests on.
    """

    name: str
    box: Box
    top_mm: float
    assumed: bool = False
    chain: Chain = ()

    def used_by(self, points: tuple[Vector, ...]) -> bool:
        """Tell whether a way passes from one side of the hole to the other."""
        z = (self.box.low[2] + self.box.high[2]) / 2
        for a, b in pairwise(points):
            if (a[2] - z) * (b[2] - z) >= 0.0:
                continue
            t = (z - a[2]) / (b[2] - a[2])
            x, y = (a[i] + t * (b[i] - a[i]) for i in (0, 1))
            if self.holds((x, y, z)):
                return True
        return False

    def holds(self, point: Vector) -> bool:
        """Tell whether a point lies in line with the hole."""
        (x0, y0, _), (x1, y1, _) = self.box.low, self.box.high
        return x0 <= point[0] <= x1 and y0 <= point[1] <= y1


@dataclass(frozen=True, slots=True)
class Passages:
    """The space leads run in: its holes, its bounds, and the ways through it.

    ``bearing`` holds what the place of each corner rests on.
    """

    holes: tuple[Passage, ...]
    inside: Box
    routes: Routes
    bearing: Mapping[Vector, Bearing]

    def used_by(self, points: tuple[Vector, ...]) -> tuple[Passage, ...]:
        """Return the holes that a way passes."""
        return tuple(each for each in self.holes if each.used_by(points))

    def holds(self, point: Vector) -> bool:
        """Tell whether a point lies inside the case and in nothing."""
        inside = _in(point, self.inside)
        return inside and not self.routes.holds(np.array([point]))


def passages(
    build: Build,
    *,
    further: tuple[Passage, ...] = (),
    like: Passages | None = None,
) -> Passages | None:
    """Return the space of a case with a tray; None where there is none.

    ``further`` holes are taken to be in the tray too; ``like`` is the space of a build
    that is mostly the same.
    """
    trays = [body for body in build.bodies if body.role is Role.TRAY]
    if not trays or build.case_size_mm is None:
        return None
    inside = inside_of(build)
    holes = (*holes_of(build, trays[0]), *further)
    bodies = [body for body in build.bodies if _bars(body)]
    boxes = [
        box
        for body in bodies
        for box in (sheet_boxes(body, holes) if body in trays else boxes_of(body.body))
    ]
    boxes += [_under(body, trays[0]) for body in bodies if body.role is Role.BOARD]
    corners = {
        **{at: each for body in bodies for at, each in _edges(body)},
        **{at: Bearing(hole.chain) for hole in holes for at in _turns(hole, trays[0])},
    }
    within = [point for point in corners if _in(point, inside)]
    known = like.routes if like else None
    return Passages(holes, inside, Routes(boxes, within, known), corners)


def holes_of(build: Build, tray: PlacedBody) -> tuple[Passage, ...]:
    """Return the holes in a tray: those of the case file, and usual ones."""
    named = tuple(
        _hole(body, tray) for body in build.bodies if body.role is Role.CUT_OUT
    )
    return (*named, *_assumed(build, named, tray))


def sheet_boxes(tray: PlacedBody, holes: Iterable[Passage]) -> list[Box]:
    """Return the boxes that stand for a tray, however many holes are in it."""
    sheet = tray.body.outside([each.box for each in holes if each.assumed])
    return [] if sheet is None else _cell_boxes(sheet)


def _hole(body: PlacedBody, tray: PlacedBody) -> Passage:
    low, high = body.body.bounds.low, body.body.bounds.high
    sheet = tray.body.bounds
    box = Box((*low[:2], sheet.low[2]), (*high[:2], sheet.high[2]))
    return Passage(body.name.partition("/")[2], box, high[2], chain=body.chain)


def _bars(body: PlacedBody) -> bool:
    return body.role.is_matter and body.role not in _FREE


def inside_of(build: Build) -> Box:
    """Return the case's inside, from the back panel to the side panel."""
    depth_mm, height_mm, width_mm = build.case_size_mm or (0.0, 0.0, 0.0)
    backs = [
        body.body.bounds.high[2]
        for body in build.bodies
        if body.role is Role.BACK_PANEL
    ]
    return Box((0.0, 0.0, min(backs, default=0.0)), (depth_mm, height_mm, width_mm))


def _assumed(
    build: Build, named: tuple[Passage, ...], tray: PlacedBody
) -> Iterator[Passage]:
    """Yield the holes that nearly every case has, where the case file names none.

    Beside the supply's leads under a shroud, without which no lead comes out; and
    where it names no hole for cables at all, before and over the board.
    """
    sheet = tray.body.bounds
    yield from _fitting(_beside_supply(build, named, sheet), sheet)
    if not named:
        # A turned board may leave room under it alone.
        yield from usual_openings(build, sheet)[:_USUAL_HOLES]


def usual_openings(build: Build, sheet: Box) -> list[Passage]:
    """Return the openings round a board that its tray's sheet has room for."""
    boards = [each.body.bounds for each in build.bodies if each.role is Role.BOARD]
    return [hole for each in boards for hole in _fitting(_round_board(each), sheet)]


def _fitting(holes: Iterable[_Hole], sheet: Box) -> Iterator[Passage]:
    """Yield the holes that lie inside the tray's sheet."""
    for name, x, y in holes:
        fits = sheet.low[0] < x[0] < x[1] < sheet.high[0]
        if fits and sheet.low[1] < y[0] < y[1] < sheet.high[1]:
            box = Box((x[0], y[0], sheet.low[2]), (x[1], y[1], sheet.high[2]))
            yield Passage(
                name, box, sheet.high[2], assumed=True, chain=(("case", _taken(name)),)
            )


def _taken(name: str) -> Link:
    """Return how far a usual hole may be from where it is taken to be."""
    return Link(
        label=f"place of {name}",
        plus_minus_mm=(_USUAL_OFF_MM, _USUAL_OFF_MM, 0.0),
        figure=practice(0.0, _USUAL_OFF_MM, assumed=True),
        tape=f"{name} in the tray, its edges from rear and floor",
    )


def _beside_supply(
    build: Build, named: tuple[Passage, ...], sheet: Box
) -> Iterator[_Hole]:
    tops = [
        body.body.bounds.low[1] for body in build.bodies if body.name == "case/shroud"
    ]
    exits = [
        each.lead
        for each in build.leads
        if each.lead.out is Direction.FRONT and not each.lead.from_plug
    ]
    if not tops or not exits:
        return
    lead, top_mm = exits[0], tops[0] - _FROM_EDGES_MM
    if lead.at_mm[1] > top_mm or any(hole.box.low[1] < top_mm for hole in named):
        return
    x_mm = lead.at_mm[0] + lead.ahead_mm
    near_mm, far_mm = _BESIDE_LEADS_MM
    ends_mm = min(x_mm + far_mm, sheet.high[0] - _FROM_EDGES_MM)
    yield (
        "an opening beside the supply",
        (x_mm - near_mm, ends_mm),
        (
            _FROM_EDGES_MM,
            top_mm,
        ),
    )


def _round_board(board: Box) -> Iterator[_Hole]:
    """Yield the usual holes at a board's edges: before it, over it, under it."""
    (x0, y0, _), (x1, y1, _) = board.low, board.high
    thin_mm, long_mm = _USUAL_HOLE_MM
    low_mm, high_mm = (y0 + y1 - long_mm) / 2, (y0 + y1 + long_mm) / 2
    before = (x1 + _FROM_EDGES_MM, x1 + _FROM_EDGES_MM + thin_mm)
    yield "an opening before the board", before, (low_mm, high_mm)
    along = (x0 + thin_mm, x0 + thin_mm + long_mm)
    over = (y1 + _FROM_EDGES_MM / 2, y1 + _FROM_EDGES_MM / 2 + _SLIT_MM)
    yield "an opening over the board", along, over
    under = (y0 - _FROM_EDGES_MM - thin_mm, y0 - _FROM_EDGES_MM)
    yield "an opening under the board", along, under


def boxes_of(body: Body | None) -> list[Box]:
    """Return the boxes that stand for a body."""
    if body is None:
        return []
    if len(body.shape.cells) > _MOST_CELLS:
        return [body.bounds]
    return _cell_boxes(body)


def _cell_boxes(body: Body) -> list[Box]:
    around = Boxes.around(body.shape.cells.rows)
    return [
        Box((x0, y0, z0), (x1, y1, z1)).moved(body.at_mm)
        for (x0, y0, z0), (x1, y1, z1) in zip(
            around.low.T.tolist(), around.high.T.tolist(), strict=True
        )
    ]


def _under(board: PlacedBody, tray: PlacedBody) -> Box:
    """Return the box from the tray to a board's face: no lead passes between them."""
    low, high = board.body.bounds.low, board.body.bounds.high
    tray_mm = tray.body.bounds.high[2]
    return Box((*low[:2], min(low[2], tray_mm)), (*high[:2], max(high[2], tray_mm)))


def _turns(hole: Passage, tray: PlacedBody) -> list[Vector]:
    """Return where a lead turns into a hole: at its edges, on both sides."""
    low, high = hole.box.low, hole.box.high
    across = []
    for i in (0, 1):
        off_mm = min(OFF_MM, (high[i] - low[i]) / 2)
        across.append((low[i] + off_mm, high[i] - off_mm))
    bounds = tray.body.bounds
    sides = {bounds.low[2] - OFF_MM, bounds.high[2] + OFF_MM, hole.top_mm + OFF_MM}
    xs, ys = across
    return [(x, y, z) for x in xs for y in ys for z in sorted(sides)]


def _edges(body: PlacedBody) -> Iterator[tuple[Vector, Bearing]]:
    """Yield the corners a lead turns about, off each by half a lead."""
    low, high = body.body.bounds.low, body.body.bounds.high
    if max(b - a for a, b in zip(low, high, strict=True)) < _LARGE_MM:
        return
    ends = [(a - OFF_MM, b + OFF_MM) for a, b in zip(low, high, strict=True)]
    yield from zip(product(*ends), _bearings(body.chain), strict=True)


def _bearings(chain: Chain) -> Iterator[Bearing]:
    for side in product((-1.0, 1.0), repeat=3):
        yield Bearing(chain, (side[0], side[1], side[2]))


def _in(point: Vector, box: Box) -> bool:
    return all(a < x < b for a, x, b in zip(box.low, point, box.high, strict=True))


def ahead(point: Vector, direction: Direction, mm: float) -> Vector:
    """Return a point farther along a direction."""
    x, y, z = (direction.sign * mm if axis is direction.axis else 0.0 for axis in Axis)
    return plus(point, (x, y, z))
