"""A part whose figure grows: where its bodies come too near to what stays.

Over a stretch of the figure on which every bound of the part's boxes is linear in it,
the values at which a pair is too near are one interval in closed form; where a kind's
figures bend or jump, the stretch is halved until they do not.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Sequence
from dataclasses import field, replace

import numpy as np

from layout.build.errors import SeatError
from layout.build.placed import Build
from layout.build.remade import Remaker
from layout.errors import LayoutError
from layout.geometry.boxes import Boxes
from layout.geometry.cells import Floats, moved
from layout.geometry.gap import is_box
from layout.geometry.growth import near_values
from layout.parts.dimensions import Dimension
from layout.parts.errors import PartError
from layout.questions.asked import Question, asked, question_id, unnamed
from layout.questions.check import shared_boxes, spares
from layout.questions.finding import Group
from layout.questions.linear import Bounds, Linear
from layout.questions.tolerance import ALLOWED_MM
from layout.values import dataclass

__all__ = ["Grown", "Limit", "Near", "SlantedError", "limits_of"]


class SlantedError(LayoutError):
    """A growing body is not made of boxes; the closed form does not know it."""


@dataclass(frozen=True, slots=True)
class Near:
    """From which to which value of the figure a pair is too near.

    Not ``exact`` where what stays is slanted and the boxes around its cells were taken:
    too near at more values than it truly is.
    """

    from_mm: float
    to_mm: float
    limit: Limit

    @property
    def exact(self) -> bool:
        """Tell whether what stays is not slanted."""
        return self.limit.exact


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A question that involves the part: what stays, and how near is too near.

    ``id`` is that of its finding, ``between`` are the two bodies and the rule.
    """

    id: str
    between: tuple[str, str, str]
    mine: str
    still: Boxes
    within_mm: float
    exact: bool
    low: tuple[float, ...]
    high: tuple[float, ...]

    def far_from(self, low: Sequence[float], high: Sequence[float]) -> bool:
        """Tell whether all that stays lies farther from a box than matters."""
        return any(
            a - self.within_mm > d or c - self.within_mm > b
            for a, b, c, d in zip(self.low, self.high, low, high, strict=True)
        )


@dataclasses.dataclass(slots=True)
class Grown:
    """One figure of one part on its seat.

    ``limits`` are those of the pieces it has now; where ``whole``, those of pieces that
    it has at other sizes alone are added as they appear.
    """

    remaker: Remaker
    key: str
    dimension: Dimension
    limits: list[Limit]
    whole: bool = True
    _known: dict[float, Bounds | None] = field(default_factory=dict)
    _met: set[str] = field(default_factory=set)

    def build(self, mm: float) -> Build:
        """Return the build with the figure at a value."""
        return self.remaker.remade(self.key, self.dimension.with_mm(mm))

    def within(self, limits: list[Limit]) -> Grown:
        """Return the same figure held by some limits alone; what is known is shared."""
        return replace(self, limits=limits, whole=False)

    def near(self, low_mm: float, high_mm: float) -> list[Near]:
        """Return every interval of values at which a pair is too near.

        Values at which there can be no such part are left out.
        """
        found: list[Near] = []
        jump: tuple[float, float] | None = None
        linear = Linear(self._bounds)
        for start, end in linear.pieces(low_mm, high_mm):
            if not linear.is_linear(start, end):
                jump = (start, end)
                continue
            here = list(self._on(start, end))
            if jump is not None:
                found += _over(jump, (*found, *here))
                jump = None
            found += here
        if jump is not None:
            found += _over(jump, found)
        return found

    def possible(self, mm: float) -> bool:
        """Tell whether there can be such a part."""
        return self._bounds(mm) is not None

    def _on(self, start_mm: float, end_mm: float) -> Iterator[Near]:
        first, last = self._bounds(start_mm), self._bounds(end_mm)
        if first is None or last is None:
            return
        if self.whole:
            self._meet(first, start_mm)
        long_mm = end_mm - start_mm
        hulls = {name: _hull(first[name], last[name]) for name in first}
        for each in self.limits:
            # some pieces are there at some sizes alone
            hull = hulls.get(each.mine)
            if hull is None or each.far_from(*hull):
                continue
            ends = _boxes(first[each.mine]), _boxes(last[each.mine])
            low, high = near_values(ends, each.still, each.within_mm)
            for i, j in np.argwhere(low <= high):
                yield Near(
                    start_mm + long_mm * float(low[i, j]),
                    start_mm + long_mm * float(high[i, j]),
                    each,
                )

    def _meet(self, bounds: Bounds, mm: float) -> None:
        """Add the limits of pieces that the part has at a value for the first time."""
        if not self._met:
            own = [b.name for b in self.remaker.build.bodies if b.part == self.key]
            self._met.update(own)
        new = bounds.keys() - self._met - {each.mine for each in self.limits}
        if new:
            self._met.update(new)
            found = limits_of(self.build(mm), self.key)
            self.limits += [each for each in found if each.mine in new]

    def _bounds(self, mm: float) -> Bounds | None:
        """Return the part's boxes at a value; None where there is no such part."""
        if mm not in self._known:
            try:
                own = self.remaker.cells(self.key, self.dimension.with_mm(mm))
            except (PartError, SeatError):
                self._known[mm] = None
            else:
                self._known[mm] = {name: _rows(cells) for name, cells in own.items()}
        return self._known[mm]


def _over(jump: tuple[float, float], near: Sequence[Near]) -> list[Near]:
    """Return a jump as too near where it is so at either of its ends."""
    start, end = jump
    return [
        replace(each, from_mm=start, to_mm=end)
        for each in near
        if each.to_mm >= start >= each.from_mm or each.from_mm <= end <= each.to_mm
    ]


def _rows(rows: Floats) -> Floats:
    """Return the corners of a body's boxes, in an order that growth keeps."""
    if not is_box(rows).all():
        raise SlantedError
    boxes = Boxes.around(rows)
    bounds = np.concatenate([boxes.low, boxes.high])
    return bounds[:, np.lexsort(np.round(bounds, 6))]


def _boxes(bounds: Floats) -> Boxes:
    return Boxes(bounds[:3], bounds[3:])


def _hull(first: Floats, last: Floats) -> tuple[list[float], list[float]]:
    """Return the box around a body at both ends of a stretch."""
    low = np.minimum(first[:3], last[:3]).min(axis=1)
    high = np.maximum(first[3:], last[3:]).max(axis=1)
    return low.tolist(), high.tolist()


def limits_of(build: Build, key: str) -> list[Limit]:
    """Return what each question of the part's findings measures to.

    Behind something of another part that is nearer already a pair makes no finding.
    """
    questions, carried = asked(build), build.carried_by(key)
    near = [q for q in questions if q.rule.group is Group.DISTANCE]
    groups: dict[str, list[Question]] = {}
    for q in (*near, *unnamed(build, questions)):
        id_ = question_id(q.rule, build.bodies[q.a], build.bodies[q.b])
        groups.setdefault(id_, []).append(q)
    mine = [
        (own, [q for q in group if q not in own])
        for group in groups.values()
        if (own := [q for q in group if _mine(build, q, carried)])
    ]
    theirs = [q for _, others in mine for q in others]
    told = dict(zip(theirs, spares(build, theirs), strict=True))
    found = []
    for own, others in mine:
        spare_mm = min([0.0, *(told[q] for q in others)])
        found += [
            limit
            for q in own
            if (limit := _limit(build, q, carried, spare_mm=spare_mm))
        ]
    return found


def _mine(build: Build, question: Question, carried: frozenset[str]) -> bool:
    """Tell whether a question is between what is carried and what is not."""
    parts = (build.bodies[question.a].part, build.bodies[question.b].part)
    return len({part in carried for part in parts}) > 1


def _limit(
    build: Build, question: Question, carried: frozenset[str], *, spare_mm: float
) -> Limit | None:
    a, b = build.bodies[question.a], build.bodies[question.b]
    mine, still = (a, b) if a.part in carried else (b, a)
    boxes = shared_boxes(build, a, b)
    rest = still.body.outside(boxes) if boxes else still.body
    if rest is None:
        return None
    rows = moved(rest.shape.cells, rest.at_mm)
    exact = bool(is_box(rows).all())
    box = rest.bounds
    return Limit(
        id=question_id(question.rule, a, b),
        between=(a.name, b.name, question.rule.name),
        mine=mine.name,
        still=Boxes.around(rows),
        within_mm=max(0.0, question.rule.need_mm + spare_mm - ALLOWED_MM),
        exact=exact,
        low=box.low,
        high=box.high,
    )
