"""Coolers off the socket's centre, turned on it, with a plate behind the board."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.geometry.space import Axis, Direction
from layout.parts.cooling.liquid_cooler import HosesLook, LiquidCooler
from layout.parts.cooling.low_cooler import LowCooler
from layout.parts.cooling.on_socket import Blows
from layout.parts.cooling.radiator import PortEnd, Radiator
from layout.parts.cooling.tower_cooler import FirstFan, TowerCooler
from layout.parts.cooling.twin_tower import TwinTower
from layout.parts.form.form import Form, Role
from layout.parts.wiring.hoses import PortsLook
from layout.standards import boards
from layout.standards.radiators import HOSE_BEND, TUBE
from tests.parts.seats import box, contact, mm, mount, piece, size_mm

STACK_MM = 7.5
TOWER = TowerCooler(height=mm(150), width=mm(120), depth=mm(50))


def made(cooler: TowerCooler | TwinTower | LowCooler | LiquidCooler) -> Form:
    wish = cooler.wishes()[0]
    return cooler.made_for(wish, contact(STACK_MM))


def test_fins_and_fan_stand_off_the_centre_and_the_base_does_not() -> None:
    form = made(replace(TOWER, forward=mm(12), upward=mm(-5)))
    base, fins = piece(form).solids
    assert base.bounds.low[:2] == (-20, -20)
    assert fins.bounds.low[:2] == (-25 + 12, -60 - 5)
    assert box(form, "fan 1").low[0] == 25 + 12
    assert {link.label for link in piece(form).links} >= {
        "fins before the socket's centre",
        "fins beyond the socket's centre",
    }


def test_every_kind_of_air_cooler_can_stand_off_the_centre() -> None:
    twin = TwinTower(height=mm(160), width=mm(140), depth=mm(110), forward=mm(-7))
    low = LowCooler(height=mm(60), width=mm(90), depth=mm(90), upward=mm(9))
    assert box(made(twin), "fan 1").low[0] == -12.5 - 7
    assert box(made(low), "fan").low[1] == -46 + 9


@pytest.mark.parametrize(
    ("blows", "axis", "sign"),
    [
        (Blows.REAR, Axis.DEPTH, 1),
        (Blows.FRONT, Axis.DEPTH, -1),
        (Blows.UP, Axis.HEIGHT, -1),
        (Blows.DOWN, Axis.HEIGHT, 1),
    ],
)
def test_the_fan_is_where_the_air_enters(blows: Blows, axis: Axis, sign: int) -> None:
    form = made(replace(TOWER, blows=blows))
    fan = box(form, "fan 1")
    middle = (fan.low[axis.index] + fan.high[axis.index]) / 2
    assert middle == pytest.approx(sign * (25 + 12.5))
    assert box(form).high[2] == 150


def test_a_first_fan_behind_the_tower_draws() -> None:
    form = made(replace(TOWER, first_fan=FirstFan.BEHIND))
    assert box(form, "fan 1").high[0] == -25
    assert [each.name for each in form.pieces] == ["", "fan 1"]


def test_a_fan_may_be_larger_than_the_fins() -> None:
    small = TowerCooler(height=mm(145), width=mm(96), depth=mm(45), fan_size=140)
    assert size_mm(box(made(small), "fan 1"))[1] == 140


def test_heat_pipes_beside_the_base_are_there_under_the_fins() -> None:
    form = made(replace(TOWER, pipes_depth=mm(70), pipes_from=mm(12)))
    _, pipes, fins = piece(form).solids
    assert size_mm(pipes.bounds)[0] == 70
    assert (pipes.bounds.low[2], pipes.bounds.high[2]) == (12, fins.bounds.low[2])


@pytest.mark.parametrize("blows", list(Blows))
def test_its_plate_lies_under_the_board(blows: Blows) -> None:
    form = made(replace(TOWER, blows=blows, back_plate=mm(4)))
    plate = box(form, "back plate")
    assert plate.high[2] == pytest.approx(-STACK_MM - boards.THICKNESS.mm)
    assert size_mm(plate) == pytest.approx((95, 95, 4))
    assert piece(form, "back plate").role is Role.BACK_PLATE


@pytest.mark.parametrize(
    ("ports", "low", "high"), [(PortEnd.LAST, 240, 275), (PortEnd.FIRST, -35, 0)]
)
def test_end_for_end_a_radiator_has_its_longer_tank_at_the_other_end(
    ports: PortEnd, low: float, high: float
) -> None:
    radiator = Radiator(
        size=240, length=mm(283), port_tank=mm(35), ports=ports, mount="front"
    )
    (wish,) = radiator.wishes()
    form = radiator.made_for(wish, mount(Direction.FRONT, Axis.HEIGHT))
    body, hoses = box(form), box(form, "radiator hoses")
    end_mm = body.high[1] if ports is PortEnd.LAST else body.low[1]
    assert end_mm == (high if ports is PortEnd.LAST else low)
    assert low < (hoses.low[1] + hoses.high[1]) / 2 < high
    assert hoses.high[0] == body.low[0]  # they leave away from the sheet
    reach_mm = 18 + HOSE_BEND.mm + TUBE.mm
    assert hoses.high[0] - hoses.low[0] == pytest.approx(reach_mm)


def test_ports_may_look_along_the_radiator_or_not_be_told() -> None:
    for look, count in ((PortsLook.ALONG, 1), (PortsLook.UNTOLD, 0)):
        radiator = Radiator(size=240, ports_look=look, mount="front")
        (wish,) = radiator.wishes()
        form = radiator.made_for(wish, mount(Direction.FRONT, Axis.HEIGHT))
        found = [each for each in form.pieces if each.role is Role.HOSE]
        assert len(found) == count
        if found:
            assert box(form, "radiator hoses").low[1] == box(form).high[1]


def test_a_hole_pattern_off_the_middle_shifts_the_body_and_not_the_fans() -> None:
    radiator = Radiator(size=240, width=mm(124), off_middle=mm(3), mount="front")
    (wish,) = radiator.wishes()
    form = radiator.made_for(wish, mount(Direction.FRONT, Axis.HEIGHT))
    assert (box(form).low[2], box(form).high[2]) == (3 - 62, 3 + 62)
    assert box(form, "fan 1").low[2] == -60


@pytest.mark.parametrize("look", list(HosesLook))
def test_hoses_leave_the_block_at_one_side(look: HosesLook) -> None:
    cooler = LiquidCooler(
        block_height=mm(52),
        block_width=mm(70),
        hoses_look=look,
        radiator=Radiator(size=240, mount="top"),
    )
    form = made(cooler)
    names = [each.name for each in form.pieces]
    if look is HosesLook.UNTOLD:
        assert names == ["block"]
        return
    hoses, out = box(form, "block hoses"), Direction[look.name]
    near = (hoses.low if out.sign > 0 else hoses.high)[out.axis.index]
    assert near == out.sign * 35
    assert hoses.high[2] == pytest.approx(52 - 5)
