"""Turns: every point of a solid lands where the turn puts it, and nothing else does."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from layout.geometry.bodies.body import Body, Shape
from layout.geometry.bodies.turn import OVER, UPRIGHT, Turn, turn_of
from layout.geometry.errors import TurnError
from layout.geometry.relations.query import relation
from layout.geometry.relations.relation import State
from layout.geometry.solids.solid import Solid, block, rectangle
from layout.geometry.space import Axis, Box, Direction
from tests.strategies import bodies, boxes, prisms

TURNS = [
    Turn(depth, height)
    for depth, height in product(Direction, repeat=2)
    if depth.axis is not height.axis
]
KEEP_DEPTH = [each for each in TURNS if each.depth.axis is Axis.DEPTH]
L_SHAPE = Polygon([(0, 0), (30, 0), (30, 10), (10, 10), (10, 20), (0, 20)])
WEDGE = Polygon([(0, 0), (30, 0), (30, 20)])


def _turned(body: Body, turn: Turn) -> Body:
    shape = Shape(turn.solids(body.shape.solids))
    return Body(name=body.name, shape=shape, at_mm=turn.vector(body.at_mm))


def test_there_are_24_turns_and_none_mirrors() -> None:
    assert len(set(TURNS)) == 24
    ends = {tuple(turn.direction(each) for each in Direction) for turn in TURNS}
    assert len(ends) == 24


@pytest.mark.parametrize("turn", TURNS)
def test_a_turn_is_undone_by_its_back(turn: Turn) -> None:
    assert turn.back.after(turn) == UPRIGHT
    assert turn.after(turn.back) == UPRIGHT
    assert turn.back.vector(turn.vector((1.0, 2.0, 3.0))) == (1.0, 2.0, 3.0)


@pytest.mark.parametrize("first", TURNS)
@pytest.mark.parametrize("then", KEEP_DEPTH)
def test_two_turns_make_one(first: Turn, then: Turn) -> None:
    place = (1.0, 2.0, 3.0)
    assert then.after(first).vector(place) == then.vector(first.vector(place))


def test_half_a_turn_about_depth_lays_the_floor_above() -> None:
    assert OVER.direction(Direction.DOWN) is Direction.UP
    assert OVER.direction(Direction.PANEL) is Direction.TRAY
    assert OVER.box(Box((0, 1, 2), (10, 11, 12))) == Box((0, -11, -12), (10, -1, -2))


def test_a_turn_is_found_from_two_directions() -> None:
    for turn in TURNS:
        asked = [(own, turn.direction(own)) for own in (Direction.REAR, Direction.DOWN)]
        assert turn_of(asked[0], asked[1]) == turn
    same = (Direction.UP, Direction.UP)
    with pytest.raises(TurnError, match="no turn takes"):
        turn_of(same, (Direction.DOWN, Direction.FRONT))
    with pytest.raises(TurnError, match="two axes"):
        Turn(Direction.UP, Direction.DOWN)


@given(bodies(), bodies(), st.sampled_from(KEEP_DEPTH))
def test_turns_about_depth_change_no_gap(a: Body, b: Body, turn: Turn) -> None:
    _same(a, b, turn)


@given(boxes(), boxes(), st.sampled_from(TURNS))
def test_no_turn_changes_the_gap_of_boxes(a: Solid, b: Solid, turn: Turn) -> None:
    _same(_body(a), _body(b), turn)


@given(prisms(), boxes(), st.sampled_from(TURNS))
def test_a_prism_is_turned_exactly_or_refused(a: Solid, b: Solid, turn: Turn) -> None:
    try:
        _same(_body(a), _body(b), turn)
    except TurnError as refused:
        assert "slanted edges" in str(refused)  # noqa: PT017  others pass through


def _body(solid: Solid) -> Body:
    return Body(name="body", shape=Shape((solid,)))


def _same(a: Body, b: Body, turn: Turn) -> None:
    before, after = relation(a, b), relation(_turned(a, turn), _turned(b, turn))
    assert after.state is before.state
    assert after.gap_mm == pytest.approx(before.gap_mm, abs=1e-9)


@pytest.mark.parametrize("turn", TURNS)
def test_square_outlines_lie_in_every_way(turn: Turn) -> None:
    whole = Solid(L_SHAPE, rectangle((0, 30), (0, 7)))
    pieces = Shape(turn.solids([whole])).cells.rows
    volume = float(
        (
            (pieces[1] - pieces[0]) * (pieces[4] - pieces[2]) * (pieces[8] - pieces[6])
        ).sum()
    )
    assert volume == pytest.approx(L_SHAPE.area * 7)
    notch = block((12, 28), (12, 18), (1, 6))
    in_it = Body(name="notch", shape=Shape(turn.solids([notch])))
    made = Body(name="made", shape=Shape(turn.solids([whole])))
    assert relation(made, in_it).state is State.APART
    assert relation(made, in_it).gap_mm == pytest.approx(2.0)


def test_a_slanted_edge_cannot_lie_across_depth() -> None:
    wedge = Solid(WEDGE, rectangle((0, 30), (0, 7)))
    across = Turn(Direction.UP, Direction.PANEL)
    assert across.width is Direction.FRONT
    with pytest.raises(TurnError, match="slanted edges"):
        across.solids([wedge])
