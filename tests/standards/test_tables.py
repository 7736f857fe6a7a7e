"""What the tables must agree on among themselves."""

from __future__ import annotations

from itertools import pairwise

import pytest

from layout.standards import boards, drawing, fans, processors, radiators, supplies
from layout.standards.units import MM_PER_INCH


def test_every_board_form_has_an_edge_and_a_socket() -> None:
    assert set(boards.LOWER_EDGE) == set(boards.FORMS) == set(processors.CENTRE)


def test_every_hole_belongs_to_a_board_form() -> None:
    assert {form for hole in boards.HOLES.values() for form in hole.used_by} <= set(
        boards.FORMS
    )


@pytest.mark.parametrize("form", boards.FORMS)
def test_holes_and_socket_lie_on_the_board(form: str) -> None:
    board, edge_mm = boards.FORMS[form], boards.LOWER_EDGE[form].mm
    for hole in boards.HOLES.values():
        if form in hole.used_by:
            assert 0.0 < hole.x.mm - edge_mm < board.height.mm
            assert 0.0 < hole.y.mm < board.depth.mm
    from_rear, from_top = processors.CENTRE[form]
    assert 40.0 < from_rear.mm < board.depth.mm - 40.0
    assert 40.0 < from_top.mm < board.height.mm - 40.0


@pytest.mark.parametrize("size", fans.FRAMES)
def test_a_fan_has_its_holes_inside_its_frame(size: int) -> None:
    frame = fans.FRAMES[size]
    assert frame.size.mm == size
    assert size * 0.75 < frame.hole_spacing.mm < size


@pytest.mark.parametrize("size", radiators.CLASSES)
def test_a_radiator_is_longer_and_wider_than_its_fans(size: int) -> None:
    radiator = radiators.CLASSES[size]
    assert radiator.size == size == radiator.fans * radiator.frame
    assert radiator.frame in fans.FRAMES
    assert radiator.length.mm > size
    assert radiator.width.mm >= radiator.frame


def test_the_rear_holes_of_a_supply_keep_their_distance_from_three_edges() -> None:
    form = supplies.FORMS["ATX"]
    holes = supplies.REAR_HOLES["ATX"]
    edge_mm = supplies.EDGE_DISTANCE.mm
    assert max(abs(hole.x.mm) for hole in holes) == form.width.mm / 2 - edge_mm
    assert max(abs(hole.y.mm) for hole in holes) == form.height.mm / 2 - edge_mm


def test_paper_halves_from_sheet_to_sheet() -> None:
    sheets = [drawing.SHEETS[name] for name in ("A4", "A3", "A2", "A1", "A0")]
    for smaller, larger in pairwise(sheets):
        assert larger.short.mm == smaller.long.mm
        assert 0.0 <= larger.long.mm - 2 * smaller.short.mm <= 1.0


@pytest.mark.parametrize("name", drawing.PALETTES)
def test_colours_are_six_hexadecimal_digits_and_differ(name: str) -> None:
    colours = list(drawing.PALETTES[name].colours.values())
    assert len(set(colours)) == len(colours)
    assert all(len(each) == 6 and int(each, 16) >= 0 for each in colours)


def test_mounting_holes_lie_on_the_twentieth_of_an_inch() -> None:
    for hole in boards.HOLES.values():
        for figure in (hole.x, hole.y):
            twentieths = figure.mm / MM_PER_INCH * 20
            assert twentieths == pytest.approx(round(twentieths), abs=1e-9)
