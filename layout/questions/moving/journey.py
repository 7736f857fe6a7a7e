"""The way of a moving part: everything that is asked of its bodies as they travel."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cached_property
from typing import Final

import numpy as np

from layout.build.placed import Build, PlacedBody
from layout.geometry.bodies.body import Body
from layout.geometry.solids.cells import Floats
from layout.geometry.space import Axis, Vector
from layout.geometry.travel.stretches import Stretches
from layout.geometry.travel.travel import blocked_pairs
from layout.questions.checking.check import shared_boxes
from layout.questions.clearances.asked import Question, asked, question_id, unnamed
from layout.questions.findings.finding import Group
from layout.questions.moving.moves import MoveError
from layout.values import dataclass

__all__ = ["Travel", "Way", "shift_of"]

_MOST: Final = 10_001


@dataclass(frozen=True, slots=True)
class Travel:
    """From which shift to which, and how far from one position to the next, mm."""

    first_mm: float
    last_mm: float
    step_mm: float

    def __post_init__(self) -> None:
        finite = all(map(math.isfinite, (self.first_mm, self.last_mm, self.step_mm)))
        if not finite or self.first_mm > self.last_mm or self.step_mm <= 0.0:
            raise MoveError(
                f"found a travel {self.first_mm:g}:{self.last_mm:g}:{self.step_mm:g}; "
                "FROM:TO:STEP with FROM up to TO and a step over 0 would be right"
            )
        if (self.last_mm - self.first_mm) / self.step_mm > _MOST:
            raise MoveError(
                f"found over {_MOST} positions; a longer step would be right"
            )

    @property
    def shifts_mm(self) -> Floats:
        """Return every position."""
        count = int((self.last_mm - self.first_mm) / self.step_mm + 1e-9) + 1
        return self.first_mm + self.step_mm * np.arange(float(count))


@dataclass(frozen=True, eq=False, kw_only=True)
class Way:
    """Everything that is asked of the moving bodies on their way.

    ``rest`` are the other bodies of a part of which one alone moves: what fails of
    them by themselves is not the moving one's.
    No slots, since a cached value needs a place of its own.
    """

    build: Build
    moving: frozenset[int]
    rest: frozenset[int]
    axis: Axis
    travel: Travel

    @cached_property
    def shifts(self) -> Floats:
        """Every position."""
        return self.travel.shifts_mm

    @cached_property
    def groups(self) -> list[list[Question]]:
        """The questions of each finding that may name a moving body."""
        questions = asked(self.build)
        near = [q for q in questions if q.rule.group is Group.DISTANCE]
        every = [*near, *unnamed(self.build, questions)]
        if self.rest:
            every = [q for q in every if self.counts(q) or not {q.a, q.b} & self.rest]
        return _groups(self.build, every, self.moving)

    @cached_property
    def met(self) -> dict[Question, Stretches]:
        """At which shifts each pair interferes: exact, and few pairs do."""
        pairs = [q for group in self.groups for q in group if self.goes(q)]
        return dict(zip(pairs, self.blocked(pairs, 0.0), strict=True))

    def goes(self, question: Question) -> bool:
        """Tell whether one of the two bodies moves, and the other stays."""
        return (question.a in self.moving) != (question.b in self.moving)

    def names(self, question: Question) -> tuple[str, str]:
        """Return the names of the two bodies."""
        return self.build.bodies[question.a].name, self.build.bodies[question.b].name

    def counts(self, question: Question) -> bool:
        """Tell whether a moving body is one of the two."""
        return question.a in self.moving or question.b in self.moving

    def placed(self, question: Question) -> tuple[PlacedBody, PlacedBody]:
        """Return what stays and what goes."""
        a, b = self.build.bodies[question.a], self.build.bodies[question.b]
        return (b, a) if question.a in self.moving else (a, b)

    def pair(self, question: Question) -> tuple[Body | None, Body]:
        """Return what stays, without what its seat lets the other share, and goes."""
        stays, goes = self.placed(question)
        boxes = shared_boxes(self.build.mates, stays, goes)
        return (stays.body.outside(boxes) if boxes else stays.body), goes.body

    def blocked(
        self, questions: Sequence[Question], need_mm: float | Sequence[float]
    ) -> list[Stretches]:
        """Return the shifts at which pairs interfere, or come nearer than a need."""
        pairs = [self.pair(each) for each in questions]
        bodies: list[Body] = []
        index = []
        for stays, goes in pairs:
            # nothing left of what stays: the two may share all there is
            far = goes.moved((0.0, 1e6, 0.0)) if stays is None else stays
            index.append((len(bodies), len(bodies) + 1))
            bodies += [far, goes]
        # a little farther, so that no stretch is cut off at a position
        travel_mm = (self.travel.first_mm - 1.0, self.travel.last_mm + 1.0)
        return list(
            blocked_pairs(
                bodies, index, self.axis, travel_mm=travel_mm, need_mm=need_mm
            )
        )


def _groups(
    build: Build, questions: Sequence[Question], moving: frozenset[int]
) -> list[list[Question]]:
    """Return the questions of each finding that may name a moving body."""
    groups: dict[str, list[Question]] = {}
    for q in questions:
        id_ = question_id(q.rule, build.bodies[q.a], build.bodies[q.b])
        groups.setdefault(id_, []).append(q)
    return [
        group
        for group in groups.values()
        if any(q.a in moving or q.b in moving for q in group)
    ]


def shift_of(axis: Axis, mm: float) -> Vector:
    """Return a shift along an axis."""
    x, y, z = (mm if each is axis else 0.0 for each in Axis)
    return (x, y, z)
