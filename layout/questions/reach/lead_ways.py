"""The shortest ways of a supply's or drive's leads to the plugs that they serve."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from layout.build.placed import Build, PlacedLead, PlacedPlug
from layout.geometry.space import Axis, Vector
from layout.geometry.ways.routes import rounded_mm
from layout.parts.form.link import sheet_link
from layout.parts.wiring.plug import cable_of
from layout.questions.findings.bearing import NOTHING, Bearing
from layout.questions.findings.passages import Passages, ahead
from layout.questions.reach.drift import Moved, drifts, leaving, pulls
from layout.questions.reach.openings import why_shut
from layout.questions.reach.plug_end import WIRE_RADII, plug_ends
from layout.questions.reach.slack import asked_slack
from layout.standards.figure import Figure
from layout.values import dataclass

__all__ = [
    "LeadWay",
    "lead_length",
    "lead_ways",
    "moved_by",
    "rule_of",
    "slack_of_mm",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class LeadWay:
    """A lead's way from its start to a plug; what each of its corners rests on."""

    lead: PlacedLead
    length: Figure
    plug: PlacedPlug
    points: tuple[Vector, ...]
    mm: float
    turns: bool
    bearing: tuple[Bearing, ...]

    @property
    def spare_mm(self) -> float:
        """Return the lead's length less its way."""
        return self.length.mm - self.mm


def lead_ways(
    build: Build, lead: PlacedLead, space: Passages
) -> Iterator[LeadWay | str]:
    """Yield the way to each plug that a lead serves, or why there is none.

    A lead of several plugs goes from the nearest to the next one; where that is too
    far, or it has no plug left, another lead like it is taken.
    """
    left = _served(build, lead)
    slack_mm = slack_of_mm(build, lead)
    anew = _starts(build, lead, space)
    starts, used, leads = anew, 0, 1
    while left:
        fresh = _nearest(lead, anew, left, space=space, chained=False)
        if fresh is None:
            plugs = [plug for same in left.values() for plug in same]
            reason = why_shut(build, space, start=anew[0][0][-1], plugs=plugs)
            yield f"{lead.part}: no way for its {lead.lead.name} {reason}"
            return
        on = _nearest(lead, starts, left, space=space, chained=True) if used else None
        if used and (
            on is None
            or (on.spare_mm < slack_mm <= fresh.spare_mm and leads < lead.lead.leads)
        ):
            on, used, leads = None, 0, leads + 1
        best = on or fresh
        yield best
        if lead.lead.from_plug:
            return  # one socket is enough for it, the nearest
        del left[best.plug.name]
        used = (used + 1) % lead.lead.plugs
        leads += int(used == 0)
        starts = _from(best.plug, space) if used else anew


def _served(build: Build, lead: PlacedLead) -> dict[str, list[PlacedPlug]]:
    """Return the plugs that a lead can serve; a drive's may be at either end.

    Of a drive's own lead both ends are plugs: it goes to a board or a card.
    """
    starts = {
        each.part
        for each in build.leads
        if each.lead.from_plug and each.lead.kinds & lead.lead.kinds
    }
    left: dict[str, list[PlacedPlug]] = {}
    for plug in build.plugs:
        own = lead.lead.from_plug and plug.part in starts
        same = plug.part == lead.part or own
        if plug.plug.kind in lead.lead.kinds and not same:
            left.setdefault(plug.name, []).append(plug)
    return _with_sockets(build, lead, left) if lead.lead.from_plug else left


def _with_sockets(
    build: Build, lead: PlacedLead, left: dict[str, list[PlacedPlug]]
) -> dict[str, list[PlacedPlug]]:
    """Return the plugs of the one part that has a socket left for a drive's own lead.

    Board and cards are filled in the file's order, drives likewise; where a part does
    not count its sockets it has one for each.
    """
    known = dict(build.hookups)
    before = [each.part for each in build.leads if each.lead.kinds == lead.lead.kinds]
    rank = before.index(lead.part)
    for part in dict.fromkeys(plug.part for same in left.values() for plug in same):
        own = known.get(part)
        if own is None or lead.lead.kinds & own.unsaid:
            return left
        count = sum(n for kind, n in own.offers if kind in lead.lead.kinds)
        if rank < count:
            return {k: e for k, e in left.items() if e[0].part == part}
        rank -= count
    return {}  # the ledger tells that none is left


def _nearest(
    lead: PlacedLead,
    starts: list[_Start],
    left: dict[str, list[PlacedPlug]],
    *,
    space: Passages,
    chained: bool,
) -> LeadWay | None:
    """Return the shortest way to any of the plugs, to one with room to turn first."""
    ways = (
        _way(lead, (start, end), plug, space=space, chained=chained)
        for plugs in left.values()
        for plug in plugs
        for end in plug_ends(plug, space)
        for start in starts
    )
    return min(
        (way for way in ways if way),
        key=lambda way: (not way.turns, way.mm),
        default=None,
    )


def slack_of_mm(build: Build, lead: PlacedLead) -> float:
    """Return what a lead needs beyond its way."""
    return asked_slack(build, rule_of(lead))[0]


def rule_of(lead: PlacedLead) -> str:
    """Return the name of the rule that asks for a lead's reach."""
    return f"{lead.lead.name.replace(' ', '-')}-reach"


_Start: TypeAlias = tuple[tuple[Vector, ...], Bearing]
"""The first points of a lead's way, and what their place rests on."""


def _starts(build: Build, lead: PlacedLead, space: Passages) -> list[_Start]:
    """Return the first points of a lead's way."""
    if lead.lead.from_plug:
        return [
            start
            for plug in build.plugs
            if plug.part == lead.part and plug.plug.kind in lead.lead.kinds
            for start in _from(plug, space)
        ]
    at = lead.lead.at_mm
    turn = ahead(at, lead.lead.out, lead.lead.ahead_mm + _FIRST_MM)
    if not space.holds(turn):
        turn = ahead(at, lead.lead.out, lead.lead.ahead_mm)
    return [((at, turn), leaving(build, lead.name, lead.lead.out))]


def _from(plug: PlacedPlug, space: Passages) -> list[_Start]:
    rests_on = Bearing(plug.chain, plug.plug.out.vector)
    return [(end, rests_on) for end in plug_ends(plug, space)]


_FIRST_MM = 10.0
"""From the plugs at the supply to where a lead can turn."""


def _way(
    lead: PlacedLead,
    ends: tuple[_Start, tuple[Vector, ...]],
    plug: PlacedPlug,
    *,
    space: Passages,
    chained: bool,
) -> LeadWay | None:
    (start, rests_on), end = ends
    between = space.way(plug.plug, start[-1], end[-1])
    if between is None:
        return None
    points = (*start[:-1], *between, *end[-2::-1])
    length = lead.lead.length
    if chained and lead.lead.between is not None:
        length = lead.lead.between
    radius_mm = WIRE_RADII * cable_of(plug.plug).wire_mm
    turns = len(start) > 1 and len(end) > 1
    return LeadWay(
        lead=lead,
        length=length,
        plug=plug,
        points=points,
        mm=rounded_mm(points, radius_mm),
        turns=turns,
        bearing=(
            *[rests_on] * len(start),
            *(space.bearing.get(at, NOTHING) for at in between[1:-1]),
            *[Bearing(plug.chain, plug.plug.out.vector)] * len(end),
        ),
    )


def moved_by(way: LeadWay) -> tuple[Moved, ...]:
    """Return every figure that the spare length rests on."""
    corners = zip(way.bearing, pulls(way.points), strict=True)
    return (*lead_length(way), *drifts(corners))


def lead_length(way: LeadWay) -> tuple[Moved, ...]:
    """Return the lead's length as a figure that moves the gap whatever its axis."""
    lead = way.lead.lead.name
    name, tape = f"{lead}'s length", "where it leaves its part to its plug's wire side"
    if way.length is way.lead.lead.between:
        name, tape = f"{lead}, plug to plug", "one plug to the next, wire sides"
    entry = "data lead" if way.lead.lead.from_plug else "leads"
    tape = f"{lead}, from {tape}"
    link = sheet_link(name, way.length, *Axis, tape=tape, entry=entry)
    return (Moved(way.lead.part, link, link.plus_minus_mm[0]),)
