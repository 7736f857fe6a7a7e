"""Liquid loops: whether the hoses reach, and where the air in them gathers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from layout.build.placed import Build, PlacedBody
from layout.geometry.bodies.body import Body
from layout.geometry.relations.query import relation
from layout.geometry.space import Box, Direction
from layout.parts.form.form import Role
from layout.parts.wiring.hoses import HOSE_LENGTH
from layout.questions.findings.advice import spoken
from layout.questions.findings.answered import Answered, finding_of, joined, listed
from layout.questions.findings.finding import Finding, Group, Verdict
from layout.questions.findings.remedy import HOSES_APART, HOSES_SHORT
from layout.questions.findings.tolerance import RSS, Stacking
from layout.questions.reach.led import Led
from layout.questions.reach.slack import Slack, asked_slack, passing
from layout.standards.figure import COMMON_PRACTICE

if TYPE_CHECKING:  # loaded where a build has a pump, which few have
    from layout.questions.reach.drift import Moved
    from layout.questions.reach.hoses import Hoses

__all__ = ["HOSE_REACH", "hose_led", "hose_reach", "pump_height"]

HOSE_REACH: Final = "hoses-reach"
_WHY: Final = "both hoses must reach from the pump block to the radiator's ports"
_SOURCE: Final = f"a hose that pulls at its fitting may leak: {COMMON_PRACTICE}"
_AIR: Final = (
    "air gathers at the highest point of the loop, and a pump that draws it is loud "
    "and wears: mount the radiator so that its upper end lies higher"
)


def hose_reach(build: Build, *, every: bool, stacking: Stacking = RSS) -> Answered:
    """Return whether hoses reach on their shortest ways, bends at their least radius.

    Where no way is known (no case, ports not told), hoses whose length is told are
    held against the straight line.
    """
    led = {each.pump.name: each for each in _hoses(build)}
    answers = []
    for pump in build.bodies:
        if pump.role is not Role.PUMP_BLOCK:
            continue
        hoses = led.get(pump.name)
        if hoses is None:
            answers.append(_reach(build, pump, every=every))
        else:
            found = _finding if len(hoses.ways) == _BOTH else _no_way
            answers.append(Answered(findings=(found(build, hoses, stacking),)))
    return joined(answers)


_BOTH: Final = 2


def _hoses(build: Build) -> Iterator[Hoses]:
    """Yield the hoses of every pump; their search is loaded for builds with one."""
    if any(each.role is Role.PUMP_BLOCK for each in build.bodies):
        from layout.questions.reach.hoses import hoses_of  # noqa: PLC0415 (few builds)

        yield from hoses_of(build)


def hose_led(build: Build) -> Iterator[tuple[str, Led]]:
    """Yield the id of every such finding with the way of the hose that has least.

    Where no way was found, that is the straight line.
    """
    for hoses in _hoses(build):
        known = len(hoses.ways) == _BOTH
        way = max(hoses.ways, key=lambda each: each.mm) if known else hoses.straight
        yield (
            (_finding if known else _no_way)(build, hoses, RSS).id,
            Led(
                part=hoses.pump.part,
                name="hose",
                plug=hoses.radiator.name,
                length_mm=hoses.length.mm,
                points=way.points,
                mm=way.mm,
                moved=_moved(hoses),
                holes=(*hoses.laid.holes, *hoses.opened),
            ),
        )


def _moved(hoses: Hoses) -> tuple[Moved, ...]:
    """Return what the spare length of the hose that has least rests on."""
    from layout.questions.reach.hose_drift import hose_moved, way_unknown  # noqa: PLC0415

    if len(hoses.ways) < _BOTH:
        return way_unknown(hoses)
    return hose_moved(hoses, max(hoses.ways, key=lambda each: each.mm))


def _no_way(build: Build, hoses: Hoses, stacking: Stacking) -> Finding:
    """Return the length of hoses for which no way is known, less the straight line.

    Too short for that, they are too short for any way.  Else the way may take as much
    as the whole hose, for all that is known: never clear.
    """
    straight_mm, need_mm = hoses.straight.mm, _need_mm(build)
    name = _named(hoses)
    found = _against(
        build,
        hoses,
        straight_mm,
        why=f"{_none_found(hoses)}, every bend {hoses.bend_mm:.0f} inside; "
        f"the straight line takes {straight_mm:.0f} mm of {hoses.length.mm:.0f}",
        beyond=f" even for the straight line of {straight_mm:.0f} mm with "
        f"{need_mm:.0f} of slack",
        stacking=stacking,
    )
    if found.verdict.fails:
        return found
    return replace(
        found,
        advice=f"measure first: no way was found for {name} with every bend "
        f"{hoses.bend_mm:.0f} mm inside: lay them out; not tried here: "
        f"{HOSES_SHORT.told}",
    )


def _none_found(hoses: Hoses) -> str:
    if not hoses.crosses:
        return "no way found past what stands between"
    diameter_mm = 2 * (hoses.radius_mm - hoses.bend_mm)
    return (
        f"no way found for both through the tray, each {diameter_mm:.1f} wide and in "
        "a cut-out with room for it"
    )


def _finding(build: Build, hoses: Hoses, stacking: Stacking) -> Finding:
    """Return the length of the hoses less the longer way of both, against the slack."""
    way_mm, length = max(way.mm for way in hoses.ways), hoses.length
    alone = (
        ""
        if hoses.laid.apart
        else ", each led alone: no way of one past the other was found"
    )
    names = [each.name for each in (*hoses.laid.holes, *hoses.opened)]
    through = f" through {listed(names)}," if names else ""
    return _against(
        build,
        hoses,
        way_mm,
        why=f"{way_mm:.0f} mm of {length.mm:.0f}{through} with every bend "
        f"{hoses.bend_mm:.0f} inside, past memory, card and fans{alone}",
        beyond=f": their shortest way takes {way_mm:.0f} mm and {_need_mm(build):.0f} "
        "of slack",
        stacking=stacking,
    )


def _against(
    build: Build, hoses: Hoses, mm: float, *, why: str, beyond: str, stacking: Stacking
) -> Finding:
    """Return the length of the hoses less what they must span, against the slack."""
    pump, radiator, name = hoses.pump.name, hoses.radiator.name, _named(hoses)
    _, taken = passing(hoses.laid.holes)
    spare_mm, need_mm = hoses.length.mm - mm, _need_mm(build)
    return Slack(
        rule=HOSE_REACH,
        id=f"{HOSE_REACH}:{pump}:{radiator}",
        a=pump,
        b=radiator,
        why=f"{why}; {_WHY}",
        source="given in the file" if HOSE_REACH in dict(build.needs) else _SOURCE,
        spare_mm=spare_mm,
        need_mm=need_mm,
        moved=_moved(hoses),
        has=f"{name} have",
        remedy=f"{name} are {need_mm - spare_mm:.0f} mm too short{beyond}: "
        f"{HOSES_SHORT.told}",
        helps=HOSES_SHORT,
        taken=taken,
        lead="hose",
    ).finding(stacking)


def _need_mm(build: Build) -> float:
    return asked_slack(build, HOSE_REACH)[0]


def _named(hoses: Hoses) -> str:
    return f"the hoses of {spoken(hoses.pump.part)}"


def _reach(build: Build, pump: PlacedBody, *, every: bool) -> Answered:
    own = [each for each in build.bodies if each.part == pump.part]
    ends = [each for each in own if each.role is Role.HOSE]
    lengths_mm = [
        link.figure.mm
        for each in ends
        for _, link in each.chain
        if link.label == HOSE_LENGTH
    ]
    radiator = next((each for each in own if each.role is Role.RADIATOR), None)
    if not lengths_mm or radiator is None:
        return Answered()
    straight_mm = _apart_mm(pump.body, radiator.body)
    names = (pump.name, radiator.name)
    if straight_mm <= lengths_mm[0]:
        found = finding_of(
            HOSE_REACH, Group.REACH, names, verdict=Verdict.CLEAR, why=_WHY
        )
        return Answered(findings=(found,) if every else ())
    lacks_mm = straight_mm - lengths_mm[0]
    found = finding_of(
        HOSE_REACH,
        Group.REACH,
        names,
        verdict=Verdict.MISSING,
        why=_WHY,
        advice=(
            f"the hoses are {lengths_mm[0]:g} mm long and {straight_mm:.0f} lie "
            f"between block and radiator as the crow flies; {lacks_mm:.0f} mm lack: "
            f"{HOSES_APART.told}"
        ),
    )
    return Answered(findings=(replace(found, remedy=HOSES_APART),))


def _apart_mm(pump: Body, radiator: Body) -> float:
    return relation(pump, radiator).gap_mm


def pump_height(build: Build, *, every: bool) -> Answered:
    """Return a caution for each pump that is the highest point of its loop."""
    del every
    notes = []
    for pump in build.bodies:
        if pump.role is not Role.PUMP_BLOCK:
            continue
        radiators = [
            each
            for each in build.bodies
            if each.role is Role.RADIATOR and each.part == pump.part
        ]
        up = build.stands.up
        if radiators and all(
            _top_mm(pump.body.bounds, up) >= _top_mm(each.body.bounds, up)
            for each in radiators
        ):
            notes.append(f"{pump.part}, caution: its pump is the highest point: {_AIR}")
    return Answered(notes=tuple(notes))


def _top_mm(box: Box, up: Direction) -> float:
    ends = box.high if up.sign > 0 else box.low
    return up.sign * ends[up.axis.index]
