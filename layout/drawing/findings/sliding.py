"""Where along two faces a gap is dimensioned: clear of parts, edges and lettering."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from layout.drawing.findings.paper import Paper
from layout.drawing.paper.dimensions import dimension_lines, gap_dimension
from layout.drawing.paper.scene import Dimension, Ink, Pen, Point
from layout.drawing.paper.style import Style
from layout.drawing.views.seen import Seen
from layout.questions.findings.finding import Finding
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
_ON_MM = 1e-6
"""Within this an end lies on its face."""

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
    places = _slid(ends, [shapely.union_all(each) for each in outlines])
    off = np.abs(np.arange(len(places)) - (len(places) - 1) / 2)
    costs = _OFF_MIDDLE_COST * off + _costs(finding, places, around)
    (ax, ay), (bx, by) = places[int(np.argmin(costs))].tolist()
    return (ax, ay), (bx, by)


def _costs(
    finding: Finding, places: NDArray[np.float64], around: Around
) -> NDArray[np.float64]:
    """Return what it costs to dimension a gap at each of many places at once."""
    paper = around.paper
    lines = _objects(shapely.linestrings(places))
    over_mm = _covered(finding, lines, paper.views[around.view][1])
    over_mm += _beside_edges(lines, paper.edges[around.view])
    return _COVERED_COST * over_mm + _crowd(places, around)


def covered_mm(finding: Finding, ends: _Ends, shown: Sequence[Seen]) -> float:
    """Return what length of a line lies on parts that the finding is not about."""
    return float(_covered(finding, _objects(shapely.linestrings([ends])), shown)[0])


def _covered(
    finding: Finding, lines: NDArray[np.object_], shown: Sequence[Seen]
) -> NDArray[np.float64]:
    parts = [
        each.visible
        for each in shown
        if not each.see_through and each.body.name not in {finding.a, finding.b}
    ]
    return _lengths_in(lines, _objects(parts))


def _beside_edges(
    lines: NDArray[np.object_], edges: BaseGeometry
) -> NDArray[np.float64]:
    """Return what length of edges each dimension line would be mistaken for."""
    near = shapely.buffer(lines, _MISTAKEN_MM)
    return _lengths_in(near, shapely.get_parts(edges))


def _lengths_in(
    asked: NDArray[np.object_], others: NDArray[np.object_]
) -> NDArray[np.float64]:
    """Return what length each of those asked has in common with all others."""
    own, other = shapely.STRtree(others).query(asked)
    common = shapely.length(shapely.intersection(asked[own], others[other]))
    made = np.zeros(len(asked))
    np.add.at(made, own, common)
    return made


def _slid(ends: _Ends, faces: Sequence[BaseGeometry]) -> NDArray[np.float64]:
    """Return the places where the same gap shows, from end to end of the two faces."""
    level = abs(ends[0][1] - ends[1][1]) < 1e-9
    slides = np.zeros((len(_SLIDES), 1, 2))
    slides[:, 0, 1 if level else 0] = _SLIDES
    places = np.array(ends, dtype=np.float64) + slides
    held = np.array(_SLIDES) == 0.0
    free = ~held
    for end, face in enumerate(faces):
        shapely.prepare(face)
        tips = shapely.points(places[free, end])
        free[free] = shapely.dwithin(face, tips, _ON_MM)
        lines = shapely.linestrings(places[free])
        free[free] = shapely.length(shapely.intersection(lines, face)) < _ON_MM
    made: NDArray[np.float64] = places[held | free]
    return made


def _crowd(places: NDArray[np.float64], around: Around) -> NDArray[np.float64]:
    """Return what it costs to run close to other dimension lines or into lettering."""
    style = around.paper.style
    own = _objects([_lines(_plain(each, style), style) for each in places.tolist()])
    taken = _objects([_lines(each, style) for each in around.taken])
    close = np.sum(shapely.distance(own[:, None], taken[None, :]) < _ABREAST_MM, axis=1)
    into = shapely.intersects(own, around.paper.lettered)
    cost: NDArray[np.float64] = _CLOSE_COST * close + _LETTERING_COST * into
    return cost


def _plain(ends: Sequence[Sequence[float]], style: Style) -> Dimension:
    """Return a dimension of no finding, for the lines it would have."""
    (ax, ay), (bx, by) = ends
    both = (ax, ay), (bx, by)
    return gap_dimension(both, pen=Pen.NARROW, ink=Ink.BLACK, ref="", style=style)


def _lines(dimension: Dimension, style: Style) -> BaseGeometry:
    return shapely.MultiLineString(list(dimension_lines(dimension, style)))


def _objects(made: object) -> NDArray[np.object_]:
    return np.asarray(made, dtype=object)
