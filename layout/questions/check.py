"""Check a build: every clearance that matters, worst first."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import replace

from layout.build.placed import Build, PlacedBody
from layout.geometry.body import Body
from layout.geometry.crowd import Crowd
from layout.geometry.overlap import overlap
from layout.geometry.query import clearances, relation, relations
from layout.geometry.relation import Bound, Relation, State
from layout.geometry.space import Axis, Box, Vector
from layout.parts.role import Role
from layout.questions.advice import advice
from layout.questions.apart import apart_remedy
from layout.questions.asked import (
    Question,
    asked,
    concerning,
    pairs_of_parts,
    question_id,
    unnamed,
)
from layout.questions.bends import bends
from layout.questions.beside import beside
from layout.questions.covered import covered
from layout.questions.finding import Check, Finding, Group, Verdict
from layout.questions.measure import needed, told
from layout.questions.readings import readings
from layout.questions.remedy import Remedy
from layout.questions.rules import NO_INTERFERENCE, Rule
from layout.questions.tolerance import (
    ALLOWED_MM,
    RSS,
    Stacking,
    abutting,
    assumed_in,
    chance_under,
    direction,
    links_between,
    tolerance_mm,
)
from layout.questions.walls import gives
from layout.values import dataclass

__all__ = ["ALLOWED_MM", "check", "margins", "met", "shared_boxes"]


def check(
    build: Build,
    *,
    every_pair: bool = False,
    with_pairs: bool = False,
    groups: frozenset[Group] = frozenset(Group),
    stacking: Stacking = RSS,
    of: Collection[str] | None = None,
    bent: tuple[Finding, ...] | None = None,
) -> Check:
    """Return what clears, what does not, and by how much.

    Parameters
    ----------
    build : Build
    every_pair : bool
        Whether pairs that no rule names make a finding even where they are apart, and
        what is taken for granted a clear one.
    with_pairs : bool
        Whether to add the relation of every pair of bodies.
    groups : frozenset of Group
        Which rules to ask.
    stacking : Stacking
        How tolerances add up; default: by root sum of squares.
    of : collection of str, optional
        Keys of parts: only findings that name one of them, at less cost.
    bent : tuple of Finding, optional
        What is known of the room that cables need to bend; default: it is asked.
    """
    crowd = Crowd.of([each.body for each in build.bodies])
    questions = asked(build)
    wanted = [each for each in questions if each.rule.group in groups]
    if of is not None:
        wanted = concerning(build, wanted, of)
    answers = _answers(build, crowd, wanted)
    if Group.DISTANCE in groups:
        rest = unnamed(build, questions)
        if of is not None:
            rest = concerning(build, rest, of)
        answers += (_answers if every_pair else _clashes)(build, crowd, rest)
    made = (_finding(build, each, stacking) for each in _governing(answers))
    others = beside(build, groups, every=every_pair)
    more: tuple[Finding, ...] = ()
    if Group.DISTANCE in groups:
        more = bends(build, stacking=stacking) if bent is None else bent
    findings = sorted(
        (
            each
            for each in (*made, *others.findings, *more)
            if of is None or each.parts & {*of}
        ),
        key=_worst_first,
    )
    return Check(
        build=build.name,
        verdict=findings[0].verdict if findings else Verdict.CLEAR,
        findings=tuple(findings),
        notes=(*build.notes, *others.notes),
        pairs=relations(crowd, pairs_of_parts(build)) if with_pairs else None,
        to_order=others.to_order,
    )


@dataclass(frozen=True, slots=True)
class _Answer:
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


def _worst_first(finding: Finding) -> tuple[int, float, str]:
    margin_mm = finding.margin_mm
    if margin_mm is None:  # what is still to be confirmed comes before what is not
        margin_mm = -math.inf if finding.advice else math.inf
    return -_SEVERITY[finding.verdict], margin_mm, finding.id


_SEVERITY = {verdict: rank for rank, verdict in enumerate(Verdict)}


def _clashes(build: Build, crowd: Crowd, questions: list[Question]) -> list[_Answer]:
    """Return the answers of those that interfere; boxes rule out most."""
    pairs = {(each.a, each.b): each for each in questions}
    stand = clearances(crowd, list(pairs), limit_mm=0.0)
    meeting = stand.pairs[stand.interfering].tolist()
    answers = _answers(build, crowd, [pairs[i, j] for i, j in meeting])
    return [each for each in answers if each.relation.state is State.INTERFERING]


def _answers(build: Build, crowd: Crowd, questions: list[Question]) -> list[_Answer]:
    # mated parts meet by their seat: what must give is worked out beyond it alone
    pairs = [(each.a, each.b) for each in questions]
    found = relations(crowd, pairs, overlaps=False)
    bodies = build.bodies
    return [
        _beyond_seat(build, _Answer(each.rule, bodies[each.a], bodies[each.b], stands))
        for each, stands in zip(questions, found, strict=True)
    ]


def _beyond_seat(build: Build, answer: _Answer) -> _Answer:
    """Return the answer without what the parts' seats let them share."""
    a, b, stands = answer.a, answer.b, answer.relation
    if stands.state is not State.INTERFERING:
        return answer
    boxes = shared_boxes(build, a, b)
    rest = a.body.outside(boxes) if boxes else a.body
    if rest is None:
        stands = _mated(a.body, b.body)
    elif boxes:
        stands = relation(rest, b.body)
    else:
        stands = replace(stands, overlap=overlap(a.body, b.body))
    return replace(answer, relation=gives(a, b, covered(a, b, stands), rest=rest))


def shared_boxes(build: Build, a: PlacedBody, b: PlacedBody) -> list[Box]:
    """Return the volumes in which the seat of one lets the two be together."""
    return [
        mate.box
        for mate in build.mates
        for guest, host in ((a, b), (b, a))
        if mate.guest == guest.part and mate.role is host.role
    ]


def margins(build: Build, questions: Sequence[Question]) -> list[tuple[float, Verdict]]:
    """Return margin and verdict of each question by itself.

    A pair that no rule names and that does not interfere has no margin: infinity.
    """
    told = []
    for each in _answers(build, Crowd.of([b.body for b in build.bodies]), [*questions]):
        free = each.relation.state is not State.INTERFERING
        if free and each.rule.name == NO_INTERFERENCE:
            told.append((math.inf, Verdict.CLEAR))
        else:
            told.append((each.margin_mm, _finding(build, each, RSS).verdict))
    return told


def met(build: Build, questions: Sequence[Question]) -> bool:
    """Tell whether no question fails; by how much one does is not worked out."""
    crowd = Crowd.of([each.body for each in build.bodies])
    pairs = [(each.a, each.b) for each in questions]
    found = zip(questions, relations(crowd, pairs, overlaps=False), strict=True)
    return not any(_is_failed(build, each, stands) for each, stands in found)


def _is_failed(build: Build, question: Question, stands: Relation) -> bool:
    a, b = build.bodies[question.a], build.bodies[question.b]
    boxes = shared_boxes(build, a, b)
    if boxes and stands.state is State.INTERFERING:
        rest = a.body.outside(boxes)
        stands = relation(rest, b.body) if rest else _mated(a.body, b.body)
    return _verdict(stands, question.rule.need_mm, 0.0).fails


def _mated(a: Body, b: Body) -> Relation:
    """Return the relation of bodies that share nothing but what their seat allows."""
    return Relation(
        a=a.name,
        b=b.name,
        state=State.TOUCHING,
        gap_mm=0.0,
        bound=Bound.EXACT,
        witness=None,
        overlap=None,
    )


def _governing(answers: list[_Answer]) -> list[_Answer]:
    """Return the answer with the least margin for each rule and its parts.

    Of equal margins a part's main body tells more than a piece of it: a board that
    meets the shroud does so whether or not its pins are where they are assumed.
    Fans that meet come before hoses that do, whose way is assumed.
    """
    least: dict[str, _Answer] = {}
    for each in answers:
        known = least.get(each.id)
        if known is None or _governs(each, known):
            least[each.id] = each
    return list(least.values())


def _governs(answer: _Answer, known: _Answer) -> bool:
    """Tell whether an answer governs before a known one."""
    if answer.on_hose is not known.on_hose and answer.meets and known.meets:
        return known.on_hose
    less_mm = known.margin_mm - answer.margin_mm
    if abs(less_mm) > ALLOWED_MM:
        return less_mm > 0.0
    return answer.pieces < known.pieces


def _finding(build: Build, answer: _Answer, stacking: Stacking) -> Finding:
    rule, stands = answer.rule, answer.relation
    simply_apart = rule.name == NO_INTERFERENCE
    touched = _touched(answer)
    along = direction(stands) or touched
    links = links_between(answer.a, answer.b, along)
    scatter_mm = 0.0 if simply_apart else tolerance_mm(links, along, stacking)
    verdict = _verdict(stands, rule.need_mm, scatter_mm)
    remedy = _remedy(build, answer) if verdict.fails else None
    assumed = assumed_in(links, along)
    axis = _axis(stands, touched)
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
        advice=advice(
            (answer.a.name, answer.b.name),
            verdict,
            numbers=(stands.gap_mm, rule.need_mm, scatter_mm),
            chance=chance_under(answer.margin_mm, tolerance_mm(links, along)),
            axis=axis,
            overlap=stands.overlap,
            remedy=remedy.told if remedy else "",
            measure=tuple(map(told, needed(answer.margin_mm, assumed))),
        ),
        remedy=remedy,
    )


def _remedy(build: Build, answer: _Answer) -> Remedy:
    if answer.rule.name == NO_INTERFERENCE:
        return apart_remedy(build, answer.a, answer.b)
    return answer.rule.remedy_for(build, answer.a, answer.b)


def _touched(answer: _Answer) -> Vector | None:
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


def _verdict(stands: Relation, need_mm: float, tolerance_mm: float) -> Verdict:
    if stands.state is State.INTERFERING:
        return Verdict.CLASH
    if stands.gap_mm < need_mm - ALLOWED_MM:
        return Verdict.SHORT
    if stands.gap_mm - tolerance_mm < need_mm - ALLOWED_MM:
        return Verdict.TIGHT
    return Verdict.CLEAR
