"""How far a way's length moves with the places that its corners rest on."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

from layout.build.placed import Build, PlacedBody
from layout.geometry.space import Direction, Vector
from layout.parts.form.form import ONCE, Link
from layout.questions.findings.bearing import NOTHING, Bearing
from layout.questions.findings.passages import OFF_MM
from layout.questions.findings.tolerance import (
    NOTICED_MM,
    STATED_SIGMA,
    Assumed,
    Stacking,
)
from layout.values import dataclass

__all__ = [
    "Moved",
    "drifts",
    "leaving",
    "off_corner",
    "pulls",
    "stacked_mm",
]

_NOTHING_MM = 1e-9
"""Figures that move a way by no more are left out."""
_NEVER: Vector = (0.0, 0.0, 0.0)
_AT_MM = 1e-6
"""How near a start lies to the corner of a body that it is."""


@dataclass(frozen=True, slots=True)
class Moved:
    """A figure, and how far it may move what a length has to spare."""

    owner: str
    link: Link
    off_mm: float

    @property
    def scaled(self) -> tuple[str, Link]:
        """Return it as a link that moves the gap so far whatever its axis.

        It adds nothing: the way's pieces tell its length, and what the figure places.
        """
        off = self.off_mm
        link = replace(self.link, plus_minus_mm=(off, off, off), low=ONCE, high=_NEVER)
        return self.owner, link

    @property
    def assumed(self) -> Assumed | None:
        """Return it as an assumption worth a measurement; None where it is none."""
        if not self.link.figure.assumed or self.off_mm < NOTICED_MM:
            return None
        return Assumed(self.owner, self.link, self.off_mm)


def pulls(points: Sequence[Vector]) -> list[Vector]:
    """Return by how much each corner lengthens a way per mm that it moves.

    The gradient of the taut string's length: the direction in which the way comes to
    the corner less the one in which it leaves.  A whole way whose ends move by d grows
    by d along its first and last leg, to first order.

    Examples
    --------
    >>> pulls([(0.0, 0.0, 0.0), (10.0, 0.0, 0.0), (10.0, 5.0, 0.0)])
    [(-1.0, -0.0, -0.0), (1.0, -1.0, 0.0), (0.0, 1.0, 0.0)]
    """
    legs = [_unit(a, b) for a, b in pairwise(points)]
    none = (0.0, 0.0, 0.0)
    comes, leaves = [none, *legs], [*legs, none]
    return [
        (a[0] - b[0], a[1] - b[1], a[2] - b[2])
        for a, b in zip(comes, leaves, strict=True)
    ]


def _unit(a: Vector, b: Vector) -> Vector:
    mm = math.dist(a, b)
    if mm <= _NOTHING_MM:
        return 0.0, 0.0, 0.0
    return (b[0] - a[0]) / mm, (b[1] - a[1]) / mm, (b[2] - a[2]) / mm


def drifts(corners: Iterable[tuple[Bearing, Vector]]) -> tuple[Moved, ...]:
    """Return every figure that moves a way, and how far.

    Parameters
    ----------
    corners : iterable of (Bearing, Vector)
        What a corner's place rests on, and its pull.  A figure that bears several
        corners moves them together: what moves both ends alike cancels.
    """
    summed: dict[tuple[str, str], tuple[Link, Vector]] = {}
    for bearing, pull in corners:
        for owner, link in bearing.chain:
            _, (x, y, z) = summed.get((owner, link.label), (link, (0.0, 0.0, 0.0)))
            p, q, r = bearing.counted(link)
            grown = x + p * pull[0], y + q * pull[1], z + r * pull[2]
            summed[owner, link.label] = link, grown
    moved = (
        Moved(owner, link, _off_mm(link, pull))
        for (owner, _), (link, pull) in summed.items()
    )
    return tuple(each for each in moved if each.off_mm > _NOTHING_MM)


def _off_mm(link: Link, pull: Vector) -> float:
    return math.hypot(
        *(part * off for part, off in zip(pull, link.plus_minus_mm, strict=True))
    )


def stacked_mm(moved: Iterable[Moved], stacking: Stacking) -> float:
    """Return how far all of them may move the spare length together."""
    offs_mm = [each.off_mm for each in moved]
    if stacking.worst_case:
        return math.fsum(offs_mm)
    return math.hypot(*offs_mm) * (stacking.sigma / STATED_SIGMA)


def leaving(build: Build, name: str, out: Direction) -> Bearing:
    """Return what a place on one side of a body rests on; without one nothing."""
    chain = next((each.chain for each in build.bodies if each.name == name), ())
    return Bearing(chain, out.vector)


def off_corner(build: Build, part: str, start: Vector) -> Bearing:
    """Return what a lead's start rests on: the body of its part that it leaves.

    A lead leaves a body off one of its corners; one that starts elsewhere rests on
    nothing but the file.
    """
    own = (each for each in build.bodies if each.part == part)
    found = ((each, _side(each, start)) for each in own)
    return next((Bearing(each.chain, side) for each, side in found if side), NOTHING)


def _side(body: PlacedBody, at: Vector) -> Vector | None:
    """Return off which corner of a body a place is; None where it is elsewhere."""
    side = []
    for low, high, p in zip(
        body.body.bounds.low, body.body.bounds.high, at, strict=True
    ):
        if min(abs(low - OFF_MM - p), abs(high + OFF_MM - p)) > _AT_MM:
            return None
        side.append(1.0 if p > high else -1.0)
    return side[0], side[1], side[2]
