"""A detail drawn: its circle, what lies in it, its gaps, its caption."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from layout.build.placed import Build, PlacedBody
from layout.drawing.composed.covering import covering
from layout.drawing.composed.details import Detail
from layout.drawing.findings.marks import spots
from layout.drawing.lettered.balloons import Room, balloons
from layout.drawing.lettered.cleared import cleared
from layout.drawing.lettered.ground import Ground
from layout.drawing.lettered.labels import Places, frames
from layout.drawing.lettered.names import Name
from layout.drawing.lettered.naming import inside
from layout.drawing.lettered.regions import backdrop, distances, region
from layout.drawing.lettered.untangled import untangled
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.lettering import ASCENT, DESCENT, plain, width_mm
from layout.drawing.paper.scene import Align, Area, Circle, Ink, Item, Line, Pen, Text
from layout.drawing.paper.style import Style
from layout.drawing.paper.words import named
from layout.drawing.views.bodies import areas, items_of
from layout.drawing.views.kinds import FILLS
from layout.drawing.views.seen import Seen, seen
from layout.drawing.views.views import View
from layout.questions.findings.finding import Finding

__all__ = ["enlarged", "letter"]

_RAYS = np.array(
    [
        (np.cos(angle), np.sin(angle), reach)
        for reach in (0.0, 1.5, 3.0, 5.0, 8.0, 12.0)
        for angle in np.radians(np.arange(45.0, 405.0, 7.5))
    ]
)
"""Where a detail's letter may stand by its circle: cosine, sine, mm off."""


_OFF_MM = 0.8
"""Paper between a letter and a line to its circle."""
_ON_PART_COST = 6.0
"""For a letter on a part, in mm that it stands off."""
_ASTRAY_MM = 2.5
"""A letter this far off its circle is joined to it."""


def enlarged(
    build: Build, findings: Mapping[int, Finding], detail: Detail, *, style: Style
) -> tuple[Item, ...]:
    """Return everything of a detail, in the order in which it is drawn."""
    view = detail.view
    numbered = [(number, findings[number]) for number in detail.numbers]
    near = [each for each in build.bodies if _reaches(each, view)]
    before = covering(near, [each for _, each in numbered], detail)
    whole = seen(tuple(each for each in near if each not in before), view)
    shown = tuple(_cut(each, view) for each in whole)
    circle = Circle(centre=detail.middle, radius_mm=detail.reach_mm)
    fixed: tuple[Item, ...] = (*_caption(detail, before, style), circle)
    behind = backdrop(((view, shown),), detail.cell, style=style)
    paper, ground = region(behind, fixed, style=style)
    marked = [each for each in spots(build, numbered, paper) if each.view == 0]
    about = {name for _, each in numbered for name in (each.a, each.b)}
    (x, y), reach = detail.middle, detail.reach_mm
    room = Room((x - reach, y - reach, x + reach, y + reach), detail.cell)
    over: list[Item] = [
        *distances(marked, ground, style),
        *untangled(balloons(marked, [room], ground, style=style), ground),
        *_names(shown, about, ground, style=style),
    ]
    items = (item for item in items_of(whole, style) for item in _clipped(item, view))
    return (*cleared(tuple(items), over), *fixed, *over)


def letter(
    detail: Detail, shown: Sequence[Seen], ground: Ground, *, style: Style
) -> tuple[Item, ...]:
    """Return the letter beside the circle around what is enlarged.

    One that stands off the circle is joined to it.  On a part, ``shown`` in the view,
    it would seem to be that part's.
    """
    height = style.medium_mm
    wide = width_mm(detail.letter, height, bold=True) / 2
    high = (ASCENT + DESCENT) / 2 * height
    far = detail.radius_mm + wide + 0.8 + _RAYS[:, 2:]
    centre = np.array(detail.centre)
    places = frames(centre + _RAYS[:, :2] * far, (wide, high))
    rim = centre + _RAYS[:, :2] * detail.radius_mm
    near = np.clip(rim, places[:, :2] - _OFF_MM, places[:, 2:] + _OFF_MM)
    joined = np.stack([near, rim], axis=1)
    parts = shapely.union_all([each.visible for each in shown if _is_part(each)])
    shapely.prepare(parts)
    on = shapely.intersects(parts, shapely.box(*places.T))
    place = ground.best(Places(places, _RAYS[:, 2] + _ON_PART_COST * on, joined))
    if place is None:
        return ()
    left, bottom, right, _ = place.box
    at = ((left + right) / 2, bottom + DESCENT * height)
    said = Text(
        at=at, text=detail.letter, height_mm=height, align=Align.CENTRE, bold=True
    )
    if math.dist(*place.leader) < _ASTRAY_MM:
        return (said,)
    return (said, Line(points=place.leader, pen=Pen.NARROW))


def _is_part(each: Seen) -> bool:
    """Tell whether a body is filled, and not the board that others stand on."""
    return FILLS.get(each.body.role) not in {None, Ink.BOARD}


def _caption(
    detail: Detail, before: Sequence[PlacedBody], style: Style
) -> tuple[Text, ...]:
    """Return letter and scale over the circle, and what is taken out of it."""
    up, down = detail.scale
    x, y = detail.middle
    base = y + detail.reach_mm + 2.0
    out: tuple[Text, ...] = ()
    if before:
        room_mm = detail.cell[2] - detail.cell[0] - 2.0
        tries = _without(before)
        said = next(
            (each for each in tries if width_mm(each, style.small_mm) <= room_mm),
            tries[-1],
        )
        out = (
            Text(at=(x, base), text=said, height_mm=style.small_mm, align=Align.CENTRE),
        )
        base += style.line_step * style.small_mm
    wide = width_mm(detail.letter, style.medium_mm, bold=True)
    return (
        Text(
            at=(x - wide - 1.0, base),
            text=detail.letter,
            height_mm=style.medium_mm,
            bold=True,
        ),
        Text(at=(x + 1.0, base), text=f"{up}:{down}", height_mm=style.small_mm),
        *out,
    )


def _without(before: Sequence[PlacedBody]) -> tuple[str, ...]:
    """Return what is said of the bodies that are taken out, the fullest first."""
    names = ", ".join(plain(each.name.rpartition("/")[2]) for each in before)
    count = "one part" if len(before) == 1 else f"{len(before)} parts"
    return f"without {names}", f"without {count} before it", "opened"


def _reaches(placed: PlacedBody, view: View) -> bool:
    """Tell whether a body's box comes into the window."""
    (x0, y0), (x1, y1) = (view.point(each) for each in _corners(placed))
    box: Frame = (min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))
    return view.window is not None and bool(view.window.intersects(shapely.box(*box)))


def _corners(placed: PlacedBody) -> tuple[tuple[float, float, float], ...]:
    return placed.body.bounds.low, placed.body.bounds.high


def _cut(each: Seen, view: View) -> Seen:
    return replace(
        each, outline=view.shown(each.outline), visible=view.shown(each.visible)
    )


def _clipped(item: Item, view: View) -> Iterator[Item]:
    """Yield what of an item lies in the window, its edges as lines of their own."""
    window = view.window
    if window is None:
        return
    match item:
        case Area():
            rings = (item.outer, *item.holes)
            if item.fill is not None:
                kept = shapely.intersection(Polygon(item.outer, item.holes), window)
                for each in areas(kept, pen=Pen.NARROW, ref=item.ref):
                    yield replace(each, fill=item.fill, hatch=item.hatch, pen=None)
            if item.pen is not None:
                for points in rings:
                    line = Line(
                        points=points, pen=item.pen, ink=item.edge, ref=item.ref
                    )
                    yield from _part_of(line, window)
        case Line():
            yield from _part_of(item, window)
        case _:
            yield item


def _part_of(line: Line, window: BaseGeometry) -> Iterator[Line]:
    kept = shapely.intersection(shapely.linestrings(list(line.points)), window)
    joined = shapely.line_merge(kept) if kept.geom_type.startswith("Multi") else kept
    for each in shapely.get_parts(joined):
        points = tuple((float(x), float(y)) for x, y in shapely.get_coordinates(each))
        if len(points) > 1:
            yield replace(line, points=points)


def _names(
    shown: Sequence[Seen], about: set[str | None], ground: Ground, *, style: Style
) -> Iterator[Item]:
    """Yield the names of the bodies a detail is about, where they fit."""
    for each in shown:
        if {each.body.name, each.body.part} & about and not each.outline.is_empty:
            name = Name(
                lines=(named(each.body.name),),
                view=0,
                shape=each.visible,
                hidden=each.hidden,
                ref=each.body.name,
            )
            yield from inside(name, ground, style) or ()
