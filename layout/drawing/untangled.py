"""Leaders that cross are placed anew, two at a time, until none does or none can."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TypeAlias

import numpy as np
import shapely

from layout.drawing.labels import Candidate, Ground
from layout.drawing.scene import Item
from layout.values import dataclass

__all__ = ["Label", "untangled"]

_Chooser: TypeAlias = Callable[[bool], Candidate | None]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Label:
    """Lettering at its place, and how it would find another one.

    Parameters
    ----------
    place : Candidate
        What it takes of the ground.
    choose : function
        Takes the best place that is free now and returns it, or None; told that all
        others have failed, it looks farther.
    made : function
        What is drawn of it at a place.
    """

    place: Candidate
    choose: _Chooser
    made: Callable[[Candidate], tuple[Item, ...]]


def untangled(labels: Sequence[Label], ground: Ground) -> tuple[Item, ...]:
    """Return what is drawn of labels, those whose leaders cross moved if that helps.

    Of two that cross either is placed anew, or both are, one before the other; where
    that leaves as many crossings, both stay.
    """
    out = [each.place for each in labels]
    choosers = [each.choose for each in labels]
    for farther in (False, True):
        crossing = _crossing(out)
        if not crossing:
            break
        for pair in crossing:
            _parted(out, [partial(each, farther) for each in choosers], ground, pair)
    return tuple(
        item for each, at in zip(labels, out, strict=True) for item in each.made(at)
    )


def _parted(
    places: list[Candidate],
    choosers: Sequence[Callable[[], Candidate | None]],
    ground: Ground,
    pair: tuple[int, int],
) -> None:
    """Place one of a pair anew, or both, if they still cross."""
    if pair not in _crossing(places):
        return
    least = len(_crossing(places))
    first, second = pair
    for order in ((first,), (second,), (second, first), (first, second)):
        kept = [places[n] for n in order]
        for place in kept:
            ground.release(place)
        found = {n: choosers[n]() for n in order}
        tried = [place for place in found.values() if place is not None]
        if len(tried) == len(found):
            for n, place in zip(order, tried, strict=True):
                places[n] = place
            if len(_crossing(places)) < least:
                return
        for place in tried:
            ground.release(place)
        for n, place in zip(order, kept, strict=True):
            ground.occupy(place)
            places[n] = place


def _crossing(places: Sequence[Candidate]) -> list[tuple[int, int]]:
    """Return the pairs of places whose leaders meet."""
    led = [n for n, each in enumerate(places) if each.leader]
    lines = np.array([shapely.linestrings(places[n].leader) for n in led], dtype=object)
    if not led:
        return []
    one, other = shapely.STRtree(lines).query(lines, predicate="intersects")
    return sorted(
        (led[a], led[b])
        for a, b in zip(one.tolist(), other.tolist(), strict=True)
        if a < b
    )
