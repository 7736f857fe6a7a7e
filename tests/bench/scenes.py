"""Seeded crowds of bodies as a full case holds them, for the speed comparisons."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from layout.geometry.bodies.body import Body, Shape
from layout.geometry.relations.query import clearances, relations
from layout.geometry.relations.relation import State
from layout.geometry.solids.round import disc_outline
from layout.geometry.solids.solid import Solid, rectangle
from layout.geometry.space import Vector
from tests.geometry.random_bodies import star_outline

__all__ = [
    "CASE_MM",
    "COARSE",
    "FINE",
    "NEED_MM",
    "RAIL_MM",
    "Placed",
    "Sliding",
    "prisms",
    "sliding",
    "two_outlines",
]

Placed: TypeAlias = tuple[Solid, Vector]

CASE_MM: Vector = (480.0, 460.0, 210.0)
"""Inside of the case that the bodies stand in."""

NEED_MM = 15.0
"""The largest need of any rule: pairs farther apart matter to no finding."""


def _placed(rng: np.random.Generator, size_mm: Vector) -> Vector:
    """Return where a body of some size may stand inside the case."""
    room = np.subtract(CASE_MM, size_mm).clip(min=0.0)
    x, y, z = (room * rng.uniform(0.0, 1.0, 3)).tolist()
    return (x, y, z)


def _size(rng: np.random.Generator) -> Vector:
    x, y, z = (rng.uniform(0.05, 0.3, 3) * CASE_MM).tolist()
    return (x, y, z)


FINE = range(24, 97)
"""Corners of a star as fine as a finned outline."""

COARSE = range(6, 17)
"""Corners of a star as coarse as a bracket."""


def prisms(count: int, corners: range = FINE, seed: int = 1) -> list[Body]:
    """Return bodies of one outline each, carried along width: boxes, stars, rounds.

    A third has 4 corners, a third those asked for, and a third as many as a round
    outline of its size has, 29 to 85.  They stand as parts do, close
    and clear of one another, but for a few that clash.
    """
    rng = np.random.default_rng(seed)
    bodies: list[Body] = []
    for body in _candidates(rng, corners):
        clear = all(
            each.state is not State.INTERFERING
            for each in relations(
                [*bodies, body],
                [(i, len(bodies)) for i in range(len(bodies))],
                overlaps=False,
            )
        )
        if clear or len(bodies) >= 0.95 * count:
            bodies.append(body)
        if len(bodies) == count:
            break
    return bodies


def _candidates(rng: np.random.Generator, corners: range) -> Iterator[Body]:
    """Return prisms without end: a box, a star, a round one, and again."""
    for i in itertools.count():
        x, y, z = _size(rng)
        if i % 3 == 0:
            side = rectangle((0, x), (0, y))
        elif i % 3 == 1:
            number = int(rng.integers(corners.start, corners.stop))
            side = star_outline(rng, (0, x), (0, y), corners=number)
        else:
            y = x
            side = disc_outline((x / 2, x / 2), x)
        shape = Shape((Solid(side, rectangle((0, x), (0, z))),))
        at = _placed(rng, (x, y, z))
        yield Body(name=f"prism {i}", shape=shape, at_mm=at)


def two_outlines(count: int, seed: int = 1) -> list[Placed]:
    """Return solids of two concave outlines of 8 to 15 corners, and their places."""
    rng = np.random.default_rng(seed)
    found = []
    for _ in range(count):
        x, y, z = _size(rng)
        side, top = (
            star_outline(rng, (0, x), (0, v), corners=int(rng.integers(8, 16)))
            for v in (y, z)
        )
        found.append((Solid(side, top), _placed(rng, (x, y, z))))
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Sliding:
    """One body, the moves to the places it may take, and the others."""

    body: Body
    moves: tuple[Vector, ...]
    others: tuple[Body, ...]


RAIL_MM = 60.0
"""How far the body slides: a cage's rail."""


def sliding(places: int, others: int, *, whole_depth: bool = False) -> Sliding:
    """Return the body with the most neighbours, none met, on a rail in depth.

    Over the whole depth of the case, it runs into others at many places.
    """
    bodies = prisms(others + 1)
    near = clearances(bodies, limit_mm=NEED_MM)
    neighbours = np.bincount(near.pairs.ravel(), minlength=len(bodies))
    neighbours[near.pairs[near.interfering].ravel()] = 0
    body = bodies.pop(int(neighbours.argmax()))
    low, high = body.bounds.low[0], body.bounds.high[0]
    ends = (-low, CASE_MM[0] - high) if whole_depth else (0.0, RAIL_MM)
    travel = np.linspace(*ends, places).tolist()
    moves = tuple((x, 0.0, 0.0) for x in travel)
    return Sliding(body=body, moves=moves, others=tuple(bodies))
