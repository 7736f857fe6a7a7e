"""Which header each lead of a fan, or of the case's front, is led to, and its way."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field
from itertools import pairwise, starmap
from typing import Final, TypeAlias

from layout.build.placed import Build, PlacedPlug
from layout.geometry.space import Axis, Direction, Vector
from layout.geometry.ways.routes import rounded_mm
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import Plug
from layout.parts.wiring.hookup import HEADERS, Counts, Hookup
from layout.parts.wiring.plug import cable_of
from layout.questions.findings.passages import Passages
from layout.questions.reach.header_leads import FANS, HeaderLead
from layout.questions.reach.plug_end import WIRE_RADII, plug_ends
from layout.values import dataclass

__all__ = ["HeaderWay", "Matched", "matched"]

_OUTLET_MM: Final = (10.0, 6.0)
"""Section of a plug in a splitter: about that of a fan's."""


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
        Those left to splitters whose place no file gives.
    closed : tuple of HeaderLead
        Those that no way leads to any header.
    """

    ways: tuple[HeaderWay, ...]
    hubbed: tuple[HeaderLead, ...] = ()
    closed: tuple[HeaderLead, ...] = ()


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
    sets = [FANS if each.kind in FANS else frozenset({each.kind}) for each in leads]
    return list(dict.fromkeys(sets))


def _sockets(
    build: Build, kinds: frozenset[ConnectorKind], wanted: int
) -> list[PlacedPlug]:
    """Return a board's headers of some kinds, each as often as it may be taken.

    Where no file counts them, there are as many as are wanted at the usual places;
    what splitters take that have no place is left out, from the end.  Those that have
    one offer their outlets there.
    """
    by_part = dict(build.hookups)
    plugs = [
        each
        for each in build.plugs
        if each.plug.kind in kinds & HEADERS
        for own in [by_part.get(each.part, Hookup())]
        if own.provides or _count(own.offers, kinds)
    ]
    placed = list(_placed_outlets(build, kinds))
    if not plugs:
        return placed
    offering = [by_part[part] for part in dict.fromkeys(each.part for each in plugs)]
    if any(kinds & each.unsaid for each in offering):
        return [*plugs * wanted, *placed]
    taken = sum(
        _count(each.demands, kinds)
        for _, each in build.hookups
        if each.outlets and each.from_mm is None
    )
    there = sum(_count(each.offers, kinds) for each in offering)
    rounds = math.ceil(there / len(plugs))
    return [*(plugs * rounds)[: max(0, there - taken)], *placed]


def _placed_outlets(
    build: Build, kinds: frozenset[ConnectorKind]
) -> Iterator[PlacedPlug]:
    """Yield the outlets of splitters whose place a file gives."""
    for part, each in build.hookups:
        outlets = each.outlets
        if outlets is None or each.from_mm is None or outlets.kind not in kinds:
            continue
        plug = Plug(
            name="",
            kind=outlets.kind,
            at_mm=each.from_mm,
            out=Direction.PANEL if each.from_mm[2] >= 0.0 else Direction.TRAY,
            along=Axis.DEPTH,
            size_mm=_OUTLET_MM,
        )
        yield from [PlacedPlug(part=part, plug=plug, chain=())] * outlets.count


def _outlets(build: Build, kinds: frozenset[ConnectorKind]) -> int:
    """Return how many outlets there are of splitters without a place."""
    every = (
        each.outlets
        for _, each in build.hookups
        if each.outlets and each.from_mm is None
    )
    return sum(each.count for each in every if each.kind in kinds)


def _count(counts: Counts, kinds: frozenset[ConnectorKind]) -> int:
    return sum(count for kind, count in counts if kind in kinds)


@dataclass(frozen=True, slots=True)
class _Least:
    """What a socket must give a lead to be taken: room to turn, a length for sure."""

    turning: bool
    sure: bool


_LEAST: Final = (
    _Least(turning=True, sure=True),
    _Least(turning=True, sure=False),
    _Least(turning=False, sure=False),
)
"""The best sockets are shared out first."""


@dataclass(frozen=False, eq=False, slots=True)
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
        hubs = {each.part for each in self.sockets}
        every = range(len(self.leads))
        # A splitter without a header feeds nothing: its own lead comes first.
        self._share([k for k in every if self.leads[k].part in hubs])
        self._share([k for k in every if self.leads[k].part not in hubs])
        found = ((lead, self._way(lead, s)) for s, lead in self._holds.items())
        return [way for _, way in sorted(found, key=lambda each: each[0]) if way]

    def _share(self, leads: Sequence[int]) -> None:
        """Give leads a socket each that they reach, else the nearest that is free."""
        for least in _LEAST:
            for lead in leads:
                if lead not in self._holds.values():
                    self._seat(lead, set(), least)
        for lead in leads:
            if lead in self._holds.values():
                continue
            free = [s for s in self._nearest_first(lead) if s not in self._holds]
            ways = [(way.mm, s) for s in free if (way := self._way(lead, s))]
            if ways:
                self._holds[min(ways)[1]] = lead

    def _seat(self, lead: int, tried: set[int], least: _Least) -> bool:
        """Give a lead a socket that it reaches; who has it looks for another."""
        for socket in self._nearest_first(lead):
            if socket in tried or not self._reaches(lead, socket, least):
                continue
            tried.add(socket)
            holder = self._holds.get(socket)
            if holder is None or self._seat(holder, tried, least):
                self._holds[socket] = lead
                return True
        return False

    def _nearest_first(self, lead: int) -> list[int]:
        def crow_mm(socket: int) -> float:
            end = self.sockets[socket].plug.at_mm
            return min(math.dist(start, end) for start in self.leads[lead].starts_mm)

        part = self.leads[lead].part
        others = [s for s, each in enumerate(self.sockets) if each.part != part]
        return sorted(others, key=crow_mm)

    def _reaches(self, lead: int, socket: int, least: _Least) -> bool:
        way = self._way(lead, socket)
        if way is None:
            return False
        length = self.leads[lead].length
        scatter_mm = (length.plus_minus_mm or 0.0) if least.sure else 0.0
        slack_mm = self.slacks_mm[self.leads[lead].kind]
        return way.spare_mm >= slack_mm + scatter_mm and (
            way.turns or not least.turning
        )

    def _way(self, lead: int, socket: int) -> HeaderWay | None:
        plug = self.sockets[socket]
        key = (lead, plug.plug.at_mm)
        if key not in self._known:
            self._known[key] = _way(self.leads[lead], plug, self.space)
        return self._known[key]


def _way(lead: HeaderLead, plug: PlacedPlug, space: Passages) -> HeaderWay | None:
    """Return the shortest way to a header from anywhere the lead may leave."""
    best: _Taut | None = None
    for end in plug_ends(plug, space):
        best = _shorter(lead, plug, space, end=end, best=best)
    if best is None:
        return None
    _, points, turns = best
    radius_mm = WIRE_RADII * cable_of(plug.plug).wire_mm
    return HeaderWay(
        lead=lead,
        plug=plug,
        points=points,
        mm=rounded_mm(points, radius_mm),
        turns=turns,
    )


_Taut: TypeAlias = tuple[float, tuple[Vector, ...], bool]
"""A way's length without its bends, its corners, whether it turns at its plug."""


def _shorter(
    lead: HeaderLead,
    plug: PlacedPlug,
    space: Passages,
    *,
    end: tuple[Vector, ...],
    best: _Taut | None,
) -> _Taut | None:
    """Return the shortest way to a plug's end, or the best so far if none is shorter.

    The start nearest as the crow flies need not be the best: a part may stand before
    it.  One farther off than the way that is known cannot be better.
    """
    open_ = [each for each in lead.starts_mm if space.holds(each)]
    starts = sorted(open_ or lead.starts_mm, key=lambda each: math.dist(each, end[-1]))
    for start in starts:
        if best is not None and math.dist(start, end[-1]) >= best[0]:
            break
        between = space.way(plug.plug, start, end[-1]) or ()
        mm = sum(starmap(math.dist, pairwise(between)))
        if between and (best is None or mm < best[0]):
            best = mm, (*between, *end[-2::-1]), len(end) > 1
    return best
