from __future__ import annotations

import numpy as np
from shapely.geometry import LineString, box

from layout.drawing.lettered.ground import Ground
from layout.drawing.lettered.labels import Candidate, Places
from layout.drawing.lettered.regions import take
from layout.drawing.paper.dimensions import level
from layout.drawing.paper.style import STYLE

_FRAME = (0.0, 0.0, 100.0, 100.0)


def _box(x: float, y: float) -> tuple[float, float, float, float]:
    return x, y, x + 10.0, y + 4.0


def _best(ground: Ground, *wanted: Candidate) -> Candidate | None:
    return ground.best(Places.of(wanted))


def test_the_cheapest_free_place_is_taken() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    near, far = Candidate(_box(10, 10), cost=1.0), Candidate(_box(50, 10), cost=5.0)
    assert _best(ground, far, near) == near
    assert _best(ground, far, near) == far
    assert _best(ground, far, near) is None


def test_of_equals_the_first_is_taken() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    first, second = Candidate(_box(10, 10)), Candidate(_box(50, 10))
    assert _best(ground, first, second) == first


def test_nothing_asked_nothing_placed() -> None:
    assert Ground(_FRAME, [], [], pad_mm=0.5).best(Places.of([])) is None


def test_lettering_stays_in_the_frame() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    assert _best(ground, Candidate(_box(95, 10)), Candidate(_box(10, 98))) is None


def test_lettering_keeps_off_lettering_lines_and_areas() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    ground.take(boxes=[_box(10, 10)], lines=[((40, 0), (40, 100))])
    ground.take(areas=[box(60, 60, 90, 90)])
    wanted = [_box(12, 12), _box(35, 50), _box(70, 70), _box(10, 14.2)]
    assert _best(ground, *(Candidate(each) for each in wanted)) is None


def test_a_leader_never_runs_through_lettering() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    ground.take(boxes=[_box(30, 10)])
    through = Candidate(_box(10, 10), ((20, 12), (60, 12)), 0.0)
    around = Candidate(_box(10, 40), ((20, 42), (60, 12)), 30.0)
    assert _best(ground, through, around) == around


def test_a_leader_over_a_line_costs_more_than_a_longer_one() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    ground.take(lines=[((30, 0), (30, 20))])
    over = Candidate(_box(10, 10), ((20, 12), (60, 12)), 0.0)
    clear = Candidate(_box(10, 40), ((20, 42), (60, 42)), 10.0)
    assert _best(ground, over, clear) == clear


def test_a_leader_goes_a_long_way_round_the_tip_of_an_arrow() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    ground.take(tips=[box(28, 10, 32, 14)])
    past = Candidate(_box(10, 10), ((20, 12), (60, 12)), 0.0)
    clear = Candidate(_box(10, 40), ((20, 42), (60, 42)), 29.0)
    too_far = Candidate(_box(10, 70), ((20, 72), (60, 72)), 31.0)
    assert _best(ground, past, clear, too_far) == clear
    assert _best(ground, past, too_far) == past


def test_the_tips_of_a_size_s_arrows_are_kept_free_of_leaders() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    size = level(((20.0, 50.0), (80.0, 50.0)), 40.0, 60.0, style=STYLE)
    take(ground, [size], STYLE)
    by_tip = Candidate(_box(80, 80), ((80, 70), (81, 10)), 0.0)
    over_line = Candidate(_box(80, 80), ((80, 70), (66, 10)), 10.0)
    assert _best(ground, by_tip, over_line) == over_line


def test_many_places_are_looked_at_until_the_rest_costs_more() -> None:
    ground = Ground(_FRAME, [], [LineString([(0, 12), (100, 12)])], pad_mm=0.5)
    on_faint = [Candidate(_box(10 + 0.1 * n, 10), cost=0.01 * n) for n in range(500)]
    off = Candidate(_box(10, 50), cost=5.5)
    assert _best(ground, *on_faint, off) == off


def test_lettering_never_lies_on_a_visible_edge() -> None:
    ground = Ground(_FRAME, [LineString([(15, 0), (15, 100)])], [], pad_mm=0.5)
    on, off = Candidate(_box(10, 10)), Candidate(_box(50, 10), cost=10.0)
    assert _best(ground, on, off) == off
    assert _best(ground, on) is None


def test_what_is_placed_is_taken_with_its_leader() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    placed = Candidate(_box(10, 10), ((20, 12), (60, 12)))
    assert _best(ground, placed) == placed
    assert _best(ground, Candidate(_box(40, 10))) is None


def test_an_edge_that_gives_way_is_the_lesser_evil() -> None:
    outline, faint = (LineString([(x, 0), (x, 100)]) for x in (15, 55))
    ground = Ground(_FRAME, [outline], [faint], pad_mm=0.5)
    on_outline, on_faint = Candidate(_box(10, 10)), Candidate(_box(50, 10))
    assert _best(ground, on_outline, on_faint) == on_faint


def test_a_leader_goes_round_a_part_rather_than_through_it() -> None:
    part = LineString([(30, 0), (50, 0), (50, 20), (30, 20), (30, 0)])
    ground = Ground(_FRAME, [part], [], pad_mm=0.5)
    through = Candidate(_box(10, 10), ((20, 12), (60, 12)), 0.0)
    longer = Candidate(_box(10, 40), ((20, 42), (60, 30)), 5.0)
    much_longer = Candidate(_box(10, 60), ((20, 62), (60, 30)), 50.0)
    assert _best(ground, through, longer) == longer
    assert _best(ground, through, much_longer) == through


def test_a_leader_over_another_one_costs_more_than_over_a_line() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    led = Candidate(_box(80, 1), ((30, 0), (30, 20)), 0.0)
    assert _best(ground, led) == led
    ground.take(lines=[((30, 40), (30, 44))])
    over_leader = Candidate(_box(10, 10), ((20, 12), (60, 12)), 0.0)
    over_line = Candidate(_box(10, 40), ((20, 42), (60, 42)), 10.0)
    assert _best(ground, over_leader, over_line) == over_line


def test_what_is_released_is_free_again_and_nothing_else() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    first = Candidate(_box(10, 10), ((20, 12), (60, 12)), 0.0)
    second = Candidate(_box(10, 40), ((20, 42), (60, 42)), 0.0)
    assert _best(ground, first) == first
    assert _best(ground, second) == second
    assert _best(ground, first) is None
    ground.release(first)
    assert _best(ground, first, second) == first
    assert _best(ground, second) is None


def test_what_is_released_can_be_taken_again_as_it_was() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    first = Candidate(_box(10, 10), ((20, 12), (60, 12)), 0.0)
    assert _best(ground, first) == first
    ground.release(first)
    ground.occupy(first)
    assert _best(ground, first) is None


def test_what_costs_the_most_that_is_asked_for_is_not_taken() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    places = Places.of([Candidate(_box(10, 10), cost=5.0)])
    assert ground.best(places, most=5.0) is None
    assert ground.best(places, most=5.1) is not None


def test_a_leader_does_not_cross_the_line_that_it_ends_on() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    ground.take(lines=[((60, 0), (60, 20))])
    onto = Candidate(_box(10, 10), ((20, 12), (60, 12)), 0.0)
    elsewhere = Candidate(_box(10, 40), ((20, 42), (50, 42)), 5.0)
    assert _best(ground, onto, elsewhere) == onto


def test_places_that_share_a_box_differ_by_their_leaders() -> None:
    ground = Ground(_FRAME, [], [], pad_mm=0.5)
    ground.take(lines=[((30, 0), (30, 20))])
    leaders = np.array([[(20, 12), (60, 12)], [(20, 12), (25, 12)]], dtype=float)
    boxes, shared = np.array([_box(50, 50), _box(10, 10)]), np.array([1, 1])
    places = Places(boxes, np.array([0.0, 5.0]), leaders, shared)
    assert ground.best(places) == Candidate(_box(10, 10), ((20, 12), (25, 12)), 5.0)
