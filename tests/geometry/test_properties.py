"""What must hold of every pair of bodies, whatever their form."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from shapely.geometry import Point
from shapely.geometry.base import BaseGeometry

from layout.geometry.bodies.body import Body, Shape
from layout.geometry.relations.query import relation
from layout.geometry.relations.relation import (
    CONTACT_TOLERANCE_MM,
    Bound,
    Relation,
    State,
)
from layout.geometry.solids.solid import Solid
from layout.geometry.space import Vector
from tests import strategies as own
from tests.geometry.bulk import freed_by, hull, related
from tests.geometry.random_bodies import random_body, random_pairs

Pairs = list[tuple[Body, Body]]


@pytest.fixture(scope="module")
def pairs() -> Pairs:
    return random_pairs(11, 300)


@pytest.fixture(scope="module")
def found(pairs: Pairs) -> tuple[Relation, ...]:
    return related(pairs)


def _turned(pairs: Pairs) -> Pairs:
    return [(b, a) for a, b in pairs]


def test_the_other_way_round_is_the_same(
    pairs: Pairs, found: tuple[Relation, ...]
) -> None:
    for one, other in zip(found, related(_turned(pairs)), strict=True):
        assert (one.a, one.b, one.state) == (other.b, other.a, other.state)
        assert one.gap_mm == pytest.approx(other.gap_mm, abs=1e-9)
        if one.overlap is not None and other.overlap is not None:
            assert one.overlap.axis is other.overlap.axis
            assert one.overlap.sign == -other.overlap.sign
            assert one.overlap.mm == pytest.approx(other.overlap.mm, abs=1e-9)


@settings(max_examples=40)
@given(own.bodies("a"), own.bodies("b"))
def test_the_other_way_round_is_the_same_where_faces_line_up(a: Body, b: Body) -> None:
    one, other = relation(a, b), relation(b, a)
    assert one.state is other.state
    assert one.gap_mm == pytest.approx(other.gap_mm, abs=1e-9)
    if one.overlap is not None and other.overlap is not None:
        # On grid figures ties are common: then only the length is the same.
        assert one.overlap.mm == pytest.approx(other.overlap.mm, abs=2e-6)


@pytest.mark.parametrize("by_mm", [(0.1, 0.2, 0.3), (-410.7, 233.1, 57.9), (1e4, 0, 0)])
def test_moving_both_changes_nothing(
    pairs: Pairs, found: tuple[Relation, ...], by_mm: Vector
) -> None:
    moved = related((a.moved(by_mm), b.moved(by_mm)) for a, b in pairs)
    for one, other in zip(found, moved, strict=True):
        assert one.state is other.state
        assert one.gap_mm == pytest.approx(other.gap_mm, abs=1e-8)
        if one.overlap is not None and other.overlap is not None:
            assert one.overlap.axis is other.overlap.axis
            assert one.overlap.mm == pytest.approx(other.overlap.mm, abs=1e-8)


@settings(max_examples=40)
@given(own.bodies("a"), own.bodies("b"), own.decimal_moves())
def test_moving_both_changes_nothing_where_faces_line_up(
    a: Body, b: Body, by_mm: Vector
) -> None:
    one, other = relation(a, b), relation(a.moved(by_mm), b.moved(by_mm))
    assert one.state is other.state
    assert one.gap_mm == pytest.approx(other.gap_mm, abs=1e-8)


def test_growing_a_body_never_raises_a_gap(
    pairs: Pairs, found: tuple[Relation, ...]
) -> None:
    rng = np.random.default_rng(5)
    grown = []
    for a, b in pairs:
        more = random_body(rng, "more", "two outlines").shape.solids
        solids = b.shape.solids
        grown.append((a, _reshaped(b, (*solids, *more))))
        grown.append((a, _reshaped(b, tuple(hull(each) for each in solids))))
    for i, after in enumerate(related(grown)):
        before = found[i // 2]
        assert after.gap_mm <= before.gap_mm + 1e-9
        if before.state is State.INTERFERING:
            assert after.state is State.INTERFERING
        if before.overlap is not None and after.overlap is not None:
            assert after.overlap.mm >= before.overlap.mm - 1e-6


def _reshaped(body: Body, solids: tuple[Solid, ...]) -> Body:
    return Body(name=body.name, shape=Shape(solids), at_mm=body.at_mm)


def test_scaling_everything_scales_the_gap(
    pairs: Pairs, found: tuple[Relation, ...]
) -> None:
    scaled = related((_scaled(a, 2.5), _scaled(b, 2.5)) for a, b in pairs)
    for one, other in zip(found, scaled, strict=True):
        assert one.state is other.state
        assert 2.5 * one.gap_mm == pytest.approx(other.gap_mm, abs=1e-9)


def _scaled(body: Body, by: float) -> Body:
    solids = tuple(
        Solid(
            shapely.transform(solid.side, lambda points: by * points),
            shapely.transform(solid.top, lambda points: by * points),
        )
        for solid in body.shape.solids
    )
    x, y, z = body.at_mm
    return Body(name=body.name, shape=Shape(solids), at_mm=(by * x, by * y, by * z))


def _off_mm(body: Body, point: Vector) -> float:
    """Return how far a point lies outside the body's outlines, in the worse view."""
    x, y, z = (p - at for p, at in zip(point, body.at_mm, strict=True))
    return min(
        max(solid.side.distance(Point(x, y)), solid.top.distance(Point(x, z)))
        for solid in body.shape.solids
    )


def test_nearest_points_lie_on_the_bodies_a_gap_apart(
    pairs: Pairs, found: tuple[Relation, ...]
) -> None:
    for (a, b), each in zip(pairs, found, strict=True):
        assert each.bound is Bound.EXACT
        assert (each.witness is None) == (each.state is State.INTERFERING)
        if each.witness is not None:
            assert each.witness.length_mm == pytest.approx(each.gap_mm, abs=1e-9)
            assert _off_mm(a, each.witness.from_mm) < 1e-9
            assert _off_mm(b, each.witness.to_mm) < 1e-9


@settings(max_examples=40)
@given(own.bodies("a"), own.bodies("b"))
def test_nearest_points_lie_on_bodies_whose_faces_line_up(a: Body, b: Body) -> None:
    found = relation(a, b)
    if found.witness is not None:
        assert found.witness.length_mm == pytest.approx(found.gap_mm, abs=1e-9)
        assert _off_mm(a, found.witness.from_mm) < 1e-9
        assert _off_mm(b, found.witness.to_mm) < 1e-9


def test_moving_by_the_gap_touches_and_by_less_leaves_the_rest(
    pairs: Pairs, found: tuple[Relation, ...]
) -> None:
    apart = [
        (pair, each.witness, each.gap_mm)
        for pair, each in zip(pairs, found, strict=True)
        if each.witness is not None
    ]
    for part in (1.0, 0.75):
        moved = []
        for (a, b), witness, _ in apart:
            x, y, z = np.subtract(witness.from_mm, witness.to_mm) * part
            moved.append((a, b.moved((float(x), float(y), float(z)))))
        for (_, _, gap_mm), after in zip(apart, related(moved), strict=True):
            assert after.state is (State.TOUCHING if part == 1.0 else State.APART)
            rest_mm = (1 - part) * gap_mm
            assert after.gap_mm == pytest.approx(rest_mm, abs=CONTACT_TOLERANCE_MM)


def test_the_views_bound_the_gap(pairs: Pairs, found: tuple[Relation, ...]) -> None:
    for (a, b), each in zip(pairs, found, strict=True):
        for view, axes in (("side", (0, 1)), ("top", (0, 2))):
            areas = [_seen(body, view, axes) for body in (a, b)]
            assert areas[0].distance(areas[1]) <= each.gap_mm + 1e-9


def _seen(body: Body, view: str, axes: tuple[int, int]) -> BaseGeometry:
    """Return the area of a body in one view, in place."""
    by = np.array([body.at_mm[axis] for axis in axes])
    areas = [getattr(solid, view) for solid in body.shape.solids]
    seen: BaseGeometry = shapely.transform(
        shapely.union_all(areas), lambda points: points + by
    )
    return seen


@settings(max_examples=40)
@given(own.bodies("a"), own.bodies("b"))
def test_the_stated_overlap_frees(a: Body, b: Body) -> None:
    overlap = relation(a, b).overlap
    if overlap is None:
        return
    assert relation(a, b.moved(freed_by(overlap))).state is not State.INTERFERING
    if overlap.mm > 0.02:
        less = b.moved(freed_by(overlap, less_mm=0.01))
        assert relation(a, less).state is State.INTERFERING
