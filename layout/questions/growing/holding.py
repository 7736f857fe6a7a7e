"""What holds growing parts of a build: every question that involves one, made ready.

The questions are the same for all parts of a build, so they are asked for only once.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import field
from typing import TypeAlias

import numpy as np

from layout.build.placed import Build, Mate, PlacedBody
from layout.geometry.bodies.body import Body
from layout.geometry.bodies.crowd import Crowd
from layout.geometry.pairs.gap import is_box
from layout.geometry.solids.boxes import Boxes, box_gaps
from layout.geometry.solids.cells import moved
from layout.geometry.space import Box
from layout.parts.form.form import Role
from layout.questions.checking.beside import beside
from layout.questions.checking.check import on_pairs, on_questions, shared_boxes, spares
from layout.questions.clearances.asked import Question, asked, question_id, unnamed
from layout.questions.findings.finding import Finding, Group
from layout.questions.findings.tolerance import ALLOWED_MM
from layout.questions.moving.positions import GROUPS
from layout.values import dataclass

__all__ = ["Holding", "Limit"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A question that involves the part: what stays, and how near is too near.

    ``id`` is that of its finding, ``between`` are the two bodies and the rule.  Not
    ``exact`` where what stays is slanted and ``still`` are boxes around its cells.
    """

    id: str
    between: tuple[str, str, str]
    mine: str
    still: Boxes
    within_mm: float
    exact: bool
    low: tuple[float, ...]
    high: tuple[float, ...]


_Still: TypeAlias = tuple[Boxes, bool, Box]
"""Boxes around a body's cells, whether they are those cells, and the box of all."""
_Group: TypeAlias = tuple[str, list[Question], list[Question]]
"""A finding's id, the questions between what is carried and what is not, and others."""


@dataclass(frozen=False, eq=False, slots=True)
class Holding:
    """The questions of a build by the finding that they make, and by part.

    ``of`` are the parts that are asked about; default: any.
    """

    build: Build
    of: Collection[str] | None = None
    _groups: dict[str, list[Question]] = field(init=False)
    _of_part: dict[str, dict[str, None]] = field(init=False)
    _mates: dict[str, list[Mate]] = field(init=False)
    _spares: dict[int, float] = field(default_factory=dict)
    _still: dict[int, _Still] = field(default_factory=dict)
    _shared: dict[tuple[str, Role, str, Role], list[Box]] = field(default_factory=dict)
    _limits: dict[str, list[Limit]] = field(default_factory=dict)
    _now: dict[str, tuple[Finding, ...]] = field(default_factory=dict)
    _beside: tuple[Finding, ...] | None = None
    _names: list[str] = field(init=False)

    def __post_init__(self) -> None:
        build, bodies = self.build, self.build.bodies
        self._names = [each.name for each in bodies]
        questions = asked(build)
        near = [q for q in questions if q.rule.group is Group.DISTANCE]
        groups: dict[str, list[Question]] = {}
        for q in (*near, *unnamed(build, questions, self.of)):
            id_ = question_id(q.rule, bodies[q.a], bodies[q.b])
            groups.setdefault(id_, []).append(q)
        self._groups, self._of_part, self._mates = groups, {}, {}
        for id_, group in groups.items():
            for part in (bodies[each].part for q in group for each in (q.a, q.b)):
                self._of_part.setdefault(part, {})[id_] = None
        for mate in build.mates:
            self._mates.setdefault(mate.guest, []).append(mate)

    def limits(self, key: str) -> list[Limit]:
        """Return what each question of the part's findings measures to.

        Behind something of another part that is nearer already a pair makes no finding.
        """
        if key not in self._limits:
            self._limits[key] = self._made(key)
        return self._limits[key]

    def standing(self, build: Build, ids: Collection[str]) -> tuple[Finding, ...]:
        """Return how findings stand in a build with these bodies: all of two bodies.

        Where it has others than these, the questions are asked for anew.
        """
        if [each.name for each in build.bodies] != self._names:
            return on_pairs(build, ids)
        if build is not self.build:
            return self._stands(build, ids)
        new = [id_ for id_ in ids if id_ not in self._now]
        self._now.update(dict.fromkeys(new, ()))
        for each in self._stands(build, new):
            self._now[each.id] += (each,)
        return tuple(each for id_ in ids for each in self._now[id_])

    def _stands(self, build: Build, ids: Iterable[str]) -> tuple[Finding, ...]:
        own = [q for id_ in ids for q in self._groups.get(id_, ())]
        return on_questions(build, own)

    @property
    def beside(self) -> tuple[Finding, ...]:
        """Return the findings of the build that are no matter of two bodies."""
        if self._beside is None:
            self._beside = beside(self.build, GROUPS, every=False).findings
        return self._beside

    def keeps(self, build: Build, id_: str) -> bool:
        """Tell whether all bodies of a finding are in a build what they are here."""
        places = {i for q in self._groups.get(id_, ()) for i in (q.a, q.b)}
        return (
            bool(places)
            and [each.name for each in build.bodies] == self._names
            and all(_alike(self.build.bodies[i], build.bodies[i]) for i in places)
        )

    def _made(self, key: str) -> list[Limit]:
        carried = self.build.carried_by(key)
        groups = list(self._split(carried))
        self._ask([q for _, _, others in groups for q in others])
        return [
            limit
            for id_, own, others in groups
            for spare_mm in [min([0.0, *(self._spares[id(q)] for q in others)])]
            for q in own
            for limit in self._limit(q, carried, id_=id_, spare_mm=spare_mm)
        ]

    def _split(self, carried: frozenset[str]) -> Iterator[_Group]:
        """Yield the questions of each finding that name what is carried, and others."""
        of_them = {id_ for part in carried for id_ in self._of_part.get(part, ())}
        for id_, group in self._groups.items():
            if id_ not in of_them:
                continue
            own = [q for q in group if self._is_own(q, carried)]
            if own:
                yield id_, own, [q for q in group if not self._is_own(q, carried)]

    def _is_own(self, question: Question, carried: frozenset[str]) -> bool:
        """Tell whether a question is between what is carried and what is not."""
        bodies = self.build.bodies
        a, b = bodies[question.a].part, bodies[question.b].part
        return (a in carried) is not (b in carried)

    def _ask(self, questions: list[Question]) -> None:
        """Learn what others have to spare, or that it is something."""
        new = [q for q in questions if id(q) not in self._spares]
        if not new:
            return
        crowd = Crowd.of([each.body for each in self.build.bodies])
        index = np.array([(q.a, q.b) for q in new]).T
        room = box_gaps(*crowd.boxes.pairs(index)) - [q.rule.need_mm for q in new]
        self._spares.update(zip(map(id, new), room.tolist(), strict=True))
        near = [q for q in new if self._spares[id(q)] <= 0.0]
        told = spares(self.build, near) if near else []
        self._spares.update(zip(map(id, near), told, strict=True))

    def _limit(
        self, q: Question, carried: frozenset[str], *, id_: str, spare_mm: float
    ) -> Iterator[Limit]:
        """Yield the limit that a question is; none where a seat lets all be shared."""
        a, b = self.build.bodies[q.a], self.build.bodies[q.b]
        (mine, still), place = ((a, b), q.b) if a.part in carried else ((b, a), q.a)
        told = self._stays(mine, still, place)
        if told is None:
            return
        boxes, exact, box = told
        yield Limit(
            id=id_,
            between=(a.name, b.name, q.rule.name),
            mine=mine.name,
            still=boxes,
            within_mm=max(0.0, q.rule.need_mm + spare_mm - ALLOWED_MM),
            exact=exact,
            low=box.low,
            high=box.high,
        )

    def _stays(self, mine: PlacedBody, still: PlacedBody, place: int) -> _Still | None:
        """Return what stays beyond what a seat lets the two share."""
        two = still.part, still.role, mine.part, mine.role
        if two not in self._shared:
            mates = (m for e in (still, mine) for m in self._mates.get(e.part, ()))
            self._shared[two] = shared_boxes(mates, still, mine)
        shared = self._shared[two]
        if shared:
            rest = still.body.outside(shared)
            return _still(rest) if rest else None
        if place not in self._still:
            self._still[place] = _still(still.body)
        return self._still[place]


def _alike(a: PlacedBody, b: PlacedBody) -> bool:
    return a is b or (
        a.body.at_mm == b.body.at_mm
        and np.array_equal(a.body.shape.cells.rows, b.body.shape.cells.rows)
    )


def _still(body: Body) -> _Still:
    rows = moved(body.shape.cells, body.at_mm)
    return Boxes.around(rows), bool(is_box(rows).all()), body.bounds
