"""What limits each way in which a cable may leave its plug.

The room a cable needs is no matter: cables share it, and nothing clashes with it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from layout.build.placed import Build, PlacedBody
from layout.geometry.bodies.crowd import Crowd
from layout.geometry.bodies.gathered import SURE_MM
from layout.geometry.relations.query import meeting, relations
from layout.geometry.relations.relation import Relation
from layout.geometry.solids.boxes import box_gaps
from layout.geometry.solids.cells import Floats, Ints
from layout.geometry.space import Axis, Direction, Vector
from layout.parts.form.form import Role
from layout.parts.wiring.plug import face_reach_mm
from layout.questions.bends.cable_ways import Way
from layout.questions.bends.in_way import in_the_way, parted, passes
from layout.questions.findings.tolerance import ALLOWED_MM
from layout.questions.findings.walls import outwards
from layout.values import dataclass

__all__ = [
    "Answer",
    "Answers",
    "answers",
    "least_lacking",
    "reach_mm",
    "towards_limit",
]

_FAR_MM = 250.0
"""Beyond this nothing is near enough to be worth a finding."""
_AT_ONCE = 6
"""How many bodies near a way are looked at together for the one that limits it."""
_TIE_MM = 2 * SURE_MM
"""Ways that lack as much but for this are as bad: the first is told."""
_BESIDE_MM = 0.5
"""A bend that goes no farther beyond its plug towards a body is not limited by it."""


@dataclass(frozen=True, slots=True)
class Answer:
    """A way with what limits it, and how much room is left or wanting."""

    way: Way
    limit: PlacedBody
    relation: Relation

    @property
    def spare_mm(self) -> float:
        """Return the room that is left; negative where it is wanting."""
        overlap = self.relation.overlap
        return self.relation.gap_mm if overlap is None else -overlap.mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """What limits ways, and the ways that nothing limits.

    Ways that are blocked are left out where their plug has another.  ``shut`` are the
    plugs all of whose ways are blocked, each with a way of it and what blocks that.
    """

    limited: tuple[Answer, ...]
    open: tuple[Way, ...]
    shut: Mapping[tuple[str, ...], Blocked]


Blocked: TypeAlias = tuple[Way, PlacedBody]
"""A way, and a body that leaves it no room."""


def answers(
    build: Build, ways: Sequence[Way], *, lacks: bool = True, spares: bool = True
) -> Answers:
    """Return what limits each way.

    Not ``lacks``: by how much shut ways lack room is not asked, which costs most; not
    ``spares``: nor how much the open ones have, which all count as not limited.
    """
    if not ways:
        return Answers(limited=(), open=(), shut={})
    asked = _Asked.of(build, ways)
    crowd, index = asked.crowd, _pairs(asked)
    away = box_gaps(*crowd.boxes.pairs(index))
    met = _met(asked, index, away)
    first = len(build.bodies)
    blocked = dict(index[:, met][:, ::-1].T.tolist())
    passable = {k: way for k, way in enumerate(ways, start=first) if k not in blocked}
    has_another = {way.of for way in passable.values()}
    shut = [k for k in sorted(blocked) if ways[k - first].of not in has_another]
    hit = index[:, met & np.isin(index[0], shut if lacks else [])]
    free = spares & (away <= _FAR_MM) & ~np.isin(index[0], sorted(blocked))
    nearest = _nearest(asked, index[:, free], away[free])
    return Answers(
        limited=(*_worst(asked, hit), *nearest.values()),
        open=tuple(way for k, way in passable.items() if k not in nearest),
        shut={ways[k - first].of: asked.pair(k, blocked[k]) for k in reversed(shut)},
    )


def least_lacking(build: Build, ways: Sequence[Way]) -> list[Answer]:
    """Return for each plug the way that lacks least, where each of its ways is blocked.

    How much ways lack at least is told in arrays; only those that may still lack least,
    and of what blocks them only what may matter most, are looked at exactly.
    """
    if not ways:
        return []
    from layout.questions.bends.wanting import Blocks  # noqa: PLC0415 (where cables lack)

    asked = _Asked.of(build, ways)
    crowd, index = asked.crowd, _pairs(asked)
    index = index[:, _met(asked, index, box_gaps(*crowd.boxes.pairs(index)))]
    blocks = Blocks.of((build, ways), (crowd, index), lambda e: in_the_way(build, e))
    blocked = {*index[0].tolist()}
    free = {e.of for k, e in enumerate(ways, len(build.bodies)) if k not in blocked}
    least: dict[tuple[str, ...], tuple[float, int, Answer]] = {}
    for i, lacks_mm in blocks.at_least():
        of = asked.pair(i, 0)[0].of
        if of in free:
            continue
        if of in least and lacks_mm > -least[of][0] - _TIE_MM:
            continue
        found: list[tuple[float, int, Answer]] = []
        for j, stands in blocks.worst_of(i):
            answer = Answer(*asked.pair(i, j), stands)
            if of in least and answer.spare_mm < least[of][0]:
                break
            found.append((answer.spare_mm, j, answer))
        else:  # of ways and of bodies that are as bad the first is told, as in a check
            spare_mm, _, worst = min(found, key=lambda each: each[:2])
            if of not in least or (spare_mm, -i) > least[of][:2]:
                least[of] = spare_mm, -i, worst
    return [each for _, _, each in least.values()]


@dataclass(frozen=True, slots=True, eq=False)
class _Asked:
    """A build's bodies and the ways of its cables, ready in one crowd in this order."""

    build: Build
    ways: Sequence[Way]
    crowd: Crowd

    @classmethod
    def of(cls, build: Build, ways: Sequence[Way]) -> _Asked:
        """Return both in one crowd."""
        bodies = [*(each.body for each in build.bodies), *(way.body for way in ways)]
        return cls(build, ways, Crowd.of(bodies))

    def pair(self, i: int, j: int) -> tuple[Way, PlacedBody]:
        """Return the way and the body at two places of the crowd."""
        return self.ways[i - len(self.build.bodies)], self.build.bodies[j]


def _pairs(asked: _Asked) -> Ints:
    """Return every way with every body that could take room from it, shape (2, n)."""
    build, first = asked.build, len(asked.build.bodies)
    low, high = asked.crowd.boxes.low, asked.crowd.boxes.high
    walls = [outwards(body) for body in build.bodies]
    giving = {out: np.array([each is out for each in walls]) for out in Direction}
    known: dict[tuple[str, frozenset[Role]], NDArray[np.bool_]] = {}
    trays = [j for j, body in enumerate(build.bodies) if body.role is Role.TRAY]
    alike = [(way.placed.part, passes(way)) for way in asked.ways]
    for way, of in zip(asked.ways, alike, strict=True):
        if of not in known:
            known[of] = in_the_way(build, way)
    outs = [way.plug.out for way in asked.ways]
    axis = np.array([out.axis.index for out in outs])
    ways = first + np.arange(len(outs))
    # What ends before the cable's room begins takes nothing from it.
    beyond = np.where(
        np.array([[out.sign > 0] for out in outs]),
        high[axis, :first] > low[axis, ways][:, None],
        low[axis, :first] < high[axis, ways][:, None],
    )
    giving_way = np.stack([giving[out] for out in outs])
    taking = np.stack([known[of] for of in alike])
    other_side = parted((low[2], high[2]), ways, trays)[:, :first]
    which, body = np.nonzero((beyond | giving_way) & taking & ~other_side)
    return np.stack([which + first, body])


def _met(asked: _Asked, index: Ints, away: Floats) -> NDArray[np.bool_]:
    """Tell which ways a body leaves no room: they meet, or the way lies past a wall."""
    met = np.zeros(len(away), bool)
    near = np.flatnonzero(away <= 0.0)
    met[near] = meeting(asked.crowd, index[:, near].T)
    low, high = asked.crowd.boxes.low, asked.crowd.boxes.high
    for j, body in enumerate(asked.build.bodies):
        if (to := outwards(body)) is None:
            continue
        k = np.flatnonzero(index[1] == j)
        way, axis = index[0, k], to.axis.index
        past = (
            low[axis, way] >= high[axis, j]
            if to.sign > 0
            else high[axis, way] <= low[axis, j]
        )
        for across in (each.index for each in Axis if each is not to.axis):
            past &= low[across, way] < high[across, j]
            past &= low[across, j] < high[across, way]
        met[k[past]] = True
    return met


def _worst(asked: _Asked, index: Ints) -> Iterable[Answer]:
    """Return for each way the body before which it lacks most."""
    if not index.size:
        return ()
    from layout.questions.bends.wanting import wanting  # noqa: PLC0415 (where cables lack)

    least: dict[int, Answer] = {}
    stand = relations(asked.crowd, index.T, overlaps=False)
    lacks = wanting(asked.build, lambda way: in_the_way(asked.build, way))
    for (i, j), stands in zip(index.T.tolist(), stand, strict=True):
        way, limit = asked.pair(i, j)
        answer = Answer(way, limit, lacks(way, limit, stands))
        if _nearer(answer, least.get(i)):
            least[i] = answer
    return least.values()


def _nearest(asked: _Asked, index: Ints, away: Floats) -> dict[int, Answer]:
    """Return for each way the nearest body that limits it, by place in the crowd.

    Boxes are no farther apart than bodies: those whose boxes are nearest come first,
    and only as many as could still be nearer than what is known to limit.
    """
    waiting: dict[int, list[tuple[int, float]]] = {}
    for place in np.lexsort((away, index[0])).tolist():
        i, j = index[:, place].tolist()
        waiting.setdefault(i, []).append((j, float(away[place])))
    best: dict[int, Answer] = {}
    while waiting:
        batch = [(i, j) for i, others in waiting.items() for j, _ in others[:_AT_ONCE]]
        for (i, j), stands in zip(batch, relations(asked.crowd, batch), strict=True):
            answer = Answer(*asked.pair(i, j), stands)
            if _nearer(answer, best.get(i)) and _limits(answer):
                best[i] = answer
        waiting = {
            i: others[_AT_ONCE:]
            for i, others in waiting.items()
            if len(others) > _AT_ONCE
            and (i not in best or others[_AT_ONCE][1] <= best[i].spare_mm)
        }
    return dict(sorted(best.items()))


def _nearer(answer: Answer, known: Answer | None) -> bool:
    return known is None or answer.spare_mm < known.spare_mm


def _limits(answer: Answer) -> bool:
    """Tell whether a body lies where the bend goes, not just beside the plug."""
    if answer.relation.overlap is not None:
        return True
    towards = towards_limit(answer)
    face_mm = face_reach_mm(answer.way.plug, towards)
    return reach_mm(answer, towards) - face_mm > _BESIDE_MM


def towards_limit(answer: Answer) -> Vector:
    """Return the unit vector from the cable's room to what limits it."""
    overlap, witness = answer.relation.overlap, answer.relation.witness
    if overlap is not None:
        x, y, z = (overlap.sign * float(axis is overlap.axis) for axis in Axis)
        return x, y, z
    if witness is None or witness.length_mm <= ALLOWED_MM:
        return answer.way.plug.out.vector
    x, y, z = (
        (b - a) / witness.length_mm
        for a, b in zip(witness.from_mm, witness.to_mm, strict=True)
    )
    return x, y, z


def reach_mm(answer: Answer, towards: Vector) -> float:
    """Return how far the cable's room reaches towards what limits it."""
    witness = answer.relation.witness
    if witness is not None:
        return _dot(witness.from_mm, towards)
    bounds = answer.way.body.bounds
    return max(_dot(bounds.low, towards), _dot(bounds.high, towards))


def _dot(a: Iterable[float], b: Iterable[float]) -> float:
    return sum(p * q for p, q in zip(a, b, strict=True))
