"""Does every lead reach its plug, with slack to spare, on the shortest way there is."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from layout.build.placed import Build, PlacedPlug
from layout.geometry.space import Vector
from layout.parts.wiring.plug import cable_of
from layout.questions.findings.advice import spoken
from layout.questions.findings.answered import Answered, joined
from layout.questions.findings.finding import Finding
from layout.questions.findings.passages import Passages, passages
from layout.questions.findings.readings import readings
from layout.questions.findings.tolerance import ALLOWED_MM, RSS, Stacking
from layout.questions.reach.crossing import CROSSING_RULE, Run, crossing
from layout.questions.reach.header_reach import (
    HEADER_REACH_RULES,
    header_led,
    header_reach,
    header_ways,
)
from layout.questions.reach.lead_ways import (
    LeadWay,
    lead_length,
    lead_ways,
    moved_by,
    rule_of,
    slack_of_mm,
)
from layout.questions.reach.led import Led
from layout.questions.reach.loops import HOSE_REACH, hose_led
from layout.questions.reach.plug_end import WIRE_RADII
from layout.questions.reach.slack import Slack, asked_slack, passing
from layout.values import dataclass

__all__ = ["REACH_RULES", "Route", "led", "reach", "routes"]

_WHY: Final = "no wire may pull at its plug"
REACH_RULES: Final = (
    "main-lead-reach",
    "processor-lead-reach",
    "card-lead-reach",
    "drive-lead-reach",
    "data-lead-reach",
    HOSE_REACH,
    CROSSING_RULE,
    *HEADER_REACH_RULES,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """A way as it is drawn: its corners, the radius that rounds them, its plug.

    A stiff one has that radius at every corner, others a smaller one on short legs.
    """

    name: str
    points: tuple[Vector, ...]
    radius_mm: float
    short: bool
    stiff: bool = False
    plug: PlacedPlug | None = None


def routes(build: Build) -> Iterator[Route]:
    """Yield the shortest way of every hose, and of leads to every plug they serve."""
    from layout.questions.reach.hoses import hoses_of  # noqa: PLC0415 (drawings alone ask)

    slack_mm = asked_slack(build, HOSE_REACH)[0]
    for hoses in hoses_of(build):
        for laid in hoses.ways:
            spare_mm = hoses.length.mm - laid.mm - slack_mm
            yield Route(
                name="hose",
                points=laid.points,
                radius_mm=hoses.radius_mm,
                short=spare_mm < -ALLOWED_MM,
                stiff=True,
            )
    space = passages(build) if build.plugs else None
    if space is None:
        return
    for lead in build.leads:
        slack_mm = slack_of_mm(build, lead)
        for way in lead_ways(build, lead, space):
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


def reach(
    build: Build,
    *,
    every: bool,
    stacking: Stacking = RSS,
    like: Passages | None = None,
) -> Answered:
    """Return for each lead its length less its shortest way, against the slack.

    Leads to which the case file shows no way make a note and no finding.  ``like`` is
    the space of a build that is mostly the same: it spares much of the search.
    """
    del every
    space = passages(build, like=like) if build.plugs else None
    if space is None:
        return Answered()
    findings: list[Finding] = []
    runs: list[Run] = []
    notes: dict[str, None] = {}
    for lead in build.leads:
        for way in lead_ways(build, lead, space):
            if isinstance(way, str):
                notes[way] = None
                continue
            name = lead.lead.name
            run = Run(part=lead.part, name=name, plug=way.plug, points=way.points)
            runs.append(run)
            found, taken = _finding(build, way, space, stacking=stacking)
            findings.append(found)
            notes |= dict.fromkeys(taken)
    led = Answered(findings=tuple(findings), notes=tuple(notes), space=space)
    return joined(
        [led, crossing(build, runs, stacking), header_reach(build, space, stacking)]
    )


def led(build: Build) -> Iterator[tuple[str, Led]]:
    """Yield the id of every finding of the group with the way it was found by."""
    yield from hose_led(build)
    space = passages(build) if build.plugs else None
    if space is None:
        return
    yield from header_led(build, space)
    for lead in build.leads:
        for way in lead_ways(build, lead, space):
            if not isinstance(way, str):
                found, _ = _finding(build, way, space, stacking=RSS)
                yield (
                    found.id,
                    Led(
                        part=lead.part,
                        name=lead.lead.name,
                        plug=way.plug.name,
                        length_mm=way.length.mm,
                        points=way.points,
                        mm=way.mm,
                        moved=moved_by(way),
                        holes=space.used_by(way.points),
                    ),
                )


def _finding(
    build: Build, way: LeadWay, space: Passages, *, stacking: Stacking
) -> tuple[Finding, tuple[str, ...]]:
    lead, plug = way.lead, way.plug
    rule = rule_of(lead)
    need_mm, source = asked_slack(build, rule)
    through, taken = passing(space.used_by(way.points))
    name = f"{spoken(lead.part)}'s {lead.lead.name}"
    slack = Slack(
        rule=rule,
        id=f"{rule}:{lead.part}:{plug.part}",
        a=lead.name,
        b=plug.name,
        why=f"{way.mm:.0f} mm of {way.length.mm:.0f} {through}; {_WHY}",
        source=source,
        lead=lead.lead.name,
        spare_mm=way.spare_mm,
        need_mm=need_mm,
        moved=moved_by(way),
        has=f"{name} has",
        remedy=f"{name} is {need_mm - way.spare_mm:.0f} mm too short for "
        f"{spoken(plug.name)}, its shortest way taking {way.mm:.0f} mm and "
        f"{need_mm:.0f} of slack: take a longer one made for this very supply, an "
        "extension, or a case with a cut-out nearer to the plug",
        taken=taken,
        readings=readings(
            tuple((each.owner, each.link) for each in lead_length(way)), None
        ),
    )
    return slack.finding(stacking), tuple(f"assumed: {each}" for each in taken)
