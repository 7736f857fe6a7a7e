"""What a body meets on its way along one axis: the exact stretches of its travel."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final, TypeAlias

import numpy as np

from layout.geometry.bodies.body import Body
from layout.geometry.bodies.crowd import Crowd
from layout.geometry.bodies.gathered import Gathered, own_cells
from layout.geometry.pairs.gap import is_box
from layout.geometry.pairs.runs import product_runs
from layout.geometry.pairs.shifts import Intervals, shift_intervals
from layout.geometry.relations.relation import CONTACT_TOLERANCE_MM
from layout.geometry.solids.boxes import Boxes
from layout.geometry.solids.cells import Floats, Ints, spread
from layout.geometry.space import Axis
from layout.geometry.travel.reach import near_intervals
from layout.geometry.travel.stretches import Stretches, Union, union
from layout.values import dataclass

__all__ = ["blocked", "blocked_pairs"]

_ASIDE_MM: Final = 1e-9
"""How far a stretch's ends are set outward, so that rounding leaves them clear."""

_FIRST: Final = 8
"""Cell pairs of each pair of bodies that are solved first: the longest ones."""


def blocked(
    a: Body,
    b: Body,
    axis: Axis,
    *,
    travel_mm: tuple[float, float],
    need_mm: float = 0.0,
) -> Stretches:
    """Return the shifts of b along an axis at which it interferes or is too near.

    Parameters
    ----------
    a : Body
        Stays where it is.
    b : Body
        Moves; a shift of 0 is where it stands.
    travel_mm : (float, float)
        The first and last shift, mm.
    need_mm : float, optional
        The room wanted, mm; by default the two must only not interfere.

    Returns
    -------
    tuple of (float, float), mm
        Disjoint, in rising order, cut off at the ends of the travel.  At a shift
        inside one, ``relation`` finds the two interfering or, where a need is given,
        their gap under ``need_mm - 1e-6``; at every other shift, the ends of a
        stretch included, it finds neither.  A stretch that was cut off goes on: the
        end of the travel is then blocked as well.

    Raises
    ------
    ValueError
        If the travel runs backwards, or a number is not finite.

    Notes
    -----
    The ends are exact: those of one interval per pair of cells, in closed form, set
    outward by 1e-9 mm to keep rounding from touching them.

    Examples
    --------
    >>> from layout.geometry.bodies.body import Shape
    >>> from layout.geometry.solids.solid import block
    >>> cube = Body(name="a", shape=Shape((block((0, 1), (0, 1), (0, 1)),)))
    >>> ((low, high),) = blocked(cube, cube, Axis.DEPTH, travel_mm=(-9, 9), need_mm=2)
    >>> round(low, 3), round(high, 3)
    (-3.0, 3.0)
    >>> blocked(cube, cube.moved((0, 2, 0)), Axis.DEPTH, travel_mm=(-9, 9))
    ()
    """
    (found,) = blocked_pairs(
        [a, b], [(0, 1)], axis, travel_mm=travel_mm, need_mm=need_mm
    )
    return found


def blocked_pairs(
    bodies: Sequence[Body] | Crowd,
    pairs: Sequence[tuple[int, int]] | Ints,
    axis: Axis,
    *,
    travel_mm: tuple[float, float],
    need_mm: float | Sequence[float] | Floats = 0.0,
) -> tuple[Stretches, ...]:
    """Return for many pairs what :func:`blocked` returns for one, all at once.

    Parameters
    ----------
    bodies : sequence of Body, or Crowd
        A crowd is ready for further questions without being made ready anew.
    pairs : sequence of (int, int)
        Indices of a, which stays, and b, which moves.
    travel_mm : (float, float)
        The first and last shift, mm.
    need_mm : float, or one for each pair, optional
        The room wanted, mm; by default bodies must only not interfere.

    Returns
    -------
    tuple of stretches, mm
        In the order of ``pairs``; ``stretches.merged`` makes one of several, and
        ``stretches.clear_of`` tells what they leave.

    Raises
    ------
    ValueError
        If the travel runs backwards, or a number is not finite.
    """
    crowd, index = Crowd.of(bodies), np.asarray(pairs, np.intp).reshape(-1, 2)
    need = np.broadcast_to(np.asarray(need_mm, float), len(index))
    _refuse_nonsense(travel_mm, need)
    if not len(index):
        return ()
    within = np.maximum(need - CONTACT_TOLERANCE_MM, 0.0)
    found = _blocked(crowd.cells, (index, within), (axis, travel_mm))
    cut = _cut_off(found, travel_mm)
    return tuple(cut.of(k) for k in range(len(index)))


def _cut_off(found: Union, travel_mm: tuple[float, float]) -> Union:
    """Return the stretches set outward by a hair, as far as the travel goes."""
    first, last = travel_mm
    on_way = (found.low < last) & (found.high > first)
    low, high = found.low[on_way] - _ASIDE_MM, found.high[on_way] + _ASIDE_MM
    ends = np.clip(low, first, last), np.clip(high, first, last)
    return union(found.owner[on_way], *ends)


def _refuse_nonsense(travel_mm: tuple[float, float], need: Floats) -> None:
    low, high = travel_mm
    if not (math.isfinite(low) and math.isfinite(high) and low <= high):
        raise ValueError(
            f"travel from {low} to {high} mm; give two finite shifts in rising order"
        )
    if not np.isfinite(need).all():
        raise ValueError("a need is not finite; give the room wanted in mm")


Asked: TypeAlias = tuple[Ints, Floats]
"""Pairs of bodies (n, 2), and how near each may not come; 0: not interfere."""

Way: TypeAlias = tuple[Axis, tuple[float, float]]
"""The axis, and the first and last shift along it."""


def _blocked(cells: Gathered, asked: Asked, way: Way) -> Union:
    """Return the blocked stretches of every pair; they may reach past the travel."""
    _, within = asked
    found = Union(np.empty(0, np.intp), np.empty(0), np.empty(0))
    for touch, rows in ((True, cells.worn), (False, cells.rows)):
        wanted = np.flatnonzero((within == 0) == touch)
        if len(wanted):
            sweep = _Sweep(rows, Boxes.around(rows), way, within)
            for candidates in _candidates(cells, sweep, (asked[0], wanted)):
                found = sweep.add(found, candidates)
    return found


def _candidates(
    cells: Gathered, sweep: _Sweep, asked: tuple[Ints, Ints]
) -> Iterator[_Candidates]:
    """Yield cell pairs that may block the way: bodies' boxes first, then cells'."""
    pairs, wanted = asked
    (a, b), bodies = pairs.T, cells.bodies
    wanted = sweep.near((bodies, a[wanted]), (bodies, b[wanted]), wanted).pair
    place, i = own_cells(cells, a[wanted])
    near = sweep.near((sweep.boxes, i), (bodies, b[wanted[place]]), wanted[place])
    of_a = near.pair, i[near.place]
    place, j = own_cells(cells, b[wanted])
    near = sweep.near((bodies, a[wanted[place]]), (sweep.boxes, j), wanted[place])
    of_b = near.pair, j[near.place]
    if len(of_a[0]) and len(of_b[0]):
        for pair, own, other in product_runs(of_a, of_b):
            near = sweep.near((sweep.boxes, own), (sweep.boxes, other), pair)
            yield _Candidates(near, own[near.place], other[near.place])


@dataclass(frozen=True, slots=True, eq=False)
class _Near:
    """Which of the boxes' pairs come near on the way, and between which shifts."""

    place: Ints
    pair: Ints
    low: Floats
    high: Floats


@dataclass(frozen=True, slots=True, eq=False)
class _Candidates:
    """Cell pairs i, j that may block, with what their boxes block."""

    near: _Near
    i: Ints
    j: Ints


Chosen: TypeAlias = tuple[Boxes, Ints]
"""Boxes, and which of them."""


@dataclass(frozen=True, slots=True, eq=False)
class _Sweep:
    """Cells, whole or worn, and the way that those of b take.

    ``within`` has a value for each pair of bodies; where it is 0 the cells are worn.
    """

    rows: Floats
    boxes: Boxes
    way: Way
    within: Floats

    def near(self, a: Chosen, b: Chosen, pair: Ints) -> _Near:
        """Return which boxes come near one another on the way."""
        axis, (first, last) = self.way
        k = axis.index
        a_boxes, b_boxes = (boxes.take(pick) for boxes, pick in (a, b))
        apart = np.maximum(b_boxes.low - a_boxes.high, a_boxes.low - b_boxes.high)
        m, n = (np.maximum(apart[other], 0.0) for other in range(3) if other != k)
        within = self.within[pair]
        left = within**2 - m**2 - n**2
        half = np.sqrt(np.maximum(left, 0.0))
        low = a_boxes.low[k] - b_boxes.high[k] - half
        high = a_boxes.high[k] - b_boxes.low[k] + half
        near = (left > 0) | ((within == 0) & (left == 0) & (low <= high))
        near &= (low < last) & (high > first)
        place = np.flatnonzero(near)
        return _Near(place, pair[place], low[place], high[place])

    def add(self, found: Union, candidates: _Candidates) -> Union:
        """Return the union with what the cell pairs block.

        Those of two boxes are exact already.  Of the others the longest are solved
        first, since they often cover the rest.
        """
        near, i, j = candidates.near, candidates.i, candidates.j
        flat = is_box(self.rows[:, i]) & is_box(self.rows[:, j])
        found = found.with_more(near.pair[flat], near.low[flat], near.high[flat])
        left, most = np.flatnonzero(~flat), _FIRST
        while len(left):
            ends = near.pair[left], near.low[left], near.high[left]
            left = left[~found.covers(*ends)]
            order = np.lexsort((near.low[left] - near.high[left], near.pair[left]))
            left = left[order]
            _, rank = spread(np.bincount(near.pair[left]))
            now, left = left[rank < most], left[rank >= most]
            low, high = self._solved(near.pair[now], i[now], j[now])
            met = low <= high
            found = found.with_more(near.pair[now][met], low[met], high[met])
            most *= 8
        return found

    def _solved(self, pair: Ints, i: Ints, j: Ints) -> Intervals:
        axis, _ = self.way
        a, b, within = self.rows[:, i], self.rows[:, j], self.within[pair]
        if within.any():
            return near_intervals(a, b, axis, within_mm=within)
        return shift_intervals(a, b, axis)
