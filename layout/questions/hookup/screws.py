"""Whether the screws find their holes: board, fans, radiators, supply, drives."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from layout.build.placed import Build, Fixing
from layout.geometry.holes.holes import (
    Hole,
    Meeting,
    Miss,
    Point,
    Rail,
    Stretch,
    meeting,
)
from layout.geometry.space import Axis
from layout.parts.form.form import SeatSort
from layout.parts.form.screws import Screws
from layout.questions.findings.advice import spoken
from layout.questions.findings.answered import Answered, finding_of, joined, listed
from layout.questions.findings.finding import Group, ToOrder, Verdict
from layout.questions.findings.misses import told
from layout.standards.supplies import FORMS
from layout.values import dataclass

__all__ = ["screwed", "screws"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sort:
    """How one sort of fixing is spoken of."""

    rule: str
    theirs: str
    why: str
    remedy: str


_SORTS: Final = {
    SeatSort.BOARD: _Sort(
        rule="board-on-standoffs",
        theirs="standoff",
        why="every hole of the board lies on a standoff",
        remedy="set a standoff where the tray has a thread, or take another case",
    ),
    SeatSort.FANS: _Sort(
        rule="fans-to-mount",
        theirs="hole in the mount",
        why="every hole of the fans lies on the mount's",
        remedy="take one with the mount's hole spacing, or an adapter frame",
    ),
    SeatSort.SUPPLY: _Sort(
        rule="supply-to-plate",
        theirs="hole in the plate",
        why="every thread of the supply lies under a hole of the plate",
        remedy="turn its fan to a side that the plate has holes for",
    ),
    SeatSort.DRIVE: _Sort(
        rule="drive-to-place",
        theirs="hole in the place",
        why="every hole of the drive lies on one of its place",
        remedy="put it into a frame of the place's size",
    ),
}


def screws(build: Build, *, every: bool) -> Answered:
    """Return which parts cannot be screwed down, and what was taken for granted.

    ``every`` adds a clear finding where nothing but usual patterns meet.
    """
    return joined(
        [
            _answer(each, _SORTS[each.sort], every=every)
            for each in build.fixings
            if each.sort in _SORTS and each.own is not None
        ]
    )


def screwed(
    build: Build, key: str, axis: Axis, *, travel_mm: Stretch
) -> tuple[Stretch, ...] | None:
    """Return the stretches of travel on which a part's holes all meet its seat's.

    Parameters
    ----------
    travel_mm : (float, float)
        From which shift to which along the axis, from where it is.

    Returns
    -------
    tuple of (float, float) or None
        None where nothing is asked: no patterns are known.  A travel that leaves their
        plane leaves the holes behind: they meet where the part stands now, if at all.
    """
    whole: list[Stretch] = [travel_mm]
    fixings = [e for e in build.fixings if e.part == key and e.sort in _SORTS]
    asked = [found for e in fixings if (found := _screwed(e, axis, travel_mm))]
    for ranges in asked:
        both = ((max(a, c), min(b, d)) for a, b in whole for c, d in ranges)
        whole = [(low, high) for low, high in both if low <= high]
    return tuple(whole) if asked else None


def _screwed(fixing: Fixing, axis: Axis, travel_mm: Stretch) -> list[Stretch] | None:
    own, theirs = fixing.own, fixing.theirs
    if own is None or theirs is None:
        return None
    adapted = fixing.sort is SeatSort.SUPPLY and own.name != theirs.name
    if not own.holes or not theirs.holes or adapted:
        return None
    if axis not in theirs.across:
        return _where_it_stands(own, theirs, travel_mm)
    along: Point = (1.0, 0.0) if axis is theirs.across[0] else (0.0, 1.0)
    rail = theirs.rail
    # slots of the seat's own let the part be anywhere on them at every shift
    same = abs(rail.along[0] * along[1] - rail.along[1] * along[0]) < _PARALLEL
    slack_mm = rail.length_mm if same else 0.0
    first_mm, last_mm = travel_mm
    found = meeting(
        [_moved(hole, along, first_mm) for hole in own.holes],
        theirs.holes,
        screw_mm=max(own.screw_mm, theirs.screw_mm),
        rail=Rail(along=along, length_mm=last_mm - first_mm + slack_mm),
    )
    return [
        (max(first_mm, low + first_mm - slack_mm), min(last_mm, high + first_mm))
        for low, high in found.ranges_mm
    ] or [_NOWHERE]


def _where_it_stands(own: Screws, theirs: Screws, travel_mm: Stretch) -> list[Stretch]:
    """Return no shift at all, if that is on the travel and the holes meet there."""
    screw_mm = max(own.screw_mm, theirs.screw_mm)
    found = meeting(own.holes, theirs.holes, screw_mm=screw_mm, rail=theirs.rail)
    on = travel_mm[0] <= 0.0 <= travel_mm[1]
    return [(0.0, 0.0)] if on and found.ranges_mm else [_NOWHERE]


_PARALLEL: Final = 1e-9
_NOWHERE: Final = (1.0, 0.0)
"""A stretch that ends before it begins."""


def _moved(hole: Hole, along: Point, by_mm: float) -> Hole:
    x, y = (part * by_mm for part in along)
    to_mm = (hole.to_mm[0] + x, hole.to_mm[1] + y) if hole.to_mm else None
    return replace(hole, at_mm=(hole.at_mm[0] + x, hole.at_mm[1] + y), to_mm=to_mm)


def _answer(fixing: Fixing, sort: _Sort, *, every: bool) -> Answered:
    own, theirs = fixing.own, fixing.theirs
    if own is None or theirs is None:
        return _granted(fixing, sort, every=every)
    if fixing.sort is SeatSort.SUPPLY and own.name != theirs.name:
        return _adapted(fixing, (own, theirs), every=every)
    if not own.holes or not theirs.holes:
        return _by_name(fixing, sort, own.name, every=every)
    screw_mm = max(own.screw_mm, theirs.screw_mm)
    found = meeting(own.holes, theirs.holes, screw_mm=screw_mm, rail=theirs.rail)
    if found.missed:
        return _missed(fixing, sort, missed=found.missed, across=theirs.across)
    advice = _touching(found, own, theirs)
    shown = every or own.given or theirs.given
    taken = _alike(fixing, own)
    clear = _clear(fixing, sort, advice=advice, assumed=taken).findings
    return Answered(findings=clear if shown else (), notes=taken)


def _alike(fixing: Fixing, own: Screws) -> tuple[str, ...]:
    """Return what is taken of a form whose holes no text gives."""
    if not own.alike:
        return ()
    taken = (
        f"{fixing.part}: its holes are those of {own.alike} (no text gives those of "
        f"{own.name}; unverified); look where it has further ones, and whether a "
        "standoff can stand under each"
    )
    return (taken,)


def _granted(fixing: Fixing, sort: _Sort, *, every: bool) -> Answered:
    """Return what is taken for granted where the case says nothing of its holes."""
    if fixing.own is not None and not fixing.own.holes:
        return _by_name(fixing, sort, fixing.own.name, every=every)
    if fixing.sort is not SeatSort.BOARD:
        return Answered()
    taken = f"{fixing.host}: a standoff under every hole of the board"
    clear = _clear(fixing, sort, assumed=(taken,)).findings if every else ()
    return Answered(findings=clear, notes=(taken,))


def _by_name(fixing: Fixing, sort: _Sort, name: str, *, every: bool) -> Answered:
    """Return that a form whose holes no text gives is matched by its name."""
    taken = (
        f"{fixing.part}: its screws meet those of its seat by the form's name alone, "
        f"{name} (no text gives its holes; unverified)"
    )
    clear = _clear(fixing, sort, assumed=(taken,)).findings if every else ()
    return Answered(findings=clear, notes=(taken,))


def _clear(
    fixing: Fixing, sort: _Sort, *, advice: str = "", assumed: tuple[str, ...] = ()
) -> Answered:
    found = finding_of(
        sort.rule,
        Group.HOLES,
        (fixing.part, None),
        verdict=Verdict.CLEAR,
        why=sort.why,
        advice=advice,
        assumed=assumed,
    )
    return Answered(findings=(found,))


def _touching(found: Meeting, own: Screws, theirs: Screws) -> str:
    """Return what stands under the part without a hole over it."""
    if own.covers_mm is None:
        return ""
    low, high = own.covers_mm
    used = {other for _, other in found.met}
    under = [
        each.name
        for each in theirs.holes
        if each.name not in used
        and all(a <= at <= b for a, at, b in zip(low, each.at_mm, high, strict=True))
    ]
    if not under:
        return ""
    return (
        f"leave out the standoff{'s' if len(under) > 1 else ''} at {listed(under)}: no "
        "hole of the board is over it, and it would touch the board's back"
    )


def _missed(
    fixing: Fixing, sort: _Sort, *, missed: Sequence[Miss], across: tuple[Axis, Axis]
) -> Answered:
    own = fixing.own.holes if fixing.own else ()
    drive = fixing.sort is SeatSort.DRIVE
    if drive and fixing.theirs and not fixing.theirs.given:
        sizes = fixing.own.name if fixing.own else ""
        return Answered(notes=(f"{fixing.host}: holes for {sizes} drives",))
    found = finding_of(
        sort.rule,
        Group.HOLES,
        (fixing.part, None),
        verdict=Verdict.MISSING,
        why=told(missed, len(own), (sort.theirs, across)),
        advice=f"{spoken(fixing.part)} cannot be screwed down so: {sort.remedy}",
    )
    order = ToOrder(what="frame for a larger place", owner=fixing.part)
    return Answered(findings=(found,), to_order=(order,) if drive else ())


def _adapted(
    fixing: Fixing, patterns: tuple[Screws, Screws], *, every: bool
) -> Answered:
    """Return whether a supply has the plate that fits it to another form's opening."""
    own, theirs = patterns
    sort = _SORTS[SeatSort.SUPPLY]
    plate = f"plate from {own.name} to {theirs.name}"
    larger = not _goes_into(own.name, theirs.name)
    if fixing.adapter is None and not larger:
        taken = f"{fixing.part}: a {plate} in its box"
        found = _clear(fixing, sort, assumed=(taken,)).findings if every else ()
        return Answered(findings=found, notes=(taken,))
    if fixing.adapter:
        return _clear(fixing, sort)
    missing = finding_of(
        sort.rule,
        Group.HOLES,
        (fixing.part, None),
        verdict=Verdict.MISSING,
        why=f"its face is that of {own.name}, the opening that of {theirs.name}",
        advice=f"{spoken(fixing.part)} does not fit its opening: "
        + (
            f"take one of the form {theirs.name}, no plate makes a larger face smaller"
            if larger
            else f"order 1 x {plate}"
        ),
    )
    order = ToOrder(what=plate, owner=fixing.part)
    return Answered(findings=(missing,), to_order=() if larger else (order,))


def _goes_into(own: str, theirs: str) -> bool:
    """Tell whether a form's face is no larger than the opening of another."""
    face, opening = FORMS[own], FORMS[theirs]
    sides = ((face.width, opening.width), (face.height, opening.height))
    return all(each.mm <= other.mm for each, other in sides)
