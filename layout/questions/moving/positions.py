"""Which place of a part works: every named place, or a stretch of travel."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import product
from typing import Final, TypeAlias

from layout.build.errors import SeatError
from layout.build.placed import Build
from layout.build.plan import Plan
from layout.geometry.space import Axis
from layout.geometry.travel.stretches import Stretches
from layout.parts.kinds.places import TAKEN_OUT, WANTED_SLOTS, Place
from layout.questions.case.stated import STATED_LIMIT
from layout.questions.checking.check import check
from layout.questions.clearances.asked import CASE
from layout.questions.findings.finding import Check, Finding, Group, Verdict
from layout.questions.moving.moves import MoveError, places_of
from layout.values import dataclass

__all__ = ["GROUPS", "STATED", "Position", "Positions", "Row", "elsewhere", "positions"]

GROUPS = frozenset({Group.DISTANCE, Group.HOLES})
"""What a position is checked for; leads and plugs follow the part where they can."""

STATED: Final = "as its data sheet states"
_PLACES: Final = 6
"""Margins that differ by less are equal."""

Position: TypeAlias = str | float | tuple[str, ...]
"""A place's name, a shift in mm, or the names of two parts' places."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """How a part stands at one position: by its own findings and its load's.

    Parameters
    ----------
    least_margin_mm : float or None
        None where nothing is asked there, or the place cannot be had.
    limited_by : (str, str) or None
        The two bodies of the least margin, or the part and who has its place.
    build : Build or None
        The build with the part there; None where it cannot be, or on a stretch.
    margins_mm : tuple of float
        Margins from the least on: where the least are equal, such as those of what
        stays, the next ones tell which position is the better one.
    """

    position: Position
    verdict: Verdict
    least_margin_mm: float | None
    limited_by: tuple[str, str] | None
    note: str = ""
    build: Build | None = None
    margins_mm: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Positions:
    """Every position of one part, or of two.

    Parameters
    ----------
    clear_mm : Stretches
        The stretches of travel in which nothing is short or clashes: exact, from the
        geometry.  Empty for named positions.
    best : Position or None
        That with the largest least margin, of equal ones that with the largest next
        one; memory stays in the slots that boards want where it is clear there, and
        a cage is taken out only where nothing else works.
    axis : Axis or None
        Along which a stretch runs, and why.
    elsewhere : tuple of Finding
        What fails in the build whatever the position.
    bends : tuple of Finding
        Cables without room to bend at the best position of a stretch.
    """

    build: str
    moved: tuple[str, ...]
    rows: tuple[Row, ...]
    clear_mm: Stretches = ()
    best: Position | None = None
    axis: Axis | None = None
    reason: str = ""
    elsewhere: tuple[Finding, ...] = ()
    bends: tuple[Finding, ...] = ()

    @property
    def works(self) -> bool:
        """Tell whether nothing fails at some position."""
        return any(not row.verdict.fails for row in self.rows)


def positions(plan: Plan, moved: Sequence[str]) -> Positions:
    """Return how a part, or two at once, stand at every named position.

    Parameters
    ----------
    plan : Plan
    moved : sequence of str
        One key or two.

    Raises
    ------
    MoveError
        If there is no such part, or it has one place alone.
    """
    if len({*moved}) != len(moved) or len(moved) not in {1, 2}:
        raise MoveError(
            f"found {', '.join(moved) or 'no part'} to move; one part or two different "
            "ones would be right"
        )
    every = [places_of(plan, key) for key in moved]
    rows = tuple(_row(plan, tuple(moved), chosen) for chosen in product(*every))
    return Positions(
        build=plan.name,
        moved=tuple(moved),
        rows=rows,
        best=best_of(rows),
        elsewhere=elsewhere(plan.build(), moved),
    )


def _row(plan: Plan, moved: tuple[str, ...], chosen: tuple[Place, ...]) -> Row:
    names = tuple(name for name, _ in chosen)
    position: Position = names[0] if len(names) == 1 else names
    variant, gone = placed_at(plan, zip(moved, chosen, strict=True))
    try:
        build = variant.build()
    except SeatError as error:
        by = error.found.partition("taken by ")[2]
        return Row(
            position=position,
            verdict=Verdict.MISSING,
            least_margin_mm=None,
            limited_by=_taken(moved, (error.part, by)) if by else None,
            note=f"found {_by_another(moved, error)}",
        )
    parts = {key for each in moved for key in build.carried_by(each)} - {*gone}
    found = check(build, of=parts, groups=GROUPS)
    with_it = [each for each in gone if each not in moved]
    note = f"with {', '.join(with_it)}" if with_it else ""
    return _of_findings(position, found, note=note, build=build)


def _by_another(moved: Sequence[str], error: SeatError) -> str:
    """Return what was found, a moved part's place taken by another and never itself."""
    place, taken, by = error.found.partition(", taken by ")
    other = error.part if by in moved else by
    return f"{place}{taken}{other}"


def _taken(moved: Sequence[str], names: tuple[str, str]) -> tuple[str, str]:
    """Return the part and who has its place, whichever of them was refused."""
    return names if names[0] in moved else (names[1], names[0])


def placed_at(
    plan: Plan, chosen: Iterator[tuple[str, Place]]
) -> tuple[Plan, tuple[str, ...]]:
    """Return the plan with parts at their places, and what was taken out with them."""
    gone: list[str] = []
    for key, (_, spec) in chosen:
        if spec is None:
            gone += sorted(plan.build().carried_by(key))
            plan = plan.without(gone)
        else:
            plan = plan.changed(key, spec)
    return plan, tuple(gone)


def _of_findings(position: Position, found: Check, *, note: str, build: Build) -> Row:
    measured = [each for each in found.findings if each.margin_mm is not None]
    least = min(measured, key=lambda each: each.margin_mm or 0.0, default=None)
    margins_mm = sorted(e.margin_mm for e in measured if e.margin_mm is not None)
    worst = found.findings[0] if found.findings else None
    named = worst if worst and worst.verdict is Verdict.MISSING else least
    return Row(
        position=position,
        verdict=found.verdict,
        least_margin_mm=least.margin_mm if least else None,
        limited_by=(named.a, named.b or CASE) if named else None,
        note=note or (STATED if named and named.rule == STATED_LIMIT else ""),
        build=build,
        margins_mm=tuple(margins_mm),
    )


def best_of(rows: Sequence[Row]) -> Position | None:
    """Return the position with the largest least margin, then the next one's.

    Memory stays where boards want it unless it fails there.  A cage taken out is the
    best only where it fails everywhere else: its drives are gone with it.
    """
    gone = [TAKEN_OUT in _names(row.position) for row in rows]
    there = [row for row, out in zip(rows, gone, strict=True) if not out]
    out = [e for e, out in zip(rows, gone, strict=True) if out and not e.verdict.fails]
    had = [row for row in there if row.verdict is not Verdict.MISSING]
    if out and all(row.verdict.fails for row in there):
        had = out
    best = max(had, key=_rank, default=None)
    return best.position if best else None


def _rank(row: Row) -> tuple[bool, bool, float, tuple[float, ...]]:
    margin_mm = row.least_margin_mm
    return (
        not row.verdict.fails,
        WANTED_SLOTS in _names(row.position),
        math.inf if margin_mm is None else round(margin_mm, _PLACES),
        (*(round(each, _PLACES) for each in row.margins_mm), math.inf),
    )


def _names(position: Position) -> tuple[str, ...]:
    return position if isinstance(position, tuple) else (str(position),)


def elsewhere(build: Build, moved: Sequence[str]) -> tuple[Finding, ...]:
    """Return what fails in the build and names no moved part, in any group."""
    parts = {key for each in moved for key in build.carried_by(each.partition("/")[0])}
    return tuple(
        each
        for each in check(build).findings
        if each.verdict.fails and not each.parts & parts
    )
