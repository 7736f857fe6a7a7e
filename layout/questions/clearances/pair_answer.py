"""A rule's question answered of two bodies, and the finding that this makes."""

from __future__ import annotations

from layout.build.placed import Build, PlacedBody
from layout.geometry.relations.relation import Relation, State
from layout.geometry.space import Axis, Vector
from layout.parts.form.role import Role
from layout.questions.clearances.apart import apart_remedy
from layout.questions.clearances.asked import question_id
from layout.questions.clearances.rules import NO_INTERFERENCE, Rule
from layout.questions.findings.advice import advice, over_all
from layout.questions.findings.covered import is_wholly
from layout.questions.findings.finding import Finding, Verdict, verdict_of
from layout.questions.findings.measure import needed, told
from layout.questions.findings.portions import faced
from layout.questions.findings.readings import readings
from layout.questions.findings.remedy import Remedy
from layout.questions.findings.tolerance import (
    ALLOWED_MM,
    Stacking,
    abutting,
    assumed_in,
    chance_under,
    direction,
    links_between,
    tolerance_mm,
)
from layout.values import dataclass

__all__ = ["PairAnswer", "finding_on", "governing", "verdict_on"]


@dataclass(frozen=True, slots=True)
class PairAnswer:
    """A question with how the two bodies stand, beyond what their seat allows."""

    rule: Rule
    a: PlacedBody
    b: PlacedBody
    relation: Relation

    @property
    def margin_mm(self) -> float:
        """Return gap less need; for a clash minus overlap less need."""
        overlap = self.relation.overlap
        room_mm = self.relation.gap_mm if overlap is None else -overlap.mm
        return room_mm - self.rule.need_mm

    @property
    def pieces(self) -> int:
        """Return how many of the two bodies are pieces of a part."""
        return f"{self.a.name} {self.b.name}".count("/")

    @property
    def on_hose(self) -> bool:
        """Tell whether one of the two is a hose's first bend."""
        return Role.HOSE in {self.a.role, self.b.role}

    @property
    def meets(self) -> bool:
        """Tell whether the two are in one place."""
        return self.relation.state is State.INTERFERING

    @property
    def id(self) -> str:
        """Return the rule with the parts it is asked of."""
        return question_id(self.rule, self.a, self.b)


def governing(answers: list[PairAnswer]) -> list[PairAnswer]:
    """Return the answer with the least margin for each rule and its parts.

    Of equal margins a part's main body tells more than a piece of it: a board that
    meets the shroud does so whether or not its pins are where they are assumed.
    Fans that meet come before hoses that do, whose way is assumed.
    """
    least: dict[str, PairAnswer] = {}
    for each in answers:
        known = least.get(each.id)
        if known is None or _governs(each, known):
            least[each.id] = each
    return list(least.values())


def _governs(answer: PairAnswer, known: PairAnswer) -> bool:
    """Tell whether an answer governs before a known one."""
    if answer.on_hose is not known.on_hose and answer.meets and known.meets:
        return known.on_hose
    less_mm = known.margin_mm - answer.margin_mm
    if abs(less_mm) > ALLOWED_MM:
        return less_mm > 0.0
    return answer.pieces < known.pieces


def finding_on(build: Build, answer: PairAnswer, stacking: Stacking) -> Finding:
    """Return what an answer means for a build, with everything it rests on."""
    rule, stands = answer.rule, answer.relation
    simply_apart = rule.name == NO_INTERFERENCE
    touched = _touched(answer)
    along = direction(stands) or touched
    near = stands.witness
    ends_mm = (near.from_mm, near.to_mm) if near else (None, None)
    faces = faced(answer.a, answer.b, ends_mm=ends_mm, overlap=stands.overlap)
    links = links_between(*faces, along)
    scatter_mm = 0.0 if simply_apart else tolerance_mm(links, along, stacking)
    verdict = verdict_on(stands, rule.need_mm, scatter_mm)
    remedy = _remedy(build, answer) if verdict.fails else None
    assumed = assumed_in(links, along)
    axis = _axis(stands, touched)
    names = answer.a.name, answer.b.name
    measure = tuple(map(told, needed(answer.margin_mm, assumed)))
    return Finding(
        id=answer.id,
        rule=rule.name,
        group=rule.group,
        a=answer.a.name,
        b=answer.b.name,
        gap_mm=stands.gap_mm,
        need_mm=rule.need_mm,
        tolerance_mm=scatter_mm,
        margin_mm=answer.margin_mm,
        verdict=verdict,
        axis=axis,
        from_mm=stands.witness.from_mm if stands.witness else None,
        to_mm=stands.witness.to_mm if stands.witness else None,
        overlap=stands.overlap,
        along=touched,
        assumed=tuple(each.name for each in assumed),
        why=rule.why,
        source=rule.source,
        readings=readings(links, along),
        rests_on=assumed,
        advice=over_all(names, remedy.told, measure)
        if remedy and stands.overlap and is_wholly(answer.a, answer.b)
        else advice(
            names,
            verdict,
            numbers=(stands.gap_mm, rule.need_mm, scatter_mm),
            chance=chance_under(answer.margin_mm, tolerance_mm(links, along)),
            axis=axis,
            overlap=stands.overlap,
            remedy=remedy.told if remedy else "",
            measure=measure,
        ),
        remedy=remedy,
    )


def _remedy(build: Build, answer: PairAnswer) -> Remedy:
    if answer.rule.name == NO_INTERFERENCE:
        return apart_remedy(build, answer.a, answer.b)
    return answer.rule.remedy_for(build, answer.a, answer.b)


def _touched(answer: PairAnswer) -> Vector | None:
    """Return the way across the face in which the two touch: no gap tells it."""
    if answer.relation.state is not State.TOUCHING:
        return None
    return abutting(answer.a.body.bounds, answer.b.body.bounds)


def _axis(stands: Relation, touched: Vector | None) -> Axis | None:
    if stands.overlap is not None:
        return stands.overlap.axis
    if touched is not None:
        return next(axis for axis in Axis if touched[axis.index])
    return stands.witness.axis if stands.witness else None


def verdict_on(stands: Relation, need_mm: float, tolerance_mm: float) -> Verdict:
    """Return what it means how two bodies stand, their gap off by its tolerance."""
    if stands.state is State.INTERFERING:
        return Verdict.CLASH
    return verdict_of(stands.gap_mm - need_mm, tolerance_mm)
