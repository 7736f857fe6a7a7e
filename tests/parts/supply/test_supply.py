"""Supplies: bodies by form, where the vent looks, what the cables take."""

from __future__ import annotations

import pytest

from layout.parts.form.errors import PartError
from layout.parts.form.form import Form, Role, SeatSort
from layout.parts.supply.supply import Cables, Intake, Supply, SupplyShape
from layout.standards.supplies import VENT_CLEARANCE
from tests.parts.seats import box, mm, piece, seat, size_mm

BAY = seat(SeatSort.SUPPLY, room_mm=(86.0, 150.0))


def made(supply: Supply) -> Form:
    (wish,) = supply.wishes()
    return supply.made_for(wish, BAY)


@pytest.mark.parametrize(
    ("form", "size"),
    [
        (SupplyShape.ATX, (140, 86, 150)),
        (SupplyShape.SFX, (100, 63.5, 125)),
        (SupplyShape.SFX_L, (130, 63.5, 125)),
        (SupplyShape.TFX, (175, 65, 85)),
        (SupplyShape.FLEX, (150, 40.5, 81.5)),
    ],
)
def test_a_supply_is_centred_in_its_opening(
    form: SupplyShape, size: tuple[float, float, float]
) -> None:
    body = box(made(Supply(form=form)))
    assert size_mm(body) == size
    assert body.low[0] == 0
    assert (body.low[1] + body.high[1], body.low[2] + body.high[2]) == (86, 150)


AROUND = [Intake.DOWN, Intake.UP, Intake.TRAY, Intake.PANEL]


@pytest.mark.parametrize("intake", AROUND)
def test_the_vent_is_a_skin_at_the_face_the_fan_looks_through(intake: Intake) -> None:
    form = made(Supply(length=mm(160), intake=intake))
    body, vent = box(form), box(form, "vent")
    axis = intake.direction().axis.index
    far = intake.direction().sign > 0
    assert (vent.high if far else vent.low)[axis] == pytest.approx(
        (body.high if far else body.low)[axis]
    )
    assert size_mm(vent)[axis] == pytest.approx(0.1)
    assert piece(form, "vent").role is Role.SUPPLY_VENT


@pytest.mark.parametrize("form", list(SupplyShape))
def test_what_stands_beside_a_supply_is_not_before_its_vent(form: SupplyShape) -> None:
    made_supply = made(Supply(form=form))
    body, vent = box(made_supply), box(made_supply, "vent")
    for axis in (0, 2):
        assert vent.low[axis] - body.low[axis] > VENT_CLEARANCE.mm
        assert body.high[axis] - vent.high[axis] > VENT_CLEARANCE.mm


def test_on_edge_it_stands_as_high_as_it_is_wide() -> None:
    body = box(made(Supply(intake=Intake.PANEL)))
    assert size_mm(body) == (140, 150, 86)


def test_on_edge_its_sizes_keep_their_names() -> None:
    form = made(Supply(intake=Intake.PANEL))
    told = {each.label: each.figure.mm for each in piece(form, "").links}
    assert (told["supply height"], told["supply width"]) == (86, 150)


@pytest.mark.parametrize("intake", [Intake.REAR, Intake.FRONT])
def test_its_fan_looks_to_a_side_and_not_to_an_end(intake: Intake) -> None:
    with pytest.raises(PartError, match="intake: found"):
        made(Supply(intake=intake))


@pytest.mark.parametrize("cables", list(Cables))
def test_cables_take_room_before_the_body(cables: Cables) -> None:
    form = made(Supply(length=mm(160), cables=cables, cable_depth=mm(30)))
    leads, body = box(form, "leads"), box(form)
    assert (leads.low[0], leads.high[0]) == (160, 190)
    assert body.low[1] <= leads.low[1] < leads.high[1] <= body.high[1]
    assert form.size == "160 long"
