"""Gaps and overlaps that a formula gives: no other program needed."""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely.geometry import Polygon

from layout.geometry.bodies.body import Body, Shape
from layout.geometry.relations.query import relation
from layout.geometry.relations.relation import Relation, State
from layout.geometry.solids.round import disc_outline, hole_outline
from layout.geometry.solids.solid import Solid, block, rectangle
from layout.geometry.space import Axis, Vector
from tests.geometry.bulk import related
from tests.zoo import animal


def _body(*solids: Solid, name: str = "body") -> Body:
    return Body(name=name, shape=Shape(solids))


def _across(outline: Polygon, z: tuple[float, float] = (0, 10)) -> Body:
    x0, _, x1, _ = outline.bounds
    return _body(Solid(outline, rectangle((x0, x1), z)))


def _nearest(found: Relation) -> tuple[Vector, Vector]:
    assert found.witness is not None
    return found.witness.from_mm, found.witness.to_mm


def test_box_to_box_is_the_root_of_three_interval_gaps() -> None:
    rng = np.random.default_rng(3)
    low = rng.integers(-300, 300, (500, 2, 3)) / 10
    high = low + rng.integers(1, 300, (500, 2, 3)) / 10
    pairs = []
    for corners in zip(low.tolist(), high.tolist(), strict=True):
        ends = [list(zip(a, b, strict=True)) for a, b in zip(*corners, strict=True)]
        a, b = (_body(block(x, y, z)) for x, y, z in ends)
        pairs.append((a, b))
    steps = np.maximum(low[:, 0] - high[:, 1], low[:, 1] - high[:, 0])
    expected = np.sqrt((steps.clip(min=0.0) ** 2).sum(axis=1))
    found = related(pairs)
    np.testing.assert_allclose([each.gap_mm for each in found], expected, atol=1e-12)
    states = [each.state is State.INTERFERING for each in found]
    assert states == (steps < -1e-6).all(axis=1).tolist()


def test_box_in_box_overlaps_by_the_shortest_way_out() -> None:
    a, b = _body(block((0, 50), (0, 40), (0, 30))), _body(block((0, 5), (0, 5), (0, 5)))
    # Ways out of a: 45 and 10 along depth, 33 and 12 along height, 13 and 22 in width.
    found = relation(a, b.moved((40, 28, 8)))
    assert found.overlap is not None
    assert found.overlap.axis is Axis.DEPTH
    assert found.overlap.sign == 1
    assert found.overlap.mm == pytest.approx(10, abs=2e-6)


def test_corner_to_slanted_face() -> None:
    wedge = _across(Polygon([(0, 0), (40, 0), (0, 30)]))  # face 3 x + 4 y = 120
    cube = _body(block((24, 30), (18, 30), (2, 4)))
    found = relation(wedge, cube)
    assert found.gap_mm == pytest.approx((3 * 24 + 4 * 18 - 120) / 5, abs=1e-12)
    on_wedge, on_cube = _nearest(found)
    assert on_cube[:2] == pytest.approx((24, 18))
    assert on_wedge[:2] == pytest.approx((24 - 0.6 * 4.8, 18 - 0.8 * 4.8))
    assert found.witness is not None
    assert found.witness.axis is None


def test_corner_to_upright_edge() -> None:
    post = _body(block((0, 10), (0, 100), (0, 10)))
    tip = _body(
        Solid(Polygon([(13, 50), (40, 40), (40, 60)]), rectangle((13, 40), (14, 20)))
    )
    found = relation(post, tip)
    assert found.gap_mm == pytest.approx(5, abs=1e-12)
    on_a, on_b = _nearest(found)
    assert on_a == pytest.approx((10, 50, 10))
    assert on_b == pytest.approx((13, 50, 14))


def test_tip_to_tip() -> None:
    ahead = Polygon([(0, -10), (0, 10), (30, 0)])
    behind = Polygon([(60, -10), (60, 10), (30, 0)])
    a, b = _body(Solid(ahead, ahead)), _body(Solid(behind, behind))
    found = relation(a, b.moved((6, 2, 3)))
    assert found.gap_mm == pytest.approx(7, abs=1e-12)
    on_a, on_b = _nearest(found)
    assert on_a == pytest.approx((30, 0, 0))
    assert on_b == pytest.approx((36, 2, 3))


def test_edge_crossing_edge_square() -> None:
    ahead = Polygon([(0, -10), (0, 10), (30, 3)])
    behind = Polygon([(60, -10), (60, 10), (37.5, 4)])
    a = _body(Solid(ahead, rectangle((0, 30), (-20, 20))))
    b = _body(Solid(rectangle((37.5, 60), (-20, 20)), behind))
    found = relation(a, b)
    assert found.gap_mm == pytest.approx(7.5, abs=1e-12)
    on_a, on_b = _nearest(found)
    assert on_a == pytest.approx((30, 3, 4))
    assert on_b == pytest.approx((37.5, 3, 4))
    assert found.witness is not None
    assert found.witness.axis is Axis.DEPTH


@pytest.mark.parametrize("rises", [(0.2, -0.3, -0.4, 0.1), (3.0, 0.5, -2.0, 1.0)])
def test_skew_edge_to_skew_edge(rises: tuple[float, float, float, float]) -> None:
    """The ridge of a lies under the keel of b; both run askew through space."""
    a_y, a_z, b_y, b_z = rises
    x = np.array([-40.0, 40.0])

    def under(rise: float) -> Polygon:
        return Polygon([*zip(x, rise * x, strict=True), (40, -200), (-40, -200)])

    def over(rise: float) -> Polygon:
        return Polygon([*zip(x, rise * x, strict=True), (40, 200), (-40, 200)])

    a, b = _body(Solid(under(a_y), under(a_z))), _body(Solid(over(b_y), over(b_z)))
    step = np.array([0.0, 1.0, 2.0])
    normal = np.cross([1, a_y, a_z], [1, b_y, b_z])
    expected = abs(step @ normal) / np.linalg.norm(normal)
    # The lines' feet on one another must lie on the edges for the formula to hold.
    along = np.column_stack([[1, a_y, a_z], [-1, -b_y, -b_z], normal])
    assert (np.abs(np.linalg.solve(along, step)[:2]) < 40).all()
    gap_mm = relation(a, b.moved((0, 1, 2))).gap_mm
    assert gap_mm == pytest.approx(expected, abs=1e-12)


def _sector(inner_mm: float, outer_mm: float) -> Polygon:
    """Return a quarter of a ring, a corner on both circles at every degree."""
    turns = np.radians(np.arange(91))
    circle = np.column_stack([np.cos(turns), np.sin(turns)])
    return Polygon(np.concatenate([inner_mm * circle, outer_mm * circle[::-1]]))


def test_ring_sector_from_within() -> None:
    sector = _across(_sector(40, 60))
    cube = _body(block((0, 20), (0, 20), (2, 4)))
    # From the corner on the 45 degree line square to the chords beside that line.
    reach = (40 - 20 * math.sqrt(2)) * math.cos(math.radians(0.5))
    assert relation(cube, sector).gap_mm == pytest.approx(reach, abs=1e-12)


def test_ring_sector_from_without() -> None:
    sector = _across(_sector(40, 60))
    cube = _body(block((50, 70), (60, 70), (2, 4)))
    # The corner (50, 60) lies in the 1 degree beside atan2(60, 50) = 50.19.
    chord = math.radians(50.5)
    reach = 50 * math.cos(chord) + 60 * math.sin(chord)
    expected = reach - 60 * math.cos(math.radians(0.5))
    assert relation(cube, sector).gap_mm == pytest.approx(expected, abs=1e-12)


def test_disc_within_a_ring_never_overstates() -> None:
    hole = hole_outline((0, 0), 120)
    ring = _across(Polygon(disc_outline((0, 0), 160).exterior, [hole.exterior]))
    disc = _across(disc_outline((10, 0), 80))
    true_mm = 60 - 40 - 10
    gap_mm = relation(ring, disc).gap_mm
    assert true_mm - 0.1 < gap_mm <= true_mm


def test_peg_within_a_hole_is_apart() -> None:
    frame, peg = animal("frame"), _body(block((20, 30), (12, 25), (-50, 50)))
    found = relation(frame, peg)
    assert found.state is State.APART
    assert found.gap_mm == pytest.approx(4, abs=1e-12)


def test_a_fan_over_memory_overlaps_it_in_the_side_view_only() -> None:
    memory = _body(block((150, 156), (40, 84), (10, 41)))
    fan = _body(block((90, 170), (50, 170), (47.5, 72.5)))
    found = relation(memory, fan)
    assert found.state is State.APART
    assert found.gap_mm == pytest.approx(6.5, abs=1e-12)
    assert found.witness is not None
    assert found.witness.axis is Axis.WIDTH


def test_a_face_of_no_thickness_does_not_count() -> None:
    """Both outlines are tall at x = 30, but over no depth at all."""
    steps = animal("face of no thickness")
    probe = _body(block((29, 31), (25, 35), (25, 35)))
    found = relation(steps, probe)
    assert found.state is State.APART
    # y <= 20 where z reaches 40 (x <= 30), and z <= 20 where y reaches 40 (x >= 30).
    assert found.gap_mm == pytest.approx(5, abs=1e-12)


@pytest.mark.parametrize(
    ("grown_mm", "state"), [(1e-8, "touching"), (1e-4, "interfering")]
)
def test_a_film_that_both_fill_interferes_when_thick_enough(
    grown_mm: float, state: str
) -> None:
    a = _body(block((0, 50), (0, 50), (0, 50)))
    b = _body(block((0, 50), (50 - grown_mm, 80), (0, 50)))
    assert relation(a, b).state.value == state


@pytest.mark.parametrize(
    ("room_mm", "axis"),
    [
        ((5, 5, 5), Axis.DEPTH),
        ((5, 6, 5), Axis.DEPTH),
        ((6, 5, 5), Axis.HEIGHT),
        ((6, 6, 5), Axis.WIDTH),
        ((5 + 5e-7, 5, 5), Axis.DEPTH),
        ((5 + 5e-6, 5, 5), Axis.HEIGHT),
    ],
)
def test_ties_go_to_depth_then_height_then_width_and_to_plus(
    room_mm: Vector, axis: Axis
) -> None:
    x, y, z = ((-room, 10 + room) for room in room_mm)
    found = relation(_body(block(x, y, z)), animal("cube")).overlap
    assert found is not None
    assert (found.axis, found.sign) == (axis, 1)
    assert found.mm == pytest.approx(15, abs=2e-6)


@pytest.mark.parametrize(("nearer_mm", "sign"), [(0.0, 1), (5e-7, 1), (5e-6, -1)])
def test_ties_go_to_the_positive_sign(nearer_mm: float, sign: int) -> None:
    case = _body(block((-90, 100), (nearer_mm - 5, 15), (-90, 100)))
    found = relation(case, animal("cube")).overlap
    assert found is not None
    assert (found.axis, found.sign) == (Axis.HEIGHT, sign)
