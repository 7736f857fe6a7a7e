"""Board sizes, hole grid and rear aperture against the published figures."""

from __future__ import annotations

from itertools import pairwise

import pytest

from layout.standards.boards import (
    APERTURE_BELOW_BOARD_TOP,
    APERTURE_CORNER,
    APERTURE_HEIGHT,
    APERTURE_KEEP_OUT,
    APERTURE_TO_HOLE_A,
    APERTURE_TO_HOLE_C,
    APERTURE_WIDTH,
    CONNECTORS_BEYOND_DATUM,
    CONNECTORS_HEIGHT,
    CONNECTORS_WIDTH,
    DATUM_ROW_TO_REAR,
    FORMS,
    HOLES,
    KEEP_OUT_CARDS,
    KEEP_OUT_FRONT,
    KEEP_OUT_PREFERRED,
    KEEP_OUT_REQUIRED,
    LOWER_EDGE,
    REAR_EDGE_TO_DATUM_ROW,
    SOLDER_LEADS,
    SOLDER_OTHER,
    SOLDER_RETENTION,
    STANDOFF,
    STANDOFF_FOOT,
    THICKNESS,
)
from layout.standards.figure import Figure
from layout.standards.units import MM_PER_INCH


# microATX Motherboard Interface Specification 1.2, Table 3 (seen): ATX 12 x 9.6 in,
# microATX 9.6 x 9.6 in.  SSI EEB 2011 1.0.1, section 2.1 (secondary): EEB 12 x 13 in,
# CEB 12 x 10.5 in.  The metric sizes printed beside them are rounded to whole mm.
@pytest.mark.parametrize(
    ("form", "height_in", "depth_in"),
    [
        ("ATX", 12.0, 9.6),
        ("microATX", 9.6, 9.6),
        ("SSI EEB", 12.0, 13.0),
        ("SSI CEB", 12.0, 10.5),
    ],
)
def test_board_sizes_are_those_in_inches(
    form: str, height_in: float, depth_in: float
) -> None:
    board = FORMS[form]
    assert board.height.mm == pytest.approx(height_in * MM_PER_INCH, abs=0.5)
    assert board.depth.mm == pytest.approx(depth_in * MM_PER_INCH, abs=0.5)


# Spacings: a public table of the ATX holes in inches (secondary): columns A-B 3.10,
# B-C 1.80, C-F 6.20; rows 0, 0.90, 6.10, 8.95.
def test_hole_columns_are_the_published_spacings() -> None:
    columns = [HOLES[letter].x.mm for letter in "ABCF"]
    spacings_in = [(b - a) / MM_PER_INCH for a, b in pairwise(columns)]
    assert spacings_in == pytest.approx([3.10, 1.80, 6.20])
    for same in ("AGK", "CHL", "FJM"):
        assert len({HOLES[letter].x.mm for letter in same}) == 1


def test_hole_rows_are_the_published_spacings() -> None:
    first_mm = HOLES["A"].y.mm
    rows_in = [(HOLES[each].y.mm - first_mm) / MM_PER_INCH for each in "AFGK"]
    assert rows_in == pytest.approx([0.0, 0.90, 6.10, 8.95])
    for same in ("ABC", "GHJ", "KLM"):
        assert len({HOLES[letter].y.mm for letter in same}) == 1


# microATX 1.2, Fig 2 (seen): which hole belongs to which board; R and S left out.
# Mini-ITX takes four of the microATX holes (Addendum 1.1, seen); which four: memory.
@pytest.mark.parametrize(
    ("form", "letters"),
    [("ATX", "ACFGHJKLM"), ("microATX", "BCFHJLM"), ("Mini-ITX", "CFHJ")],
)
def test_each_form_uses_its_published_holes(form: str, letters: str) -> None:
    used = {letter for letter, hole in HOLES.items() if form in hole.used_by}
    assert used == set(letters)


# Worked example: 0.65 + 3.10 + 1.80 + 6.20 + 0.25 = 12.00 in and
# 0.40 + 8.95 + 0.25 = 9.60 in.  Inner spacings and the 0.65 are secondary, the other
# margins are from memory: this checks that what is stored closes, no more.
def test_the_board_grid_closes() -> None:
    right_in, front_in = 0.25, 0.25
    across_in = HOLES["F"].x.mm / MM_PER_INCH + right_in
    along_in = HOLES["M"].y.mm / MM_PER_INCH + front_in
    assert across_in == pytest.approx(0.65 + 3.10 + 1.80 + 6.20 + 0.25, abs=1e-9)
    assert across_in == pytest.approx(12.00, abs=1e-9)
    assert along_in == pytest.approx(9.60, abs=1e-9)
    assert REAR_EDGE_TO_DATUM_ROW.mm == HOLES["A"].y.mm


# Mini-ITX drawing as quoted in public code (secondary): 157.48 across, 154.94 and
# 132.08 front to back.
def test_small_board_holes_agree_with_a_second_sighting() -> None:
    c, f, h, j = (HOLES[letter] for letter in "CFHJ")
    assert f.x.mm - c.x.mm == pytest.approx(157.48, abs=1e-9)
    assert h.y.mm - c.y.mm == pytest.approx(154.94, abs=1e-9)
    assert j.y.mm - f.y.mm == pytest.approx(132.08, abs=1e-9)


# Worked example, the sum printed in public code that quotes the drawing (secondary):
# 6.35 + 7.52 + 158.75 = 172.62 from the board's edge, 2.62 past a 170 board.
def test_the_aperture_ends_past_a_small_board() -> None:
    edge_mm = LOWER_EDGE["Mini-ITX"].mm
    margin_mm = HOLES["C"].x.mm - edge_mm
    assert margin_mm == pytest.approx(6.35, abs=1e-9)
    end_mm = margin_mm + APERTURE_TO_HOLE_C.mm + APERTURE_WIDTH.mm
    assert end_mm == pytest.approx(172.62, abs=1e-9)
    assert end_mm - FORMS["Mini-ITX"].height.mm == pytest.approx(2.62, abs=1e-9)


# The same drawing's margins: 6.17 at the right edge and 4.90 at the front of a board of
# 170 x 170 (Addendum 1.1, Table 1, seen), worked out on the figures' own page.
def test_the_small_board_ends_beyond_its_holes() -> None:
    board, edge_mm = FORMS["Mini-ITX"], LOWER_EDGE["Mini-ITX"].mm
    right_mm = edge_mm + board.height.mm - HOLES["F"].x.mm
    front_mm = board.depth.mm - HOLES["H"].y.mm
    assert right_mm == pytest.approx(6.17, abs=1e-9)
    assert front_mm == pytest.approx(4.90, abs=1e-9)


# Two transcriptions by different hands: from hole A 131.98, from hole C 7.52.
def test_two_chains_to_the_aperture_meet() -> None:
    from_a_mm = HOLES["A"].x.mm + APERTURE_TO_HOLE_A.mm
    from_c_mm = HOLES["C"].x.mm + APERTURE_TO_HOLE_C.mm
    assert from_a_mm == pytest.approx(from_c_mm, abs=0.005)


# microATX 1.2, Table 3 (seen): 12.0 in less 9.6 in.
def test_the_smaller_board_begins_where_the_sizes_differ() -> None:
    assert LOWER_EDGE["microATX"].mm == pytest.approx((12.0 - 9.6) * MM_PER_INCH)


# All boards have their upper edges in one line; printed sizes are rounded to mm.
@pytest.mark.parametrize("form", ["microATX", "Mini-ITX"])
def test_smaller_boards_end_at_the_top_edge_of_the_large_one(form: str) -> None:
    top_mm = LOWER_EDGE[form].mm + FORMS[form].height.mm
    assert top_mm == pytest.approx(12.0 * MM_PER_INCH, abs=0.5)


# In inches: microATX 1.2, Fig 4 and Fig 5 notes and Table 6 (seen), ATX 2.1, 3.4.2
# and ATX Fig 4 and 7 (secondary).
@pytest.mark.parametrize(
    ("figure", "inches"),
    [
        (THICKNESS, 0.062),
        (APERTURE_WIDTH, 6.25),
        (APERTURE_HEIGHT, 1.75),
        (APERTURE_BELOW_BOARD_TOP, 0.150),
        (APERTURE_KEEP_OUT, 0.1),
        (APERTURE_CORNER, 0.039),
        (APERTURE_TO_HOLE_A, 5.196),
        (CONNECTORS_WIDTH, 5.990),
        (CONNECTORS_HEIGHT, 1.470),
        (CONNECTORS_BEYOND_DATUM, 0.445),
        (DATUM_ROW_TO_REAR, 0.483),
        (STANDOFF, 0.250),
        (STANDOFF_FOOT, 0.400),
        (SOLDER_LEADS, 0.098),
        (SOLDER_OTHER, 0.120),
        (SOLDER_RETENTION, 0.200),
        (KEEP_OUT_REQUIRED, 3.0),
        (KEEP_OUT_PREFERRED, 3.5),
        (KEEP_OUT_CARDS, 0.6),
        (KEEP_OUT_FRONT, 1.5),
    ],
)
def test_lengths_are_the_published_inches(figure: Figure, inches: float) -> None:
    assert figure.mm == pytest.approx(inches * MM_PER_INCH, abs=0.006)


# ATX 2.1, 3.4.2 (secondary): what stands on the solder side stays above the tray.
@pytest.mark.parametrize("part", [SOLDER_LEADS, SOLDER_OTHER, SOLDER_RETENTION])
def test_the_solder_side_clears_the_tray(part: Figure) -> None:
    assert part.mm < STANDOFF.mm
