"""Links: a stated plus-minus, an assumption's scatter, or the general tolerance."""

from __future__ import annotations

from layout.geometry.space import Axis
from layout.parts.form.link import link, said_mm, sheet_link
from layout.standards.figure import given, practice


def test_a_stated_plus_minus_acts_along_its_axes() -> None:
    found = link("height", given(120.0, 0.7), Axis.HEIGHT, Axis.WIDTH)
    assert found.plus_minus_mm == (0.0, 0.7, 0.7)


def test_without_one_a_machined_part_is_class_m_and_sheet_class_c() -> None:
    # ISO 2768-1, over 30 up to 120: m 0.3, c 0.8.
    assert link("a", given(120.0), Axis.DEPTH).plus_minus_mm[0] == 0.3
    assert sheet_link("a", given(120.0), Axis.DEPTH).plus_minus_mm[0] == 0.8


def test_an_assumption_keeps_its_own_scatter() -> None:
    figure = practice(62.0, 5.0, assumed=True)
    assert sheet_link("a", figure, Axis.DEPTH).plus_minus_mm == (5.0, 0.0, 0.0)


def test_nothing_at_all_cannot_be_off_and_little_counts_as_half_a_millimetre() -> None:
    assert link("a", given(0.0), Axis.DEPTH).plus_minus_mm == (0.0, 0.0, 0.0)
    assert link("a", given(0.2), Axis.DEPTH).plus_minus_mm == (0.1, 0.0, 0.0)


def test_text_says_two_figures_of_a_small_scatter_and_a_large_one_whole() -> None:
    found = [said_mm(each) for each in (0.254, 9.96, 17.4, 100.0, 123.4)]
    assert found == ["0.25", "10", "17", "100", "123"]
