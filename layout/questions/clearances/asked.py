"""What is asked of a build: every rule of every pair of bodies that it means."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace
from itertools import combinations
from typing import Final, TypeAlias

from layout.build.assemble import CASE
from layout.build.placed import Build, OwnNeed, PlacedBody
from layout.parts.form.form import Role
from layout.questions.clearances.apart import EITHER
from layout.questions.clearances.rules import NO_INTERFERENCE, RULES, Picked, Rule
from layout.questions.clearances.vents import before_vent
from layout.values import dataclass

__all__ = [
    "CASE",
    "OWN_NEED",
    "Question",
    "asked",
    "concerning",
    "making",
    "pairs_of_parts",
    "pairs_on_boards",
    "question_id",
    "unnamed",
]

OWN_NEED: Final = "own-need"
"""Name of the rule for a need that the build file adds."""


_ByRole: TypeAlias = dict[Role, list[int]]
"""The indices of the bodies of each role."""


@dataclass(frozen=True, slots=True)
class Question:
    """A rule asked of two bodies of the build, by index."""

    rule: Rule
    a: int
    b: int


def asked(build: Build, *, only: str | None = None) -> list[Question]:
    """Return every question that a rule, or the build file, asks.

    ``only`` is the name of the one rule to ask; none asks what simply may not meet.
    """
    rules = [*_needed(build), *(_own(each) for each in build.own_needs)]
    if only is not None:
        rules = [each for each in rules if each.name == only]
    by_role: _ByRole = {}
    for index, body in enumerate(build.bodies):
        by_role.setdefault(body.role, []).append(index)
    return [
        question
        for rule in rules
        if not rule.only_with or rule.only_with & by_role.keys()
        for question in _questions(rule, build, by_role)
    ]


def _needed(build: Build) -> list[Rule]:
    """Return the rules with the needs that the build file changes."""
    changed = dict(build.needs)
    return [
        replace(rule, need_mm=changed[rule.name], source="given in the file")
        if rule.name in changed
        else rule
        for rule in RULES
    ]


def _own(need: OwnNeed) -> Rule:
    """Return a need of the build file's own as a rule between two names."""
    a, b = ((Picked(frozenset(Role), named=name),) for name in (need.a, need.b))
    return Rule(
        name=OWN_NEED,
        a=a,
        b=b,
        need_mm=need.need_mm,
        why=need.why,
        source=need.source,
        remedy=EITHER,
    )


def _questions(rule: Rule, build: Build, by_role: _ByRole) -> Iterable[Question]:
    """Yield the pairs of bodies that a rule means, each once."""
    seen, bodies = set(), build.bodies
    for i, j in _ordered_pairs(rule, bodies, by_role):
        if _separate(bodies[i], bodies[j]) and frozenset((i, j)) not in seen:
            seen.add(frozenset((i, j)))
            pair = bodies[i], bodies[j]
            at = before_vent(rule, *pair, bodies=bodies, panel=build.panel)
            if at is not None:
                yield Question(at, i, j)


def _ordered_pairs(
    rule: Rule, bodies: Sequence[PlacedBody], by_role: _ByRole
) -> Iterable[tuple[int, int]]:
    first = _held(rule.a, bodies, by_role)
    second = _held(rule.b, bodies, by_role) if first else ()
    return ((i, j) for i in first for j in second if i != j)


def _held(
    side: Iterable[Picked], bodies: Sequence[PlacedBody], by_role: _ByRole
) -> Sequence[int]:
    """Return the bodies that one side of a rule means, in their order."""
    found = {
        index
        for picked in side
        for role in picked.roles
        for index in by_role.get(role, ())
        if picked.holds(bodies[index])
    }
    return sorted(found)


def _separate(a: PlacedBody, b: PlacedBody) -> bool:
    """Tell whether two bodies can be asked about: parts apart, or both the case's."""
    return a.part != b.part or a.part == CASE


def question_id(rule: Rule, a: PlacedBody, b: PlacedBody) -> str:
    """Return the rule with the parts it is asked of: the stable id of its finding."""
    names = (rule.name, _subject(a), _subject(b))
    return ":".join(names[:2] if rule.nearest_only else names)


def _subject(body: PlacedBody) -> str:
    """Return the part's key; the case is too large to be one subject."""
    return body.name if body.part == CASE else body.part


def making(build: Build, ids: Collection[str]) -> list[Question]:
    """Return the questions whose findings have some ids."""
    bodies, rules = build.bodies, {each.partition(":")[0] for each in ids}
    questions = [q for name in sorted(rules) for q in asked(build, only=name)]
    if NO_INTERFERENCE in rules:
        questions += unnamed(build, asked(build))
    return [
        q for q in questions if question_id(q.rule, bodies[q.a], bodies[q.b]) in ids
    ]


def concerning(
    build: Build, questions: list[Question], parts: Collection[str]
) -> list[Question]:
    """Return the questions whose findings may name some parts.

    A question of other parts is among them where it governs the same finding: of two
    things before a card only the nearer one is told.
    """
    bodies = build.bodies
    ids = [question_id(q.rule, bodies[q.a], bodies[q.b]) for q in questions]
    named = {
        id_
        for id_, q in zip(ids, questions, strict=True)
        if bodies[q.a].part in parts or bodies[q.b].part in parts
    }
    return [q for id_, q in zip(ids, questions, strict=True) if id_ in named]


def unnamed(
    build: Build, questions: list[Question], of: Collection[str] | None = None
) -> list[Question]:
    """Return the pairs that no question names: they must simply not interfere.

    ``of`` are keys of parts: only pairs of which one belongs to one of them.
    """
    named = {frozenset((each.a, each.b)) for each in questions}
    own = [of is None or each.part in of for each in build.bodies]
    return [
        Question(_SIMPLY_APART, i, j)
        for i, j in (*pairs_of_parts(build), *pairs_on_boards(build))
        if (own[i] or own[j]) and frozenset((i, j)) not in named
    ]


_BESIDE_PLUGS: Final = frozenset(
    {
        Role.BOARD_CONNECTOR,
        Role.REAR_CONNECTORS,
        Role.REGULATOR_HEATSINK,
        Role.CHIPSET_HEATSINK,
        Role.MEMORY_SLOT,
        Role.CARD_SLOT,
    }
)
"""What of a board its own plugs may not stand in."""


def pairs_on_boards(build: Build) -> list[tuple[int, int]]:
    """Return a board's plugs with what of it they are sure to stand in.

    Figures of the file may say so of two places; where a place is only assumed, the
    two must share more than it may be off.  The row of pins at an edge is no one place:
    plugs that a file places stand in it.
    """
    bodies = build.bodies
    own = [
        (i, each, each.body.bounds)
        for i, each in enumerate(bodies)
        if each.role in _BESIDE_PLUGS and not each.name.endswith(_ROW)
    ]
    own.sort(key=lambda each: each[1].role is not Role.BOARD_CONNECTOR)  # plugs first
    return [
        (i, j)
        for (i, a, box), (j, b, other) in combinations(own, 2)
        if box.meets(other)
        and a.part == b.part
        and a.role is Role.BOARD_CONNECTOR
        and _surely_meet(a, b)
    ]


def _surely_meet(a: PlacedBody, b: PlacedBody) -> bool:
    """Tell whether two bodies' boxes share more than assumed places leave open."""
    (low, high), (under, over) = (
        (e.body.bounds.low, e.body.bounds.high) for e in (a, b)
    )
    return all(
        min(high[k], over[k]) - max(low[k], under[k]) > _open_mm(a, b, k)
        for k in range(3)
    )


_ROW: Final = "/front panel pins"


def _open_mm(a: PlacedBody, b: PlacedBody, axis: int) -> float:
    """Return by how much assumed figures of one of two bodies may move it."""
    own = ({link for _, link in e.chain if link.figure.assumed} for e in (a, b))
    return sum(link.plus_minus_mm[axis] for link in set.symmetric_difference(*own))


_SIMPLY_APART = Rule(
    name=NO_INTERFERENCE,
    a=(),
    b=(),
    need_mm=0.0,
    why="two parts cannot be in one place",
    source="geometry",
    remedy=EITHER,
)


def pairs_of_parts(build: Build) -> list[tuple[int, int]]:
    """Return every pair of material bodies of different parts, in the file's order."""
    matter = [i for i, body in enumerate(build.bodies) if body.role.is_matter]
    return [
        (i, j)
        for i, j in combinations(matter, 2)
        if build.bodies[i].part != build.bodies[j].part
    ]
