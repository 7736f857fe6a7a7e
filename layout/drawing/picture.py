"""The two views with their findings and lettering."""

from __future__ import annotations

from collections.abc import Sequence

import shapely

from layout.build.placed import Build
from layout.drawing.balloons import balloons
from layout.drawing.bodies import areas, edges_of, items_of
from layout.drawing.boxes import Frame, text_box, texts_of
from layout.drawing.cleared import cleared
from layout.drawing.dimensions import dimension_lines
from layout.drawing.labels import Ground
from layout.drawing.marks import INKS, Spot, spots
from layout.drawing.names import Name, names
from layout.drawing.naming import inside, outside
from layout.drawing.paper import Paper
from layout.drawing.scene import Dimension, Hatch, Ink, Item, Line, Pen, Text
from layout.drawing.seen import seen
from layout.drawing.sheet import Plan
from layout.drawing.sizes import captions, sizes
from layout.drawing.style import Style
from layout.drawing.views import View
from layout.questions.finding import Finding, Verdict

__all__ = ["picture"]

_BESIDE_MM = (22.0, 7.0)
"""How far from a view the columns of names on its left and right stand."""

_BEYOND_MM = 4.0
"""How far a column of names reaches over and under its view."""


def picture(
    build: Build, findings: Sequence[Finding], plan: Plan, *, style: Style
) -> tuple[Item, ...]:
    """Return everything in the sheet's field, in the order in which it is drawn."""
    views = tuple((view, seen(build.bodies, view)) for view in plan.views)
    fixed: tuple[Item, ...] = (
        *captions(build, plan.views, style),
        *sizes(build, plan.views, style),
    )
    edges = [edges_of(shown) for _, shown in views]
    paper = Paper(
        views=views,
        edges=tuple(shapely.union_all([*solid, *faint]) for solid, faint in edges),
        lettered=shapely.union_all(
            [shapely.box(*text_box(each)) for each in texts_of(fixed)]
        ),
        style=style,
    )
    ground = Ground(
        plan.field,
        [edge for solid, _ in edges for edge in solid],
        [edge for _, faint in edges for edge in faint],
        pad_mm=style.pad_mm,
    )
    _take(ground, fixed, style)
    marked = spots(build, findings, paper)
    calm = [each for each in marked if each.finding.verdict is Verdict.CLEAR]
    urgent = [each for each in marked if each not in calm]
    rooms = _rooms(plan)
    over = [
        *_distances(marked, ground, style),
        *balloons(urgent, rooms, ground, style=style),
        *_names(names(build, views), plan, ground, style=style),
        *balloons(calm, rooms, ground, style=style),
    ]
    bodies = [item for _, shown in views for item in items_of(shown, style)]
    return (*cleared(bodies, over), *fixed, *over)


def _rooms(plan: Plan) -> tuple[Frame, Frame]:
    """Return, for each view, the room its balloons may stand in."""
    left, bottom, right, top = plan.field
    side, under = plan.views
    return (left, under.frame[3], right, top), (left, bottom, right, side.frame[1])


def _distances(marked: Sequence[Spot], ground: Ground, style: Style) -> list[Item]:
    """Return what shows the findings' distances, and note that it is taken."""
    lines = [line for each in marked for line in _lines(each)]
    _take(ground, lines, style)
    for each in marked:
        if each.shared is not None:
            ground.take(areas=list(shapely.get_parts(each.shared)))
    return [*_shared(marked), *lines]


def _names(
    wanted: Sequence[Name], plan: Plan, ground: Ground, *, style: Style
) -> list[Item]:
    """Return the names, inside their parts as far as they fit."""
    out, beside = _within(wanted, ground, style)
    for index, view in enumerate(plan.views):
        own = [each for each in beside if each.view == index]
        out.extend(outside(own, _columns(view, plan), ground, style=style))
    return out


def _columns(view: View, plan: Plan) -> tuple[Frame, Frame]:
    """Return the room for names on a view's left and right."""
    left, bottom, right, top = view.frame
    low, high = bottom - _BEYOND_MM, top + _BEYOND_MM
    return (
        (plan.field[0] + 2.0, low, left - _BESIDE_MM[0], high),
        (right + _BESIDE_MM[1], low, plan.field[2] - 2.0, high),
    )


def _lines(spot: Spot) -> list[Item]:
    """Return what shows a finding's distance."""
    if spot.dimension is not None:
        return [spot.dimension]
    if spot.slanted is not None:
        ink = INKS[spot.finding.verdict]
        return [Line(points=spot.slanted, pen=Pen.HIDDEN, ink=ink, ref=spot.finding.id)]
    return []


def _within(
    called: Sequence[Name], ground: Ground, style: Style
) -> tuple[list[Item], list[Name]]:
    """Return the names that fit inside their parts, and those that must go beside."""
    out: list[Item] = []
    beside = []
    for name in called:
        lettering = inside(name, ground, style)
        if lettering is not None:
            out.extend(lettering)
        elif not name.again:
            beside.append(name)
    return out, beside


def _take(ground: Ground, items: Sequence[Item], style: Style) -> None:
    for item in items:
        match item:
            case Text():
                ground.take([text_box(item)])
            case Dimension():
                ground.take(lines=dimension_lines(item, style))
                if item.text is not None:
                    ground.take([text_box(item.text)])
            case Line():
                ground.take(lines=[item.points])
            case _:
                pass


def _shared(spots_here: Sequence[Spot]) -> list[Item]:
    """Return what clashing bodies share: cross-hatched in a heavy outline."""
    return [
        area
        for spot in spots_here
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
