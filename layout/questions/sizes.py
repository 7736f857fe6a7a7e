"""The size to look for: the part that must be smaller by the least share of its own."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import field
from heapq import merge
from typing import Final, TypeAlias

from layout.build.remade import Remaker
from layout.parts.dimensions import Dimension, dimensions
from layout.parts.errors import PartError
from layout.parts.kinds import Spec
from layout.questions.cables import Cables
from layout.questions.finding import Finding, Group
from layout.questions.grown import Grown, Limit, SlantedError, limits_of
from layout.questions.plug_rules import BEND_RULES
from layout.questions.search import FINE_MM, Search
from layout.questions.stated import STATED_LIMIT
from layout.values import dataclass

__all__ = ["SMALLER", "Size", "Sizes"]

SMALLER: Final = {
    "length": "shorter",
    "height": "lower",
    "block height": "lower",
    "thickness": "thinner",
    "radiator thickness": "thinner",
    "radiator length": "shorter",
}
"""The figures that a builder looks for, and what a smaller one is called."""

_LEAST_SHARE: Final = 0.5
"""Nobody sells the same sort of part at less than this share of its figure."""

"""What these rules ask is no distance of two bodies alone."""

Size: TypeAlias = tuple[str, Dimension, float]
"""A part, one of its figures, and the whole millimetres it may have."""


@dataclass(frozen=False, eq=False, slots=True)
class Sizes:
    """The largest figures of parts, each worked out once.

    ``failing`` are the plan's findings that fail: one size is to mend all of a part.
    """

    remaker: Remaker
    cables: Cables
    failing: Sequence[Finding] = ()
    _limits: dict[str, list[Limit]] = field(default_factory=dict)
    _grown: dict[tuple[str, str], Grown] = field(default_factory=dict)
    _largest: dict[tuple[str, str], float | None] = field(default_factory=dict)
    _owned: dict[tuple[str, str, str], float | None] = field(default_factory=dict)

    def smaller(
        self, finding: Finding, keys: Sequence[tuple[str, Spec]]
    ) -> Iterator[Size]:
        """Yield smaller parts that may mend a finding, the least change first.

        Whoever asks tries each: what is wanting taken off any one figure costs little
        and mends most, so that comes before what is searched for.  Where nothing clears
        everything of a part, the size that mends this finding alone is told.
        """
        if finding.group is Group.REACH:
            return
        figures = [
            (key, each)
            for key, now in keys
            for each in dimensions(now)
            if each.name in SMALLER
        ]
        guessed = [
            (*each, mm) for each in figures if (mm := self._guessed(finding, *each))
        ]
        yield from sorted(guessed, key=_share)
        found = (self._searched(finding, *each) for each in figures)
        yield from (each for each in merge(*found, key=_share) if each not in guessed)

    def _searched(
        self, finding: Finding, key: str, dimension: Dimension
    ) -> Iterator[Size]:
        """Yield ever smaller figures that are enough.

        What the part's failing findings allow comes before what everything allows: it
        is less work, never less, and seldom more.
        """
        least_mm = dimension.now_mm
        for each in (self._together, self._most):
            mm = _whole(each(finding, key, dimension), dimension)
            if mm is not None and mm < least_mm and _can_be(dimension, mm):
                least_mm = mm
                yield key, dimension, mm

    def _guessed(
        self, finding: Finding, key: str, dimension: Dimension
    ) -> float | None:
        """Return the figure less what is wanting: most ends move one to one with it."""
        wanting_mm = [
            each.margin_mm
            for each in (finding, *self.failing)
            if each.margin_mm is not None
            and (each is finding or (key in each.parts and each.axis is finding.axis))
        ]
        mm = _whole(dimension.now_mm + min(wanting_mm, default=0.0), dimension)
        if mm is None or mm < _LEAST_SHARE * dimension.now_mm:
            return None
        return mm if _can_be(dimension, mm) else None

    def _together(
        self, finding: Finding, key: str, dimension: Dimension
    ) -> float | None:
        """Return the largest figure that mends a finding and all others of its part."""
        own_mm = self._own(finding, key, dimension)
        if own_mm is None:
            return None
        about = (each for each in self.failing if key in each.parts)
        mends = [self._own(each, key, dimension) for each in about]
        return min([own_mm, *(each for each in mends if each is not None)])

    def _most(self, finding: Finding, key: str, dimension: Dimension) -> float | None:
        """Return the largest figure that clears everything, or the finding alone."""
        own_mm = self._own(finding, key, dimension)
        if own_mm is None:
            return None
        most_mm = self._all(key, dimension)
        return most_mm if _whole(most_mm, dimension) is not None else own_mm

    def _all(self, key: str, dimension: Dimension) -> float | None:
        """Return the largest figure at which everything of the part clears."""
        of = key, dimension.name
        if of not in self._largest:
            grown = self._growing(key, dimension)
            self._largest[of] = self._found(grown)
        return self._largest[of]

    def _found(self, grown: Grown) -> float | None:
        search = Search(grown, self.cables, least_mm=_least_mm(grown))
        try:
            if _never_clears(grown):
                return None
        except SlantedError:
            pass  # asked whole
        return search.found()[0]

    def _own(self, finding: Finding, key: str, dimension: Dimension) -> float | None:
        """Return the largest figure that mends the finding; None where none does.

        Where that is no matter of two bodies it is the present one.
        """
        of = finding.id, key, dimension.name
        if of not in self._owned:
            self._owned[of] = self._mending(finding, key, dimension)
        return self._owned[of]

    def _mending(
        self, finding: Finding, key: str, dimension: Dimension
    ) -> float | None:
        now_mm = dimension.now_mm
        if finding.rule == STATED_LIMIT and finding.margin_mm is not None:
            # a limit's finding names the figure it holds, as 'card length'
            return now_mm + finding.margin_mm if _is_of(finding, dimension) else None
        if finding.rule in BEND_RULES:
            return now_mm
        whole = self._growing(key, dimension)
        own = [each for each in whole.limits if each.id == finding.id]
        grown = whole.within(own)
        search = Search(grown, self.cables, least_mm=_least_mm(grown))
        try:
            mm, near = (None, None) if _never_clears(grown) else search.by_distance()
        except SlantedError:
            return now_mm
        return mm if near is not None else None

    def _growing(self, key: str, dimension: Dimension) -> Grown:
        of = key, dimension.name
        if key not in self._limits:
            self._limits[key] = limits_of(self.remaker.build, key)
        if of not in self._grown:
            self._grown[of] = Grown(self.remaker, key, dimension, self._limits[key])
        return self._grown[of]


def _can_be(dimension: Dimension, mm: float) -> bool:
    """Tell whether there can be a part with a figure."""
    try:
        dimension.with_mm(mm)
    except PartError:
        return False
    return True


def _share(size: Size) -> float:
    """Return by which share of its figure a part is smaller."""
    _, dimension, mm = size
    return 1.0 - mm / dimension.now_mm


def _is_of(finding: Finding, dimension: Dimension) -> bool:
    """Tell whether a stated limit holds this very figure."""
    return finding.id.endswith(f" {dimension.name}")


def _least_mm(grown: Grown) -> float:
    return _LEAST_SHARE * grown.dimension.now_mm


def _never_clears(grown: Grown) -> bool:
    """Tell whether something is too near even where there is least of the part."""
    least_mm = _least_mm(grown)
    return bool(grown.near(least_mm, least_mm))


def _whole(mm: float | None, dimension: Dimension) -> float | None:
    """Return whole millimetres under the present figure; None where there are none."""
    if mm is None or mm >= dimension.now_mm - FINE_MM:
        return None
    return float(math.floor(mm + FINE_MM / 2))
