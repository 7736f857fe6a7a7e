"""Does every lead of a fan, and of the case's front, reach its header with slack."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from layout.build.placed import Build
from layout.geometry.space import Axis, Vector
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.link import sheet_link
from layout.parts.wiring.hookup import family_of
from layout.questions.bends.bends import bends
from layout.questions.clearances.asked import CASE
from layout.questions.findings.advice import whose
from layout.questions.findings.answered import Answered, listed
from layout.questions.findings.bearing import NOTHING, Bearing
from layout.questions.findings.finding import Finding, ToOrder, Verdict
from layout.questions.findings.passages import Passages
from layout.questions.findings.tolerance import ALLOWED_MM, RSS, Stacking
from layout.questions.reach.drift import Moved, drifts, off_corner, pulls
from layout.questions.reach.header_leads import HeaderLead, header_leads
from layout.questions.reach.headers import HeaderWay, Matched, matched
from layout.questions.reach.led import Led
from layout.questions.reach.openings import why_shut
from layout.questions.reach.slack import Slack, asked_slack, passing

__all__ = ["HEADER_REACH_RULES", "header_led", "header_reach", "header_ways"]

_Kind = ConnectorKind
_RULES: Final[Mapping[ConnectorKind, str]] = MappingProxyType(
    {
        _Kind.FAN_4: "fan-lead-reach",
        _Kind.FAN_3: "fan-lead-reach",
        _Kind.LIGHT_5V: "light-lead-reach",
        _Kind.LIGHT_12V: "light-lead-reach",
        _Kind.FRONT_PANEL: "front-panel-reach",
        _Kind.AUDIO: "front-audio-reach",
        _Kind.USB_9: "usb-9-pin-reach",
        _Kind.USB_19: "usb-19-pin-reach",
        _Kind.USB_20: "usb-20-pin-reach",
    }
)
HEADER_REACH_RULES: Final = tuple(dict.fromkeys(_RULES.values()))


def header_reach(build: Build, space: Passages, stacking: Stacking) -> Answered:
    """Return for each part and kind its lead with the least to spare.

    What bends too near at the header that is left to a lead is told beside it.
    """
    leads = header_leads(build)
    found = matched(build, leads, space, slacks_mm=_slacks_mm(build))
    findings: list[Finding] = []
    orders: list[ToOrder] = []
    notes: dict[str, None] = {}
    for way in _least(found.ways):
        finding, taken = _finding(build, way, space, stacking=stacking)
        findings.append(finding)
        notes |= dict.fromkeys(f"assumed: {each}" for each in taken)
        if finding.verdict is Verdict.SHORT and not way.lead.length.assumed:
            what = f"extension lead, {way.lead.kind.value}"
            orders.append(ToOrder(what=what, owner=way.lead.part))
    return Answered(
        findings=(*findings, *_bent(build, found.ways, stacking)),
        notes=(*notes, *_unasked(build, space, found), *_taken(build, leads)),
        to_order=tuple(orders),
    )


def header_ways(build: Build, space: Passages) -> Iterator[tuple[HeaderWay, bool]]:
    """Yield the way of each lead to its header, and whether it is too short."""
    slacks_mm = _slacks_mm(build)
    for way in matched(build, header_leads(build), space, slacks_mm=slacks_mm).ways:
        yield way, way.spare_mm < slacks_mm[way.lead.kind] - ALLOWED_MM


def _slacks_mm(build: Build) -> dict[ConnectorKind, float]:
    return {kind: asked_slack(build, rule)[0] for kind, rule in _RULES.items()}


def header_led(build: Build, space: Passages) -> Iterator[tuple[str, Led]]:
    """Yield the id of every such finding with the way it was found by."""
    for way in _least([each for each, _ in header_ways(build, space)]):
        finding, _ = _finding(build, way, space, stacking=RSS)
        yield (
            finding.id,
            Led(
                part=way.lead.part,
                name=f"{way.lead.kind.value} lead",
                plug=way.plug.name,
                length_mm=way.lead.length.mm,
                points=way.points,
                mm=way.mm,
                moved=_moved(build, way, space),
                holes=space.used_by(way.points),
            ),
        )


def _least(ways: Sequence[HeaderWay]) -> list[HeaderWay]:
    """Return the way with the least to spare for each part and rule."""
    least: dict[tuple[str, str], HeaderWay] = {}
    for each in ways:
        key = (_RULES[each.lead.kind], each.lead.part)
        if key not in least or each.spare_mm < least[key].spare_mm:
            least[key] = each
    return list(least.values())


def _finding(
    build: Build, way: HeaderWay, space: Passages, *, stacking: Stacking
) -> tuple[Finding, tuple[str, ...]]:
    lead, plug = way.lead, way.plug
    rule = _RULES[lead.kind]
    need_mm, source = asked_slack(build, rule)
    through, taken = passing(space.used_by(way.points))
    name = f"{whose(lead.part)} {lead.kind.value} lead"
    slack = Slack(
        rule=rule,
        id=f"{rule}:{lead.part}:{plug.part}",
        a=lead.name,
        b=plug.name,
        why=f"{way.mm:.0f} mm of {lead.length.mm:.0f} {through} ({lead.kind.value}); "
        "no wire may pull at its plug",
        source=source,
        lead=f"{lead.kind.value} lead",
        spare_mm=way.spare_mm,
        need_mm=need_mm,
        moved=_moved(build, way, space),
        has=f"{name} has",
        remedy=f"{name} is {need_mm - way.spare_mm:.0f} mm too short for the nearest "
        f"header that is free, its shortest way taking {way.mm:.0f} mm and "
        f"{need_mm:.0f} of slack: order an extension, or take a hub that lies nearer",
        taken=taken,
    )
    return slack.finding(stacking), taken


def _moved(build: Build, way: HeaderWay, space: Passages) -> tuple[Moved, ...]:
    """Return the lead's length, then every figure that its way rests on."""
    lead, points = way.lead, way.points
    name = f"length of the {lead.kind.value} lead"
    tape = f"{lead.kind.value} lead, from where it leaves to its plug's wire side"
    link = sheet_link(name, lead.length, *Axis, tape=tape, entry=lead.entry)
    ended = 1 + way.turns
    bearing = (
        off_corner(build, lead.part, points[0]),
        *(space.bearing.get(at, NOTHING) for at in points[1:-ended]),
        *[Bearing(way.plug.chain, way.plug.plug.out.vector)] * ended,
    )
    corners = drifts(zip(bearing, pulls(points), strict=True))
    return (Moved(lead.part, link, link.plus_minus_mm[0]), *corners)


def _bent(
    build: Build, ways: Sequence[HeaderWay], stacking: Stacking
) -> tuple[Finding, ...]:
    """Return what the cable wants at headers that leave it no room to turn.

    Headers with room come first, so that no other was left; those that a file has
    placed are asked about with the board's other plugs.
    """
    cramped = {
        way.plug.plug.at_mm: replace(way.plug, plug=replace(way.plug.plug, spare=False))
        for way in ways
        if not way.turns and way.plug.plug.spare
    }
    if not cramped:
        return ()
    return bends(replace(build, plugs=tuple(cramped.values())), stacking=stacking)


def _unasked(build: Build, space: Passages, found: Matched) -> Iterator[str]:
    """Yield which leads' reach is not asked, and why."""
    for part in dict.fromkeys(each.part for each in found.hubbed):
        yield (
            f"{part}: leads that go to a splitter, whose place no file gives, reach "
            "it (not asked)"
        )
    alike = {(each.part, each.kind, each.starts_mm[0]): each for each in found.closed}
    why: dict[tuple[str, Vector], str] = {}
    told: dict[tuple[str, str], list[str]] = {}
    for part, kind, start in alike:
        if (part, start) not in why:
            of = family_of(kind)
            plugs = [each for each in build.plugs if each.plug.kind in of]
            why[part, start] = why_shut(build, space, start=start, plugs=plugs)
        told.setdefault((part, why[part, start]), []).append(kind.value)
    for (part, reason), kinds in told.items():
        leads = f"{listed(list(dict.fromkeys(kinds)))} lead{'s' * (len(kinds) > 1)}"
        yield f"{part}: no way for its {leads} {reason}"


def _taken(build: Build, leads: Sequence[HeaderLead]) -> Iterator[str]:
    """Yield what is taken for granted of leads and headers."""
    if any(each.part == CASE and each.usual for each in leads) and build.case_size_mm:
        yield (
            f"{CASE}: a front panel, 19-pin USB and audio lead, from the top's front "
            "end, as usual"
        )
