"""The search for the largest figure: distances in closed form, the rest by halving."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import field
from typing import Final

from layout.build.placed import Build
from layout.parts.kinds.dimensions import FINE_MM
from layout.questions.bends.cables import Cables
from layout.questions.case.limits import stated_limits
from layout.questions.checking.check import check
from layout.questions.clearances.asked import CASE
from layout.questions.findings.finding import Finding
from layout.questions.findings.tolerance import ALLOWED_MM
from layout.questions.growing.grown import Grown, Near, SlantedError
from layout.questions.moving.positions import GROUPS
from layout.values import dataclass

__all__ = ["LIMIT_MM", "Limit", "Search", "down_to_grid", "stated"]

LIMIT_MM: Final = 2000.0
"""What nothing limits up to here, or up to its field's end, is told as unlimited."""

_PAST_MM: Final = 0.9 * FINE_MM
"""How far past a value that clears another is asked, which should fail."""
_NEARS: Final = 2 / 3
"""A guess that leaves more than this of what was lacking came little nearer."""
_ROUND_MM: Final = (1.0, 0.1, 0.01)
"""To which figures a jump is looked for, coarse to fine."""
_GRID: Final = 1000
"""Figures are told in thousandths of a millimetre, rounded down."""
_STRIDE_DOWN_MM: Final = 8.0
_LONGER: Final = 4
"""What is too large is seldom so by much, or at every figure."""
_LEAST_MM: Final = 0.01


def stated(build: Build, key: str, *, every: bool) -> list[Finding]:
    """Return the findings on what the case's data sheet states for a part."""
    found = stated_limits(build, every=every).findings
    return [each for each in found if key in each.parts]


Limit = tuple[str, str, str]
"""The two bodies and the rule between them."""

_Fail = tuple[Limit, float]
"""What fails, and its margin."""


@dataclass(frozen=False, eq=False, slots=True)
class Search:
    """The way to the largest figure: distances in closed form, then cables' bends.

    Figures under ``least_mm`` are not looked at, nor findings ``besides``, by id with
    their margins, unless they fail by more.
    """

    grown: Grown
    cables: Cables
    least_mm: float = _LEAST_MM
    slow: bool = False
    bodies_mm: float | None = None
    besides: Mapping[str, float] = field(default_factory=dict)
    _asked: dict[float, _Fail | None] = field(default_factory=dict)

    def found(self) -> tuple[float | None, Limit | None]:
        """Return the figure and its limit."""
        try:
            figure_mm, near = self.by_distance()
        except SlantedError:
            self.slow = True
            return self._halved(self.end_mm, None)
        if near is not None and not near.exact:
            self.slow = True
            return self._halved(self.end_mm, None)
        limit = near.limit.between if near else None
        self.bodies_mm = figure_mm if near else None
        if figure_mm is None:
            return None, limit
        bent = self._fails(figure_mm)
        if bent:
            return self._halved(figure_mm, bent)
        return (None if near is None else figure_mm), limit

    def by_distance(self) -> tuple[float | None, Near | None]:
        """Return the figure that distances allow; without a limit the largest told."""
        now_mm = self._now
        if self.grown.near(now_mm, now_mm):
            return self._down(now_mm)
        near = self.grown.near(now_mm, self.end_mm)
        if not near:
            return self.end_mm, None
        first = min(near, key=lambda each: each.from_mm)
        return max(now_mm, down_to_grid(first.from_mm)), first

    def _down(self, now_mm: float) -> tuple[float | None, Near | None]:
        """Return the largest figure below the present one at which nothing is near."""
        value_mm, last = now_mm, self.grown.near(now_mm, now_mm)[0]
        high_mm, stride_mm = now_mm, _STRIDE_DOWN_MM
        while high_mm > self.least_mm:
            low_mm = max(self.least_mm, high_mm - stride_mm)
            near = self.grown.near(low_mm, high_mm)
            for each in sorted(near, key=lambda each: -each.to_mm):
                if each.from_mm < value_mm <= each.to_mm + 1e-9:
                    value_mm, last = each.from_mm, each
            if value_mm > low_mm:
                figure_mm = down_to_grid(value_mm)
                possible = self.grown.built(figure_mm) is not None
                return (figure_mm if possible else None), last
            high_mm, stride_mm = low_mm, _LONGER * stride_mm
        return None, last

    def _fails(self, mm: float) -> _Fail | None:
        """Return what of the part's own is short or clashes at a value, by how much."""
        if mm not in self._asked:
            self._asked[mm] = self._failing(mm)
        return self._asked[mm]

    def _failing(self, mm: float) -> _Fail | None:
        build = self.grown.build(mm)
        carried = build.carried_by(self.grown.key)
        near = [] if self.slow else self.grown.near(mm, mm)
        if near:
            return near[0].limit.between, 0.0
        bent = self.cables.bends(build, carried, lacking=True)
        if self.slow:
            found = check(build, of=carried, groups=GROUPS, bent=bent).findings
        else:
            found = (
                *bent,
                *stated(build, self.grown.key, every=False),
            )
        fails = [
            each
            for each in found
            if each.verdict.lacks_room and not self._is_known(each)
        ]
        if not fails:
            return None
        worst = fails[0]
        limit = worst.a, worst.b or CASE, worst.rule
        return limit, worst.margin_mm or 0.0

    def _is_known(self, finding: Finding) -> bool:
        known_mm = self.besides.get(finding.id)
        margin_mm = finding.margin_mm or 0.0
        return known_mm is not None and margin_mm >= known_mm - ALLOWED_MM

    def _halved(
        self, high_mm: float, fails: _Fail | None
    ) -> tuple[float | None, Limit | None]:
        """Return the figure by halving, from a clear value to one that fails."""
        high_mm, fails = self._failing_above(high_mm, fails)
        if fails is None:
            return None, None
        low_mm, at = self._clear_below(high_mm)
        if low_mm is None:
            return None, (at or fails)[0]
        nears = True
        while high_mm - low_mm > FINE_MM:
            middle_mm = _next((low_mm, high_mm), fails[1], nears=nears)
            wide_mm, lacks_mm = high_mm - low_mm, fails[1]
            found = self._fails(middle_mm)
            if found:
                high_mm, fails = middle_mm, found
            else:
                low_mm = middle_mm
            halved = high_mm - low_mm <= wide_mm / 2
            nears = halved or fails[1] > _NEARS * lacks_mm
        figure_mm = down_to_grid(low_mm)
        # a present figure that clears is told as it is
        return max(figure_mm, self._now if low_mm >= self._now else 0.0), fails[0]

    @property
    def end_mm(self) -> float:
        """Return where the search ends: no file may give a larger figure."""
        return max(self._now, min(LIMIT_MM, self.grown.dimension.most_mm))

    @property
    def _now(self) -> float:
        return self.grown.dimension.now_mm

    def _failing_above(
        self, high_mm: float, fails: _Fail | None
    ) -> tuple[float, _Fail | None]:
        """Return the first value of a widening walk at which something fails."""
        if fails:
            return high_mm, fails
        value_mm, step_mm = self._now, 1.0
        while value_mm < high_mm:
            found = self._fails(value_mm)
            if found:
                return value_mm, found
            value_mm, step_mm = value_mm + step_mm, 1.5 * step_mm
        return high_mm, self._fails(high_mm)

    def _clear_below(self, high_mm: float) -> tuple[float | None, _Fail | None]:
        """Return a clear value under one that fails; the present one where it is."""
        fails: _Fail | None = None
        value_mm, step_mm = min(self._now, high_mm), 1.0
        # a raise of 0 is a figure too
        while value_mm > min(self.least_mm, self._now - FINE_MM) and self.grown.built(
            value_mm
        ):
            found = self._fails(value_mm)
            if not found:
                return value_mm, None
            fails = found
            # a figure gives no more room than it shrinks by
            step_mm = max(step_mm, -found[1])
            value_mm, step_mm = value_mm - step_mm, 1.5 * step_mm
        return None, fails


def _next(ends_mm: tuple[float, float], margin_mm: float, *, nears: bool) -> float:
    """Return what to ask between a figure that clears and one that fails.

    Most figures grow straight towards what limits them: just where the margin says,
    then just past it.  Where the last guess came not ``nears`` the middle is asked; and
    where one has cleared that should not have, something jumps, as it does at round
    figures: those are asked, then just beside them.
    """
    low_mm, high_mm = ends_mm
    guess_mm, middle_mm = high_mm + margin_mm, (low_mm + high_mm) / 2
    if abs(guess_mm - low_mm) < _PAST_MM / 2:
        return low_mm + _PAST_MM
    if low_mm < guess_mm < high_mm:
        return guess_mm if nears else middle_mm
    for step_mm in _ROUND_MM if guess_mm < low_mm else ():
        at_mm = _whole(middle_mm, step_mm)
        if low_mm < at_mm < high_mm:
            return at_mm
        if low_mm == _whole(low_mm, step_mm):
            return low_mm + _PAST_MM
        if high_mm == _whole(high_mm, step_mm):
            return high_mm - _PAST_MM
    return middle_mm


def _whole(mm: float, step_mm: float) -> float:
    return step_mm * round(mm / step_mm)


def down_to_grid(mm: float) -> float:
    """Return a figure in thousandths, never above.

    What comparisons allow, 1e-6 mm, is not told as room.
    """
    return math.floor(mm * _GRID + 1e-5) / _GRID
