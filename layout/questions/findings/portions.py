"""Which figures a face rests on, where a body's faces rest on different ones."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from typing import Final

from layout.build.placed import PlacedBody, PlacedPortion
from layout.geometry.relations.relation import Overlap
from layout.geometry.space import Box, Vector
from layout.questions.findings.tolerance import abutting

__all__ = ["abutted", "faced", "facing_at"]

_AT_MM: Final = 1e-6
"""How near to a portion's face a point lies on it."""

Ends = tuple[Vector | None, Vector | None]


def faced(
    a: PlacedBody, b: PlacedBody, *, ends_mm: Ends, overlap: Overlap | None
) -> tuple[PlacedBody, PlacedBody]:
    """Return two bodies with the figures of the faces between which they stand.

    Parameters
    ----------
    a, b : PlacedBody
    ends_mm : (Vector, Vector)
        The nearest points, a's first; None where they meet or none are told.
    overlap : Overlap or None
        The shift of b that frees it.
    """
    if not (a.portions or b.portions):
        return a, b
    if overlap is not None:
        return _meeting(a, b, overlap)
    start, end = ends_mm
    if start is None or end is None:
        return a, b
    x, y, z = (q - p for p, q in zip(start, end, strict=True))
    return facing_at(a, start, (x, y, z)), facing_at(b, end, (-x, -y, -z))


def abutted(
    a: PlacedBody, b: PlacedBody
) -> tuple[PlacedBody, PlacedBody, Vector] | None:
    """Return bodies that touch within one another, and the way across the face.

    A drive on the sheet of its cage.  None where no portion's face is that of the
    other body.
    """
    for (mine, one), (theirs, other) in product(_boxes(a), _boxes(b)):
        if mine is None and theirs is None:
            return None
        across = abutting(one, other)
        if across is not None:
            return _resting(a, mine), _resting(b, theirs), across
    return None


def facing_at(body: PlacedBody, at: Vector, out: Vector) -> PlacedBody:
    """Return a body with the figures of its face at a point, which looks out so."""
    found = (each for each in body.portions if _on_face(each.box, at, out))
    return _resting(body, next(found, None))


def _on_face(box: Box, at: Vector, out: Vector) -> bool:
    """Tell whether a point lies on the faces of a box that look a way."""
    spans = zip(box.low, box.high, at, out, strict=True)
    return all(
        low - _AT_MM <= p <= high + _AT_MM
        and (abs(way) <= _AT_MM or abs((high if way > 0 else low) - p) <= _AT_MM)
        for low, high, p, way in spans
    )


def _meeting(
    a: PlacedBody, b: PlacedBody, overlap: Overlap
) -> tuple[PlacedBody, PlacedBody]:
    """Return them with the figures of the faces that must come apart."""
    k, ahead = overlap.axis.index, overlap.sign > 0
    for (mine, one), (theirs, other) in product(_boxes(a), _boxes(b)):
        deep_mm = one.high[k] - other.low[k] if ahead else other.high[k] - one.low[k]
        if abs(deep_mm - overlap.mm) <= _AT_MM and one.meets(other):
            return _resting(a, mine), _resting(b, theirs)
    return a, b


def _boxes(body: PlacedBody) -> Iterator[tuple[PlacedPortion | None, Box]]:
    """Yield every portion with its box, then the whole."""
    for each in body.portions:
        yield each, each.box
    yield None, body.body.bounds


def _resting(body: PlacedBody, on: PlacedPortion | None) -> PlacedBody:
    return replace(body, chain=on.chain) if on else body
