"""The shortest ways of a liquid cooler's hoses, from its block to its radiator."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final, TypeAlias

from layout.build.placed import Build, PlacedBody
from layout.geometry.bodies.body import Body
from layout.geometry.space import Box, Direction, Vector
from layout.geometry.ways.stiff import StiffWay
from layout.geometry.ways.turns import End, bent, inside, round_edges
from layout.parts.form.form import Role
from layout.parts.wiring.hoses import DIAMETER, FITTING_MM, HOSE_LENGTH, LEAST_BEND
from layout.questions.findings.holes import Passage, holes_of, shroud_opening
from layout.questions.findings.passages import boxes_of, inside_of, sheet_boxes
from layout.questions.findings.walls import OUTWARDS
from layout.questions.reach.hose_pair import Around, LaidOut, both
from layout.standards.figure import Figure
from layout.standards.radiators import HOSE_BEND
from layout.standards.radiators import HOSE_LENGTH as USUAL_LENGTH
from layout.values import dataclass

__all__ = ["Hoses", "hoses_of"]

_SMALL_MM: Final = 15.0
"""Smaller bodies bar the way, but hoses are not led about their edges."""

_Pairs: TypeAlias = tuple[tuple[End, End], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hoses:
    """Both hoses of a cooler.

    Parameters
    ----------
    pump, radiator : PlacedBody
    length : Figure
        From fitting to fitting, as told or as usual.
    bend_mm, radius_mm : float
        Least radius of a bend's inside, and along the hose's middle.
    stubs : tuple of two PlacedBody
        Its hoses at the block and at the radiator, as far as they cannot turn away.
    pairs : tuple of (End, End)
        Which end at the block each hose joins to which at the radiator.
    edges : tuple of (PlacedBody, Box)
        What hoses are led about: the box grown by half the hose.
    laid : LaidOut
        The way of each hose that has one.
    crosses : bool
        Whether its ends lie on either side of a tray with holes.
    opened : tuple of Passage
        The shroud's opening, if one of them passes it.
    """

    pump: PlacedBody
    radiator: PlacedBody
    length: Figure
    bend_mm: float
    radius_mm: float
    stubs: tuple[PlacedBody, PlacedBody]
    pairs: _Pairs
    edges: tuple[tuple[PlacedBody, Box], ...]
    laid: LaidOut
    crosses: bool
    opened: tuple[Passage, ...] = ()

    @property
    def ways(self) -> tuple[StiffWay, ...]:
        """Return the shortest way of each hose, one past the other.

        Fewer than two where one has none.
        """
        return self.laid.ways

    @property
    def straight(self) -> StiffWay:
        """Return the straight line of the hose that has farther to go."""
        ends = [(a.at_mm, b.at_mm) for a, b in self.pairs]
        a, b = max(ends, key=lambda each: math.dist(*each))
        return StiffWay((a, b), math.dist(a, b))


def hoses_of(build: Build) -> Iterator[Hoses]:
    """Yield the hoses of every liquid cooler whose ports are told."""
    if build.case_size_mm is None:
        return
    for pump in build.bodies:
        if pump.role is not Role.PUMP_BLOCK:
            continue
        own = [each for each in build.bodies if each.part == pump.part]
        radiator = next((each for each in own if each.role is Role.RADIATOR), None)
        stubs = [each for each in own if each.role is Role.HOSE]
        if radiator is None or len(stubs) != _ENDS:
            continue
        yield _led(build, (pump, radiator), stubs)


_ENDS: Final = 2


def _led(
    build: Build, hosts: tuple[PlacedBody, PlacedBody], stubs: Sequence[PlacedBody]
) -> Hoses:
    """Return the hoses between two hosts."""
    pump, radiator = hosts
    at_pump = next(each for each in stubs if each.name.endswith("block hoses"))
    at_radiator = next(each for each in stubs if each is not at_pump)
    told = {link.label: link.figure for each in stubs for _, link in each.chain}
    diameter_mm = told[DIAMETER].mm
    bend = told.get(LEAST_BEND, HOSE_BEND)
    radius_mm = bend.mm + diameter_mm / 2
    starts = [End(at) for at, _ in _ports(at_pump, pump)]
    ends = [End(at, out.vector) for at, out in _ports(at_radiator, radiator)]
    pairs = tuple(_matched(starts, ends))
    holes = _between(build, pairs)
    bars = [*_barring(build, pump.part, by_mm=diameter_mm / 2, holes=holes)]
    edges = tuple((each, box) for each, box in bars if _large(each))
    tips = [end.turn(radius_mm) for pair in pairs for end in pair]
    free = _grown(inside_of(build), -diameter_mm / 2)
    turns = round_edges([box for _, box in edges], tips, radius_mm)
    turns += [at for pair in pairs for end in pair for at in end.beside(radius_mm)]
    around = Around(
        boxes=tuple(box for _, box in bars),
        corners=tuple(inside(turns, free)),
        free=free,
        pairs=pairs,
        radius_mm=radius_mm,
        diameter_mm=diameter_mm,
    )
    length = told.get(HOSE_LENGTH, USUAL_LENGTH)
    laid = _through(around, holes, length.mm) if holes else both(around, length.mm)
    return Hoses(
        pump=pump,
        radiator=radiator,
        length=length,
        bend_mm=bend.mm,
        radius_mm=radius_mm,
        stubs=(at_pump, at_radiator),
        pairs=pairs,
        edges=edges,
        laid=laid,
        crosses=bool(holes),
        opened=_opened(build, laid.ways, radius_mm),
    )


def _through(around: Around, holes: Sequence[Passage], length_mm: float) -> LaidOut:
    from layout.questions.reach.hose_holes import through  # noqa: PLC0415 (few builds)

    return through(around, holes, length_mm)


def _between(build: Build, pairs: _Pairs) -> tuple[Passage, ...]:
    """Return the holes of the tray if a hose has its ends on either side of it."""
    for tray in (each for each in build.bodies if each.role is Role.TRAY):
        z_mm = tray.body.bounds.low[2]
        if any((a.at_mm[2] - z_mm) * (b.at_mm[2] - z_mm) < 0.0 for a, b in pairs):
            return holes_of(build, tray)
    return ()


def _opened(
    build: Build, ways: Sequence[StiffWay], radius_mm: float
) -> tuple[Passage, ...]:
    """Return the opening in the shroud that a way leads through."""
    lines = [bent(way.points, radius_mm) for way in ways]
    openings = shroud_opening(build)
    return tuple(each for each in openings if any(map(each.used_by, lines)))


def _barring(
    build: Build, part: str, *, by_mm: float, holes: Sequence[Passage]
) -> Iterator[tuple[PlacedBody, Box]]:
    """Yield what bars a hose's middle, box by box."""
    for body in build.bodies:
        if _bars(body, part):
            sheet = holes and body.role is Role.TRAY
            for box in sheet_boxes(body, holes) if sheet else boxes_of(body.body):
                yield body, _grown(box, by_mm)


def _bars(body: PlacedBody, part: str) -> bool:
    """Tell whether a body bars a cooler's hoses: not the walls, nor their own stubs."""
    own = body.role is Role.HOSE and body.part == part
    return body.role.is_matter and body.role not in OUTWARDS and not own


def _ports(stub: PlacedBody, host: PlacedBody) -> Iterator[tuple[Vector, Direction]]:
    """Yield where each hose leaves its fitting, and which way."""
    for solid in stub.body.shape.solids:
        box = solid.bounds.moved(stub.body.at_mm)
        out = _out(box, host.body)
        at = [(a + b) / 2 for a, b in zip(box.low, box.high, strict=True)]
        k = out.axis.index
        face_mm = box.low[k] if out.sign > 0 else box.high[k]
        at[k] = face_mm + out.sign * FITTING_MM
        yield (at[0], at[1], at[2]), out


def _out(box: Box, host: Body) -> Direction:
    """Return which way a hose leaves its host: where it lies wholly beyond it."""
    bounds = host.bounds
    for direction in Direction:
        k = direction.axis.index
        beyond_mm = (
            box.low[k] - bounds.high[k]
            if direction.sign > 0
            else bounds.low[k] - box.high[k]
        )
        if beyond_mm > -_FACE_MM:
            return direction
    return Direction.PANEL


_FACE_MM: Final = 1e-6


def _grown(box: Box, by_mm: float) -> Box:
    (x0, y0, z0), (x1, y1, z1) = box.low, box.high
    return Box(
        (x0 - by_mm, y0 - by_mm, z0 - by_mm), (x1 + by_mm, y1 + by_mm, z1 + by_mm)
    )


def _large(body: PlacedBody) -> bool:
    bounds = body.body.bounds
    return max(b - a for a, b in zip(bounds.low, bounds.high, strict=True)) > _SMALL_MM


def _matched(starts: Sequence[End], ends: Sequence[End]) -> list[tuple[End, End]]:
    """Return which ports a hose joins: those that lie nearer to one another."""
    ways = [list(zip(starts, order, strict=True)) for order in (ends, ends[::-1])]
    return min(ways, key=lambda way: sum(math.dist(a.at_mm, b.at_mm) for a, b in way))
