"""Find for every cable the way it may leave its plug with the most room to bend."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import groupby

from layout.build.placed import Build, PlacedBody
from layout.geometry.space import Axis, Direction, Vector
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import Plug, PlugShape
from layout.parts.wiring.leads import straight_run
from layout.parts.wiring.plug import cable_of, deep_mm, face_reach_mm
from layout.questions.bends.cable_ways import Way, Ways, ways_of
from layout.questions.bends.ways import (
    Answer,
    answers,
    least_lacking,
    reach_mm,
    towards_limit,
)
from layout.questions.findings.advice import short, spoken
from layout.questions.findings.answered import Answered
from layout.questions.findings.finding import Finding, Group, Verdict, verdict_of
from layout.questions.findings.measure import needed, told
from layout.questions.findings.portions import facing_at
from layout.questions.findings.readings import readings
from layout.questions.findings.shown import places_of, shown
from layout.questions.findings.tolerance import (
    ALLOWED_MM,
    RSS,
    Stacking,
    assumed_in,
    links_between,
    tolerance_mm,
)

__all__ = [
    "bends",
    "bends_lacking",
    "bent_plug",
    "best_ways",
    "cables_taken",
    "lacking",
    "shut_in",
]


def bends(build: Build, *, stacking: Stacking = RSS) -> tuple[Finding, ...]:
    """Return one finding for each rule and part: its plug with the least to spare."""
    return tuple(_finding(build, each, stacking) for each in _least(build))


def bends_lacking(build: Build, known: Ways | None = None) -> tuple[Finding, ...]:
    """Return those of :func:`bends` that are short, at less cost.

    ``known`` are ways of cables made before.
    """
    from layout.questions.bends.open_ways import open_ways  # noqa: PLC0415 (of changes alone)

    known = known or Ways()
    found = open_ways(build, spares=False, known=known)
    if not found.shut_in:
        return ()
    shut = replace(build, plugs=found.shut_in)
    ways = [*known.of(shut), *known.of(shut, on=True)]
    lacking = least_lacking(shut, [each for each in ways if each.of in found.lacking])
    ordered = sorted(lacking, key=lambda each: each.way.of)
    return tuple(_finding(build, each, RSS) for each in _least_of(ordered))


def _least(build: Build) -> Iterable[Answer]:
    return _least_of(each for each in best_ways(build) if isinstance(each, Answer))


def _least_of(told: Iterable[Answer]) -> Iterable[Answer]:
    """Return of each rule and part the plug with the least to spare."""
    least: dict[tuple[str, str], Answer] = {}
    for each in told:
        key = each.way.of[:2]
        if key not in least or each.spare_mm < least[key].spare_mm:
            least[key] = each
    return least.values()


def shut_in(build: Build) -> frozenset[str]:
    """Return the ids of what :func:`bends` surely finds short: every way is barred.

    It costs far less than how much room they lack.
    """
    from layout.questions.bends.open_ways import open_ways  # noqa: PLC0415 (of changes alone)

    lacking = open_ways(build, spares=False).lacking
    return frozenset(_id(way) for way, _ in lacking.values())


def bent_plug(build: Build, id_: str) -> PlacedBody | None:
    """Return the plug that a finding of :func:`bends` is about, as a body.

    None where none of them has this id.
    """
    return next((_plug(e) for e in _least(build) if _id(e.way) == id_), None)


def _id(way: Way) -> str:
    return f"{way.rule.name}:{way.placed.part}"


def _plug(answer: Answer) -> PlacedBody:
    way = answer.way
    return PlacedBody(
        part=way.placed.part,
        body=way.body,
        role=way.rule.on,
        where=None,
        chain=way.placed.chain,
    )


def lacking(build: Build, part: str, rule: str) -> tuple[ConnectorKind, ...]:
    """Return the kinds of a part's plugs whose cables a rule finds no room for.

    Spare ones are asked too.
    """
    own = tuple(
        replace(each, plug=replace(each.plug, spare=False))
        for each in build.plugs
        if each.part == part
    )
    short_ones = filter(_lacks, best_ways(replace(build, plugs=own)))
    kinds = (
        each.way.plug.kind
        for each in short_ones
        if isinstance(each, Answer) and each.way.rule.name == rule
    )
    return tuple(dict.fromkeys(kinds))


def best_ways(build: Build) -> list[Answer | Way]:
    """Return for every plug the way that leaves its cable most room.

    A cable goes straight on only where it can turn to no side.  A way alone is one
    that nothing limits: it is best where the others lack room.
    """
    best = _best(build, list(ways_of(build)))
    lacking = [each for each in best.values() if _lacks(each)]
    if lacking:
        plugs = tuple(each.way.placed for each in lacking if isinstance(each, Answer))
        further = _best(build, list(ways_of(replace(build, plugs=plugs), on=True)))
        for of, each in further.items():
            known = best[of]
            if isinstance(each, Way) or (
                isinstance(known, Answer) and each.spare_mm > known.spare_mm
            ):
                best[of] = each
    return [best[of] for of in sorted(best)]


def _best(build: Build, ways: Sequence[Way]) -> dict[tuple[str, ...], Answer | Way]:
    if not ways:
        return {}
    found = answers(build, ways)
    limited = sorted(found.limited, key=lambda each: each.way.of)
    best: dict[tuple[str, ...], Answer | Way] = {
        of: max(same, key=lambda each: each.spare_mm)
        for of, same in groupby(limited, key=lambda each: each.way.of)
    }
    for way in found.open:
        if way.of not in best or _lacks(best[way.of]):
            best[way.of] = way
    return best


def _lacks(best: Answer | Way) -> bool:
    return isinstance(best, Answer) and best.spare_mm < -ALLOWED_MM


def _finding(build: Build, answer: Answer, stacking: Stacking) -> Finding:
    way, limit = answer.way, answer.limit
    rule, plug = way.rule, way.plug
    towards = towards_limit(answer)
    face_mm = face_reach_mm(plug, towards)
    need_mm = max(0.0, -answer.spare_mm, reach_mm(answer, towards) - face_mm)
    gap_mm = need_mm + answer.spare_mm
    to_mm = _on_limit(answer, towards, face_mm + gap_mm)
    x, y, z = (at - gap_mm * part for at, part in zip(to_mm, towards, strict=True))
    back: Vector = (-towards[0], -towards[1], -towards[2])
    links = links_between(_plug(answer), facing_at(limit, to_mm, back), towards)
    scatter_mm = tolerance_mm(links, towards, stacking)
    verdict = verdict_of(answer.spare_mm, scatter_mm)
    assumed = assumed_in(links, towards)
    angled = plug.shape is PlugShape.ANGLED
    remedy = rule.remedy_before(build, limit, angled=angled)
    return Finding(
        id=_id(way),
        rule=rule.name,
        group=Group.DISTANCE,
        a=way.placed.name,
        b=limit.name,
        gap_mm=gap_mm,
        need_mm=need_mm,
        tolerance_mm=scatter_mm,
        margin_mm=answer.spare_mm,
        verdict=verdict,
        axis=_axis(towards),
        from_mm=(x, y, z),
        to_mm=to_mm,
        overlap=None,
        assumed=tuple(each.name for each in assumed),
        readings=readings(links, towards),
        rests_on=assumed,
        along=towards,
        why=f"{_told(way)}; {rule.why}",
        source=_source(plug),
        advice=_advice(
            answer,
            verdict,
            need_mm=need_mm,
            scatter_mm=scatter_mm,
            measure=tuple(map(told, needed(answer.spare_mm, assumed))),
            remedy=remedy.told,
        ),
        remedy=remedy if verdict.fails else None,
    )


def _on_limit(answer: Answer, towards: Vector, reach_mm: float) -> Vector:
    """Return the point on what limits the cable; for an overlap, before its plug."""
    witness = answer.relation.witness
    if witness is not None:
        return witness.to_mm
    x, y, z = (
        reach_mm * part if part else at
        for part, at in zip(towards, answer.way.plug.at_mm, strict=True)
    )
    return x, y, z


def _axis(towards: Vector) -> Axis | None:
    along = [axis for axis, part in zip(Axis, towards, strict=True) if abs(part) > 1e-9]
    return along[0] if len(along) == 1 else None


_WAYS = {
    Direction.REAR: "to the rear",
    Direction.FRONT: "to the front",
    Direction.DOWN: "downwards",
    Direction.UP: "upwards",
    Direction.TRAY: "to the tray",
    Direction.PANEL: "to the side panel",
}


def _told(way: Way) -> str:
    """Return which cable it is, how it leaves and what room it takes."""
    plug = way.plug
    if plug.shape is PlugShape.ANGLED:
        how = f"angled plug, {way.straight_mm:.0f} straight beside it"
    elif way.to is plug.out:
        on_mm = deep_mm(plug, way.to, straight_mm=0.0) - plug.body_mm
        how = f"{way.straight_mm:.0f} straight, then {on_mm:.0f} more to turn in"
    else:
        inside_mm = cable_of(plug).inside_radius_mm
        how = f"{way.straight_mm:.0f} straight, then a bend of {inside_mm:.1f} inside"
    return f"{plug.kind.value} cable leaving {_leaving(way)}: {how}"


def _leaving(way: Way) -> str:
    on = "straight on, " if way.to is way.plug.out else ""
    return f"{on}{_WAYS[way.to]}"


def _source(plug: Plug) -> str:
    """Return who says how far a cable runs straight, and how tightly it bends."""
    run = f"straight run: {straight_run(plug.kind).source}"
    if plug.shape is PlugShape.ANGLED:
        return run
    return f"{run}; bend: {cable_of(plug).bend.source}"


def _advice(
    answer: Answer,
    verdict: Verdict,
    *,
    need_mm: float,
    scatter_mm: float,
    measure: tuple[str, ...],
    remedy: str,
) -> str:
    way, limit = answer.way, answer.limit
    first = f"measure first: {'; '.join(measure)}" if measure else ""
    if verdict is Verdict.SHORT:
        places = places_of(answer.spare_mm)
        text = (
            f"the {way.plug.kind.value} cable of {spoken(way.placed.name)} has room to "
            f"bend no way; {_leaving(way)} it wants least, "
            f"{shown(need_mm, places=places)} mm where "
            f"{shown(need_mm + answer.spare_mm, places=places)} lie before "
            f"{spoken(limit.name)}; {shown(-answer.spare_mm)} mm must give"
        )
        return short(text, remedy, measure, off_mm=(answer.spare_mm, scatter_mm))
    if first:
        return first
    if verdict is Verdict.TIGHT:
        return (
            f"the {way.plug.kind.value} cable of {spoken(way.placed.name)} has "
            f"{answer.spare_mm:.1f} mm to spare before {spoken(limit.name)}, less than "
            "the figures may be off: measure before ordering"
        )
    return ""


def cables_taken(build: Build, *, every: bool) -> Answered:
    """Return what of cables and plugs is taken for granted."""
    del every
    if not build.plugs:
        return Answered()
    return Answered(notes=(_TAKEN,))


_TAKEN = (
    "cables: wires, gauges and plugs' sizes as usual; a board's plugs where boards "
    "have them, a supply's in rows, a drive's at either end, and the tray open behind "
    "a cage"
)
