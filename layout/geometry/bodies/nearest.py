"""The nearest points of pairs of bodies: narrow the cells down, then measure."""

from __future__ import annotations

from typing import Final

import numpy as np

from layout.geometry.bodies.gathered import Gathered, own_cells
from layout.geometry.pairs.gap import CellGaps, Places, cell_gaps, nearest_places
from layout.geometry.pairs.runs import first_least, product_runs, starts_of
from layout.geometry.solids.boxes import Boxes, box_gaps
from layout.geometry.solids.cells import HIGH, LOW, Floats, Ints
from layout.values import dataclass

__all__ = ["nearest"]

_SLACK_MM: Final = 1e-10
"""Cells that can be nearer than a known gap by no more than this are not measured."""


def nearest(cells: Gathered, index: Ints) -> CellGaps:
    """Return gap and nearest points of pairs of bodies that do not interfere.

    The index of a and b has shape (2, n).

    No two cells are nearer than what their farthest reaches along one direction leave
    between them.  The two that reach farthest are likely the nearest; their gap
    bounds which others can matter, and their nearest points give the direction that
    rules out most of those.  Of what is left, the two with the least bound are
    measured next, and then the few that may still be nearer.
    """
    toward = _between(*cells.bodies.pairs(index))
    own, other = (
        _reaching(cells, own_cells(cells, body), way)
        for body, way in zip(index, (toward, -toward), strict=True)
    )
    found = _measured(cells, np.arange(index.shape[1]), (own.first(), other.first()))
    for _ in range(_TURNS):
        own, other = own.beyond(other, found.gap), other.beyond(own, found.gap)
        toward = found.toward(cells, otherwise=toward)
        own, other = own.along(cells, toward), other.along(cells, -toward)
        firsts = own.first(), other.first()
        found = found.or_nearer(_measured(cells, found.pair, firsts))
    left = _candidates(cells, own, other, reach=found.gap)
    place = first_least(left.pair, left.least) if len(left.pair) else left.pair
    found = found.or_nearer(_measured(cells, *left.cells_at(place)))
    left.least[place] = np.inf  # measured
    place = np.flatnonzero(left.least < found.gap[left.pair] - _SLACK_MM)
    return found.or_nearer(_measured(cells, *left.cells_at(place))).gaps(cells)


_TURNS: Final = 1
"""How often the direction is turned to that of the nearest points known."""


@dataclass(frozen=True, slots=True, eq=False)
class _Reaching:
    """Cells of one side of each pair, and how far each reaches toward the other.

    ``pair`` is sorted; every pair has a cell.
    """

    pair: Ints
    cell: Ints
    far: Floats

    def along(self, cells: Gathered, toward: Floats) -> _Reaching:
        """Return the same cells, and how far they reach along another direction."""
        return _reaching(cells, (self.pair, self.cell), toward)

    def first(self) -> Ints:
        """Return the cell of each pair that reaches farthest."""
        first: Ints = self.cell[first_least(self.pair, -self.far)]
        return first

    def beyond(self, other: _Reaching, reach: Floats) -> _Reaching:
        """Return the cells that may be no farther than a reach from the other's."""
        least = (
            -np.maximum.reduceat(other.far, starts_of(other.pair)) - reach - _SLACK_MM
        )
        keep = self.far >= least[self.pair]
        return _Reaching(self.pair[keep], self.cell[keep], self.far[keep])


def _reaching(cells: Gathered, own: tuple[Ints, Ints], toward: Floats) -> _Reaching:
    pair, cell = own
    return _Reaching(pair, cell, _farthest(cells.rows[:, cell], toward[:, pair]))


@dataclass(frozen=True, slots=True, eq=False)
class _Candidates:
    """Cell pairs that may be the nearest, with the least their gap can be."""

    pair: Ints
    i: Ints
    j: Ints
    least: Floats

    def cells_at(self, place: Ints) -> tuple[Ints, tuple[Ints, Ints]]:
        """Return pair and cells of some of them."""
        return self.pair[place], (self.i[place], self.j[place])


def _candidates(
    cells: Gathered, own: _Reaching, other: _Reaching, *, reach: Floats
) -> _Candidates:
    a, b = own.beyond(other, reach), other.beyond(own, reach)
    reach = reach - _SLACK_MM
    found = []
    sides = (a.pair, np.arange(len(a.pair))), (b.pair, np.arange(len(b.pair)))
    for pairs, own_place, other_place in product_runs(*sides):
        bound = -a.far[own_place] - b.far[other_place]
        near = np.flatnonzero(bound < reach[pairs])
        pair, i, j = pairs[near], a.cell[own_place[near]], b.cell[other_place[near]]
        boxes = box_gaps(cells.boxes.take(i), cells.boxes.take(j))
        least = np.maximum(bound[near], boxes)
        keep = np.flatnonzero(least < reach[pair])
        found.append((pair[keep], i[keep], j[keep], least[keep]))
    return _Candidates(*map(np.concatenate, zip(*found, strict=True)))


@dataclass(frozen=True, slots=True, eq=False)
class _Measured:
    """Pairs of cells with their nearest places."""

    pair: Ints
    i: Ints
    j: Ints
    places: Places

    @property
    def gap(self) -> Floats:
        """Return the distance of each pair, mm."""
        return np.sqrt(self.places.square)

    def gaps(self, cells: Gathered) -> CellGaps:
        """Return the gaps and nearest points."""
        return cell_gaps(cells.rows[:, self.i], cells.rows[:, self.j], self.places.at)

    def toward(self, cells: Gathered, *, otherwise: Floats) -> Floats:
        """Return the direction of each gap; another where the cells meet."""
        gaps = self.gaps(cells)
        apart = gaps.gap > _SLACK_MM
        length = np.where(apart, gaps.gap, 1.0)
        return np.where(apart, (gaps.on_b - gaps.on_a) / length, otherwise)

    def or_nearer(self, more: _Measured) -> _Measured:
        """Return for each pair the nearest: this one, or any of its further ones."""
        best = first_least(more.pair, more.places.square)
        best = best[more.places.square[best] < self.places.square[more.pair[best]]]
        pair = more.pair[best]
        i, j, at = self.i.copy(), self.j.copy(), self.places.at.copy()
        square = self.places.square.copy()
        i[pair], j[pair], at[:, pair] = (
            more.i[best],
            more.j[best],
            more.places.at[:, best],
        )
        square[pair] = more.places.square[best]
        return _Measured(self.pair, i, j, Places(at, square))


def _measured(cells: Gathered, pair: Ints, between: tuple[Ints, Ints]) -> _Measured:
    i, j = between
    return _Measured(pair, i, j, nearest_places(cells.rows[:, i], cells.rows[:, j]))


def _between(a: Boxes, b: Boxes) -> Floats:
    """Return a likely direction from a to b, shape (3, n).

    Along the gap of their boxes, leaning to their middles, so that it has a length
    where the boxes meet.
    """
    gap = np.maximum(b.low - a.high, 0.0) - np.maximum(a.low - b.high, 0.0)
    steps = gap + 0.15 * (b.low + b.high - a.low - a.high)
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
