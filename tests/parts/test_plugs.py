from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest

from layout.geometry.bodies.body import Shape, shapes_of_rows
from layout.geometry.space import Axis, Box, Direction
from layout.parts.board.board import Board, BoardShape
from layout.parts.card.card import Card, PlugAt
from layout.parts.drives.drive import Drive, DriveShape
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.errors import PartError
from layout.parts.form.form import Form, Plug, PlugShape, Role, Seat, SeatSort
from layout.parts.supply.supply import Cables, Supply, SupplyShape
from layout.parts.supply.supply_lead import SupplyLead
from layout.parts.wiring.adapter import Adapter, AdapterLooks, BoardAdapter
from layout.parts.wiring.leads import CABLES, straight_run
from layout.parts.wiring.plug import (
    cable_of,
    deep_mm,
    face_reach_mm,
    leaves,
    plug_body,
    room,
    room_box,
    room_rows,
    run_mm,
)
from layout.standards.figure import given
from layout.standards.supplies import LEAD_LEAST

SEAT = Seat(
    name="seat", sort=SeatSort.SLOT, at_mm=(0.0, 0.0, 6.35), approach=Direction.TRAY
)
BEHIND = Seat(
    name="seat", sort=SeatSort.DRIVE, at_mm=(0.0, 0.0, 0.0), approach=Direction.PANEL
)


def _made(spec: Board | Card | Drive | Supply, seat: Seat = SEAT) -> Form:
    return spec.made_for(spec.wishes()[0], seat)


def _card(**changes: object) -> Card:
    given_mm = {"length": given(300.0), "height": given(120.0)}
    return Card(**{"plug": PlugAt.TOP_EDGE, **given_mm, **changes})  # type: ignore[arg-type]  # fields by name


def _kinds(form: Form) -> set[ConnectorKind]:
    """Return the kinds of plugs in bodies of their own."""
    return {each.kind for each in form.plugs if each.name}


def test_every_kind_has_a_cable_and_a_straight_run() -> None:
    assert set(CABLES) == set(ConnectorKind)
    assert all(straight_run(each).mm > 0 for each in ConnectorKind)


def test_the_16_contact_plug_runs_straight_for_35_unverified() -> None:
    run = straight_run(ConnectorKind.CARD_16)
    assert run.mm == 35.0
    assert not run.verified
    assert "from memory" in run.source


def test_a_board_has_its_plugs_where_its_connectors_end() -> None:
    form = _made(Board(socket="AM5"))
    assert _kinds(form) == {
        ConnectorKind.MAIN,
        ConnectorKind.PROCESSOR,
        ConnectorKind.USB_19,
        ConnectorKind.DRIVE_DATA,
        ConnectorKind.AUDIO,
        ConnectorKind.FAN_4,
        ConnectorKind.USB_9,
        ConnectorKind.FRONT_PANEL,
    }
    pieces = {piece.name: Shape(piece.solids).bounds for piece in form.pieces}
    for plug in (each for each in form.plugs if each.name):
        bounds = pieces[plug.name]
        i = plug.out.axis.index
        assert plug.at_mm[i] - plug.body_mm * plug.out.sign == bounds.high[i]
        assert all(
            low <= at <= high
            for axis, low, at, high in zip(
                Axis, bounds.low, plug.at_mm, bounds.high, strict=True
            )
            if axis is not plug.out.axis
        )


def test_a_small_board_has_no_row_of_pins_to_ask_about() -> None:
    form = _made(Board(form=BoardShape.MINI_ITX, socket="AM5", power_plugs=0))
    assert ConnectorKind.FRONT_PANEL not in _kinds(form)
    assert ConnectorKind.PROCESSOR not in _kinds(form)


def test_two_processor_plugs_are_one_wide_cable() -> None:
    one, two = (
        next(
            each
            for each in _made(Board(socket="AM5", power_plugs=count)).plugs
            if each.kind is ConnectorKind.PROCESSOR
        )
        for count in (1, 2)
    )
    assert cable_of(two).wires == 2 * cable_of(one).wires
    assert two.size_mm[0] == pytest.approx(2 * one.size_mm[0])
    ways = (Direction.UP, Direction.DOWN)
    assert [deep_mm(one, to, straight_mm=5) for to in ways] == [
        deep_mm(two, to, straight_mm=5) for to in ways
    ]


@pytest.mark.parametrize(
    ("place", "out"),
    [(PlugAt.TOP_EDGE, Direction.PANEL), (PlugAt.FAR_END, Direction.FRONT)],
)
def test_a_cards_plug_leaves_where_its_body_ends(place: PlugAt, out: Direction) -> None:
    form = _made(_card(plug=place))
    (plug,) = form.plugs
    (piece,) = (each for each in form.pieces if each.role is Role.CARD_PLUG)
    assert plug.out is out
    assert plug.at_mm[out.axis.index] == piece.solids[0].bounds.high[out.axis.index]
    assert plug.name == piece.name


def test_a_card_without_a_plug_asks_nothing() -> None:
    assert _made(_card(plug=PlugAt.NONE)).plugs == ()


def test_a_card_takes_no_other_kind_of_plug() -> None:
    with pytest.raises(PartError, match="8-pin card power"):
        _card(plug_kind=ConnectorKind.AUDIO)


def test_a_drive_can_be_turned_in_its_cage_and_behind_the_tray() -> None:
    in_cage, behind = (
        _made(Drive(size=DriveShape.SMALL), seat) for seat in (SEAT, BEHIND)
    )
    assert {each.out for each in in_cage.plugs} == {Direction.TRAY, Direction.PANEL}
    assert {each.out for each in behind.plugs} == {Direction.UP, Direction.DOWN}
    # Behind the tray a plug lies between the tray's back and the drive's lid.
    high_mm = 15.0
    for plug in behind.plugs:
        assert -high_mm < plug.at_mm[2] + 3 <= 0.0


def test_an_angled_drive_plug_stands_out_less() -> None:
    straight, angled = (
        _made(Drive(plug=shape)).plugs[0].body_mm for shape in PlugShape
    )
    assert angled < straight


def test_the_supplys_lead_leaves_where_its_plugs_end() -> None:
    form = _made(Supply(cable_depth=given(30.0)))
    assert {plug.at_mm[0] for plug in form.plugs} == {140.0 + 30.0}
    assert {plug.out for plug in form.plugs} == {Direction.FRONT}


@pytest.mark.parametrize("shape", SupplyShape)
def test_a_modular_field_has_a_socket_for_every_sort_of_lead(
    shape: SupplyShape,
) -> None:
    form = _made(Supply(form=shape))
    kinds = {plug.kind for plug in form.plugs}
    assert {ConnectorKind.MAIN, ConnectorKind.PROCESSOR} < kinds
    assert {ConnectorKind.CARD_8, ConnectorKind.DRIVE_POWER} < kinds
    (field,) = (each for each in form.pieces if each.role is Role.SUPPLY_LEADS)
    bounds = field.solids[0].bounds
    for plug in form.plugs:
        for low, at, high in zip(bounds.low, plug.at_mm, bounds.high, strict=True):
            assert low <= at <= high
    if shape is SupplyShape.ATX:
        boxes = [plug_body(plug, 10.0)[0].bounds for plug in form.plugs]
        assert not any(a.meets(b) for a, b in combinations(boxes, 2))


def test_a_fixed_exit_has_its_thickest_lead_alone() -> None:
    (plug,) = _made(Supply(cables=Cables.FIXED)).plugs
    assert plug.kind is ConnectorKind.MAIN


PLUG = Plug(
    name="",
    kind=ConnectorKind.CARD_8,
    at_mm=(10.0, 20.0, 30.0),
    out=Direction.PANEL,
    along=Axis.DEPTH,
    size_mm=(20.0, 12.0),
    body_mm=15.0,
)


@pytest.mark.parametrize("to", leaves(PLUG))
def test_the_room_is_as_deep_as_plug_run_and_bend(to: Direction) -> None:
    bounds = Shape(room(PLUG, to, straight_mm=run_mm(PLUG))).bounds
    assert bounds.low[2] == 15.0
    deep = deep_mm(PLUG, to, straight_mm=run_mm(PLUG))
    assert bounds.high[2] - bounds.low[2] == pytest.approx(deep, abs=0.06)
    assert face_reach_mm(PLUG, Direction.PANEL.vector) == 15.0
    # The cable comes out beside its plug by its own thickness at least.
    i, sign = to.axis.index, to.sign
    ends = (bounds.low, bounds.high)
    assert (ends[sign > 0][i] - PLUG.at_mm[i]) * sign > (10.0 if i == 0 else 6.0)


@pytest.mark.parametrize("shape", PlugShape)
def test_the_rooms_cells_are_those_of_its_outlines(shape: PlugShape) -> None:
    plug = replace(PLUG, shape=shape)
    for to in leaves(plug):
        drawn = Shape(room(plug, to, straight_mm=4.0)).cells.rows
        (told,) = shapes_of_rows([room_rows(plug, to, straight_mm=4.0)])
        both = (sorted(each.T.round(6).tolist()) for each in (drawn, told.cells.rows))
        for a, b in zip(*both, strict=True):
            assert a == pytest.approx(b, abs=1e-5)


@pytest.mark.parametrize("shape", PlugShape)
@pytest.mark.parametrize("kind", ConnectorKind)
def test_every_way_lies_in_the_box_around_them_all(
    kind: ConnectorKind, shape: PlugShape
) -> None:
    plug = replace(PLUG, kind=kind, shape=shape, cable=None)
    around = room_box(plug, straight_mm=4.0)
    for to in leaves(plug):
        bounds = Shape(room(plug, to, straight_mm=4.0)).bounds
        ends = zip(around.low, bounds.low, bounds.high, around.high, strict=True)
        assert all(a <= b and c <= d for a, b, c, d in ends)


def test_a_supplys_leads_have_usual_lengths_that_a_file_overrides() -> None:
    usual = {each.name: each.length for each in _made(Supply()).leads}
    assert set(usual) == {"main lead", "processor lead", "card lead", "drive lead"}
    assert all(each.assumed for each in usual.values())
    kind = ConnectorKind.PROCESSOR
    listed = (SupplyLead(plug=kind, length=given(520.0)),)
    (own,) = _made(Supply(leads=listed)).leads
    assert (own.name, own.length.mm) == ("processor lead", 520.0)
    foreign = replace(listed[0], made_for="another")
    assert _made(Supply(leads=(foreign,))).leads == ()


def test_small_forms_have_shorter_leads() -> None:
    full, small = (
        {each.name: each.length.mm for each in _made(Supply(form=form)).leads}
        for form in (SupplyShape.ATX, SupplyShape.SFX)
    )
    assert all(small[name] < full[name] for name in full)


# ATX 3.0 guide, DC Connectors (seen): no lead shorter than 150.
def test_no_usual_lead_is_under_the_published_least() -> None:
    assert all(each.length.mm > LEAD_LEAST.mm for each in _made(Supply()).leads)


def test_leads_leave_at_the_supplys_front_face() -> None:
    for lead in _made(Supply(cable_depth=given(30.0))).leads:
        assert lead.at_mm[0] == 140.0
        assert lead.ahead_mm == 30.0


def _board_plug(board: Board, kind: ConnectorKind) -> Plug:
    (one,) = [
        each for each in _made(board).plugs if each.kind is kind and not each.spare
    ]
    return one


def test_an_angled_plug_of_a_board_turns_its_cable_along_the_board() -> None:
    board = Board(socket="AM5", angled_plugs=("19-pin USB", "drive data"))
    usb = _board_plug(board, ConnectorKind.USB_19)
    assert usb.shape is PlugShape.ANGLED
    assert set(leaves(usb)) == {Direction.FRONT, Direction.REAR}
    assert _board_plug(board, ConnectorKind.MAIN).shape is PlugShape.STRAIGHT
    straight = _board_plug(Board(socket="AM5"), ConnectorKind.DRIVE_DATA)
    data = _board_plug(board, ConnectorKind.DRIVE_DATA)
    # 20 out of its socket straight, 10 angled, both from memory; it turns across.
    assert straight.at_mm[0] - data.at_mm[0] == 10.0
    assert set(leaves(data)) == {Direction.TRAY, Direction.PANEL}


def test_an_angled_plug_stands_as_high_as_its_kind_does_not_as_a_straight_one() -> None:
    kinds = ("24-pin", "8-pin processor power", "19-pin USB", "audio", "20-pin USB")
    straight, angled = (
        {
            each.kind: each.at_mm[2]
            for each in _made(Board(socket="AM5", angled_plugs=plugs)).plugs
        }
        for plugs in ((), kinds)
    )
    # A turn in the plug makes power higher, and stiff cables' plugs and pins' lower.
    assert {k.value: round(angled[k] - straight[k], 6) for k in angled} == {
        each.value: 0.0 for each in angled
    } | {
        "24-pin": 5.0,
        "8-pin processor power": 5.0,
        "19-pin USB": -5.0,
        "audio": -2.0,
        "20-pin USB": 3.0,
    }
    board = Board(socket="AM5", angled_plugs=kinds)
    for kind in (ConnectorKind.MAIN, ConnectorKind.AUDIO):
        plug = _board_plug(board, kind)
        high = next(each for each in plug.links if each.label.startswith("height of"))
        thick = plug.links[-1].figure.mm
        assert plug.at_mm[2] == pytest.approx(high.figure.mm + thick)
    (pins,) = (e for e in _made(board).pieces if e.name == "front panel pins")
    assert (
        pins.solids[0].bounds.high[2] > _board_plug(board, ConnectorKind.AUDIO).at_mm[2]
    )


@pytest.mark.parametrize("kind", [ConnectorKind.MAIN, ConnectorKind.USB_19])
def test_a_lying_socket_looks_over_the_boards_front_edge(kind: ConnectorKind) -> None:
    board = Board(socket="AM5", lying_sockets=(kind.value,))
    lying, upright = _board_plug(board, kind), _board_plug(Board(socket="AM5"), kind)
    depth_mm = box_of(board).high[0]
    assert lying.out is Direction.FRONT
    assert lying.at_mm[0] - lying.body_mm == depth_mm
    assert lying.at_mm[2] < upright.at_mm[2]
    assert lying.at_mm[1] == pytest.approx(upright.at_mm[1])


def box_of(board: Board) -> Box:
    return _made(board).pieces[0].solids[0].bounds


@pytest.mark.parametrize(
    "changes",
    [{"angled_plugs": ("12V-2x6",)}, {"lying_sockets": ("audio",)}],
)
def test_what_no_board_has_lying_or_angled_is_refused(
    changes: dict[str, tuple[str, ...]],
) -> None:
    with pytest.raises(PartError, match="right would be one of"):
        Board(socket="AM5", **changes)  # type: ignore[arg-type]  # fields by name


def test_a_boards_adapter_lays_the_plug_along_the_board() -> None:
    adapter = BoardAdapter(
        kind=ConnectorKind.MAIN,
        looks=AdapterLooks.FRONT,
        height=given(24.0),
        length=given(14.0),
        plug=given(19.0),
    )
    board = Board(socket="AM5", adapters=(adapter,))
    straight = _board_plug(Board(socket="AM5"), ConnectorKind.MAIN)
    plug = _board_plug(board, ConnectorKind.MAIN)
    (beside,) = (e for e in _made(board).pieces if e.name == plug.name)
    bounds = beside.solids[0].bounds
    assert plug.out is Direction.FRONT
    assert plug.at_mm[0] == bounds.high[0] == straight.at_mm[0] + 14.0 + 19.0
    assert plug.at_mm[1] == straight.at_mm[1]
    # It stands as high as the adapter, which takes the straight plug's place.
    assert bounds.high[2] == pytest.approx(straight.at_mm[2] + 24.0 - 20.0)
    assert straight_run(plug.kind).mm > 0
    assert Direction.REAR not in leaves(plug)


@pytest.mark.parametrize(
    ("looks", "place", "sign"),
    [
        (AdapterLooks.UP, PlugAt.TOP_EDGE, 1),
        (AdapterLooks.DOWN, PlugAt.TOP_EDGE, -1),
        (AdapterLooks.DOWN, PlugAt.FAR_END, -1),
    ],
)
def test_a_cards_adapter_turns_its_plug_over_its_back_or_its_fans(
    looks: AdapterLooks, place: PlugAt, sign: int
) -> None:
    adapter = Adapter(looks=looks, height=given(22.0), length=given(12.0))
    straight = _made(_card(plug=place)).plugs[0]
    form = _made(_card(plug=place, adapter=adapter))
    (plug,) = form.plugs
    pieces = {each.name: each.solids[0].bounds for each in form.pieces}
    assert plug.out is looks.direction
    assert plug.at_mm[1] == pytest.approx(straight.at_mm[1] + sign * (12.0 + 17.5))
    i = straight.out.axis.index
    end_mm = straight.at_mm[i] - 17.5 + 22.0
    assert pieces["adapter"].high[i] == pieces["plug"].high[i] == end_mm


@pytest.mark.parametrize(
    ("changes", "right"),
    [
        ({"adapter": Adapter(looks=AdapterLooks.FRONT)}, "up or down"),
        (
            {"adapter": Adapter(looks=AdapterLooks.UP), "plug": PlugAt.NONE},
            "straight plug",
        ),
        (
            {
                "adapter": Adapter(looks=AdapterLooks.UP),
                "plug_shape": PlugShape.ANGLED,
            },
            "straight plug",
        ),
    ],
)
def test_an_adapter_that_cannot_be_is_refused(
    changes: dict[str, object], right: str
) -> None:
    with pytest.raises(PartError, match=right):
        _made(_card(**changes))


def test_a_board_has_one_adapter_for_a_kind_and_only_where_there_is_a_socket() -> None:
    one = BoardAdapter(kind=ConnectorKind.PROCESSOR, looks=AdapterLooks.UP)
    with pytest.raises(PartError, match="one of them for each kind"):
        Board(socket="AM5", adapters=(one, one))
    with pytest.raises(PartError, match="no socket"):
        _made(Board(socket="AM5", power_plugs=0, adapters=(one,)))
    with pytest.raises(PartError, match="angled plugs"):
        BoardAdapter(kind=ConnectorKind.AUDIO, looks=AdapterLooks.UP)
