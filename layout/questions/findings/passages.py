"""Where leads can pass in a case: what bars their way, and the holes they use."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import field
from itertools import product

import numpy as np

from layout.build.placed import Build, PlacedBody
from layout.geometry.bodies.body import Body
from layout.geometry.solids.boxes import Boxes
from layout.geometry.space import Axis, Box, Direction, Vector, plus
from layout.geometry.ways.routes import Routes
from layout.parts.form.form import Plug, Role
from layout.questions.findings.bearing import Bearing, Chain
from layout.questions.findings.holes import Passage, holes_of, shroud_opening
from layout.values import dataclass

__all__ = [
    "Passages",
    "ahead",
    "boxes_of",
    "inside_of",
    "passages",
    "sheet_boxes",
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


@dataclass(frozen=True, slots=True)
class Passages:
    """The space leads run in: its holes, its bounds, and the ways through it.

    ``bearing`` holds what the place of each corner rests on, ``narrowed`` the ways of
    plugs for which some holes are too narrow.
    """

    holes: tuple[Passage, ...]
    inside: Box
    routes: Routes
    bearing: Mapping[Vector, Bearing]
    narrowed: dict[tuple[str, ...], Routes] = field(default_factory=dict)

    def way(self, plug: Plug, start: Vector, end: Vector) -> tuple[Vector, ...] | None:
        """Return the corners of the shortest way on which a plug can be led."""
        narrow = self.too_narrow(plug)
        if not narrow:
            return self.routes.shortest(start, end)
        key = tuple(each.name for each in narrow)
        if key not in self.narrowed:
            boxes = [*self.routes.boxes, *(each.box for each in narrow)]
            self.narrowed[key] = Routes(boxes, self.routes.corners, self.routes)
        return self.narrowed[key].shortest(start, end)

    def too_narrow(self, plug: Plug) -> tuple[Passage, ...]:
        """Return the holes through which a plug cannot be put."""
        return tuple(each for each in self.holes if not each.lets(plug))

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
    every = (*holes, *shroud_opening(build))
    bodies = [body for body in build.bodies if _bars(body)]
    boxes = [
        box
        for body in bodies
        for box in (sheet_boxes(body, holes) if body in trays else boxes_of(body.body))
    ]
    boxes += [_under(body, trays[0]) for body in bodies if body.role is Role.BOARD]
    corners = {
        **{at: each for body in bodies for at, each in _edges(body)},
        **{at: hole.bears(at) for hole in every for at in _turns(hole)},
    }
    within = [point for point in corners if _in(point, inside)]
    known = like.routes if like else None
    return Passages(every, inside, Routes(boxes, within, known), corners)


def sheet_boxes(tray: PlacedBody, holes: Iterable[Passage]) -> list[Box]:
    """Return the boxes that stand for a tray, however many holes are in it."""
    sheet = tray.body.outside([each.box for each in holes if each.assumed])
    return [] if sheet is None else _cell_boxes(sheet)


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


def _turns(hole: Passage) -> list[Vector]:
    """Return where a lead turns into a hole: at its edges, on both sides."""
    spans: list[Sequence[float]] = []
    for axis, low, high in zip(Axis, hole.box.low, hole.box.high, strict=True):
        off_mm = min(OFF_MM, (high - low) / 2)
        sides = {low - OFF_MM, high + OFF_MM, hole.top_mm + OFF_MM}
        within = (low + off_mm, high - off_mm)
        spans.append(sorted(sides) if axis is hole.axis else within)
    xs, ys, zs = spans
    return [*product(xs, ys, zs)]


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
