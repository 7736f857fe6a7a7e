"""The two views and their details, with findings and lettering."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import shapely

from layout.build.placed import Build
from layout.drawing.composed.details import Detail, details
from layout.drawing.composed.enlarged import enlarged, letter
from layout.drawing.findings.marks import Spot, spots
from layout.drawing.lettered.balloons import Room, balloons
from layout.drawing.lettered.cleared import cleared
from layout.drawing.lettered.ground import Ground
from layout.drawing.lettered.lead_names import lead_names
from layout.drawing.lettered.names import Name, names
from layout.drawing.lettered.naming import inside, outside
from layout.drawing.lettered.ranks import BESIDE_MM
from layout.drawing.lettered.regions import (
    Backdrop,
    backdrop,
    distances,
    lines_of,
    region,
    take,
)
from layout.drawing.lettered.strays import Keys, led_in
from layout.drawing.lettered.untangled import Label, untangled
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.scene import Circle, Item
from layout.drawing.paper.style import Style
from layout.drawing.sheets.layers import Layer, layer_items
from layout.drawing.sheets.sheet import Plan
from layout.drawing.sheets.sizes import captions, sizes
from layout.drawing.views.bodies import items_of
from layout.drawing.views.centre_lines import centre_lines
from layout.drawing.views.compared import Before, changed
from layout.drawing.views.extremes import extreme_lines
from layout.drawing.views.seen import seen
from layout.drawing.views.views import View
from layout.geometry.bodies.body import Body
from layout.questions.findings.finding import Finding, Verdict
from layout.values import dataclass

__all__ = ["Base", "Picture", "base", "picture"]

_BEYOND_MM = 8.0
"""How far a column of names reaches over and under its view."""


@dataclass(frozen=True, slots=True)
class Picture:
    """What is drawn, and the names that found no room but for a number.

    ``keys`` holds each such number with its name.
    """

    items: tuple[Item, ...]
    keys: Keys = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Base:
    """What is alike on every sheet of a drawing, whichever findings it marks.

    Parameters
    ----------
    bodies : tuple of Item
        Parts, centre lines, extreme positions, what has changed, layers.
    names : tuple of Name
        What is to be named.
    leads : bool
        Whether leads are named too.
    """

    build: Build
    plan: Plan
    style: Style
    behind: Backdrop
    bodies: tuple[Item, ...]
    names: tuple[Name, ...]
    leads: bool


def base(
    build: Build,
    plan: Plan,
    *,
    style: Style,
    before: Before | None = None,
    layers: Sequence[Layer] = (),
    extremes: Sequence[Body] = (),
) -> Base:
    """Return what every sheet shows, worked out once."""
    views = tuple((view, seen(build.bodies, view)) for view in plan.views)
    bodies: list[Item] = [item for _, each in views for item in items_of(each, style)]
    for index, (view, each) in enumerate(views):
        bodies.extend(centre_lines(view, each))
        bodies.extend(extreme_lines(extremes, view))
        if before is not None:
            bodies.extend(changed(before, build, views, of=index))
    bodies.extend(layer_items(build, plan.views, layers))
    return Base(
        build=build,
        plan=plan,
        style=style,
        behind=backdrop(views, plan.field, style=style),
        bodies=tuple(bodies),
        names=tuple(names(build, views)),
        leads=Layer.LEADS in layers,
    )


def picture(behind: Base, findings: Mapping[int, Finding]) -> Picture:
    """Return everything in the sheet's field, in the order in which it is drawn.

    ``findings`` holds each finding that is marked, by its number in the table.
    """
    build, plan, style = behind.build, behind.plan, behind.style
    fixed = _fixed(build, plan, (), marked=(), style=style)
    paper, ground = region(behind.behind, fixed, style=style)
    every = spots(build, findings.items(), paper)
    enlarge = details(every, plan)
    marked = _main(every, enlarge)
    fixed = _fixed(build, plan, enlarge, marked=marked, style=style)
    _, ground = region(behind.behind, fixed, style=style)
    calm = [each for each in marked if each.finding.verdict is Verdict.CLEAR]
    urgent = [each for each in marked if each not in calm]
    rooms = _rooms(plan)
    lines = distances(marked, ground, style)
    circles = [Circle(centre=each.centre, radius_mm=each.radius_mm) for each in enlarge]
    take(ground, circles, style)
    letters = [
        item
        for each in enlarge
        for item in letter(each, behind.behind.views[each.of][1], ground, style=style)
    ]
    first = balloons(urgent, rooms, ground, style=style)
    within, beside = _within(behind.names, ground, style)
    second = balloons(calm, rooms, ground, style=style)
    without, strays = _beside(beside, plan, ground, style=style)
    led = untangled([*first, *second, *without], ground)
    late, keys = _led_in(strays, plan, ground, style=style)
    over: list[Item] = [*lines, *circles, *letters, *within, *led, *late]
    if behind.leads:
        over.extend(lead_names(build, plan.views, ground, style=style))
    enlargements = [
        item
        for each in enlarge
        for item in enlarged(build, findings, each, style=style)
    ]
    bodies = cleared(behind.bodies, over)
    return Picture((*bodies, *fixed, *over, *enlargements), keys)


def _fixed(
    build: Build,
    plan: Plan,
    enlarge: Sequence[Detail],
    *,
    marked: Sequence[Spot],
    style: Style,
) -> tuple[Item, ...]:
    """Return what stands around the views: captions over circles, and sizes.

    A part's size gives way to the lines of what is marked.
    """
    circles = [
        shapely.boundary(shapely.Point(each.centre).buffer(each.radius_mm))
        for each in enlarge
    ]
    reach = [0.0, 0.0]
    for each in enlarge:
        top = plan.views[each.of].frame[3]
        reach[each.of] = max(reach[each.of], each.centre[1] + each.radius_mm - top)
    return (
        *captions(
            build,
            plan.views,
            style=style,
            right=plan.field[2],
            over=(reach[0], reach[1]),
        ),
        *sizes(
            build,
            plan.views,
            style,
            foot=plan.field[1],
            avoid=shapely.union_all([lines_of(marked, style), *circles]),
        ),
    )


def _main(every: Sequence[Spot], enlarge: Sequence[Detail]) -> list[Spot]:
    """Return what the views show: what fails, and what no detail shows."""
    elsewhere = {number for each in enlarge for number in each.numbers}
    out = []
    for each in every:
        if each.number not in elsewhere:
            out.append(each)
        elif each.finding.verdict.fails:
            out.append(replace(each, dimension=None, slanted=None, needed=None))
    return out


def _rooms(plan: Plan) -> tuple[Room, Room]:
    """Return, for each view, the room its balloons may stand in."""
    left, bottom, right, top = plan.field
    side, under = (each.frame for each in plan.views)
    return (
        Room(side, (left, under[3], right, top)),
        Room(under, (left, bottom, right, side[1])),
    )


def _beside(
    beside: Sequence[Name], plan: Plan, ground: Ground, *, style: Style
) -> tuple[list[Label], list[Name]]:
    """Return the names that stand beside their views, and those without room there."""
    out: list[Label] = []
    strays: list[Name] = []
    for index, view in enumerate(plan.views):
        own = [each for each in beside if each.view == index]
        made, left = outside(own, _columns(view, plan), ground, style=style)
        out.extend(made)
        strays.extend(left)
    return out, strays


def _led_in(
    strays: Sequence[Name], plan: Plan, ground: Ground, *, style: Style
) -> tuple[list[Item], Keys]:
    """Return the names that found no room before all else was settled."""
    out: list[Item] = []
    keys: list[tuple[str, str]] = []
    for index, (view, room) in enumerate(zip(plan.views, _rooms(plan), strict=True)):
        (left, _, start, _), (end, _, right, _) = _columns(view, plan)
        _, low, _, high = room.room
        columns = (left, low, start, high), (end, low, right, high)
        own = [each for each in strays if each.view == index]
        made, more = led_in(own, columns, ground, style=style, first=len(keys) + 1)
        out.extend(made)
        keys.extend(more)
    return out, tuple(keys)


def _columns(view: View, plan: Plan) -> tuple[Frame, Frame]:
    """Return the room for names on a view's left and right."""
    left, bottom, right, top = view.frame
    low, high = bottom - _BEYOND_MM, top + _BEYOND_MM
    return (
        (plan.field[0] + 2.0, low, left - BESIDE_MM[0], high),
        (right + BESIDE_MM[1], low, plan.field[2] - 2.0, high),
    )


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
