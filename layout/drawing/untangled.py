"""Leaders that cross are placed anew, two at a time, until none does or none can."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeAlias

import numpy as np
import shapely

from layout.drawing.ground import Ground
from layout.drawing.labels import Candidate
from layout.drawing.met import cross, pieces_of
from layout.drawing.scene import Item
from layout.values import dataclass

__all__ = ["Label", "untangled"]

_Chooser: TypeAlias = Callable[[], Candidate | None]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Label:
    """Lettering at its place, and how it would find another one.

    Parameters
    ----------
    place : Candidate
        What it takes of the ground.
    choose : function
        Takes the best place that is free now and returns it, or None.
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
    that leaves as many crossings, both stay.
    """
    out = [each.place for each in labels]
    near = [each.choose for each in labels]
    far = [each.farther for each in labels]
    for choosers in (near, far):
        failed: set[tuple[int, ...]] = set()  # as everything stands now
        for first, second in _crossing(out):
            if (first, second) not in _crossing(out):
                continue  # parted with another pair
            for order in ((first,), (second,), (second, first), (first, second)):
                if order in failed:
                    continue
                if _moved(out, order, choosers, ground=ground):
                    failed.clear()
                    break
                failed.add(order)
    return tuple(
        item for each, at in zip(labels, out, strict=True) for item in each.made(at)
    )


def _moved(
    places: list[Candidate],
    order: Sequence[int],
    choosers: Sequence[_Chooser],
    *,
    ground: Ground,
) -> bool:
    """Place some labels anew if fewer leaders cross then; tell whether it was done."""
    least = len(_crossing(places))
    kept = [places[n] for n in order]
    for place in kept:
        ground.release(place)
    tried: list[Candidate] = []
    for n in order:
        found = choosers[n]()
        if found is None:
            break
        tried.append(found)
    else:
        for n, place in zip(order, tried, strict=True):
            places[n] = place
        if len(_crossing(places)) < least:
            return True
    for place in tried:
        ground.release(place)
    for n, place in zip(order, kept, strict=True):
        ground.occupy(place)
        places[n] = place
    return False


def _crossing(places: Sequence[Candidate]) -> list[tuple[int, int]]:
    """Return the pairs of places whose leaders meet."""
    led = [n for n, each in enumerate(places) if each.leader]
    pieces, of = pieces_of([shapely.linestrings(places[n].leader) for n in led])
    one, other = np.nonzero(np.triu(cross(pieces, pieces)))
    pairs = {(led[of[a]], led[of[b]]) for a, b in zip(one, other, strict=True)}
    return sorted((a, b) for a, b in pairs if a < b)
