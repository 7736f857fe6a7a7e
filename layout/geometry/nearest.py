"""The nearest points of pairs of bodies: narrow the cells down, then measure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from layout.geometry.boxes import Boxes, box_gaps
from layout.geometry.cells import HIGH, LOW, Floats, Ints
from layout.geometry.gap import CellGaps, Places, cell_gaps, nearest_places
from layout.geometry.gathered import Gathered, first_least, own_cells, product

__all__ = ["nearest"]

_SLACK_MM: Final = 1e-10
"""Cells that can be nearer than a known gap by no more than this are not measured."""

_ROUNDS: Final = 2
"""How often a better direction is tried; a third round costs more than it saves."""


def nearest(cells: Gathered, a: Ints, b: Ints) -> CellGaps:
    """Return gap and nearest points of pairs of bodies that do not interfere.

    No two cells are nearer than what their farthest reaches along one direction leave
    between them.  The two that reach farthest are likely the nearest; their gap
    bounds which others can matter, and their nearest points give a better direction.
    """
    toward = _between(cells.bodies.take(a), cells.bodies.take(b))
    own, other = _Reach.of(cells, a, toward), _Reach.of(cells, b, -toward)
    found = _measured(cells, own.first(), other.first())
    own, other = _within(own, other, found), _within(other, own, found)
    for _ in range(_ROUNDS - 1):
        toward = found.toward(cells)
        own, other = own.along(cells, toward), other.along(cells, -toward)
        found = found.or_nearer(
            np.arange(len(a)), _measured(cells, own.first(), other.first())
        )
        own, other = _within(own, other, found), _within(other, own, found)
    pair, i, j = _candidates(cells, (own, other), found.gap - _SLACK_MM)
    return found.or_nearer(pair, _measured(cells, i, j)).gaps(cells)


@dataclass(frozen=True, slots=True, eq=False)
class _Measured:
    """Pairs of cells with their nearest places."""

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

    def toward(self, cells: Gathered) -> Floats:
        """Return the directions from a's to b's nearest points."""
        gaps = self.gaps(cells)
        return _unit(gaps.on_b - gaps.on_a)

    def or_nearer(self, pair: Ints, more: _Measured) -> _Measured:
        """Return for each pair the nearest: this one, or any of its further ones."""
        place = np.concatenate([np.arange(len(self.i)), pair])
        square = np.concatenate([self.places.square, more.places.square])
        order = np.argsort(place, kind="stable")
        best = order[first_least(place[order], square[order])]
        i, j = np.concatenate([[self.i, self.j], [more.i, more.j]], axis=1)[:, best]
        at = np.concatenate([self.places.at, more.places.at], axis=1)[:, best]
        return _Measured(i, j, Places(at, square[best]))


def _measured(cells: Gathered, i: Ints, j: Ints) -> _Measured:
    return _Measured(i, j, nearest_places(cells.rows[:, i], cells.rows[:, j]))


def _candidates(
    cells: Gathered, sides: tuple[_Reach, _Reach], reach: Floats
) -> tuple[Ints, Ints, Ints]:
    """Return pair, a's cell and b's cell of all that may be nearer than the reach."""
    own, other = sides
    pair, i, j = product(
        (own.pair, np.arange(len(own.pair))), (other.pair, np.arange(len(other.pair)))
    )
    keep = -own.far[i] - other.far[j] <= reach[pair]
    pair, i, j = pair[keep], own.cell[i[keep]], other.cell[j[keep]]
    keep = box_gaps(cells.boxes.take(i), cells.boxes.take(j)) <= reach[pair]
    return pair[keep], i[keep], j[keep]


@dataclass(frozen=True, slots=True, eq=False)
class _Reach:
    """Cells of one side of each pair, and how far each reaches toward the other.

    ``pair`` is sorted, and every pair keeps a cell.
    """

    pair: Ints
    cell: Ints
    far: Floats

    @classmethod
    def of(cls, cells: Gathered, body: Ints, toward: Floats) -> _Reach:
        """Return all cells of one body of each pair."""
        pair, cell = own_cells(cells, body)
        return cls(pair, cell, _farthest(cells.rows[:, cell], toward[:, pair]))

    def along(self, cells: Gathered, toward: Floats) -> _Reach:
        """Return the same cells with their reach along other directions."""
        rows, way = cells.rows[:, self.cell], toward[:, self.pair]
        return _Reach(self.pair, self.cell, _farthest(rows, way))

    def first(self) -> Ints:
        """Return the cell of each pair that reaches farthest."""
        first: Ints = self.cell[first_least(self.pair, -self.far)]
        return first

    def most(self) -> Floats:
        """Return the farthest reach of each pair."""
        start = np.flatnonzero(np.diff(self.pair, prepend=-1))
        return np.maximum.reduceat(self.far, start)


def _within(own: _Reach, other: _Reach, found: _Measured) -> _Reach:
    """Return the cells that may be no farther than a gap from any of the other's."""
    least = -other.most() - found.gap - _SLACK_MM
    keep = own.far >= least[own.pair]
    return _Reach(own.pair[keep], own.cell[keep], own.far[keep])


def _between(a: Boxes, b: Boxes) -> Floats:
    """Return a likely direction from a to b, shape (3, n).

    Along the gap of their boxes, leaning to their middles, so that it has a length
    where the boxes meet.
    """
    gap = np.maximum(b.low - a.high, 0.0) - np.maximum(a.low - b.high, 0.0)
    return _unit(gap + 0.15 * (b.low + b.high - a.low - a.high))


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
