"""Which fans of which size stand together on one mount without overlapping."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TypeAlias

from layout.parts.form import FanRow
from layout.values import dataclass

__all__ = ["Together", "together", "told"]

Together: TypeAlias = tuple[tuple[int, int], ...]
"""How many of each size, the smallest size first."""

_TOUCH_MM = 1e-6
_MOST_TOLD = 4


def together(rows: Sequence[FanRow]) -> tuple[Together, ...]:
    """Return every choice of fans that stand together and leave room for no other.

    Each fan stands at a place of its size's row, or off it by as much as half the
    length of the mount's slots; frames may touch and may not overlap.

    Examples
    --------
    >>> from layout.geometry.space import Axis
    >>> rows = [
    ...     FanRow(size_mm=120, count=3, along=Axis.HEIGHT, start_mm=40.0),
    ...     FanRow(size_mm=140, count=2, along=Axis.HEIGHT, start_mm=60.0),
    ... ]
    >>> together(rows)
    (((120, 1), (140, 1)), ((120, 3),), ((140, 2),))
    """
    start = _State(next_places=(0,) * len(rows), end_mm=float("-inf"))
    found = {_counts(rows, chosen) for chosen in _choices(rows, start, {})}
    most = [each for each in found if not any(_less(each, other) for other in found)]
    return tuple(sorted(most))


def told(rows: Sequence[FanRow]) -> str:
    """Return the choices as an error tells them."""
    choices = [
        " and ".join(f"{count} of {size}" for size, count in each)
        for each in together(rows)
    ]
    return ", or ".join(choices[:_MOST_TOLD])


@dataclass(frozen=True, slots=True)
class _State:
    """The next place of each row that may be taken, and where the last frame ends."""

    next_places: tuple[int, ...]
    end_mm: float


_Chosen: TypeAlias = tuple[int, ...]
"""How many fans of each row."""


def _choices(
    rows: Sequence[FanRow], state: _State, known: dict[_State, frozenset[_Chosen]]
) -> frozenset[_Chosen]:
    """Return every number of fans of each row that finds room from a state on."""
    if state not in known:
        found = {(0,) * len(rows)}
        for index, after in _next(rows, state):
            for rest in _choices(rows, after, known):
                found.add((*rest[:index], rest[index] + 1, *rest[index + 1 :]))
        known[state] = frozenset(found)
    return known[state]


def _next(rows: Sequence[FanRow], state: _State) -> Iterator[tuple[int, _State]]:
    """Yield the row of each fan that can stand next, as near to the last as it can."""
    for index, row in enumerate(rows):
        for place in range(state.next_places[index], row.count):
            low_mm = row.start_mm + place * row.size_mm
            at_mm = max(low_mm - row.travel_mm / 2, state.end_mm)
            if at_mm > low_mm + row.travel_mm / 2 + _TOUCH_MM:
                continue
            places = list(state.next_places)
            places[index] = place + 1
            yield index, _State(tuple(places), at_mm + row.size_mm)


def _counts(rows: Sequence[FanRow], chosen: _Chosen) -> Together:
    pairs = zip((row.size_mm for row in rows), chosen, strict=True)
    return tuple(sorted((size, count) for size, count in pairs if count))


def _less(few: Together, many: Together) -> bool:
    """Tell whether a choice is part of another one."""
    of = dict(many)
    return few != many and all(of.get(size, 0) >= count for size, count in few)
