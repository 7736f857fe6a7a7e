from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.parts.form.cable import Cable, CableForm, Strands
from layout.parts.form.errors import PartError
from layout.standards.bends import BENDS, BendOf, BendRule


def _cable(
    count: int = 8, form: CableForm = CableForm.LOOSE, rule: BendRule | None = None
) -> Cable:
    return Cable(strands=(Strands(count, 18),), form=form, rule=rule)


def test_a_loose_cable_lies_in_as_few_layers_as_the_width_allows() -> None:
    wire_mm = _cable().wire_mm
    flat = _cable().flat_mm
    assert flat(8 * wire_mm) == pytest.approx((wire_mm, 8 * wire_mm))
    assert flat(8 * wire_mm - 0.1) == pytest.approx((2 * wire_mm, 4 * wire_mm))
    assert flat(0.5) == pytest.approx((8 * wire_mm, wire_mm))


@given(st.integers(1, 40), st.floats(3.0, 80.0))
def test_a_wider_place_never_makes_a_cable_thicker(count: int, width_mm: float) -> None:
    thick_mm, _ = _cable(count).flat_mm(width_mm)
    flatter_mm, wide_mm = _cable(count).flat_mm(width_mm + 1.0)
    assert flatter_mm <= thick_mm
    assert wide_mm <= width_mm + 1.0


@given(st.integers(1, 40), st.floats(3.0, 80.0))
def test_flat_or_not_all_wires_have_room(count: int, width_mm: float) -> None:
    cable = _cable(count)
    thick_mm, wide_mm = cable.flat_mm(width_mm)
    assert thick_mm * wide_mm >= count * cable.wire_mm**2 - 1e-9


def test_a_combed_cable_keeps_the_two_rows_of_its_plug() -> None:
    combed = _cable(8, CableForm.COMBED)
    wire_mm = combed.wire_mm
    assert combed.flat_mm(100.0) == pytest.approx((2 * wire_mm, 4 * wire_mm))


def test_a_bound_cable_stays_round_and_bends_as_a_whole() -> None:
    sleeved = _cable(8, CableForm.SLEEVED)
    thick_mm, wide_mm = sleeved.flat_mm(100.0)
    assert thick_mm == wide_mm == sleeved.bundle_mm > _cable(8).bundle_mm
    assert sleeved.bend.of is BendOf.BUNDLE
    assert sleeved.inside_radius_mm > _cable(8).inside_radius_mm


def test_loose_wires_bend_each_by_itself() -> None:
    assert _cable(24).inside_radius_mm == _cable(2).inside_radius_mm
    assert _cable().inside_radius_mm == pytest.approx(3 * _cable().wire_mm)


@pytest.mark.parametrize("rule", BendRule)
def test_every_rule_can_be_chosen_and_names_its_source(rule: BendRule) -> None:
    bend = _cable(rule=rule).bend
    assert bend is BENDS[rule]
    assert bend.source
    assert math.isfinite(_cable(rule=rule).inside_radius_mm)


def test_a_cable_of_two_gauges_is_as_thick_as_its_bundle() -> None:
    both = Cable(strands=(Strands(12, 16), Strands(4, 28)))
    more, less = (
        Cable(strands=(Strands(n, 16),)).strands[0].wire_mm(both.wall.mm)
        for n in (16, 12)
    )
    assert both.wires == 16
    assert both.wire_mm == more == less
    assert both.bundle_mm < 1.2 * math.sqrt(16) * both.wire_mm


def test_a_cable_has_wires() -> None:
    with pytest.raises(PartError, match="1 or more"):
        Strands(0, 18)
