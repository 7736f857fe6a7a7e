"""Does every lead reach its plug, with slack to spare, on the shortest way there is."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, TypeAlias

from layout.build.placed import Build, PlacedLead, PlacedPlug
from layout.geometry.routes import rounded_mm
from layout.geometry.space import Axis, Vector
from layout.parts.link import sheet_link
from layout.parts.plug import cable_of
from layout.questions.advice import spoken
from layout.questions.answered import Answered, joined
from layout.questions.bearing import NOTHING, Bearing
from layout.questions.crossing import CROSSING_RULE, Run, crossing
from layout.questions.drift import Moved, drifts, leaving, pulls
from layout.questions.finding import Finding
from layout.questions.header_reach import (
    HEADER_REACH_RULES,
    header_led,
    header_reach,
    header_ways,
)
from layout.questions.led import Led
from layout.questions.loops import hose_led
from layout.questions.openings import why_shut
from layout.questions.passages import Passages, ahead, passages
from layout.questions.plug_end import WIRE_RADII, plug_end
from layout.questions.readings import readings
from layout.questions.slack import Slack, passing
from layout.questions.tolerance import ALLOWED_MM
from layout.standards.figure import COMMON_PRACTICE, Figure
from layout.standards.supplies import NO_TENSION
from layout.values import dataclass

__all__ = ["REACH_RULES", "Route", "led", "reach", "routes"]

_SLACK_MM: Final = 20.0
_SOURCE: Final = f"no tension: {NO_TENSION}; slack: {COMMON_PRACTICE}"
_WHY: Final = "no wire may pull at its plug"
REACH_RULES: Final = (
    "main-lead-reach",
    "processor-lead-reach",
    "card-lead-reach",
    "drive-lead-reach",
    "data-lead-reach",
    "hoses-reach",
    CROSSING_RULE,
    *HEADER_REACH_RULES,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """A way as it is drawn: its corners, the radius that rounds them, its plug."""

    name: str
    points: tuple[Vector, ...]
    radius_mm: float
    short: bool
    plug: PlacedPlug | None = None


def routes(build: Build) -> Iterator[Route]:
    """Yield the shortest way of every hose, and of leads to every plug they serve."""
    from layout.questions.hoses import hoses_of  # noqa: PLC0415 (drawings alone ask)

    slack_mm = dict(build.needs).get("hoses-reach", _SLACK_MM)
    for hoses in hoses_of(build):
        for laid in hoses.ways:
            spare_mm = hoses.length.mm - laid.mm - slack_mm
            yield Route(
                name="hose",
                points=laid.points,
                radius_mm=hoses.radius_mm,
                short=spare_mm < -ALLOWED_MM,
            )
    space = passages(build) if build.plugs else None
    if space is None:
        return
    for lead in build.leads:
        slack_mm = _slack_mm(build, lead)
        for way in _ways(build, lead, space):
            if not isinstance(way, str):
                short = way.spare_mm < slack_mm - ALLOWED_MM
                yield _route(lead.lead.name, way.points, way.plug, short=short)
    for led, short in header_ways(build, space):
        name = f"{led.lead.kind.value} lead"
        yield _route(name, led.points, led.plug, short=short)


def _route(
    name: str, points: tuple[Vector, ...], plug: PlacedPlug, *, short: bool
) -> Route:
    radius_mm = WIRE_RADII * cable_of(plug.plug).wire_mm
    return Route(name=name, points=points, radius_mm=radius_mm, short=short, plug=plug)


def reach(build: Build, *, every: bool) -> Answered:
    """Return for each lead its length less its shortest way, against the slack.

    Leads to which the case file shows no way make a note and no finding.
    """
    del every
    space = passages(build) if build.plugs else None
    if space is None:
        return Answered()
    findings: list[Finding] = []
    runs: list[Run] = []
    notes: dict[str, None] = {}
    for lead in build.leads:
        for way in _ways(build, lead, space):
            if isinstance(way, str):
                notes[way] = None
                continue
            name = lead.lead.name
            run = Run(part=lead.part, name=name, plug=way.plug, points=way.points)
            runs.append(run)
            found, taken = _finding(build, way, space)
            findings.append(found)
            notes |= dict.fromkeys(taken)
    led = Answered(findings=tuple(findings), notes=tuple(notes))
    return joined([led, crossing(build, runs), header_reach(build, space)])


def led(build: Build) -> Iterator[tuple[str, Led]]:
    """Yield the id of every finding of the group with the way it was found by."""
    yield from hose_led(build)
    space = passages(build) if build.plugs else None
    if space is None:
        return
    yield from header_led(build, space)
    for lead in build.leads:
        for way in _ways(build, lead, space):
            if not isinstance(way, str):
                found, _ = _finding(build, way, space)
                yield (
                    found.id,
                    Led(
                        part=lead.part,
                        name=lead.lead.name,
                        plug=way.plug.name,
                        length_mm=way.length.mm,
                        points=way.points,
                        mm=way.mm,
                        moved=_moved(way),
                        holes=space.used_by(way.points),
                    ),
                )


def _ways(build: Build, lead: PlacedLead, space: Passages) -> Iterator[_Way | str]:
    """Yield the way to each plug that a lead serves, or why there is none.

    A lead of several plugs goes from the nearest to the next one; where that is too
    far, or it has no plug left, another lead like it is taken.
    """
    left = _served(build, lead)
    slack_mm = _slack_mm(build, lead)
    anew = _starts(build, lead, space)
    starts, used, leads = anew, 0, 1
    while left:
        fresh = _nearest(lead, anew, left, space=space, chained=False)
        if fresh is None:
            plugs = [plug for same in left.values() for plug in same]
            ends = [plug_end(each, space)[-1] for each in plugs]
            reason = why_shut(build, space, start=anew[0][0][-1], ends=ends)
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
        del left[best.plug.name]
        used = (used + 1) % lead.lead.plugs
        leads += int(used == 0)
        starts = [_from(best.plug, space)] if used else anew


def _served(build: Build, lead: PlacedLead) -> dict[str, list[PlacedPlug]]:
    """Return the plugs that a lead can serve; a drive's may be at either end."""
    left: dict[str, list[PlacedPlug]] = {}
    for plug in build.plugs:
        same = plug.part == lead.part or (lead.lead.from_plug and not plug.plug.name)
        if plug.plug.kind in lead.lead.kinds and not same:
            left.setdefault(plug.name, []).append(plug)
    return left


def _nearest(
    lead: PlacedLead,
    starts: list[_Start],
    left: dict[str, list[PlacedPlug]],
    *,
    space: Passages,
    chained: bool,
) -> _Way | None:
    """Return the shortest way to any of the plugs, to one with room to turn first."""
    ways = (
        _way(lead, start, plug, space=space, chained=chained)
        for plugs in left.values()
        for plug in plugs
        for start in starts
    )
    return min(
        (way for way in ways if way),
        key=lambda way: (not way.turns, way.mm),
        default=None,
    )


def _slack_mm(build: Build, lead: PlacedLead) -> float:
    return dict(build.needs).get(_rule(lead), _SLACK_MM)


def _rule(lead: PlacedLead) -> str:
    return f"{lead.lead.name.replace(' ', '-')}-reach"


_Start: TypeAlias = tuple[tuple[Vector, ...], Bearing]
"""The first points of a lead's way, and what their place rests on."""


def _starts(build: Build, lead: PlacedLead, space: Passages) -> list[_Start]:
    """Return the first points of a lead's way."""
    if lead.lead.from_plug:
        return [
            _from(plug, space)
            for plug in build.plugs
            if plug.part == lead.part and plug.plug.kind in lead.lead.kinds
        ]
    at = lead.lead.at_mm
    turn = ahead(at, lead.lead.out, lead.lead.ahead_mm + _FIRST_MM)
    if not space.holds(turn):
        turn = ahead(at, lead.lead.out, lead.lead.ahead_mm)
    return [((at, turn), leaving(build, lead.name, lead.lead.out))]


def _from(plug: PlacedPlug, space: Passages) -> _Start:
    return plug_end(plug, space), Bearing(plug.chain, plug.plug.out.vector)


_FIRST_MM = 10.0
"""From the plugs at the supply to where a lead can turn."""


def _way(
    lead: PlacedLead,
    begun: _Start,
    plug: PlacedPlug,
    *,
    space: Passages,
    chained: bool,
) -> _Way | None:
    (start, rests_on), end = begun, plug_end(plug, space)
    between = space.routes.shortest(start[-1], end[-1])
    if between is None:
        return None
    points = (*start[:-1], *between, *end[-2::-1])
    length = lead.lead.length
    if chained and lead.lead.between is not None:
        length = lead.lead.between
    radius_mm = WIRE_RADII * cable_of(plug.plug).wire_mm
    turns = len(start) > 1 and len(end) > 1
    return _Way(
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


def _finding(
    build: Build, way: _Way, space: Passages
) -> tuple[Finding, tuple[str, ...]]:
    lead, plug = way.lead, way.plug
    rule, need_mm = _rule(lead), _slack_mm(build, lead)
    through, taken = passing(space.used_by(way.points))
    name = f"{spoken(lead.part)}'s {lead.lead.name}"
    slack = Slack(
        rule=rule,
        id=f"{rule}:{lead.part}:{plug.part}",
        a=lead.name,
        b=plug.name,
        why=f"{way.mm:.0f} mm of {way.length.mm:.0f} {through}; {_WHY}",
        source="given in the file" if rule in dict(build.needs) else _SOURCE,
        spare_mm=way.spare_mm,
        need_mm=need_mm,
        moved=_moved(way),
        has=f"{name} has",
        remedy=f"{name} is {need_mm - way.spare_mm:.0f} mm too short for "
        f"{spoken(plug.name)}, its shortest way taking {way.mm:.0f} mm and "
        f"{need_mm:.0f} of slack: take a longer one made for this very supply, an "
        "extension, or a case with a cut-out nearer to the plug",
        taken=taken,
        readings=readings(tuple((each.owner, each.link) for each in _owned(way)), None),
    )
    return slack.finding(), tuple(f"assumed: {each}" for each in taken)


def _moved(way: _Way) -> tuple[Moved, ...]:
    """Return every figure that the spare length rests on."""
    corners = zip(way.bearing, pulls(way.points), strict=True)
    return (*_owned(way), *drifts(corners))


def _owned(way: _Way) -> tuple[Moved, ...]:
    """Return the lead's length as a figure that moves the gap whatever its axis."""
    name = f"{way.lead.lead.name}'s length"
    if way.length is way.lead.lead.between:
        name = f"{way.lead.lead.name}, plug to plug"
    tape = "where it leaves its part to the wire side of its plug"
    link = sheet_link(name, way.length, *Axis, tape=tape)
    return (Moved(way.lead.part, link, link.plus_minus_mm[0]),)
