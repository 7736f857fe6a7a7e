"""A stretch of travel: a part at many places on one line, and what it meets there.

Only what moved is computed again: every pair of a moving body and one that stays, at
all places at once.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from layout.build.placed import Build
from layout.build.plan import Plan
from layout.geometry.space import Axis, plus
from layout.geometry.stretches import Stretches, clear_of, merged
from layout.questions.asked import CASE
from layout.questions.bent import Bent, bent
from layout.questions.check import check, margins
from layout.questions.finding import Verdict
from layout.questions.journey import Travel, Way, shift_of
from layout.questions.moves import moved_bodies, travel_axis
from layout.questions.on_way import rows_of, within
from layout.questions.positions import Positions, Row, best_of, elsewhere
from layout.questions.screws import screwed
from layout.questions.tolerance import ALLOWED_MM

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
    cables = bent(build, way.moving, way.axis, travel_mm=travel_mm)
    rows = _with_holes(_with_bends(rows_of(way), cables), holes, moved)
    best = best_of(rows)
    there = shifted(build, moving, (way.axis, float(str(best or 0.0))))
    bends = [each for each in check(there).findings if each.rule.endswith("-bend")]
    return Positions(
        build=plan.name,
        moved=(moved,),
        rows=rows,
        clear_mm=_on_both(_left_by(_clear(way), cables, travel_mm), holes),
        best=best,
        axis=way.axis,
        reason="as asked" if axis else reason,
        elsewhere=elsewhere(build, (moved,)),
        bends=tuple(each for each in bends if each.verdict.fails),
    )


def _with_bends(rows: tuple[Row, ...], cables: tuple[Bent, ...]) -> tuple[Row, ...]:
    """Return the rows; where a cable has no room to bend they are short."""
    for each in cables:
        shifts = np.array([float(str(row.position)) for row in rows])
        hit = within(shifts, each.shifts_mm)
        rows = tuple(
            _short(row, each) if there else row
            for row, there in zip(rows, hit.tolist(), strict=True)
        )
    return rows


def _short(row: Row, cable: Bent) -> Row:
    """Return a row with a cable that lacks room; how much is not worked out there."""
    note = f"no room to bend for a cable of {cable.between[0]} ({cable.rule})"
    if row.verdict.fails:
        return replace(row, note=row.note or note)
    return replace(
        row,
        verdict=Verdict.SHORT,
        least_margin_mm=None,
        limited_by=cable.between,
        margins_mm=(),
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
            replace(e, plug=replace(e.plug, at_mm=plus(e.plug.at_mm, move)))
            if e.name in names
            else e
            for e in build.plugs
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
