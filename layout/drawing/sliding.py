"""Where along two faces a gap is dimensioned: clear of parts, edges and lettering."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TypeAlias

import numpy as np
import shapely
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from layout.drawing.dimensions import dimension_lines, gap_dimension
from layout.drawing.paper import Paper
from layout.drawing.scene import Dimension, Ink, Pen, Point
from layout.drawing.seen import Seen
from layout.drawing.style import Style
from layout.questions.finding import Finding
from layout.values import dataclass

__all__ = ["Around", "best_ends", "covered_mm"]

_Ends: TypeAlias = tuple[Point, Point]

_SLIDES = tuple(float(each) for each in range(-90, 91, 3))
"""How far along the two faces a dimension may move to a free place, mm on paper."""

_ABREAST_MM = 6.0
"""Least distance of parallel dimension lines (national texts on ISO 129)."""

_OFF_MIDDLE_COST = 0.3
"""Cost of a step off the middle of the two faces."""

_COVERED_COST = 0.4
"""Cost of a millimetre of dimension line over parts it is not about."""

_CLOSE_COST = 12.0
_LETTERING_COST = 100.0
_MISTAKEN_MM = 0.9
"""A dimension line this close to an edge is mistaken for it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """What a dimension line should keep clear of: the view, and lines drawn before."""

    paper: Paper
    view: int
    taken: Sequence[Dimension]


def best_ends(
    finding: Finding,
    ends: _Ends,
    outlines: Sequence[Sequence[BaseGeometry]],
    *,
    around: Around,
) -> _Ends:
    """Return the two ends of a gap's dimension line, where it reads best.

    Parameters
    ----------
    ends : (Point, Point)
        The two nearest points on paper, one straight beside or over the other.
    outlines : two sequences of polygons
        Of the bodies that each point lies on.
    """
    faces = [shapely.union_all(each) for each in outlines]
    places = list(_slid(ends, faces))
    centre = (len(places) - 1) / 2
    costs = [
        _OFF_MIDDLE_COST * abs(rank - centre) + _cost(finding, each, around)
        for rank, each in enumerate(places)
    ]
    return places[int(np.argmin(costs))]


def _cost(finding: Finding, ends: _Ends, around: Around) -> float:
    paper = around.paper
    over_mm = covered_mm(finding, ends, paper.views[around.view][1])
    over_mm += _beside_edges(ends, paper.edges[around.view])
    return _COVERED_COST * over_mm + _crowd(ends, around)


def covered_mm(finding: Finding, ends: _Ends, shown: Sequence[Seen]) -> float:
    """Return what length of a line lies on parts that the finding is not about."""
    parts = [
        each.visible
        for each in shown
        if not each.see_through and each.body.name not in {finding.a, finding.b}
    ]
    line = LineString(ends)
    return float(shapely.length(shapely.intersection(line, parts)).sum())


def _beside_edges(ends: _Ends, edges: BaseGeometry) -> float:
    """Return what length of edges a dimension line would be mistaken for."""
    near = LineString(ends).buffer(_MISTAKEN_MM)
    return float(edges.intersection(near).length)


def _slid(ends: _Ends, faces: Sequence[BaseGeometry]) -> Iterator[_Ends]:
    """Yield the places where the same gap shows, from end to end of the two faces."""
    level = abs(ends[0][1] - ends[1][1]) < 1e-9
    for slide in _SLIDES:
        dx, dy = (0.0, slide) if level else (slide, 0.0)
        a, b = ((x + dx, y + dy) for x, y in ends)
        line = LineString([a, b])
        if slide == 0.0 or all(
            face.distance(shapely.Point(tip)) < 1e-6
            and line.intersection(face).length < 1e-6
            for face, tip in zip(faces, (a, b), strict=True)
        ):
            yield a, b


def _crowd(ends: _Ends, around: Around) -> float:
    """Return what it costs to run close to other dimension lines or into lettering."""
    style = around.paper.style
    made = gap_dimension(ends, pen=Pen.NARROW, ink=Ink.BLACK, ref="", style=style)
    own = _lines(made, style)
    close = sum(
        own.distance(_lines(each, style)) < _ABREAST_MM for each in around.taken
    )
    into = own.intersects(around.paper.lettered)
    return _CLOSE_COST * close + (_LETTERING_COST if into else 0.0)


def _lines(dimension: Dimension, style: Style) -> BaseGeometry:
    return shapely.MultiLineString(list(dimension_lines(dimension, style)))
