from __future__ import annotations

import math
from itertools import pairwise, permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.geometry.space import Box, Vector
from layout.geometry.ways.routes import Routes, rounded, rounded_mm

WALL = Box((-50.0, -50.0, 0.0), (50.0, 50.0, 10.0))
START, END = (0.0, 0.0, -20.0), (0.0, 0.0, 30.0)


def _length(points: tuple[Vector, ...]) -> float:
    return sum(math.dist(a, b) for a, b in pairwise(points))


def test_nothing_between_is_a_straight_line() -> None:
    assert Routes([], []).shortest(START, END) == (START, END)
    beside = Box((1.0, -5.0, 0.0), (5.0, 5.0, 10.0))
    assert Routes([beside], []).shortest(START, END) == (START, END)


def test_a_wall_without_a_corner_to_turn_at_lets_nothing_through() -> None:
    assert Routes([WALL], []).shortest(START, END) is None


def test_a_face_bars_nothing() -> None:
    flush = Box((0.0, -5.0, 0.0), (5.0, 5.0, 10.0))
    assert Routes([flush], []).shortest(START, END) == (START, END)


def test_the_nearer_of_two_holes_is_taken() -> None:
    # A wall in three pieces leaves holes at y = 20 to 22 and y = -40 to -38.
    walls = [
        Box((-50.0, low, 0.0), (50.0, high, 10.0))
        for low, high in ((-50.0, -40.0), (-38.0, 20.0), (22.0, 50.0))
    ]
    turns = [(0.0, y, z) for y in (-39.0, 21.0) for z in (-1.0, 11.0)]
    found = Routes(walls, turns).shortest(START, END)
    assert found == (START, (0.0, 21.0, -1.0), (0.0, 21.0, 11.0), END)


def test_a_corner_inside_a_box_is_no_place_to_turn() -> None:
    assert Routes([WALL], [(0.0, 0.0, 5.0)]).shortest(START, END) is None


def test_what_holds_an_end_does_not_bar_the_way() -> None:
    holding = Box((-5.0, -5.0, -25.0), (5.0, 5.0, -15.0))
    assert Routes([holding], []).shortest(START, END) == (START, END)


whole = st.integers(-6, 6).map(float)
points = st.tuples(whole, whole, whole)
boxes = st.tuples(points, st.tuples(*[st.integers(1, 6).map(float)] * 3)).map(
    lambda each: Box(
        each[0],
        tuple(a + b for a, b in zip(*each, strict=True)),
    )
)


def _free(a: Vector, b: Vector, walls: list[Box]) -> bool:
    """Tell by many points of a line whether it keeps out of every box."""
    steps = 840  # whole coordinates within 12: crossings lie at fractions of 12 parts
    for k in range(1, 2 * steps, 2):
        t = k / (2 * steps)
        at = [p + t * (q - p) for p, q in zip(a, b, strict=True)]
        for wall in walls:
            if all(
                low < x < high
                for low, x, high in zip(wall.low, at, wall.high, strict=True)
            ):
                return False
    return True


@given(
    walls=st.lists(boxes, max_size=3),
    turns=st.lists(points, max_size=4, unique=True),
    start=points,
    end=points,
)
def test_no_order_of_corners_gives_a_shorter_way(
    *, walls: list[Box], turns: list[Vector], start: Vector, end: Vector
) -> None:
    def inside(at: Vector, wall: Box) -> bool:
        return all(a < x < b for a, x, b in zip(wall.low, at, wall.high, strict=True))

    at_ends = [w for w in walls if not inside(start, w) and not inside(end, w)]
    usable = [each for each in turns if not any(inside(each, wall) for wall in walls)]
    ways = [
        (start, *middle, end)
        for count in range(len(usable) + 1)
        for middle in permutations(usable, count)
    ]
    lines: dict[tuple[Vector, Vector], bool] = {}

    def free(a: Vector, b: Vector, *, of_end: bool) -> bool:
        key = (a, b)
        if key not in lines:
            lines[key] = _free(a, b, at_ends if of_end else walls)
        return lines[key]

    lengths = [
        _length(way)
        for way in ways
        if all(
            free(a, b, of_end=k in (0, len(way) - 2))
            for k, (a, b) in enumerate(pairwise(way))
        )
    ]
    found = Routes(walls, turns).shortest(start, end)
    if found is None:
        assert not lengths
    else:
        assert lengths
        assert _length(found) == pytest.approx(min(lengths), abs=1e-9)


@given(
    walls=st.lists(boxes, min_size=1, max_size=3),
    other=st.lists(boxes, max_size=2),
    turns=st.lists(points, min_size=1, max_size=4, unique=True),
    fewer=st.integers(0, 2),
    start=points,
    end=points,
)
def test_a_way_kept_from_a_space_mostly_alike_is_the_shortest_there_too(
    *,
    walls: list[Box],
    other: list[Box],
    turns: list[Vector],
    fewer: int,
    start: Vector,
    end: Vector,
) -> None:
    before = Routes([*walls, *other[:1]], turns[fewer:])
    before.shortest(start, end)
    boxes_now, turns_now = [*walls[:-1], *other[1:]], turns[: 4 - fewer]
    kept = Routes(boxes_now, turns_now, before).shortest(start, end)
    found = Routes(boxes_now, turns_now).shortest(start, end)
    assert (kept is None) == (found is None)
    if kept and found:
        assert _length(kept) == pytest.approx(_length(found), abs=1e-9)


def test_a_way_far_from_what_changed_is_not_looked_for_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    near, far = Box((-5.0, -5.0, 0.0), (5.0, 5.0, 1.0)), (300.0, 300.0, 0.0)
    turns = [(0.0, 6.0, -1.0), (0.0, 6.0, 2.0)]
    before = Routes([near, near.moved(far)], turns)
    way = before.shortest(START, END)
    now = Routes([near, near.moved((310.0, 300.0, 0.0))], turns, before)
    monkeypatch.setattr(Routes, "_sight", None)
    assert way is not None
    assert now.shortest(START, END) == way


def test_a_rounded_corner_is_shorter_than_a_sharp_one_by_the_arcs_gain() -> None:
    corner = [(0.0, 0.0, 0.0), (100.0, 0.0, 0.0), (100.0, 0.0, 80.0)]
    by_hand_mm = (100 - 10) + (80 - 10) + 10 * math.pi / 2
    assert rounded_mm(corner, 10.0) == pytest.approx(by_hand_mm)
    assert rounded_mm(corner, 0.0) == pytest.approx(180.0)


def test_a_leg_too_short_for_the_radius_is_rounded_as_far_as_it_goes() -> None:
    corner = [(0.0, 0.0, 0.0), (100.0, 0.0, 0.0), (100.0, 0.0, 8.0)]
    assert rounded_mm(corner, 10.0) == pytest.approx(rounded_mm(corner, 4.0))


def test_a_rounded_way_keeps_its_ends_and_is_about_as_long_as_told() -> None:
    way = [(0.0, 0.0, 0.0), (100.0, 0.0, 0.0), (100.0, 80.0, 0.0), (100.0, 80.0, 9.0)]
    drawn = rounded(way, 12.0)
    assert (drawn[0], drawn[-1]) == (way[0], way[-1])
    assert _length(drawn) == pytest.approx(rounded_mm(way, 12.0), rel=0.005)
    assert (100.0, 0.0, 0.0) not in drawn


def test_a_straight_way_has_nothing_to_round() -> None:
    line = [(0.0, 0.0, 0.0), (10.0, 0.0, 0.0), (10.0, 0.0, 0.0), (30.0, 0.0, 0.0)]
    assert rounded_mm(line, 10.0) == pytest.approx(30.0)
