"""The largest figure of a part that mends a finding, or that everything allows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field

from layout.build.remade import Remaker
from layout.parts.kinds.dimensions import Dimension
from layout.questions.bends.cables import Cables
from layout.questions.case.stated import STATED_LIMIT
from layout.questions.clearances.plug_rules import BEND_RULES
from layout.questions.findings.finding import Finding
from layout.questions.growing.grown import Grown, SlantedError
from layout.questions.growing.holding import Holding
from layout.questions.growing.search import Search
from layout.values import dataclass

__all__ = ["Largest"]


@dataclass(frozen=False, eq=False, slots=True)
class Largest:
    """The largest figures of parts, each worked out once.

    ``failing`` are the plan's findings that fail: one size is to mend all of a part.
    """

    remaker: Remaker
    cables: Cables
    failing: Sequence[Finding] = ()
    _holding: Holding | None = None
    _grown: dict[tuple[str, str], Grown] = field(default_factory=dict)
    _largest: dict[tuple[str, str], float | None] = field(default_factory=dict)
    _owned: dict[tuple[str, str, str], float | None] = field(default_factory=dict)

    def together(
        self, finding: Finding, key: str, dimension: Dimension
    ) -> float | None:
        """Return the largest figure that mends a finding and all others of its part."""
        own_mm = self._own(finding, key, dimension)
        if own_mm is None:
            return None
        about = (each for each in self.failing if key in each.parts)
        mends = [self._own(each, key, dimension) for each in about]
        return min([own_mm, *(each for each in mends if each is not None)])

    def most(self, finding: Finding, key: str, dimension: Dimension) -> float | None:
        """Return the largest figure that clears everything, or the finding alone."""
        own_mm = self._own(finding, key, dimension)
        if own_mm is None:
            return None
        most_mm = self._all(key, dimension)
        return most_mm if dimension.whole_mm(most_mm) is not None else own_mm

    def _all(self, key: str, dimension: Dimension) -> float | None:
        """Return the largest figure at which everything of the part clears."""
        of = key, dimension.name
        if of not in self._largest:
            grown = self._growing(key, dimension)
            self._largest[of] = self._found(grown)
        return self._largest[of]

    def _found(self, grown: Grown) -> float | None:
        search = Search(grown, self.cables, least_mm=grown.dimension.least_mm)
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
        search = Search(grown, self.cables, least_mm=grown.dimension.least_mm)
        try:
            mm, near = (None, None) if _never_clears(grown) else search.by_distance()
        except SlantedError:
            return now_mm
        return mm if near is not None else None

    def _growing(self, key: str, dimension: Dimension) -> Grown:
        of = key, dimension.name
        self._holding = self._holding or Holding(self.remaker.build)
        if of not in self._grown:
            limits = self._holding.limits(key)
            self._grown[of] = Grown(self.remaker, key, dimension, limits)
        return self._grown[of]


def _is_of(finding: Finding, dimension: Dimension) -> bool:
    """Tell whether a stated limit holds this very figure."""
    return finding.id.endswith(f" {dimension.name}")


def _never_clears(grown: Grown) -> bool:
    """Tell whether something is too near even where there is least of the part."""
    least_mm = grown.dimension.least_mm
    return bool(grown.near(least_mm, least_mm))
