"""How much room a blocked way of a cable lacks before a part that moves as one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from layout.build.assemble import CASE
from layout.build.placed import Build, PlacedBody
from layout.geometry.body import Body, shapes_of_rows
from layout.geometry.cells import moved
from layout.geometry.overlap import overlap
from layout.geometry.relation import Overlap, Relation
from layout.questions.cable_ways import Way
from layout.questions.walls import room_wanting

__all__ = ["wanting"]


def wanting(
    build: Build, takes: Callable[[Way], NDArray[np.bool_]]
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
        alone = room_wanting(way.body, limit, stands)
        if limit.part in {CASE, way.placed.part}:
            return alone
        key = (id(way), limit.part)
        if key not in known:
            known[key] = _together(way.body, _of_part(build, limit.part, takes(way)))
        whole = known[key]
        return replace(alone, overlap=whole) if whole else alone

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
