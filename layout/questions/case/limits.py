"""Whether parts keep to what the case's data sheet states to fit.

Beside what the bodies say: a stated limit is the maker's word, told with things that
the program does not know, and a builder will be asked about it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from layout.build.placed import Build, PlacedBody, PlacedPart
from layout.geometry.space import Axis
from layout.parts.card import card_readings
from layout.parts.case import case_readings
from layout.parts.case.case_fields import Face
from layout.parts.case.case_inside import DISAGREE_MM
from layout.parts.case.case_limits import Limits
from layout.parts.cooling import cooler_readings
from layout.parts.drives.cage import OUT, Cage
from layout.parts.form.form import Link, Role
from layout.parts.form.link import link
from layout.questions.case.stated import UNITS, Stated
from layout.questions.clearances.asked import CASE
from layout.questions.findings.answered import Answered
from layout.questions.findings.finding import Verdict
from layout.questions.findings.readings import readings
from layout.questions.findings.remedy import Remedy
from layout.questions.findings.tolerance import RSS, Stacking, assumed_in
from layout.standards.fans import FRAMES
from layout.standards.figure import Figure
from layout.standards.radiators import CLASSES

__all__ = ["stated_limits"]

_TOLD_FAN_MM: Final = FRAMES[120].thickness.mm
"""Thickness of the front fans with which a longest card is told: the usual one."""


def stated_limits(build: Build, *, every: bool, stacking: Stacking = RSS) -> Answered:
    """Return a finding for each part over a stated limit.

    ``every`` adds those that keep to it.
    """
    if build.limits is None:
        return Answered()
    asked = (
        *_coolers(build, build.limits),
        *_cards(build, build.limits),
        *_supplies(build, build.limits),
        *_radiators(build, build.limits),
    )
    found = (each.finding(stacking) for each in asked)
    return Answered(
        findings=tuple(
            each for each in found if every or each.verdict is not Verdict.CLEAR
        )
    )


def _so(limit_mm: float, more_mm: float) -> str:
    """Return what a limit comes to here, where that is another one."""
    return f": {limit_mm + more_mm:g} here" if more_mm else ""


def _readings(body: PlacedBody, label: str) -> tuple[str, ...]:
    """Return what one figure of a part is measured from."""
    links = tuple(each for each in body.chain if each[1].label == label)
    return readings(links, None)


def _of_case(what: str, limit: Figure) -> tuple[str, ...]:
    """Return what a limit itself is measured from."""
    return readings(((CASE, link(what, limit)),), None)


def _reading(limit: Figure) -> str:
    return f", measured from {limit.restated.reading}" if limit.restated else ""


def _coolers(build: Build, limits: Limits) -> Iterator[Stated]:
    """Yield each cooler's highest point, told as the case tells its limit."""
    limit = limits.tallest_cooler
    from_role = Role.BOARD if limit and limit.restated else Role.PROCESSOR
    below = [each for each in build.bodies if each.role is from_role]
    if limit is None or not below:
        return
    floor_mm = below[0].body.bounds.high[Axis.WIDTH.index]
    limit_mm = limit.restated.mm if limit.restated else limit.mm
    for part in build.parts:
        bodies = _of(build, part, {Role.COOLER, Role.COOLER_FAN, Role.PUMP_BLOCK})
        if not bodies:
            continue
        top = max(bodies, key=lambda each: each.body.bounds.high[Axis.WIDTH.index])
        own = tuple(
            each
            for each in top.chain
            if each[0] == part.key and each[1].high[Axis.WIDTH.index]
        )
        size_mm = top.body.bounds.high[Axis.WIDTH.index] - floor_mm
        yield Stated(
            a=top.name,
            part=part.key,
            what="cooler height",
            size_mm=size_mm,
            limit_mm=limit_mm,
            told=f"tallest cooler {limit_mm:g}{_reading(limit)}",
            remedy=Remedy(
                "take a lower one", "ask the case's maker, or take another case"
            ),
            hint=_by_the_board(build, own, size_mm=size_mm, limit_mm=limit_mm),
            axis=Axis.WIDTH,
            rests_on=assumed_in(own, UNITS[Axis.WIDTH]),
            readings=(
                *readings(own, UNITS[Axis.WIDTH]),
                *_of_case("tallest cooler", limit),
            ),
        )


def _by_the_board(
    build: Build,
    own: tuple[tuple[str, Link], ...],
    *,
    size_mm: float,
    limit_mm: float,
) -> str:
    """Return that another reading of a cooler's height would keep to the limit."""
    usual = cooler_readings.HEIGHT.usual
    told = [
        link.figure
        for _, link in own
        if link.figure.reading == usual and link.figure.restated is None
    ]
    spreader = next((b for b in build.bodies if b.role is Role.PROCESSOR), None)
    if not told or spreader is None or size_mm <= limit_mm:
        return ""
    low, high = (
        end[Axis.WIDTH.index]
        for end in (spreader.body.bounds.low, spreader.body.bounds.high)
    )
    other_mm = size_mm - (high - low)
    if other_mm > limit_mm:
        return ""
    (other,) = (each.name for each in cooler_readings.HEIGHT.others)
    return (
        f"; if its data sheet measures from the {other}, its height is "
        f"{round(other_mm, 1):g} and keeps to the limit"
    )


def _cards(build: Build, limits: Limits) -> Iterator[Stated]:
    """Yield each card beside the longest that is stated, with what is in front."""
    limit = limits.longest_card
    if limit is None:
        return
    for part in build.parts:
        length = dict(part.stated).get("card length")
        bodies = _of(build, part, {Role.CARD})
        if length is None or not bodies:
            continue
        more_mm, with_what = _before(build, limits, bodies[0])
        yield Stated(
            a=bodies[0].name,
            part=part.key,
            what="card length",
            size_mm=length.mm,
            limit_mm=limit.mm + more_mm,
            told=f"longest card {limit.mm:g} with {with_what}{_so(limit.mm, more_mm)}",
            remedy=Remedy(
                "take a shorter one",
                f"take less at the {limits.card_to.value}, or another case",
            ),
            hint=_by_reading(length, limit.mm + more_mm)
            or _more_by_depth(limits, limit.mm),
            axis=Axis.DEPTH,
            readings=(
                *_readings(bodies[0], "card length"),
                *_of_case("longest card", limit),
            ),
        )


def _by_reading(length: Figure, limit_mm: float) -> str:
    """Return that another reading of a card's length would keep to the limit."""
    if length.mm <= limit_mm or length.restated is not None:
        return ""
    off_mm = limit_mm - length.mm
    other = card_readings.LENGTH.explaining(length, off_mm, within_mm=DISAGREE_MM)
    if other is None:
        return ""
    return f"; were its length told '{other}', it would agree with that limit"


def _more_by_depth(limits: Limits, limit_mm: float) -> str:
    """Return that the inside depth leaves more than a longest card says it does."""
    fans_mm = _TOLD_FAN_MM if limits.card_with.fans else 0.0
    more_mm = limits.card_room_mm - fans_mm - limit_mm
    if more_mm <= DISAGREE_MM or limits.card_ends_at is not None:
        return ""
    return (
        f"; the inside {limits.card_room} of {limits.card_room_mm:g} leaves "
        f"{more_mm:.1f} mm more than that limit: measure from the slot plane to the "
        f"{limits.card_to.value}, or ask the case's maker"
    )


def _before(build: Build, limits: Limits, card: PlacedBody) -> tuple[float, str]:
    """Return how much longer than stated a card may be, by what stands in front."""
    told = limits.card_with
    if limits.card_ends_at is not None:
        return 0.0, f"{limits.card_ends_at} before its end"
    told_mm = _TOLD_FAN_MM if told.fans else 0.0
    along = Axis.DEPTH if limits.card_to is Face.FRONT else Axis.HEIGHT
    reach_mm = max(
        (
            limits.card_room_mm - each.body.bounds.low[0]
            if limits.card_to is Face.FRONT
            else each.body.bounds.high[1]
            for each in build.bodies
            if each.where == limits.card_to.value
            and each.role in {Role.FAN, Role.RADIATOR}
        ),
        default=0.0,
    )
    there_mm = max(0.0, reach_mm)
    if card.turn.axis(Axis.DEPTH) is not along or there_mm == told_mm:
        return 0.0, told.value
    what = (
        f"{there_mm:g} mm of fans or radiator stand" if there_mm else "nothing stands"
    )
    return told_mm - there_mm, f"{told.value}; {what} there"


def _supplies(build: Build, limits: Limits) -> Iterator[Stated]:
    """Yield each supply, where the cage is as the limit was told."""
    limit, told = limits.longest_supply, limits.supply_with
    cages = [part.seat for part in build.parts if part.kind == Cage.kind]
    if limit is None or (told and told not in (cages or [OUT])):
        return
    for part in build.parts:
        stated = dict(part.stated)
        length, plugs = stated.get("supply length"), stated.get("plugs at the supply")
        bodies = _of(build, part, {Role.SUPPLY})
        if length is None or plugs is None or not bodies:
            continue
        leads = limit.restated is not None
        limit_mm = limit.restated.mm if limit.restated else limit.mm
        where = f", cage {told}" if told else ""
        more_mm = plugs.mm if leads else 0.0
        own = tuple(
            each
            for body in _of(build, part, {Role.SUPPLY_LEADS})
            for each in body.chain
            if each[0] == part.key and each[1].figure is plugs
        )
        yield Stated(
            a=bodies[0].name,
            part=part.key,
            what="supply length",
            size_mm=length.mm + more_mm,
            limit_mm=limit_mm,
            told=f"longest supply {limit_mm:g}{_reading(limit)}{where}",
            remedy=Remedy(
                f"take a shorter one{', or move the cage' if cages else ''}",
                "take another case",
            ),
            hint=_by_the_body(limit, over_mm=length.mm + more_mm - limit_mm),
            axis=Axis.DEPTH,
            rests_on=assumed_in(own, UNITS[Axis.DEPTH]) if leads else (),
            readings=(
                *_readings(bodies[0], "supply length"),
                *_of_case("longest supply", limit),
            ),
        )


def _by_the_body(limit: Figure, *, over_mm: float) -> str:
    """Return that another reading of a longest supply would take this one."""
    readings_ = case_readings.LONGEST_SUPPLY
    other = readings_.explaining(limit, over_mm, within_mm=DISAGREE_MM)
    if over_mm <= 0.0 or other is None:
        return ""
    return f"; were that limit told '{other}', the supply would agree with it"


def _radiators(build: Build, limits: Limits) -> Iterator[Stated]:
    """Yield each radiator on a face for which classes are stated."""
    stated = dict(limits.radiators)
    for part in build.parts:
        size = dict(part.stated).get("radiator class")
        bodies = _of(build, part, {Role.RADIATOR})
        if size is None or not bodies or bodies[0].where not in stated:
            continue
        face = bodies[0].where
        takes = stated[face]
        frame = CLASSES[int(size.mm)].frame
        alike = [
            each for each in takes if each in CLASSES and CLASSES[each].frame == frame
        ]
        yield Stated(
            a=bodies[0].name,
            part=part.key,
            what="radiator class",
            size_mm=size.mm,
            limit_mm=float(max(alike, default=0)),
            readings=readings(((part.key, link("radiator class", size)),), None),
            told=f"radiators of {', '.join(map(str, takes))} at the {face}",
            remedy=Remedy("take a smaller one, or another mount", "take another case"),
        )


def _of(build: Build, part: PlacedPart, roles: set[Role]) -> list[PlacedBody]:
    return [
        each for each in build.bodies if each.part == part.key and each.role in roles
    ]
