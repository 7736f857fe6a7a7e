"""Hypothesis strategies for outlines, solids, bodies and moves.

Corners lie on a grid of 0.1 mm, as figures on data sheets do, so that faces often
meet or line up; depths of the two outlines of a solid are equal to the last bit.
"""

from __future__ import annotations

import math
from typing import TypeAlias

import shapely
from hypothesis import strategies as st
from shapely.geometry import Polygon

from layout.geometry.bodies.body import Body, Shape
from layout.geometry.solids.solid import Solid, block, rectangle
from layout.geometry.space import Vector

__all__ = [
    "bodies",
    "boxes",
    "decimal_moves",
    "outlines",
    "prisms",
    "solids",
    "spans",
    "two_outlines",
]

Points: TypeAlias = list[tuple[float, float]]
Span: TypeAlias = tuple[float, float]


def _tenths(low: int, high: int) -> st.SearchStrategy[float]:
    return st.integers(10 * low, 10 * high).map(lambda tenths: tenths / 10)


def spans() -> st.SearchStrategy[Span]:
    """Return intervals of 0.1 to 60 mm around the origin."""
    return st.tuples(_tenths(-20, 20), st.integers(1, 600)).map(
        lambda pair: (pair[0], (round(10 * pair[0]) + pair[1]) / 10)
    )


def decimal_moves() -> st.SearchStrategy[Vector]:
    """Return moves in tenths of a mm."""
    tenths = _tenths(-40, 40)
    return st.tuples(tenths, tenths, tenths)


@st.composite
def _stars(draw: st.DrawFn) -> Points:
    """Return a ring around the origin, concave as a rule."""
    radii = draw(st.lists(st.integers(5, 40), min_size=3, max_size=9))
    step = 2 * math.pi / len(radii)
    return [
        (round(r * math.cos(i * step), 1), round(r * math.sin(i * step), 1))
        for i, r in enumerate(radii)
    ]


@st.composite
def _combs(draw: st.DrawFn) -> Points:
    """Return a ring with a flat back and teeth, so that many edges stand upright."""
    teeth = draw(
        st.lists(
            st.tuples(st.integers(1, 12), st.integers(1, 30)), min_size=1, max_size=6
        )
    )
    x, ring = 0.0, [(0.0, -5.0)]
    for width, height in teeth:
        ring += [(x, float(height)), (x + width, float(height))]
        x += width
    return [*ring, (x, -5.0)]


def _stretched(rings: list[Points], span: Span) -> list[Points]:
    """Return the rings with their x range stretched to the span, ends exact."""
    low, high = min(x for x, _ in rings[0]), max(x for x, _ in rings[0])

    def place(x: float) -> float:
        if x == high:
            return span[1]
        return span[0] + (x - low) / (high - low) * (span[1] - span[0])

    return [[(place(x), v) for x, v in ring] for ring in rings]


@st.composite
def outlines(draw: st.DrawFn, span: Span | None = None) -> Polygon:
    """Return simple areas: rectangles, combs, concave stars, stars with a hole."""
    x = draw(spans()) if span is None else span
    if draw(st.booleans()):
        return rectangle(x, draw(spans()))
    ring = draw(st.one_of(_stars(), _combs()))
    starlike = min(v for _, v in ring) != -5.0
    holed = starlike and draw(st.booleans())
    inner = [[(0.4 * u, 0.4 * v) for u, v in ring]] if holed else []
    outer, *holes = _stretched([ring, *inner], x)
    outline = Polygon(outer, holes)
    if outline.is_valid:
        return outline
    return Polygon(shapely.get_coordinates(outline.convex_hull))


def boxes() -> st.SearchStrategy[Solid]:
    """Return boxes."""
    return st.builds(block, spans(), spans(), spans())


@st.composite
def prisms(draw: st.DrawFn) -> Solid:
    """Return one outline carried along width, or along height."""
    x = draw(spans())
    outline, flat = draw(outlines(x)), rectangle(x, draw(spans()))
    return Solid(outline, flat) if draw(st.booleans()) else Solid(flat, outline)


@st.composite
def two_outlines(draw: st.DrawFn) -> Solid:
    """Return solids whose two outlines both are of any form."""
    x = draw(spans())
    return Solid(draw(outlines(x)), draw(outlines(x)))


def solids() -> st.SearchStrategy[Solid]:
    """Return solids of every kind."""
    return st.one_of(boxes(), prisms(), two_outlines())


def bodies(name: str = "body") -> st.SearchStrategy[Body]:
    """Return bodies of one to three solids of any kind."""
    parts = st.lists(solids(), min_size=1, max_size=3)
    return st.builds(
        lambda found, at: Body(name=name, shape=Shape(tuple(found)), at_mm=at),
        parts,
        decimal_moves(),
    )
