"""How far a gap may be off: the figures between two bodies, stacked."""

from __future__ import annotations

import math
from dataclasses import replace
from operator import sub
from typing import Final

from layout.build.placed import PlacedBody
from layout.geometry.relations.relation import CONTACT_TOLERANCE_MM, Relation
from layout.geometry.space import Axis, Box, Vector
from layout.parts.form.form import Link
from layout.values import dataclass

__all__ = [
    "ALLOWED_MM",
    "NOTICED_MM",
    "RSS",
    "STATED_SIGMA",
    "Assumed",
    "Stacking",
    "abutting",
    "adds_mm",
    "along_mm",
    "assumed_in",
    "chance_under",
    "direction",
    "links_between",
    "tolerance_mm",
]

NOTICED_MM = 0.05
"""Scatter along a gap below which an assumption is not worth a measurement."""

ALLOWED_MM: Final = 1e-6
"""By how much a gap may miss its need and still meet it (design: fixed)."""

STATED_SIGMA: Final = 3.0
"""How many standard deviations a plus-minus is taken to be: what root sum of squares
is commonly stated for (0.27 % outside)."""


@dataclass(frozen=True, slots=True)
class Stacking:
    """How the figures of a chain are stacked.

    Parameters
    ----------
    worst_case : bool
        Whether every figure is off at once, all the wrong way.
    sigma : float
        Standard deviations that the root sum of squares is to hold; without effect
        on the worst case, which knows none.
    """

    worst_case: bool = False
    sigma: float = STATED_SIGMA


RSS: Final = Stacking()
"""Root sum of squares, at the confidence that the figures themselves have."""


def links_between(
    a: PlacedBody, b: PlacedBody, along: Vector | None = None
) -> tuple[tuple[str, Link], ...]:
    """Return every figure on the path between two bodies; what they share cancels.

    Parameters
    ----------
    a, b : PlacedBody
    along : Vector or None
        Unit vector from a to b: of each body only the face towards the other counts.
        None, for bodies that touch: the face that a figure moves more.

    Returns
    -------
    tuple of (owner, Link)
        ``low`` and ``high`` of each are how often it goes into b's place less a's.
    """
    sums: dict[tuple[str, str], tuple[str, Link, Vector]] = {}
    for body, sign in ((a, -1.0), (b, 1.0)):
        for owner, link in body.chain:
            x, y, z = _counted(link, along, sign)
            key = (owner, link.label)
            if key in sums:
                _, link, (u, v, w) = sums[key]  # noqa: PLW2901  (the first is told)
                x, y, z = x + u, y + v, z + w
            sums[key] = (owner, link, (x, y, z))
    return tuple(
        (owner, link if link.low == link.high == count else _counting(link, count))
        for owner, link, count in sums.values()
        if any(count)
    )


def _counting(link: Link, count: Vector) -> Link:
    return replace(link, low=count, high=count)


def _counted(link: Link, along: Vector | None, sign: float) -> Vector:
    """Return how often a figure counts along each axis, on the face of its body.

    ``sign`` is 1 for b, whose figures widen a gap ahead, -1 for a.
    """
    if along is None:
        x, y, z = map(_larger, link.low, link.high)
        return (sign * x, sign * y, sign * z)
    x, y, z = (
        sign * (low if sign * part > 0.0 else high) if part else 0.0
        for part, low, high in zip(along, link.low, link.high, strict=True)
    )
    return (x, y, z)


def _larger(low: float, high: float) -> float:
    return low if abs(low) > abs(high) else high


def direction(relation: Relation) -> Vector | None:
    """Return the unit vector from a to b, or the way in which b frees itself.

    None where bodies just touch.
    """
    if relation.overlap is not None:
        sign = float(relation.overlap.sign)
        x, y, z = (sign * (axis is relation.overlap.axis) for axis in Axis)
        return (x, y, z)
    witness = relation.witness
    if witness is None or witness.length_mm == 0.0:
        return None
    x, y, z = (
        (t - f) / witness.length_mm
        for f, t in zip(witness.from_mm, witness.to_mm, strict=True)
    )
    return (x, y, z)


def abutting(a: Box, b: Box) -> Vector | None:
    """Return the unit vector from a to b across the face in which two bodies touch.

    None where their boxes touch in an edge, a corner or not at all: no axis is across.
    """
    before_mm = tuple(map(sub, b.low, a.high))
    behind_mm = tuple(map(sub, a.low, b.high))
    apart_mm = [*map(max, before_mm, behind_mm)]
    across = [k for k in range(3) if abs(apart_mm[k]) <= CONTACT_TOLERANCE_MM]
    if len(across) != 1 or max(apart_mm) > CONTACT_TOLERANCE_MM:
        return None
    sign = 1.0 if before_mm[across[0]] > behind_mm[across[0]] else -1.0
    x, y, z = (sign * (k == across[0]) for k in range(3))
    return (x, y, z)


def tolerance_mm(
    links: tuple[tuple[str, Link], ...],
    along: Vector | None,
    stacking: Stacking = RSS,
) -> float:
    """Return the scatter of a gap.

    Parameters
    ----------
    links : tuple of (owner, Link)
        From :func:`links_between`.
    along : Vector or None
        Unit vector of the gap; None (touching) takes the worst axis.
    stacking : Stacking
        Default: root sum of squares.

    Notes
    -----
    Independent scatters add as squares: F. Scholz, Tolerance Stack Analysis Methods,
    1995; the published stacks are checked in tests/outside.
    """
    if along is None:
        return max(tolerance_mm(links, unit, stacking) for unit in _UNITS)
    parts_mm = [
        part * plus_minus * _larger(low, high)
        for _, link in links
        for part, plus_minus, low, high in zip(
            along, link.plus_minus_mm, link.low, link.high, strict=True
        )
        if part and plus_minus
    ]
    if stacking.worst_case:
        return math.fsum(map(abs, parts_mm))
    return math.hypot(*parts_mm) * (stacking.sigma / STATED_SIGMA)


def along_mm(link: Link, along: Vector) -> float:
    """Return how far one figure may move a gap that runs along a unit vector."""
    return tolerance_mm((("", link),), along)


def adds_mm(link: Link, along: Vector) -> float:
    """Return what a figure of :func:`links_between` adds to the gap, with its sign."""
    times = sum(part * count for part, count in zip(along, link.high, strict=True))
    return link.figure.mm * times


def chance_under(margin_mm: float, tolerance_mm: float) -> float:
    """Return the probability that a gap is under its need.

    Parameters
    ----------
    margin_mm : float
        Gap less need.
    tolerance_mm : float
        The gap's scatter by root sum of squares, at 3 standard deviations.

    Notes
    -----
    Assumes that every figure scatters normally about its (centred) value, independent
    of the others, with its plus-minus at 3 standard deviations.

    Examples
    --------
    >>> chance_under(0.0, 0.3), chance_under(1.0, 0.0), chance_under(-1.0, 0.0)
    (0.5, 0.0, 1.0)
    >>> round(chance_under(0.3, 0.3), 5)
    0.00135
    """
    if tolerance_mm == 0.0:
        return 0.0 if margin_mm >= -ALLOWED_MM else 1.0
    deviation_mm = tolerance_mm / STATED_SIGMA
    return 0.5 * math.erfc(margin_mm / (deviation_mm * math.sqrt(2.0)))


_UNITS: tuple[Vector, ...] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


@dataclass(frozen=True, slots=True)
class Assumed:
    """An assumption that a gap rests on, and how far it may move that gap."""

    owner: str
    link: Link
    off_mm: float

    @property
    def name(self) -> str:
        """Return whose figure it is, and which."""
        return f"{self.owner}: {self.link.label}"


def assumed_in(
    links: tuple[tuple[str, Link], ...], along: Vector | None
) -> tuple[Assumed, ...]:
    """Return what a gap rests on that no data sheet gives and nobody measured."""
    every = (
        Assumed(owner, link, tolerance_mm(((owner, link),), along))
        for owner, link in links
        if link.figure.assumed
    )
    return tuple(each for each in every if each.off_mm >= NOTICED_MM)
