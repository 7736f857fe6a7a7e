"""Fans and radiators on a mount: off the sheet, along the row, across it."""

from __future__ import annotations

import pytest

from layout.geometry.space import Axis, Box, Direction
from layout.parts.cooling.fan import Fan
from layout.parts.cooling.radiator import FanPlaces, PortEnd, Radiator
from layout.parts.form.errors import PartError
from layout.parts.form.form import Form, Role, Seat
from layout.parts.wiring.hoses import PortsLook
from tests.parts.seats import box, mm, mount, piece, size_mm

FRONT = mount(Direction.FRONT, Axis.HEIGHT, start_mm=40)


def made(part: Fan | Radiator, on: Seat) -> Form:
    (wish,) = part.wishes()
    return part.made_for(wish, on)


@pytest.mark.parametrize(
    ("approach", "along", "low", "high"),
    [
        (Direction.FRONT, Axis.HEIGHT, (-25, 0, -60), (0, 120, 60)),
        (Direction.REAR, Axis.HEIGHT, (0, 0, -60), (25, 120, 60)),
        (Direction.UP, Axis.DEPTH, (0, -25, -60), (120, 0, 60)),
        (Direction.DOWN, Axis.DEPTH, (0, 0, -60), (120, 25, 60)),
        (Direction.PANEL, Axis.DEPTH, (0, -60, -25), (120, 60, 0)),
        (Direction.TRAY, Axis.DEPTH, (0, -60, 0), (120, 60, 25)),
    ],
)
def test_a_fan_lies_against_the_sheet_it_is_brought_to(
    *,
    approach: Direction,
    along: Axis,
    low: tuple[float, float, float],
    high: tuple[float, float, float],
) -> None:
    found = box(made(Fan(size=120, mount="mount"), mount(approach, along)))
    assert (found.low, found.high) == (low, high)


def test_fans_stand_side_by_side_from_their_first_place() -> None:
    form = made(Fan(size=120, count=2, place=2, mount="mount"), FRONT)
    assert [each.name for each in form.pieces] == ["fan 1", "fan 2"]
    spans = [(each.low[1], each.high[1]) for each in _boxes(form)]
    assert spans == [(160, 280), (280, 400)]


def test_a_slim_fan_says_so() -> None:
    form = made(Fan(size=120, thickness=mm(15), mount="mount"), FRONT)
    assert size_mm(box(form))[0] == 15
    assert form.size == "120 x 15"


@pytest.mark.parametrize(
    ("fans", "radiator_off_mm", "fans_off_mm"),
    [
        (FanPlaces.INNER, (0, 30), [(30, 55)]),
        (FanPlaces.OUTER, (25, 55), [(0, 25)]),
        (FanPlaces.BOTH, (25, 55), [(0, 25), (55, 80)]),
        (FanPlaces.NONE, (0, 30), []),
    ],
)
def test_fans_on_either_side_of_a_radiator(
    fans: FanPlaces,
    radiator_off_mm: tuple[float, float],
    fans_off_mm: list[tuple[float, float]],
) -> None:
    form = made(Radiator(size=120, thickness=mm(30), fans=fans, mount="mount"), FRONT)
    body = box(form)
    assert (-body.high[0], -body.low[0]) == radiator_off_mm
    assert [
        (-each.high[0], -each.low[0]) for each in _boxes(form, Role.FAN)
    ] == fans_off_mm


@pytest.mark.parametrize(
    ("ports", "span_mm"), [(PortEnd.LAST, (25, 300)), (PortEnd.FIRST, (20, 295))]
)
def test_the_end_with_the_ports_has_its_own_tank(
    ports: PortEnd, span_mm: tuple[float, float]
) -> None:
    # 275 long over two fans of 120 from 40 on: 35 for both tanks, 20 of them ports.
    radiator = Radiator(
        size=240, length=mm(275), port_tank=mm(20), ports=ports, mount="mount"
    )
    body = box(made(radiator, FRONT))
    assert (body.low[1], body.high[1]) == span_mm


@pytest.mark.parametrize(
    ("fields", "message"),
    [
        ({"size": 300}, "size: found 300; right would be one of 120, 140, 240"),
        ({"size": 240, "length": mm(230)}, "length: found 230 mm; right would be mo"),
        (
            {"size": 240, "length": mm(250), "port_tank": mm(20)},
            "more than the fans' 240 mm: body with both end tanks",
        ),
        ({"size": 240, "length": mm(240)}, "found 240 mm; right would be more than"),
    ],
)
def test_radiators_that_are_none(fields: dict[str, object], message: str) -> None:
    with pytest.raises(PartError, match=message):
        Radiator(mount="front", **fields)  # type: ignore[arg-type]


def test_usual_sizes_are_assumptions_and_given_ones_are_not() -> None:
    usual = piece(made(Radiator(size=120, mount="mount"), FRONT))
    stated = piece(
        made(
            Radiator(
                size=120,
                length=mm(155),
                width=mm(120),
                thickness=mm(27),
                mount="mount",
            ),
            FRONT,
        )
    )
    assert {link.label for link in usual.links if link.figure.assumed} == {
        "radiator length",
        "radiator width",
        "radiator thickness",
    }
    assert not any(link.figure.assumed for link in stated.links)


def _boxes(form: Form, role: Role = Role.FAN) -> list[Box]:
    return [box(form, each.name) for each in form.pieces if each.role is role]


@pytest.mark.parametrize(
    ("looks", "sign"), [(PortsLook.ASIDE, 1), (PortsLook.OTHER_SIDE, -1)]
)
def test_ports_may_look_to_either_side_of_the_radiator(
    looks: PortsLook, sign: int
) -> None:
    radiator = Radiator(size=240, mount="top", ports_look=looks)
    form = made(radiator, mount(Direction.UP, Axis.DEPTH))
    body, ends = box(form), box(form, "radiator hoses")
    if sign > 0:
        assert ends.low[2] == pytest.approx(body.high[2])
    else:
        assert ends.high[2] == pytest.approx(body.low[2])
    assert body.low[0] < ends.low[0] < ends.high[0] < body.high[0] + 40
