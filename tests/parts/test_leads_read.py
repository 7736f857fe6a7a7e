"""A lead's length, to its first plug or to its last."""

from __future__ import annotations

import pytest

from layout.parts.form.connector import ConnectorKind
from layout.parts.form.errors import PartError
from layout.parts.form.form import SeatSort
from layout.parts.form.lead import Lead
from layout.parts.form.reading import restated
from layout.parts.supply.supply import Supply
from layout.parts.supply.supply_lead import SupplyLead
from tests.parts.seats import mm, seat

LAST = (("length", "case to the last plug"),)


def drive_lead(**more: object) -> Lead:
    told = {"plug": ConnectorKind.DRIVE_POWER, "plugs": 4, "length": mm(900), **more}
    supply = Supply(leads=(SupplyLead(**told),))  # type: ignore[arg-type]
    (wish,) = supply.wishes()
    bay = seat(SeatSort.SUPPLY)
    form = restated(supply, bay).made_for(wish, bay)
    (lead,) = [each for each in form.leads if each.name == "drive lead"]
    return lead


def test_a_lead_told_to_its_last_plug_is_three_pitches_shorter_to_its_first() -> None:
    lead = drive_lead(between_plugs=mm(120), measured_from=LAST)
    assert lead.length.mm == 900 - 3 * 120
    assert lead.length.restated is not None
    assert lead.length.restated.mm == 900


def test_a_pitch_that_is_assumed_makes_the_length_assumed() -> None:
    lead = drive_lead(measured_from=LAST)
    assert lead.length.mm == 900 - 3 * 150
    assert lead.length.assumed


def test_a_lead_is_told_to_its_first_plug_unless_it_says_so() -> None:
    lead = drive_lead()
    assert (lead.length.mm, lead.length.reading) == (900, "case to the first plug")


def test_other_readings_of_a_lead_are_refused() -> None:
    with pytest.raises(PartError, match="one of case to the first plug, case to the"):
        drive_lead(measured_from=(("length", "plug to plug"),))
