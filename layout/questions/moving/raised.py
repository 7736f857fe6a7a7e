"""What a case's data sheet states for a part, and how far a cooler may travel under it.

A card or a supply is as long at every place: what is stated holds it wherever it goes.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import replace

from layout.build.placed import Build
from layout.geometry.space import Axis
from layout.geometry.travel.stretches import Stretches
from layout.parts.form.form import Role
from layout.questions.case.limits import stated_limits
from layout.questions.clearances.asked import CASE
from layout.questions.findings.finding import Finding, Verdict, verdict_of
from layout.questions.moving.positions import STATED, Row
from layout.values import dataclass

__all__ = ["Raised", "raised"]

_HEIGHT = Axis.WIDTH
_TOPS = frozenset({Role.COOLER, Role.COOLER_FAN, Role.PUMP_BLOCK})


@dataclass(frozen=True, slots=True)
class Raised:
    """A stated limit on a travel away from the board.

    Parameters
    ----------
    still : Finding or None
        The limit beside what stays; None where all of the cooler moves.
    going : Finding
        The limit beside what moves, before it does.
    going_mm : float
        Its margin.
    """

    still: Finding | None
    going: Finding
    going_mm: float

    def kept(self, clear: Stretches) -> Stretches:
        """Return what of the clear stretches keeps to the limit."""
        if self.still is not None and self.still.verdict.fails:
            return ()
        cut = ((low, min(high, self.going_mm)) for low, high in clear)
        return tuple((low, high) for low, high in cut if low <= high)

    def on(self, row: Row) -> Row:
        """Return a row, limited by what is stated where that is not clear."""
        margin_mm, top = self.going_mm - float(str(row.position)), self.going
        if self.still is not None and (self.still.margin_mm or 0.0) <= margin_mm:
            margin_mm, top = self.still.margin_mm or 0.0, self.still
        verdict = verdict_of(margin_mm, top.tolerance_mm or 0.0)
        if verdict is Verdict.CLEAR:
            return row
        row = replace(
            row,
            verdict=max(verdict, row.verdict, key=tuple(Verdict).index),
            margins_mm=tuple(sorted((*row.margins_mm, margin_mm))),
        )
        if row.least_margin_mm is not None and row.least_margin_mm <= margin_mm:
            return row
        return replace(
            row,
            least_margin_mm=margin_mm,
            limited_by=(top.a, CASE),
            note=row.note or STATED,
        )


def raised(
    build: Build, moved: str, moving: Collection[int], *, axis: Axis
) -> Sequence[Raised]:
    """Return the stated limits on a travel of a part, or of one body of it."""
    part = moved.partition("/")[0]
    tops = {
        i: each.body.bounds.high[_HEIGHT.index]
        for i, each in enumerate(build.bodies)
        if each.part == part and each.role in _TOPS
    }
    goes_up = axis is _HEIGHT and not tops.keys().isdisjoint(moving)
    every = stated_limits(build, every=True).findings if "/" not in moved else ()
    same = [
        Raised(each, each, math.inf)
        for each in every
        if part in each.parts and not (goes_up and each.axis is _HEIGHT)
    ]
    rising = _up_to(build, tops, part=part, moving=moving) if goes_up else ()
    return [*same, *rising]


def _up_to(
    build: Build, tops: dict[int, float], *, part: str, moving: Collection[int]
) -> Sequence[Raised]:
    """Return the stated limit on a travel of a cooler away from the board."""
    up_mm = max(tops.values()) - min(tops.values()) + 1.0
    far = _limits(_up(build, moving, up_mm), part)
    stays = not tops.keys() <= {*moving}
    low = _limits(_up(build, moving, -up_mm), part) if stays else ()
    return [
        Raised(still, going, (going.margin_mm or 0.0) + up_mm)
        for still, going in zip(low or (None,) * len(far), far, strict=True)
    ]


def _up(build: Build, moving: Collection[int], by_mm: float) -> Build:
    """Return the build with some bodies farther from the board."""
    bodies = tuple(
        replace(each, body=each.body.moved((0.0, 0.0, by_mm))) if i in moving else each
        for i, each in enumerate(build.bodies)
    )
    return replace(build, bodies=bodies)


def _limits(build: Build, part: str) -> tuple[Finding, ...]:
    """Return the stated limits of a part's height."""
    found = stated_limits(build, every=True).findings
    return tuple(e for e in found if part in e.parts and e.axis is _HEIGHT)
