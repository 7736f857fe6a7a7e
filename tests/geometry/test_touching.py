"""Faces that touch stay touching through moves and back; pressed, they interfere."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
import pytest
import shapely
from shapely.affinity import translate
from shapely.geometry import Polygon

from layout.geometry.bodies.body import Body, Shape
from layout.geometry.relations.query import relation
from layout.geometry.relations.relation import CONTACT_TOLERANCE_MM, State
from layout.geometry.solids.solid import Solid, rectangle
from layout.geometry.space import Vector
from tests.geometry.bulk import hull, related
from tests.geometry.random_bodies import KINDS, random_body

ANGLES_DEG = (0.0, 1e-4, 0.1, 30.0, 45.0, 60.0, 89.0, 89.9, 89.99, 89.999, 89.9999)
"""Of the face, from flat along depth to upright; the last rises 573 m per mm."""

FAR: Vector = (123.4, 56.7, -8.9)


def _faced(angle_deg: float, *, rear: bool) -> Polygon:
    """Return an outline on one side of a face that runs from 0 for 50 mm."""
    turn = math.radians(angle_deg)
    u, v = 50 * math.cos(turn), 50 * math.sin(turn)
    if rear:
        return Polygon([(0, 0), (u, v), (u, 60), (-30, 60), (-30, 0)])
    return Polygon([(0, 0), (u, v), (u + 30, v), (u + 30, -20), (0, -20)])


def _solid(outline: Polygon, *, upright: bool) -> Solid:
    x0, _, x1, _ = outline.bounds
    flat = rectangle((x0, x1), (-7.3, 21.9))
    return Solid(flat, outline) if upright else Solid(outline, flat)


def _faced_pair(angle_deg: float, *, upright: bool) -> tuple[Body, Body]:
    """Return two bodies on either side of one face."""
    a, b = (
        Body(name=name, shape=Shape((_solid(outline, upright=upright),)), at_mm=FAR)
        for name, outline in (
            ("a", _faced(angle_deg, rear=True)),
            ("b", _faced(angle_deg, rear=False)),
        )
    )
    return a, b


def _normal(angle_deg: float, *, upright: bool) -> Vector:
    """Return the direction square to the face, from b into a."""
    turn = math.radians(angle_deg)
    u, v = -math.sin(turn), math.cos(turn)
    return (u, 0.0, v) if upright else (u, v, 0.0)


def _scaled(direction: Vector, mm: float) -> Vector:
    x, y, z = direction
    return (mm * x, mm * y, mm * z)


def _there_and_back() -> Iterator[list[Vector]]:
    """Return ten moves of tenths each way along some directions, and one back."""
    for step in ((0.1, 0, 0), (0, 0.1, 0), (0, 0, 0.1), (0.1, -0.2, 0.3)):
        yield [step] * 10 + [_scaled(step, -10)]


def _moved(body: Body, moves: list[Vector]) -> Body:
    for move in moves:
        body = body.moved(move)
    return body


def _drawn_elsewhere(body: Body, moves: list[Vector]) -> Body:
    """Return the body with its outlines themselves moved, each time to new corners."""
    solids = body.shape.solids
    for x, y, z in [body.at_mm, *moves]:
        solids = tuple(
            Solid(translate(each.side, x, y), translate(each.top, x, z))
            for each in solids
        )
    return Body(name=body.name, shape=Shape(solids))


@pytest.mark.parametrize("upright", [False, True], ids=["across", "upright"])
@pytest.mark.parametrize("angle_deg", ANGLES_DEG)
class TestOneFace:
    def test_touches_after_moves_there_and_back(
        self, angle_deg: float, *, upright: bool
    ) -> None:
        a, b = _faced_pair(angle_deg, upright=upright)
        for moves in _there_and_back():
            pairs = [
                (a, _moved(b, moves)),
                (_moved(a, moves), b),
                (a, _drawn_elsewhere(b, moves)),
                (_drawn_elsewhere(a, []), _drawn_elsewhere(b, moves)),
            ]
            for found in related(pairs):
                assert found.state is State.TOUCHING
                assert found.gap_mm <= CONTACT_TOLERANCE_MM

    def test_touches_when_pressed_a_little(
        self, angle_deg: float, *, upright: bool
    ) -> None:
        a, b = _faced_pair(angle_deg, upright=upright)
        pressed = b.moved(_scaled(_normal(angle_deg, upright=upright), 1e-9))
        assert relation(a, pressed).state is State.TOUCHING

    def test_interferes_when_pressed_in_earnest(
        self, angle_deg: float, *, upright: bool
    ) -> None:
        a, b = _faced_pair(angle_deg, upright=upright)
        pressed = b.moved(_scaled(_normal(angle_deg, upright=upright), 2e-5))
        found = relation(a, pressed)
        assert found.state is State.INTERFERING
        assert found.overlap is not None
        assert 1.9e-5 < found.overlap.mm < 3e-5

    def test_is_apart_when_drawn_back(self, angle_deg: float, *, upright: bool) -> None:
        a, b = _faced_pair(angle_deg, upright=upright)
        back = b.moved(_scaled(_normal(angle_deg, upright=upright), -2e-5))
        found = relation(a, back)
        assert found.state is State.APART
        assert found.gap_mm == pytest.approx(2e-5, abs=1e-9)


def _on_a_face(rng: np.random.Generator, kind: str) -> tuple[Body, Body, Vector]:
    """Return a convex solid, a slab on one of its faces, and the way into it."""
    solid = hull(random_body(rng, "a", kind).shape.solids[0])
    upright = bool(rng.integers(2))
    outline = solid.top if upright else solid.side
    ring = np.array(shapely.geometry.polygon.orient(outline).exterior.coords)
    place = int(rng.integers(len(ring) - 1))
    start, end = ring[place], ring[place + 1]
    along = (end - start) / np.linalg.norm(end - start)
    out = np.array([along[1], -along[0]])
    slab = Polygon([start, end, end + 9 * out, start + 9 * out])
    b = Body(name="b", shape=Shape((_across(slab, solid, upright=upright),)))
    u, v = (-out).tolist()
    inward: Vector = (u, 0.0, v) if upright else (u, v, 0.0)
    return Body(name="a", shape=Shape((solid,))), b, inward


def _across(slab: Polygon, solid: Solid, *, upright: bool) -> Solid:
    """Return the slab carried past the whole solid."""
    x = (slab.bounds[0], slab.bounds[2])
    axis = 1 if upright else 2
    span = (solid.bounds.low[axis] - 5, solid.bounds.high[axis] + 5)
    flat = rectangle(x, span)
    return Solid(flat, slab) if upright else Solid(slab, flat)


@pytest.fixture(scope="module")
def on_faces() -> list[tuple[Body, Body, Vector]]:
    rng = np.random.default_rng(7)
    kinds = [kind for kind in KINDS if kind != "several solids"]
    return [_on_a_face(rng, kinds[i % len(kinds)]) for i in range(300)]


@pytest.mark.parametrize(
    ("pressed_mm", "state"),
    [
        (-2e-5, State.APART),
        (0.0, State.TOUCHING),
        (1e-9, State.TOUCHING),
        (2e-5, State.INTERFERING),
        (0.5, State.INTERFERING),
    ],
)
def test_pressed_square_to_any_face(
    on_faces: list[tuple[Body, Body, Vector]], pressed_mm: float, state: State
) -> None:
    pairs = [(a, b.moved(_scaled(inward, pressed_mm))) for a, b, inward in on_faces]
    differ = [i for i, each in enumerate(related(pairs)) if each.state is not state]
    assert differ == []


def test_any_face_touches_after_moves_there_and_back(
    on_faces: list[tuple[Body, Body, Vector]],
) -> None:
    for moves in _there_and_back():
        pairs = [(a, _moved(b, moves)) for a, b, _ in on_faces]
        pairs += [(a, _drawn_elsewhere(b, moves)) for a, b, _ in on_faces[::4]]
        assert {each.state for each in related(pairs)} == {State.TOUCHING}


def test_gap_of_touching_faces_is_exact_to_rounding(
    on_faces: list[tuple[Body, Body, Vector]],
) -> None:
    assert max(each.gap_mm for each in related((a, b) for a, b, _ in on_faces)) < 1e-9
