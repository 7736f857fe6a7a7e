"""What no figure of a part mends: findings of it that do not move with the figure.

A cooler whose fan covers a drive's plug does so at every height.  Then no height fits,
and yet a builder asks which would, were that mended otherwise.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from layout.build.placed import Build
from layout.questions.checking.beside import beside
from layout.questions.checking.check import check, worst_first
from layout.questions.clearances.plug_rules import BEND_RULES
from layout.questions.findings.finding import Finding
from layout.questions.findings.tolerance import ALLOWED_MM
from layout.questions.growing.grown import SlantedError
from layout.questions.growing.holding import Holding
from layout.questions.growing.search import Limit, Search
from layout.questions.moving.positions import GROUPS
from layout.values import dataclass

__all__ = ["ButFor", "but_for"]

_SHARES = (0.7, 0.98)
"""At these shares of a figure what does not move stands as at the figure itself."""
_RAISED_MM = (5.0,)
"""Instead of shares of a figure that is 0, such as a fan that is not raised."""


@dataclass(frozen=True, slots=True)
class ButFor:
    """Findings that no figure mends, and the largest figure that clears all others.

    ``largest_mm`` is None where nothing else limits it; ``limit`` is what does.
    """

    findings: tuple[Finding, ...]
    largest_mm: float | None
    limit: Limit | None


def but_for(search: Search, holding: Holding) -> ButFor | None:
    """Return what no figure mends; None where other things are in the way, too.

    ``holding`` is the build's, made ready.
    """
    grown, now_mm = search.grown, search.grown.dimension.now_mm
    others = [share * now_mm for share in _SHARES] if now_mm else list(_RAISED_MM)
    possible = [mm for mm in others if grown.possible(mm)]
    fixed = _failing_now(search, holding, possible) if possible else []
    for mm in possible:
        if fixed:
            there = _again(search, mm, fixed, holding=holding)
            fixed = [each for each in fixed if _alike(each, there.get(each.id))]
    if not fixed:
        return None
    known = {each.id: each.margin_mm or 0.0 for each in fixed}
    left = [each for each in grown.limits if each.id not in known]
    other = Search(grown.within(left), search.cables, besides=known)
    figure_mm, limit = other.found()
    if figure_mm is None and limit is not None:
        return None
    at_mm = other.end_mm if figure_mm is None else figure_mm
    ended = _failing(other, at_mm, fixed, holding=holding)
    if any(_worse(each, known) for each in ended):
        return None
    return ButFor(tuple(fixed), figure_mm, limit)


def _failing_now(
    search: Search, holding: Holding, others: Sequence[float]
) -> list[Finding]:
    """Return what of the part and its load fails now, cables' bends last.

    Without bodies that are near enough now and not at one of some other figures.
    """
    grown, build = search.grown, holding.build
    carried, now_mm = build.carried_by(grown.key), grown.dimension.now_mm
    try:
        near = dict.fromkeys(each.limit.id for each in grown.near(now_mm, now_mm))
        for mm in others:
            there = {each.limit.id for each in grown.near(mm, mm)}
            near = {id_: None for id_ in near if id_ in there}
        found = (*holding.standing(build, near), *holding.beside)
    except SlantedError:
        found = check(build, of=carried, groups=GROUPS, bent=()).findings
    own = [e for e in found if e.verdict.lacks_room and e.parts & carried]
    return [*sorted(own, key=worst_first), *_bent(search, build)]


def _failing(
    search: Search, mm: float, fixed: list[Finding], *, holding: Holding
) -> Iterable[Finding]:
    """Return what of the part and its load fails where a search has ended.

    The search has asked all distances of the bodies that it knows, but for those of
    what is fixed, and all bends.
    """
    build, now = search.grown.build(mm), holding.build
    carried = build.carried_by(search.grown.key)
    if search.slow or {b.name for b in build.bodies} != {b.name for b in now.bodies}:
        bent = _bent(search, build)
        found = check(build, of=carried, groups=GROUPS, bent=bent).findings
    else:
        again = _again(search, mm, fixed, holding=holding).values()
        found = (*again, *beside(build, GROUPS, every=False).findings)
    return (e for e in found if e.verdict.lacks_room and e.parts & carried)


def _again(
    search: Search, mm: float, fixed: list[Finding], *, holding: Holding
) -> dict[str, Finding]:
    """Return how some findings stand at a figure."""
    build = search.grown.build(mm)
    ids = {each.id: None for each in fixed}
    found = {each.id: each for each in fixed if holding.keeps(build, each.id)}
    moved = [id_ for id_ in ids if id_ not in found]
    found |= {each.id: each for each in holding.standing(build, moved)}
    left = [each for each in fixed if each.id not in found]
    if any(each.rule in BEND_RULES for each in left):
        found |= {each.id: each for each in _bent(search, build)}
    if any(each.rule not in BEND_RULES for each in left):
        more = beside(build, GROUPS, every=False).findings
        found |= {each.id: each for each in more}
    return {id_: each for id_, each in found.items() if id_ in ids}


def _bent(search: Search, build: Build) -> tuple[Finding, ...]:
    """Return the cables that lack room by the part and its load."""
    carried = build.carried_by(search.grown.key)
    return search.cables.bends(build, carried, lacking=True)


def _alike(finding: Finding, other: Finding | None) -> bool:
    """Tell whether a finding stands as it did."""
    a, b = finding.margin_mm, other.margin_mm if other else None
    return a is not None and b is not None and abs(a - b) <= ALLOWED_MM


def _worse(finding: Finding, known: dict[str, float]) -> bool:
    """Tell whether a finding fails that is not known to, or more than is known."""
    mm = known.get(finding.id)
    return mm is None or (finding.margin_mm or 0.0) < mm - ALLOWED_MM
