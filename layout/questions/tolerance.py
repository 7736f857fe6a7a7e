"""How far a gap may be off: the figures between two bodies, stacked."""

from __future__ import annotations

import math

from layout.build.placed import PlacedBody
from layout.geometry.relation import Relation
from layout.geometry.space import Axis, Vector
from layout.parts.form import Link

__all__ = [
    "NOTICED_MM",
    "assumptions",
    "direction",
    "links_between",
    "tolerance_mm",
    "worst_assumed_mm",
]

NOTICED_MM = 0.05
"""Scatter along a gap below which an assumption is not worth a measurement."""


def links_between(a: PlacedBody, b: PlacedBody) -> tuple[tuple[str, Link], ...]:
    """Return every figure on the path between two bodies; what they share cancels."""
    shared = {_key(each) for each in a.chain} & {_key(each) for each in b.chain}
    return tuple(each for each in (*a.chain, *b.chain) if _key(each) not in shared)


def _key(owned: tuple[str, Link]) -> tuple[str, str]:
    owner, link = owned
    return owner, link.label


def direction(relation: Relation) -> Vector | None:
    """Return the unit vector of the gap or overlap; None where bodies just touch."""
    if relation.overlap is not None:
        x, y, z = (float(axis is relation.overlap.axis) for axis in Axis)
        return (x, y, z)
    witness = relation.witness
    if witness is None or witness.length_mm == 0.0:
        return None
    x, y, z = (
        (t - f) / witness.length_mm
        for f, t in zip(witness.from_mm, witness.to_mm, strict=True)
    )
    return (x, y, z)


def tolerance_mm(links: tuple[tuple[str, Link], ...], along: Vector | None) -> float:
    """Return the scatter of a gap by root sum of squares.

    Parameters
    ----------
    links : tuple of (owner, Link)
        From :func:`links_between`.
    along : Vector or None
        Unit vector of the gap; None (touching) takes the worst axis.

    Notes
    -----
    Independent scatters add as squares: F. Scholz, Tolerance Stack Analysis Methods,
    1995; the published stacks are checked in tests/outside.
    """
    if along is None:
        return max(tolerance_mm(links, unit) for unit in _UNITS)
    return math.hypot(
        *(
            part * plus_minus
            for _, link in links
            for part, plus_minus in zip(along, link.plus_minus_mm, strict=True)
        )
    )


_UNITS: tuple[Vector, ...] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def assumptions(
    links: tuple[tuple[str, Link], ...], along: Vector | None
) -> tuple[str, ...]:
    """Return what a gap rests on that no data sheet gives and nobody measured."""
    return tuple(
        f"{owner}: {link.label}"
        for owner, link in links
        if link.figure.assumed and tolerance_mm(((owner, link),), along) >= NOTICED_MM
    )


def worst_assumed_mm(
    links: tuple[tuple[str, Link], ...], along: Vector | None
) -> float:
    """Return how far a gap may be off if every assumption in it fails at once."""
    return sum(
        tolerance_mm((owned,), along) for owned in links if owned[1].figure.assumed
    )
