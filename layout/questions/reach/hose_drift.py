"""How far the way of a hose moves with what its ends and corners stand on.

To first order, of the way as it was found: its ends, the corners beside them and those
off a body's edges move with the figures that place them, the bends with their radius.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from layout.build.placed import PlacedBody
from layout.geometry.space import Axis, Box, Vector
from layout.geometry.ways.stiff import StiffWay
from layout.geometry.ways.turns import BESIDE, CLEAR_MM, round_edges
from layout.parts.form.form import Link
from layout.parts.form.link import sheet_link
from layout.parts.wiring.hoses import DIAMETER, HOSE_LENGTH, LEAST_BEND
from layout.questions.findings.bearing import Bearing
from layout.questions.reach.drift import Moved, drifts
from layout.questions.reach.hoses import Hoses
from layout.standards.figure import practice
from layout.values import dataclass

__all__ = ["hose_length", "hose_moved", "laid_mm", "way_unknown"]

_STEP_MM: Final = 1e-3
"""By how much a corner is moved to see what that does to the length."""
_SAME_MM: Final = 1e-6
_OWN: Final = frozenset({HOSE_LENGTH, LEAST_BEND, DIAMETER})
"""Figures of the hose itself, which place neither end."""
_ROUND: Final = 3.0
"""By how many diameters a hose is longer that goes round another; no source."""
_NOWHERE: Final = (0.0, 0.0, 0.0)
_EVERY: Final = (1.0, 1.0, 1.0)
_ACROSS: Final = (1.0, 1.0, 0.0)
"""A hole places what is in line with it, at whatever level."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Corner:
    """What places a corner, and along which axes (1, else 0).

    ``by_bend`` and ``by_diameter`` are how it moves per mm of either.
    """

    on: Bearing
    axes: Vector
    by_bend: Vector = _NOWHERE
    by_diameter: Vector = _NOWHERE


def hose_length(hoses: Hoses) -> Moved:
    """Return the hoses' length as a figure that moves what they have to spare."""
    tape = "hose from fitting to fitting"
    link = sheet_link(HOSE_LENGTH, hoses.length, *Axis, tape=tape, entry="hose length")
    return Moved(hoses.pump.part, link, link.plus_minus_mm[0])


def way_unknown(hoses: Hoses) -> tuple[Moved, ...]:
    """Return what the spare length rests on where no way is known.

    The way takes the straight line at least, and up to the whole hose.
    """
    off_mm = hoses.length.mm - hoses.straight.mm
    if off_mm <= 0.0:
        return (hose_length(hoses),)
    link = Link(
        label="way of its hoses",
        plus_minus_mm=(off_mm, off_mm, off_mm),
        figure=practice(0.0, off_mm, assumed=True),
        tape="way of the hoses, laid out, over the straight line",
    )
    return (hose_length(hoses), Moved(hoses.pump.part, link, off_mm))


def hose_moved(hoses: Hoses, way: StiffWay) -> tuple[Moved, ...]:
    """Return every figure that what a hose has to spare rests on, its length first."""
    pulls = _pulls(way.points, hoses.radius_mm)
    borne: list[tuple[Bearing, Vector]] = []
    bend, diameter = _by_radius(way.points, hoses.radius_mm), 0.0
    for place, pull in enumerate(pulls):
        for each in _bearings(hoses, way, place):
            borne.append((each.on, _times(pull, each.axes)))
            bend += _dot(pull, each.by_bend)
            diameter += _dot(pull, each.by_diameter)
    own = {DIAMETER: diameter + bend / 2, LEAST_BEND: bend}
    past = () if hoses.laid.apart else (_past(hoses),)
    return (hose_length(hoses), *past, *drifts(borne), *_own(hoses, own))


def _past(hoses: Hoses) -> Moved:
    """Return by how much a hose that goes round the other may be longer than alone."""
    diameter_mm = 2 * (hoses.radius_mm - hoses.bend_mm)
    off_mm = _ROUND * diameter_mm
    link = Link(
        label="way of one hose past the other",
        plus_minus_mm=(off_mm, off_mm, off_mm),
        figure=practice(0.0, off_mm, assumed=True),
        tape="way of the hose that goes round the other, laid out",
    )
    return Moved(hoses.pump.part, link, off_mm)


def _own(hoses: Hoses, per_mm: dict[str, float]) -> Iterator[Moved]:
    """Yield the hose's own figures, by how much each moves the way per mm of it."""
    end = hoses.stubs[1]
    told = {link.label: (owner, link) for owner, link in end.chain}
    for label, way_mm in per_mm.items():
        if label in told:
            owner, link = told[label]
            off_mm = max(link.plus_minus_mm) * abs(way_mm)
            if off_mm > _SAME_MM:
                yield Moved(owner, link, off_mm)


def _bearings(hoses: Hoses, way: StiffWay, place: int) -> Iterator[_Corner]:
    """Yield what places a corner of a way."""
    start, end = (
        _port(stub, host)
        for stub, host in zip(hoses.stubs, (hoses.pump, hoses.radiator), strict=True)
    )
    last, at = len(way.points) - 1, way.points[place]
    if place == 0:
        yield _Corner(on=start, axes=_EVERY)
        return
    out = next((e.out for _, e in hoses.pairs if e.at_mm == way.points[-1]), None)
    beside = [each for _, e in hoses.pairs for each in e.beside(hoses.radius_mm)]
    turns = place == last - 1 and out is not None
    if turns or place == last or at in beside:
        yield _Corner(on=end, axes=_EVERY, by_bend=(turns and out) or _NOWHERE)
        return
    for hole in hoses.laid.holes:
        if hole.holds(at):
            yield _Corner(on=hole.bears(at), axes=_ACROSS)
            return
    yield from _off_edge(hoses, at, ports=(start, end))


def _port(stub: PlacedBody, host: PlacedBody) -> Bearing:
    """Return what places where a hose begins: its fitting's end, off its host."""
    chain = tuple(each for each in stub.chain if each[1].label not in _OWN)
    x, y, z = (
        float(a > high - _SAME_MM) - float(b < low + _SAME_MM)
        for a, b, low, high in zip(
            stub.body.bounds.low,
            stub.body.bounds.high,
            host.body.bounds.low,
            host.body.bounds.high,
            strict=True,
        )
    )
    return Bearing(chain, (x, y, z))


def _off_edge(
    hoses: Hoses, at: Vector, *, ports: tuple[Bearing, Bearing]
) -> Iterator[_Corner]:
    """Yield what places a corner off a body's edge: the body, and an end abreast."""
    radius_mm = hoses.radius_mm
    tips = [each.turn(radius_mm) for pair in hoses.pairs for each in pair]
    for body, box in hoses.edges:
        if at not in round_edges([box], tips, radius_mm):
            continue
        x, y, z = out = _outwards(box, at)
        axes = abs(x), abs(y), abs(z)
        yield _Corner(
            on=Bearing(body.chain, out),
            axes=axes,
            by_bend=_scaled(out, BESIDE * _is_far(box, at, radius_mm)),
            by_diameter=_scaled(out, 0.5),
        )
        for k in (k for k in range(3) if not axes[k]):
            tip = next(n for n, each in enumerate(tips) if each[k] == at[k])
            along = float(k == 0), float(k == 1), float(k == 2)
            yield _Corner(on=ports[tip % len(ports)], axes=along)
        return


def _outwards(box: Box, at: Vector) -> Vector:
    """Return on which side of a box a corner lies along each axis; 0 for abreast."""
    x, y, z = (
        float(p > high) - float(p < low)
        for low, p, high in zip(box.low, at, box.high, strict=True)
    )
    return x, y, z


def _is_far(box: Box, at: Vector, radius_mm: float) -> bool:
    """Tell whether a corner keeps off a box by what a turn of a right angle needs."""
    beyond_mm = max(
        max(low - p, p - high)
        for low, p, high in zip(box.low, at, box.high, strict=True)
    )
    return beyond_mm > CLEAR_MM + BESIDE * radius_mm / 2


def laid_mm(points: Sequence[Vector], radius_mm: float) -> float:
    """Return the length of a way with every corner rounded by one radius.

    Examples
    --------
    >>> round(laid_mm([(0, 0, 0), (100, 0, 0), (100, 100, 0)], 10.0), 3)
    195.708
    """
    legs = [(math.dist(a, b), a, b) for a, b in pairwise(points)]
    legs = [each for each in legs if each[0] > _SAME_MM]
    total = math.fsum(mm for mm, _, _ in legs)
    for (one_mm, a, b), (other_mm, c, d) in pairwise(legs):
        run = math.fsum(
            (q - p) * (s - r) for p, q, r, s in zip(a, b, c, d, strict=True)
        )
        turn = math.acos(max(-1.0, min(1.0, run / one_mm / other_mm)))
        total -= (2 * math.tan(turn / 2) - turn) * radius_mm
    return total


def _pulls(points: Sequence[Vector], radius_mm: float) -> list[Vector]:
    """Return by how much each corner lengthens a way per mm, along each axis."""
    return [
        tuple(_pull(points, radius_mm, place=n, axis=k) for k in range(3))  # type: ignore[misc]
        for n in range(len(points))
    ]


def _pull(
    points: Sequence[Vector], radius_mm: float, *, place: int, axis: int
) -> float:
    ends = []
    for step in (_STEP_MM, -_STEP_MM):
        at = [*points[place]]
        at[axis] += step
        moved = (*points[:place], (at[0], at[1], at[2]), *points[place + 1 :])
        ends.append(laid_mm(moved, radius_mm))
    return (ends[0] - ends[1]) / (2 * _STEP_MM)


def _by_radius(points: Sequence[Vector], radius_mm: float) -> float:
    """Return by how much the way grows per mm of radius, its corners left alone."""
    more = laid_mm(points, radius_mm + _STEP_MM)
    return (more - laid_mm(points, radius_mm)) / _STEP_MM


def _scaled(a: Vector, by: float) -> Vector:
    return a[0] * by, a[1] * by, a[2] * by


def _times(a: Vector, b: Vector) -> Vector:
    return a[0] * b[0], a[1] * b[1], a[2] * b[2]


def _dot(a: Vector, b: Vector) -> float:
    return math.fsum(_times(a, b))
