"""Plugs counted against sockets: by hand, and against every way to join them."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from layout.parts.form.connector import ConnectorKind as Kind
from layout.parts.wiring.hookup import HEADERS, POWER, Counts, Hookup, Outlets
from layout.questions.hookup.ledger import Ledger, ledger


def board(*offers: tuple[Kind, int], unsaid: frozenset[Kind] = frozenset()) -> Hookup:
    return Hookup(provides=HEADERS, offers=offers, unsaid=unsaid)


def supply(*offers: tuple[Kind, int]) -> Hookup:
    return Hookup(provides=POWER, offers=offers)


def wants(*demands: tuple[Kind, int]) -> Hookup:
    return Hookup(demands=demands)


def splitter(kind: Kind, outlets: int, *demands: tuple[Kind, int]) -> Hookup:
    return Hookup(demands=demands, outlets=Outlets(kind=kind, count=outlets))


def counted(**parts: Hookup) -> Ledger:
    return ledger(tuple(parts.items()))


def lacking(found: Ledger) -> list[tuple[str, Kind, int]]:
    return [(each.part, each.kind, each.count) for each in found.lacks]


def test_what_has_its_socket_lacks_nothing() -> None:
    found = counted(
        board=board((Kind.FAN_4, 3)), front=wants((Kind.FAN_4, 2)), rear=wants()
    )
    assert found == Ledger(lacks=(), loads=(), granted=(), idle=())


def test_the_last_in_the_file_finds_none() -> None:
    found = counted(
        board=board((Kind.FAN_4, 3)),
        front=wants((Kind.FAN_4, 2)),
        rear=wants((Kind.FAN_4, 2)),
    )
    assert lacking(found) == [("rear", Kind.FAN_4, 1)]
    assert (found.lacks[0].of, found.lacks[0].there) == (2, 3)


def test_fans_of_three_and_four_contacts_share_their_headers() -> None:
    offers = board((Kind.FAN_4, 1), (Kind.FAN_3, 1))
    for kind in (Kind.FAN_3, Kind.FAN_4):
        assert counted(board=offers, fans=wants((kind, 2))).lacks == ()
        assert lacking(counted(board=offers, fans=wants((kind, 3)))) == [
            ("fans", kind, 1)
        ]


def test_light_of_one_voltage_is_never_fed_by_the_other() -> None:
    for plug, socket in (
        (Kind.LIGHT_5V, Kind.LIGHT_12V),
        (Kind.LIGHT_12V, Kind.LIGHT_5V),
    ):
        found = counted(board=board((socket, 3)), fans=wants((plug, 1)))
        assert lacking(found) == [("fans", plug, 1)]
        assert found.lacks[0].left == {socket}


def test_internal_usb_of_one_sort_fits_no_other() -> None:
    sorts = (Kind.USB_9, Kind.USB_19, Kind.USB_20)
    for plug in sorts:
        others = tuple((each, 2) for each in sorts if each is not plug)
        found = counted(board=board(*others), case=wants((plug, 1)))
        assert lacking(found) == [("case", plug, 1)]


def test_a_processors_lead_feeds_no_card_and_a_cards_no_processor() -> None:
    for socket, lead in (
        (Kind.CARD_8, Kind.PROCESSOR),
        (Kind.PROCESSOR, Kind.CARD_8),
        (Kind.CARD_16, Kind.CARD_8),
    ):
        found = counted(supply=supply((lead, 4)), part=wants((socket, 1)))
        assert lacking(found) == [("part", socket, 1)]


def test_an_8_pin_lead_serves_a_6_pin_socket_once_8_pin_ones_are_served() -> None:
    found = counted(
        supply=supply((Kind.CARD_8, 2)),
        old=wants((Kind.CARD_6, 1)),
        new=wants((Kind.CARD_8, 2)),
    )
    assert lacking(found) == [("old", Kind.CARD_6, 1)]
    only_6 = counted(supply=supply((Kind.CARD_6, 2)), new=wants((Kind.CARD_8, 1)))
    assert lacking(only_6) == [("new", Kind.CARD_8, 1)]


def test_what_no_part_is_there_to_offer_is_not_asked_about() -> None:
    assert counted(disk=wants((Kind.DRIVE_POWER, 1), (Kind.DRIVE_DATA, 1))).lacks == ()
    found = counted(disk=wants((Kind.DRIVE_POWER, 1)), supply=supply((Kind.MAIN, 1)))
    assert lacking(found) == [("disk", Kind.DRIVE_POWER, 1)]


def test_what_a_part_says_nothing_of_is_granted_and_counted() -> None:
    found = counted(
        board=board(unsaid=frozenset({Kind.FAN_4, Kind.FAN_3})),
        front=wants((Kind.FAN_4, 3)),
        rear=wants((Kind.FAN_3, 1)),
    )
    assert found.lacks == ()
    assert found.granted == (("board", ((Kind.FAN_3, 1), (Kind.FAN_4, 3))),)


def test_a_splitter_takes_one_socket_and_gives_its_own() -> None:
    found = counted(
        board=board((Kind.FAN_4, 1)),
        splitter=splitter(Kind.FAN_4, 3, (Kind.FAN_4, 1)),
        fans=wants((Kind.FAN_4, 3)),
    )
    assert found.lacks == ()


def test_a_splitter_without_a_socket_gives_none() -> None:
    found = counted(
        board=board((Kind.FAN_4, 1)),
        hub=splitter(Kind.FAN_4, 6, (Kind.DRIVE_POWER, 1), (Kind.USB_9, 1)),
        supply=supply((Kind.MAIN, 1)),
        fans=wants((Kind.FAN_4, 2)),
    )
    assert lacking(found) == [
        ("hub", Kind.DRIVE_POWER, 1),
        ("hub", Kind.USB_9, 1),
        ("fans", Kind.FAN_4, 1),
    ]


def test_splitters_hang_on_one_another_in_any_order_of_the_file() -> None:
    found = counted(
        far=splitter(Kind.LIGHT_5V, 4, (Kind.LIGHT_5V, 1)),
        near=splitter(Kind.LIGHT_5V, 2, (Kind.DRIVE_POWER, 1)),
        supply=supply((Kind.DRIVE_POWER, 1)),
        fans=wants((Kind.LIGHT_5V, 5)),
    )
    assert found.lacks == ()


def test_an_adapter_takes_two_leads_for_one_socket() -> None:
    adapter = splitter(Kind.CARD_16, 1, (Kind.CARD_8, 2))
    card = wants((Kind.CARD_16, 1))
    enough = counted(supply=supply((Kind.CARD_8, 2)), adapter=adapter, card=card)
    assert enough.lacks == ()
    short = counted(supply=supply((Kind.CARD_8, 1)), adapter=adapter, card=card)
    assert lacking(short)[0] == ("adapter", Kind.CARD_8, 1)


def test_a_socket_that_may_stay_empty_is_told_not_wanted() -> None:
    needy = Hookup(demands=((Kind.PROCESSOR, 1),), spare=((Kind.PROCESSOR, 1),))
    found = counted(board=needy, supply=supply((Kind.PROCESSOR, 1)))
    assert (found.lacks, found.idle) == ((), (("board", Kind.PROCESSOR, 1),))
    found = counted(board=needy, supply=supply((Kind.PROCESSOR, 2)))
    assert (found.lacks, found.idle) == ((), ())


MAY_JOIN = {
    *((each, each) for each in Kind),
    (Kind.FAN_3, Kind.FAN_4),
    (Kind.FAN_4, Kind.FAN_3),
    (Kind.CARD_6, Kind.CARD_8),
}


def most_joined(plugs: list[Kind], sockets: list[Kind]) -> int:
    """Return how many plugs find a socket at best: by augmenting paths."""
    owner: dict[int, int] = {}

    def seat(plug: int, seen: set[int]) -> bool:
        for index, socket in enumerate(sockets):
            if index in seen or (plugs[plug], socket) not in MAY_JOIN:
                continue
            seen.add(index)
            if index not in owner or seat(owner[index], seen):
                owner[index] = plug
                return True
        return False

    return sum(seat(plug, set()) for plug in range(len(plugs)))


COUNTS: st.SearchStrategy[Counts] = st.lists(
    st.tuples(st.sampled_from(list(Kind)), st.integers(1, 3)), max_size=5
).map(tuple)


@given(offers=COUNTS, demands=st.lists(COUNTS, max_size=4))
def test_no_other_way_to_join_leaves_less_over(
    offers: Counts, demands: list[Counts]
) -> None:
    everything = Hookup(provides=frozenset(Kind), offers=offers)
    parts = {f"part {i}": wants(*each) for i, each in enumerate(demands)}
    found = ledger((("all", everything), *parts.items()))
    plugs = [kind for each in demands for kind, count in each for _ in range(count)]
    sockets = [kind for kind, count in offers for _ in range(count)]
    least = len(plugs) - most_joined(plugs, sockets)
    assert sum(each.count for each in found.lacks) == least
