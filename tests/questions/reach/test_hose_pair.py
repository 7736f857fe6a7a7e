"""Two hoses of one loop: neither runs through the other."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import pytest

from layout.geometry.space import Box, Vector
from layout.geometry.ways.keep_off import Laid, beside
from layout.geometry.ways.stiff import StiffWay
from layout.geometry.ways.turns import End, bent
from layout.questions.checking.check import check
from layout.questions.reach import hose_pair
from layout.questions.reach.hose_pair import (
    Around,
    alone,
    beside_each_other,
    keep_apart,
)
from layout.questions.reach.hoses import hoses_of
from tests.questions.reach.test_loops import wet

R, WIDE = 40.0, 12.0
FREE = Box((-500.0, -500.0, -500.0), (500.0, 500.0, 500.0))


def room(
    *pairs: tuple[End, End], boxes: Sequence[Box] = (), free: Box = FREE
) -> Around:
    """Return the room for two hoses."""
    return Around(
        boxes=tuple(boxes),
        corners=(),
        free=free,
        pairs=pairs,
        radius_mm=R,
        diameter_mm=WIDE,
    )


def _straight(a: Vector, b: Vector) -> StiffWay:
    return StiffWay((a, b), math.dist(a, b))


def _least_mm(one: StiffWay, other: StiffWay) -> float:
    lines = []
    for way in (one, other):
        at = np.array(bent(way.points, R))
        parts = np.linspace(0.0, 1.0, 200)[:, None]
        lines.append(np.vstack([a + parts * (b - a) for a, b in pairwise(at)]))
    apart = np.linalg.norm(lines[0][:, None] - lines[1][None], axis=2)
    return float(apart.min())


CROSS = (
    ((-150.0, 0.0, 0.0), (170.0, 0.0, 0.0)),
    ((0.0, -150.0, 0.0), (0.0, 160.0, 0.0)),
)


@pytest.mark.parametrize(("off_mm", "clear"), [(11.7, False), (12.1, True)])
def test_a_line_is_clear_where_it_is_no_nearer_than_asked(
    off_mm: float, *, clear: bool
) -> None:
    laid = Laid([(0.0, 0.0, 0.0), (100.0, 0.0, 0.0)], 12.0)
    assert laid.clear_of([(50.0, -80.0, off_mm), (50.0, 80.0, off_mm)]) is clear
    assert laid.clear_of([(100 + off_mm, 0.0, 0.0), (300.0, 0.0, 0.0)]) is clear


def test_places_beside_are_on_every_side() -> None:
    assert len({*beside([(1.0, 2.0, 3.0)], 12.0)}) == 26
    assert (1.0, 2.0, 15.0) in beside([(1.0, 2.0, 3.0)], 12.0)


def test_of_two_that_cross_the_shorter_goes_round_the_other() -> None:
    ways = tuple(_straight(*each) for each in CROSS)
    pairs = tuple((End(a), End(b)) for a, b in CROSS)
    # what a hose that is in the way may turn beside: where the other has a corner
    middle = StiffWay((CROSS[0][0], (0.0, 0.0, 0.0), CROSS[0][1]), ways[0].mm)
    around = room(*pairs)
    assert not keep_apart(ways, around)
    found = beside_each_other((middle, ways[1]), around)
    assert found is not None
    assert keep_apart(found, around)
    assert found[0] == middle
    assert ways[1].mm < found[1].mm < ways[1].mm + WIDE
    assert _least_mm(*found) > WIDE - 0.2


def test_a_hose_that_leaves_over_the_others_elbow_steps_aside(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    # elbows in line with where both hoses go, ports one over the other
    monkeypatch.setattr(hose_pair, "_giving_way", lambda *_: None)
    ends = [((0.0, 0.0, 0.0), 20.0), ((17.5, 0.0, 0.0), 2.5)]
    pairs = tuple((End(at), End((360.0, -8.0, z), (-1.0, 0.0, 0.0))) for at, z in ends)
    around = room(*pairs)
    ways = alone(around, 500.0)
    assert not keep_apart(ways, around)
    found = beside_each_other(ways, around)
    assert found is not None
    assert _least_mm(*found) > WIDE - 0.2
    for way, short in zip(found, ways, strict=True):
        assert short.mm <= way.mm < short.mm + 4 * WIDE


def test_where_nothing_is_found_beside_none_is_told() -> None:
    slot = [Box((-20, -400, z), (20, 400, z + 300)) for z in (1.0, -301.0)]
    ways = tuple(_straight(*each) for each in CROSS)
    around = room(*((End(a), End(b)) for a, b in CROSS), boxes=slot)
    assert beside_each_other(ways, around) is None


def test_hoses_of_a_machine_keep_off_each_other() -> None:
    (hoses,) = hoses_of(wet("top", 400))
    assert hoses.laid.apart
    diameter_mm = 2 * (hoses.radius_mm - hoses.bend_mm)
    one, other = (bent(way.points, hoses.radius_mm) for way in hoses.ways)
    assert Laid(one, diameter_mm).clear_of(other)


def test_where_one_has_no_way_past_the_other_the_finding_says_so(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    build = wet("top", 400)
    known = next(e for e in check(build).findings if e.rule == "hoses-reach")
    monkeypatch.setattr(hose_pair, "keep_apart", lambda *_: False)
    monkeypatch.setattr(hose_pair, "beside_each_other", lambda *_: None)
    found = next(e for e in check(build).findings if e.rule == "hoses-reach")
    assert "each led alone: no way of one past the other was found" in found.why
    assert "cooler: way of one hose past the other" in found.assumed
    assert found.tolerance_mm is not None
    assert known.tolerance_mm is not None
    assert found.tolerance_mm > known.tolerance_mm
    assert found.gap_mm == known.gap_mm
