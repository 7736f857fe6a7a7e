"""How stiff each cable may be: the largest least radius with room behind its plug.

Every cable is searched for at once: what a round costs is one look at all of them.
"""

from __future__ import annotations

import math
from collections.abc import Generator, Iterator, Sequence
from dataclasses import replace
from typing import Final, TypeAlias

from layout.build.placed import Build, PlacedPlug
from layout.parts.form.form import PlugShape
from layout.parts.kinds.dimensions import FINE_MM
from layout.parts.wiring.leads import CABLES
from layout.parts.wiring.plug import cable_of
from layout.questions.bends.cable_ways import Way, ways_of
from layout.questions.bends.open_ways import open_ways
from layout.questions.bends.ways import Answer, least_lacking
from layout.questions.clearances.plug_rules import PLUG_RULES
from layout.questions.findings.tolerance import ALLOWED_MM
from layout.questions.growing.search import LIMIT_MM, down_to_grid
from layout.values import dataclass

__all__ = ["BendRoom", "bend_rooms", "with_radius"]

_PAST_MM: Final = 0.01
"""So far past its largest radius a cable surely has no room."""
_LEAST_MM: Final = 0.01
_JUST_MM: Final = FINE_MM / 4
"""So far past what it has to spare a cable that grows straight lacks room."""
_OPEN_MM: Final = 250.0
"""How much further to look where nothing is near enough to limit a cable."""

_Limit: TypeAlias = tuple[str, str, str]
"""The plug's body, what limits its cable, and the rule."""
_Stands: TypeAlias = tuple[float, _Limit | None]
"""What a cable has to spare at a radius, and what limits it."""
_Search: TypeAlias = Generator[float, _Stands, tuple[float | None, _Limit | None]]
_Of: TypeAlias = tuple[str, str, str]
"""A rule, a part, and a kind of cable."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BendRoom:
    """The largest least radius that the cables of one kind of a part's plugs may have.

    ``largest_mm`` is None where nothing limits it, and where no radius fits: then
    ``limit`` tells what is in the way.
    """

    part: str
    kind: str
    now_mm: float
    largest_mm: float | None
    limit: _Limit | None


def bend_rooms(build: Build, *, part: str | None = None) -> Iterator[BendRoom]:
    """Yield the room of every kind of cable at every part that a rule asks about.

    ``part`` is the one part to ask; default: all.
    """
    groups = _groups(build, part)
    now_mm = {
        of: max(cable_of(each.plug).inside_radius_mm for each in plugs)
        for of, plugs in groups.items()
    }
    found: dict[_Of, tuple[float | None, _Limit | None]] = {}
    searches = {of: _search(mm) for of, mm in now_mm.items()}
    wanted = {of: next(search) for of, search in searches.items()}
    while wanted:
        stand = _stand(build, groups, wanted)
        asked, wanted = wanted, {}
        for of in asked:
            try:
                wanted[of] = searches[of].send(stand.get(of, (_OPEN_MM, None)))
            except StopIteration as ended:
                found[of] = ended.value
    limits = _limits(build, groups, found)
    for of in groups:
        (_, owner, kind), (largest_mm, _) = of, found[of]
        yield BendRoom(
            part=owner,
            kind=kind,
            now_mm=now_mm[of],
            largest_mm=largest_mm,
            limit=limits.get(of),
        )


def _limits(
    build: Build,
    groups: dict[_Of, list[PlacedPlug]],
    found: dict[_Of, tuple[float | None, _Limit | None]],
) -> dict[_Of, _Limit | None]:
    """Return what limits each cable just past its largest radius, as `check` tells it.

    Of several ways without room that is the one which lacks least.
    """
    past = {
        of: mm + _PAST_MM if mm is not None else _LEAST_MM
        for of, (mm, limit) in found.items()
        if limit is not None
    }
    plugs = [p for of, mm in past.items() for p in with_radius(groups[of], mm)]
    there = replace(build, plugs=tuple(plugs))
    ways = [*ways_of(there), *ways_of(there, on=True)]
    least: dict[_Of, tuple[float, _Limit]] = {}
    for each in least_lacking(there, ways):
        of = _of(each.way)
        if of not in least or each.spare_mm < least[of][0]:
            limit = each.way.placed.name, each.limit.name, each.way.rule.name
            least[of] = each.spare_mm, limit
    return {of: least[of][1] if of in least else found[of][1] for of in past}


def _groups(build: Build, part: str | None) -> dict[_Of, list[PlacedPlug]]:
    """Return the plugs of each kind at each part; an angled one bends no cable."""
    roles = {body.name: body.role for body in build.bodies}
    groups: dict[_Of, list[PlacedPlug]] = {}
    for placed in build.plugs:
        plug = placed.plug
        straight = plug.shape is PlugShape.STRAIGHT and not plug.spare
        for rule in PLUG_RULES:
            asked = roles.get(placed.name) is rule.on and plug.kind in rule.kinds
            if straight and asked and part in {None, placed.part}:
                of = (rule.name, placed.part, plug.kind.value)
                groups.setdefault(of, []).append(placed)
    return groups


def with_radius(plugs: Sequence[PlacedPlug], mm: float) -> tuple[PlacedPlug, ...]:
    """Return plugs whose cables may not be bent more tightly than a radius."""
    return tuple(
        replace(each, plug=replace(each.plug, cable=replace(cable, least_mm=mm)))
        for each in plugs
        for cable in [each.plug.cable or CABLES[each.plug.kind]]
    )


def _stand(
    build: Build, groups: dict[_Of, list[PlacedPlug]], radii_mm: dict[_Of, float]
) -> dict[_Of, _Stands]:
    """Return what each kind of cable has to spare at its own radius.

    Where it lacks room that is told, not how much: it is not needed.
    """
    plugs = [p for of, mm in radii_mm.items() for p in with_radius(groups[of], mm)]
    found = open_ways(replace(build, plugs=tuple(plugs)))
    stands: dict[_Of, _Stands] = {}
    for way, body in found.lacking.values():
        stands[_of(way)] = -math.inf, (way.placed.name, body.name, way.rule.name)
    best: dict[tuple[str, ...], Answer] = {}
    for each in found.limited:
        plug = each.way.of
        if plug not in best or each.spare_mm > best[plug].spare_mm:
            best[plug] = each
    for each in best.values():
        of = _of(each.way)
        if of not in stands or each.spare_mm < stands[of][0]:
            limit = each.way.placed.name, each.limit.name, each.way.rule.name
            stands[of] = each.spare_mm, limit
    return stands


def _of(way: Way) -> _Of:
    return way.rule.name, way.placed.part, way.plug.kind.value


def _lacks(stands: _Stands) -> bool:
    return stands[0] < -ALLOWED_MM


def _search(now_mm: float) -> _Search:
    """Look for the end of the clear stretch that holds a radius, or of one below."""
    stands = yield now_mm
    if _lacks(stands):
        return (yield from _down(now_mm, stands))
    low_mm, stride_mm = now_mm, 0.5
    while low_mm < LIMIT_MM:
        spare_mm = stands[0]
        # what limits a cable may lie where its bend does not grow to
        high_mm = min(LIMIT_MM, low_mm + max(spare_mm + _JUST_MM, stride_mm))
        stands = yield high_mm
        if _lacks(stands):
            between = low_mm, high_mm
            low_mm, limit = yield from _halved(between, stands, spare_mm=spare_mm)
            return max(down_to_grid(low_mm), min(low_mm, now_mm)), limit
        low_mm, stride_mm = high_mm, 2.0 * stride_mm
    return None, None


def _down(now_mm: float, stands: _Stands) -> _Search:
    """Look for the largest radius below one that has no room."""
    high_mm, last, step_mm = now_mm, stands, 1.0
    while high_mm > _LEAST_MM:
        low_mm = max(_LEAST_MM, high_mm - step_mm)
        stands = yield low_mm
        if not _lacks(stands):
            between = low_mm, high_mm
            low_mm, limit = yield from _halved(between, last, spare_mm=stands[0])
            return down_to_grid(low_mm), limit
        high_mm, last, step_mm = low_mm, stands, 2.0 * step_mm
    return None, last[1]


def _halved(
    between: tuple[float, float], stands: _Stands, *, spare_mm: float
) -> Generator[float, _Stands, tuple[float, _Limit | None]]:
    """Look between a clear radius and one that has no room.

    Most bends grow straight towards what limits them: first just by what is to spare,
    then just past that, which ends the search.
    """
    low_mm, high_mm = between
    limit, guess_mm = stands[1], low_mm + spare_mm - FINE_MM / 2
    wide_mm = math.inf
    while high_mm - low_mm > FINE_MM:
        ends = low_mm < guess_mm <= low_mm + FINE_MM
        # where a guess left more than half, the middle is asked
        halved = high_mm - low_mm <= wide_mm / 2
        inside = low_mm < guess_mm < high_mm and (halved or ends)
        wide_mm = high_mm - low_mm
        middle_mm = guess_mm if inside else (low_mm + high_mm) / 2
        stands = yield middle_mm
        if _lacks(stands):
            high_mm, limit, guess_mm = middle_mm, stands[1], low_mm
        else:
            low_mm, guess_mm = middle_mm, _guess(middle_mm, stands[0])
    return low_mm, limit


def _guess(low_mm: float, spare_mm: float) -> float:
    """Return where the end may lie: just before it or, from just there, past it."""
    near = spare_mm < FINE_MM - _JUST_MM
    return low_mm + spare_mm + (_JUST_MM if near else -FINE_MM / 2)
