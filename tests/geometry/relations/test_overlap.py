"""The overlap is the first freeing shift, and the shortest of the six."""

from __future__ import annotations

import numpy as np
import pytest

from layout.geometry.bodies.body import Body, Shape
from layout.geometry.bodies.crowd import Crowd
from layout.geometry.relations.freeing import least_mm
from layout.geometry.relations.overlap import overlap
from layout.geometry.relations.query import relation, relations
from layout.geometry.relations.relation import Overlap, State
from layout.geometry.solids.solid import block
from layout.geometry.space import Axis
from tests.geometry import reference
from tests.geometry.bulk import along, freed_by, related
from tests.geometry.random_bodies import random_pairs
from tests.zoo import ZOO, animal

Met = list[tuple[Body, Body, Overlap]]


@pytest.fixture(scope="module")
def met() -> Met:
    """Return random pairs that interfere, with their overlaps."""
    pairs = random_pairs(31, 300)
    return [
        (a, b, found.overlap)
        for (a, b), found in zip(pairs, related(pairs), strict=True)
        if found.overlap is not None
    ]


def test_the_stated_shift_frees(met: Met) -> None:
    after = related((a, b.moved(freed_by(each))) for a, b, each in met)
    assert State.INTERFERING not in {each.state for each in after}
    # It frees them only just: they are left in touch.
    assert {each.state for each in after} == {State.TOUCHING}


def test_a_shift_of_a_hundredth_less_does_not(met: Met) -> None:
    deep = [each for each in met if each[2].mm > 0.02]
    assert len(deep) > 100
    after = related((a, b.moved(freed_by(each, less_mm=0.01))) for a, b, each in deep)
    assert {each.state for each in after} == {State.INTERFERING}


def test_whole_concave_solids_agree(met: Met) -> None:
    for a, b, each in met:
        mesh, other = reference.manifold(a), reference.manifold(b)
        freed = other.translate(freed_by(each))
        assert reference.common_volume_mm3(mesh, freed) < 1e-3
        if each.mm > 0.02:
            held = other.translate(freed_by(each, less_mm=0.01))
            assert reference.common_volume_mm3(mesh, held) > 0


def _scanned_mm(a: Body, b: Body, shifts_mm: np.ndarray) -> float:
    """Return the shortest of many shifts in all six directions that frees b."""
    signed = [sign * mm for mm in shifts_mm.tolist() for sign in (1, -1)]
    ways = [(axis, mm) for mm in signed for axis in Axis]
    moved = [b.moved(along(axis, mm)) for axis, mm in ways]
    index = [(0, i + 1) for i in range(len(moved))]
    found = relations([a, *moved], index, overlaps=False)
    free = [
        abs(mm)
        for (_, mm), each in zip(ways, found, strict=True)
        if each.state is not State.INTERFERING
    ]
    return min(free, default=float("inf"))


def test_no_shorter_shift_frees_in_any_direction(met: Met) -> None:
    for a, b, each in met[:60]:
        shorter = np.linspace(0.0, each.mm, 60, endpoint=False)
        assert _scanned_mm(a, b, shorter) == float("inf")
        assert _scanned_mm(a, b, np.array([each.mm])) == each.mm


@pytest.mark.parametrize("name", ZOO)
def test_each_of_the_zoo_frees_itself_of_its_like(name: str) -> None:
    a, b = animal(name), animal(name).moved((0.3, 0.2, 0.1))
    found = relation(a, b).overlap
    if found is not None:
        after = relation(a, b.moved(freed_by(found)))
        assert after.state is not State.INTERFERING
        assert _scanned_mm(a, b, np.linspace(0, found.mm, 40, endpoint=False)) > 1e9


def test_the_first_freeing_shift_counts_even_where_a_longer_one_meets_again() -> None:
    rack = Body(
        name="rack",
        shape=Shape(
            (
                block((0, 10), (0, 100), (0, 100)),
                block((30, 40), (0, 100), (0, 100)),
            )
        ),
    )
    plate = Body(name="plate", shape=Shape((block((2, 12), (0, 100), (0, 100)),)))
    found = overlap(rack, plate)
    assert (found.axis, found.sign) == (Axis.DEPTH, 1)
    assert found.mm == pytest.approx(8, abs=2e-6)
    assert relation(rack, plate.moved((20, 0, 0))).state is State.INTERFERING


def test_a_gap_too_narrow_to_stand_in_is_passed_by() -> None:
    rack = Body(
        name="rack",
        shape=Shape(
            (
                block((0, 10), (0, 100), (0, 100)),
                block((15, 40), (0, 100), (0, 100)),
            )
        ),
    )
    plate = Body(name="plate", shape=Shape((block((2, 12), (0, 100), (0, 100)),)))
    found = overlap(rack, plate)
    assert (found.axis, found.sign) == (Axis.DEPTH, -1)
    assert found.mm == pytest.approx(12, abs=2e-6)


def test_a_peg_in_a_hole_leaves_along_its_axis_or_through_the_rim() -> None:
    """The hole is 40 by 24; the peg bites 1 mm into its front rim."""
    peg = Body(name="peg", shape=Shape((block((41, 51), (12, 20), (-3, 33)),)))
    found = overlap(animal("frame"), peg)
    assert (found.axis, found.sign) == (Axis.DEPTH, -1)
    assert found.mm == pytest.approx(1, abs=2e-6)


def test_two_boxes_free_each_other_as_the_same_cut_in_two_do() -> None:
    made = np.random.default_rng(11)
    other = Body(name="other", shape=Shape((block((20, 50), (20, 50), (20, 50)),)))
    met = 0
    for low, size in made.uniform(1, 40, (200, 2, 3)):
        x, y, z = ((a, a + long) for a, long in zip(low, size, strict=True))
        middle = sum(x) / 2
        halves = block((x[0], middle), y, z), block((middle, x[1]), y, z)
        one = Body(name="one", shape=Shape((block(x, y, z),)))
        if relation(one, other).state is State.INTERFERING:
            met += 1
            told = overlap(one, other)
            known = overlap(Body(name="two", shape=Shape(halves)), other)
            assert (told.axis, told.sign) == (known.axis, known.sign)
            assert told.mm == pytest.approx(known.mm, abs=1e-9)
    assert met > 100


def test_no_overlap_is_less_than_what_the_boxes_within_cells_tell(met: Met) -> None:
    crowd = Crowd.of([body for a, b, _ in met for body in (a, b)])
    far = least_mm(crowd.cells, np.arange(2 * len(met)).reshape(-1, 2).T)
    told = far.min(axis=(0, 1))
    true = np.array([each.mm for _, _, each in met])
    assert (told <= true).all()
    assert (told > 0.5 * true).mean() > 0.2  # and most are not far from it
