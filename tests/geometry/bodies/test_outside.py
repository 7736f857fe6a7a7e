"""What lies outside a seat's volume, against the outside 3D library's difference."""

from __future__ import annotations

import numpy as np
import pytest

from layout.geometry.bodies.body import Body, Shape
from layout.geometry.relations.query import relation
from layout.geometry.relations.relation import State
from layout.geometry.solids.solid import block
from layout.geometry.space import Box
from tests.geometry import reference
from tests.geometry.random_bodies import KINDS, random_body


def _body(box: Box) -> Body:
    x, y, z = zip(box.low, box.high, strict=True)
    return Body(name="box", shape=Shape((block(x, y, z),)))


def _random_box(rng: np.random.Generator, within: Box) -> Box:
    low, high = np.array(within.low), np.array(within.high)
    ends = np.sort(rng.uniform(low - 5, high + 5, (2, 3)), axis=0)
    (x0, y0, z0), (x1, y1, z1) = ends.tolist()
    return Box((x0, y0, z0), (x1, y1, z1))


def _volume_mm3(body: Body | None) -> float:
    if body is None:
        return 0.0
    rows = body.shape.cells.rows
    height, width = rows[4:6] - rows[2:4], rows[8:10] - rows[6:8]
    middle = height.sum(axis=0) * width.sum(axis=0)
    section = (height * width).sum(axis=0) + middle
    return float(((rows[1] - rows[0]) * section).sum() / 6)


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "several solids"])
def test_the_rest_has_the_volume_of_the_difference(kind: str) -> None:
    rng = np.random.default_rng(23)
    for _ in range(25):
        body = random_body(rng, "body", kind).moved((11.1, -7.3, 3.9))
        box = _random_box(rng, body.bounds)
        expected = reference.manifold(body) - reference.manifold(_body(box))
        rest_mm3 = _volume_mm3(body.outside([box]))
        assert rest_mm3 == pytest.approx(expected.volume(), rel=1e-9, abs=1e-6)


def test_the_rest_does_not_interfere_with_the_box() -> None:
    rng = np.random.default_rng(29)
    for i in range(60):
        body = random_body(rng, "body", list(KINDS)[i % len(KINDS)])
        box = _random_box(rng, body.bounds)
        rest = body.outside([box])
        if rest is not None:
            assert relation(rest, _body(box)).state is not State.INTERFERING


def test_nothing_is_left_of_what_lies_within() -> None:
    body = _body(Box((1, 1, 1), (2, 2, 2)))
    assert body.outside([Box((0, 0, 0), (3, 3, 3))]) is None
    assert (
        body.outside([Box((1, 1, 1), (2, 1.5, 2)), Box((1, 1.5, 1), (2, 2, 2))]) is None
    )


def test_boxes_elsewhere_leave_the_volume() -> None:
    body = _body(Box((0, 0, 0), (10, 10, 10)))
    rest = body.outside([Box((20, 0, 0), (30, 10, 10)), Box((0, 0, 10), (9, 9, 12))])
    assert _volume_mm3(rest) == pytest.approx(1000)


def test_the_place_of_the_body_counts() -> None:
    body = _body(Box((0, 0, 0), (10, 10, 10))).moved((100, 0, 0))
    rest = body.outside([Box((100, 0, 0), (110, 10, 4))])
    assert rest is not None
    assert rest.bounds == Box((100, 0, 4), (110, 10, 10))
