"""Cards: the envelope under the slot's line, bracket and plug."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.parts.card.card import Card, PlugAt
from layout.parts.card.card_headers import CardHeader
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.errors import PartError
from layout.parts.form.form import Form, PlugShape, Role, SeatSort
from layout.parts.wiring.hookup import Listed
from layout.parts.wiring.leads import CABLES
from layout.parts.wiring.plug import cable_of
from layout.standards.connectors import OUTLINES
from tests.parts.seats import box, mm, piece, seat, size_mm

LENGTH = mm(285)


def made(card: Card) -> Form:
    (wish,) = card.wishes()
    return card.made_for(wish, seat(SeatSort.SLOT))


@pytest.mark.parametrize(
    ("slots", "below_mm"),
    [
        # board 1.57; component side 14.47 one slot wide, 34.80 two, 20.32 each more
        (1, 1.57 / 2 + 14.47),
        (2, 1.57 / 2 + 34.80),
        (3, 1.57 / 2 + 34.80 + 20.32),
    ],
)
def test_a_card_hangs_below_the_line_of_its_slot(slots: int, below_mm: float) -> None:
    body = box(made(Card(length=LENGTH, slots=slots)))
    assert body.low[1] == pytest.approx(-below_mm)
    assert body.high[1] == pytest.approx(1.57 / 2 + 2.67)


def test_length_and_height_are_those_of_the_data_sheet() -> None:
    form = made(Card(length=LENGTH, height=mm(130)))
    body = box(form)
    assert (body.low[0], body.high[0]) == (0, 285)
    assert (body.low[2], body.high[2]) == (0, 130)
    assert form.size == "285 long"


def test_beside_its_fingers_it_stays_over_the_slot() -> None:
    body, tongue = piece(made(Card(length=LENGTH))).solids
    assert body.bounds.low[2] == 12.75
    assert tongue.bounds.high[2] == 12.75
    assert tongue.bounds.high[0] - tongue.bounds.low[0] == pytest.approx(84.3)
    assert tongue.bounds.high[1] == pytest.approx(1.57 / 2)


def test_the_bracket_covers_the_openings_it_takes() -> None:
    bracket = box(made(Card(length=LENGTH, slots=3)), "bracket")
    assert size_mm(bracket) == pytest.approx((0.86, 18.42 + 2 * 20.32, 120.02))
    assert bracket.high[0] == 0
    assert bracket.high[2] == 104.86


def test_a_plug_at_the_top_edge_looks_to_the_panel() -> None:
    card = Card(
        length=LENGTH,
        height=mm(112),
        plug=PlugAt.TOP_EDGE,
        plug_from_bracket=mm(200),
        plug_reach=mm(18),
    )
    plug = box(made(card), "plug")
    assert (plug.low[2], plug.high[2]) == (112, 130)
    assert (plug.low[0] + plug.high[0]) / 2 == 200


def test_a_plug_at_the_far_end_looks_to_the_front() -> None:
    form = made(Card(length=LENGTH, plug=PlugAt.FAR_END, plug_reach=mm(18)))
    plug = box(form, "plug")
    assert (plug.low[0], plug.high[0]) == (285, 303)
    assert piece(form, "plug").role is Role.CARD_PLUG


@pytest.mark.parametrize(
    ("shape", "told_mm", "reach_mm"),
    [
        (PlugShape.STRAIGHT, None, 17.5),
        (PlugShape.ANGLED, None, 13.0),
        (PlugShape.ANGLED, 10.0, 10.0),
    ],
)
def test_an_angled_plug_stands_less_far_beyond_the_card(
    shape: PlugShape, told_mm: float | None, reach_mm: float
) -> None:
    card = Card(
        length=LENGTH,
        height=mm(112),
        plug=PlugAt.TOP_EDGE,
        plug_shape=shape,
        plug_reach=None if told_mm is None else mm(told_mm),
    )
    form = made(card)
    assert box(form, "plug").high[2] == 112 + reach_mm
    assert form.plugs[0].at_mm[2] == 112 + reach_mm
    assumed = [each.label for each in piece(form, "plug").links if each.figure.assumed]
    assert ("plug beyond the card" in assumed) is (told_mm is None)


def test_each_plug_in_a_cards_own_sockets_may_be_as_long_as_it_is() -> None:
    usb, data = ConnectorKind.USB_9, ConnectorKind.DRIVE_DATA
    card = Card(
        length=LENGTH,
        headers=((usb.value, 1), (data.value, 1)),
        header_places=(
            CardHeader(kind=usb, at=mm(40), plug_reach=mm(9)),
            CardHeader(kind=data, at=mm(80)),
        ),
    )
    own = {each.kind: each for each in made(card).plugs}
    usual = OUTLINES["drive data plug"].height
    assert usual is not None
    ends_mm = [own[kind].at_mm[0] for kind in (usb, data)]
    assert ends_mm == [LENGTH.mm + 9, LENGTH.mm + usual.mm]
    given = [each.entry for each in own[usb].links]
    assert "header places.plug reach" in given


def test_a_plugs_unstated_place_is_an_assumption() -> None:
    links = piece(made(Card(length=LENGTH, plug=PlugAt.TOP_EDGE)), "plug").links
    assert [link.label for link in links if link.figure.assumed] == [
        "plug beyond the card",
        "plug from the bracket",
    ]


def test_a_card_no_higher_than_its_slot_is_none() -> None:
    with pytest.raises(PartError, match="height: found 12 mm; right would be over"):
        Card(length=LENGTH, height=mm(12))


def test_a_plug_beyond_the_end_of_the_card_is_refused() -> None:
    with pytest.raises(PartError, match="plug from bracket: found 300 mm"):
        Card(length=LENGTH, plug=PlugAt.TOP_EDGE, plug_from_bracket=mm(300))


def test_a_plug_of_another_kind_than_the_power_it_takes_is_refused() -> None:
    told = r"12V-2x6, where 'power' lists 2 x 8-pin card power"
    with pytest.raises(PartError, match=told) as refused:
        Card(
            length=LENGTH,
            power=(("8-pin card power", 2),),
            plug_kind=ConnectorKind.CARD_16,
        )
    assert refused.value.field == "plug kind"
    assert "one of those, or 'power: {12V-2x6: 1}'" in refused.value.right
    with pytest.raises(PartError, match="where 'power' lists none"):
        Card(length=LENGTH, power=(), plug_kind=ConnectorKind.CARD_8)


def test_a_plug_is_of_the_kind_that_its_power_lists() -> None:
    power = (("12V-2x6", 1),)
    for told in (None, ConnectorKind.CARD_16):
        card = Card(length=LENGTH, power=power, plug_kind=told, plug=PlugAt.TOP_EDGE)
        (plug,) = made(card).plugs
        assert plug.kind is ConnectorKind.CARD_16


def test_a_plug_at_the_far_end_may_sit_off_its_middle() -> None:
    end = Card(length=mm(300), height=mm(120), plug=PlugAt.FAR_END)
    told = replace(end, plug_from_fingers=mm(95))
    middles = {}
    for name, card in (("usual", end), ("told", told)):
        (wish,) = card.wishes()
        made = card.made_for(wish, seat(SeatSort.SLOT))
        plug = box(made, "plug")
        middles[name] = (plug.low[2] + plug.high[2]) / 2
        links = {each.label: each for each in piece(made, "plug").links}
        figure = links["plug over the contact fingers"].figure
        assert figure.assumed is (name == "usual")
    assert middles == {"usual": pytest.approx(60), "told": pytest.approx(95)}
    with pytest.raises(PartError, match="plug from fingers: found 130 mm"):
        replace(end, plug_from_fingers=mm(130))


@pytest.mark.parametrize(
    ("power", "row"),
    [
        (None, 1),
        ((("8-pin card power", 2),), 2),
        ((("8-pin card power", 2), ("6-pin card power", 1)), 3),
        ((("12V-2x6", 1), ("8-pin card power", 1)), 1),
    ],
)
@pytest.mark.parametrize("at", [PlugAt.TOP_EDGE, PlugAt.FAR_END])
def test_a_cards_plugs_stand_side_by_side(
    power: Listed | None, row: int, at: PlugAt
) -> None:
    """Each as wide as one, about the place of all; their cables leave as one."""
    card = Card(length=LENGTH, slots=2, plug=at, power=power, plug_width=mm(19))
    form = made(card)
    (piece,) = (each for each in form.pieces if each.name == "plug")
    (plug,) = (each for each in form.plugs if each.name == "plug")
    low, high = piece.solids[0].bounds.low, piece.solids[0].bounds.high
    wide_mm = high[plug.along.index] - low[plug.along.index]
    assert wide_mm == pytest.approx(19.0 * row)
    assert plug.size_mm[0] == pytest.approx(19.0 * row)
    assert cable_of(plug).wires == row * CABLES[plug.kind].wires
