"""Coolers: heights over the contact face, fans and what goes under them."""

from __future__ import annotations

from typing import Any

import pytest

from layout.geometry.space import Axis, Direction
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.low_cooler import LowCooler
from layout.parts.cooling.radiator import Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.cooling.twin_tower import TwinTower
from layout.parts.form.errors import PartError
from layout.parts.form.form import Form, Role, SeatSort
from layout.parts.form.link import CONTACT_EDGE
from layout.standards.memory import SEAT
from tests.parts.seats import box, contact, mm, mount, piece, size_mm

STACK_MM = 7.0


def made(cooler: TowerCooler | TwinTower | LowCooler) -> Form:
    (wish,) = cooler.wishes()
    return cooler.made_for(wish, contact(STACK_MM))


def tower(**more: object) -> TowerCooler:
    sizes = {"height": mm(158), "width": mm(125), "depth": mm(50)}
    return TowerCooler(**{**sizes, **more})  # type: ignore[arg-type]


def test_a_tower_stands_on_its_contact_face_over_the_socket() -> None:
    form = made(tower())
    body = box(form)
    assert size_mm(body) == (50, 125, 158)
    assert body.low == (-25, -62.5, 0)
    assert form.size == "158 high"


def test_fans_sit_in_front_and_behind() -> None:
    form = made(tower(fans=2))
    front, rear = box(form, "fan 1"), box(form, "fan 2")
    assert (front.low[0], front.high[0]) == (25, 50)
    assert (rear.low[0], rear.high[0]) == (-50, -25)
    assert [each.name for each in made(tower(fans=0)).pieces] == [""]


def test_room_over_memory_is_told_by_the_modules_own_height() -> None:
    form = made(tower(room_over_memory=mm(40)))
    over_board_mm = box(form, "fan 1").low[2] + STACK_MM
    assert over_board_mm - SEAT.mm == pytest.approx(40)


def test_a_raised_fan_may_be_the_highest_point() -> None:
    form = made(tower(room_over_memory=mm(40), fan_raise=mm(15), fans=2))
    raised, other = box(form, "fan 1"), box(form, "fan 2")
    assert raised.low[2] - other.low[2] == 15
    assert raised.high[2] > box(form).high[2]


def test_an_unstated_fan_place_is_an_assumption() -> None:
    stated = piece(made(tower(room_over_memory=mm(40))), "fan 1")
    assumed = piece(made(tower()), "fan 1")
    assert [link.label for link in stated.links if link.figure.assumed] == [
        CONTACT_EDGE
    ]
    assert [link.label for link in assumed.links if link.figure.assumed] == [
        "fan's lower edge over the contact face"
    ]


def test_an_undercut_lets_memory_under_the_fins_front() -> None:
    form = made(tower(room_over_memory=mm(60), undercut=mm(20), fins_from=mm(30)))
    fins = piece(form).solids[1]
    # 30 x 50 of outline less the cut: 20 deep, up to 60 + 3 - 7 = 56 from 30.
    assert fins.top.area == pytest.approx(50 * 128 - 20 * 26)
    assert fins.top.covers(fins.top.centroid)
    assert fins.bounds.low[2] == 30


def test_a_twin_tower_has_its_first_fan_between_the_stacks() -> None:
    cooler = TwinTower(height=mm(160), width=mm(140), depth=mm(110), fans=3)
    form = made(cooler)
    middle, front, rear = (box(form, f"fan {n}") for n in (1, 2, 3))
    assert (middle.low[0], middle.high[0]) == (-12.5, 12.5)
    assert front.low[0] == 55
    assert rear.high[0] == -55
    _, behind, before = piece(form).solids
    assert behind.bounds.high[0] == middle.low[0]
    assert before.bounds.low[0] == middle.high[0]


def test_a_low_cooler_has_its_fan_on_top() -> None:
    cooler = LowCooler(height=mm(66), width=mm(95), depth=mm(90), fan_size=92)
    form = made(cooler)
    fan, fins = box(form, "fan"), box(form)
    assert (fan.low[2], fan.high[2]) == (41, 66)
    assert fins.high[2] == fan.low[2]
    assert size_mm(fins)[:2] == (90, 95)


def test_a_low_cooler_leaves_the_room_over_memory_it_says() -> None:
    cooler = LowCooler(
        height=mm(70), width=mm(120), depth=mm(120), room_over_memory=mm(32)
    )
    fins = piece(made(cooler)).solids[1]
    assert fins.bounds.low[2] == pytest.approx(32 + SEAT.mm - STACK_MM)


def test_a_liquid_cooler_has_two_seats() -> None:
    cooler = LiquidCooler(
        block_height=mm(52), radiator=Radiator(size=240, mount="top", place=2)
    )
    on_chip, on_mount = cooler.wishes()
    assert (on_chip.sort, on_mount.sort) == (SeatSort.COOLER, SeatSort.FANS)
    block = cooler.made_for(on_chip, contact(STACK_MM))
    radiator = cooler.made_for(on_mount, mount(Direction.UP, Axis.DEPTH))
    assert box(block, "block").high[2] == 52
    assert piece(radiator, "radiator").role is Role.RADIATOR
    assert [each.name for each in radiator.pieces] == [
        "radiator",
        "fan 1",
        "fan 2",
        "radiator hoses",
    ]


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: tower(height=mm(110)), "fan size: found 120 on a cooler 110 mm high"),
        (lambda: tower(undercut=mm(10)), "undercut: found 10 mm without its height"),
        (
            lambda: tower(undercut=mm(50), room_over_memory=mm(40)),
            "less than the fins' depth of 50 mm",
        ),
        (
            lambda: tower(fins_from=mm(158)),
            "fins from: found 158 mm; right would be less than the 158 mm",
        ),
        (
            lambda: LowCooler(
                height=mm(61), width=mm(90), depth=mm(90), fins_from=mm(40)
            ),
            "fins from: found 40 mm; right would be less than the 36 mm",
        ),
        (
            lambda: TwinTower(height=mm(160), width=mm(140), depth=mm(44)),
            "depth: found 44 mm; right would be two stacks",
        ),
        (
            lambda: LowCooler(height=mm(16), width=mm(90), depth=mm(90)),
            "height: found 16 mm; right would be more than the fan's 15 mm",
        ),
    ],
)
def test_coolers_that_are_none(make: type, message: str) -> None:
    with pytest.raises(PartError, match=message):
        make()


@pytest.mark.parametrize(
    ("height_mm", "size", "edges_mm"),
    [
        (165, 140, (40, 25)),
        (158, 140, (40, 18)),
        (158, 120, (240 / 7, 33)),
        (180, 120, (55, 55)),
    ],
)
def test_fins_and_fan_clear_usual_heatsinks_unless_told(
    height_mm: float, size: int, edges_mm: tuple[float, float]
) -> None:
    fins_mm, fan_mm = edges_mm
    form = made(tower(height=mm(height_mm), fan_size=size))
    fins = piece(form)
    assert fins.solids[-1].bounds.low[2] == pytest.approx(fins_mm)
    assert box(form, "fan 1").low[2] == pytest.approx(fan_mm)
    (edge,) = (link for link in fins.links if link.entry == "fins from")
    assert edge.figure.assumed
    assert edge.figure.mm == pytest.approx(fins_mm)


def test_told_room_over_memory_outranks_where_fins_usually_begin() -> None:
    told: dict[str, Any] = {
        "fan_size": 140,
        "height": mm(165),
        "room_over_memory": mm(32),
    }
    under_mm = 32 + SEAT.mm - STACK_MM
    assert piece(made(tower(**told))).solids[-1].bounds.low[2] == under_mm
    twin = TwinTower(width=mm(140), depth=mm(110), **told)
    _, behind, before = piece(made(twin)).solids
    assert before.bounds.low[2] == under_mm
    assert behind.bounds.low[2] > under_mm
