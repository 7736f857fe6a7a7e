"""Boards: all forms hang from one frame; sockets, slots and holes lie in it."""

from __future__ import annotations

import pytest

from layout.parts.board.board import Board, BoardShape
from layout.parts.board.board_plan import CardSlot, Heatsinks
from layout.parts.form.errors import PartError
from layout.parts.form.form import Form, Role, Seat, SeatSort
from tests.parts.seats import box, mm, piece, seat, size_mm

STANDOFF_MM = 6.35


def made(board: Board) -> Form:
    (wish,) = board.wishes()
    return board.made_for(wish, seat(SeatSort.BOARD, at_mm=(2.11, 0.0, STANDOFF_MM)))


@pytest.mark.parametrize(
    ("form", "depth_mm", "height_mm", "lower_mm"),
    [
        (BoardShape.ATX, 244, 305, 0),
        # 12.0 in - 9.6 in
        (BoardShape.MICRO_ATX, 244, 244, 60.96),
        # hole C at 140.97, 6.35 from the board's edge
        (BoardShape.MINI_ITX, 170, 170, 134.62),
        (BoardShape.SSI_EEB, 330, 305, 0),
        (BoardShape.SSI_CEB, 266.7, 305, 0),
    ],
)
def test_forms_lie_in_the_frame_of_a_full_board(
    *, form: BoardShape, depth_mm: float, height_mm: float, lower_mm: float
) -> None:
    plate = box(made(Board(form=form, socket="AM5")))
    assert size_mm(plate) == pytest.approx((depth_mm, height_mm, 1.57))
    assert plate.low == pytest.approx((0.0, lower_mm, 0.0))


@pytest.mark.parametrize("form", list(BoardShape)[:3])
def test_every_form_has_the_same_rear_connectors_and_first_slot(
    form: BoardShape,
) -> None:
    board = made(Board(form=form, socket="AM5"))
    full = made(Board(socket="AM5"))
    assert box(board, "rear connectors") == box(full, "rear connectors")
    assert box(board, "slot 1") == box(full, "slot 1")


def test_rear_connectors_fill_the_aperture_as_the_drawing_says() -> None:
    found = box(made(Board(socket="AM5")), "rear connectors")
    # Aperture 131.98 from hole A at 16.51; connectors 152.15 in 158.75.
    middle_mm = 16.51 + 131.98 + 158.75 / 2
    assert size_mm(found)[1:] == pytest.approx((152.15, 37.34))
    assert (found.low[1] + found.high[1]) / 2 == pytest.approx(middle_mm)
    # Their face lies 11.30 behind the datum row, which lies 10.16 from the edge.
    assert found.low[0] == pytest.approx(10.16 - 11.30)


@pytest.mark.parametrize(
    ("form", "holes"),
    [(BoardShape.ATX, 9), (BoardShape.MICRO_ATX, 7), (BoardShape.MINI_ITX, 4)],
)
def test_standoffs_reach_from_the_tray_to_the_board(
    form: BoardShape, holes: int
) -> None:
    board = made(Board(form=form, socket="AM5"))
    standoffs = box(board, "standoffs")
    plate = box(board)
    assert len(piece(board, "standoffs").solids) == holes
    assert (standoffs.low[2], standoffs.high[2]) == (-STANDOFF_MM, 0.0)
    assert plate.low[1] < standoffs.low[1]
    assert standoffs.high[1] < plate.high[1]


def test_a_free_board_hangs_from_the_frames_top_edge() -> None:
    board = Board(form=BoardShape.FREE, depth=mm(200), height=mm(230), socket="AM4")
    plate = box(made(board))
    assert plate.low[1] == pytest.approx(304.8 - 230)
    assert plate.high[1] == pytest.approx(304.8)


def test_slots_of_a_small_board_lie_on_it() -> None:
    seats = made(Board(form=BoardShape.MINI_ITX, socket="AM5")).seats
    names = [each.name for each in seats]
    assert names == ["socket", "memory 1", "memory 2", "slot 1", "m.2 1", "m.2 2"]


def test_slots_stand_at_the_pitch_of_the_openings() -> None:
    board = Board(
        socket="AM5", card_slots=(CardSlot(opening=2), CardSlot(opening=5, lanes=1))
    )
    slots = [each for each in made(board).seats if each.sort is SeatSort.SLOT]
    assert [each.name for each in slots] == ["slot 2", "slot 5"]
    assert slots[0].at_mm[1] - slots[1].at_mm[1] == pytest.approx(3 * 20.32)


def test_the_socket_is_where_it_was_measured() -> None:
    board = Board(socket="AM5", socket_from_rear=mm(90), socket_from_top=mm(80))
    socket = made(board).seats[0]
    assert socket.at_mm == pytest.approx((90, 305 - 80, 1.57))
    assert not any(link.figure.assumed for link in socket.links)


def test_a_socket_nobody_measured_is_an_assumption_with_its_scatter() -> None:
    links = made(Board(socket="AM5")).seats[0].links
    assumed = [link.plus_minus_mm for link in links if link.figure.assumed]
    assert assumed == [(15.0, 0.0, 0.0), (0.0, 15.0, 0.0)]


def test_memory_slots_scatter_more_the_farther_they_are() -> None:
    seats = {each.name: each for each in made(Board(socket="AM5")).seats}
    offs = [
        next(
            link.plus_minus_mm[0]
            for link in seats[f"memory {n}"].links
            if link.label == "memory slots' pitch"
        )
        for n in (2, 4)
    ]
    assert offs[1] == pytest.approx(3 * offs[0])


@pytest.mark.parametrize(
    ("heatsinks", "names"),
    [
        (Heatsinks.REAR_AND_TOP, ["rear heatsink", "top heatsink"]),
        (Heatsinks.TOP, ["top heatsink"]),
        (Heatsinks.NONE, []),
    ],
)
def test_regulator_heatsinks_leave_room_round_the_socket(
    heatsinks: Heatsinks, names: list[str]
) -> None:
    board = made(Board(socket="AM5", heatsinks=heatsinks, heatsink_height=mm(40)))
    socket_mm = board.seats[0].at_mm
    found = [each for each in board.pieces if each.role is Role.REGULATOR_HEATSINK]
    assert [each.name for each in found] == names
    for name in names:
        sink = box(board, name)
        assert sink.high[2] == pytest.approx(1.57 + 40)
        assert sink.high[0] < socket_mm[0] - 40 or sink.low[1] > socket_mm[1] + 40


def test_bodies_on_a_board_stay_out_of_one_another() -> None:
    for form in (BoardShape.ATX, BoardShape.MICRO_ATX, BoardShape.MINI_ITX):
        board = made(Board(form=form, socket="AM5"))
        boxes = [box(board, each.name) for each in board.pieces if each.name]
        for n, a in enumerate(boxes):
            for b in boxes[:n]:
                apart = any(
                    a.high[i] <= b.low[i] or b.high[i] <= a.low[i] for i in range(3)
                )
                assert apart, (form, a, b)


@pytest.mark.parametrize(
    ("fields", "message"),
    [
        ({"socket": "LGA1701"}, "socket: found LGA1701; right would be one of LGA1150"),
        ({"socket": "AM5", "form": BoardShape.FREE}, "free without its size"),
        (
            {"socket": "AM5", "card_slots": (CardSlot(opening=1, lanes=2),)},
            "right would be lanes of 1, 4, 8, 16",
        ),
    ],
)
def test_boards_that_are_none(fields: dict[str, object], message: str) -> None:
    with pytest.raises(PartError, match=message):
        Board(**fields)  # type: ignore[arg-type]


def test_an_unknown_socket_goes_with_its_stack() -> None:
    socket = made(Board(socket="LGA9999", stack=mm(6.5))).seats[0]
    assert socket.figure is not None
    assert socket.figure.mm == pytest.approx(6.5)


def test_heatsinks_move_with_the_socket_and_rest_on_its_place() -> None:
    near = made(Board(socket="AM5", heatsink_from_socket=mm(40)))
    far = made(Board(socket="AM5", heatsink_from_socket=mm(55)))
    assert box(near, "rear heatsink").high[0] - box(far, "rear heatsink").high[0] == 15
    socket = {link.label for link in seats_of(near)["socket"].links}
    sink = {link.label for link in piece(near, "rear heatsink").links}
    assert {label for label in socket if "socket centre" in label} <= sink


def test_memory_stands_where_it_was_taped() -> None:
    slots = box(made(Board(socket="AM5", memory_from_top=mm(90))), "memory slot 1")
    assert (slots.low[1] + slots.high[1]) / 2 == pytest.approx(305 - 90)


def seats_of(form: Form) -> dict[str, Seat]:
    return {each.name: each for each in form.seats}


@pytest.mark.parametrize("spelled", ["am5", "AM5", "AM 5", "am-5"])
def test_a_socket_is_known_however_it_is_spelled(spelled: str) -> None:
    assert Board(socket=spelled).socket == "AM5"
