"""How much room a blocked way of a cable lacks before a part that moves as one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from layout.build.assemble import CASE
from layout.build.placed import Build, PlacedBody
from layout.geometry.bodies.body import Body, shapes_of_rows
from layout.geometry.bodies.crowd import Crowd
from layout.geometry.relations.freeing import least_mm
from layout.geometry.relations.overlap import overlap
from layout.geometry.relations.query import relations
from layout.geometry.relations.relation import Overlap, Relation
from layout.geometry.solids.cells import Floats, Ints, moved
from layout.questions.bends.cable_ways import Way
from layout.questions.findings.tolerance import ALLOWED_MM
from layout.questions.findings.walls import outwards, room_wanting
from layout.values import dataclass

__all__ = ["Blocks", "wanting"]

_Takes: TypeAlias = Callable[[Way], NDArray[np.bool_]]
"""Which bodies of the build take room from a way."""


def wanting(
    build: Build, takes: _Takes
) -> Callable[[Way, PlacedBody, Relation], Relation]:
    """Return what tells how a way stands to a body that blocks it, as much as it lacks.

    Bodies of one part move as one: a cable that lies across two fans of a row is not
    freed by a shift that leaves it in the other.  Each wall of the case gives alone.

    Parameters
    ----------
    takes : callable
        Which bodies of the build take room from a way.
    """
    known: dict[tuple[int, str], Overlap | None] = {}

    def asked(way: Way, limit: PlacedBody, stands: Relation) -> Relation:
        if limit.part in {CASE, way.placed.part} or outwards(limit):
            return room_wanting(way.body, limit, stands)
        key = (id(way), limit.part)
        if key not in known:
            known[key] = _together(way.body, _of_part(build, limit.part, takes(way)))
        whole = known[key]
        if whole:
            return replace(stands, overlap=whole)
        return room_wanting(way.body, limit, stands)

    return asked


def _of_part(build: Build, part: str, takes: NDArray[np.bool_]) -> list[PlacedBody]:
    return [
        each
        for each, taken in zip(build.bodies, takes, strict=True)
        if taken and each.part == part
    ]


def _together(room: Body, bodies: list[PlacedBody]) -> Overlap | None:
    """Return the shortest shift of bodies as one that frees a room; None of one."""
    if len(bodies) < 2:
        return None
    rows = [moved(each.body.shape.cells, each.body.at_mm) for each in bodies]
    (shape,) = shapes_of_rows([np.concatenate(rows, axis=1)])
    return overlap(room, Body(name=bodies[0].part, shape=shape))


_PLACES: Final = 5


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Blocks:
    """What blocks ways: how much each body takes at least, and at most.

    ``index`` holds places in the crowd of the build's bodies and the ways after them.
    """

    build: Build
    ways: Sequence[Way]
    crowd: Crowd
    index: Ints
    least: Floats
    most: Floats
    lacks: Callable[[Way, PlacedBody, Relation], Relation]

    @classmethod
    def of(
        cls, asked: tuple[Build, Sequence[Way]], met: tuple[Crowd, Ints], takes: _Takes
    ) -> Blocks:
        """Return what of a crowd blocks which ways, pairs of shape (2, n)."""
        (build, ways), (crowd, index) = asked, met
        least, most = _bounds(build, [e.placed.part for e in ways], met)
        return cls(
            build=build,
            ways=ways,
            crowd=crowd,
            index=index,
            least=least,
            most=most,
            lacks=wanting(build, takes),
        )

    def at_least(self) -> Iterator[tuple[int, float]]:
        """Yield each way with how much it lacks at least, the least first.

        Of those that lack as much the first comes first.
        """
        lacks: dict[int, float] = {}
        for i, mm in zip(self.index[0].tolist(), self.least.tolist(), strict=True):
            lacks[i] = max(mm, lacks.get(i, 0.0))
        yield from sorted(lacks.items(), key=lambda e: (round(e[1], _PLACES), e[0]))

    def worst_of(self, way: int) -> Iterator[tuple[int, Relation]]:
        """Yield how a way stands to the bodies that may take most of its room.

        Those that surely take most come first.
        """
        own = np.flatnonzero(self.index[0] == way)
        own = own[np.argsort(-self.least[own], kind="stable")]
        asked, worst_mm = self.ways[way - len(self.build.bodies)], 0.0
        for k in own.tolist():
            if self.most[k] < worst_mm - ALLOWED_MM:
                continue
            j = int(self.index[1, k])
            (stands,) = relations(self.crowd, [(way, j)], overlaps=False)
            told = self.lacks(asked, self.build.bodies[j], stands)
            worst_mm = max(worst_mm, told.overlap.mm if told.overlap else 0.0)
            yield j, told


def _bounds(
    build: Build, parts: Sequence[str], met: tuple[Crowd, Ints]
) -> tuple[Floats, Floats]:
    """Return how much each body takes from a way of a part at least and at most.

    A wall gives along its normal alone; a way past it lacks all that lies between.
    """
    crowd, index = met
    a, b = crowd.boxes.pairs(index)
    far = least_mm(crowd.cells, index)
    whole = np.stack([a.high - b.low, b.high - a.low])
    for part, own in _as_one(build, parts, index):
        all_of = [k for k, each in enumerate(build.bodies) if each.part == part]
        low, high = crowd.boxes.low[:, all_of], crowd.boxes.high[:, all_of]
        far[:, :, own] = far[:, :, own].max(axis=2, keepdims=True)
        whole[0][:, own] = a.high[:, own] - low.min(axis=1, keepdims=True)
        whole[1][:, own] = high.max(axis=1, keepdims=True) - a.low[:, own]
    least, most = (each.min(axis=(0, 1)) for each in (far, whole))
    for j in sorted({*index[1].tolist()}):
        if (to := outwards(build.bodies[j])) is None:
            continue
        own, axis = np.flatnonzero(index[1] == j), to.axis.index
        ahead, back = (0, 1) if to.sign > 0 else (1, 0)
        most[own] = whole[ahead, axis, own]
        past = whole[back, axis, own] <= 0.0
        least[own] = np.where(past, most[own], far[ahead, axis, own])
    return least, most


def _as_one(
    build: Build, parts: Sequence[str], index: Ints
) -> Iterator[tuple[str, Ints]]:
    """Yield the pairs of each way with a part of several bodies, which move as one."""
    count = Counter(each.part for each in build.bodies)
    pairs: dict[tuple[int, str], list[int]] = {}
    for k, (i, j) in enumerate(index.T.tolist()):
        part = build.bodies[j].part
        if count[part] > 1 and part not in {CASE, parts[i - len(build.bodies)]}:
            pairs.setdefault((i, part), []).append(k)
    for (_, part), own in pairs.items():
        yield part, np.array(own)
