"""Candidate places for lettering: their boxes, their leaders, what each costs."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from layout.drawing.lettered.taken import Taken
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.scene import Point
from layout.values import dataclass

__all__ = ["Candidate", "Offer", "Places", "frames", "joined", "padded"]

_OUTWARD = np.array([-1.0, -1.0, 1.0, 1.0])


@dataclass(frozen=True, slots=True)
class Candidate:
    """A place for lettering: its box, its leader (or none), and what it costs."""

    box: Frame
    leader: tuple[Point, ...] = ()
    cost: float = 0.0


@dataclass(frozen=True, slots=True, eq=False)
class Places:
    """Many places at once, read-only: they exist for arithmetic in bulk.

    Parameters
    ----------
    boxes : array (k, 4)
        Left, bottom, right, top.
    costs : array (n,)
    leaders : array (n, m, 2), optional
        Points of the leaders; all places have one or none has.
    shared : array (n,), optional
        Which box each place has, where several differ by their leaders alone.
    """

    boxes: NDArray[np.float64]
    costs: NDArray[np.float64]
    leaders: NDArray[np.float64] | None = None
    shared: NDArray[np.intp] | None = None

    @classmethod
    def of(cls, candidates: Sequence[Candidate]) -> Places:
        """Return candidates that all have leaders, or none of which has one."""
        return cls(
            np.array([each.box for each in candidates], dtype=np.float64),
            np.array([each.cost for each in candidates], dtype=np.float64),
            np.array([each.leader for each in candidates], dtype=np.float64)
            if candidates and candidates[0].leader
            else None,
        )

    @property
    def box_of(self) -> NDArray[np.intp]:
        """Return which box each place has."""
        return np.arange(len(self.costs)) if self.shared is None else self.shared

    def at(self, place: int) -> Candidate:
        """Return one place."""
        left, bottom, right, top = self.boxes[self.box_of[place]].tolist()
        leader: tuple[Point, ...] = ()
        if self.leaders is not None:
            leader = tuple((x, y) for x, y in self.leaders[place].tolist())
        return Candidate((left, bottom, right, top), leader, float(self.costs[place]))


class Offer:
    """Places that may be asked for again, with what was found out about them.

    What edges, lines and fixed lettering make a place cost stays while labels come and
    go: asked again, a ground looks at these alone.

    Parameters
    ----------
    places : Places
    like : (Offer, int), optional
        One whose first places, so many, are those of this one and have a box each:
        what it knows of them is taken over.
    """

    def __init__(
        self, places: Places, *, like: tuple[Offer, int] | None = None
    ) -> None:
        self.places = places
        self.box_of = places.box_of
        self._like = like
        self._taken: Taken | None = None
        self.padded = self.least = self.under = np.empty(0)
        self.told = np.empty(0, dtype=np.int8)

    @cached_property
    def reach_mm(self) -> NDArray[np.float64]:
        """How long each place's leader is."""
        if self.places.leaders is None:
            return np.zeros(len(self.places.costs))
        along = np.diff(self.places.leaders, axis=1)
        long: NDArray[np.float64] = np.hypot(along[..., 0], along[..., 1]).sum(axis=1)
        return long

    def known_on(self, taken: Taken) -> bool:
        """Tell whether what was found out holds there."""
        return self._taken is taken

    def look(self, taken: Taken, pad_mm: float) -> None:
        """Find out what is quickly told, and forget what was known elsewhere."""
        self._taken = taken
        boxes = self.places.boxes
        self.padded = padded(boxes, pad_mm)
        self.least = self.places.costs.copy()
        """What a place costs at least, without labels; infinite where refused."""
        self.told = np.zeros(len(self.least), dtype=np.int8)
        """How many of the things that a leader passes are counted in that."""
        self.under = np.where(taken.may_hold(boxes, self.padded), np.nan, np.inf)
        """What a box costs for what lies under it; not a number until it was asked."""
        if self._like is not None and self._like[0].known_on(taken):
            known, count = self._like
            self.least[:count] = known.least[:count]
            self.told[:count] = known.told[:count]
            self.under[:count] = known.under[:count]
        self.least[self.under[self.box_of] == np.inf] = np.inf

    def leaders(self, some: NDArray[np.intp]) -> NDArray[np.float64] | None:
        """Return the points of some places' leaders, (n, m, 2), if they have any."""
        return None if self.places.leaders is None else self.places.leaders[some]


def frames(
    centres: NDArray[np.float64], half: tuple[float, float]
) -> NDArray[np.float64]:
    """Return boxes of one size around centres."""
    return np.hstack([centres - np.array(half), centres + np.array(half)])


def padded(boxes: NDArray[np.float64], pad_mm: float) -> NDArray[np.float64]:
    """Return boxes with paper around them."""
    return boxes + pad_mm * _OUTWARD


def joined(several: Sequence[Places]) -> Places:
    """Return places of one kind, all with leaders or all without, as one."""
    leaders = [each.leaders for each in several if each.leaders is not None]
    first = np.cumsum([0, *(len(each.boxes) for each in several)])
    return Places(
        np.concatenate([each.boxes for each in several]),
        np.concatenate([each.costs for each in several]),
        np.concatenate(leaders) if leaders else None,
        np.concatenate(
            [n + each.box_of for n, each in zip(first, several, strict=False)]
        ),
    )
