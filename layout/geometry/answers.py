"""How pairs of bodies stand, as arrays: boxes, then prisms, then cells."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from layout.geometry.cells import Floats, Ints
from layout.geometry.crowd import CARRIED, Crowd
from layout.geometry.gathered import MOST_CELL_PAIRS, Gathered, interfering
from layout.geometry.nearest import nearest
from layout.geometry.prisms import Settled, boxes_settled, prisms_settled

__all__ = ["Answers", "answers"]


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


def answers(crowd: Crowd, index: Ints, *, points: bool) -> Answers:
    """Return how the pairs stand, every gap exact.

    Parameters
    ----------
    index : array of shape (n, 2)
        Which bodies are a and b.
    points : bool
        Whether to tell the nearest points.
    """
    none = np.zeros((2, 3, len(index)))
    out = Answers(np.zeros(len(index), bool), np.zeros(len(index)), none[0], none[1])
    alike = crowd.carried[index[:, 0]] & crowd.carried[index[:, 1]]
    both = alike[:, 0] & alike[:, 1]
    flat = np.flatnonzero(both)
    a, b = (crowd.boxes.take(own) for own in index[flat].T)
    out.put(flat, boxes_settled(a, b, points=points))
    left = [np.flatnonzero(~(alike[:, 0] | alike[:, 1]))]
    for column, axis in enumerate(CARRIED):
        pick = np.flatnonzero(alike[:, column] & ~both)
        if len(pick):
            found = prisms_settled(crowd, index[pick], axis, points=points)
            left.append(out.put(pick, found))
    cells = np.sort(np.concatenate(left))
    if len(cells):
        _put_by_cells(out, cells, crowd.cells, index=index[cells])
    return out


def _put_by_cells(out: Answers, pick: Ints, cells: Gathered, *, index: Ints) -> None:
    a, b = index.T
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
    turn = np.cumsum(weight) // MOST_CELL_PAIRS
    return np.split(np.arange(len(weight)), np.flatnonzero(np.diff(turn)) + 1)
