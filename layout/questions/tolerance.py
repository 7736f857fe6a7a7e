"""How far a gap may be off: the figures between two bodies, stacked."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from layout.build.placed import PlacedBody
from layout.geometry.relation import Relation
from layout.geometry.space import Axis, Vector
from layout.parts.form import Link
from layout.values import dataclass

__all__ = [
    "ALLOWED_MM",
    "NOTICED_MM",
    "RSS",
    "STATED_SIGMA",
    "Assumed",
    "Stacking",
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
        Unit vector from a to b: of a figure that places one face of its body alone,
        only that face counts.  None, for bodies that touch: every figure.
    """
    shared = {_key(each) for each in a.chain} & {_key(each) for each in b.chain}
    if along is None:
        ahead = back = None
    else:
        x, y, z = along
        ahead, back = along, (-x, -y, -z)
    return (*_facing(a, ahead, shared), *_facing(b, back, shared))


def _facing(
    body: PlacedBody, out: Vector | None, shared: set[tuple[str, str]]
) -> Iterator[tuple[str, Link]]:
    """Yield a body's figures that act on its side towards the other one."""
    for each in body.chain:
        face = each[1].face
        if _key(each) in shared:
            continue
        if face is None or out is None or face.sign * out[face.axis.index] > 0.0:
            yield each


def _key(owned: tuple[str, Link]) -> tuple[str, str]:
    owner, link = owned
    return owner, link.label


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
        part * plus_minus
        for _, link in links
        for part, plus_minus in zip(along, link.plus_minus_mm, strict=True)
    ]
    if stacking.worst_case:
        return math.fsum(map(abs, parts_mm))
    return math.hypot(*parts_mm) * (stacking.sigma / STATED_SIGMA)


def along_mm(link: Link, along: Vector) -> float:
    """Return how far one figure may move a gap that runs along a unit vector."""
    return tolerance_mm((("", link),), along)


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
