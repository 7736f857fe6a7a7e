"""300 random machines: what holds for every one of them, whatever its layout."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass

import numpy as np
import pytest
import shapely

from layout.build.placed import Build, Fixing, PlacedBody
from layout.drawing.paper.scene import Area, Item
from layout.drawing.paper.style import STYLE
from layout.drawing.sheets.sheet import plans
from layout.drawing.views.bodies import items_of
from layout.drawing.views.kinds import FILLS
from layout.drawing.views.seen import Seen, is_sheet, seen
from layout.drawing.views.views import View, bounds_of
from layout.geometry.bodies.body import Body, shapes
from layout.geometry.bodies.turn import OVER, Turn
from layout.geometry.relations.query import clearances
from layout.geometry.space import Axis, Direction
from layout.parts.board.board import Board
from layout.parts.board.board_m2 import BEHIND_BOARD
from layout.parts.board.memory_slot import MemoryLooks
from layout.parts.card.card import Card
from layout.parts.case.case_fields import Face
from layout.parts.drives.cage import Cage
from layout.parts.form.form import BEHIND_TRAY, Role, Seat, SeatSort
from layout.standards.figure import Figure
from tests.build.any_machine import LAYOUTS, Machine, machine
from tests.build.any_more import UNTOLD

EACH = 43
"""Machines of each layout: 301 of seven."""

TOUCH_MM = 1e-6

QUARTER = Turn(Direction.FRONT, Direction.PANEL)


def machines(layout: str) -> Iterator[Machine]:
    return (machine(layout, seed) for seed in range(EACH))


def test_there_are_three_hundred_of_them() -> None:
    assert EACH * len(LAYOUTS) >= 300


@pytest.mark.parametrize("layout", LAYOUTS)
def test_every_part_lies_where_its_seat_says(layout: str) -> None:
    kinds = set()
    for made in machines(layout):
        for fixing in made.build.fixings:
            kinds.add(fixing.sort)
            off_mm = _off_its_seat_mm(made, fixing)
            assert abs(off_mm) <= TOUCH_MM, (layout, fixing.part, off_mm)
    assert len(kinds) > 5


def test_every_kind_of_seat_and_every_field_of_a_layout_is_drawn() -> None:
    every = [made for layout in LAYOUTS for made in machines(layout)]
    specs = [spec for made in every for spec in made.parts.values()]
    sorts = {each.sort for made in every for each in made.build.fixings}
    assert sorts == set(SeatSort)
    cages = [spec for spec in specs if isinstance(spec, Cage)]
    boards = [spec for spec in specs if isinstance(spec, Board)]
    faces = {each.where for made in every for each in made.build.bodies}
    assert {each.turned for each in cages} == {each.on_edge for each in cages}
    assert any(each.turned and each.on_edge for each in cages)
    assert any(each.rear_cover for each in boards)
    looks = {each.memory_looks for each in boards}
    assert looks == {*MemoryLooks}
    assert any(isinstance(each, Card) and each.back_plate for each in specs)
    assert {*(face.value for face in Face), BEHIND_BOARD, BEHIND_TRAY} <= faces
    assert any("bay drive" in made.parts for made in every)
    lined = {made.case.lining.front is not None for made in every}
    assert lined == {True, False}


def test_every_field_that_moves_a_body_is_told_by_some_machine() -> None:
    every = [made for layout in LAYOUTS for made in machines(layout)]
    told: dict[tuple[str, str], set[object]] = {}
    for made in every:
        for spec in (made.case, *made.parts.values()):
            for kind, name, value in _fields(spec):
                told.setdefault((kind, name), set()).add(value)
    untold = {name for names in UNTOLD.values() for name in names.split()}
    once = {
        f"{kind}.{name}"
        for (kind, name), each in told.items()
        if len(each) == 1 and name not in untold
    }
    assert once - untold == set()


def _fields(spec: object) -> Iterator[tuple[str, str, object]]:
    """Yield every field of a part and of what is nested in it, with its value."""
    if isinstance(spec, tuple):
        for each in spec:
            yield from _fields(each)
    elif is_dataclass(spec) and not isinstance(spec, Figure):
        for each in fields(spec):
            value = getattr(spec, each.name)
            yield type(spec).__name__, each.name, value
            yield from _fields(value)


@pytest.mark.parametrize("layout", LAYOUTS)
def test_guests_touch_their_hosts(layout: str) -> None:
    for made in machines(layout):
        for fixing in made.build.fixings:
            if _rests_on_its_host(made, fixing):
                gap_mm = _gap_mm(made.build, fixing)
                assert gap_mm <= TOUCH_MM, (layout, fixing.part, fixing.host, gap_mm)


@pytest.mark.parametrize("layout", LAYOUTS)
def test_parts_enter_one_another_only_within_the_seats_volume(layout: str) -> None:
    for made in machines(layout):
        assert made.beyond == set()


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("turn", [OVER, QUARTER], ids=["over", "a quarter"])
def test_turning_the_whole_case_changes_no_gap(layout: str, turn: Turn) -> None:
    for made in list(machines(layout))[:: 1 if turn is OVER else 4]:
        bodies = [each.body for each in made.build.bodies]
        before, after = clearances(bodies), clearances(_turned(bodies, turn))
        assert (before.interfering == after.interfering).all()
        assert np.abs(before.gap_mm - after.gap_mm).max() < TOUCH_MM


@pytest.mark.parametrize("layout", LAYOUTS)
def test_the_drawing_draws_every_body_once(layout: str) -> None:
    for made in machines(layout):
        drawn = set()
        for view in _views(made.build):
            shown = seen(made.build.bodies, view)
            drawn |= _drawn_once(shown, items_of(shown, STYLE))
        names = {each.name for each in made.build.bodies}
        assert names - drawn == set(), layout


def _turned(bodies: list[Body], turn: Turn) -> list[Body]:
    made = shapes([turn.solids(each.shape.solids) for each in bodies])
    return [
        Body(name=each.name, shape=shape, at_mm=turn.vector(each.at_mm))
        for each, shape in zip(bodies, made, strict=True)
    ]


def _views(build: Build) -> tuple[View, ...]:
    boxes = [each.body.bounds for each in build.bodies]
    return plans(bounds_of(boxes), in_case=True)[0].views


def _drawn_once(shown: tuple[Seen, ...], items: tuple[Item, ...]) -> set[str]:
    """Return the names that are drawn, or truly hidden; none is filled twice.

    A wall is filled with its perforated fields, whose edges are lines.
    """
    areas: dict[str, list[shapely.Polygon]] = {}
    lines = set()
    for item in items:
        if isinstance(item, Area):
            area = shapely.Polygon(item.outer, item.holes)
            areas.setdefault(item.ref, []).append(area)
        else:
            lines.add(getattr(item, "ref", ""))
    meshes = [
        each
        for each in shown
        if each.body.role is Role.GRILLE and each.body.name in lines - set(areas)
    ]
    fields = shapely.union_all([each.outline for each in meshes])
    found = set()
    for each in shown:
        name, filled = each.body.name, areas.get(each.body.name, [])
        whole = each.see_through or is_sheet(each.body)
        wanted = each.outline if whole else each.visible
        if (each.body.role in FILLS or whole) and each not in meshes:
            told = shapely.union_all(filled)
            once = sum(area.area for area in filled)
            assert told.area == pytest.approx(once, abs=0.01), name
            own = fields & told if is_sheet(each.body) else shapely.Polygon()
            assert told.area == pytest.approx((wanted | own).area, abs=0.01), name
        if filled or name in lines or each.hidden:
            found.add(name)
    return found


def _on_seat(made: Machine, fixing: Fixing) -> list[PlacedBody]:
    """Return a part's bodies on one of its seats: a liquid cooler has two."""
    on_mount = fixing.sort is SeatSort.FANS
    bodies = [each for each in made.build.bodies if each.part == fixing.part]
    faces = {each.face for each in made.seats.values() if each.sort is SeatSort.FANS}
    return [each for each in bodies if (each.where in faces) is on_mount]


def _seat(made: Machine, fixing: Fixing) -> Seat:
    return made.seats[fixing.host, fixing.seat]


def _off_its_seat_mm(made: Machine, fixing: Fixing) -> float:
    """Return how far a part's contact face lies off its seat's plane."""
    bodies = _on_seat(made, fixing)
    seat = _seat(made, fixing)
    approach = seat.approach
    if fixing.sort is SeatSort.DRIVE and seat.face != BEHIND_TRAY:
        # a drive lies, or stands on edge, in its cage or bay
        approach = seat.turn.direction(Direction.DOWN)
    index, at_mm = approach.axis.index, bodies[0].body.at_mm
    main = [each for each in bodies if each.name == bodies[0].name]
    if fixing.sort is SeatSort.FANS:
        main = bodies
    lows = [each.body.bounds.low[index] for each in main]
    highs = [each.body.bounds.high[index] for each in main]
    face_mm = max(highs) if approach.sign > 0 else min(lows)
    return face_mm - at_mm[index]


def _rests_on_its_host(made: Machine, fixing: Fixing) -> bool:
    """Tell whether a seat is a face of its host's own bodies.

    A supply behind the tray may look at no wall, a cage hangs on its rail, and a card
    or a module ends in its slot's volume.
    """
    if fixing.sort in {SeatSort.MEMORY, SeatSort.SLOT, SeatSort.RISER, SeatSort.CAGE}:
        return False
    if fixing.sort is SeatSort.SUPPLY:
        return _seat(made, fixing).approach.axis is Axis.DEPTH
    return True


def _gap_mm(build: Build, fixing: Fixing) -> float:
    """Return the least gap between a part and its host, those that interfere at 0."""
    guests = [each.body for each in build.bodies if each.part == fixing.part]
    hosts = [
        each.body
        for each in build.bodies
        if each.part == fixing.host and each.role.is_matter
    ]
    pairs = [
        (i, len(guests) + j) for i in range(len(guests)) for j in range(len(hosts))
    ]
    return float(clearances([*guests, *hosts], pairs).gap_mm.min())
