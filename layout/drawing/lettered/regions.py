"""A region of paper that lettering is placed in: what is there, and what is free."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

import shapely
from shapely.geometry.base import BaseGeometry

from layout.drawing.findings.marks import LINES, Spot
from layout.drawing.findings.paper import Paper
from layout.drawing.lettered.ground import Ground
from layout.drawing.paper.boxes import Frame, text_box, texts_of
from layout.drawing.paper.dimensions import dimension_lines
from layout.drawing.paper.scene import (
    Circle,
    Dimension,
    Hatch,
    Ink,
    Item,
    Leader,
    Line,
    Pen,
    Point,
    Text,
)
from layout.drawing.paper.style import Style
from layout.drawing.views.bodies import areas, edges_of
from layout.drawing.views.seen import Seen
from layout.drawing.views.views import View
from layout.values import dataclass

__all__ = ["Backdrop", "backdrop", "distances", "lines_of", "region", "take"]


_SPOT_MM = 0.4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Backdrop:
    """What is there before anything is said of it: views, their edges, free ground.

    ``ground`` is never taken from: each picture starts from a copy.
    """

    views: tuple[tuple[View, tuple[Seen, ...]], ...]
    edges: tuple[BaseGeometry, ...]
    ground: Ground


def backdrop(
    views: tuple[tuple[View, tuple[Seen, ...]], ...], room: Frame, *, style: Style
) -> Backdrop:
    """Return views with their edges, and the ground between these.

    Parameters
    ----------
    room : Frame
        Where lettering may stand.
    """
    edges = [edges_of(shown) for _, shown in views]
    (left, bottom, right, top), off_mm = room, 2 * style.pad_mm  # off its border
    return Backdrop(
        views=views,
        edges=tuple(shapely.union_all([*solid, *faint]) for solid, faint in edges),
        ground=Ground(
            (left + off_mm, bottom + off_mm, right - off_mm, top - off_mm),
            [edge for solid, _ in edges for edge in solid],
            [edge for _, faint in edges for edge in faint],
            pad_mm=style.pad_mm,
        ),
    )


def region(
    behind: Backdrop, fixed: Sequence[Item], *, style: Style
) -> tuple[Paper, Ground]:
    """Return what findings are drawn on, and the ground for lettering.

    Parameters
    ----------
    fixed : sequence of Item
        What stands there already.
    """
    boxes = [shapely.box(*text_box(each)) for each in texts_of(fixed)]
    paper = Paper(
        views=behind.views,
        edges=behind.edges,
        lettered=shapely.union_all(boxes),
        style=style,
    )
    ground = behind.ground.cleared()
    take(ground, fixed, style)
    ground.take(list(_joins(fixed, style)))
    return paper, ground


def _joins(items: Sequence[Item], style: Style) -> Iterator[Frame]:
    """Yield the room between two texts that are read as one: no leader parts them."""
    for one, other in pairwise(items):
        if isinstance(one, Text) and isinstance(other, Text):
            (_, low, left, high), (right, *_) = text_box(one), text_box(other)
            if one.at[1] == other.at[1] and 0.0 < right - left < 2 * style.small_mm:
                yield left, low, right, high


def take(ground: Ground, items: Iterable[Item], style: Style) -> None:
    """Note on the ground what items take of it."""
    for item in items:
        match item:
            case Text():
                ground.take([text_box(item)])
            case Dimension():
                ground.take(lines=dimension_lines(item, style))
                if item.text is not None:
                    ground.take([text_box(item.text)], tips=_tips(item))
            case Line() | Leader():
                ground.take(lines=[item.points])
            case Circle():
                ring = shapely.Point(item.centre).buffer(item.radius_mm, quad_segs=16)
                ground.take(areas=[shapely.boundary(ring)])
            case _:
                pass


def _tips(item: Dimension) -> list[BaseGeometry]:
    """Return the paper around a dimension's arrows."""
    ends = (shapely.Point(each) for each in (item.start, item.end))
    return [each.buffer(item.arrow_mm, quad_segs=2) for each in ends]


def distances(marked: Sequence[Spot], ground: Ground, style: Style) -> list[Item]:
    """Return what shows the findings' distances, and note that it is taken."""
    lines = [line for each in marked for line in _lines(each)]
    take(ground, lines, style)
    for each in marked:
        if each.shared is not None:
            ground.take(areas=list(shapely.get_parts(each.shared)))
        elif each.dimension is None:  # a place that a leader must still reach
            at = shapely.points(each.target)
            ground.take(areas=list(shapely.buffer(at, _SPOT_MM)))
    return [*_shared(marked), *lines]


def lines_of(marked: Sequence[Spot], style: Style) -> BaseGeometry:
    """Return every line that shows a finding, as one shape."""
    lines: list[Sequence[Point]] = []
    for each in marked:
        for item in _lines(each):
            if isinstance(item, Dimension):
                lines.extend(dimension_lines(item, style))
            elif isinstance(item, Line):
                lines.append(item.points)
    return shapely.MultiLineString([list(each) for each in lines])


def _lines(spot: Spot) -> list[Item]:
    """Return what shows a finding's distance, and where the need would end."""
    ink, ref = LINES[spot.finding.verdict], spot.finding.id
    out: list[Item] = []
    if spot.dimension is not None:
        out.append(spot.dimension)
    elif spot.slanted is not None:
        out.append(Line(points=spot.slanted, pen=Pen.HIDDEN, ink=ink, ref=ref))
    if spot.needed is not None:
        out.append(Line(points=spot.needed, pen=Pen.PLACE, ink=ink, ref=ref))
    return out


def _shared(marked: Sequence[Spot]) -> list[Item]:
    """Return what clashing bodies share: cross-hatched in a heavy outline."""
    return [
        area
        for spot in marked
        if spot.shared is not None
        for area in areas(
            spot.shared,
            fill=Ink.WHITE,
            hatch=Hatch.CLASH,
            pen=Pen.HEAVY,
            edge=Ink.FAIL,
            ref=spot.finding.id,
        )
    ]
