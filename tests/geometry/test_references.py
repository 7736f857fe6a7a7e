"""The kernel against independent references in space, on random pairs and the zoo."""

from __future__ import annotations

from collections import Counter
from typing import TypeAlias

import numpy as np
import pytest
from numpy.typing import NDArray

from layout.geometry.bodies.body import Body
from layout.geometry.relations.relation import Relation, State
from tests.geometry import pieces, reference
from tests.geometry.bulk import related
from tests.geometry.random_bodies import random_pairs
from tests.zoo import ZOO, animal

Asked: TypeAlias = list[tuple[tuple[Body, Body], Relation]]
SolidPair: TypeAlias = tuple[reference.Manifold, reference.Manifold]

_AGREE_MM = 1e-6
_EITHER_MM = 1e-5
"""Where bodies are this near to the line between two states, either is right."""


@pytest.fixture(scope="module")
def asked() -> Asked:
    """Return 600 seeded pairs with the kernel's answers."""
    pairs = random_pairs(20240, 600)
    return list(zip(pairs, related(pairs), strict=True))


@pytest.fixture(scope="module")
def meshes(asked: Asked) -> list[SolidPair]:
    return [(reference.manifold(a), reference.manifold(b)) for (a, b), _ in asked]


def _gaps(relations: list[Relation]) -> NDArray[np.float64]:
    return np.array([each.gap_mm for each in relations])


def _beyond_doubt(found: Relation) -> bool:
    """Tell whether bodies are well apart or well into one another."""
    depth_mm = found.overlap.mm if found.overlap else found.gap_mm
    return depth_mm > _EITHER_MM


def test_the_pairs_are_many_and_of_both_kinds(asked: Asked) -> None:
    states = Counter(found.state for _, found in asked)
    assert min(states[State.APART], states[State.INTERFERING]) > 200
    assert sum(_beyond_doubt(found) for _, found in asked) >= 595


def test_gaps_agree_with_whole_concave_solids(
    asked: Asked, meshes: list[SolidPair]
) -> None:
    ours = _gaps([found for _, found in asked])
    theirs = np.array([reference.gap_mm(a, b) for a, b in meshes])
    np.testing.assert_allclose(ours, theirs, rtol=0, atol=_AGREE_MM)


def test_states_agree_with_the_common_volume(
    asked: Asked, meshes: list[SolidPair]
) -> None:
    ours = [found.state is State.INTERFERING for _, found in asked]
    theirs = [reference.common_volume_mm3(a, b) > 0 for a, b in meshes]
    sure = [_beyond_doubt(found) for _, found in asked]
    differ = np.flatnonzero((np.array(ours) != theirs) & sure)
    assert differ.tolist() == []


def test_gaps_and_states_agree_on_convex_pieces(asked: Asked) -> None:
    ours = _gaps([found for _, found in asked])
    theirs = np.array([pieces.fcl_gap_mm(a, b) for (a, b), _ in asked])
    np.testing.assert_allclose(ours, theirs, rtol=0, atol=_AGREE_MM)
    met = [found.state is State.INTERFERING for _, found in asked]
    sure = [_beyond_doubt(found) for _, found in asked]
    assert np.flatnonzero((np.array(met) != (theirs == 0.0)) & sure).tolist() == []


def test_gaps_agree_with_brute_force_on_convex_pieces(asked: Asked) -> None:
    free = [each for each in asked if each[1].state is State.APART][::6]
    ours = _gaps([found for _, found in free])
    theirs = [pieces.brute_gap_mm(a, b) for (a, b), _ in free]
    np.testing.assert_allclose(ours, theirs, rtol=0, atol=_AGREE_MM)


def test_references_agree_on_volume(asked: Asked, meshes: list[SolidPair]) -> None:
    single = [
        (pieces.volume_mm3(body), mesh.volume())
        for (pair, _), both in zip(asked[:100], meshes, strict=False)
        for body, mesh in zip(pair, both, strict=True)
        if len(body.shape.solids) == 1
    ]
    ours, theirs = np.array(single).T
    np.testing.assert_allclose(ours, theirs, rtol=1e-9)


@pytest.mark.parametrize(
    "name", [name for name, shape in ZOO.items() if len(shape.solids) == 1]
)
def test_cells_fill_the_solid(name: str) -> None:
    filled = _volume_mm3(ZOO[name].cells.rows)
    expected = reference.manifold(animal(name)).volume()
    # The ranges that are a little off differ by 1e-6 mm of 60.
    assert filled == pytest.approx(expected, rel=5e-8)


def _volume_mm3(rows: NDArray[np.float64]) -> float:
    """Return the volume of all cells: Simpson's rule is exact for a quadratic."""
    height, width = rows[4:6] - rows[2:4], rows[8:10] - rows[6:8]
    middle = height.sum(axis=0) * width.sum(axis=0)
    section = (height * width).sum(axis=0) + middle
    return float(((rows[1] - rows[0]) * section).sum() / 6)


@pytest.mark.parametrize(
    "move_mm",
    [(0.0, 0.0, 0.0), (60.0, 0.0, 0.0), (0.0, 0.0, 30.0), (35.5, 12.25, 9.5)],
    ids=["in one place", "behind", "beside", "askew"],
)
def test_the_zoo_meets_itself(move_mm: tuple[float, float, float]) -> None:
    pairs = [(animal(a), animal(b).moved(move_mm)) for a in ZOO for b in ZOO]
    meshes = {name: reference.manifold(animal(name)) for name in ZOO}
    moved = {name: mesh.translate(move_mm) for name, mesh in meshes.items()}
    for found in related(pairs, overlaps=False):
        a, b = meshes[found.a], moved[found.b]
        which = f"{found.a} and {found.b}"
        assert found.gap_mm == pytest.approx(reference.gap_mm(a, b), abs=1e-6), which
        # Faces that touch leave slivers of up to 1e-11 mm3 by rounding.
        common = reference.common_volume_mm3(a, b) > 1e-11
        assert (found.state is State.INTERFERING) == common, which
