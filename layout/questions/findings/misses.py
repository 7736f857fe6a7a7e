"""Which holes find no counterpart, and by how much, in words."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final, TypeAlias

from layout.geometry.holes.holes import Miss
from layout.geometry.space import Axis
from layout.questions.findings.answered import listed

__all__ = ["Words", "told"]

_FAR_MM: Final = 12.0
"""Beyond this a hole has no counterpart, rather than one that is off."""

_LEAST_TOLD_MM: Final = 0.05
_MOST_TOLD: Final = 3

Words: TypeAlias = tuple[str, tuple[Axis, Axis]]
"""What a hole of the seat is called, and the axes of the pattern's plane."""


def told(missed: Sequence[Miss], count: int, words: Words) -> str:
    """Return which holes miss and by how much."""
    theirs, across = words
    by = {_by(each, across) for each in missed}
    near = [each for each in missed if each.nearest and each.length_mm <= _FAR_MM]
    if len(near) == count > 1 and len(by) == 1:
        return f"every hole misses its {theirs} by {by.pop()}"
    far = [_named(each) for each in missed if each not in near]
    all_told = [f"{_named(m)} misses its {theirs} by {_by(m, across)}" for m in near]
    rest = len(all_told) - _MOST_TOLD
    all_told = [*all_told[:_MOST_TOLD], *([f"{rest} more miss"] if rest > 0 else [])]
    if far:
        shown = far if len(far) <= 2 * _MOST_TOLD else [f"{len(far)} holes"]
        all_told.append(
            f"{listed(shown)} {'has' if len(far) == 1 else 'have'} no {theirs}"
        )
        off_mm = [m.length_mm for m in missed if m not in near and m.nearest]
        all_told[-1] += f" nearer than {min(off_mm):.0f} mm" if off_mm else ""
    return "; ".join(all_told)


def _named(miss: Miss) -> str:
    return miss.hole if miss.hole.startswith("hole") else f"hole {miss.hole}"


def _by(miss: Miss, across: tuple[Axis, Axis]) -> str:
    """Return how far a hole misses, along each axis on which it does."""
    lengths = [
        f"{abs(mm):.1f} mm along {axis.value}"
        for mm, axis in zip(miss.by_mm, across, strict=True)
        if abs(mm) >= _LEAST_TOLD_MM
    ]
    return " and ".join(lengths) or f"{math.hypot(*miss.by_mm):.2f} mm"
