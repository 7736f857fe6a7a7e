"""Seeded random bodies: the same ones in every run and on every machine."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import cycle, islice
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import Polygon

from layout.geometry.bodies.body import Body, Shape
from layout.geometry.solids.solid import Solid, rectangle

__all__ = [
    "KINDS",
    "Maker",
    "random_body",
    "random_outline",
    "random_pairs",
    "star_outline",
]

Points: TypeAlias = NDArray[np.float64]
Maker: TypeAlias = Callable[[np.random.Generator], tuple[Solid, ...]]
Span: TypeAlias = tuple[float, float]


def _stretched(points: Points, span: Span) -> Points:
    """Return the points with their x range stretched to the span, ends exact."""
    x = points[:, 0]
    low, high = x.min(), x.max()
    part = (x - low) / (high - low)
    out = points.copy()
    out[:, 0] = np.where(part == 1.0, span[1], span[0] + part * (span[1] - span[0]))
    return out


def _star(rng: np.random.Generator, corners: int) -> Points:
    """Return a ring around 0 whose corners lie in as many equal sectors."""
    turn = (np.arange(corners) + rng.uniform(0.05, 0.95, corners)) / corners
    radius = rng.uniform(8.0, 45.0, corners)
    angle = 2 * math.pi * turn
    return np.column_stack([radius * np.cos(angle), radius * np.sin(angle)])


def _comb(rng: np.random.Generator, teeth: int) -> Points:
    """Return a ring with upright edges: a back and teeth of differing length."""
    x = np.cumsum(rng.uniform(2.0, 9.0, 2 * teeth))
    tips = np.where(np.arange(2 * teeth) % 2 == 0, rng.uniform(10, 40, 2 * teeth), 5.0)
    skyline = [(x[i + j], tips[i]) for i in range(2 * teeth - 1) for j in (0, 1)]
    return np.array([(x[0], 0.0), *skyline, (x[-1], 0.0)])


def random_outline(rng: np.random.Generator, span: Span) -> Polygon:
    """Return a rectangle, a concave star with or without a hole, or a comb."""
    kind = rng.choice(["rectangle", "star", "holed star", "comb"])
    lift = np.array([0.0, rng.uniform(-20.0, 20.0)])
    if kind == "rectangle":
        low = float(lift[1])
        return rectangle(span, (low, low + float(rng.uniform(1.0, 60.0))))
    if kind == "comb":
        return Polygon(_stretched(_comb(rng, int(rng.integers(2, 5))) + lift, span))
    ring = _star(rng, int(rng.integers(5, 11)))
    holes = [0.45 * ring] if kind == "holed star" else []
    rings = np.concatenate([ring, *holes]) + lift
    outer, *inner = np.split(_stretched(rings, span), 1 + len(holes))
    return Polygon(outer, inner)


def _span(rng: np.random.Generator) -> Span:
    low = float(rng.uniform(-10.0, 10.0))
    return low, low + float(rng.uniform(2.0, 80.0))


def _box(rng: np.random.Generator) -> tuple[Solid, ...]:
    x, y, z = (_span(rng) for _ in range(3))
    return (Solid(rectangle(x, y), rectangle(x, z)),)


def _prism_across(rng: np.random.Generator) -> tuple[Solid, ...]:
    """Return a side outline carried along width."""
    x = _span(rng)
    return (Solid(random_outline(rng, x), rectangle(x, _span(rng))),)


def _prism_upright(rng: np.random.Generator) -> tuple[Solid, ...]:
    """Return a top outline carried along height."""
    x = _span(rng)
    return (Solid(rectangle(x, _span(rng)), random_outline(rng, x)),)


def _two_outlines(rng: np.random.Generator) -> tuple[Solid, ...]:
    x = _span(rng)
    return (Solid(random_outline(rng, x), random_outline(rng, x)),)


def _several(rng: np.random.Generator) -> tuple[Solid, ...]:
    makers = (_box, _prism_across, _prism_upright, _two_outlines)
    picks = rng.integers(0, len(makers), int(rng.integers(2, 4)))
    return tuple(solid for pick in picks for solid in makers[pick](rng))


KINDS: dict[str, Maker] = {
    "box": _box,
    "prism across": _prism_across,
    "upright prism": _prism_upright,
    "two outlines": _two_outlines,
    "several solids": _several,
}


def random_body(rng: np.random.Generator, name: str, kind: str) -> Body:
    """Return a body of one kind near the origin."""
    return Body(name=name, shape=Shape(KINDS[kind](rng)))


def random_pairs(seed: int, count: int) -> list[tuple[Body, Body]]:
    """Return pairs of bodies, every kind with every kind, most of them close."""
    rng = np.random.default_rng(seed)
    kinds = [(a, b) for a in KINDS for b in KINDS]
    pairs = []
    for a_kind, b_kind in islice(cycle(kinds), count):
        a, b = random_body(rng, "a", a_kind), random_body(rng, "b", b_kind)
        pairs.append((a, b.moved(_beside(rng, (a, b)))))
    return pairs


def _beside(
    rng: np.random.Generator, pair: Sequence[Body]
) -> tuple[float, float, float]:
    """Return a move that sets b's middle somewhere around a's."""
    low, high = (
        np.array([[getattr(body.bounds, end) for body in pair]])[0]
        for end in ("low", "high")
    )
    middle, half = (low + high) / 2, (high - low) / 2
    reach = half.sum(axis=0) * rng.uniform(0.5, 1.9)
    x, y, z = (middle[0] - middle[1] + reach * rng.uniform(-1.0, 1.0, 3)).tolist()
    return (x, y, z)


def star_outline(
    rng: np.random.Generator, u: Span, v: Span, *, corners: int
) -> Polygon:
    """Return a concave star that fills the rectangle over two intervals."""
    ring = _stretched(_star(rng, corners), u)
    return Polygon(_stretched(ring[:, ::-1], v)[:, ::-1])
