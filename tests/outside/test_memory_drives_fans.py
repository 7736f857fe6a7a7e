"""Memory modules, drives, fans and radiators against the published figures."""

from __future__ import annotations

import pytest

from layout.standards import connectors, fans, memory, radiators
from layout.standards.drives import HEIGHTS, HOLES, SIZES
from layout.standards.figure import Standing
from layout.standards.units import MM_PER_INCH


# US patent application 20250126714, background (seen): 133.35 x 31.25.  A 16 GB module
# data sheet citing MO-309 (seen) gives the same height for the generation before.
# 133.35 mm is 5.25 in.
def test_a_bare_module_has_the_published_size() -> None:
    assert pytest.approx(5.25 * MM_PER_INCH, abs=1e-9) == memory.LENGTH.mm
    assert memory.HEIGHT.mm == memory.HEIGHT_DDR4.mm
    # The module's own data class (secondary): over 31, up to and including 32.
    assert 31.0 < memory.HEIGHT.mm <= 32.0


# About 34 above the board for a 31.25 module (from memory, unverified).
def test_a_seated_module_ends_where_it_is_remembered() -> None:
    assert memory.SEAT.mm + memory.HEIGHT.mm == pytest.approx(34.0, abs=0.5)
    assert not memory.SEAT.verified


# 7.6 to 10.2 met (from memory, unverified).
def test_the_pitch_of_memory_slots_reaches_what_is_met() -> None:
    pitch = memory.SLOT_PITCH
    scatter_mm = pitch.plus_minus_mm or 0.0
    assert pitch.mm - scatter_mm <= 7.6 + 1e-9
    assert pitch.mm + scatter_mm >= 10.2 - 1e-9


# A public page of drive forms (secondary): nominal 146.05 x 101.6 x 25.4 and
# 100.2 x 69.85 x 9.5.  The tables hold the largest bodies the standards allow (147.0
# and 100.45 from memory), so they exceed the nominal by less than a millimetre.
@pytest.mark.parametrize(
    ("name", "nominal_mm"),
    [("3.5", (146.05, 101.6, 25.4)), ("2.5", (100.2, 69.85, 9.5))],
)
def test_the_largest_drive_is_hardly_more_than_the_nominal_one(
    name: str, nominal_mm: tuple[float, float, float]
) -> None:
    size = SIZES[name]
    largest_mm = (size.length.mm, size.width.mm, size.height.mm)
    for largest, nominal in zip(largest_mm, nominal_mm, strict=True):
        assert 0.0 <= largest - nominal < 1.0


# In inches: 101.6 is 4 in; 69.85 is 2.75 in.
@pytest.mark.parametrize(("name", "width_in"), [("3.5", 4.0), ("2.5", 2.75)])
def test_drive_widths_are_whole_quarters_of_an_inch(name: str, width_in: float) -> None:
    assert SIZES[name].width.mm == pytest.approx(width_in * MM_PER_INCH, abs=1e-9)
    assert SIZES[name].height.mm in {each.mm for each in HEIGHTS[name]}


# Hole positions are from memory (SFF-8301, SFF-8201): that they lie on the drive.
@pytest.mark.parametrize("name", HOLES)
def test_drive_holes_lie_within_the_drive(name: str) -> None:
    holes, size = HOLES[name], SIZES[name]
    for pitch in holes.pitches:
        assert holes.first.mm + pitch.mm < size.length.mm
    assert holes.below_across.mm < size.width.mm
    assert holes.side_height.mm < size.height.mm
    assert holes.first.standing is Standing.MEMORY


# A public library of fan models (seen) stores half the spacing.
@pytest.mark.parametrize(
    ("frame", "half_mm"),
    [(40, 16.0), (50, 20.0), (60, 25.0), (70, 30.75), (80, 35.75), (120, 52.5)],
)
def test_fan_holes_are_twice_the_stored_half_spacing(
    frame: int, half_mm: float
) -> None:
    assert fans.FRAMES[frame].hole_spacing.mm == 2 * half_mm
    assert fans.FRAMES[frame].hole_spacing.verified


# A public file of hole patterns (seen): 82.5 for 92.
# A public page (secondary) says "usually 125" for 140; 124.5 is from memory.
def test_the_other_fan_holes_are_as_far_apart_as_published() -> None:
    assert fans.FRAMES[92].hole_spacing.mm == 82.5
    assert fans.FRAMES[140].hole_spacing.mm == pytest.approx(125.0, abs=0.5)
    assert not fans.FRAMES[140].hole_spacing.verified


# A radiator's tech sheet quoted in a forum (secondary): 275 x 123 x 30 and
# 315 x 143 x 30.
@pytest.mark.parametrize(
    ("size", "quoted_mm"), [(240, (275.0, 123.0, 30.0)), (280, (315.0, 143.0, 30.0))]
)
def test_radiators_cover_the_quoted_ones(
    size: int, quoted_mm: tuple[float, float, float]
) -> None:
    radiator = radiators.CLASSES[size]
    figures = (radiator.length, radiator.width, radiators.THICKNESS)
    for figure, quoted in zip(figures, quoted_mm, strict=True):
        assert figure.mm == pytest.approx(quoted, abs=figure.plus_minus_mm)
        assert not figure.verified


# The same two sheets: both end tanks add 35 to the fans' length.  Other classes are
# from memory; they agree within their own scatter.
@pytest.mark.parametrize("size", radiators.CLASSES)
def test_end_tanks_add_the_same_to_every_class(size: int) -> None:
    length = radiators.CLASSES[size].length
    scatter_mm = length.plus_minus_mm or 0.0
    expected_mm = size + radiators.END_TANKS.mm
    assert length.mm == pytest.approx(expected_mm, abs=scatter_mm + 1e-9)


# Worked out on the figures' own page: 27 + 25 = 52 and 30 + 25 = 55.
def test_a_radiator_with_one_row_of_fans_is_as_thick_as_worked_out() -> None:
    row_mm = fans.FRAMES[120].thickness.mm
    middle_mm = radiators.THICKNESS.mm + row_mm
    scatter_mm = radiators.THICKNESS.plus_minus_mm or 0.0
    assert middle_mm - scatter_mm == pytest.approx(52.0, abs=1e-9)
    assert middle_mm + scatter_mm == pytest.approx(55.0, abs=1e-9)


# An open footprint library (seen): bodies of 3, 4 and 12 pins a row, pitch 4.20;
# rules fitted to them: lying 1.20 + 4.20 n, upright 1.55 + 4.20 n.
@pytest.mark.parametrize("pins", [6, 8, 24])
@pytest.mark.parametrize(("way", "rest_mm"), [("lying", 1.20), ("upright", 1.55)])
def test_power_headers_grow_by_their_pitch(pins: int, way: str, rest_mm: float) -> None:
    outline = connectors.OUTLINES[f"{pins}-pin power, {way}"]
    grown_mm = rest_mm + pins / 2 * connectors.POWER_PITCH.mm
    assert outline.length.mm == pytest.approx(grown_mm, abs=1e-9)
