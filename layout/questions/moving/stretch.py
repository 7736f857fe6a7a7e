"""A stretch of travel: a part at many places on one line, and what it meets there.

Only what moved is computed again: every pair of a moving body and one that stays, at
all places at once.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from layout.build.placed import Build, PlacedPlug
from layout.build.plan import Plan
from layout.geometry.space import Axis, plus
from layout.geometry.travel.stretches import Stretches, clear_of, merged
from layout.questions.bends.bent import Bent, bent
from layout.questions.bends.cable_ways import Way as Leaving
from layout.questions.bends.cable_ways import ways_of
from layout.questions.bends.ways import least_lacking
from layout.questions.checking.check import check, margins
from layout.questions.clearances.asked import CASE
from layout.questions.clearances.plug_rules import BEND_RULES
from layout.questions.findings.finding import Verdict
from layout.questions.findings.tolerance import ALLOWED_MM
from layout.questions.hookup.screws import screwed
from layout.questions.moving.journey import Travel, Way, shift_of
from layout.questions.moving.moves import moved_bodies, travel_axis
from layout.questions.moving.on_way import rows_of, within
from layout.questions.moving.positions import Positions, Row, best_of, elsewhere
from layout.questions.moving.raised import raised

__all__ = ["Travel", "shifted", "stretch"]


def stretch(
    plan: Plan, moved: str, travel: Travel, *, axis: Axis | None = None
) -> Positions:
    """Return how a part, or one body of it, stands along a stretch of travel.

    Parameters
    ----------
    plan : Plan
    moved : str
        A part's key (what it carries goes along), or a body's name.
    travel : Travel
        Shifts from where it stands now.
    axis : Axis, optional
        Default: that of its seat.

    Raises
    ------
    MoveError
        If there is no such part or body.
    """
    build = plan.build()
    moving = moved_bodies(build, moved)
    usual, reason = travel_axis(plan, moved)
    way = Way(
        build=build,
        moving=frozenset(moving),
        rest=_rest(build, frozenset(moving), moved),
        axis=axis or usual,
        travel=travel,
    )
    travel_mm = (travel.first_mm, travel.last_mm)
    holes = (
        None if "/" in moved else screwed(build, moved, way.axis, travel_mm=travel_mm)
    )
    # a little farther, so that no stretch is cut off at a position
    wider_mm = (travel.first_mm - 1.0, travel.last_mm + 1.0)
    cables = bent(build, way.moving, way.axis, travel_mm=wider_mm)
    limits = raised(build, moved, way.moving, axis=way.axis)
    rows = rows_of(way)
    for each in limits:
        rows = tuple(map(each.on, rows))
    rows = _with_holes(_with_bends(rows, cables, way), holes, moved)
    best = best_of(rows)
    clear = _left_by(_clear(way), cables, wider_mm)
    for each in limits:
        clear = each.kept(clear)
    there = shifted(build, moving, (way.axis, float(str(best or 0.0))))
    lacking = [each for each in check(there).findings if each.rule in BEND_RULES]
    return Positions(
        build=plan.name,
        moved=(moved,),
        rows=rows,
        clear_mm=_on_both(clear, holes),
        best=best,
        axis=way.axis,
        reason="as asked" if axis else reason,
        elsewhere=elsewhere(build, (moved,)),
        bends=tuple(each for each in lacking if each.verdict.fails),
    )


def _with_bends(
    rows: tuple[Row, ...], cables: tuple[Bent, ...], way: Way
) -> tuple[Row, ...]:
    """Return the rows; where a cable has no room to bend they are short at least.

    How much is wanting is asked of the check, at so many positions as that takes no
    longer than the rest.
    """
    shifts = np.array([float(str(row.position)) for row in rows])
    hit = [within(shifts, each.shifts_mm) for each in cables]
    lacking = np.flatnonzero(np.any(hit, axis=0)) if hit else np.array([], int)
    told = list(rows)
    leaving = [*ways_of(way.build), *ways_of(way.build, on=True)] if cables else []
    for count, place in enumerate(lacking.tolist()):
        own = [e for e, there in zip(cables, hit, strict=True) if there[place]]
        asked = None
        if count < _ASKED:
            shift_mm = shifts[place].item()
            shut = {each.of for each in own if each.surely_at(shift_mm)}
            ways = [each for each in leaving if each.of in shut]
            asked = _lacks_mm(way, ways, shift_mm)
        told[place] = _short(rows[place], own[0], asked)
    return tuple(told)


_ASKED: Final = 60
"""Positions at which how much room a cable lacks is worked out."""


def _lacks_mm(way: Way, leaving: Sequence[Leaving], shift_mm: float) -> float | None:
    """Return the margin of the cable that lacks most room at a shift."""
    by = way.axis, shift_mm
    there = shifted(way.build, sorted(way.moving), by)
    names = {way.build.bodies[i].name for i in way.moving}
    ways = [_shifted_way(e, by) if e.placed.name in names else e for e in leaving]
    return min((each.spare_mm for each in least_lacking(there, ways)), default=None)


def _shifted_way(leaving: Leaving, by: tuple[Axis, float]) -> Leaving:
    """Return a way of a cable whose plug goes along."""
    return replace(
        leaving,
        placed=_shifted_plug(leaving.placed, by),
        body=leaving.body.moved(shift_of(*by)),
    )


def _shifted_plug(placed: PlacedPlug, by: tuple[Axis, float]) -> PlacedPlug:
    at_mm = plus(placed.plug.at_mm, shift_of(*by))
    return replace(placed, plug=replace(placed.plug, at_mm=at_mm))


def _short(row: Row, cable: Bent, margin_mm: float | None) -> Row:
    """Return a row with a cable that lacks room, by how much where that is known."""
    note = row.note or f"a cable has no room to bend ({cable.rule})"
    verdict = row.verdict if row.verdict.fails else Verdict.SHORT
    least_mm = row.least_margin_mm
    if row.verdict.fails and (margin_mm is None or (least_mm or 0.0) <= margin_mm):
        return replace(row, note=note)
    return replace(
        row,
        verdict=verdict,
        least_margin_mm=margin_mm,
        limited_by=cable.between,
        margins_mm=() if margin_mm is None else (margin_mm, *row.margins_mm),
        note=note,
    )


def _left_by(
    clear: Stretches, cables: tuple[Bent, ...], travel_mm: tuple[float, float]
) -> Stretches:
    """Return what of the clear stretches leaves every cable its room."""
    lacking = merged(each.shifts_mm for each in cables)
    if not lacking:
        return clear
    return _on_both(clear, clear_of(lacking, travel_mm))


def _with_holes(
    rows: tuple[Row, ...], holes: Stretches | None, moved: str
) -> tuple[Row, ...]:
    """Return the rows; where the part cannot be screwed down so it is missing."""
    if holes is None:
        return rows
    shifts = np.array([float(str(row.position)) for row in rows])
    held = np.zeros(len(rows), bool)
    for low, high in holes:
        held |= (shifts >= low - _HELD_MM) & (shifts <= high + _HELD_MM)
    note = "its holes meet none of its seat's"
    return tuple(
        row
        if there
        else replace(
            row,
            verdict=Verdict.MISSING,
            limited_by=row.limited_by or (moved, CASE),
            note=note,
        )
        for row, there in zip(rows, held.tolist(), strict=True)
    )


_HELD_MM: Final = 1e-6
"""By how much a position may miss the end of a stretch and still be on it."""


def _on_both(clear: Stretches, holes: Stretches | None) -> Stretches:
    """Return the stretches of travel that are clear and on which holes meet."""
    if holes is None:
        return clear
    both = ((max(a, c), min(b, d)) for a, b in clear for c, d in holes)
    return tuple((low, high) for low, high in both if low <= high)


def shifted(build: Build, moving: Sequence[int], by: tuple[Axis, float]) -> Build:
    """Return the build with some bodies, and their plugs, farther along an axis."""
    move = shift_of(*by)
    names = {build.bodies[i].name for i in moving}
    return replace(
        build,
        bodies=tuple(
            replace(each, body=each.body.moved(move)) if i in moving else each
            for i, each in enumerate(build.bodies)
        ),
        plugs=tuple(
            _shifted_plug(each, by) if each.name in names else each
            for each in build.plugs
        ),
    )


def _rest(build: Build, moving: frozenset[int], moved: str) -> frozenset[int]:
    """Return the bodies of the same part that stay; none where all of it moves."""
    part = moved.partition("/")[0]
    return frozenset(
        i
        for i, each in enumerate(build.bodies)
        if each.part == part and i not in moving
    )


def _clear(way: Way) -> Stretches:
    """Return the stretches of travel in which nothing of the part's own fails."""
    pairs, needs = [], []
    for group in way.groups:
        going = [q for q in group if way.goes(q)]
        still = [q for q in group if not way.goes(q)]
        told = [margin_mm for margin_mm, _ in margins(way.build, still)]
        if any(
            m < -ALLOWED_MM and way.counts(q) for m, q in zip(told, still, strict=True)
        ):
            return ()
        # behind something that is nearer already a pair makes no finding
        spare_mm = min([0.0, *told])
        pairs += going
        needs += [max(0.0, q.rule.need_mm + spare_mm) for q in going]
    travel_mm = (way.travel.first_mm, way.travel.last_mm)
    blocked = merged(way.blocked(pairs, needs)) if pairs else ()
    left = clear_of(blocked, (travel_mm[0] - 1.0, travel_mm[1] + 1.0))
    cut = ((max(low, travel_mm[0]), min(high, travel_mm[1])) for low, high in left)
    return tuple((low, high) for low, high in cut if low <= high)
