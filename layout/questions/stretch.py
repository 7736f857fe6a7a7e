"""A stretch of travel: a part at many places on one line, and what it meets there.

Only what moved is computed again: every pair of a moving body and one that stays, at
all places at once.  The bends of cables are not asked at every position, but once, at
the best one.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property
from typing import Final

import numpy as np
from numpy.typing import NDArray

from layout.build.placed import Build, PlacedBody
from layout.build.plan import Plan
from layout.geometry.answers import answers
from layout.geometry.body import Body
from layout.geometry.cells import Floats
from layout.geometry.crowd import Crowd
from layout.geometry.freeing import overlaps_mm
from layout.geometry.space import Axis, Vector
from layout.geometry.stretches import Stretches, clear_of, merged
from layout.geometry.travel import blocked_pairs
from layout.parts.form import Link
from layout.questions.asked import CASE, Question, asked, question_id, unnamed
from layout.questions.check import check, margins, shared_boxes
from layout.questions.finding import Group, Verdict
from layout.questions.moves import MoveError, moved_bodies, travel_axis
from layout.questions.positions import Positions, Row, best_of, elsewhere
from layout.questions.rules import NO_INTERFERENCE
from layout.questions.screws import screwed
from layout.questions.tolerance import ALLOWED_MM, links_between
from layout.questions.walls import is_inner, way_out
from layout.values import dataclass

__all__ = ["Travel", "shifted", "stretch"]

_MOST: Final = 10_001
_COMPARED: Final = 4
"""Margins of a position, from the least on, that tell which one is the better."""
_VERDICTS: Final = tuple(Verdict)


@dataclass(frozen=True, slots=True)
class Travel:
    """From which shift to which, and how far from one position to the next, mm."""

    first_mm: float
    last_mm: float
    step_mm: float

    def __post_init__(self) -> None:
        finite = all(map(math.isfinite, (self.first_mm, self.last_mm, self.step_mm)))
        if not finite or self.first_mm > self.last_mm or self.step_mm <= 0.0:
            raise MoveError(
                f"found a travel {self.first_mm:g}:{self.last_mm:g}:{self.step_mm:g}; "
                "FROM:TO:STEP with FROM up to TO and a step over 0 would be right"
            )
        if (self.last_mm - self.first_mm) / self.step_mm > _MOST:
            raise MoveError(
                f"found over {_MOST} positions; a longer step would be right"
            )

    @property
    def shifts_mm(self) -> Floats:
        """Return every position."""
        count = int((self.last_mm - self.first_mm) / self.step_mm + 1e-9) + 1
        return self.first_mm + self.step_mm * np.arange(float(count))


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
    way = _Way(
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
    rows = _with_holes(_rows(way), holes, moved)
    best = best_of(rows)
    there = shifted(build, moving, (way.axis, float(str(best or 0.0))))
    bends = [each for each in check(there).findings if each.rule.endswith("-bend")]
    return Positions(
        build=plan.name,
        moved=(moved,),
        rows=rows,
        clear_mm=_on_both(_clear(way), holes),
        best=best,
        axis=way.axis,
        reason="as asked" if axis else reason,
        elsewhere=elsewhere(build, (moved,)),
        bends=tuple(each for each in bends if each.verdict.fails),
    )


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
    """Return the build with some bodies farther along an axis."""
    move = _shift(*by)
    return replace(
        build,
        bodies=tuple(
            replace(each, body=each.body.moved(move)) if i in moving else each
            for i, each in enumerate(build.bodies)
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


@dataclass(frozen=True, eq=False, kw_only=True)
class _Way:
    """Everything that is asked of the moving bodies on their way.

    ``rest`` are the other bodies of a part of which one alone moves: what fails of
    them by themselves is not the moving one's.
    No slots, since a cached value needs a place of its own.
    """

    build: Build
    moving: frozenset[int]
    rest: frozenset[int]
    axis: Axis
    travel: Travel

    @cached_property
    def shifts(self) -> Floats:
        """Every position."""
        return self.travel.shifts_mm

    @cached_property
    def groups(self) -> list[list[Question]]:
        """The questions of each finding that may name a moving body."""
        questions = asked(self.build)
        near = [q for q in questions if q.rule.group is Group.DISTANCE]
        every = [*near, *unnamed(self.build, questions)]
        if self.rest:
            every = [q for q in every if self.counts(q) or not {q.a, q.b} & self.rest]
        return _groups(self.build, every, self.moving)

    @cached_property
    def met(self) -> dict[Question, Stretches]:
        """At which shifts each pair interferes: exact, and few pairs do."""
        pairs = [q for group in self.groups for q in group if self.goes(q)]
        return dict(zip(pairs, self.blocked(pairs, 0.0), strict=True))

    def goes(self, question: Question) -> bool:
        """Tell whether one of the two bodies moves, and the other stays."""
        return (question.a in self.moving) != (question.b in self.moving)

    def names(self, question: Question) -> tuple[str, str]:
        """Return the names of the two bodies."""
        return self.build.bodies[question.a].name, self.build.bodies[question.b].name

    def counts(self, question: Question) -> bool:
        """Tell whether a moving body is one of the two."""
        return question.a in self.moving or question.b in self.moving

    def placed(self, question: Question) -> tuple[PlacedBody, PlacedBody]:
        """Return what stays and what goes."""
        a, b = self.build.bodies[question.a], self.build.bodies[question.b]
        return (b, a) if question.a in self.moving else (a, b)

    def pair(self, question: Question) -> tuple[Body | None, Body]:
        """Return what stays, without what its seat lets the other share, and goes."""
        stays, goes = self.placed(question)
        boxes = shared_boxes(self.build, stays, goes)
        return (stays.body.outside(boxes) if boxes else stays.body), goes.body

    def blocked(
        self, questions: Sequence[Question], need_mm: float | Sequence[float]
    ) -> list[Stretches]:
        """Return the shifts at which pairs interfere, or come nearer than a need."""
        pairs = [self.pair(each) for each in questions]
        bodies: list[Body] = []
        index = []
        for stays, goes in pairs:
            # nothing left of what stays: the two may share all there is
            far = goes.moved((0.0, 1e6, 0.0)) if stays is None else stays
            index.append((len(bodies), len(bodies) + 1))
            bodies += [far, goes]
        # a little farther, so that no stretch is cut off at a position
        travel_mm = (self.travel.first_mm - 1.0, self.travel.last_mm + 1.0)
        return list(
            blocked_pairs(
                bodies, index, self.axis, travel_mm=travel_mm, need_mm=need_mm
            )
        )


def _groups(
    build: Build, questions: Sequence[Question], moving: frozenset[int]
) -> list[list[Question]]:
    """Return the questions of each finding that may name a moving body."""
    groups: dict[str, list[Question]] = {}
    for q in questions:
        id_ = question_id(q.rule, build.bodies[q.a], build.bodies[q.b])
        groups.setdefault(id_, []).append(q)
    return [
        group
        for group in groups.values()
        if any(q.a in moving or q.b in moving for q in group)
    ]


def _rows(way: _Way) -> tuple[Row, ...]:
    count = len(way.shifts)
    least, severity = np.full(count, np.inf), np.zeros(count, int)
    which, every = np.full(count, -1), []
    pairs: list[tuple[str, str]] = []
    for group in way.groups:
        margin, verdict, place = _governing(way, group)
        severity = np.maximum(severity, verdict)
        lower = margin < least
        least = np.where(lower, margin, least)
        which = np.where(lower, place + len(pairs), which)
        pairs += [way.names(each) for each in group]
        every.append(margin)
    next_ones = np.sort(np.stack([least, *every]), axis=0)[:_COMPARED].T
    columns = zip(
        way.shifts.tolist(),
        severity.tolist(),
        least.tolist(),
        which,
        map(tuple, next_ones.tolist()),
        strict=True,
    )
    return tuple(
        Row(
            position=round(shift, 9) + 0.0,
            verdict=_VERDICTS[rank],
            least_margin_mm=margin if place >= 0 else None,
            limited_by=pairs[place] if place >= 0 else None,
            margins_mm=others if place >= 0 else (),
        )
        for shift, rank, margin, place, others in columns
    )


_Columns = tuple[Floats, NDArray[np.intp], NDArray[np.intp]]


def _governing(way: _Way, group: Sequence[Question]) -> _Columns:
    """Return margin, verdict and question of one finding at every position.

    The least margin of its pairs governs; where that is a pair of bodies that stay,
    the finding is none of the moving part's.
    """
    still = [q for q in group if not way.goes(q)]
    told = dict(zip(still, margins(way.build, still), strict=True))
    stacked = []
    for q in group:
        if way.goes(q):
            stacked.append(_along(way, q))
            continue
        margin_mm, verdict = told[q]
        rank = _VERDICTS.index(verdict)
        stacked.append(
            (np.full(len(way.shifts), margin_mm), np.full_like(way.shifts, rank))
        )
    margin = np.stack([each for each, _ in stacked])
    ranks = np.stack([each for _, each in stacked]).astype(np.intp)
    place = margin.argmin(axis=0)
    at = np.arange(len(way.shifts))
    counts = np.array([way.counts(q) for q in group])[place]
    return (
        np.where(counts, margin[place, at], np.inf),
        np.where(counts, ranks[place, at], 0),
        place,
    )


def _overlaps_mm(
    way: _Way, question: Question, pair: tuple[Body, Body], *, moves: list[Vector]
) -> Floats:
    """Return how far a pair overlaps at each shift, at a wall along its normal.

    A shroud or tray is passed: on which side of it a part lies changes on the way.
    """
    stays, goes = way.placed(question)
    ways = (
        [way_out(stays, replace(goes, body=goes.body.moved(each))) for each in moves]
        if is_inner(stays) or is_inner(goes)
        else [way_out(stays, goes)] * len(moves)
    )
    out = np.empty(len(moves))
    for to in dict.fromkeys(ways):
        same = [k for k, each in enumerate(ways) if each is to]
        out[same] = overlaps_mm(*pair, [moves[k] for k in same], to=to)
    return out


def _along(way: _Way, question: Question) -> tuple[Floats, Floats]:
    """Return margin and verdict of one pair at every position."""
    stays, goes = way.pair(question)
    need_mm = question.rule.need_mm
    margin, rank = np.full(len(way.shifts), np.inf), np.zeros(len(way.shifts))
    met = _within(way.shifts, way.met[question])
    if stays is not None and met.any():
        moves = [_shift(way.axis, each) for each in way.shifts[met].tolist()]
        margin[met] = -_overlaps_mm(way, question, (stays, goes), moves=moves) - need_mm
        rank[met] = _VERDICTS.index(Verdict.CLASH)
    if question.rule.name == NO_INTERFERENCE:
        return margin, rank
    free = np.flatnonzero(~met)
    gap, scatter = _gaps(way, question, free)
    short = gap < need_mm - ALLOWED_MM
    tight = gap - scatter < need_mm - ALLOWED_MM
    margin[free] = gap - need_mm
    rank[free] = np.where(
        short,
        _VERDICTS.index(Verdict.SHORT),
        np.where(tight, _VERDICTS.index(Verdict.TIGHT), 0),
    )
    return margin, rank


def _gaps(
    way: _Way, question: Question, free: NDArray[np.intp]
) -> tuple[Floats, Floats]:
    """Return gap and tolerance of one pair where the two do not interfere."""
    stays, goes = way.placed(question)
    moves = [_shift(way.axis, each) for each in way.shifts[free].tolist()]
    crowd = Crowd.of_places(goes.body, moves, [stays.body])
    index = np.stack([np.arange(len(free)), np.full(len(free), len(free))])
    found = answers(crowd, index, points=True)
    return found.gap, _scatter(found.on_b - found.on_a, found.gap, (goes, stays))


def _scatter(
    between: Floats, gap: Floats, bodies: tuple[PlacedBody, PlacedBody]
) -> Floats:
    """Return the tolerances of gaps in many directions, by root sum of squares."""
    every = links_between(*bodies)
    apart = gap > 0.0
    along = np.divide(between, gap, out=np.zeros_like(between), where=apart)
    # bodies that touch take the worst axis
    ahead, back = (_variance(bodies, sign) for sign in (1.0, -1.0))
    squares = (np.where(along > 0.0, ahead, back) * along**2).sum(axis=0)
    worst = _squares(every).max()
    result: Floats = np.sqrt(np.where(apart, squares, worst))
    return result


def _variance(bodies: tuple[PlacedBody, PlacedBody], sign: float) -> Floats:
    """Return what acts along each axis where the gap runs that way along it."""
    return np.array(
        [
            _squares(links_between(*bodies, _shift(axis, sign)))[axis.index]
            for axis in Axis
        ]
    ).reshape(-1, 1)


def _squares(links: tuple[tuple[str, Link], ...]) -> Floats:
    off_mm = np.array([link.plus_minus_mm for _, link in links]).reshape(-1, 3)
    count = np.array([link.high for _, link in links]).reshape(-1, 3)
    total: Floats = ((off_mm * count) ** 2).sum(axis=0)
    return total


def _shift(axis: Axis, mm: float) -> Vector:
    x, y, z = (mm if each is axis else 0.0 for each in Axis)
    return (x, y, z)


def _within(shifts: Floats, stretches: Stretches) -> NDArray[np.bool_]:
    """Tell which shifts lie inside a stretch."""
    inside = np.zeros(len(shifts), bool)
    for low, high in stretches:
        inside |= (shifts > low) & (shifts < high)
    return inside


def _clear(way: _Way) -> Stretches:
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
