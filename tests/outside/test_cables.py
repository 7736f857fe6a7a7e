"""Wires, bundles and bends against the published figures."""

from __future__ import annotations

import math

import pytest

from layout.parts.form.cable import Cable, Strands
from layout.parts.form.connector import ConnectorKind
from layout.parts.wiring.leads import CABLES
from layout.standards.bends import BENDS, BendRule, bend_length_mm
from layout.standards.packings import PACKINGS, bundle_mm, mixed_bundle_mm
from layout.standards.wires import MOST_GAUGE, SOLID, STRANDED, solid_mm


# A public table of wire gauges (seen): 16, 18, 20, 28.
@pytest.mark.parametrize(
    ("gauge", "published_mm"), [(16, 1.291), (18, 1.024), (20, 0.812), (28, 0.321)]
)
def test_the_gauge_formula_gives_the_published_table(
    gauge: int, published_mm: float
) -> None:
    assert solid_mm(gauge) == pytest.approx(published_mm, abs=0.001)
    assert SOLID[gauge].mm == published_mm


# ASTM B258 (seen on a public page): each gauge is 1.1229322 times the next; a worked
# page prints 0.0641 in for 14; 36 is 0.005 in by definition.
def test_the_gauge_formula_has_the_published_ratio_and_fixed_point() -> None:
    assert solid_mm(17) / solid_mm(18) == pytest.approx(1.1229322, abs=1e-7)
    assert solid_mm(14) == pytest.approx(0.0641 * 25.4, abs=0.005)
    assert solid_mm(36) == pytest.approx(0.127, abs=1e-12)


@pytest.mark.parametrize("gauge", [-1, MOST_GAUGE + 1])
def test_no_gauge_outside_the_table_is_made_up(gauge: int) -> None:
    with pytest.raises(ValueError, match="formula is used from"):
        solid_mm(gauge)


# A public chart of stranded wire (seen): 0.059, 0.047, 0.035, 0.015 in.
@pytest.mark.parametrize(
    ("gauge", "published_mm"), [(16, 1.50), (18, 1.19), (20, 0.89), (28, 0.38)]
)
def test_stranded_conductors_are_the_published_ones(
    gauge: int, published_mm: float
) -> None:
    assert STRANDED[gauge].mm == pytest.approx(published_mm, abs=0.005)


# Stranded conductor and twice 0.016 in; one data sheet prints 2 for 18 (seen).
@pytest.mark.parametrize(("gauge", "overall_mm"), [(16, 2.31), (18, 2.01), (20, 1.70)])
def test_an_insulated_wire_is_as_thick_as_its_data_sheet(
    gauge: int, overall_mm: float
) -> None:
    cable = Cable(strands=(Strands(1, gauge),))
    assert cable.wire_mm == pytest.approx(overall_mm, abs=0.01)


# A public table of proved packings (seen): the smallest circle round n equal ones.
_PUBLISHED = (
    (2, 2.0),
    (3, 2.1547),
    (4, 2.4142),
    (5, 2.7013),
    (6, 3.0),
    (7, 3.0),
    (8, 3.3048),
    (9, 3.6131),
    (10, 3.8130),
    (11, 3.9238),
    (12, 4.029),
    (13, 4.236),
    (14, 4.328),
    (15, 4.521),
    (16, 4.615),
    (17, 4.792),
    (18, 4.863),
    (19, 4.863),
    (20, 5.122),
)


@pytest.mark.parametrize(("count", "published"), _PUBLISHED)
def test_packings_are_the_published_ones_and_never_below_them(
    count: int, published: float
) -> None:
    densest = PACKINGS[count].densest
    assert published - 5e-5 <= densest <= published + 0.0011


# A cable maker's catalogue (seen).
_CATALOGUE = {3: 2.16, 8: 3.60, 9: 4.00, 12: 4.00, 13: 4.41, 19: 5.00, 20: 5.31}


@pytest.mark.parametrize(("count", "printed"), _CATALOGUE.items())
def test_the_larger_of_catalogue_and_packing_counts(count: int, printed: float) -> None:
    assert PACKINGS[count].catalogue == printed
    assert bundle_mm(count, 2.0) == 2.0 * max(printed, PACKINGS[count].densest)


def test_the_catalogue_alone_would_promise_less_than_is_proved_for_12() -> None:
    assert PACKINGS[12].catalogue < PACKINGS[12].densest == PACKINGS[12].factor


# The formula beyond 20 is not below what the catalogue prints for 24 and 37 (seen).
@pytest.mark.parametrize(("count", "printed"), [(24, 5.61), (37, 7.00)])
def test_beyond_the_table_the_formula_is_on_the_safe_side(
    count: int, printed: float
) -> None:
    assert printed <= bundle_mm(count, 1.0) <= 1.06 * printed


# A cable maker's worked example (seen): 3 x 1.19, 5 x 1.40, 1 x 1.65 -> 4.92 printed
# with coarse rounding, 4.914 exactly.
def test_the_mixed_bundle_is_the_published_one() -> None:
    made_mm = mixed_bundle_mm([(3, 1.19), (5, 1.40), (1, 1.65)])
    assert made_mm == pytest.approx(4.914, abs=0.0005)
    assert made_mm == pytest.approx(4.92, abs=0.04)


# A hose maker's worked example (seen): 90 degrees, inside 450, outside diameter 70.
def test_the_length_of_a_bend_is_the_published_one() -> None:
    assert bend_length_mm(450.0, 70.0, math.pi / 2) == pytest.approx(762.0, abs=0.5)


# NASA-STD-8739.4, 7.3.21 (seen): 6 diameters short term, 10 long term; a rack maker's
# manual (seen): 2 in the run, 5 at a connector; ANSI/TIA-568.0-D (seen): 4.
@pytest.mark.parametrize(
    ("rule", "diameters"),
    [
        (BendRule.SHORT_TERM, 6.0),
        (BendRule.LONG_TERM, 10.0),
        (BendRule.IN_THE_RUN, 2.0),
        (BendRule.AT_A_CONNECTOR, 5.0),
        (BendRule.TWISTED, 4.0),
    ],
)
def test_bend_rules_are_the_published_multiples(
    rule: BendRule, diameters: float
) -> None:
    radius_mm = BENDS[rule].radius_mm(wire_mm=0.5, bundle_mm=2.0)
    assert radius_mm == pytest.approx(2.0 * diameters)


# ATX 3.0 guide, 5.2.2 (seen): 12 wires of 16 and 4 of 28 to the 12V-2x6 plug, 18 to
# the 8-pin one.
def test_power_leads_have_the_published_wires() -> None:
    assert CABLES[ConnectorKind.CARD_16].strands == (Strands(12, 16), Strands(4, 28))
    assert CABLES[ConnectorKind.CARD_8].strands == (Strands(8, 18),)
