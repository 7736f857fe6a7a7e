from __future__ import annotations

from dataclasses import replace

import pytest

from layout.parts.cooling.tower_cooler import TowerCooler
from layout.questions.mending.changes import Change
from layout.questions.mending.least import least_raise
from tests.build.machines import mm, tower
from tests.questions.moving.test_positions import plan_of

COOLER = TowerCooler(height=mm(140), width=mm(100), depth=mm(100))


def _raise_mm(change: Change) -> float:
    spec = change.parts[0][1]
    assert isinstance(spec, TowerCooler)
    assert spec.fan_raise is not None
    return spec.fan_raise.mm


@pytest.mark.parametrize(("needed_mm", "told_mm"), [(13.04, 13.1), (15.0, 15.0)])
def test_a_raise_is_told_in_tenths_upward(needed_mm: float, told_mm: float) -> None:
    plan = plan_of({**tower(), "cooler": COOLER})
    change = Change(
        (("cooler", replace(COOLER, fan_raise=mm(15))),), "have it raised by 15 mm"
    )
    found = least_raise(plan, change, lambda e: _raise_mm(e) >= needed_mm)
    assert _raise_mm(found) == pytest.approx(told_mm)
    assert found is change or f"raised by {told_mm:g} mm" in found.told
