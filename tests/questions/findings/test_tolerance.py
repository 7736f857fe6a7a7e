from __future__ import annotations

import math

import pytest

from layout.geometry.space import Box, Direction
from layout.parts.form.form import Role
from layout.parts.form.link import facing
from layout.questions.findings.tolerance import (
    abutting,
    assumed_in,
    links_between,
    tolerance_mm,
)
from tests.questions.builds import link, placed

WIDTH = (0.0, 0.0, 1.0)


def test_independent_scatters_add_as_squares() -> None:
    links = (("a", link("one", (0, 0, 3.0))), ("b", link("two", (0, 0, 4.0))))
    assert tolerance_mm(links, WIDTH) == pytest.approx(5.0)


def test_a_slanting_gap_takes_each_axis_by_its_share() -> None:
    links = (("a", link("one", (1.0, 2.0, 0.0))),)
    diagonal = (math.sqrt(0.5), math.sqrt(0.5), 0.0)
    assert tolerance_mm(links, diagonal) == pytest.approx(math.sqrt(2.5))


def test_touching_bodies_take_the_worst_axis() -> None:
    assert tolerance_mm((("a", link("one", (1.0, 2.0, 0.5))),), None) == 2.0


@pytest.mark.parametrize(
    ("low", "across"),
    [
        ((4.0, 1.0, 1.0), (1.0, 0.0, 0.0)),
        ((1.0, -2.0, 1.0), (0.0, -1.0, 0.0)),
        ((4.0, 4.0, 1.0), None),
        ((5.0, 1.0, 1.0), None),
    ],
    ids=["before", "under", "in an edge", "apart"],
)
def test_bodies_touch_across_one_face(
    low: tuple[float, float, float], across: tuple[float, float, float] | None
) -> None:
    x, y, z = low
    first = Box((0.0, 0.0, 0.0), (4.0, 4.0, 4.0))
    second = Box(low, (x + 2.0, y + 2.0, z + 2.0))
    assert abutting(first, second) == across
    back = abutting(second, first)
    assert back == (across and tuple(-each for each in across))


def test_an_assumption_counts_only_where_it_acts() -> None:
    links = (("board", link("socket", (15.0, 15.0, 0.0), assumed=True)),)
    assert assumed_in(links, WIDTH) == ()
    (assumed,) = assumed_in(links, (1.0, 0.0, 0.0))
    assert (assumed.name, assumed.off_mm) == ("board: socket", 15.0)


def test_a_figure_of_one_face_counts_on_that_side_alone() -> None:
    under = facing(link("lower edge", (0, 0, 9.0)), Direction.TRAY)
    spans = ((0.0, 1.0), (0.0, 1.0), (0.0, 1.0))
    fins = placed("fins", Role.COOLER, spans, chain=(("fins", under),))
    wide = ("panel", link("width", (0, 0, 1.0)))
    panel = placed("panel", Role.SIDE_PANEL, spans, chain=(wide,))
    assert tolerance_mm(links_between(fins, panel, WIDTH), WIDTH) == 1.0
    down = (0.0, 0.0, -1.0)
    assert tolerance_mm(links_between(fins, panel, down), down) == math.hypot(9, 1)
    assert tolerance_mm(links_between(panel, fins, WIDTH), WIDTH) == math.hypot(9, 1)
    assert len(links_between(fins, panel)) == 2
