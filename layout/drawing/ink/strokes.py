"""A scene as what a pen does: fills, lines of one pen, letters, in groups.

A group holds what is drawn in a row of one subject (a part or a finding), so that a
file can name it.  Lines of one pen are joined: they are drawn at one go.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from typing import Final, TypeAlias

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from layout.drawing.ink.hatching import hatching
from layout.drawing.lettered.balloons import number_text
from layout.drawing.paper.boxes import text_box, texts
from layout.drawing.paper.dimensions import arrows, dimension_lines
from layout.drawing.paper.scene import (
    Area,
    Balloon,
    Circle,
    Dimension,
    Hatch,
    Ink,
    Item,
    Leader,
    Line,
    Mark,
    Pen,
    Point,
    Scene,
    Text,
)
from layout.drawing.paper.style import STYLE
from layout.values import dataclass

__all__ = ["MARK_INKS", "Fill", "Group", "Paint", "Stroke", "groups"]

MARK_INKS: Final = {
    Mark.RING: Ink.CLEAR,
    Mark.DOUBLE_RING: Ink.TIGHT,
    Mark.DIAMOND: Ink.FAIL,
    Mark.STAR: Ink.FAIL,
    Mark.SQUARE: Ink.BLACK,
}
_CORNERS = 48
"""A circle is drawn with so many corners: at most 0.02 mm off at 10 mm across."""

_DOT_MM = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """Closed lines filled with one ink; a line within another is a hole."""

    lines: tuple[tuple[Point, ...], ...]
    ink: Ink


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """Lines of one pen and ink."""

    lines: tuple[tuple[Point, ...], ...]
    pen: Pen
    ink: Ink


Paint: TypeAlias = Fill | Stroke | Text


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """What is drawn in a row of one subject; of none where ``id`` is empty.

    ``id`` is the group's own, ``subject`` is common to all groups of a subject.
    """

    paint: tuple[Paint, ...]
    id: str = ""
    subject: str = ""
    told: str = ""


def groups(scene: Scene) -> tuple[Group, ...]:
    """Return everything to be painted, in the scene's order."""
    numbers = [number_text(each) for each in scene.items if isinstance(each, Balloon)]
    boxes = [text_box(each) for each in (*texts(scene), *numbers)]
    room = shapely.STRtree(shapely.box(*np.array(boxes).reshape(-1, 4).T))
    subjects = {each.ref: each for each in scene.subjects}
    seen: Counter[str] = Counter()
    out = []
    for ref, items in groupby(scene.items, key=_ref):
        paint = _joined(each for item in items for each in _paint(item, room))
        subject = subjects.get(ref)
        if subject is None:
            out.append(Group(paint=paint))
            continue
        seen[subject.id] += 1
        times = seen[subject.id]
        own = subject.id if times == 1 else f"{subject.id}.{times}"
        out.append(Group(paint=paint, id=own, subject=subject.id, told=subject.told))
    return tuple(out)


def _ref(item: Item) -> str:
    return "" if isinstance(item, Circle) else item.ref


def _joined(paint: Iterable[Paint]) -> tuple[Paint, ...]:
    """Return what is painted, lines of one pen joined where no fill lies between."""
    out: list[Paint] = []
    since = 0
    for each in paint:
        if isinstance(each, Fill):
            if out and isinstance(out[-1], Fill) and out[-1].ink is each.ink:
                out[-1] = Fill(lines=(*out[-1].lines, *each.lines), ink=each.ink)
            else:
                out.append(each)
            since = len(out)
            continue
        place = _like(out, since, each)
        if place is None:
            out.append(each)
        elif isinstance(each, Stroke) and isinstance(before := out[place], Stroke):
            lines = (*before.lines, *each.lines)
            out[place] = Stroke(lines=lines, pen=each.pen, ink=each.ink)
    return tuple(out)


def _like(out: Sequence[Paint], since: int, paint: Paint) -> int | None:
    """Return where lines of the same pen and ink are since the last fill."""
    if not isinstance(paint, Stroke):
        return None
    for place in range(since, len(out)):
        other = out[place]
        if isinstance(other, Stroke) and (other.pen, other.ink) == (
            paint.pen,
            paint.ink,
        ):
            return place
    return None


def _paint(item: Item, lettered: shapely.STRtree) -> Iterator[Paint]:
    match item:
        case Area():
            yield from _area(item, lettered)
        case Line():
            yield Stroke(lines=(item.points,), pen=item.pen, ink=item.ink)
        case Circle():
            yield from _disc(item)
        case Leader():
            yield Stroke(lines=(item.points,), pen=Pen.NARROW, ink=Ink.BLACK)
            yield _dot(item.points[-1], Ink.BLACK)
        case Text():
            yield from _text(item)
        case Dimension():
            yield from _dimension(item)
        case Balloon():
            yield from _balloon(item)


def _area(item: Area, lettered: shapely.STRtree) -> Iterator[Paint]:
    """Yield fill, hatch and edge; the hatch leaves lettering free (ISO 128)."""
    rings = (item.outer, *item.holes)
    if item.fill is not None:
        yield Fill(lines=rings, ink=item.fill)
    if item.hatch is not None:
        shape: BaseGeometry = Polygon(item.outer, item.holes)
        hit = lettered.query(shape, predicate="intersects")
        if len(hit):
            boxes = lettered.geometries[hit]
            shape = shape.difference(shapely.union_all(boxes))
        lines = hatching(shape, STYLE.patterns[item.hatch])
        clash = item.hatch is Hatch.CLASH
        if lines:
            ink = item.edge if clash else Ink.HATCH
            yield Stroke(lines=lines, pen=Pen.NARROW, ink=ink)
    if item.pen is not None:
        yield Stroke(lines=rings, pen=item.pen, ink=item.edge)


def _disc(item: Circle) -> Iterator[Paint]:
    ring = _ring(item.centre, item.radius_mm)
    if item.fill is not None:
        yield Fill(lines=(ring,), ink=item.fill)
    yield Stroke(lines=(ring,), pen=item.pen, ink=item.edge)


def _dot(at: Point, ink: Ink) -> Fill:
    return Fill(lines=(_corners(at, [_DOT_MM] * 16),), ink=ink)


def _text(item: Text) -> Iterator[Paint]:
    if item.backed:
        left, bottom, right, top = text_box(item)
        corners = ((left, bottom), (right, bottom), (right, top), (left, top))
        yield Fill(lines=((*corners, corners[0]),), ink=Ink.WHITE)
    yield item


def _dimension(item: Dimension) -> Iterator[Paint]:
    lines = dimension_lines(item, STYLE)
    yield Stroke(lines=lines, pen=item.pen, ink=item.ink)
    yield Fill(
        lines=tuple((*each, each[0]) for each in arrows(item, STYLE)), ink=item.ink
    )
    if item.text is not None:
        yield from _text(item.text)


def _balloon(item: Balloon) -> Iterator[Paint]:
    ink = MARK_INKS[item.mark]
    if item.leader:
        line = Ink.BLACK if ink is Ink.TIGHT else ink  # orange lines are too pale
        yield Stroke(lines=(item.leader,), pen=Pen.NARROW, ink=line)
        yield _dot(item.leader[-1], line)
    yield from _mark(item, ink)
    if item.number:
        yield from _text(number_text(item))
    if item.value is not None:
        yield from _text(item.value)


def _mark(item: Balloon, ink: Ink) -> Iterator[Paint]:
    """Yield a balloon's form; each verdict has another."""
    radius, at = item.radius_mm, item.centre
    match item.mark:
        case Mark.RING:
            yield Fill(lines=(_ring(at, radius),), ink=Ink.WHITE)
            yield Stroke(lines=(_ring(at, radius),), pen=Pen.NARROW, ink=ink)
        case Mark.DOUBLE_RING:
            outer, inner = _ring(at, radius * 1.2), _ring(at, radius * 0.97)
            yield Fill(lines=(outer,), ink=Ink.WHITE)
            yield Stroke(lines=(outer,), pen=Pen.NARROW, ink=Ink.BLACK)
            yield Stroke(lines=(inner,), pen=Pen.WIDE, ink=ink)
        case Mark.DIAMOND:
            yield Fill(lines=(_corners(at, [radius * 1.35] * 4),), ink=ink)
        case Mark.STAR:
            radii = [radius * 1.35, radius * 0.95] * 8
            yield Fill(lines=(_corners(at, radii),), ink=ink)
        case Mark.SQUARE:
            corners = _corners(at, [radius * 1.25] * 4, 45.0)
            yield Fill(lines=(corners,), ink=ink)


def _ring(centre: Point, radius_mm: float) -> tuple[Point, ...]:
    return _corners(centre, [radius_mm] * _CORNERS)


def _corners(
    centre: Point, radii: Sequence[float], first_deg: float = 0.0
) -> tuple[Point, ...]:
    """Return an outline with its corners at these distances, all around."""
    step, first = 2 * math.pi / len(radii), math.radians(first_deg)
    corners = tuple(
        (
            centre[0] + each * math.cos(first + i * step),
            centre[1] + each * math.sin(first + i * step),
        )
        for i, each in enumerate(radii)
    )
    return (*corners, corners[0])
