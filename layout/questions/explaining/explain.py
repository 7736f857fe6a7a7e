"""Explain a finding: the chain of figures it rests on, and what each contributes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from difflib import get_close_matches
from itertools import pairwise

from layout.build.placed import Build, PlacedBody
from layout.errors import LayoutError
from layout.geometry.space import ORIGIN, Axis, Vector
from layout.parts.form.form import Link
from layout.questions.bends.bends import bent_plug
from layout.questions.checking.check import check
from layout.questions.explaining.lengths import chain_of, lengths
from layout.questions.explaining.rests import rests
from layout.questions.findings.explanation import Account, Explanation, Step
from layout.questions.findings.finding import Check, Finding
from layout.questions.findings.portions import abutted, faced
from layout.questions.findings.tolerance import (
    RSS,
    Stacking,
    chance_under,
    links_between,
    tolerance_mm,
)
from layout.questions.hookup.accounts import account

__all__ = ["UnknownFindingError", "explain", "explained"]


class UnknownFindingError(LayoutError, ValueError):
    """No finding of the build has this id or number."""


def explain(
    build: Build, name: str, *, stacking: Stacking = RSS
) -> Explanation | Account:
    """Return what a finding rests on.

    Parameters
    ----------
    build : Build
    name : str
        The finding's id, or its number in the table of a check that stacks likewise.
    stacking : Stacking
        How the finding's tolerance is stacked.

    Returns
    -------
    Explanation or Account
        A chain of lengths; of a finding that has no length what is needed and there.

    Raises
    ------
    UnknownFindingError
        If there is no such finding.
    """
    found = check(build, stacking=stacking)
    number, finding = _picked(build, found, name)
    told = explained(build, number, finding, stacking=stacking)
    if stacking == RSS:
        return told
    drawn = [each.id for each in check(build).findings]
    drawn_number = drawn.index(finding.id) + 1 if finding.id in drawn else 0
    return replace(told, drawn_number=0 if drawn_number == number else drawn_number)


def explained(
    build: Build, number: int, finding: Finding, *, stacking: Stacking = RSS
) -> Explanation | Account:
    """Return what a finding of the build's check rests on."""
    told = lengths(build, number, finding, stacking=stacking)
    if told is not None:
        return told
    a, b = (_body(build, each) for each in (finding.a, finding.b))
    if a is None or b is None or finding.gap_mm is None or finding.margin_mm is None:
        return account(build, number, finding)
    if _tells_lengths_alone(finding):
        return account(build, number, finding)
    if finding.along is not None:
        a = bent_plug(build, finding.id) or a
    a, b = faced(
        a, b, ends_mm=(finding.from_mm, finding.to_mm), overlap=finding.overlap
    )
    touch = abutted(a, b) if finding.axis is None and not finding.gap_mm else None
    if finding.overlap is None and finding.along is None and touch is not None:
        a, b, along = touch
    else:
        along = _along(finding, links_between(a, b))
    links = links_between(a, b, along)
    rss_mm = tolerance_mm(links, along)
    ways = _steps(build, (a, b), _faces((a, b), finding, along), along=along)
    acting = chain_of(links, along, towards_b={(o, link.label) for o, link in b.chain})
    clash = finding.overlap is not None
    return Explanation(
        build=build.name,
        number=number,
        finding=finding,
        along=along,
        chain=(*acting, *rests(acting, *ways)),
        a_steps=ways[0],
        b_steps=ways[1],
        rss_mm=rss_mm,
        worst_mm=tolerance_mm(links, along, Stacking(worst_case=True)),
        stacking=stacking,
        chance=chance_under(finding.margin_mm, rss_mm),
        closing="overlap" if clash else "gap",
        room_mm=finding.overlap.mm if finding.overlap else finding.gap_mm,
    )


def _tells_lengths_alone(finding: Finding) -> bool:
    """Tell whether it compares two lengths and not two places: how high a post sets."""
    nowhere = finding.from_mm is None and finding.overlap is None
    return nowhere and finding.along is None and bool(finding.gap_mm)


def _picked(build: Build, found: Check, name: str) -> tuple[int, Finding]:
    """Return the finding of a number or an id; ids of quiet pairs are known too."""
    findings = found.findings
    if name.isdecimal() and 1 <= int(name) <= len(findings):
        return int(name), findings[int(name) - 1]
    for number, each in enumerate(findings, start=1):
        if each.id == name:
            return number, each
    quiet = check(build, every_pair=True).findings
    for each in quiet:
        if each.id == name:
            return 0, each
    raise UnknownFindingError(
        f"found no finding {name!r} in {build.name}; {_right(findings, name)}"
    )


def _right(findings: Sequence[Finding], name: str) -> str:
    if not findings:
        return "it has none"
    ids = [each.id for each in findings]
    near = get_close_matches(name, ids, n=1, cutoff=0.3) or ids[:1]
    return f"a number from 1 to {len(ids)} or an id such as {near[0]} would be right"


def _body(build: Build, name: str | None) -> PlacedBody | None:
    return next((each for each in build.bodies if each.name == name), None)


def _along(finding: Finding, links: tuple[tuple[str, Link], ...]) -> Vector:
    """Return the unit vector from a to b; bodies that touch take the worst axis."""
    if finding.along is not None:
        return finding.along
    if finding.overlap is not None:
        sign = float(finding.overlap.sign)
        x, y, z = (sign * (axis is finding.overlap.axis) for axis in Axis)
        return (x, y, z)
    if finding.from_mm is not None and finding.to_mm is not None and finding.gap_mm:
        x, y, z = (
            (t - f) / finding.gap_mm
            for f, t in zip(finding.from_mm, finding.to_mm, strict=True)
        )
        return (x, y, z)
    return max(_UNITS, key=lambda unit: tolerance_mm(links, unit))


_UNITS: tuple[Vector, ...] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def _steps(
    build: Build,
    bodies: tuple[PlacedBody, PlacedBody],
    faces: tuple[float, float],
    *,
    along: Vector,
) -> tuple[tuple[Step, ...], tuple[Step, ...]]:
    """Return both ways, without the steps that they begin with in common."""
    a_steps, b_steps = (
        _way(build, body, face_mm, along=along)
        for body, face_mm in zip(bodies, faces, strict=True)
    )
    while len(a_steps) > 1 and len(b_steps) > 1 and a_steps[0] == b_steps[0]:
        a_steps, b_steps = a_steps[1:], b_steps[1:]
    return a_steps, b_steps


def _faces(
    bodies: tuple[PlacedBody, PlacedBody], finding: Finding, along: Vector
) -> tuple[float, float]:
    """Return where both faces lie along the gap; in a clash b's lies before a's."""
    if finding.from_mm is not None and finding.to_mm is not None:
        return _place(finding.from_mm, along), _place(finding.to_mm, along)
    box = bodies[0].body.bounds
    face_mm = max(_place(box.low, along), _place(box.high, along))
    apart_mm = -finding.overlap.mm if finding.overlap else finding.gap_mm or 0.0
    return face_mm, face_mm + apart_mm


def _way(
    build: Build, body: PlacedBody, face_mm: float, *, along: Vector
) -> tuple[Step, ...]:
    """Return the way to a face, from seat to seat of the parts that carry the body."""
    at = {part.key: part.at_mm for part in build.parts}
    owners = dict.fromkeys(owner for owner, _ in body.chain if owner != body.part)
    stops = [(owner, at.get(owner, ORIGIN)) for owner in owners]
    # a plug has its place in its solids: the seat is its part's
    own_mm = body.body.at_mm
    stops.append((body.part, at.get(body.part, own_mm) if own_mm == ORIGIN else own_mm))
    if stops[0][0] != "case" and stops[0][1] != ORIGIN:
        stops.insert(0, ("case", ORIGIN))
    ends = [(owner, _place(place, along)) for owner, place in stops]
    return tuple(
        Step(owner=owner, from_mm=start_mm, to_mm=end_mm)
        for (owner, start_mm), (_, end_mm) in pairwise([*ends, ("", face_mm)])
    )


def _place(point: Vector, along: Vector) -> float:
    return sum(p * u for p, u in zip(point, along, strict=True))
