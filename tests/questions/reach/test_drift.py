"""What moves a way's end moves what its lead has to spare: held to ways asked anew."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.build.placed import Build
from layout.geometry.space import Vector
from layout.parts.board.board import Board
from layout.parts.case.case import Case
from layout.parts.case.case_fields import Mount, Takes
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.radiator import Radiator
from layout.parts.kinds.kinds import Spec
from layout.questions.explaining.explain import explain
from layout.questions.findings.bearing import Bearing
from layout.questions.findings.passages import passages
from layout.questions.findings.tolerance import RSS, Stacking
from layout.questions.reach.drift import Moved, drifts, pulls, stacked_mm
from layout.questions.reach.hose_drift import hose_moved, laid_mm
from layout.questions.reach.hoses import hoses_of
from tests.build.machines import built, mm
from tests.questions.builds import link

CASE = Case(
    depth=mm(380),
    height=mm(400),
    width=mm(178),
    mounts=(("front", Mount(takes=(Takes(size=120, count=2, start=mm(130)),))),),
)


def _wet(hose_mm: float = 250, **board: float) -> Build:
    told = {name: mm(value) for name, value in board.items()}
    cooler = LiquidCooler(
        hose_length=mm(hose_mm), radiator=Radiator(size=240, mount="front")
    )
    parts: dict[str, Spec] = {
        "board": replace(Board(socket="AM5"), **told),  # type: ignore[arg-type]  # by name
        "cooler": cooler,
    }
    return built(CASE, parts)


def _moved(build: Build) -> tuple[float, dict[str, Moved]]:
    (hoses,) = hoses_of(build)
    way = max(hoses.ways, key=lambda each: each.mm)
    return way.mm, {each.link.label: each for each in hose_moved(hoses, way)}


@pytest.mark.parametrize(
    ("field", "label"),
    [
        ("socket_from_rear", "socket centre from the board's rear edge"),
        ("socket_from_top", "socket centre from the board's top edge"),
    ],
)
def test_a_socket_that_lies_elsewhere_moves_the_way_as_far_as_told(
    field: str, label: str
) -> None:
    _, moved = _moved(_wet())
    figure = moved[label].link.figure
    per_mm = moved[label].off_mm / max(moved[label].link.plus_minus_mm)
    ends = [_moved(_wet(**{field: figure.mm + by}))[0] for by in (-2.0, 2.0)]
    assert per_mm > 0.1
    assert abs(ends[1] - ends[0]) / 4.0 == pytest.approx(per_mm, abs=0.1)


coordinates = st.integers(-200, 200).map(float)
corners = st.tuples(coordinates, coordinates, coordinates)


@given(
    st.lists(corners, min_size=2, max_size=5, unique=True), st.integers(0, 4), corners
)
def test_a_pull_is_what_a_taut_string_grows_by(
    points: list[Vector], place: int, step: Vector
) -> None:
    place %= len(points)
    by = 1e-4
    x, y, z = (p + by * s / 200.0 for p, s in zip(points[place], step, strict=True))
    moved = [*points[:place], (x, y, z), *points[place + 1 :]]
    grown = sum(map(math.dist, moved, moved[1:])) - sum(
        math.dist(a, b) for a, b in pairwise(points)
    )
    told = by * sum(
        p * s / 200.0 for p, s in zip(pulls(points)[place], step, strict=True)
    )
    assert grown == pytest.approx(told, abs=1e-7)


def test_what_moves_both_ends_alike_cancels_and_assumptions_keep_their_scatter() -> (
    None
):
    both, one = (
        link("tray", (3.0, 0.0, 0.0)),
        link("plug", (4.0, 0.0, 0.0), assumed=True),
    )
    start, end = pulls([(0.0, 0.0, 0.0), (100.0, 0.0, 0.0)])
    (moved,) = drifts(
        [
            (Bearing((("case", both),)), start),
            (Bearing((("case", both), ("b", one))), end),
        ]
    )
    assert (moved.owner, moved.off_mm) == ("b", 4.0)
    assert moved.assumed is not None
    assert moved.assumed.link is one
    assert moved.scaled[1].plus_minus_mm == (4.0, 4.0, 4.0)


def test_figures_stack_as_squares_or_at_their_worst() -> None:
    moved = [Moved("a", link(f"{mm}", (1.0, 0.0, 0.0)), mm) for mm in (3.0, 4.0)]
    assert stacked_mm(moved, RSS) == pytest.approx(5.0)
    assert stacked_mm(moved, Stacking(worst_case=True)) == pytest.approx(7.0)


def test_the_way_is_as_long_as_the_search_says() -> None:
    (hoses,) = hoses_of(_wet())
    for way in hoses.ways:
        assert laid_mm(way.points, hoses.radius_mm) == pytest.approx(way.mm)


def test_corners_at_holes_that_are_assumed_may_be_elsewhere() -> None:
    space = passages(_wet())
    assert space is not None
    assumed = [hole for hole in space.holes if hole.assumed]
    assert assumed
    for hole in assumed:
        ((owner, each),) = hole.bearing.chain
        assert owner == "case"
        assert each.figure.assumed
        assert hole.bearing in space.bearing.values()


def test_every_figure_is_in_the_finding_and_in_its_explanation() -> None:
    build = _wet(310)
    way_mm, moved = _moved(build)
    told = explain(build, "hoses-reach:cooler/block:cooler/radiator")
    assert told.finding.gap_mm == pytest.approx(310 - way_mm)
    assert told.finding.tolerance_mm == pytest.approx(stacked_mm(moved.values(), RSS))
    assert "board: socket centre from the board's rear edge" in told.finding.assumed
    assert {each.link.label for each in told.chain} == {*moved}  # type: ignore[union-attr]  # it has a length
