"""The size to look for: the part that must be smaller by the least share of its own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from heapq import merge
from typing import TYPE_CHECKING, Final, TypeAlias

from layout.build.remade import Remaker
from layout.parts.kinds.dimensions import Dimension, dimensions
from layout.parts.kinds.kinds import Spec
from layout.questions.bends.cables import Cables
from layout.questions.findings.finding import Finding, Group
from layout.values import dataclass

if TYPE_CHECKING:
    from layout.questions.mending.largest import Largest

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

Size: TypeAlias = tuple[str, Dimension, float]
"""A part, one of its figures, and the whole millimetres it may have."""


@dataclass(frozen=False, eq=False, slots=True)
class Sizes:
    """Sizes that may mend findings, what each takes worked out once.

    ``failing`` are the plan's findings that fail: one size is to mend all of a part.
    """

    remaker: Remaker
    cables: Cables
    failing: Sequence[Finding] = ()
    _searched_for: Largest | None = None

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
        for each in (self._largest.together, self._largest.most):
            mm = dimension.whole_mm(each(finding, key, dimension))
            if mm is not None and mm < least_mm and dimension.can_be(mm):
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
        mm = dimension.whole_mm(dimension.now_mm + min(wanting_mm, default=0.0))
        if mm is None or mm < dimension.least_mm:
            return None
        return mm if dimension.can_be(mm) else None

    @property
    def _largest(self) -> Largest:
        """Return what searches; seldom asked for, and it takes much of the program."""
        if self._searched_for is None:
            from layout.questions.mending.largest import Largest  # noqa: PLC0415 (few builds)

            self._searched_for = Largest(self.remaker, self.cables, self.failing)
        return self._searched_for


def _share(size: Size) -> float:
    """Return by which share of its figure a part is smaller."""
    _, dimension, mm = size
    return 1.0 - mm / dimension.now_mm
