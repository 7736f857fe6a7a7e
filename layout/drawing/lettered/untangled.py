"""Leaders that cross or go far are placed anew, a few at a time, where that helps."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import Final, TypeAlias

import numpy as np
import shapely

from layout.drawing.lettered.cheapest import CROSSED, Limit
from layout.drawing.lettered.ground import Ground
from layout.drawing.lettered.labels import Candidate
from layout.drawing.paper.met import Few
from layout.drawing.paper.scene import Item, Point
from layout.values import dataclass

__all__ = ["Label", "untangled"]

_Chooser: TypeAlias = Callable[[Limit], Candidate | None]

_LONG_MM: Final = 30.0
"""A leader this long is worth a look at what keeps it from a shorter one."""
_GAIN_MM: Final = 15.0
"""A shorter one is worth a change of places where it saves this much."""
_MOST_BARRING: Final = 3
_NEAR_MM: Final = 1.0
"""Labels nearer than this bar each other."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Label:
    """Lettering at its place, and how it would find another one.

    Parameters
    ----------
    place : Candidate
        What it takes of the ground.
    choose : function
        Takes the best place that is free now and returns it, or None; None too where
        that is not within a limit.
    farther : function
        Looks farther off, where every other place crosses a leader.
    made : function
        What is drawn of it at a place.
    """

    place: Candidate
    choose: _Chooser
    farther: _Chooser
    made: Callable[[Candidate], tuple[Item, ...]]


def untangled(labels: Sequence[Label], ground: Ground) -> tuple[Item, ...]:
    """Return what is drawn of labels, those whose leaders cross moved if that helps.

    Of two that cross either is placed anew, or both are, one before the other; where
    that leaves as many crossings, both stay.  A label with a long leader is then placed
    anew, all others being known, or changes places with a few that bar a shorter one,
    if that is shorter in all; that may have made room for what crosses still, so it is
    tried once more.
    """
    out = [each.place for each in labels]
    near = [each.choose for each in labels]
    far = [each.farther for each in labels]
    _uncross(out, (near, far), ground)
    for n in sorted(range(len(out)), key=lambda n: -_reach(out[n])):
        for choosers in (near, far):
            if _burden(out, n) >= _LONG_MM:
                _moved(out, (n,), choosers, ground=ground, long=True)
        if bar := _barring(out, n, near[n], ground=ground):
            _moved(out, (n, *bar), near, ground=ground, long=True)
    _uncross(out, (near, far), ground)
    return tuple(
        item for each, at in zip(labels, out, strict=True) for item in each.made(at)
    )


def _uncross(
    places: list[Candidate], several: Iterable[Sequence[_Chooser]], ground: Ground
) -> None:
    """Place labels anew whose leaders cross: near, and farther where that is vain."""
    for choosers in several:
        _part(places, choosers, ground)


def _part(
    places: list[Candidate], choosers: Sequence[_Chooser], ground: Ground
) -> None:
    """Place labels anew whose leaders cross, one or both of a pair."""
    failed: set[tuple[int, ...]] = set()  # as everything stands now
    for first, second in _crossing(places):
        if (first, second) not in _crossing(places):
            continue  # parted with another pair
        for order in ((first,), (second,), (second, first), (first, second)):
            if order in failed:
                continue
            if _moved(places, order, choosers, ground=ground, long=False):
                failed.clear()
                break
            failed.add(order)


def _moved(
    places: list[Candidate],
    order: Sequence[int],
    choosers: Sequence[_Chooser],
    *,
    ground: Ground,
    long: bool,
) -> bool:
    """Place some labels anew if that is worth it; tell whether it was done."""
    before = _worth(places, long=long)
    kept = [places[n] for n in order]
    for place in kept:
        ground.release(place)
    tried = _tried(places, order, choosers, before=before, long=long)
    if len(tried) == len(order):
        for n, place in zip(order, tried, strict=True):
            places[n] = place
        if _worth(places, long=long) < before:
            return True
    for place in tried:
        ground.release(place)
    for n, place in zip(order, kept, strict=True):
        ground.occupy(place)
        places[n] = place
    return False


def _tried(
    places: Sequence[Candidate],
    order: Sequence[int],
    choosers: Sequence[_Chooser],
    *,
    before: float,
    long: bool,
) -> list[Candidate]:
    """Return where some labels would go, as long as that may make it better in all."""
    stand = [each for n, each in enumerate(places) if n not in order]
    rest = len(stand)
    for n in order:
        # what comes after it adds to what leaders cost, so it has no more than this
        left = before - _worth(stand, long=long)
        now = places[n] if len(order) == 1 else None
        found = choosers[n](Limit(below=left, long=long, now=now))
        if found is None:
            break
        stand.append(found)
    return stand[rest:]


def _barring(
    places: Sequence[Candidate], n: int, choose: _Chooser, *, ground: Ground
) -> list[int]:
    """Return which few labels keep one with a long leader from a shorter one."""
    burden = _burden(places, n)
    if burden < _LONG_MM:
        return []
    with ground.without(places):
        best = choose(Limit(below=burden - _GAIN_MM, long=True))
    if best is None or burden - _reach(best) < _GAIN_MM:
        return []
    bar = [m for m, each in enumerate(places) if m != n and _bars(each, best)]
    return bar if len(bar) <= _MOST_BARRING else []


def _bars(one: Candidate, other: Candidate) -> bool:
    """Tell whether two labels are too near each other."""
    shapes = [
        [
            shapely.box(*each.box),
            *([shapely.LineString(each.leader)] * bool(each.leader)),
        ]
        for each in (one, other)
    ]
    return any(shapely.dwithin(a, b, _NEAR_MM) for a in shapes[0] for b in shapes[1])


def _reach(place: Candidate) -> float:
    """Return the length of a label's leader."""
    return sum(math.dist(a, b) for a, b in pairwise(place.leader))


def _burden(places: Sequence[Candidate], n: int) -> float:
    """Return how long a label's leader is, and much more where it crosses others."""
    return CROSSED * sum(n in pair for pair in _crossing(places)) + _reach(places[n])


def _worth(places: Sequence[Candidate], *, long: bool) -> float:
    """Return what leaders cost that cross, and how long all are if that counts."""
    crossed = CROSSED * len(_crossing(places))
    return crossed + sum(map(_reach, places)) if long else crossed


def _crossing(places: Sequence[Candidate]) -> tuple[tuple[int, int], ...]:
    """Return the pairs of places whose leaders meet."""
    return _met(tuple(each.leader for each in places))


@lru_cache(maxsize=16)
def _met(leaders: tuple[tuple[Point, ...], ...]) -> tuple[tuple[int, int], ...]:
    """Return the pairs of leaders that meet: asked again while nothing has moved."""
    one, other = Few(np.empty((0, 4)), leaders).crossing()
    return tuple(sorted(set(zip(one.tolist(), other.tolist(), strict=True))))
