"""What is other in a space than before, and which shortest ways it leaves as they are.

A way that nothing new cuts is still there.  It is still the shortest unless another
passes through what has come free, or turns at a corner that was not there before: such
a way is at least as long as the straight lines to that place and on from it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import pairwise

import numpy as np

from layout.geometry.solids.cells import Floats
from layout.geometry.space import Axis, Box, Vector
from layout.geometry.ways.sights import TRACE
from layout.values import dataclass

__all__ = ["Changed"]


@dataclass(frozen=True, slots=True, eq=False)
class Changed:
    """Boxes that bar the way now and did not, what came free, and other corners.

    ``low`` and ``high`` are the new boxes, shape (n, 3); ``near`` and ``far`` the
    places that a shorter way could pass, new corners among them, shape (m, 3), mm.
    """

    low: Floats
    high: Floats
    near: Floats
    far: Floats
    gone: frozenset[Vector]

    @classmethod
    def between(
        cls,
        boxes: tuple[Sequence[Box], Sequence[Box]],
        corners: tuple[Collection[Vector], Collection[Vector]],
    ) -> Changed:
        """Return what differs of boxes and corners, each given before and now."""
        before, now = ({(e.low, e.high): e for e in one} for one in boxes)
        added = [box for at, box in now.items() if at not in before]
        taken = [box for at, box in before.items() if at not in now]
        free = [rest for box in taken for rest in _without(box, added)]
        then, there = (frozenset(each) for each in corners)
        fresh = [Box(at, at) for at in there - then]
        return cls(*_ends(added), *_ends([*free, *fresh]), then - there)

    def leaves(self, way: Sequence[Vector]) -> bool:
        """Tell whether what was the shortest way between its ends is so still."""
        if not self.gone.isdisjoint(way):
            return False
        if any(self._cut(a, b) for a, b in pairwise(np.array(way))):
            return False
        start, end = np.array(way[0]), np.array(way[-1])
        longer = _away(start, self.near, self.far) + _away(end, self.near, self.far)
        length_mm = np.linalg.norm(np.diff(np.array(way), axis=0), axis=1).sum()
        return bool((longer >= length_mm).all())

    def _cut(self, start: Floats, end: Floats) -> bool:
        """Tell whether a leg passes through a new box, or could by a rounding."""
        along = np.where(end == start, TRACE, end - start)
        one, other = (self.low - start) / along, (self.high - start) / along
        enters = np.minimum(one, other).max(axis=1, initial=0.0)
        leaves = np.maximum(one, other).min(axis=1, initial=1.0)
        return bool((leaves >= enters).any())


def _ends(boxes: Sequence[Box]) -> tuple[Floats, Floats]:
    low = np.array([each.low for each in boxes], float).reshape(-1, 3)
    return low, np.array([each.high for each in boxes], float).reshape(-1, 3)


def _away(point: Floats, low: Floats, high: Floats) -> Floats:
    """Return how far a point is from boxes, mm."""
    off = np.maximum(np.maximum(low - point, point - high), 0.0)
    away: Floats = np.sqrt((off**2).sum(axis=1))
    return away


def _without(box: Box, others: Sequence[Box]) -> list[Box]:
    """Return what is left of a box outside others, as boxes."""
    rest = [box]
    for other in others:
        rest = [piece for each in rest for piece in _beside(each, other)]
    return rest


def _beside(box: Box, other: Box) -> Iterator[Box]:
    """Yield what is left of a box outside one other."""
    if not box.meets(other):
        yield box
        return
    for axis in Axis:
        k = axis.index
        (low, high), (start, end) = (
            (box.low[k], box.high[k]),
            (other.low[k], other.high[k]),
        )
        if low < start:
            yield box.between(axis, (low, start))
        if end < high:
            yield box.between(axis, (end, high))
        box = box.between(axis, (max(low, start), min(high, end)))
