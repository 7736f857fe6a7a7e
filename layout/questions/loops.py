"""Liquid loops: whether the hoses reach, and where the air in them gathers."""

from __future__ import annotations

from typing import Final

from layout.build.placed import Build, PlacedBody
from layout.geometry.body import Body
from layout.geometry.query import relation
from layout.geometry.space import Box, Direction
from layout.parts.form import Role
from layout.parts.hoses import HOSE_LENGTH
from layout.questions.answered import Answered, finding_of, joined
from layout.questions.finding import Group, Verdict

__all__ = ["hose_reach", "pump_height"]

_RULE: Final = "hoses-reach"
_WHY: Final = "both hoses must reach from the pump block to the radiator's ports"
_AIR: Final = (
    "air gathers at the highest point of the loop, and a pump that draws it is loud "
    "and wears: mount the radiator so that its upper end lies higher"
)


def hose_reach(build: Build, *, every: bool) -> Answered:
    """Return whether hoses whose length is told can reach, as the crow flies."""
    pumps = [each for each in build.bodies if each.role is Role.PUMP_BLOCK]
    return joined([_reach(build, each, every=every) for each in pumps])


def _reach(build: Build, pump: PlacedBody, *, every: bool) -> Answered:
    own = [each for each in build.bodies if each.part == pump.part]
    ends = [each for each in own if each.role is Role.HOSE]
    told = [
        link.figure.mm
        for each in ends
        for _, link in each.chain
        if link.label == HOSE_LENGTH
    ]
    radiator = next((each for each in own if each.role is Role.RADIATOR), None)
    if not told or radiator is None:
        return Answered()
    straight_mm = _apart_mm(pump.body, radiator.body)
    names = (pump.name, radiator.name)
    if straight_mm <= told[0]:
        found = finding_of(_RULE, Group.REACH, names, verdict=Verdict.CLEAR, why=_WHY)
        return Answered(findings=(found,) if every else ())
    lacks_mm = straight_mm - told[0]
    found = finding_of(
        _RULE,
        Group.REACH,
        names,
        verdict=Verdict.MISSING,
        why=_WHY,
        advice=(
            f"the hoses are {told[0]:g} mm long and {straight_mm:.0f} lie between "
            f"block and radiator as the crow flies; {lacks_mm:.0f} mm lack: turn the "
            "radiator end for end, take another mount, or longer hoses"
        ),
    )
    return Answered(findings=(found,))


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
