"""How pairs of bodies stand, as arrays: boxes, then prisms, then cells."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from layout.geometry.bodies.crowd import CARRIED, Crowd
from layout.geometry.bodies.gathered import SURE_MM, Gathered, interfering
from layout.geometry.bodies.nearest import nearest
from layout.geometry.bodies.prisms import Settled, boxes_settled, prisms_settled
from layout.geometry.pairs.runs import turns
from layout.geometry.solids.boxes import boxes_share
from layout.geometry.solids.cells import Floats, Ints
from layout.values import dataclass

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


def answers(crowd: Crowd, index: Ints, *, points: bool, gaps: bool = True) -> Answers:
    """Return how the pairs stand, every gap exact.

    Parameters
    ----------
    index : array of shape (2, n)
        Which bodies are a and b.
    points : bool
        Whether to tell the nearest points.
    gaps : bool
        Whether to tell the gaps; without them only which pairs interfere is right.
    """
    on_a, on_b = np.zeros((2, 3, index.shape[1]))
    # Boxes within bodies tell many that interfere, and never one that does not.
    sure = boxes_share(*crowd.inner.pairs(index), SURE_MM)
    out = Answers(sure, np.zeros(index.shape[1]), on_a, on_b)
    alike = np.logical_and(*crowd.carried.take(index, axis=1).swapaxes(0, 1))
    flat, either = alike[0] & alike[1], alike[0] | alike[1]
    (pick,) = flat.nonzero()
    if len(pick):
        boxes = crowd.boxes.pairs(index.take(pick, axis=1))
        out.put(pick, boxes_settled(*boxes, points=points))
    left = ~(flat | sure)
    rest = [*(left & ~either).nonzero()]
    for along, axis in zip(alike, CARRIED, strict=True):
        (pick,) = (left & along).nonzero()
        if len(pick):
            pairs = index.take(pick, axis=1)
            found = prisms_settled(crowd, pairs, axis, points=points)
            rest.append(out.put(pick, found))
    pick = np.concatenate(rest)
    if len(pick):
        asked = crowd.cells_of(index.take(pick, axis=1))
        _put_by_cells(out, pick, asked, gaps=gaps)
    return out


def _put_by_cells(
    out: Answers, pick: Ints, asked: tuple[Gathered, Ints], *, gaps: bool
) -> None:
    cells, index = asked
    for turn in turns(np.multiply(*cells.count.take(index))):
        pairs = index.take(turn, axis=1)
        hit = interfering(cells, pairs)
        out.interfering[pick[turn[hit]]] = True
        out.gap[pick[turn[hit]]] = 0.0
        if gaps and len(hit) < len(turn):
            free = np.delete(np.arange(len(turn)), hit)
            found = nearest(cells, pairs.take(free, axis=1))
            place = pick[turn[free]]
            out.gap[place] = found.gap
            out.on_a[:, place], out.on_b[:, place] = found.on_a, found.on_b
