"""Links: a stated plus-minus, an assumption's scatter, or the general tolerance."""

from __future__ import annotations

from dataclasses import fields

import pytest

from layout.geometry.space import Axis, Direction
from layout.parts.form.form import Link
from layout.parts.form.link import (
    at_share,
    facing,
    link,
    said_mm,
    sheet_link,
    spanning,
    times,
)
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


TOLD = Link(
    label="a figure",
    plus_minus_mm=(0.1, 0.2, 0.3),
    figure=given(7.0),
    tape="from here to there",
    entry="field",
    low=(0.25, 0.5, 0.75),
    high=(1.0, 2.0, 3.0),
    more=(link("a step", given(1.0), Axis.WIDTH),),
    instead=(link("another", given(2.0), Axis.DEPTH),),
)
"""Nothing in it is what it would be if it were not told."""


@pytest.mark.parametrize(
    ("told", "low", "high"),
    [
        (times(TOLD, -2.0), (-0.5, -1.0, -1.5), (-2.0, -4.0, -6.0)),
        (facing(TOLD, Direction.UP), (0.25, 0.0, 0.75), (1.0, 2.0, 3.0)),
        (facing(TOLD, Direction.TRAY), (0.25, 0.5, 0.75), (1.0, 2.0, 0.0)),
        (spanning(TOLD, 0.0, 1.0), (0.0, 0.0, 0.0), (1.0, 2.0, 3.0)),
        (at_share(TOLD, Axis.DEPTH, 0.5), (0.625, 0.5, 0.75), (0.625, 2.0, 3.0)),
    ],
)
def test_a_figure_that_counts_otherwise_keeps_all_else(
    told: Link, low: tuple[float, ...], high: tuple[float, ...]
) -> None:
    assert (told.low, told.high) == (low, high)
    kept = {each.name for each in fields(Link)} - {"low", "high", "more"}
    assert all(getattr(told, name) == getattr(TOLD, name) for name in kept)
    assert all(e.default != getattr(TOLD, e.name) for e in fields(Link))
    assert [each.label for each in told.more] == ["a step"]
