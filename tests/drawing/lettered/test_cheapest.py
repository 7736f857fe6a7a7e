from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import dist

import numpy as np
import pytest
import shapely
from numpy.random import Generator, default_rng
from shapely.geometry import LineString

from layout.drawing.lettered.cheapest import CROSSED, Limit
from layout.drawing.lettered.ground import Ground
from layout.drawing.lettered.labels import Candidate, Offer, Places, frames, joined

_FRAME = (0.0, 0.0, 200.0, 150.0)


def _places(random: Generator, count: int) -> Places:
    """Return places all over the frame with leaders to two spots."""
    at = random.uniform((10.0, 10.0), (190.0, 140.0), (count, 2))
    boxes = frames(at, (6.0, 2.5))
    ends = np.array([(60.0, 70.0), (140.0, 80.0)])[random.integers(2, size=count)]
    leaders = np.stack([at + np.array((0.0, 2.5)), ends], axis=1)
    far = np.hypot(*(leaders[:, 0] - ends).T)
    return Places(boxes, 0.5 * far + random.uniform(0.0, 20.0, count), leaders)


def _ground(random: Generator) -> Ground:
    """Return a ground with edges, lines and labels all over it."""
    ends = random.uniform((0.0, 0.0), (200.0, 150.0), (60, 2, 2))
    short = ends[:, :1] + 0.15 * (ends - ends[:, :1])
    lines = [LineString(each) for each in short]
    ground = Ground(_FRAME, lines[:30], lines[30:40], pad_mm=0.5)
    ground.take(lines=[[(x, y) for x, y in each.coords] for each in lines[40:]])
    ground.take([(90.0, 60.0, 110.0, 64.0)], tips=[shapely.box(70, 70, 74, 74)])
    for _ in range(12):
        ground.best(_places(random, 20))
    return ground


def _taken(ground: Ground, offer: Offer, limit: Limit | None) -> Candidate | None:
    """Return the best place and give it back."""
    place = ground.best(offer, limit=limit)
    if place is not None:
        ground.release(place)
    return place


def _crossed(place: Candidate, others: Sequence[Candidate]) -> int:
    own = LineString(place.leader)
    return sum(own.intersects(LineString(each.leader)) for each in others)


@pytest.mark.parametrize("seed", range(20))
@pytest.mark.parametrize("long", [False, True])
def test_a_limit_gives_the_cheapest_place_or_none(seed: int, *, long: bool) -> None:
    random = default_rng(seed)
    ground, offered = _ground(random), _places(random, 900)
    others = [
        place
        for _ in range(3)
        if (place := ground.best(_places(random, 300))) is not None
    ]
    best = _taken(ground, Offer(offered), None)
    assert best is not None
    assert len(others) == 3
    reach = sum(dist(a, b) for a, b in pairwise(best.leader)) if long else 0.0
    used = Offer(offered)  # asked again and again, as labels that are moved are
    for below in (0.0, 0.5 * reach, reach - 0.01, reach + 0.01, CROSSED, 9 * CROSSED):
        limit = Limit(below=below, long=long)
        found = _taken(ground, used, limit)
        assert found == _taken(ground, Offer(offered), limit)
        assert found in {None, best}
        if below <= reach - 0.01 or below == 0.0:
            assert found is None
        if below == 9 * CROSSED:
            assert found == best


def test_a_cheaper_place_without_the_limit_leaves_none() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    near = Candidate((20, 20, 30, 24), ((20, 22), (10, 22)), 5.0)
    far = Candidate((80, 60, 90, 64), ((80, 62), (10, 22)), 1.0)
    limit = Limit(below=20.0, long=True)
    assert ground.best(Places.of([near, far]), limit=limit) is None
    assert ground.best(Places.of([near]), limit=limit) == near


def test_leaders_that_cross_count_towards_a_limit() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    ground.occupy(Candidate((80, 100, 90, 104), ((50, 40), (50, 10)), 0.0))
    over = Places.of([Candidate((80, 20, 90, 24), ((80, 22), (10, 22)), 0.0)])
    for below, free in ((CROSSED, False), (CROSSED + 1.0, True)):
        limit = Limit(below=below, long=False)
        assert (ground.best(over, limit=limit) is not None) is free


def test_what_an_offer_knows_serves_one_that_begins_like_it() -> None:
    random = default_rng(7)
    ground, near = _ground(random), _places(random, 300)
    more = joined([near, _places(random, 300)])
    first = Offer(near)
    _taken(ground, first, None)
    like = Offer(more, like=(first, len(near.costs)))
    assert _taken(ground, like, None) == _taken(ground, Offer(more), None)
    ground.take([(0.0, 0.0, 200.0, 75.0)])  # what was known holds no longer
    assert _taken(ground, like, None) == _taken(ground, Offer(more), None)


def test_places_without_labels_are_those_of_an_empty_ground() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    place = Candidate((20, 20, 30, 24), ((20, 22), (10, 22)), 0.0)
    other = Candidate((60, 20, 70, 24), ((60, 22), (50, 22)), 0.0)
    for each in (place, other):
        ground.occupy(each)
    with ground.without([place]):
        assert ground.best(Places.of([place])) == place
        assert ground.best(Places.of([other])) is None
    assert ground.best(Places.of([place])) is None
