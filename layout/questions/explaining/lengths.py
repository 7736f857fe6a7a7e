"""Chains of lengths that are no gap of two bodies: a lead's way, a stated limit."""

from __future__ import annotations

import math
from collections.abc import Collection
from itertools import pairwise
from typing import Final, TypeAlias

from layout.build.placed import Build
from layout.geometry.space import Axis, Vector
from layout.parts.form.form import Link
from layout.questions.case.stated import STATED_LIMIT, UNITS
from layout.questions.clearances.asked import CASE
from layout.questions.findings.advice import spoken, whose
from layout.questions.findings.explanation import Contribution, Explanation, Step
from layout.questions.findings.finding import Finding, Group
from layout.questions.findings.holes import Passage
from layout.questions.findings.tolerance import (
    Stacking,
    adds_mm,
    along_mm,
    chance_under,
    tolerance_mm,
)
from layout.questions.reach.led import Led
from layout.questions.reach.reach import led

__all__ = ["chain_of", "lengths"]

_ROUNDED_MM: Final = 1e-6
"""Corners that save less are not told."""
_UNITS: Final[tuple[Vector, ...]] = (
    (1.0, 0.0, 0.0),
    (0.0, 1.0, 0.0),
    (0.0, 0.0, 1.0),
)

_Owned: TypeAlias = tuple[tuple[str, Link], ...]


def lengths(
    build: Build, number: int, finding: Finding, *, stacking: Stacking
) -> Explanation | None:
    """Return the chain of a lead's way or a stated limit; None for other findings."""
    if finding.gap_mm is None or finding.margin_mm is None:
        return None
    if finding.rule == STATED_LIMIT:
        return _stated(build, number, finding, stacking=stacking)
    if finding.group is Group.REACH:
        ways = [way for id_, way in led(build) if id_ == finding.id]
        spare_mm = finding.gap_mm
        if ways:
            way = min(ways, key=lambda each: abs(each.length_mm - each.mm - spare_mm))
            return _led(build.name, number, (finding, way), stacking=stacking)
    return None


def chain_of(
    links: _Owned, along: Vector, *, towards_b: Collection[tuple[str, str]]
) -> tuple[Contribution, ...]:
    """Return the figures that act along a direction, each with its share of variance.

    ``towards_b`` are those on the way to b, by owner and label.
    """
    rss_mm = tolerance_mm(links, along)
    acting = [
        (owner, link, adds_mm(link, along), along_mm(link, along))
        for owner, link in links
    ]
    return tuple(
        Contribution(
            owner=owner,
            link=link,
            mm=mm,
            plus_minus_mm=off_mm,
            share=(off_mm / rss_mm) ** 2 if rss_mm else 0.0,
            towards_b=(owner, link.label) in towards_b,
        )
        for owner, link, mm, off_mm in acting
        if off_mm > 0.0 or mm
    )


def _led(
    build: str, number: int, found: tuple[Finding, Led], *, stacking: Stacking
) -> Explanation:
    """Return a lead's way, piece by piece, and its length beside it."""
    finding, way = found
    worst = max(_UNITS, key=lambda unit: tolerance_mm(way.links, unit))
    own = {(owner, link.label) for owner, link in way.links[:1]}
    pieces = _pieces(way)
    ends_mm = pieces[-1].to_mm
    owners = dict.fromkeys(owner for owner, _ in way.links[1:])
    places = (Step(owner=owner, from_mm=ends_mm, to_mm=ends_mm) for owner in owners)
    length = Step(owner=way.part, from_mm=0.0, to_mm=way.length_mm)
    rss_mm = tolerance_mm(way.links, worst)
    name = f"{whose(way.part)} {way.name}"
    return Explanation(
        build=build,
        number=number,
        finding=finding,
        along=None,
        chain=chain_of(way.links, worst, towards_b=own),
        a_steps=(*pieces, *places),
        b_steps=(length,),
        rss_mm=rss_mm,
        worst_mm=tolerance_mm(way.links, worst, Stacking(worst_case=True)),
        stacking=stacking,
        chance=chance_under(finding.margin_mm or 0.0, rss_mm),
        heading=(
            f"{name} to {spoken(way.plug)}: {way.length_mm:g} mm long, its way "
            f"{way.mm:.1f}, {finding.gap_mm:.1f} left of it"
        ),
        closing=f"left of the {'hose' if way.name == 'hose' else 'lead'}",
        room_mm=finding.gap_mm or 0.0,
    )


def _pieces(way: Led) -> tuple[Step, ...]:
    """Return the way's straight pieces, then what its rounded corners save."""
    steps = []
    at_mm = 0.0
    for number, (start, end) in enumerate(pairwise(way.points), start=1):
        long_mm = math.dist(start, end)
        name = f"piece {number}, {_where(start, end, way.holes)}"
        steps.append(Step(owner=name, from_mm=at_mm, to_mm=at_mm + long_mm))
        at_mm += long_mm
    if at_mm - way.mm > _ROUNDED_MM:
        steps.append(
            Step(owner="rounded corners take off", from_mm=at_mm, to_mm=way.mm)
        )
    return tuple(steps)


def _where(start: Vector, end: Vector, holes: tuple[Passage, ...]) -> str:
    """Return which hole a piece passes, or which way it mostly runs."""
    passed = [hole.name for hole in holes if hole.used_by((start, end))]
    if passed:
        return f"through {passed[0]}"
    runs = [abs(b - a) for a, b in zip(start, end, strict=True)]
    return f"along {tuple(Axis)[runs.index(max(runs))].value}"


def _stated(
    build: Build, number: int, finding: Finding, *, stacking: Stacking
) -> Explanation:
    """Return a part's size beside the limit that its case states."""
    size_mm, limit_mm = finding.need_mm or 0.0, finding.gap_mm or 0.0
    links = tuple((each.owner, each.link) for each in finding.rests_on)
    along = UNITS[finding.axis] if finding.axis else _UNITS[0]
    part = finding.a.partition("/")[0]
    rss_mm = tolerance_mm(links, along)
    what = finding.id.rpartition(":")[2]
    return Explanation(
        build=build.name,
        number=number,
        finding=finding,
        along=along,
        chain=chain_of(links, along, towards_b=()),
        a_steps=(Step(owner=part, from_mm=0.0, to_mm=size_mm),),
        b_steps=(Step(owner=CASE, from_mm=0.0, to_mm=limit_mm),),
        rss_mm=rss_mm,
        worst_mm=tolerance_mm(links, along, Stacking(worst_case=True)),
        stacking=stacking,
        chance=chance_under(finding.margin_mm or 0.0, rss_mm),
        heading=(
            f"{spoken(finding.a)}, {what}: {size_mm:.5g} where {limit_mm:.5g} is the "
            "most that the case states"
        ),
        closing="left under the limit",
        room_mm=limit_mm - size_mm,
    )
