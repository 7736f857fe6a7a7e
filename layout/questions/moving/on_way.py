"""Margin and verdict of a moving part at every position of its travel, in arrays."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from layout.build.placed import PlacedBody
from layout.geometry.bodies.answers import answers
from layout.geometry.bodies.body import Body
from layout.geometry.bodies.crowd import Crowd
from layout.geometry.relations.freeing import overlaps_mm
from layout.geometry.solids.cells import Floats
from layout.geometry.space import Axis, Vector
from layout.geometry.travel.stretches import Stretches
from layout.parts.form.form import Link
from layout.questions.checking.check import margins
from layout.questions.clearances.asked import Question
from layout.questions.clearances.rules import NO_INTERFERENCE
from layout.questions.findings.finding import Verdict
from layout.questions.findings.tolerance import ALLOWED_MM, links_between
from layout.questions.findings.walls import is_inner, way_out
from layout.questions.moving.journey import Way, shift_of
from layout.questions.moving.positions import Row

__all__ = ["rows_of", "within"]

_COMPARED: Final = 4
"""Margins of a position, from the least on, that tell which one is the better."""
_VERDICTS: Final = tuple(Verdict)


def rows_of(way: Way) -> tuple[Row, ...]:
    """Return how the moving part stands at every position."""
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


def _governing(way: Way, group: Sequence[Question]) -> _Columns:
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
    way: Way, question: Question, pair: tuple[Body, Body], *, moves: list[Vector]
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


def _along(way: Way, question: Question) -> tuple[Floats, Floats]:
    """Return margin and verdict of one pair at every position."""
    stays, goes = way.pair(question)
    need_mm = question.rule.need_mm
    margin, rank = np.full(len(way.shifts), np.inf), np.zeros(len(way.shifts))
    met = within(way.shifts, way.met[question])
    if stays is not None and met.any():
        moves = [shift_of(way.axis, each) for each in way.shifts[met].tolist()]
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
    way: Way, question: Question, free: NDArray[np.intp]
) -> tuple[Floats, Floats]:
    """Return gap and tolerance of one pair where the two do not interfere."""
    stays, goes = way.placed(question)
    moves = [shift_of(way.axis, each) for each in way.shifts[free].tolist()]
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
            _squares(links_between(*bodies, shift_of(axis, sign)))[axis.index]
            for axis in Axis
        ]
    ).reshape(-1, 1)


def _squares(links: tuple[tuple[str, Link], ...]) -> Floats:
    off_mm = np.array([link.plus_minus_mm for _, link in links]).reshape(-1, 3)
    count = np.array([link.high for _, link in links]).reshape(-1, 3)
    total: Floats = ((off_mm * count) ** 2).sum(axis=0)
    return total


def within(shifts: Floats, stretches: Stretches) -> NDArray[np.bool_]:
    """Tell which shifts lie inside a stretch."""
    inside = np.zeros(len(shifts), bool)
    for low, high in stretches:
        inside |= (shifts > low) & (shifts < high)
    return inside
