"""Which fans of which size stand together on one mount without overlapping."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import permutations
from typing import TypeAlias

from layout.parts.form.form import FanRow
from layout.values import dataclass

__all__ = ["Stretch", "Together", "arranged", "together", "told"]

Together: TypeAlias = tuple[tuple[int, int], ...]
"""How many of each size, the smallest size first."""

Stretch: TypeAlias = tuple[float, float, float]
"""Where a part on a mount begins and ends, and how far its slots let it off that."""

_TOUCH_MM = 1e-6
_MOST_ORDERS = 5
"""Parts on one side of a mount up to which every order is tried."""
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


def arranged(parts: Sequence[Stretch]) -> tuple[float, ...] | None:
    """Return how far each part is shifted so that none overlaps; None if none helps.

    Of the orders in which they may stand the one with the least shifts is taken.

    Examples
    --------
    >>> arranged([(0.0, 120.0, 10.0), (110.0, 250.0, 10.0)])
    (0.0, 10.0)
    >>> arranged([(0.0, 120.0, 6.0), (110.0, 250.0, 6.0)])
    (-4.0, 6.0)
    >>> arranged([(0.0, 120.0, 4.0), (110.0, 250.0, 4.0)]) is None
    True
    """
    order = sorted(range(len(parts)), key=lambda k: parts[k][0] + parts[k][1])
    orders = permutations(order) if len(parts) <= _MOST_ORDERS else [tuple(order)]
    every = (_in_order(parts, each) for each in orders)
    found = [each for each in every if each is not None]
    return min(found, key=lambda each: sum(map(abs, each)), default=None)


def _in_order(
    parts: Sequence[Stretch], order: Sequence[int]
) -> tuple[float, ...] | None:
    """Return the shifts of parts that stand in an order, each as small as can be."""
    highest: dict[int, float] = {}
    limit_mm = float("inf")
    for k in reversed(order):
        start_mm, end_mm, slack_mm = parts[k]
        highest[k] = min(start_mm + slack_mm, limit_mm - (end_mm - start_mm))
        limit_mm = highest[k]
    shifts = [0.0] * len(parts)
    reached_mm = float("-inf")
    for k in order:
        start_mm, end_mm, slack_mm = parts[k]
        least_mm = max(start_mm - slack_mm, reached_mm)
        if least_mm > highest[k] + _TOUCH_MM:
            return None
        at_mm = min(max(start_mm, least_mm), highest[k])
        shifts[k] = at_mm - start_mm
        reached_mm = at_mm + end_mm - start_mm
    return tuple(shifts)


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
