from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.geometry.bodies.body import Body, Shape, shapes_of_rows
from layout.geometry.relations.query import relation
from layout.geometry.solids.bend import QuarterBend
from layout.geometry.solids.cells import Floats
from layout.geometry.solids.round import CHORD_MM, NEST_MM
from layout.geometry.solids.solid import Solid, block
from layout.geometry.space import Axis, Direction, Vector, plus

TURNS = [(out, to) for out in Direction for to in Direction if out.axis is not to.axis]
radii = st.floats(0.0, 120.0)
sizes = st.floats(0.5, 30.0)


def _times(direction: Direction, mm: float) -> Vector:
    x, y, z = direction.vector
    return (x * mm, y * mm, z * mm)


def _bent(
    turn: tuple[Direction, Direction], inside_mm: float, thick_mm: float
) -> QuarterBend:
    return QuarterBend(
        at_mm=(0, 0, 0),
        out=turn[0],
        to=turn[1],
        inside_mm=inside_mm,
        thick_mm=thick_mm,
        wide_mm=5,
    )


def _holds(solids: tuple[Solid, ...], point: Vector) -> bool:
    """Tell whether a small cube about a point meets the solids."""
    x, y, z = point
    e = 1e-4
    cube = Shape((block((x - e, x + e), (y - e, y + e), (z - e, z + e)),))
    bend = Body(name="bend", shape=Shape(solids))
    return relation(bend, Body(name="point", shape=cube)).gap_mm == 0.0


def _point(bend: QuarterBend, radius_mm: float, angle: float) -> Vector:
    """Return a point at a radius from the bend's centre; the angle counts from it."""
    away_mm = bend.inside_mm + bend.thick_mm / 2
    centre = plus(bend.at_mm, _times(bend.to, away_mm))
    run = _times(bend.out, radius_mm * math.sin(angle))
    back = _times(bend.to, -radius_mm * math.cos(angle))
    return plus(plus(centre, run), back)


@pytest.mark.parametrize(("out", "to"), TURNS)
def test_a_bend_reaches_its_radius_both_ways_and_is_as_wide_as_its_cable(
    out: Direction, to: Direction
) -> None:
    bend = QuarterBend(
        at_mm=(10, 20, 30), out=out, to=to, inside_mm=6, thick_mm=2, wide_mm=9
    )
    bounds = Shape(bend.solids).bounds
    lengths = {axis: bounds.high[axis.index] - bounds.low[axis.index] for axis in Axis}
    assert lengths[bend.flat] == pytest.approx(9)
    for axis in (out.axis, to.axis):
        assert lengths[axis] == pytest.approx(8, abs=CHORD_MM)
    ends = (bounds.low, bounds.high)
    ahead = ends[out.sign > 0][out.axis.index]
    assert ahead == pytest.approx(bend.at_mm[out.axis.index] + out.sign * 8, abs=0.06)
    behind = ends[to.sign < 0][to.axis.index]
    assert behind == pytest.approx(bend.at_mm[to.axis.index] - to.sign, abs=0.06)


@given(
    turn=st.sampled_from(TURNS),
    inside_mm=radii,
    thick_mm=sizes,
    part=st.floats(0.0, 1.0),
    angle=st.floats(0.0, math.pi / 2),
)
def test_a_bend_holds_every_point_of_the_true_one(
    *,
    turn: tuple[Direction, Direction],
    inside_mm: float,
    thick_mm: float,
    part: float,
    angle: float,
) -> None:
    bend = _bent(turn, inside_mm, thick_mm)
    assert _holds(bend.solids, _point(bend, inside_mm + part * thick_mm, angle))


@given(
    turn=st.sampled_from(TURNS),
    inside_mm=st.floats(2.0, 120.0),
    thick_mm=sizes,
    angle=st.floats(0.05, 1.5),
)
def test_a_bend_holds_nothing_far_from_the_true_one(
    *,
    turn: tuple[Direction, Direction],
    inside_mm: float,
    thick_mm: float,
    angle: float,
) -> None:
    bend = _bent(turn, inside_mm, thick_mm)
    off_mm = (NEST_MM if bend.flat is Axis.DEPTH else CHORD_MM) + 0.01
    for radius_mm in (bend.inside_mm - off_mm, bend.outside_mm + off_mm):
        assert not _holds(bend.solids, _point(bend, radius_mm, angle))


@given(
    turn=st.sampled_from(TURNS),
    inside_mm=st.just(0.0) | radii,
    thick_mm=sizes,
    wide_mm=sizes,
)
def test_the_cells_told_at_once_are_those_of_its_outlines(
    *,
    turn: tuple[Direction, Direction],
    inside_mm: float,
    thick_mm: float,
    wide_mm: float,
) -> None:
    bend = QuarterBend(
        at_mm=(10, -20, 30),
        out=turn[0],
        to=turn[1],
        inside_mm=inside_mm,
        thick_mm=thick_mm,
        wide_mm=wide_mm,
    )
    cut = Shape(bend.solids)
    (told,) = shapes_of_rows([bend.rows])
    assert _volume(told.cells.rows) == pytest.approx(_volume(cut.cells.rows), rel=1e-9)
    for a, b in zip(_sorted(told.cells.rows), _sorted(cut.cells.rows), strict=True):
        assert a == pytest.approx(b, abs=1e-7)


def _sorted(rows: Floats) -> list[list[float]]:
    wide = rows[:, rows[1] - rows[0] > 1e-6]
    return sorted(wide.T.round(7).tolist())


def _volume(rows: Floats) -> float:
    """Return what cells enclose whose one bound at least is level."""
    high, wide = rows[4:6] - rows[2:4], rows[8:10] - rows[6:8]
    return float(((rows[1] - rows[0]) * high.mean(axis=0) * wide.mean(axis=0)).sum())


def test_a_cable_does_not_turn_along_its_own_run() -> None:
    with pytest.raises(ValueError, match="no quarter turn"):
        QuarterBend(
            at_mm=(0, 0, 0),
            out=Direction.UP,
            to=Direction.DOWN,
            inside_mm=1,
            thick_mm=1,
            wide_mm=1,
        )
