"""Where a board's headers are: usual places, and those of the file."""

from __future__ import annotations

from collections import Counter

import pytest

from layout.geometry.space import Direction
from layout.parts.board.board import Board, BoardShape
from layout.parts.board.board_headers import HeaderPlace
from layout.parts.form.connector import ConnectorKind as Kind
from layout.parts.form.errors import PartError
from layout.parts.form.form import Form, Plug, Seat, SeatSort
from layout.parts.wiring.hookup import Listed
from layout.standards.figure import given

SEAT = Seat(
    name="board", sort=SeatSort.BOARD, at_mm=(0.0, 0.0, 6.35), approach=Direction.TRAY
)


def made(**changes: object) -> Form:
    board = Board(**{"socket": "AM5", **changes})  # type: ignore[arg-type]  # fields by name
    return board.made_for(board.wishes()[0], SEAT)


def plugs(form: Form, kind: Kind) -> list[Plug]:
    return [each for each in form.plugs if each.kind is kind]


@pytest.mark.parametrize("form", [each for each in BoardShape if each.value != "free"])
def test_every_form_has_a_place_on_it_for_every_kind(form: BoardShape) -> None:
    board = made(form=form)
    kinds = Counter(each.kind for each in board.plugs)
    fronts = (Kind.FRONT_PANEL, Kind.AUDIO, Kind.USB_9, Kind.USB_19, Kind.USB_20)
    assert all(kinds[kind] == 1 for kind in fronts)
    assert kinds[Kind.FAN_4] >= 3
    main = next(each for each in board.pieces if not each.name)
    (low_x, low_y, _), (high_x, high_y, _) = (
        main.solids[0].bounds.low,
        main.solids[0].bounds.high,
    )
    for each in board.plugs:
        x, y, _ = each.at_mm
        if each.out is Direction.PANEL:
            assert low_x <= x <= high_x
            assert low_y <= y <= high_y


def test_who_lists_headers_has_no_more_of_their_kind() -> None:
    form = made(headers=(("4-pin fan", 2), ("12 V light", 1)))
    assert len(plugs(form, Kind.FAN_4)) == 2
    assert not plugs(form, Kind.LIGHT_5V)
    assert len(plugs(form, Kind.LIGHT_12V)) == 1
    assert len(plugs(form, Kind.USB_20)) == 1  # a family the file does not mention


def test_the_body_of_a_header_is_where_the_file_tells_alone() -> None:
    told = HeaderPlace(kind=Kind.USB_19, from_rear=given(200.0), from_top=given(200.0))
    bodies = {each.name for each in made(header_places=(told,)).pieces}
    assert "19-pin USB header" in bodies
    assert "internal usb" not in bodies
    assert "internal usb" in {each.name for each in made().pieces}


def test_a_place_of_the_file_stands_for_the_usual_ones() -> None:
    told = HeaderPlace(kind=Kind.AUDIO, from_rear=given(30.0), from_top=given(200.0))
    (audio,) = plugs(made(header_places=(told,)), Kind.AUDIO)
    (usual,) = plugs(made(), Kind.AUDIO)
    assert audio.at_mm[0] == 30.0
    assert audio.at_mm != usual.at_mm
    assert not audio.spare
    assert [each.figure.assumed for each in audio.links[:2]] == [False, False]


def test_a_place_beside_the_board_is_refused() -> None:
    told = HeaderPlace(kind=Kind.AUDIO, from_rear=given(300.0), from_top=given(20.0))
    with pytest.raises(PartError, match="a place on the board") as refused:
        made(header_places=(told,))
    assert refused.value.field == "header places"


def test_power_has_no_header() -> None:
    with pytest.raises(PartError, match="24-pin"):
        HeaderPlace(kind=Kind.MAIN, from_rear=given(30.0), from_top=given(20.0))


@pytest.mark.parametrize(
    ("headers", "gone"),
    [
        ((("drive data", 0),), {"drive data"}),
        ((("19-pin USB", 0),), {"internal usb"}),
        ((("20-pin USB", 1),), {"internal usb"}),
        ((("drive data", 4),), set()),
        (None, set()),
    ],
)
def test_sockets_that_a_file_denies_take_no_room_at_the_edge(
    headers: Listed | None, gone: set[str]
) -> None:
    """Neither a body that fans could meet, nor a plug that a lead could be led to."""
    form = made(headers=headers)
    names = {each.name for each in form.pieces}
    assert {"drive data", "internal usb"} - names == gone
    assert bool(plugs(form, Kind.DRIVE_DATA)) is ("drive data" not in gone)
    assert bool(plugs(form, Kind.USB_19)) is ("internal usb" not in gone)
