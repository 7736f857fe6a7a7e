"""The holes that leads pass: of the case file, those every case has, the shroud's."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import TypeAlias

from layout.build.placed import Build, PlacedBody
from layout.geometry.space import Axis, Box, Direction, Vector
from layout.parts.form.form import Link, Plug, Role
from layout.questions.findings.bearing import NOTHING, Bearing, Chain
from layout.questions.findings.portions import facing_at
from layout.standards.figure import practice
from layout.values import dataclass

__all__ = ["Passage", "holes_of", "shroud_opening", "usual_openings"]

_BESIDE_LEADS_MM = (10.0, 70.0)
_FROM_EDGES_MM = 10.0
_SLIT_MM = 20.0
_USUAL_HOLES = 2
_USUAL_OFF_MM = 10.0
"""How far a usual hole may be from where it is taken to be; common practice."""
_USUAL_HOLE_MM = (30.0, 100.0)
"""A usual hole for cables, across and along the board's edge; common practice."""

_PLUG_MM = 25.0
"""Length of a plug, by which it may be turned in a hole; from memory, unverified."""

_Span: TypeAlias = tuple[float, float]
_Hole: TypeAlias = tuple[str, _Span, _Span]


@dataclass(frozen=True, slots=True)
class Passage:
    """A hole in a sheet: its name, its place, and whether it is only assumed.

    ``top_mm`` is the level up to which leads rise in it before they turn, ``bearing``
    every figure that its place rests on, ``far`` what its edge towards the side panel
    does where that is another.  The sheet lies across ``axis``; a hole that is open at
    its front end leaves plugs the room up to ``open_mm``.
    """

    name: str
    box: Box
    top_mm: float
    assumed: bool = False
    bearing: Bearing = NOTHING
    axis: Axis = Axis.WIDTH
    open_mm: float = 0.0
    far: Bearing | None = None

    def bears(self, point: Vector) -> Bearing:
        """Return what the edge that is nearer to a point rests on."""
        near_mm, far_mm = self.box.low[2], self.box.high[2]
        is_far = 2 * point[2] > near_mm + far_mm
        return self.far if is_far and self.far is not None else self.bearing

    def used_by(self, points: Sequence[Vector]) -> bool:
        """Tell whether a way passes from one side of the hole to the other."""
        k = self.axis.index
        level = (self.box.low[k] + self.box.high[k]) / 2
        for a, b in pairwise(points):
            if (a[k] - level) * (b[k] - level) >= 0.0:
                continue
            t = (level - a[k]) / (b[k] - a[k])
            x, y, z = (p + t * (q - p) for p, q in zip(a, b, strict=True))
            if self.holds((x, y, z)):
                return True
        return False

    def holds(self, point: Vector) -> bool:
        """Tell whether a point lies in line with the hole."""
        spans = zip(Axis, self.box.low, point, self.box.high, strict=True)
        return all(a <= p <= b for axis, a, p, b in spans if axis is not self.axis)

    def lets(self, plug: Plug) -> bool:
        """Tell whether a plug can be put through, straight or turned lengthwise."""
        narrow_mm, wide_mm = sorted((plug.size_mm[0] / plug.sockets, plug.size_mm[1]))
        (x0, *low), (x1, *high) = self.box.low, self.box.high
        across = 1 if self.axis is Axis.WIDTH else 2
        room_mm = max(x1, self.open_mm) - x0, high[across - 1] - low[across - 1]
        return narrow_mm <= min(room_mm) and min(wide_mm, _PLUG_MM) <= max(room_mm)


def holes_of(build: Build, tray: PlacedBody) -> tuple[Passage, ...]:
    """Return the holes in a tray: those of the case file, and usual ones."""
    named = tuple(
        _hole(body, tray) for body in build.bodies if body.role is Role.CUT_OUT
    )
    return (*named, *_assumed(build, named, tray))


def _hole(body: PlacedBody, tray: PlacedBody) -> Passage:
    low, high = body.body.bounds.low, body.body.bounds.high
    sheet = tray.body.bounds
    box = Box((*low[:2], sheet.low[2]), (*high[:2], sheet.high[2]))
    name = body.name.partition("/")[2]
    return Passage(name, box, high[2], bearing=Bearing(body.chain))


def shroud_opening(build: Build) -> tuple[Passage, ...]:
    """Return the opening in a shroud, if it has one that is narrower than itself."""
    for body in build.bodies:
        if body.name == "case/shroud" and body.portions:
            top = body.body.shape.solids[0].top
            hole, sheet = top.envelope.difference(top), body.body.bounds
            if hole.is_empty:
                continue
            x0, z0, x1, z1 = hole.bounds
            box = Box((x0, sheet.low[1], z0), (x1, sheet.high[1], z1))
            # leads turn about its rear edge, along which they lie where they may
            rear = facing_at(body, (x0, sheet.low[1], z0), Direction.FRONT.vector)
            behind = tuple(each for each in rear.chain if not _acts_across(each[1]))
            near, far = (
                (*behind, *_edge(body, ((x0 + x1) / 2, sheet.low[1], z_mm), out))
                for z_mm, out in ((z0, Direction.PANEL), (z1, Direction.TRAY))
            )
            return (
                Passage(
                    "the shroud's opening",
                    box,
                    sheet.high[1],
                    bearing=Bearing(near, (1.0, 0.0, 1.0)),
                    axis=Axis.HEIGHT,
                    open_mm=(build.case_size_mm or box.high)[0],
                    far=Bearing(far, (1.0, 0.0, -1.0)),
                ),
            )
    return ()


def _edge(sheet: PlacedBody, at: Vector, out: Direction) -> Chain:
    """Return what places an edge of a sheet along width; nothing without an edge."""
    beside = facing_at(sheet, at, out.vector)
    if beside is sheet:
        return ()
    return tuple(each for each in beside.chain if _acts_across(each[1]))


def _acts_across(link: Link) -> bool:
    """Tell whether a figure acts along width."""
    return bool(link.low[2] or link.high[2])


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
            bearing = Bearing((("case", _taken(name)),))
            yield Passage(name, box, sheet.high[2], assumed=True, bearing=bearing)


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
