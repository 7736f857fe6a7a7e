"""Where each finding shows: its dimension, the area two parts share, or its place."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Final

import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from layout.build.placed import Build
from layout.drawing.findings.paper import Paper
from layout.drawing.findings.sliding import Around, best_ends, covered_mm
from layout.drawing.paper.dimensions import gap_dimension
from layout.drawing.paper.scene import Dimension, Ink, Mark, Pen, Point
from layout.drawing.paper.style import Style
from layout.drawing.views.shared import shared
from layout.drawing.views.views import View, bounds_of
from layout.geometry.bodies.body import Body
from layout.geometry.space import Axis
from layout.questions.findings.finding import Finding, Verdict
from layout.values import dataclass

__all__ = ["INKS", "LINES", "MARKS", "Spot", "spots"]

MARKS: Final[Mapping[Verdict, Mark]] = MappingProxyType(
    {
        Verdict.CLEAR: Mark.RING,
        Verdict.TIGHT: Mark.DOUBLE_RING,
        Verdict.SHORT: Mark.DIAMOND,
        Verdict.CLASH: Mark.STAR,
        Verdict.MISSING: Mark.SQUARE,
    }
)
INKS: Final[Mapping[Verdict, Ink]] = MappingProxyType(
    {
        Verdict.CLEAR: Ink.CLEAR,
        Verdict.TIGHT: Ink.TIGHT,
        Verdict.SHORT: Ink.FAIL,
        Verdict.CLASH: Ink.FAIL,
        Verdict.MISSING: Ink.BLACK,
    }
)

LINES: Final[Mapping[Verdict, Ink]] = MappingProxyType(
    {**INKS, Verdict.TIGHT: Ink.BLACK}  # orange lines are too pale on paper
)
"""Inks of the lines that show a finding."""

_TRUE_MM = 0.05
"""How far a length drawn may be from the length it states (in the case's mm)."""

_NEEDED_MM = 10.0
"""Length on paper of the line at which a need would end."""

_ASIDE = (0.2, -0.2, 0.35, -0.35, 0.1, -0.1)
"""Where on a body the places of several findings lie off its middle, per its length."""

_END_MM = 0.3
"""From a place on a body to its edge: as large as a leader's end."""

_LEAST_DRAWN_MM = 1.0
"""A slanted gap shorter than this on paper is a point."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A finding's place in one view.

    Parameters
    ----------
    number : int
        The finding's number in the table.
    view : int
        Which of the views.
    target : tuple of Point
        Points a leader may end on, the best first.
    dimension : Dimension or None
    shared : polygons or None
        What the two bodies have in common, on paper.
    slanted : (Point, Point) or None
        The two nearest points, where no view shows their distance true.
    needed : (Point, Point) or None
        Where the farther face would have to be: the end of the room that is needed.
    """

    number: int
    finding: Finding
    view: int
    target: tuple[Point, ...]
    dimension: Dimension | None = None
    shared: BaseGeometry | None = None
    slanted: tuple[Point, Point] | None = None
    needed: tuple[Point, Point] | None = None


def spots(
    build: Build, findings: Iterable[tuple[int, Finding]], paper: Paper
) -> tuple[Spot, ...]:
    """Return where every finding, with its number, shows, in the findings' order.

    A clash shows in both views; a finding whose bodies are nowhere shows in none.
    """
    out: list[Spot] = []
    for number, finding in findings:
        named = [_bodies(build, name) for name in (finding.a, finding.b) if name]
        made: Iterable[Spot] = ()
        if finding.overlap is not None and all(named):
            made = _clash(number, finding, named, paper=paper)
        elif finding.from_mm is not None and finding.to_mm is not None:
            made = [_gap(number, finding, named, paper=paper, before=out)]
        before = len(out)
        out.extend(made)
        if len(out) == before and named and named[0]:
            at = _shown_at(finding, named)
            out.append(_place(number, finding, at, paper=paper, before=out))
    return tuple(out)


def _shown_at(finding: Finding, named: list[list[Body]]) -> list[Body]:
    """Return the bodies that a finding without a gap shows at.

    What leads lead to shows where a case's own leads do, which come from nowhere.
    """
    return named[-1] if finding.a == "case" and named[-1] else named[0]


def _bodies(build: Build, name: str) -> list[Body]:
    """Return the body of that name, or all bodies of the part of that name."""
    exact = [each.body for each in build.bodies if each.name == name]
    return exact or [each.body for each in build.bodies if each.part == name]


def _gap(
    number: int,
    finding: Finding,
    named: list[list[Body]],
    *,
    paper: Paper,
    before: Sequence[Spot],
) -> Spot:
    """Return a gap, dimensioned where a view shows it true.

    Along an axis the dimension may slide on the two faces; askew it stands between
    the two nearest points, aligned with them (ISO 129).
    """
    index = _best_view(finding, paper)
    view, _ = paper.views[index]
    start, end = _ends(finding, view)
    drawn_mm = math.dist(start, end)
    gap_mm = finding.gap_mm or 0.0
    true = abs(drawn_mm / view.scale - gap_mm) <= _TRUE_MM
    askew = finding.axis is None and drawn_mm <= _LEAST_DRAWN_MM
    if gap_mm == 0.0 or askew or not true:
        line = drawn_mm > _LEAST_DRAWN_MM
        return Spot(
            number=number,
            finding=finding,
            view=index,
            target=_between(start, end)[: None if line else 1],
            slanted=(start, end) if line else None,
        )
    ends = (start, end)
    if finding.axis is not None:
        taken = [each.dimension for each in before if each.view == index]
        ends = best_ends(
            finding,
            _abreast(ends, view),
            [[view.silhouette(each) for each in bodies] for bodies in named],
            around=Around(
                paper=paper, view=index, taken=[each for each in taken if each]
            ),
        )
    best = _dimension(finding, ends, paper.style)
    return Spot(
        number=number,
        finding=finding,
        view=index,
        target=_along(best),
        dimension=best,
        needed=_needed(finding, ends, view),
    )


def _abreast(ends: tuple[Point, Point], view: View) -> tuple[Point, Point]:
    """Return the ends moved along their faces to abreast of a detail's middle."""
    if view.window is None:
        return ends
    (ax, ay), (bx, by) = ends
    middle = view.window.centroid
    if abs(ay - by) < abs(ax - bx):
        return (ax, middle.y), (bx, middle.y)
    return (middle.x, ay), (middle.x, by)


def _needed(
    finding: Finding, ends: tuple[Point, Point], view: View
) -> tuple[Point, Point] | None:
    """Return the line at which the room that a short gap needs would end."""
    if finding.verdict is not Verdict.SHORT or finding.need_mm is None:
        return None
    (ax, ay), (bx, by) = ends
    size_mm = math.dist(*ends)
    if size_mm == 0.0:
        return None
    ux, uy = (bx - ax) / size_mm, (by - ay) / size_mm
    x, y = (a + u * finding.need_mm * view.scale for a, u in ((ax, ux), (ay, uy)))
    half = _NEEDED_MM / 2
    line = ((x - uy * half, y + ux * half), (x + uy * half, y - ux * half))
    if view.window is not None and not view.window.contains(shapely.LineString(line)):
        return None
    return line


def _dimension(finding: Finding, ends: tuple[Point, Point], style: Style) -> Dimension:
    return gap_dimension(
        ends,
        pen=Pen.WIDE if finding.verdict.fails else Pen.NARROW,
        ink=LINES[finding.verdict],
        ref=finding.id,
        style=style,
    )


def _ends(finding: Finding, view: View) -> tuple[Point, Point]:
    if finding.from_mm is None or finding.to_mm is None:
        raise ValueError(f"{finding.id} has no nearest points")
    return view.point(finding.from_mm), view.point(finding.to_mm)


def _along(dimension: Dimension) -> tuple[Point, ...]:
    """Return points on a dimension line that a leader may end on."""
    return _between(dimension.start, dimension.end)


def _between(start: Point, end: Point) -> tuple[Point, ...]:
    """Return points on a line that a leader may end on, the best first."""
    (ax, ay), (bx, by) = start, end
    return tuple((ax + t * (bx - ax), ay + t * (by - ay)) for t in (0.5, 0.3, 0.7))


def _best_view(finding: Finding, paper: Paper) -> int:
    """Return the view that shows the length true, the emptier one of two that do."""
    ranked = []
    for index, (view, shown) in enumerate(paper.views):
        ends = _ends(finding, view)
        hidden_mm = covered_mm(finding, ends, shown)
        drawn_mm = math.dist(*ends) / view.scale
        ranked.append((round(-drawn_mm, 3), round(hidden_mm, 3), index))
    return min(ranked)[2]


def _clash(
    number: int, finding: Finding, named: list[list[Body]], *, paper: Paper
) -> Iterator[Spot]:
    """Yield the shared area in each view, dimensioned where the view shows it."""
    for index, (view, _) in enumerate(paper.views):
        area = shared(named[0], named[1], view)
        if area.is_empty:
            continue
        inner = area.representative_point()
        dimension = _overlap(finding, named, (area, view), style=paper.style)
        yield Spot(
            number=number,
            finding=finding,
            view=index,
            target=_along(dimension) if dimension else ((inner.x, inner.y),),
            dimension=dimension,
            shared=area,
        )


def _overlap(
    finding: Finding,
    named: list[list[Body]],
    where: tuple[BaseGeometry, View],
    *,
    style: Style,
) -> Dimension | None:
    """Return the dimension of an overlap, where the two faces lie that far apart.

    It runs from the face that must come free to the face it must come free of.
    """
    area, view = where
    overlap = finding.overlap
    if overlap is None or overlap.axis is view.facing.depth_order:
        return None
    along = overlap.axis.index
    a, b = (bounds_of([each.bounds for each in bodies]) for bodies in named)
    ends = (b.low, a.high) if overlap.sign > 0 else (a.low, b.high)
    if abs(ends[1][along] - ends[0][along] - overlap.mm) > _TRUE_MM:
        return None
    at = area.representative_point()
    start, end = (view.point(each) for each in ends)
    if overlap.axis is Axis.DEPTH:
        return _dimension(finding, ((start[0], at.y), (end[0], at.y)), style)
    return _dimension(finding, ((at.x, start[1]), (at.x, end[1])), style)


def _place(
    number: int,
    finding: Finding,
    bodies: list[Body],
    *,
    paper: Paper,
    before: Sequence[Spot],
) -> Spot:
    """Return the place of a body, in the view that shows most of it.

    Findings at one body have places of their own on it, as far as it is long enough:
    two leaders that end on one point read as one.
    """
    names = {each.name for each in bodies}
    ranked = [
        (-each.visible.area, index, place)
        for index, (_, shown) in enumerate(paper.views)
        for place, each in enumerate(shown)
        if each.body.name in names
    ]
    _, index, place = min(ranked)
    each = paper.views[index][1][place]
    shape = each.outline if each.hidden else each.visible
    widest = max(shapely.get_parts(shape), key=shapely.area)
    taken = {each.target[0] for each in before if each.view == index}
    every = _places_on(widest)
    at = next((each for each in every if each not in taken), every[0])
    return Spot(number=number, finding=finding, view=index, target=(at,))


def _places_on(shape: Polygon) -> list[Point]:
    """Return places on a shape that are well apart: its middle, others along it."""
    x, y = shapely.maximum_inscribed_circle(shape, tolerance=0.5).coords[0]
    left, low, right, high = shape.bounds
    wide, tall = right - left, high - low
    along = (wide, 0.0) if wide >= tall else (0.0, tall)
    every = [(x + t * along[0], y + t * along[1]) for t in _ASIDE]
    inner = shape.buffer(-_END_MM)
    return [(x, y), *(each for each in every if inner.contains(shapely.Point(each)))]
