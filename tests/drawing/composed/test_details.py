"""Every gap that a view draws too short to read is read in a detail."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
import shapely

from layout.build.placed import Build
from layout.drawing.composed.chosen import Wanted, chosen
from layout.drawing.composed.compose import scene, scenes
from layout.drawing.paper.boxes import text_box, texts
from layout.drawing.paper.scene import Align, Circle, Dimension, Line, Pen, Scene
from layout.drawing.sheets.sheet import CHOSEN_FROM
from layout.files.build_file import read_build
from layout.parts.form.form import Role
from layout.questions.checking.check import check
from layout.questions.findings.finding import Check, Finding
from tests.drawing.reading import rows
from tests.drawing.samples import case_bodies, check_of, part, placed

_CASES = Path(__file__).parents[3] / "cases"
_EXAMPLES = sorted(_CASES.glob("*-build.yaml"))

_READ_MM = 3.0
_JOINED_MM = 3.5
_AT_A_PINCH_MM = 2.4
"""Where a sheet has no room for details: its length stands beside the number."""


@pytest.mark.parametrize("path", _EXAMPLES, ids=lambda each: each.stem)
def test_no_gap_of_an_example_is_drawn_too_short_to_read(path: Path) -> None:
    build = read_build(path)
    found = check(build)
    roomy = _has_room(build, found)
    read = 0
    for drawn in scenes(build, found):
        for finding in (found.findings[number - 1] for number in rows(drawn)):
            if finding.from_mm is None or not finding.gap_mm:
                continue
            long_mm = _longest_mm(finding, drawn)
            if roomy:
                assert long_mm >= _READ_MM, finding.id
            else:
                told = [each for each in texts(drawn) if each.ref == finding.id]
                assert long_mm >= (_AT_A_PINCH_MM if told else _READ_MM), finding.id
            read += 1
    assert read > 3


def _has_room(build: Build, found: Check) -> bool:
    wanted = Wanted(build=build, check=found, before=None, lines=())
    return chosen(wanted, CHOSEN_FROM)[0].aside is not None


def _longest_mm(finding: Finding, drawn: Scene) -> float:
    """Return how long a finding's gap is drawn where it is longest, mm on paper."""
    ends = [
        (each.start, each.end)
        for each in drawn.items
        if isinstance(each, Dimension) and each.ref == finding.id
    ]
    ends += [
        (each.points[0], each.points[-1])
        for each in drawn.items
        if isinstance(each, Line) and each.ref == finding.id and each.pen is Pen.HIDDEN
    ]
    return max((math.dist(*each) for each in ends), default=0.0)


def test_a_gap_that_a_view_draws_as_a_point_has_a_detail() -> None:
    bodies = [
        *case_bodies(),
        placed("left", Role.BLOCK, ((100, 200), (100, 200), (20, 60))),
        placed("right", Role.BLOCK, ((202, 300), (203, 300), (62, 90))),
    ]
    build = Build(
        name="two blocks corner to corner",
        parts=tuple(part(key, "block", "") for key in ("left", "right")),
        bodies=tuple(bodies),
        case_name="quiet tower",
        case_size_mm=(430.0, 460.0, 210.0),
    )
    found = check_of(build, (("left", "right", 1.0, 0.5),))
    drawn = scene(build, found)
    assert "A" in {each.text for each in texts(drawn)}
    assert _longest_mm(found.findings[0], drawn) >= _READ_MM / math.sqrt(2)


@pytest.mark.parametrize("path", _EXAMPLES, ids=lambda each: each.stem)
def test_a_letter_stands_by_its_circle_or_is_joined_to_it(path: Path) -> None:
    build = read_build(path)
    for drawn in scenes(build, check(build)):
        rings = [
            shapely.Point(each.centre).buffer(each.radius_mm)
            for each in drawn.items
            if isinstance(each, Circle)
        ]
        lines = [
            shapely.LineString(each.points)
            for each in drawn.items
            if isinstance(each, Line) and not each.ref and each.pen is Pen.NARROW
        ]
        letters = [
            shapely.box(*text_box(each))
            for each in texts(drawn)
            if each.bold and len(each.text) == 1 and each.align is Align.CENTRE
        ]  # a caption's letter stands before its scale
        assert len(letters) == len(rings) // 2 - 1 or not letters
        for each in letters:
            joined = [one for one in lines if one.distance(each) < _JOINED_MM]
            assert any(
                ring.distance(one) < _JOINED_MM
                for ring in rings
                for one in (each, *joined)
            )


def test_details_are_smaller_only_where_one_would_be_left_out() -> None:
    several, one = (_circles(f"{each}-build.yaml") for each in ("mapping", "dubbing"))
    assert len(several) - len(one) == 2 * 2  # in the view, and enlarged
    assert max(several) < max(one)


def _circles(name: str) -> list[float]:
    """Return how large the circles around what is enlarged are, mm."""
    build = read_build(_CASES / name)
    drawn = scene(build, check(build))
    return [each.radius_mm for each in drawn.items if isinstance(each, Circle)]
