"""Ask how bodies stand to one another: all pairs at once, boxes first.

Boxes only ever rule out pairs (of bodies, then of cells) that cannot matter; what is
left is computed exactly, in arrays over all cell pairs of all bodies.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from layout.geometry.bodies.answers import Answers, answers
from layout.geometry.bodies.body import Body
from layout.geometry.bodies.crowd import Crowd
from layout.geometry.errors import EmptyBodyError
from layout.geometry.relations.overlap import overlap
from layout.geometry.relations.relation import (
    CONTACT_TOLERANCE_MM,
    Bound,
    Relation,
    State,
    Witness,
)
from layout.geometry.solids.boxes import box_gaps
from layout.geometry.solids.cells import Floats, Ints
from layout.values import dataclass

__all__ = ["Clearances", "clearances", "meeting", "relation", "relations"]


def relation(a: Body, b: Body) -> Relation:
    """Return how two bodies stand to one another.

    Examples
    --------
    >>> from layout.geometry.bodies.body import Shape
    >>> from layout.geometry.solids.solid import block
    >>> cube = Body(name="a", shape=Shape((block((0, 1), (0, 1), (0, 1)),)))
    >>> relation(cube, cube.moved((4, 5, 0))).gap_mm
    5.0
    >>> relation(cube, cube).gap_mm  # interfering: 0, never negative
    0.0
    """
    return relations([a, b])[0]


def relations(
    bodies: Sequence[Body] | Crowd,
    pairs: Sequence[tuple[int, int]] | Ints | None = None,
    *,
    limit_mm: float | None = None,
    overlaps: bool = True,
) -> tuple[Relation, ...]:
    """Return how pairs of bodies stand to one another.

    Parameters
    ----------
    bodies : sequence of Body, or Crowd
        A crowd is ready for further questions without being made ready anew.
    pairs : sequence of (int, int), optional
        Indices of a and b; default: every unordered pair, a before b.
    limit_mm : float, optional
        Pairs whose boxes lie farther apart get that distance as a lower bound, and no
        witness; default: every gap exact.
    overlaps : bool, optional
        Whether to tell what must give where two bodies interfere.

    Returns
    -------
    tuple of Relation
        In the order of ``pairs``.
    """
    crowd = Crowd.of(bodies)
    index = _index(crowd, pairs)
    if not index.size:
        return ()
    if limit_mm is None:
        found = answers(crowd, index, points=True)
        return tuple(_told(crowd, index, found, overlaps=overlaps))
    away = box_gaps(*crowd.boxes.pairs(index))
    near = index[:, away <= limit_mm]
    found = answers(crowd, near, points=True)
    exact = _told(crowd, near, found, overlaps=overlaps)
    return tuple(
        next(exact) if away_mm <= limit_mm else _bounded(crowd, i, j, least_mm=away_mm)
        for i, j, away_mm in zip(*index.tolist(), away.tolist(), strict=True)
    )


@dataclass(frozen=True, slots=True, eq=False)
class Clearances:
    """State and gap of pairs of bodies, as arrays.

    ``pairs`` has shape (n, 2), the others (n,).
    """

    pairs: Ints
    interfering: NDArray[np.bool_]
    gap_mm: Floats


def clearances(
    bodies: Sequence[Body] | Crowd,
    pairs: Sequence[tuple[int, int]] | Ints | None = None,
    *,
    limit_mm: float = math.inf,
) -> Clearances:
    """Return states and gaps alone, for questions asked of very many pairs.

    Parameters
    ----------
    bodies : sequence of Body, or Crowd
        A crowd is ready for further questions without being made ready anew.
    pairs : sequence of (int, int), optional
        Indices of a and b; default: every unordered pair, a before b.
    limit_mm : float, optional
        Pairs whose boxes lie farther apart are left out; no nearer pair is.
    """
    crowd = Crowd.of(bodies)
    index = _index(crowd, pairs)
    if index.size:
        (near,) = (box_gaps(*crowd.boxes.pairs(index)) <= limit_mm).nonzero()
        index = index.take(near, axis=1)
    found = answers(crowd, index, points=False)
    return Clearances(index.T, found.interfering, found.gap)


def meeting(
    bodies: Sequence[Body] | Crowd, pairs: Sequence[tuple[int, int]] | Ints
) -> NDArray[np.bool_]:
    """Tell which pairs interfere: it costs less than how far the others are apart.

    Parameters
    ----------
    bodies : sequence of Body, or Crowd
    pairs : sequence of (int, int)
        Indices of a and b.

    Returns
    -------
    array of bool, shape (n,)
    """
    crowd = Crowd.of(bodies)
    index = _index(crowd, pairs)
    meets = np.zeros(index.shape[1], bool)
    if index.size:
        (near,) = (box_gaps(*crowd.boxes.pairs(index)) <= 0.0).nonzero()
        found = answers(crowd, index.take(near, axis=1), points=False, gaps=False)
        meets[near] = found.interfering
    return meets


def _index(crowd: Crowd, pairs: Sequence[tuple[int, int]] | Ints | None) -> Ints:
    """Return which bodies are a and b, shape (2, n)."""
    if pairs is None:
        return np.stack(np.triu_indices(len(crowd), 1))
    index = np.asarray(pairs, dtype=np.intp).reshape(-1, 2)
    if len(index) and not len(crowd):
        raise EmptyBodyError("there are no bodies to ask about")
    return np.ascontiguousarray(index.T)


def _told(
    crowd: Crowd, index: Ints, found: Answers, *, overlaps: bool
) -> Iterator[Relation]:
    """Yield the arrays as values, pair by pair."""
    columns = (
        *index.tolist(),
        found.interfering.tolist(),
        found.gap.tolist(),
        map(tuple, found.on_a.T.tolist()),
        map(tuple, found.on_b.T.tolist()),
    )
    for i, j, hit, gap_mm, on_a, on_b in zip(*columns, strict=True):
        yield Relation(
            a=crowd.names[i],
            b=crowd.names[j],
            state=_state(gap_mm, hit=hit),
            gap_mm=gap_mm,
            bound=Bound.EXACT,
            witness=None if hit else Witness(on_a, on_b),
            overlap=overlap(crowd.body(i), crowd.body(j)) if hit and overlaps else None,
        )


def _state(gap_mm: float, *, hit: bool) -> State:
    if hit:
        return State.INTERFERING
    return State.TOUCHING if gap_mm <= CONTACT_TOLERANCE_MM else State.APART


def _bounded(crowd: Crowd, i: int, j: int, *, least_mm: float) -> Relation:
    """Return the relation of bodies that are at least so far apart."""
    return Relation(
        a=crowd.names[i],
        b=crowd.names[j],
        state=State.APART,
        gap_mm=least_mm,
        bound=Bound.LOWER,
        witness=None,
        overlap=None,
    )
