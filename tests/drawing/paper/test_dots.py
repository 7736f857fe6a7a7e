from __future__ import annotations

import numpy as np
import shapely
from numpy.random import default_rng

from layout.drawing.paper.dots import Dots

_FRAME = (-20.0, 5.0, 100.0, 80.0)


def test_what_is_told_to_be_on_a_line_is_and_most_of_it_is_told() -> None:
    random = default_rng(1)
    pieces = random.uniform((-40.0, -20.0), (120.0, 100.0), (12, 2, 2))
    low = random.uniform((-30.0, -10.0), (90.0, 80.0), (3000, 2))
    boxes = np.hstack([low, low + random.uniform(2.0, 12.0, (3000, 2))])
    lines = shapely.MultiLineString(pieces.tolist())
    met = shapely.intersects(lines, shapely.box(*boxes.T))
    on = Dots(_FRAME, pieces).on(boxes)
    assert not (on & ~met).any()
    inside = (boxes[:, :2] > (-19, 6)).all(axis=1) & (boxes[:, 2:] < (99, 79)).all(1)
    assert np.count_nonzero(on & inside) > 0.7 * np.count_nonzero(met & inside)


def test_a_line_beside_a_box_is_not_told_to_be_on_it() -> None:
    dots = Dots(_FRAME, np.array([[(10.0, 10.0), (10.0, 70.0)]]))
    beside = [(10.01, 20.0, 20.0, 30.0), (0.0, 20.0, 9.99, 30.0), (9.0, 71, 12, 75)]
    assert dots.on(np.array(beside)).tolist() == [False] * 3
    assert dots.on(np.array([(7.0, 20.0, 13.0, 25.0)])).tolist() == [True]


def test_a_frame_without_lines_has_nothing_on_it() -> None:
    dots = Dots(_FRAME, np.empty((0, 2, 2)))
    assert not dots.on(np.array([_FRAME])).any()
