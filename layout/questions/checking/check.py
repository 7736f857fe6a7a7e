"""Check a build: every clearance that matters, worst first."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

import numpy as np

from layout.build.placed import Build, Mate, PlacedBody
from layout.geometry.bodies.body import Body
from layout.geometry.bodies.crowd import Crowd
from layout.geometry.bodies.gathered import SURE_MM
from layout.geometry.relations.overlap import overlap
from layout.geometry.relations.query import meeting, relation, relations
from layout.geometry.relations.relation import Bound, Relation, State
from layout.geometry.solids.boxes import box_gaps, boxes_share
from layout.geometry.space import Box
from layout.questions.bends.bends import bends
from layout.questions.checking.beside import beside
from layout.questions.clearances.asked import (
    Question,
    asked,
    concerning,
    making,
    pairs_of_parts,
    unnamed,
)
from layout.questions.clearances.pair_answer import (
    PairAnswer,
    finding_on,
    governing,
    verdict_on,
)
from layout.questions.clearances.rules import NO_INTERFERENCE
from layout.questions.findings.covered import covered
from layout.questions.findings.finding import Check, Finding, Group, Verdict
from layout.questions.findings.tolerance import (
    ALLOWED_MM,
    RSS,
    Stacking,
)
from layout.questions.findings.walls import gives

__all__ = [
    "ALLOWED_MM",
    "check",
    "margins",
    "met",
    "on_pairs",
    "on_questions",
    "shared_boxes",
    "spares",
    "surely_failed",
    "worst_first",
]


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
        rest = unnamed(build, questions, of)
        answers += (_answers if every_pair else _clashes)(build, crowd, rest)
    made = (finding_on(build, each, stacking) for each in governing(answers))
    others = beside(build, groups, every=every_pair, stacking=stacking)
    more: tuple[Finding, ...] = ()
    if Group.DISTANCE in groups:
        more = bends(build, stacking=stacking) if bent is None else bent
    findings = sorted(
        (
            each
            for each in (*made, *others.findings, *more)
            if of is None or each.parts & {*of}
        ),
        key=worst_first,
    )
    return Check(
        build=build.name,
        verdict=findings[0].verdict if findings else Verdict.CLEAR,
        findings=tuple(findings),
        notes=(*build.notes, *others.notes),
        pairs=relations(crowd, pairs_of_parts(build)) if with_pairs else None,
        to_order=others.to_order,
        space=others.space,
    )


def on_pairs(build: Build, ids: Collection[str]) -> tuple[Finding, ...]:
    """Return the findings on two bodies that have some ids, those alone."""
    return on_questions(build, making(build, ids))


def on_questions(build: Build, questions: Sequence[Question]) -> tuple[Finding, ...]:
    """Return the findings that some questions make: all those of each finding."""
    answers = _each(build, questions) if questions else []
    return tuple(finding_on(build, each, RSS) for each in governing(answers))


def worst_first(finding: Finding) -> tuple[int, float, str]:
    """Return by what findings are sorted."""
    margin_mm = finding.margin_mm
    if margin_mm is None:  # what is still to be confirmed comes before what is not
        margin_mm = -math.inf if finding.advice else math.inf
    return -_SEVERITY[finding.verdict], margin_mm, finding.id


_SEVERITY = {verdict: rank for rank, verdict in enumerate(Verdict)}


def _clashes(build: Build, crowd: Crowd, questions: list[Question]) -> list[PairAnswer]:
    """Return the answers of those that interfere; boxes rule out most."""
    pairs = {(each.a, each.b): each for each in questions}
    meets = meeting(crowd, list(pairs)).tolist()
    beyond = [
        each
        for each, meet in zip(pairs.values(), meets, strict=True)
        if meet and _meet_beyond_seat(build, each.a, each.b)
    ]
    answers = _answers(build, crowd, beyond)
    return [each for each in answers if each.relation.state is State.INTERFERING]


def _meet_beyond_seat(build: Build, i: int, j: int) -> bool:
    """Tell whether bodies that meet share more than what their seat lets them."""
    a, b = build.bodies[i], build.bodies[j]
    if not (boxes := shared_boxes(build.mates, a, b)):
        return True
    rest = a.body.outside(boxes)
    return rest is not None and bool(meeting([rest, b.body], [(0, 1)]).any())


def _answers(build: Build, crowd: Crowd, questions: list[Question]) -> list[PairAnswer]:
    # mated parts meet by their seat: what must give is worked out beyond it alone
    pairs = [(each.a, each.b) for each in questions]
    found = relations(crowd, pairs, overlaps=False)
    bodies = build.bodies
    return [
        _beyond_seat(
            build, PairAnswer(each.rule, bodies[each.a], bodies[each.b], stands)
        )
        for each, stands in zip(questions, found, strict=True)
    ]


def _beyond_seat(build: Build, answer: PairAnswer) -> PairAnswer:
    """Return the answer without what the parts' seats let them share."""
    a, b, stands = answer.a, answer.b, answer.relation
    if stands.state is not State.INTERFERING:
        return answer
    boxes = shared_boxes(build.mates, a, b)
    rest = a.body.outside(boxes) if boxes else a.body
    if rest is None:
        stands = _mated(a.body, b.body)
    elif boxes:
        stands = relation(rest, b.body)
    else:
        stands = replace(stands, overlap=overlap(a.body, b.body))
    return replace(answer, relation=gives(a, b, covered(a, b, stands), rest=rest))


def shared_boxes(mates: Iterable[Mate], a: PlacedBody, b: PlacedBody) -> list[Box]:
    """Return the volumes in which the seat of one lets the two be together."""
    return [
        mate.box
        for mate in mates
        for guest, host in ((a, b), (b, a))
        if mate.guest == guest.part and mate.role is host.role
    ]


def margins(build: Build, questions: Sequence[Question]) -> list[tuple[float, Verdict]]:
    """Return margin and verdict of each question by itself.

    A pair that no rule names and that does not interfere has no margin: infinity.
    """
    found = _each(build, questions)
    return [
        (math.inf, Verdict.CLEAR)
        if _is_free(each)
        else (each.margin_mm, finding_on(build, each, RSS).verdict)
        for each in found
    ]


def spares(build: Build, questions: Sequence[Question]) -> list[float]:
    """Return the margin of each question by itself, as of :func:`margins`."""
    found = _each(build, questions)
    return [math.inf if _is_free(each) else each.margin_mm for each in found]


def _each(build: Build, questions: Sequence[Question]) -> list[PairAnswer]:
    return _answers(build, Crowd.of([b.body for b in build.bodies]), [*questions])


def _is_free(answer: PairAnswer) -> bool:
    """Tell whether no rule names a pair and it does not interfere."""
    free = answer.relation.state is not State.INTERFERING
    return free and answer.rule.name == NO_INTERFERENCE


def met(build: Build, questions: Sequence[Question]) -> bool:
    """Tell whether no question fails; by how much one does is not worked out."""
    crowd = Crowd.of([each.body for each in build.bodies])
    pairs = [(each.a, each.b) for each in questions]
    found = zip(questions, relations(crowd, pairs, overlaps=False), strict=True)
    return not any(_is_failed(build, each, stands) for each, stands in found)


def surely_failed(build: Build, questions: Sequence[Question]) -> bool:
    """Tell whether boxes within two bodies are too near already for a question."""
    asked = [
        each
        for each in questions
        if not shared_boxes(build.mates, build.bodies[each.a], build.bodies[each.b])
    ]
    if not asked:
        return False
    crowd = Crowd.of([each.body for each in build.bodies])
    index = np.array([(each.a, each.b) for each in asked]).T
    need = np.array([each.rule.need_mm for each in asked])
    within = crowd.inner.pairs(index)
    near = box_gaps(*within) < need - ALLOWED_MM
    return bool((near | boxes_share(*within, SURE_MM)).any())


def _is_failed(build: Build, question: Question, stands: Relation) -> bool:
    a, b = build.bodies[question.a], build.bodies[question.b]
    boxes = shared_boxes(build.mates, a, b)
    if boxes and stands.state is State.INTERFERING:
        rest = a.body.outside(boxes)
        stands = relation(rest, b.body) if rest else _mated(a.body, b.body)
    return verdict_on(stands, question.rule.need_mm, 0.0).fails


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
