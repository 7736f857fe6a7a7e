"""Where what grows with a figure is linear in it, and where it bends or jumps."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Final, TypeAlias

import numpy as np

from layout.geometry.solids.cells import Floats
from layout.values import dataclass

__all__ = ["Bounds", "Linear"]

_SHORTEST_MM: Final = 1e-5
"""A stretch no longer holds a jump: what lies before and after it counts."""
_LINEAR_MM: Final = 1e-7
_PROBES: Final = (0.317, 0.683)
_BESIDE_MM: Final = 0.01
"""So near to an end of a stretch its bounds are on the line that begins there."""
_ROUND_MM: Final = (1.0, 0.1, 0.05, 0.01)
"""To which figures a jump is looked for first, coarse to fine."""
_NEAR_MM: Final = 0.9 * _SHORTEST_MM

Bounds: TypeAlias = dict[str, Floats]
"""Low and high corners of every box of a body, by its name: shape (6, n)."""
_Line: TypeAlias = tuple[float, float]
"""Two values; at others on their line every bound is as far on as the value is."""


@dataclass(frozen=True, slots=True)
class Linear:
    """Boxes that change with a figure; ``bounds`` are those at a value, None for none.

    Values are asked for again and again: ``bounds`` remembers them.  Where ``can_be``
    is False there are none, which is told at less cost.
    """

    bounds: Callable[[float], Bounds | None]
    can_be: Callable[[float], bool]

    def pieces(self, low_mm: float, high_mm: float) -> Iterator[tuple[float, float]]:
        """Yield stretches on which every bound is linear, and jumps between them."""
        if high_mm - low_mm <= _SHORTEST_MM or self._linear(low_mm, high_mm):
            yield low_mm, high_mm
            return
        before_mm, after_mm = self._change(low_mm, high_mm)
        yield from self.pieces(low_mm, before_mm)
        if before_mm < after_mm:
            yield before_mm, after_mm
        yield from self.pieces(after_mm, high_mm)

    def _change(self, low_mm: float, high_mm: float) -> tuple[float, float]:
        """Return where to cut a stretch: at a bend, at a jump, or in the middle.

        Where both ends have other boxes one look at each middle finds a jump; else it
        is looked for before or after what lies on one line, where most of it does.
        """
        can_be, keeps = self.can_be(low_mm), self._same_as(low_mm)
        if can_be is not self.can_be(high_mm):
            return _jump(low_mm, high_mm, lambda mm: self.can_be(mm) is can_be)
        if not keeps(high_mm):
            return _jump(low_mm, high_mm, keeps)
        first, last = (low_mm + part * (high_mm - low_mm) for part in _PROBES)
        before, after = (low_mm, first), (last, high_mm)
        if self._on((first, high_mm), last):
            before, after = (low_mm, low_mm + _BESIDE_MM), (first, high_mm)
            cut = self._crossing(before, after)
            return cut or _jump(low_mm, first, lambda mm: not self._on(after, mm))
        if self._on((low_mm, last), first):
            before, after = (low_mm, last), (high_mm - _BESIDE_MM, high_mm)
            cut = self._crossing(before, after)
            return cut or _jump(last, high_mm, lambda mm: self._on(before, mm))
        cut = self._crossing(before, after)
        if cut is None and self._linear(*before):
            return _jump(first, high_mm, lambda mm: self._on(before, mm))
        middle_mm = (low_mm + high_mm) / 2
        return cut or (middle_mm, middle_mm)

    def _same_as(self, low_mm: float) -> Callable[[float], bool]:
        """Return whether a value has the boxes that another has."""
        return lambda mm: _same(self.bounds(low_mm), self.bounds(mm))

    def _on(self, line: _Line, mm: float) -> bool:
        """Tell whether a value's bounds lie on a line."""
        first, last, met = (self.bounds(each) for each in (*line, mm))
        if first is None or last is None or met is None or not _alike(first, last):
            return False
        part = (mm - line[0]) / (line[1] - line[0])
        return _off_line((first, last), met, part) <= _LINEAR_MM

    def is_linear(self, low_mm: float, high_mm: float) -> bool:
        """Tell whether a stretch that was yielded is no jump."""
        return high_mm - low_mm > _SHORTEST_MM or self._linear(low_mm, high_mm)

    def _crossing(self, before: _Line, after: _Line) -> tuple[float, float] | None:
        """Return where two lines cross, if the figures bend just there."""
        known = [self.bounds(each) for each in (*before, *after)]
        told = [each for each in known if each is not None]
        if len(told) < len(known) or not all(_alike(told[0], each) for each in told):
            return None
        a, b, c, d = (np.concatenate([e[k].ravel() for k in told[0]]) for e in told)
        rise, fall = (b - a) / (before[1] - before[0]), (d - c) / (after[1] - after[0])
        k = int(np.abs(rise - fall).argmax())
        if abs(rise[k] - fall[k]) < _LINEAR_MM:
            return None
        place = float(
            (c[k] - fall[k] * after[0] - a[k] + rise[k] * before[0])
            / (rise[k] - fall[k])
        )
        if not before[0] + _SHORTEST_MM < place < after[1] - _SHORTEST_MM:
            return None
        met = self.bounds(place)
        if met is None or not _alike(told[0], met):
            return None
        there = float(np.concatenate([met[n].ravel() for n in told[0]])[k])
        on_both = abs(there - a[k] - rise[k] * (place - before[0])) <= _LINEAR_MM
        return (place, place) if on_both else None

    def _linear(self, low_mm: float, high_mm: float) -> bool:
        first, last = self.bounds(low_mm), self.bounds(high_mm)
        if first is None or last is None:
            # nothing to be had at either end: nothing between is worth a look
            return first is last
        if not _alike(first, last):
            return False
        # one place tells a bend anywhere: between its ends it lies nowhere on the line
        between = self.bounds(low_mm + _PROBES[0] * (high_mm - low_mm))
        if between is None:
            return False
        return _off_line((first, last), between, _PROBES[0]) <= _LINEAR_MM


def _off_line(ends: tuple[Bounds, Bounds], met: Bounds, part: float) -> float:
    """Return how far bounds lie at most from those between two others, mm."""
    first, last = ends
    if not _alike(first, met):
        return math.inf
    return max(
        float(np.abs(bounds - first[n] - part * (last[n] - first[n])).max())
        for n, bounds in met.items()
    )


def _same(a: Bounds | None, b: Bounds | None) -> bool:
    """Tell whether both are there with the same boxes, or neither."""
    return a is b if a is None or b is None else _alike(a, b)


def _alike(a: Bounds, b: Bounds) -> bool:
    return {k: v.shape for k, v in a.items()} == {k: v.shape for k, v in b.items()}


def _jump(
    low_mm: float, high_mm: float, keeps: Callable[[float], bool]
) -> tuple[float, float]:
    """Return where what a stretch begins with ends, as short a stretch as matters.

    Kinds of parts change at round figures: those are asked first, then just beside.
    """
    waits = list(_ROUND_MM)
    while high_mm - low_mm > _SHORTEST_MM:
        places = [(low_mm + high_mm) / 2]
        if waits and high_mm - low_mm <= 1.5 * waits[0]:
            places = [low_mm + _NEAR_MM, high_mm - _NEAR_MM]
            waits.pop(0)
        elif waits:
            places = [round(places[0] / waits[0]) * waits[0]]
        for at_mm in places:
            if low_mm < at_mm < high_mm:
                kept = keeps(at_mm)
                low_mm, high_mm = (at_mm, high_mm) if kept else (low_mm, at_mm)
    return low_mm, high_mm
