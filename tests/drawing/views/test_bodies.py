"""Which pen draws which edge."""

from __future__ import annotations

import pytest
import shapely
from shapely.geometry import Polygon, box

from layout.build.placed import PlacedBody
from layout.drawing.paper.scene import Area, Line, Pen
from layout.drawing.paper.style import STYLE
from layout.drawing.sheets.sheet import NAMED, plans
from layout.drawing.views.bodies import items_of
from layout.drawing.views.seen import seen
from layout.geometry.bodies.body import Body, Shape
from layout.geometry.solids.solid import Solid, rectangle
from layout.geometry.space import Box
from layout.parts.form.form import Role
from tests.drawing.samples import placed

_SIDE, _TOP = plans(
    Box((0, 0, -25), (430, 460, 210)), in_case=True, sheets=NAMED["A2"]
)[0].views

_HOLE = box(100, 50, 300, 400)
_NOTCH = box(0, 50, 300, 400)  # as far as the panel's edge


def _panel(cut: Polygon) -> list[PlacedBody]:
    """Return a back panel and what is perforated of it."""
    whole = box(0, 0, 430, 460)
    made = Polygon(shapely.get_exterior_ring(shapely.difference(whole, cut)))
    if cut.disjoint(whole.exterior):
        made = Polygon(whole.exterior, [cut.exterior])
    solid = Solid(made, rectangle((0, 430), (-26, -25)))
    panel = PlacedBody(
        part="case",
        body=Body(name="case/back panel", shape=Shape((solid,))),
        role=Role.BACK_PANEL,
        where=None,
        chain=(),
    )
    x0, y0, x1, y1 = cut.bounds
    mesh = placed(
        "case/perforated back panel", Role.GRILLE, ((x0, x1), (y0, y1), (-26, -25))
    )
    return [panel, mesh]


@pytest.mark.parametrize("cut", [_HOLE, _NOTCH])
def test_a_perforated_field_is_edged_as_an_opening_once(cut: Polygon) -> None:
    items = items_of(seen(tuple(_panel(cut)), _SIDE), STYLE)
    drawn = {(each.ref, each.pen) for each in items if isinstance(each, Area | Line)}
    assert drawn == {
        ("case/back panel", Pen.NARROW),
        ("case/perforated back panel", Pen.PLACE),
    }
    (wall,) = (each for each in items if isinstance(each, Area))
    assert not wall.holes
    assert Polygon(wall.outer).equals(Polygon(wall.outer).envelope)


def test_a_perforated_shroud_over_the_floor_keeps_its_edges() -> None:
    floor = placed("case/floor", Role.FLOOR, ((0, 430), (-1, 0), (-25, 210)))
    shroud = placed("case/shroud", Role.GRILLE, ((0, 385), (100, 101), (0, 200)))
    items = items_of(seen((floor, shroud), _TOP), STYLE)
    pens = {each.ref: each.pen for each in items if isinstance(each, Area | Line)}
    assert pens == {"case/floor": Pen.NARROW, "case/shroud": Pen.NARROW}


def test_edge_on_a_perforated_field_is_drawn_as_its_wall_is() -> None:
    items = items_of(seen(tuple(_panel(_HOLE)), _TOP), STYLE)
    assert {each.pen for each in items if isinstance(each, Area | Line)} == {Pen.WIDE}
