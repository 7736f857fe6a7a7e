"""The ways in which cables may leave their plugs, and what limits each.

The room a cable needs is no matter: cables share it, and nothing clashes with it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import TypeAlias

import numpy as np

from layout.build.placed import Build, PlacedBody, PlacedPlug
from layout.geometry.body import Body, Shape, shapes
from layout.geometry.crowd import Crowd
from layout.geometry.query import clearances, relations
from layout.geometry.relation import Relation
from layout.geometry.space import ORIGIN, Axis, Direction, Vector
from layout.parts.form import Plug, Role
from layout.parts.plug import deep_mm, face_reach_mm, leaves, room, run_mm
from layout.questions.plug_rules import PLUG_RULES, PlugRule
from layout.questions.tolerance import ALLOWED_MM
from layout.questions.walls import OUTWARDS, is_beyond, room_wanting
from layout.values import dataclass

__all__ = ["Answer", "Way", "answers", "reach_mm", "towards_limit", "ways_of"]

_FAR_MM = 250.0
"""Beyond this nothing is near enough to be worth a finding."""
_AT_ONCE = 4
"""How many bodies near a way are looked at together for the one that limits it."""
_BESIDE_MM = 0.5
"""A bend that goes no farther beyond its plug towards a body is not limited by it."""
_PLUGS = frozenset({Role.BOARD_CONNECTOR, Role.CARD_PLUG, Role.SUPPLY_LEADS})
"""Cables pass round one another's plugs."""


_Make: TypeAlias = tuple[Plug, Direction, float]


@dataclass(frozen=True, slots=True)
class Way:
    """One way in which a plug's cable may leave, with the body it needs."""

    rule: PlugRule
    placed: PlacedPlug
    to: Direction
    straight_mm: float
    body: Body

    @property
    def plug(self) -> Plug:
        """Return the plug in its place."""
        return self.placed.plug

    @property
    def of(self) -> tuple[str, str, str, str]:
        """Return which plug it is; it may be at one of several places."""
        placed = self.placed
        return self.rule.name, placed.part, placed.plug.kind.value, str(self._place)

    @property
    def _place(self) -> float:
        """Return where along its row a plug stands; 0 for those with a choice."""
        on_board = self.rule.on is Role.BOARD_CONNECTOR
        return self.plug.at_mm[0] if on_board else 0.0


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


def ways_of(build: Build) -> Iterator[Way]:
    """Yield every way of every plug that a rule asks about and the build uses."""
    roles = {body.name: body.role for body in build.bodies}
    drives = Role.DRIVE in roles.values()
    needs = dict(build.needs)
    found = [
        (rule, placed, to)
        for rule in PLUG_RULES
        for placed in build.plugs
        if roles.get(placed.name) is rule.on and placed.plug.kind in rule.kinds
        if drives or rule.name != "board-data-bend"
        for to in leaves(placed.plug)
    ]
    straights = [
        _straight_mm(placed.plug, to, needs.get(rule.name))
        for rule, placed, to in found
    ]
    # Plugs of one make share their shapes, wherever they are.
    makes = [
        (replace(placed.plug, name="", at_mm=ORIGIN, links=()), to, straight_mm)
        for (_, placed, to), straight_mm in zip(found, straights, strict=True)
    ]
    each = tuple(dict.fromkeys(makes))
    shape_of = dict(zip(each, _shapes(each), strict=True))
    for (rule, placed, to), make in zip(found, makes, strict=True):
        body = Body(name=placed.name, shape=shape_of[make], at_mm=placed.plug.at_mm)
        yield Way(rule, placed, to, make[2], body)


@lru_cache(maxsize=8)
def _shapes(makes: tuple[_Make, ...]) -> tuple[Shape, ...]:
    """Return the rooms of plugs at the origin; a build asked again has the same."""
    return tuple(shapes([room(plug, to, straight_mm=mm) for plug, to, mm in makes]))


def _straight_mm(plug: Plug, to: Direction, need_mm: float | None) -> float:
    """Return the straight run: the kind's, or what a need of the file's leaves."""
    if need_mm is None:
        return run_mm(plug)
    return max(0.0, need_mm - deep_mm(plug, to, straight_mm=0.0))


def answers(build: Build, ways: Sequence[Way]) -> Iterator[Answer]:
    """Yield what limits each way; ways that nothing limits are left out.

    Ways that are blocked are left out as well where their plug has another.
    """
    crowd = Crowd.of([*(each.body for each in build.bodies), *(w.body for w in ways)])
    first = len(build.bodies)
    waiting = _by_gap(build, crowd, ways)
    while waiting:
        batch = [(i, j) for i, others in waiting.items() for j in others[:_AT_ONCE]]
        least: dict[int, Answer] = {}
        for (i, j), stands in zip(batch, relations(crowd, batch), strict=True):
            way, limit = ways[i - first], build.bodies[j]
            answer = Answer(way, limit, room_wanting(way.body, limit, stands))
            if _limits(answer) and (
                i not in least or answer.spare_mm < least[i].spare_mm
            ):
                least[i] = answer
        yield from least.values()
        waiting = {
            i: others[_AT_ONCE:]
            for i, others in waiting.items()
            if i not in least and len(others) > _AT_ONCE
        }


def _pairs(build: Build, crowd: Crowd, ways: Sequence[Way]) -> list[tuple[int, int]]:
    """Return every way with every body that could take room from it."""
    first = len(build.bodies)
    low, high = crowd.boxes.low, crowd.boxes.high
    out = []
    for k, way in enumerate(ways, start=first):
        axis, ahead = way.plug.out.axis.index, way.plug.out.sign > 0
        # What ends before the cable's room begins takes nothing from it.
        beyond = (
            high[axis, :first] > low[axis, k]
            if ahead
            else low[axis, :first] < high[axis, k]
        )
        out += [
            (k, j)
            for j, body in enumerate(build.bodies)
            if (beyond[j] or OUTWARDS.get(body.role) is way.plug.out)
            and _in_the_way(way, body)
        ]
    return out


def _by_gap(build: Build, crowd: Crowd, ways: Sequence[Way]) -> dict[int, list[int]]:
    """Return what each way meets, or where it meets nothing, all that is near it.

    The nearest come first.  What meets a way is looked at together, so that the worst
    of it is found.
    """
    first = len(build.bodies)
    pairs = _pairs(build, crowd, ways)
    stand = clearances(crowd, pairs, limit_mm=_FAR_MM)
    past = [
        is_beyond(ways[i - first].body, build.bodies[j])
        for i, j in stand.pairs.tolist()
    ]
    met = stand.interfering | np.array(past, bool)
    blocked = set(stand.pairs[met, 0].tolist())
    passable = {way.of for k, way in enumerate(ways, start=first) if k not in blocked}
    out: dict[int, list[int]] = {}
    for k in np.lexsort((stand.gap_mm, ~met)).tolist():
        i, j = stand.pairs[k].tolist()
        if i in blocked and (not met[k] or ways[i - first].of in passable):
            continue
        out.setdefault(i, []).append(j)
    return out


def _limits(answer: Answer) -> bool:
    """Tell whether a body lies where the bend goes, not just beside the plug."""
    if answer.relation.overlap is not None:
        return True
    towards = towards_limit(answer)
    face_mm = face_reach_mm(answer.way.plug, towards)
    return reach_mm(answer, towards) - face_mm > _BESIDE_MM


def _in_the_way(way: Way, body: PlacedBody) -> bool:
    """Tell whether a body takes room from a cable."""
    if not body.role.is_matter or body.role in _PLUGS | way.plug.passes:
        return False
    own = body.part == way.placed.part
    # A board's own parts were placed by its maker with the plugs in mind.
    if own and way.rule.on is not Role.CARD_PLUG:
        return False
    return body.role not in way.rule.asked_elsewhere


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
