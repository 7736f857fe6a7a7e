"""The stiff way held against every order of corners, worked out one by one."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise, permutations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.geometry.solids.cells import Floats
from layout.geometry.space import Box, Vector
from layout.geometry.ways.legs import Barring, Legs
from layout.geometry.ways.stiff import StiffWay, StiffWays
from layout.geometry.ways.turns import End, bent, round_edges
from layout.questions.reach.hose_drift import laid_mm

R = 20.0
_MOST_MM = 5000.0
WALL = Box((40.0, -200.0, -200.0), (60.0, 30.0, 200.0))


def _between(
    start: End, end: End, *, boxes: Sequence[Box] = (), corners: Sequence[Vector] = ()
) -> float | None:
    found = StiffWays(boxes, corners, [start, end], R).between(start, end, _MOST_MM)
    return None if found is None else found.mm


def test_an_elbow_to_an_elbow_is_a_straight_line() -> None:
    assert _between(End((0, 0, 0)), End((100, 0, 0))) == pytest.approx(100.0)


def test_a_right_angle_into_a_fitting_is_a_quarter_of_a_circle() -> None:
    # 80 along x, then up to the fitting: the corner saves (2 - pi / 2) radii.
    start, end = End((0, 0, 0)), End((80, R, 0), (0.0, -1.0, 0.0))
    want = 80 + R - (2 - math.pi / 2) * R
    assert _between(start, end) == pytest.approx(want)


def test_a_fitting_that_looks_away_has_no_way_of_one_turn() -> None:
    start, end = End((0, 0, 0)), End((80, 0, 0), (1.0, 0.0, 0.0))
    assert _between(start, end) is None
    corners = [(150.0, 50.0, 0.0), (60.0, 60.0, 0.0), (100.0, 50.0, 0.0)]
    assert _between(start, end, corners=corners) is not None


def test_a_wall_is_passed_with_its_edge_clear_of_the_bends() -> None:
    start, end = End((0, 0, 0)), End((100, 0, 0))
    corners = round_edges([WALL], [start.at_mm, end.at_mm], R)
    found = StiffWays([WALL], corners, [start, end], R).between(start, end)
    assert found is not None
    assert 2 * math.hypot(40, 30) + 20 < found.mm + 1.0
    assert max(y for _, y, _ in found.points) > 30.0


def test_a_hose_turns_back_into_a_fitting_that_looks_away() -> None:
    start, end = End((0, 0, 0)), End((300, 0, 0), (1.0, 0.0, 0.0))
    found = StiffWays([], end.beside(R), [start, end], R).between(start, end)
    assert found is not None
    # To beside the fitting, past it, back before it and in: two right angles.
    off_mm = 2.01 * R
    legs_mm = math.hypot(320 - off_mm, off_mm) + 2 * off_mm + R
    want_mm = legs_mm - 2 * (2 - math.pi / 2) * R
    assert found.mm == pytest.approx(want_mm, abs=0.1)
    assert found.points[-1] == (300, 0, 0)


def test_two_turns_share_a_leg_unevenly() -> None:
    # The leg of 30 between a right angle, which takes a radius of it, and one of 45,
    # which takes R * tan(22.5): together 28.3, though half of it is 15.
    start, end = End((0, 0, 0)), End((100 + 80, 30 + 80, 0))
    corners = [(100.0, 0.0, 0.0), (100.0, 30.0, 0.0)]
    bars = [Box((0.0, 1.0, -200.0), (78.0, 200.0, 200.0))]
    bars.append(Box((122.0, -200.0, -200.0), (300.0, 38.0, 200.0)))
    by_hand = _length((start, end), corners, bars)
    assert by_hand is not None
    assert _between(start, end, boxes=bars, corners=corners) == pytest.approx(by_hand)


def test_a_way_is_bent_by_one_radius_however_its_turns_share_a_leg() -> None:
    # a right angle takes all but 8.3 of the leg of 28.3 that follows, the next the rest
    short = R + R * math.tan(math.pi / 8)
    points = [(0, 0, 0), (100, 0, 0), (100, short, 0), (180, short + 80, 0)]
    line = np.array(bent(points, R))
    steps = np.diff(line, axis=0)
    apart = np.linalg.norm(steps, axis=1)
    heads = steps / apart[:, None]
    turns = np.arccos(np.clip((heads[1:] * heads[:-1]).sum(axis=1), -1.0, 1.0))
    # nowhere more of a turn than an arc of the radius has over the chords beside it
    radii = (apart[1:] + apart[:-1]) / 2 / np.maximum(turns, 1e-9)
    assert radii.min() > 0.99 * R
    assert apart.sum() == pytest.approx(laid_mm(points, R), rel=1e-3)
    assert turns.sum() == pytest.approx(3 * math.pi / 4)


def test_a_corner_without_a_turn_stays_a_point() -> None:
    straight = ((0.0, 0.0, 0.0), (50.0, 0.0, 0.0), (90.0, 0.0, 0.0))
    assert bent(straight, R) == straight


def test_two_turns_that_want_more_than_their_leg_bar_the_way() -> None:
    start, end = End((0, 0, 0)), End((100 + 80, 28 + 80, 0))
    corners = [(100.0, 0.0, 0.0), (100.0, 28.0, 0.0)]
    bars = [Box((0.0, 1.0, -200.0), (78.0, 200.0, 200.0))]
    bars.append(Box((122.0, -200.0, -200.0), (300.0, 36.0, 200.0)))
    assert _length((start, end), corners, bars) is None
    assert _between(start, end, boxes=bars, corners=corners) is None


def _free(points: Floats, boxes: Sequence[Box]) -> bool:
    for box in boxes:
        low, high = np.array(box.low) + 1e-9, np.array(box.high) - 1e-9
        if bool(((low < points) & (points < high)).all(axis=1).any()):
            return False
    return True


def _crosses(a: Floats, b: Floats, boxes: Sequence[Box]) -> bool:
    at = a + np.linspace(0.0, 1.0, 1500)[:, None] * (b - a)
    return not _free(at, boxes)


def _length(
    ends: tuple[End, End], between: Sequence[Vector], boxes: Sequence[Box]
) -> float | None:
    """Return the length of one order of corners by hand; None where it cannot be."""
    start, end = ends
    at = [np.array(p, float) for p in (start.turn(R), *between, end.turn(R))]
    before = [np.array(start.at_mm, float)] if start.out else []
    after = [np.array(end.at_mm, float)] if end.out else []
    if any(_crosses(a, b, boxes) for a, b in pairwise(at)):
        return None
    at = [*before, *at, *after]
    mm = [math.dist(a, b) for a, b in pairwise(at)]
    turns = [_turn((at[k - 1], at[k], at[k + 1]), boxes) for k in range(1, len(mm))]
    known = [each for each in turns if each is not None]
    if len(known) < len(turns):
        return None
    # A leg with a turn at both ends is shared, unevenly where need be.
    takes = [0.0, *(tangent for tangent, _ in known), 0.0]
    taken = [a + b for a, b in pairwise(takes)]
    if any(both > leg + 1e-6 for both, leg in zip(taken, mm, strict=True)):
        return None
    return sum(mm) - sum(saved for _, saved in known)


def _turn(
    three: tuple[Floats, Floats, Floats], boxes: Sequence[Box]
) -> tuple[float, float] | None:
    """Return what an arc takes of both legs and saves; None where it is barred."""
    a, corner, b = three
    one, other = corner - a, b - corner
    one, other = one / np.linalg.norm(one), other / np.linalg.norm(other)
    cosine = float(np.clip(one @ other, -1.0, 1.0))
    turn = math.acos(cosine)
    tangent = R * math.tan(turn / 2) if cosine > -1e-6 else math.inf
    if tangent == math.inf:
        return None
    if turn > 1e-6:
        inwards = (other - cosine * one) / math.sin(turn)
        phi = turn * np.linspace(0.0, 1.0, 9)[1:-1, None]
        arc = np.sin(phi) * one + (1 - np.cos(phi)) * inwards
        if not _free(corner - tangent * one + R * arc, boxes):
            return None
    return tangent, (2 * math.tan(turn / 2) - turn) * R


numbers = st.integers(-12, 12).map(lambda n: 10.0 * n)
points = st.tuples(numbers, numbers, numbers)
outs = st.sampled_from([(1.0, 0.0, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, 1.0), None])


@settings(max_examples=40)
@given(
    places=st.tuples(points, points),
    looks=st.tuples(outs, outs),
    corners=st.lists(points, max_size=4, unique=True),
    low=points,
)
def test_no_order_of_corners_gives_a_shorter_way(
    *,
    places: tuple[Vector, Vector],
    looks: tuple[Vector | None, Vector | None],
    corners: list[Vector],
    low: Vector,
) -> None:
    start, end = (End(at, out) for at, out in zip(places, looks, strict=True))
    x, y, z = low
    boxes = [Box((x + 1.0, y + 1.0, z + 1.0), (x + 48.5, y + 37.5, z + 61.5))]
    used = [at for at in corners if at not in {start.turn(R), end.turn(R)}]
    ends = np.array([start.turn(R), end.turn(R)], float)
    told = _between(start, end, boxes=boxes, corners=used)
    straight_mm = math.dist(*places)
    if start.turn(R) == end.turn(R) or not _free(ends, boxes) or straight_mm == 0.0:
        return
    orders = [o for n in range(len(used) + 1) for o in permutations(used, n)]
    lengths = [_length((start, end), order, boxes) for order in orders]
    by_hand = min((mm for mm in lengths if mm is not None), default=math.inf)
    if by_hand == math.inf:
        assert told is None
    else:
        assert told == pytest.approx(by_hand, abs=1e-6)


@pytest.mark.parametrize("seed", range(6))
def test_round_a_block_no_order_of_its_edges_gives_a_shorter_way(seed: int) -> None:
    rng = np.random.default_rng(seed)
    low, deep = rng.uniform(-40, -10, 3), rng.uniform(30, 80, 3)
    block = Box(tuple(low), tuple(low + deep))
    start = End(tuple(rng.uniform(-150, -90, 3)))
    end = End(tuple(rng.uniform(110, 170, 3)), (float(seed % 2 * 2 - 1), 0.0, 0.0))
    every = round_edges([block], [start.at_mm, end.turn(R)], R)
    used = [every[k] for k in rng.choice(len(every), 2, replace=False)]
    used += end.beside(R)[:2]
    orders = [o for n in range(len(used) + 1) for o in permutations(used, n)]
    lengths = [_length((start, end), order, [block]) for order in orders]
    by_hand = min((mm for mm in lengths if mm is not None), default=None)
    told = _between(start, end, boxes=[block], corners=used)
    assert told == (by_hand if by_hand is None else pytest.approx(by_hand, abs=1e-6))


def test_a_way_longer_than_was_asked_is_none() -> None:
    start, end = End((0, 0, 0)), End((100, 0, 0))
    corners = round_edges([WALL], [start.at_mm, end.at_mm], R)
    space = StiffWays([WALL], corners, [start, end], R)
    found = space.between(start, end)
    assert found is not None
    assert space.between(start, end, found.mm - 0.01) is None
    assert space.between(start, end, found.mm + 0.01) == found
    assert space.between(end, start) == StiffWay(found.points[::-1], found.mm)


def test_a_port_that_lets_no_hose_out_is_told_without_asking_every_leg(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    # a groove as wide as the port's turn: straight out and back is all there is
    walls = [Box((-200, y, -200), (60, y + 100, 200)) for y in (1.0, -101.0)]
    walls.append(Box((-200, -100, -200), (-R - 1, 100, 200)))
    start, end = End((200, 0, 0)), End((0, 0, 0), (-1.0, 0.0, 0.0))
    corners = [(-R + dx, dy, dz) for dx in (0.0, 5.0) for dy in (0.0,) for dz in (0, 9)]
    space = StiffWays(walls, corners, [start, end], R)
    tried = 0

    def keep(legs: Legs, most_mm: float, past: Barring | None = None) -> None:
        nonlocal tried
        tried += 1
        kept(legs, most_mm, past)

    kept = Legs.keep
    monkeypatch.setattr(Legs, "keep", keep)
    assert space.between(start, end, 5000.0) is None
    assert tried == 1
