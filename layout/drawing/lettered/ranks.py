"""Ranks: places for balloons in columns beside a view and in rows over and under it.

What finds no room by its gap stands in the margin, where places lie in line: one
reads them like the rows of a table, and there are few to look at.
"""

from __future__ import annotations

from itertools import chain

import numpy as np
from numpy.typing import NDArray

from layout.drawing.paper.boxes import Frame

__all__ = ["BESIDE_MM", "ranks"]

BESIDE_MM = (20.0, 7.0)
"""From a view to the first column on its left, past its sizes, and on its right: of
balloons as of names."""

_OVER_MM = 5.0
"""From a view to the middle of the first row over and under it."""

_COLUMN_MM, _ROW_MM = 19.0, 8.0
_STEP_MM = 2.5
"""How far apart columns and rows stand, and places in them."""


def ranks(view: Frame, room: Frame, size: tuple[float, float]) -> NDArray[np.float64]:
    """Return the middles of the places around a view for boxes of one size.

    Columns on the left are flush right, those on the right flush left.

    Parameters
    ----------
    view, room : Frame
        The view, and where its balloons may stand.
    size : (float, float)
        Width and height of a box.

    Examples
    --------
    >>> ranks((30, 10, 80, 60), (0, 0, 100, 62), (10, 4)).min(axis=0).tolist()
    [5.0, 2.0]
    """
    wide, high = size[0] / 2, size[1] / 2
    left, bottom, right, top = view
    columns = chain(
        np.arange(left - BESIDE_MM[0] - wide, room[0] + wide, -_COLUMN_MM),
        np.arange(right + BESIDE_MM[1] + wide, room[2] - wide, _COLUMN_MM),
    )
    rows = chain(
        np.arange(top + _OVER_MM, room[3] - high, _ROW_MM),
        np.arange(bottom - _OVER_MM, room[1] + high, -_ROW_MM),
    )
    xs = np.arange(room[0] + wide, room[2] - wide, _STEP_MM)
    ys = np.arange(room[1] + high, room[3] - high, _STEP_MM)
    made = [np.empty((0, 2))]
    made += [np.stack([np.full(len(ys), x), ys], axis=1) for x in columns]
    made += [np.stack([xs, np.full(len(xs), y)], axis=1) for y in rows]
    return np.concatenate(made)
