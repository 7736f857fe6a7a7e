"""Leads of fans and of the case's front: which header, which way, how much to spare."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import permutations

import pytest

from layout.build.errors import SeatError
from layout.build.placed import Build
from layout.geometry.solids.solid import block
from layout.geometry.space import Vector
from layout.parts.board.board import Board, BoardShape
from layout.parts.board.board_headers import HeaderPlace
from layout.parts.card.card import Card, PlugAt
from layout.parts.card.card_headers import CardHeader, SocketLooks
from layout.parts.case.case import Case
from layout.parts.case.case_fields import Mount, Takes
from layout.parts.cooling.fan import Fan
from layout.parts.drives.cage import Cage
from layout.parts.drives.drive import Drive
from layout.parts.form.connector import ConnectorKind as Kind
from layout.parts.kinds.block import Block
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Supply
from layout.parts.wiring.front_leads import FrontAt, FrontLeads
from layout.parts.wiring.hookup import Listed
from layout.parts.wiring.splitter import Splitter
from layout.questions.checking.check import check
from layout.questions.findings.finding import Check, Finding, Group, Verdict
from layout.questions.findings.passages import passages
from layout.questions.reach.header_leads import header_leads
from layout.questions.reach.headers import matched
from layout.standards.figure import given
from tests.build.machines import built, mm, small_case, tower, tower_case, wet

REACH = frozenset({Group.REACH})
CASE = tower_case()
SLACKS_MM = dict.fromkeys(Kind, 20.0)


def asked(build: Build) -> Check:
    return check(build, groups=REACH)


def finding(found: Check, id_: str) -> Finding:
    (one,) = [each for each in found.findings if each.id == id_]
    return one


def with_board(board: Board, **others: Spec) -> Build:
    return built(CASE, {**tower(), "board": board, **others})


def test_a_build_that_says_nothing_has_leads_that_reach_and_says_what_it_took() -> None:
    found = asked(built(CASE, tower()))
    ours = [each for each in found.findings if not each.a.startswith("supply")]
    assert {
        "fan-lead-reach:cooler:board",
        "fan-lead-reach:front fans:board",
        "fan-lead-reach:rear fan:board",
        "front-audio-reach:case:board",
        "front-panel-reach:case:board",
        "usb-19-pin-reach:case:board",
    } <= {each.id for each in ours}
    assert {each.verdict for each in ours} == {Verdict.CLEAR}
    # Clear rows with this much to spare are folded in the table.
    assert all(each.margin_mm and each.margin_mm >= 50.0 for each in ours)
    fans = finding(found, "fan-lead-reach:front fans:board")
    assert "front fans: length of the 4-pin fan lead" in fans.assumed
    assert {each.link.entry for each in fans.rests_on} >= {"lead"}
    assert "board: place of the 4-pin fan header" in fans.assumed
    assert any("from the top's front end, as usual" in each for each in found.notes)


def test_small_boards_have_their_headers_elsewhere() -> None:
    board = Board(form=BoardShape.MINI_ITX, socket="AM5")
    found = asked(built(small_case(), {"board": board}))
    audio = finding(found, "front-audio-reach:case:board")
    panel = finding(found, "front-panel-reach:case:board")
    assert (audio.b, panel.b) == ("board", "board")
    assert audio.verdict is panel.verdict is Verdict.CLEAR


def test_a_lead_too_short_says_by_how_much_and_orders_an_extension() -> None:
    rear = Fan(size=120, mount="rear", lead=mm(300))
    here = Board(
        socket="LGA1155",
        header_places=(
            HeaderPlace(kind=Kind.FAN_4, from_rear=mm(235), from_top=mm(290)),
        ),
        headers=(("4-pin fan", 5),),
    )
    long = finding(asked(with_board(here, **{"rear fan": rear})), REAR)
    assert long.gap_mm is not None
    way_mm = 300.0 - long.gap_mm
    short_mm = way_mm - 10.0
    found = asked(
        with_board(here, **{"rear fan": replace(rear, lead=mm(round(short_mm, 3)))})
    )
    one = finding(found, REAR)
    assert one.verdict is Verdict.SHORT
    assert one.gap_mm == pytest.approx(-10.0, abs=0.01)
    assert one.need_mm == 20.0
    assert "30 mm too short" in one.advice
    assert ("extension lead, 4-pin fan", "rear fan") in [
        (each.what, each.owner) for each in found.to_order
    ]


REAR = "fan-lead-reach:rear fan:board"


def test_a_straight_way_is_measured_from_the_corner_next_to_the_header() -> None:
    build = with_board(
        Board(
            socket="LGA1155",
            header_places=(
                HeaderPlace(kind=Kind.FAN_4, from_rear=mm(60), from_top=mm(10)),
            ),
        )
    )
    space = passages(build)
    assert space is not None
    lead = next(each for each in header_leads(build) if each.part == "rear fan")
    (way,) = matched(build, [lead], space, slacks_mm=SLACKS_MM).ways
    first, last = way.points[0], way.points[-1]
    assert first == min(lead.starts_mm, key=lambda at: math.dist(at, way.points[1]))
    assert last == way.plug.plug.at_mm
    assert math.dist(first, last) <= way.mm + 10.0


def test_headers_that_a_file_counts_are_given_to_the_leads_that_reach_them() -> None:
    """Against every way to share the headers out."""
    board = Board(socket="LGA1155", headers=(("4-pin fan", 4),))
    fans = Fan(size=120, count=2, mount="front", lead=mm(220))
    build = with_board(board, **{"front fans": fans})
    space = passages(build)
    assert space is not None
    leads = [each for each in header_leads(build) if each.kind is Kind.FAN_4]
    found = matched(build, leads, space, slacks_mm=SLACKS_MM)
    assert len(found.ways) == len(leads) == 4
    assert len({each.plug.plug.at_mm for each in found.ways}) == 4

    plugs = [each for each in build.plugs if each.plug.kind is Kind.FAN_4]
    spare: dict[tuple[int, int], float] = {}
    for i, lead in enumerate(leads):
        for j, plug in enumerate(plugs):
            alone = replace(build, plugs=(plug,))
            (way,) = matched(alone, [lead], space, slacks_mm=SLACKS_MM).ways
            spare[i, j] = way.spare_mm
    most = max(
        sum(spare[i, j] >= 20.0 for i, j in enumerate(order))
        for order in permutations(range(4))
    )
    assert sum(each.spare_mm >= 20.0 for each in found.ways) == most


def test_a_lead_that_would_be_in_doubt_is_given_a_nearer_header() -> None:
    """Two fans and two headers: the long lead leaves the near header to the short."""
    near = HeaderPlace(kind=Kind.FAN_4, from_rear=mm(240), from_top=mm(200))
    far = HeaderPlace(kind=Kind.FAN_4, from_rear=mm(10), from_top=mm(300))
    board = Board(
        socket="LGA1155", headers=(("4-pin fan", 2),), header_places=(near, far)
    )
    first = Fan(size=120, mount="front", lead=mm(900))
    second = Fan(size=120, mount="front", place=2, lead=given(420.0, 100.0))
    build = built(CASE, {"board": board, "first": first, "second": second})
    space = passages(build)
    assert space is not None
    ways = matched(build, header_leads(build), space, slacks_mm=SLACKS_MM).ways
    by = {each.lead.part: each for each in ways if each.lead.kind is Kind.FAN_4}
    assert by["second"].spare_mm >= 120.0
    assert by["first"].plug.plug.at_mm != by["second"].plug.plug.at_mm
    assert by["first"].mm > by["second"].mm


def test_a_chain_of_fans_has_one_lead_from_whichever_fan_is_nearest() -> None:
    chained = Fan(size=120, count=3, mount="front", plugs=(("4-pin fan", 1),))
    build = with_board(Board(socket="LGA1155"), **{"front fans": chained})
    (lead,) = [each for each in header_leads(build) if each.part == "front fans"]
    assert len(lead.starts_mm) == 3 * 8
    assert finding(asked(build), "fan-lead-reach:front fans:board").a == "front fans"


def test_fans_on_a_splitter_are_counted_and_their_reach_is_a_note() -> None:
    board = Board(socket="LGA1155", headers=(("4-pin fan", 2),))
    hub = Splitter(plug=Kind.FAN_4, outlets=5)
    found = asked(with_board(board, hub=hub))
    told = [each for each in found.notes if "go to a splitter" in each]
    assert told
    fans = [each for each in found.findings if each.rule == "fan-lead-reach"]
    assert len(fans) == 1  # the other header is the splitter's


def test_a_pump_and_its_fans_leave_from_their_own_bodies() -> None:
    leads = [each for each in header_leads(built(CASE, wet())) if each.part == "cooler"]
    assert leads[0].name == "cooler/block"
    assert leads[0].length.mm == 400.0
    assert len(leads) == 2
    assert leads[1].length.mm == 450.0


def test_the_front_says_where_its_leads_start_and_how_long_they_are() -> None:
    told = FrontLeads(
        at=FrontAt.FRONT, from_floor=mm(200), from_tray=mm(5), audio=mm(400)
    )
    case = replace(
        CASE,
        front_leads=told,
        leads=(("audio", 1), ("front panel", 1), ("20-pin USB", 1)),
    )
    build = built(case, tower())
    at: Vector = (420.0, 200.0, 5.0)
    leads = [each for each in header_leads(build) if each.part == "case"]
    assert {each.starts_mm for each in leads} == {(at,)}
    assert [each.length.mm for each in leads if each.kind is Kind.AUDIO] == [400.0]
    found = asked(build)
    audio = finding(found, "front-audio-reach:case:board")
    assert "of 400" in audio.why
    assert finding(found, "usb-20-pin-reach:case:board").b == "board"


def test_lights_go_to_headers_of_their_own_voltage() -> None:
    lit = Fan(size=120, mount="rear", plugs=(("4-pin fan", 1), ("5 V light", 1)))
    board = Board(socket="LGA1155", headers=(("5 V light", 1),))
    found = asked(with_board(board, **{"rear fan": lit}))
    assert finding(found, "light-lead-reach:rear fan:board").gap_mm is not None
    other = replace(board, headers=(("12 V light", 1),))
    none = asked(with_board(other, **{"rear fan": lit}))
    assert not [each for each in none.findings if each.rule == "light-lead-reach"]


def test_a_need_of_the_file_is_the_slack() -> None:
    build = replace(built(CASE, tower()), needs=(("fan-lead-reach", 35.0),))
    one = finding(asked(build), REAR)
    assert (one.need_mm, one.source) == (35.0, "given in the file")


def test_a_header_under_a_part_tells_what_its_cable_lacks() -> None:
    """The card lies over its middle, and the file names no other place."""
    under = HeaderPlace(kind=Kind.FAN_4, from_rear=mm(150), from_top=mm(175))
    board = Board(socket="LGA1155", header_places=(under,))
    bent = [
        each for each in check(with_board(board)).findings if each.rule == "header-bend"
    ]
    assert [each.id for each in bent] == ["header-bend:board"]
    assert bent[0].b == "card"
    assert bent[0].verdict is Verdict.SHORT
    assert "use another header" in bent[0].advice


def test_the_only_header_left_says_when_it_leaves_the_cable_no_room() -> None:
    """A block over the one header: where there is another, that one is taken."""
    over = Block(
        at_mm=(0.0, 0.0, 0.0),
        solids=(block((130.0, 210.0), (400.0, 450.0), (22.0, 40.0)),),
    )
    parts = {**tower(), "lid": over}
    del parts["front fans"], parts["rear fan"]
    ids = []
    for headers in (5, 2):
        board = Board(socket="LGA1155", headers=(("4-pin fan", headers),))
        fans = Fan(size=120, count=2, mount="front", lead=mm(2000))
        some: dict[str, Spec] = {"board": board}
        if headers == 2:
            some["front fans"] = fans
        found = asked(built(CASE, {**parts, **some}))
        ids.append([each.b for each in found.findings if each.rule == "header-bend"])
    assert ids == [[], ["lid"]]


def lower_edge(case: Case, parts: dict[str, Spec]) -> Finding:
    (one,) = [
        each
        for each in check(built(case, parts)).findings
        if each.rule == "lower-edge-bend"
    ]
    return one


def test_a_card_in_the_lowest_slot_lies_over_the_plugs_at_the_lower_edge() -> None:
    card = Card(length=mm(285), height=mm(112), slot=7, plug=PlugAt.TOP_EDGE)
    one = lower_edge(CASE, {**tower(), "card": card})
    assert (one.b, one.verdict) == ("card", Verdict.SHORT)
    assert "use another slot for the card" in one.advice
    assert lower_edge(CASE, tower()).verdict is Verdict.CLEAR


@pytest.mark.parametrize(("from_tray_mm", "fails"), [(72.0, True), (110.0, False)])
def test_fans_on_the_floor_meet_the_plugs_at_the_lower_edge(
    from_tray_mm: float, *, fails: bool
) -> None:
    """A board that hangs low, 20 over the floor; the fans' near side at 12 or 50."""
    floor = Mount(
        takes=(Takes(size=120, count=3, start=mm(20)),), from_tray=mm(from_tray_mm)
    )
    case = replace(
        CASE,
        shroud=None,
        room_over_board=mm(135),
        mounts=(("floor", floor),),
        cage_rail=None,
        cut_outs=(),
    )
    fans = Fan(size=120, count=3, mount="floor")
    one = lower_edge(case, {"board": Board(socket="LGA1155"), "floor fans": fans})
    assert one.verdict.fails is fails
    if fails:
        assert one.b is not None
        assert one.b.startswith("floor fans")
        assert "take thinner fans on the floor" in one.advice


def test_a_hub_with_a_place_takes_leads_there_and_has_one_of_its_own() -> None:
    board = Board(socket="LGA1155", headers=(("4-pin fan", 2),))
    near = Splitter(plug=Kind.FAN_4, outlets=5, at_mm=(400.0, 300.0, 60.0))
    fans = Fan(size=120, count=3, mount="front", lead=mm(200))
    found = asked(with_board(board, hub=near, **{"front fans": fans}))
    assert finding(found, "fan-lead-reach:front fans:hub").verdict is Verdict.CLEAR
    own = finding(found, "fan-lead-reach:hub:board")
    assert own.a == "hub"
    assert not [each for each in found.notes if "go to a splitter" in each]
    behind = replace(near, at_mm=(40.0, 40.0, 60.0), lead=mm(100))
    far = asked(with_board(board, hub=behind, **{"front fans": fans}))
    assert finding(far, "fan-lead-reach:hub:board").verdict is Verdict.SHORT


def test_a_hub_is_never_plugged_into_itself() -> None:
    hub = Splitter(plug=Kind.FAN_4, outlets=3, at_mm=(200.0, 200.0, 100.0))
    build = with_board(Board(socket="LGA1155"), hub=hub)
    space = passages(build)
    assert space is not None
    ways = matched(build, header_leads(build), space, slacks_mm=SLACKS_MM).ways
    (own,) = [each for each in ways if each.lead.part == "hub"]
    assert own.plug.part == "board"


def test_a_hub_fed_by_drive_power_has_no_lead_to_a_header_but_outlets() -> None:
    hub = Splitter(
        plug=Kind.DRIVE_POWER, gives=Kind.FAN_4, outlets=6, at_mm=(380.0, 300.0, 60.0)
    )
    board = Board(socket="LGA1155", headers=(("4-pin fan", 1),))
    found = asked(with_board(board, hub=hub))
    assert finding(found, "fan-lead-reach:front fans:hub").verdict is Verdict.CLEAR
    assert not [each for each in found.findings if each.a == "hub"]
    fed = [each for each in found.findings if each.id == "drive-lead-reach:supply:hub"]
    assert [each.b for each in fed] == ["hub"]


def test_a_lead_leaves_where_its_way_is_shortest_not_where_it_seems() -> None:
    """Right behind the tray is near as the crow flies, and a long way round."""
    build = built(CASE, tower())
    space = passages(build)
    assert space is not None
    (lead,) = [each for each in header_leads(build) if each.part == "rear fan"]
    (usual,) = matched(build, [lead], space, slacks_mm=SLACKS_MM).ways
    x, y, z = usual.points[len(usual.points) - 1 - usual.turns]
    behind, before = (x, y, -10.0), (x, y, z + 60.0)
    assert z + 10.0 < 60.0
    assert space.holds(behind)
    both = replace(lead, starts_mm=(behind, before))
    (way,) = matched(build, [both], space, slacks_mm=SLACKS_MM).ways
    assert way.points[0] == before


def _with_card(places: tuple[CardHeader, ...] = (), **board: object) -> Build:
    """Return a tower with two drives and a card that has sockets of its own."""
    headers: Listed = (("drive data", 4), ("20-pin USB", 1))
    case = replace(tower_case(), leads=(("20-pin USB", 1), ("front panel", 1)))
    parts: dict[str, Spec] = {
        "board": Board(socket="AM5", **board),  # type: ignore[arg-type]  # by name
        "supply": Supply(),
        "cage": Cage(position="front", places=2),
        "disk 1": Drive(place="place 1"),
        "disk 2": Drive(place="place 2"),
        "adapter card": Card(
            length=mm(170), slot=4, headers=headers, header_places=places
        ),
    }
    return built(case, parts)


@pytest.mark.parametrize(
    ("headers", "ends"),
    [
        ((("front panel", 1), ("drive data", 1), ("19-pin USB", 1)), 1),
        ((("front panel", 1), ("drive data", 2), ("19-pin USB", 1)), 2),
        ((("front panel", 1), ("drive data", 0), ("19-pin USB", 1)), 0),
    ],
)
def test_leads_go_to_a_cards_sockets_where_the_boards_are_taken(
    headers: Listed, ends: int
) -> None:
    build = _with_card(headers=headers)
    found = asked(build).findings
    data = sorted((f.a, f.b) for f in found if f.rule == "data-lead-reach")
    board, card = "board/drive data", "adapter card"
    to = [board] * ends + [card] * (2 - ends)
    assert data == [("disk 1", to[0]), ("disk 2", to[1])]
    (usb,) = (f for f in found if f.rule == "usb-20-pin-reach")
    assert (usb.b, usb.lead) == (card, "20-pin USB lead")
    assert usb.gap_mm is not None


def test_a_cards_sockets_are_where_the_file_tells() -> None:
    """At the top edge near the bracket, or at the far end, as the lead's way shows."""
    lengths_mm = {}
    for looks, at in ((SocketLooks.PANEL, 40.0), (SocketLooks.FRONT, 90.0)):
        place = CardHeader(kind=Kind.DRIVE_DATA, looks=looks, at=mm(at))
        build = _with_card(
            headers=(("front panel", 1), ("drive data", 0)), places=(place,)
        )
        (plug,) = (
            e.plug
            for e in build.plugs
            if e.part == "adapter card" and e.plug.kind is Kind.DRIVE_DATA
        )
        assert plug.out.name == looks.name
        first = finding(asked(build), "data-lead-reach:disk 1:adapter card")
        assert "sockets on the card" not in " ".join(first.assumed)
        lengths_mm[looks] = first.gap_mm
    far_mm, near_mm = lengths_mm[SocketLooks.PANEL], lengths_mm[SocketLooks.FRONT]
    assert far_mm is not None
    assert near_mm is not None
    assert far_mm < near_mm - 100.0


@pytest.mark.parametrize(
    ("place", "right"),
    [
        (CardHeader(kind=Kind.AUDIO, at=mm(40)), "a kind that 'headers' counts"),
        (CardHeader(kind=Kind.DRIVE_DATA, at=mm(400)), "the card's height of"),
        (
            CardHeader(kind=Kind.DRIVE_DATA, looks=SocketLooks.PANEL, at=mm(200)),
            "the card's length of 170 mm",
        ),
    ],
)
def test_a_socket_beside_its_card_is_refused(place: CardHeader, right: str) -> None:
    with pytest.raises(SeatError, match=right):
        _with_card(places=(place,))


@pytest.mark.parametrize(("sockets", "reached"), [(0, 0), (1, 1), (2, 2)])
def test_a_drive_without_a_socket_is_led_to_none(sockets: int, reached: int) -> None:
    """What has no socket is the ledger's to tell, not that its lead would reach."""
    case = replace(CASE, leads=())
    parts: dict[str, Spec] = {
        "board": Board(socket="AM5", headers=(("drive data", sockets),)),
        "cage": Cage(position="front", places=2),
        "disk 1": Drive(place="place 1"),
        "disk 2": Drive(place="place 2"),
    }
    found = check(built(case, parts)).findings
    rules = [each.rule for each in found if each.verdict is not Verdict.MISSING]
    missing = [e for e in found if e.rule == "drive-data" and e.verdict.fails]
    assert rules.count("data-lead-reach") == reached
    assert len(missing) == 2 - reached
    assert ("board-data-bend" in rules) is bool(sockets)
