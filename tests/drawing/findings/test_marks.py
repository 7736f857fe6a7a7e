from __future__ import annotations

import math
from dataclasses import replace

import pytest
import shapely

from layout.build.placed import Build
from layout.drawing.findings.marks import Spot, spots
from layout.drawing.findings.paper import Paper
from layout.drawing.paper.style import STYLE
from layout.drawing.sheets.sheet import NAMED, plans
from layout.drawing.views.seen import seen
from layout.drawing.views.views import bounds_of
from layout.geometry.space import Axis
from layout.parts.form.form import Role
from layout.questions.findings.finding import Check, Group, Verdict
from tests.drawing.samples import Span, blocks, check_of, placed, tower

Spans = tuple[Span, Span, Span]
_BLOCK: Spans = ((0, 100), (0, 100), (0, 100))


def _spots(build: Build, check: Check) -> tuple[Spot, ...]:
    box = bounds_of([each.body.bounds for each in build.bodies])
    (plan, *_) = plans(box, in_case=True, sheets=NAMED["A2"])
    views = tuple((view, seen(build.bodies, view)) for view in plan.views)
    nothing = shapely.Polygon()
    paper = Paper(views=views, edges=(nothing, nothing), lettered=nothing, style=STYLE)
    return spots(build, enumerate(check.findings, start=1), paper)


def _pair(b: Spans) -> tuple[Spot, ...]:
    bodies = (placed("a", Role.BLOCK, _BLOCK), placed("b", Role.BLOCK, b))
    build = Build(name="pair", parts=(), bodies=bodies)
    return _spots(build, check_of(build, (("a", "b", 5.0, 0.0),)))


@pytest.mark.parametrize(
    ("b", "view", "along"),
    [
        (((130, 200), (0, 50), (0, 50)), 0, 0),
        (((0, 50), (130, 200), (0, 50)), 0, 1),
        (((0, 50), (0, 50), (130, 200)), 1, 1),
    ],
)
def test_a_gap_is_dimensioned_along_its_axis_in_a_view_that_shows_it_true(
    b: Spans, view: int, along: int
) -> None:
    (spot,) = _pair(b)
    assert spot.view == view
    assert spot.dimension is not None
    start, end = spot.dimension.start, spot.dimension.end
    assert abs(end[along] - start[along]) == pytest.approx(30.0 / 2)
    assert end[1 - along] == pytest.approx(start[1 - along])


def test_a_gap_askew_is_marked_without_a_false_dimension() -> None:
    (spot,) = _pair(((130, 200), (120, 200), (140, 200)))
    assert spot.dimension is None
    assert spot.slanted is not None


@pytest.mark.parametrize(
    ("b", "axis", "mm"),
    [
        (((96, 200), (0, 50), (0, 50)), Axis.DEPTH, 4.0),
        (((0, 50), (93, 200), (0, 50)), Axis.HEIGHT, 7.0),
        (((0, 50), (0, 50), (-60, 2)), Axis.WIDTH, 2.0),
        (((0, 50), (0, 50), (98, 99)), Axis.WIDTH, 2.0),
    ],
)
def test_a_clash_shows_what_is_shared_in_both_views(
    b: Spans, axis: Axis, mm: float
) -> None:
    found = _pair(b)
    assert [each.view for each in found] == [0, 1]
    dimensioned = [each for each in found if each.dimension]
    assert dimensioned
    for spot in found:
        assert spot.finding.axis is axis
        assert spot.shared is not None
        assert spot.shared.area > 0
    for spot in dimensioned:
        assert spot.dimension is not None
        drawn_mm = math.dist(spot.dimension.start, spot.dimension.end)
        assert drawn_mm == pytest.approx(mm / 2, abs=1e-5)


def test_a_gap_between_two_edges_has_an_aligned_dimension_where_it_shows_true() -> None:
    (spot,) = _pair(((130, 200), (140, 200), (0, 100)))
    assert spot.finding.axis is None
    assert spot.view == 0
    assert spot.dimension is not None
    start, end = spot.dimension.start, spot.dimension.end
    assert (start, end) == (spot.dimension.from_mm, spot.dimension.to_mm)
    assert end[0] - start[0] == pytest.approx(30.0 / 2)
    assert end[1] - start[1] == pytest.approx(40.0 / 2)


def test_touching_bodies_are_marked_at_the_point() -> None:
    (spot,) = _pair(((100, 200), (0, 50), (0, 50)))
    assert spot.dimension is None
    assert spot.slanted is None
    assert len(spot.target) == 1


def test_what_is_missing_is_marked_at_its_part() -> None:
    build, check = tower()
    spot = _spots(build, check)[0]
    assert spot.finding.verdict is Verdict.MISSING
    assert spot.dimension is None


def test_every_finding_shows_somewhere() -> None:
    for build, check in (tower(), blocks()):
        numbers = {each.number for each in _spots(build, check)}
        assert numbers == set(range(1, len(check.findings) + 1))


def test_dimension_lines_of_a_build_do_not_lie_on_one_another() -> None:
    found = [each for each in _spots(*tower()) if each.dimension]
    lines = [
        (each.view, shapely.LineString([each.dimension.start, each.dimension.end]))
        for each in found
        if each.dimension
    ]
    for i, (view, line) in enumerate(lines):
        for other_view, other in lines[:i]:
            if view == other_view:
                assert line.intersection(other).length == 0.0


def test_what_a_lead_of_the_case_leads_to_shows_where_it_ends() -> None:
    build, check = tower()
    led = replace(
        check.findings[0],
        group=Group.REACH,
        a="case",
        b="supply",
        from_mm=None,
        to_mm=None,
        overlap=None,
    )
    (spot,) = _spots(build, replace(check, findings=(led,)))
    own = replace(led, a="supply", b="case")
    (there,) = _spots(build, replace(check, findings=(own,)))
    assert (spot.view, spot.target) == (there.view, there.target)


def test_findings_at_one_body_have_places_of_their_own_on_it() -> None:
    build, check = tower()
    one = replace(
        check.findings[0], a="supply", b=None, from_mm=None, to_mm=None, overlap=None
    )
    every = tuple(replace(one, id=f"{one.id}:{n}") for n in range(3))
    spots = _spots(build, replace(check, findings=every))
    assert len({each.view for each in spots}) == 1
    assert len({each.target for each in spots}) == 3
