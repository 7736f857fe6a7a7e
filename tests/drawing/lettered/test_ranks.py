from __future__ import annotations

import numpy as np

from layout.drawing.lettered.cheapest import Limit
from layout.drawing.lettered.ground import Ground
from layout.drawing.lettered.labels import Candidate, Places, frames
from layout.drawing.lettered.ranks import ranks
from layout.drawing.lettered.untangled import Label, untangled
from layout.drawing.paper.scene import Leader

_VIEW = (60.0, 40.0, 160.0, 120.0)
_ROOM = (10.0, 10.0, 220.0, 150.0)
_FRAME = (0.0, 0.0, 100.0, 100.0)


def test_every_place_lies_in_the_room_and_off_the_view() -> None:
    boxes = frames(ranks(_VIEW, _ROOM, (14.0, 5.0)), (7.0, 2.5))
    assert len(boxes) > 100
    assert np.all(boxes[:, :2] >= _ROOM[:2])
    assert np.all(boxes[:, 2:] <= np.array(_ROOM[2:]) + 1e-9)
    beside = (boxes[:, 2] <= _VIEW[0]) | (boxes[:, 0] >= _VIEW[2])
    over = (boxes[:, 3] <= _VIEW[1]) | (boxes[:, 1] >= _VIEW[3])
    assert np.all(beside | over)


def test_columns_are_flush_towards_the_view_whatever_the_size() -> None:
    for wide in (8.0, 14.0):
        boxes = frames(ranks(_VIEW, _ROOM, (wide, 5.0)), (wide / 2, 2.5))
        columns = boxes[(boxes[:, 1] > 50.0) & (boxes[:, 3] < 110.0)]
        assert max(columns[columns[:, 0] < 60.0][:, 2]) == 40.0
        assert min(columns[columns[:, 0] > 160.0][:, 0]) == 167.0


def test_without_a_margin_there_is_no_place() -> None:
    assert len(ranks(_VIEW, _VIEW, (14.0, 5.0))) == 0


def _label(ground: Ground, *wanted: Candidate) -> Label:
    def choose(limit: Limit | None = None) -> Candidate | None:
        return ground.best(Places.of(wanted), limit=limit)

    def made(place: Candidate) -> tuple[Leader]:
        return (Leader(points=place.leader, ref="r"),)

    place = choose()
    assert place is not None
    return Label(place=place, choose=choose, farther=choose, made=made)


def test_of_two_leaders_that_cross_one_makes_way() -> None:
    high, low, foot = ((80.0, y, 90.0, y + 4.0) for y in (40.0, 20.0, 8.0))
    crossing = Candidate(high, ((80, 42), (10, 20)), 0.0)
    clear = Candidate(foot, ((80, 10), (10, 20)), 1.0)
    late = Candidate(low, ((80, 22), (10, 44)), 0.0)
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    labels = [_label(ground, crossing, clear), _label(ground, late)]
    assert [each.place for each in labels] == [crossing, late]
    led = [Leader(points=each.leader, ref="r") for each in (clear, late)]
    assert list(untangled(labels, ground)) == led


def test_leaders_that_can_but_cross_stay_where_they_are() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    one = Candidate((80, 40, 90, 44), ((80, 42), (10, 20)), 0.0)
    other = Candidate((80, 20, 90, 24), ((80, 22), (10, 44)), 0.0)
    labels = [_label(ground, one), _label(ground, other)]
    led = [Leader(points=each.leader, ref="r") for each in (one, other)]
    assert list(untangled(labels, ground)) == led
    assert ground.best(Places.of([one])) is None  # taken as before


def test_a_label_with_a_long_leader_changes_places_with_the_one_that_bars_it() -> None:
    near = Candidate((20, 20, 30, 24), ((20, 22), (10, 22)), 0.0)
    far = Candidate((80, 60, 90, 64), ((80, 62), (10, 22)), 9.0)
    barring = Candidate(near.box, ((30, 24), (35, 26)), 0.0)
    aside = Candidate((20, 40, 30, 44), ((30, 40), (35, 26)), 1.0)
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    labels = [_label(ground, barring, aside), _label(ground, near, far)]
    assert [each.place for each in labels] == [barring, far]
    led = [Leader(points=each.leader, ref="r") for each in (aside, near)]
    assert list(untangled(labels, ground)) == led
