"""The cells of many bodies in one array, and the pairs of cells to look at."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from layout.geometry.body import Body
from layout.geometry.boxes import Boxes, box_gaps, boxes_share
from layout.geometry.cells import HIGH, LOW, Floats, Ints, moved, spread
from layout.geometry.gap import CellGaps, cell_gaps
from layout.geometry.interference import CUBE_MM, cells_interfere, worn

__all__ = ["Gathered", "gather", "interfering", "nearest"]

_SLACK_MM = 1e-9
"""How much farther than a known gap boxes may be and still be looked at."""


@dataclass(frozen=True, slots=True, eq=False)
class Gathered:
    """Rows of all cells, with where each body's begin and how many they are."""

    rows: Floats
    start: Ints
    count: Ints
    boxes: Boxes
    bodies: Boxes


def gather(bodies: Sequence[Body]) -> Gathered:
    """Return the cells of all bodies, in place."""
    rows = np.concatenate(
        [moved(body.shape.cells, body.at_mm) for body in bodies], axis=1
    )
    count = np.array([len(body.shape.cells) for body in bodies], dtype=np.intp)
    start = np.cumsum(count) - count
    boxes = Boxes.around(rows)
    return Gathered(rows, start, count, boxes, boxes.merged(start))


def interfering(cells: Gathered, a: Ints, b: Ints) -> Ints:
    """Return which of the pairs of bodies a, b interfere, as places in ``a``."""
    sliver_mm = CUBE_MM / 2
    asked = np.flatnonzero(
        boxes_share(cells.bodies.take(a), cells.bodies.take(b), sliver_mm)
    )
    a, b = a[asked], b[asked]
    within = []
    for own, other in ((a, b), (b, a)):
        pair, cell = _own_cells(cells, own)
        boxes = cells.boxes.take(cell), cells.bodies.take(other[pair])
        keep = boxes_share(*boxes, sliver_mm)
        within.append((pair[keep], cell[keep]))
    pair, i, j = _product(*within)
    keep = boxes_share(cells.boxes.take(i), cells.boxes.take(j), sliver_mm)
    pair, i, j = pair[keep], i[keep], j[keep]
    hit = cells_interfere(
        worn(cells.rows[:, i], CUBE_MM), worn(cells.rows[:, j], CUBE_MM)
    )
    return asked[np.unique(pair[hit])]


def nearest(cells: Gathered, a: Ints, b: Ints) -> CellGaps:
    """Return gap and nearest points of pairs of bodies that do not interfere."""
    a_pair, a_cell = _own_cells(cells, a)
    b_pair, b_cell = _own_cells(cells, b)
    # The gap of one likely cell pair bounds which others can matter.
    found = _likely(cells, (a, a_pair, a_cell), (b, b_pair, b_cell))
    reach = found.gap + _SLACK_MM
    # No cells are nearer than their farthest reaches along one common direction.
    toward = _unit(found.on_b - found.on_a)
    a_far = _farthest(cells.rows[:, a_cell], toward[:, a_pair])
    b_far = -_farthest(cells.rows[:, b_cell], -toward[:, b_pair])
    i, j = a_cell[_first_least(a_pair, -a_far)], b_cell[_first_least(b_pair, b_far)]
    again = cell_gaps(cells.rows[:, i], cells.rows[:, j])
    reach = np.minimum(reach, again.gap + _SLACK_MM)
    a_near = a_far >= (_least(b_pair, b_far) - reach)[a_pair]
    b_near = b_far <= (-_least(a_pair, -a_far) + reach)[b_pair]
    pair, i, j = _product(
        (a_pair[a_near], np.flatnonzero(a_near)),
        (b_pair[b_near], np.flatnonzero(b_near)),
    )
    keep = b_far[j] - a_far[i] <= reach[pair]
    pair, i, j = pair[keep], a_cell[i[keep]], b_cell[j[keep]]
    keep = box_gaps(cells.boxes.take(i), cells.boxes.take(j)) <= reach[pair]
    pair, i, j = pair[keep], i[keep], j[keep]
    return _least_of(found, pair, cell_gaps(cells.rows[:, i], cells.rows[:, j]))


def _likely(
    cells: Gathered, a: tuple[Ints, Ints, Ints], b: tuple[Ints, Ints, Ints]
) -> CellGaps:
    """Return the gap of the cells nearest to the other body's box, for each pair."""
    picks = []
    for (_, pair, cell), (other, _, _) in ((a, b), (b, a)):
        away = box_gaps(cells.boxes.take(cell), cells.bodies.take(other[pair]))
        picks.append(cells.rows[:, cell[_first_least(pair, away)]])
    return cell_gaps(*picks)


def _unit(steps: Floats) -> Floats:
    """Return steps of length 1, and 0 for those of no length; shape (3, n)."""
    length = np.sqrt((steps**2).sum(axis=0))
    unit: Floats = np.divide(steps, length, out=np.zeros_like(steps), where=length > 0)
    return unit


def _farthest(rows: Floats, toward: Floats) -> Floats:
    """Return how far each cell reaches along a direction of its own."""
    x, y, z = toward
    reach = x * rows[:2]
    for way, axis in ((y, 1), (z, 2)):
        reach += np.maximum(way * rows[LOW[axis]], way * rows[HIGH[axis]])
    farthest: Floats = np.maximum(*reach)
    return farthest


def _least(pair: Ints, value: Floats) -> Floats:
    """Return each pair's least value; pairs sorted, all there."""
    return np.minimum.reduceat(value, np.flatnonzero(np.diff(pair, prepend=-1)))


def _least_of(found: CellGaps, pair: Ints, more: CellGaps) -> CellGaps:
    """Return the lesser of one gap a pair and any number of further ones."""
    places = np.concatenate([np.arange(len(found.gap)), pair])
    gap = np.concatenate([found.gap, more.gap])
    order = np.argsort(places, kind="stable")
    best = order[_first_least(places[order], gap[order])]
    on_a = np.concatenate([found.on_a, more.on_a], axis=1)[:, best]
    on_b = np.concatenate([found.on_b, more.on_b], axis=1)[:, best]
    return CellGaps(gap[best], on_a, on_b)


def _own_cells(cells: Gathered, body: Ints) -> tuple[Ints, Ints]:
    """Return the place in ``body``, and the index, of every cell of the bodies."""
    place, offset = spread(cells.count[body])
    return place, cells.start[body[place]] + offset


def _product(a: tuple[Ints, Ints], b: tuple[Ints, Ints]) -> tuple[Ints, Ints, Ints]:
    """Return pair, a's cell and b's cell of all combinations; both sorted by pair."""
    a_pair, a_cell = a
    b_pair, b_cell = b
    pairs = 1 + max(a_pair.max(initial=-1), b_pair.max(initial=-1))
    b_count = np.bincount(b_pair, minlength=pairs)
    b_start = np.cumsum(b_count) - b_count
    pick, offset = spread(b_count[a_pair])
    pair = a_pair[pick]
    return pair, a_cell[pick], b_cell[b_start[pair] + offset]


def _first_least(pair: Ints, value: Floats) -> Ints:
    """Return the first place of each pair's least value; pairs sorted, all there."""
    start = np.flatnonzero(np.diff(pair, prepend=-1))
    least = np.minimum.reduceat(value, start)
    place = np.flatnonzero(value == least[pair])
    first: Ints = place[np.flatnonzero(np.diff(pair[place], prepend=-1))]
    return first
