"""The size to look for: the part that must be smaller by the least share of its own."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from heapq import heapify, heappop, heappush
from typing import Final, TypeAlias

from layout.build.remade import Remaker
from layout.parts.dimensions import Dimension, dimensions
from layout.parts.kinds import Spec
from layout.questions.cables import Cables
from layout.questions.finding import Finding, Group
from layout.questions.grown import Grown, Limit, SlantedError, limits_of
from layout.questions.plug_rules import PLUG_RULES
from layout.questions.search import FINE_MM, Search
from layout.questions.stated import STATED_LIMIT

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

_NO_PAIRS: Final = frozenset({STATED_LIMIT, *(each.name for each in PLUG_RULES)})
"""What these rules ask is no distance of two bodies alone."""

Size: TypeAlias = tuple[str, Dimension, float]
"""A part, one of its figures, and the whole millimetres it may have."""

_Waiting: TypeAlias = tuple[float, int, str, Dimension, float | None]
"""By which share a part is smaller at least, and its figure once that is known."""


@dataclass(slots=True)
class Sizes:
    """The largest figures of parts, each worked out once."""

    remaker: Remaker
    cables: Cables
    _limits: dict[str, list[Limit]] = field(default_factory=dict)
    _grown: dict[tuple[str, str], Grown] = field(default_factory=dict)
    _largest: dict[tuple[str, str], float | None] = field(default_factory=dict)

    def smaller(
        self, finding: Finding, keys: Sequence[tuple[str, Spec]]
    ) -> Iterator[Size]:
        """Yield smaller parts that may mend a finding, the least change first.

        What the finding's own pairs allow is asked before what everything allows: it
        is less work and never less.  Where nothing clears everything of a part, the
        size that mends this finding alone is told.
        """
        if finding.group is Group.REACH:
            return
        waiting: list[_Waiting] = []
        for key, now in keys:
            for each in dimensions(now):
                most_mm = self._own(finding, key, each)
                if each.name in SMALLER and most_mm is not None:
                    share = 1.0 - most_mm / each.now_mm
                    waiting.append((share, len(waiting), key, each, None))
        heapify(waiting)
        while waiting:
            share, order, key, each, mm = heappop(waiting)
            if mm is not None:
                yield key, each, mm
                continue
            own_mm = each.now_mm * (1.0 - share) if share else None
            found_mm = _whole(self._all(key, each), each) or _whole(own_mm, each)
            if found_mm is not None:
                share = 1.0 - found_mm / each.now_mm
                heappush(waiting, (share, order, key, each, found_mm))

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
        if finding.rule in _NO_PAIRS:
            return dimension.now_mm
        whole = self._growing(key, dimension)
        own = [each for each in whole.limits if each.id == finding.id]
        grown = whole.within(own)
        search = Search(grown, self.cables, least_mm=_least_mm(grown))
        try:
            mm, near = (None, None) if _never_clears(grown) else search.by_distance()
        except SlantedError:
            return dimension.now_mm
        return mm if near is not None else None

    def _growing(self, key: str, dimension: Dimension) -> Grown:
        of = key, dimension.name
        if key not in self._limits:
            self._limits[key] = limits_of(self.remaker.build, key)
        if of not in self._grown:
            self._grown[of] = Grown(self.remaker, key, dimension, self._limits[key])
        return self._grown[of]


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
