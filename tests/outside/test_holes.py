"""Hole spacings against the figures that were read, the source beside each."""

from __future__ import annotations

import pytest

from layout.standards.boards import HOLES
from layout.standards.fans import FRAMES
from layout.standards.screws import COOLER_HOLES
from layout.standards.supplies import FORMS, REAR_HOLES
from layout.standards.units import MM_PER_INCH


# LoveKapibarasan/my_website, PC/cooler.md: personal notes, a secondary place.  That
# LGA1851 has the holes of LGA1700 is from memory.
@pytest.mark.parametrize(
    ("socket", "spacing_mm"),
    [
        ("LGA775", (72, 72)),
        ("LGA1150", (75, 75)),
        ("LGA1151", (75, 75)),
        ("LGA1155", (75, 75)),
        ("LGA1156", (75, 75)),
        ("LGA1200", (75, 75)),
        ("LGA1700", (78, 78)),
        ("LGA1851", (78, 78)),
        ("LGA1366", (80, 80)),
        ("LGA2011", (80, 80)),
        ("LGA2066", (80, 80)),
        ("AM4", (54, 90)),
        ("AM5", (54, 90)),
        ("AM3", (48, 96)),
        ("AM2", (48, 96)),
    ],
)
def test_cooler_holes(socket: str, spacing_mm: tuple[float, float]) -> None:
    assert tuple(each.mm for each in COOLER_HOLES[socket]) == spacing_mm


# nophead/NopSCADlib, vitamins/fans.scad (commit 34a9b0e) stores half the spacing; 80 to
# 120 also in futuroptimist/sugarkube, cad/pi_cluster/fan_patterns.scad.
@pytest.mark.parametrize(
    ("frame", "half_mm"),
    [(40, 16.0), (50, 20.0), (60, 25.0), (70, 30.75), (80, 35.75), (120, 52.5)],
)
def test_fan_holes(frame: int, half_mm: float) -> None:
    assert FRAMES[frame].hole_spacing.mm == pytest.approx(2 * half_mm)


# A public table of the ATX holes in inches: A-B 3.10, B-C 1.80, C-F column 6.20; rows
# 0, 0.90 (F), 6.10 and 8.95.  The Mini-ITX drawing, quoted: 157.48, 154.94, 132.08.
def test_board_holes() -> None:
    at = {name: (hole.x.mm, hole.y.mm) for name, hole in HOLES.items()}

    def inches(a: str, b: str, axis: int) -> float:
        return round((at[b][axis] - at[a][axis]) / MM_PER_INCH, 6)

    assert (inches("A", "B", 0), inches("B", "C", 0)) == (3.10, 1.80)
    assert (inches("C", "F", 0), inches("C", "F", 1)) == (6.20, 0.90)
    assert (inches("A", "G", 1), inches("A", "K", 1)) == (6.10, 8.95)
    assert inches("C", "J", 0) * MM_PER_INCH == pytest.approx(157.48)
    assert inches("C", "H", 1) * MM_PER_INCH == pytest.approx(154.94)
    assert inches("F", "J", 1) * MM_PER_INCH == pytest.approx(132.08)


# From the rear face's corners: spacings 138 across, 114 across at the offset end, 64
# and 74 up, 6 from the edge at three sides (worked out from nophead/NopSCADlib,
# vitamins/psus.scad, commit 0e8e387).
def test_rear_holes_of_a_supply() -> None:
    low_left, high_left, high_right, low_right = (
        (hole.x.mm, hole.y.mm) for hole in REAR_HOLES["ATX"]
    )
    assert high_right[0] - high_left[0] == pytest.approx(138)
    assert low_right[0] - low_left[0] == pytest.approx(114)
    assert high_left[1] - low_left[1] == pytest.approx(64)
    assert high_right[1] - low_right[1] == pytest.approx(74)
    wide_mm, high_mm = FORMS["ATX"].width.mm, FORMS["ATX"].height.mm
    assert wide_mm / 2 - high_right[0] == pytest.approx(6)
    assert high_mm / 2 - high_right[1] == pytest.approx(6)
    assert high_mm / 2 + low_right[1] == pytest.approx(6)
