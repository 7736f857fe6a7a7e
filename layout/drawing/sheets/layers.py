"""What is drawn over the views on request, a layer each: plugs, bends, leads, screws.

A drawing is quiet without them: they say where things go that are no matter.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from enum import Enum
from typing import Final

import shapely

from layout.build.placed import Build, PlacedPlug
from layout.drawing.paper.scene import Ink, Line, Pen, Point, Subject
from layout.drawing.sheets.asked import AskedError
from layout.drawing.sheets.screw_lines import Stroke, screw_lines
from layout.drawing.views.cable_rooms import cable_rooms
from layout.drawing.views.views import Facing, View
from layout.geometry.bodies.body import Body, Shape
from layout.geometry.space import Vector
from layout.geometry.ways.routes import rounded
from layout.geometry.ways.turns import bent
from layout.parts.form.form import Role
from layout.parts.wiring.plug import plug_body
from layout.questions.bends.bends import best_ways
from layout.questions.bends.cable_ways import Way
from layout.questions.reach.reach import routes

__all__ = ["Layer", "keys_of", "layer_items", "layers_named", "layers_told"]


class Layer(Enum):
    """A layer; ``value`` is its name, from the lowest on paper to the highest."""

    SCREWS = "screws"
    PLUGS = "plugs"
    BENDS = "bends"
    LEADS = "leads"


_TOLD: Final = {
    Layer.SCREWS: "holes of screws: rings those of the seat, crosses those of the part",
    Layer.PLUGS: "plugs, as far as they stand in their sockets",
    Layer.BENDS: "the room in which each cable bends, on its best way",
    Layer.LEADS: "leads and hoses on their shortest ways, dashed behind the tray",
}
_KEYS: Final = {
    Layer.SCREWS: ((Pen.NARROW, Ink.BLACK, "screw hole"),),
    Layer.PLUGS: ((Pen.NARROW, Ink.LEAD, "plug"),),
    Layer.BENDS: ((Pen.PLACE, Ink.LEAD, "room to bend"),),
    Layer.LEADS: (
        (Pen.WIDE, Ink.LEAD, "lead"),
        (Pen.HIDDEN, Ink.LEAD, "lead behind the tray"),
    ),
}
_LACKS: Final = ((Pen.WIDE, Ink.FAIL, "too little room or length"),)


def layers_named(words: str | None) -> tuple[Layer, ...]:
    """Return the layers that words name, in the order in which they are drawn.

    Raises
    ------
    AskedError
        If there is no such layer.

    Examples
    --------
    >>> [each.value for each in layers_named("leads, plugs")]
    ['plugs', 'leads']
    """
    if words is None:
        return ()
    known = {each.value: each for each in Layer}
    asked = [each.strip().lower() for each in words.split(",")]
    for each in asked:
        if each not in known:
            right = ", ".join(sorted(known))
            raise AskedError(
                f"--layers: found {each!r}; some of {right}, with commas between "
                "them, would be right"
            )
    return tuple(each for each in Layer if each.value in asked)


def layers_told(layers: Iterable[Layer]) -> tuple[Subject, ...]:
    """Return what a reader is told who points at a layer."""
    return tuple(
        Subject(ref=_ref(each), id=f"layer-{each.value}", told=_TOLD[each])
        for each in layers
    )


def keys_of(layers: Sequence[Layer]) -> tuple[tuple[Line, str], ...]:
    """Return the layers' lines for the legend, with what they stand for."""
    rows = [row for each in layers for row in _KEYS[each]]
    if {*layers} & {Layer.BENDS, Layer.LEADS, Layer.SCREWS}:
        rows += _LACKS
    return tuple((Line(points=(), pen=pen, ink=ink), said) for pen, ink, said in rows)


def layer_items(
    build: Build, views: Sequence[View], layers: Iterable[Layer]
) -> tuple[Line, ...]:
    """Return the lines of layers in all views, layer by layer."""
    return tuple(
        Line(points=points, pen=pen, ink=ink, ref=_ref(layer))
        for layer in layers
        for points, pen, ink in _DRAWN[layer](build, views)
    )


def _ref(layer: Layer) -> str:
    return f"layer {layer.value}"


def _plugs(build: Build, views: Sequence[View]) -> Iterator[Stroke]:
    for placed in _mated(build):
        body = _plug_body(placed, build)
        for view in views:
            for line in _rings(view, body):
                yield line, Pen.NARROW, Ink.LEAD


def _mated(build: Build) -> list[PlacedPlug]:
    """Return every plug in use; of those that may be at either place, the better one.

    Sockets that no lead was led to are left out.
    """
    best = [each if isinstance(each, Way) else each.way for each in best_ways(build)]
    chosen = {each.placed.name: each.placed for each in best if not each.plug.name}
    led = [each.plug for each in routes(build)]
    return [
        each
        for each in build.plugs
        if each == chosen.get(each.name, each) and (not each.plug.spare or each in led)
    ]


def _plug_body(placed: PlacedPlug, build: Build) -> Body:
    """Return a plug from its end back to the face that its socket stands on."""
    plug = placed.plug
    held = [each for each in build.bodies if each.name == placed.name]
    deep_mm = plug.body_mm
    if plug.name and held and not deep_mm:
        box = held[0].body.bounds
        deep_mm = box.high[plug.out.axis.index] - box.low[plug.out.axis.index]
    solids = plug_body(plug, deep_mm or _THIN_MM)
    return Body(name=placed.name, shape=Shape(solids))


_THIN_MM: Final = 2.0
"""Length of a plug of which nothing but its end is known."""


def _bends(build: Build, views: Sequence[View]) -> Iterator[Stroke]:
    for body, lacks in cable_rooms(build):
        for view in views:
            for line in _rings(view, body):
                yield line, Pen.PLACE, Ink.FAIL if lacks else Ink.LEAD


def _rings(view: View, body: Body) -> Iterator[tuple[Point, ...]]:
    """Yield the outline of a body on paper, holes included."""
    for part in shapely.get_parts(view.silhouette(body)):
        for ring in (part.exterior, *part.interiors):
            yield tuple((float(x), float(y)) for x, y in ring.coords)


def _leads(build: Build, views: Sequence[View]) -> Iterator[Stroke]:
    tray_mm = _tray_mm(build)
    for route in routes(build):
        ink = Ink.FAIL if route.short else Ink.LEAD
        round_it = bent if route.stiff else rounded
        way = round_it(route.points, route.radius_mm)
        for view in views:
            for points, behind in _seen(way, view, tray_mm):
                yield points, Pen.HIDDEN if behind else Pen.WIDE, ink


def _tray_mm(build: Build) -> float:
    """Return the level of the tray's back."""
    trays = [each.body.bounds for each in build.bodies if each.role is Role.TRAY]
    return min((each.low[2] for each in trays), default=-math.inf)


def _seen(
    way: Sequence[Vector], view: View, tray_mm: float
) -> Iterator[tuple[tuple[Point, ...], bool]]:
    """Yield a way in stretches on paper, and whether each lies behind the tray."""
    side = view.facing is Facing.SIDE
    run: list[Point] = [view.point(way[0])]
    was = side and way[0][2] < tray_mm
    for at in way[1:]:
        behind = side and at[2] < tray_mm
        run.append(view.point(at))
        if behind is not was:
            yield tuple(run), was
            run, was = [run[-1]], behind
    if len(run) > 1:
        yield tuple(run), was


_DRAWN: Final[dict[Layer, Callable[[Build, Sequence[View]], Iterator[Stroke]]]] = {
    Layer.SCREWS: screw_lines,
    Layer.PLUGS: _plugs,
    Layer.BENDS: _bends,
    Layer.LEADS: _leads,
}
