"""Which header each lead of a fan, or of the case's front, is led to, and its way."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass as changing
from dataclasses import field
from itertools import product
from typing import Final, TypeAlias

from layout.build.placed import Build, PlacedBody, PlacedPlug
from layout.geometry.routes import rounded_mm
from layout.geometry.space import Vector
from layout.parts.connector import ConnectorKind
from layout.parts.form import Role
from layout.parts.front_leads import USUAL_FRONT
from layout.parts.hookup import HEADERS, Counts, Hookup, family_of
from layout.parts.plug import cable_of
from layout.questions.asked import CASE
from layout.questions.passages import OFF_MM, Passages
from layout.questions.plug_end import WIRE_RADII, plug_end
from layout.standards.figure import Figure
from layout.values import dataclass

__all__ = ["HeaderLead", "HeaderWay", "Matched", "header_leads", "matched"]

_FANS: Final = family_of(ConnectorKind.FAN_4)
_TURNING: Final = frozenset({Role.FAN, Role.COOLER_FAN})


@dataclass(frozen=True, slots=True, kw_only=True)
class HeaderLead:
    """A lead that ends in a plug for a board's header.

    Parameters
    ----------
    part, name : str
        The part it belongs to, and the body it leaves.
    kind : ConnectorKind
        The plug it ends in.
    entry : str
        The field of its part that tells its length.
    starts_mm : tuple of Vector
        Where it may leave: a fan is turned so that its lead comes out where it is
        wanted, and of fans in a chain any may be the last.
    usual : bool
        Whether the file says nothing of the plug.
    """

    part: str
    name: str
    kind: ConnectorKind
    length: Figure
    entry: str
    starts_mm: tuple[Vector, ...]
    usual: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class HeaderWay:
    """A lead's shortest way to a header; ``turns`` where there is room to bend."""

    lead: HeaderLead
    plug: PlacedPlug
    points: tuple[Vector, ...]
    mm: float
    turns: bool

    @property
    def spare_mm(self) -> float:
        """Return the lead's length less its way."""
        return self.lead.length.mm - self.mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Matched:
    """Which lead goes where.

    Parameters
    ----------
    ways : tuple of HeaderWay
    hubbed : tuple of HeaderLead
        Those left to splitters, whose place no file gives.
    closed : tuple of HeaderLead
        Those that no way leads to any header.
    """

    ways: tuple[HeaderWay, ...]
    hubbed: tuple[HeaderLead, ...] = ()
    closed: tuple[HeaderLead, ...] = ()


def header_leads(build: Build) -> tuple[HeaderLead, ...]:
    """Return every lead of fans, pumps, lights and the case's front.

    Where a case file lists no plugs of its front, the usual ones are taken.
    """
    return tuple(
        lead
        for part, hookup in build.hookups
        if hookup.leads and not hookup.outlets
        for lead in _of_part(build, part, hookup)
    )


def _of_part(build: Build, part: str, hookup: Hookup) -> Iterator[HeaderLead]:
    front = part == CASE
    demands = hookup.demands or (USUAL_FRONT if front else ())
    lengths = {kind: (figure, entry) for kind, figure, entry in hookup.leads}
    for kind, count in demands:
        if kind not in lengths:
            continue
        own = [each for each in build.bodies if each.part == part]
        for name, starts_mm, pump in _sources(part, hookup, own, needs=(kind, count)):
            length, entry = lengths[kind]
            if pump and hookup.pump_lead is not None:
                length, entry = hookup.pump_lead, "pump lead"
            yield HeaderLead(
                part=part,
                name=name,
                kind=kind,
                length=length,
                entry=entry,
                starts_mm=starts_mm,
                usual=hookup.usual or (front and not hookup.demands),
            )


_Source: TypeAlias = tuple[str, tuple[Vector, ...], bool]
"""The body a lead leaves, where it may, and whether that is a pump."""


def _sources(
    part: str,
    hookup: Hookup,
    own: Sequence[PlacedBody],
    *,
    needs: tuple[ConnectorKind, int],
) -> Iterator[_Source]:
    """Yield where each lead of a kind starts.

    A pump has the first plug for fans; fewer plugs than fans are those of chains.
    """
    kind, count = needs
    if hookup.from_mm is not None:
        yield from [(part, (hookup.from_mm,), False)] * count
        return
    fans = [each for each in own if each.role in _TURNING]
    pumps = [each for each in own if each.role is Role.PUMP_BLOCK]
    if kind in _FANS and hookup.pump_lead is not None and pumps and count:
        yield pumps[0].name, _corners(pumps[:1]), True
        count -= 1
    fans = fans or pumps or [*own]
    for number in range(count if fans else 0):
        alone = count >= len(fans)
        last = [fans[min(number, len(fans) - 1)]] if alone else fans
        yield last[0].name if alone else part, _corners(last), False


def _corners(bodies: Sequence[PlacedBody]) -> tuple[Vector, ...]:
    """Return the corners of bodies, off each by half a lead."""
    out: list[Vector] = []
    for each in bodies:
        low, high = each.body.bounds.low, each.body.bounds.high
        x, y, z = ((a - OFF_MM, b + OFF_MM) for a, b in zip(low, high, strict=True))
        out += product(x, y, z)
    return tuple(out)


def matched(
    build: Build,
    leads: Sequence[HeaderLead],
    space: Passages,
    *,
    slacks_mm: Mapping[ConnectorKind, float],
) -> Matched:
    """Return the header of each lead, so that as many as can be reach theirs.

    Headers with room for the cable to turn come first, the nearest before others; a
    lead gives way to another where it reaches a header elsewhere too.
    """
    ways: list[HeaderWay] = []
    hubbed: list[HeaderLead] = []
    closed: list[HeaderLead] = []
    for kinds in _purposes(leads):
        some = [each for each in leads if each.kind in kinds]
        desk = _Desk(some, _sockets(build, kinds, len(some)), space, slacks_mm)
        found = desk.shared()
        ways += found
        rest = [each for each in some if all(way.lead is not each for way in found)]
        outlets = _outlets(build, kinds)
        hubbed += rest[:outlets]
        # Where all are taken the ledger tells what lacks.
        free = len(desk.sockets) > len(found)
        closed += rest[outlets:] if free else []
    return Matched(ways=tuple(ways), hubbed=tuple(hubbed), closed=tuple(closed))


def _purposes(leads: Sequence[HeaderLead]) -> list[frozenset[ConnectorKind]]:
    """Return the kinds that share headers: fans of 3 and 4 pins, else each its own."""
    sets = [_FANS if each.kind in _FANS else frozenset({each.kind}) for each in leads]
    return list(dict.fromkeys(sets))


def _sockets(
    build: Build, kinds: frozenset[ConnectorKind], wanted: int
) -> list[PlacedPlug]:
    """Return a board's headers of some kinds, each as often as it may be taken.

    Where no file counts them, there are as many as are wanted at the usual places;
    what splitters take is left out, from the end.
    """
    by_part = dict(build.hookups)
    plugs = [
        each
        for each in build.plugs
        if each.plug.kind in kinds & HEADERS
        and by_part.get(each.part, Hookup()).provides
    ]
    if not plugs:
        return []
    offering = by_part[plugs[0].part]
    if kinds & offering.unsaid:
        return plugs * wanted
    taken = sum(_count(h.demands, kinds) for _, h in build.hookups if h.outlets)
    there = _count(offering.offers, kinds)
    rounds = math.ceil(there / len(plugs))
    return (plugs * rounds)[: max(0, there - taken)]


def _outlets(build: Build, kinds: frozenset[ConnectorKind]) -> int:
    every = (each.outlets for _, each in build.hookups if each.outlets)
    return sum(each.count for each in every if each.kind in kinds)


def _count(counts: Counts, kinds: frozenset[ConnectorKind]) -> int:
    return sum(count for kind, count in counts if kind in kinds)


@changing(slots=True)
class _Desk:
    """Leads of one purpose, the sockets there are, and who has which so far."""

    leads: Sequence[HeaderLead]
    sockets: Sequence[PlacedPlug]
    space: Passages
    slacks_mm: Mapping[ConnectorKind, float]
    _holds: dict[int, int] = field(default_factory=dict)
    _known: dict[tuple[int, Vector], HeaderWay | None] = field(default_factory=dict)

    def shared(self) -> list[HeaderWay]:
        """Return a way for every lead that finds a socket."""
        for turning in (True, False):
            for lead in self._waiting():
                self._seat(lead, set(), turning=turning)
        for lead in self._waiting():
            free = [s for s in range(len(self.sockets)) if s not in self._holds]
            ways = [(way.mm, s) for s in free if (way := self._way(lead, s))]
            if ways:
                self._holds[min(ways)[1]] = lead
        found = ((lead, self._way(lead, s)) for s, lead in self._holds.items())
        return [way for _, way in sorted(found, key=lambda each: each[0]) if way]

    def _waiting(self) -> list[int]:
        held = set(self._holds.values())
        return [lead for lead in range(len(self.leads)) if lead not in held]

    def _seat(self, lead: int, tried: set[int], *, turning: bool) -> bool:
        """Give a lead a socket that it reaches; who has it looks for another."""
        for socket in self._nearest_first(lead):
            if socket in tried or not self._reaches(lead, socket, turning=turning):
                continue
            tried.add(socket)
            holder = self._holds.get(socket)
            if holder is None or self._seat(holder, tried, turning=turning):
                self._holds[socket] = lead
                return True
        return False

    def _nearest_first(self, lead: int) -> list[int]:
        def crow_mm(socket: int) -> float:
            end = self.sockets[socket].plug.at_mm
            return min(math.dist(start, end) for start in self.leads[lead].starts_mm)

        return sorted(range(len(self.sockets)), key=crow_mm)

    def _reaches(self, lead: int, socket: int, *, turning: bool) -> bool:
        way = self._way(lead, socket)
        slack_mm = self.slacks_mm[self.leads[lead].kind]
        if way is None or way.spare_mm < slack_mm:
            return False
        return way.turns or not turning

    def _way(self, lead: int, socket: int) -> HeaderWay | None:
        plug = self.sockets[socket]
        key = (lead, plug.plug.at_mm)
        if key not in self._known:
            self._known[key] = _way(self.leads[lead], plug, self.space)
        return self._known[key]


def _way(lead: HeaderLead, plug: PlacedPlug, space: Passages) -> HeaderWay | None:
    """Return the way from where a lead leaves nearest to the header."""
    end = plug_end(plug, space)
    open_ = [each for each in lead.starts_mm if space.holds(each)]
    start = min(open_ or lead.starts_mm, key=lambda each: math.dist(each, end[-1]))
    between = space.routes.shortest(start, end[-1])
    if between is None:
        return None
    points = (*between, *end[-2::-1])
    radius_mm = WIRE_RADII * cable_of(plug.plug).wire_mm
    return HeaderWay(
        lead=lead,
        plug=plug,
        points=points,
        mm=rounded_mm(points, radius_mm),
        turns=len(end) > 1,
    )
