"""How pairs of bodies stand, as arrays: boxes, then prisms, then cells."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from layout.geometry.body import Body
from layout.geometry.boxes import Boxes
from layout.geometry.cells import Floats, Ints, renumbered
from layout.geometry.gathered import gather, interfering
from layout.geometry.nearest import nearest
from layout.geometry.prisms import Settled, boxes_settled, prisms_settled
from layout.geometry.space import Axis

__all__ = ["Answers", "answers"]

_MOST_CELL_PAIRS: Final = 2_000_000
"""Cell pairs looked at in one turn; more are taken in turns, to bound the memory."""


@dataclass(frozen=True, slots=True, eq=False)
class Answers:
    """Per pair: interfering, gap, and nearest points of shape (3, n), mm."""

    interfering: NDArray[np.bool_]
    gap: Floats
    on_a: Floats
    on_b: Floats

    def put(self, pick: Ints, settled: Settled) -> Ints:
        """Write what is settled of the picked pairs; return which are not."""
        sure = pick[settled.sure]
        self.interfering[sure] = settled.interfering[settled.sure]
        self.gap[sure] = settled.gap[settled.sure]
        if settled.on_a is not None and settled.on_b is not None:
            self.on_a[:, sure] = settled.on_a[:, settled.sure]
            self.on_b[:, sure] = settled.on_b[:, settled.sure]
        return pick[~settled.sure]


def answers(
    bodies: Sequence[Body], index: Ints, boxes: Boxes, *, points: bool
) -> Answers:
    """Return how the pairs stand, every gap exact.

    Parameters
    ----------
    index : array of shape (n, 2)
        Which bodies are a and b.
    boxes : Boxes
        Around each of the bodies.
    points : bool
        Whether to tell the nearest points.
    """
    none = np.zeros((2, 3, len(index)))
    out = Answers(np.zeros(len(index), bool), np.zeros(len(index)), none[0], none[1])
    carried = np.array([body.shape.carried_along for body in bodies]).reshape(-1, 2)
    alike = carried[index[:, 0]] & carried[index[:, 1]]
    both, any_axis = alike.all(axis=1), alike.any(axis=1)
    flat = np.flatnonzero(both)
    a, b = index[flat].T
    out.put(flat, boxes_settled(boxes.take(a), boxes.take(b), points=points))
    left = [np.flatnonzero(~any_axis)]
    for column, axis in enumerate(_AXES):
        pick = np.flatnonzero(alike[:, column] & ~both)
        if len(pick):
            found = prisms_settled(bodies, index[pick], axis, points=points)
            left.append(out.put(pick, found))
    cells = np.sort(np.concatenate(left))
    if len(cells):
        _put_by_cells(out, cells, bodies, index=index[cells])
    return out


_AXES: Final = (Axis.WIDTH, Axis.HEIGHT)


def _put_by_cells(
    out: Answers, pick: Ints, bodies: Sequence[Body], *, index: Ints
) -> None:
    used, place = renumbered(index)
    cells = gather([bodies[k] for k in used])
    a, b = place.T
    for turn in _turns(cells.count[a] * cells.count[b]):
        hit = turn[interfering(cells, a[turn], b[turn])]
        out.interfering[pick[hit]] = True
        out.gap[pick[hit]] = 0.0
        free = turn[~out.interfering[pick[turn]]]
        if len(free):
            found = nearest(cells, a[free], b[free])
            out.gap[pick[free]] = found.gap
            out.on_a[:, pick[free]], out.on_b[:, pick[free]] = found.on_a, found.on_b


def _turns(weight: Ints) -> list[Ints]:
    """Split pairs into runs of bounded weight."""
    turn = np.cumsum(weight) // _MOST_CELL_PAIRS
    return np.split(np.arange(len(weight)), np.flatnonzero(np.diff(turn)) + 1)
