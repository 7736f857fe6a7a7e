"""Ask how bodies stand to one another: all pairs at once, boxes first.

Boxes only ever rule out pairs (of bodies, then of cells) that cannot matter; what is
left is computed exactly, in arrays over all cell pairs of all bodies.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from layout.geometry.body import Body
from layout.geometry.boxes import box_gaps
from layout.geometry.cells import Floats, Ints
from layout.geometry.gathered import Gathered, gather, interfering
from layout.geometry.nearest import nearest
from layout.geometry.overlap import overlap
from layout.geometry.relation import (
    CONTACT_TOLERANCE_MM,
    Bound,
    Relation,
    State,
    Witness,
)

__all__ = ["near", "relation", "relations"]

_MOST_CELL_PAIRS = 2_000_000
"""Cell pairs looked at in one turn; more are taken in turns, to bound the memory."""


def relation(a: Body, b: Body) -> Relation:
    """Return how two bodies stand to one another.

    Examples
    --------
    >>> from layout.geometry.body import Shape
    >>> from layout.geometry.solid import block
    >>> cube = Body(name="a", shape=Shape((block((0, 1), (0, 1), (0, 1)),)))
    >>> relation(cube, cube.moved((4, 5, 0))).gap_mm
    5.0
    >>> relation(cube, cube).gap_mm  # interfering: 0, never negative
    0.0
    """
    return relations([a, b])[0]


def near(
    bodies: Sequence[Body],
    pairs: Sequence[tuple[int, int]] | Ints | None = None,
    *,
    limit_mm: float,
) -> Ints:
    """Return the pairs whose boxes lie no farther apart than a limit.

    Parameters
    ----------
    bodies : sequence of Body
    pairs : sequence of (int, int), optional
        Indices of a and b; default: every unordered pair, a before b.
    limit_mm : float
        No pair that is nearer is left out.

    Returns
    -------
    array of shape (n, 2)
        In the order of ``pairs``.
    """
    index = _index(bodies, pairs)
    if not len(index):
        return index
    boxes = gather(bodies).bodies
    away = box_gaps(boxes.take(index[:, 0]), boxes.take(index[:, 1]))
    return index[away <= limit_mm]


def relations(
    bodies: Sequence[Body],
    pairs: Sequence[tuple[int, int]] | Ints | None = None,
    *,
    limit_mm: float | None = None,
    overlaps: bool = True,
) -> tuple[Relation, ...]:
    """Return how pairs of bodies stand to one another.

    Parameters
    ----------
    bodies : sequence of Body
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
    index = _index(bodies, pairs)
    if not len(index):
        return ()
    answers = _answers(gather(bodies), index, limit_mm)
    names = [(bodies[i], bodies[j]) for i, j in index.tolist()]
    return _told(names, answers, overlaps=overlaps)


def _index(
    bodies: Sequence[Body], pairs: Sequence[tuple[int, int]] | Ints | None
) -> Ints:
    if pairs is None:
        return np.column_stack(np.triu_indices(len(bodies), 1))
    return np.asarray(pairs, dtype=np.intp).reshape(-1, 2)


@dataclass(frozen=True, slots=True, eq=False)
class _Answers:
    """Per pair: interfering, gap, exact or bound, nearest points."""

    interfering: NDArray[np.bool_]
    gap: Floats
    exact: NDArray[np.bool_]
    on_a: Floats
    on_b: Floats


def _answers(cells: Gathered, index: Ints, limit_mm: float | None) -> _Answers:
    a, b = index.T
    least = box_gaps(cells.bodies.take(a), cells.bodies.take(b))
    near = np.ones(len(a), bool) if limit_mm is None else least <= limit_mm
    points = np.zeros((2, 3, len(a)))
    out = _Answers(np.zeros(len(a), bool), least, near, points[0], points[1])
    for pick in _turns(np.flatnonzero(near), cells.count[a] * cells.count[b]):
        hit = pick[interfering(cells, a[pick], b[pick])]
        out.interfering[hit] = True
        out.gap[hit] = 0.0
        free = pick[~out.interfering[pick]]
        if len(free):
            found = nearest(cells, a[free], b[free])
            out.gap[free] = found.gap
            out.on_a[:, free], out.on_b[:, free] = found.on_a, found.on_b
    return out


def _turns(pick: Ints, weight: Ints) -> list[Ints]:
    """Split the pairs into runs of bounded weight."""
    if not len(pick):
        return []
    turn = np.cumsum(weight[pick]) // _MOST_CELL_PAIRS
    return np.split(pick, np.flatnonzero(np.diff(turn)) + 1)


def _told(
    pairs: list[tuple[Body, Body]], answers: _Answers, *, overlaps: bool
) -> tuple[Relation, ...]:
    """Return the arrays as values, pair by pair."""
    columns = (
        pairs,
        answers.interfering.tolist(),
        answers.gap.tolist(),
        answers.exact.tolist(),
        map(tuple, answers.on_a.T.tolist()),
        map(tuple, answers.on_b.T.tolist()),
    )
    return tuple(
        _hit(a, b, overlaps=overlaps)
        if hit
        else Relation(
            a=a.name,
            b=b.name,
            state=_state(gap_mm, exact=exact),
            gap_mm=gap_mm,
            bound=Bound.EXACT if exact else Bound.LOWER,
            witness=Witness(on_a, on_b) if exact else None,
            overlap=None,
        )
        for (a, b), hit, gap_mm, exact, on_a, on_b in zip(*columns, strict=True)
    )


def _state(gap_mm: float, *, exact: bool) -> State:
    touching = exact and gap_mm <= CONTACT_TOLERANCE_MM
    return State.TOUCHING if touching else State.APART


def _hit(a: Body, b: Body, *, overlaps: bool) -> Relation:
    return Relation(
        a=a.name,
        b=b.name,
        state=State.INTERFERING,
        gap_mm=0.0,
        bound=Bound.EXACT,
        witness=None,
        overlap=overlap(a, b) if overlaps else None,
    )
