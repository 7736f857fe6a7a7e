"""How large each part could be, all else as built: the largest figure that clears.

It is the largest figure of the clear stretch that holds the present one or, where that
is not clear now, the largest clear one below it; other findings of the build are
disregarded.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from layout.build.errors import SeatError
from layout.build.placed import Build
from layout.build.plan import Plan
from layout.build.remade import Remaker
from layout.parts.cage import Cage
from layout.parts.case_inside import DISAGREE_MM
from layout.parts.dimensions import dimensions
from layout.parts.liquid_cooler import LiquidCooler
from layout.parts.places import places
from layout.parts.radiator import Radiator
from layout.parts.supply import Supply
from layout.questions.asked import CASE
from layout.questions.cables import Cables
from layout.questions.check import check
from layout.questions.finding import Finding, Verdict
from layout.questions.grown import Grown, Limit, Near, SlantedError, limits_of
from layout.questions.limits import stated_limits
from layout.questions.moves import MoveError, places_of
from layout.questions.positions import GROUPS, placed_at

__all__ = ["LIMIT_MM", "Headroom", "Room", "headroom", "largest"]

LIMIT_MM: Final = 2000.0
"""What nothing limits up to here is told as unlimited."""

_GRID: Final = 1000
"""Figures are told in thousandths of a millimetre, rounded down."""
_STRIDE_MM: Final = 50.0
_FINE_MM: Final = 0.002
_LEAST_MM: Final = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """The largest figure of one dimension.

    Parameters
    ----------
    largest_mm : float or None
        None where nothing limits it, and where no size fits: then ``limited_by``
        names what is in the way.
    note : str
        Where bodies and the case's data sheet say another figure.
    """

    part: str
    dimension: str
    now_mm: float
    largest_mm: float | None
    limited_by: tuple[str, str] | None
    rule: str | None
    note: str = ""

    @property
    def left_mm(self) -> float | None:
        """Return how much larger it could be; negative where it is too large."""
        return None if self.largest_mm is None else self.largest_mm - self.now_mm

    @property
    def fits(self) -> bool:
        """Tell whether the present figure is no larger than the largest."""
        if self.largest_mm is None:
            return self.limited_by is None
        return self.now_mm <= self.largest_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Headroom:
    """Every part's dimensions; ``elsewhere`` is what reach and hook-up lack."""

    build: str
    rows: tuple[Room, ...]
    notes: tuple[str, ...] = ()
    elsewhere: tuple[Finding, ...] = ()


def headroom(plan: Plan, *, part: str | None = None) -> Headroom:
    """Return the largest figure that still clears, for every part or for one.

    Parameters
    ----------
    plan : Plan
    part : str, optional
        A part's key.

    Raises
    ------
    MoveError
        If there is no such part, or it has no such figure.
    """
    sized = [each.key for each in plan.entries if dimensions(each.spec)]
    if part is not None and part not in sized:
        right = f"one of {', '.join(sized)}" if sized else "no part of this build"
        found = "has no size to grow" if plan.spec(part) else "is not in the build"
        raise MoveError(f"found {part!r}, which {found}; {right} would be right")
    remaker = Remaker.of(plan)
    cables = Cables()
    wanted = [key for key in sized if part in {None, key}]
    rows = [row for key in wanted for row in _of_part(remaker, key, cables)]
    return Headroom(
        build=plan.name,
        rows=tuple(rows),
        notes=tuple(row.note for row in rows if row.note),
        elsewhere=tuple(
            each
            for each in check(remaker.build).findings
            if each.verdict.fails and each.group not in GROUPS
        ),
    )


def _of_part(remaker: Remaker, key: str, cables: Cables) -> Iterator[Room]:
    """Yield a part's dimensions where it is, then those that depend on a place."""
    for name, there in (("", remaker), *_elsewhere(remaker, key)):
        spec = there.plan.spec(key)
        if spec is None:
            continue
        limits = limits_of(there.build, key)
        for dimension in dimensions(spec):
            if name and not dimension.name.endswith(("length", "thickness")):
                continue
            yield largest(
                there, key, dimension.name, suffix=name, cables=cables, limits=limits
            )


def _elsewhere(remaker: Remaker, key: str) -> Iterator[tuple[str, Remaker]]:
    """Yield a radiator on its other mounts, and a supply by cage position."""
    plan = remaker.plan
    spec = plan.spec(key)
    if isinstance(spec, Radiator | LiquidCooler):
        seats = tuple((each.host, each.seat) for each in remaker.tree.seats.offers)
        for name, other in places(spec, seats):
            if other is not None and other != spec:
                yield from _had(f", {name}", plan.changed(key, other))
    if isinstance(spec, Supply):
        cages = [each.key for each in plan.entries if isinstance(each.spec, Cage)]
        for cage in cages[:1]:
            for place in places_of(plan, cage):
                if place[1] != plan.spec(cage):
                    moved, _ = placed_at(plan, iter([(cage, place)]))
                    yield from _had(f", {cage} {place[0]}", moved)


def _had(name: str, plan: Plan) -> Iterator[tuple[str, Remaker]]:
    """Yield the plan put in place, unless a seat is taken or missing."""
    try:
        yield name, Remaker.of(plan)
    except SeatError:
        return


def largest(
    remaker: Remaker,
    key: str,
    name: str,
    *,
    suffix: str = "",
    cables: Cables | None = None,
    limits: list[Limit] | None = None,
) -> Room:
    """Return the largest figure of one dimension of a part.

    ``suffix`` says which place it is for; ``cables`` and ``limits`` are made ready.
    """
    spec = remaker.plan.spec(key)
    every = dimensions(spec) if spec is not None else ()
    dimension = next(each for each in every if each.name == name)
    measured = limits or limits_of(remaker.build, key)
    search = _Search(Grown(remaker, key, dimension, measured), cables or Cables())
    figure_mm, limit = search.found()
    return Room(
        part=key,
        dimension=f"{name}{suffix}",
        now_mm=dimension.now_mm,
        largest_mm=figure_mm,
        limited_by=limit[:2] if limit else None,
        rule=limit[2] if limit else None,
        note="" if suffix else _beside_stated(search, figure_mm),
    )


def _stated(build: Build, key: str, *, every: bool) -> list[Finding]:
    """Return the findings on what the case's data sheet states for a part."""
    found = stated_limits(build, every=every).findings
    return [each for each in found if key in each.parts]


def _beside_stated(search: _Search, used_mm: float | None) -> str:
    """Return where what the bodies leave and what the case states differ."""
    grown, now_mm = search.grown, search.grown.dimension.now_mm
    at_now = _stated(grown.remaker.build, grown.key, every=True)
    raised = grown.dimension.name == "fan raise"  # no limit is stated for that itself
    if raised or not at_now or search.bodies_mm is None:
        return ""
    if not grown.possible(now_mm + 1.0):
        return ""
    larger = {
        e.id: e for e in _stated(grown.build(now_mm + 1.0), grown.key, every=True)
    }
    for each in at_now:
        margin_mm, then = each.margin_mm or 0.0, larger.get(each.id)
        # a limit of this figure is nearer by as much as the figure grows
        if then is None or abs(margin_mm - (then.margin_mm or 0.0) - 1.0) > _FINE_MM:
            continue
        stated_mm = now_mm + margin_mm
        off_mm = stated_mm - search.bodies_mm
        word = "more" if off_mm > 0 else "less"
        agree = abs(off_mm) <= DISAGREE_MM
        close = f" (they agree within {DISAGREE_MM:g})" if agree else ""
        used = "no size" if used_mm is None else f"{used_mm:g}"
        return (
            f"{grown.key}, {grown.dimension.name}: the bodies leave "
            f"{search.bodies_mm:g}, the case's data sheet states {stated_mm:g}, "
            f"{abs(off_mm):.1f} mm {word}{close}; {used} was used"
        )
    return ""


_Limit = tuple[str, str, str]
"""The two bodies and the rule between them."""

_Fail = tuple[_Limit, float]
"""What fails, and its margin."""


@dataclass(slots=True)
class _Search:
    """The way to the largest figure: distances in closed form, then cables' bends."""

    grown: Grown
    cables: Cables
    slow: bool = False
    bodies_mm: float | None = None

    def found(self) -> tuple[float | None, _Limit | None]:
        """Return the figure and its limit."""
        try:
            figure_mm, near = self._by_distance()
        except SlantedError:
            self.slow = True
            return self._halved(LIMIT_MM, None)
        if near is not None and not near.exact:
            self.slow = True
            return self._halved(LIMIT_MM, None)
        limit = self._limit(near) if near else None
        self.bodies_mm = figure_mm if near else None
        if figure_mm is None:
            return None, limit
        bent = self._fails(figure_mm)
        if bent:
            return self._halved(figure_mm, bent)
        return (None if near is None else figure_mm), limit

    def _by_distance(self) -> tuple[float | None, Near | None]:
        """Return the figure that distances allow; without a limit the largest told."""
        now_mm = self._now
        if self.grown.near(now_mm, now_mm):
            return self._down(now_mm)
        low_mm, stride_mm = now_mm, _STRIDE_MM
        while low_mm < LIMIT_MM:
            high_mm = min(low_mm + stride_mm, LIMIT_MM)
            near = self.grown.near(low_mm, high_mm)
            if near:
                first = min(near, key=lambda each: each.from_mm)
                return max(now_mm, _down_to_grid(first.from_mm)), first
            low_mm, stride_mm = high_mm, 2 * stride_mm
        return LIMIT_MM, None

    def _down(self, now_mm: float) -> tuple[float | None, Near | None]:
        """Return the largest figure below the present one at which nothing is near."""
        value_mm, last = now_mm, self.grown.near(now_mm, now_mm)[0]
        high_mm, stride_mm = now_mm, _STRIDE_MM
        while high_mm > _LEAST_MM:
            low_mm = max(_LEAST_MM, high_mm - stride_mm)
            near = self.grown.near(low_mm, high_mm)
            for each in sorted(near, key=lambda each: -each.to_mm):
                if each.from_mm < value_mm <= each.to_mm + 1e-9:
                    value_mm, last = each.from_mm, each
            if value_mm > low_mm:
                figure_mm = _down_to_grid(value_mm)
                possible = self.grown.possible(figure_mm)
                return (figure_mm if possible else None), last
            high_mm, stride_mm = low_mm, 2 * stride_mm
        return None, last

    def _limit(self, near: Near) -> _Limit:
        bodies = self.grown.remaker.build.bodies
        question = near.question
        return bodies[question.a].name, bodies[question.b].name, question.rule.name

    def _fails(self, mm: float) -> _Fail | None:
        """Return what of the part's own is short or clashes at a value, by how much."""
        build = self.grown.build(mm)
        if self.slow:
            found = check(build, of=(self.grown.key,), groups=GROUPS).findings
        else:
            near = self.grown.near(mm, mm)
            if near:
                return self._limit(near[0]), 0.0
            found = (
                *self.cables.bends(build, self.grown.key),
                *_stated(build, self.grown.key, every=False),
            )
        fails = [each for each in found if each.verdict in _SHORT]
        if not fails:
            return None
        worst = fails[0]
        limit = worst.a, worst.b or CASE, worst.rule
        return limit, worst.margin_mm or 0.0

    def _halved(
        self, high_mm: float, fails: _Fail | None
    ) -> tuple[float | None, _Limit | None]:
        """Return the figure by halving, from a clear value to one that fails."""
        high_mm, fails = self._failing_above(high_mm, fails)
        if fails is None:
            return None, None
        low_mm, at = self._clear_below(high_mm)
        if low_mm is None:
            return None, (at or fails)[0]
        guess_mm = high_mm + fails[1]
        while high_mm - low_mm > _FINE_MM:
            # most figures grow straight towards what limits them: just where it says
            middle_mm = guess_mm if low_mm < guess_mm < high_mm else 0.0
            middle_mm = middle_mm or (low_mm + high_mm) / 2
            found = self._fails(middle_mm)
            if found:
                high_mm, fails = middle_mm, found
                guess_mm = middle_mm + min(found[1], -_FINE_MM / 2)
            else:
                low_mm, guess_mm = middle_mm, middle_mm + _FINE_MM
        return max(_down_to_grid(low_mm), min(low_mm, self._now)), fails[0]

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
        while value_mm > min(_LEAST_MM, self._now - _FINE_MM) and self.grown.possible(
            value_mm
        ):
            found = self._fails(value_mm)
            if not found:
                return value_mm, None
            fails = found
            value_mm, step_mm = value_mm - step_mm, 1.5 * step_mm
        return None, fails


_SHORT: Final = frozenset({Verdict.SHORT, Verdict.CLASH})


def _down_to_grid(mm: float) -> float:
    """Return a figure in thousandths, never above.

    What comparisons allow, 1e-6 mm, is not told as room.
    """
    return math.floor(mm * _GRID + 1e-5) / _GRID
