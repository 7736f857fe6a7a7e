from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from layout.build.placed import Build
from layout.files.build_file import read_plan
from layout.geometry.space import Axis
from layout.questions.bends.bends import bends
from layout.questions.bends.bent import Bent, bent
from layout.questions.findings.finding import Finding
from layout.questions.moving.moves import moved_bodies
from layout.questions.moving.stretch import Travel, shifted, stretch

CASES = Path(__file__).parents[3] / "cases"


def _lacking(build: Build, key: str, along: tuple[Axis, float]) -> list[Finding]:
    """Return the cables that `check` finds no room for, of or before what moves."""
    there = shifted(build, moved_bodies(build, key), along)
    parts = build.carried_by(key)
    return [e for e in bends(there) if e.verdict.fails and e.parts & parts]


WAYS = [
    ("archive", "cage", (Axis.DEPTH, -60.0, 90.0)),
    ("archive", "supply", (Axis.DEPTH, -20.0, 60.0)),
    ("render", "card", (Axis.WIDTH, -10.0, 40.0)),
    ("audiobook", "front fans", (Axis.DEPTH, -80.0, 10.0)),
    ("archive", "cage", (Axis.WIDTH, -20.0, 40.0)),
]


def _told(
    name: str, key: str, way: tuple[Axis, float, float]
) -> tuple[Build, tuple[Bent, ...]]:
    _, build = read_plan(CASES / f"{name}-build.yaml")
    moving = frozenset(moved_bodies(build, key))
    return build, bent(build, moving, way[0], travel_mm=way[1:])


@pytest.mark.parametrize(("name", "key", "way"), WAYS)
def test_the_ends_are_those_of_the_checks_own_answer(
    name: str, key: str, way: tuple[Axis, float, float]
) -> None:
    build, cables = _told(name, key, way)
    axis, first, last = way
    ends = {end for each in cables for pair in each.shifts_mm for end in pair}
    inner = sorted(end for end in ends if first < end < last)[:4]
    # between the ends nothing changes, and right beside each the answer is known
    places = {(a + b) / 2 for a, b in pairwise([first, *inner])}
    places |= {end + aside for end in inner for aside in (-0.004, 0.004)}
    for shift in sorted(places):
        told = any(a < shift < b for each in cables for a, b in each.shifts_mm)
        assert bool(_lacking(build, key, (axis, shift))) is told, shift


def test_some_of_these_travels_leave_cables_no_room() -> None:
    lacking = [key for name, key, way in WAYS if _told(name, key, way)[1]]
    assert "cage" in lacking
    assert "card" in lacking


def test_a_stretch_is_clear_only_where_cables_can_bend() -> None:
    plan, build = read_plan(CASES / "render-build.yaml")
    told = stretch(plan, "card", Travel(-10.0, 40.0, 5.0), axis=Axis.WIDTH)
    moving = frozenset(moved_bodies(build, "card"))
    cables = bent(build, moving, Axis.WIDTH, travel_mm=(-10.0, 40.0))
    lacking = [pair for each in cables for pair in each.shifts_mm]
    assert lacking
    for low, high in told.clear_mm:
        assert all(high <= a or b <= low for a, b in lacking)
    for row in told.rows:
        if any(a < float(str(row.position)) < b for a, b in lacking):
            assert row.verdict.fails, row
            there = _lacking(build, "card", (Axis.WIDTH, float(str(row.position))))
            least_mm = min(each.margin_mm or 0.0 for each in there)
            assert (row.least_margin_mm or 0.0) <= least_mm + 1e-6, row


def test_the_plugs_of_what_moves_go_along() -> None:
    _, build = read_plan(CASES / "archive-build.yaml")
    there = shifted(build, moved_bodies(build, "cage"), (Axis.DEPTH, 7.0))
    for was, now in zip(build.plugs, there.plugs, strict=True):
        by = tuple(b - a for a, b in zip(was.plug.at_mm, now.plug.at_mm, strict=True))
        carried = was.part in build.carried_by("cage")
        assert by == pytest.approx((7.0, 0.0, 0.0) if carried else (0.0, 0.0, 0.0))
