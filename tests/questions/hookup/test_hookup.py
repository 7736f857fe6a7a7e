"""The hook-up in words: what lacks, what to order, what was taken for granted."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.parts.board.board import Board
from layout.parts.card.card import Card, PlugAt
from layout.parts.case.case import Case
from layout.parts.cooling.fan import Fan
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.radiator import FanPlaces, Radiator
from layout.parts.drives.drive import Drive
from layout.parts.form.connector import ConnectorKind as Kind
from layout.parts.form.errors import PartError
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Cables, Supply
from layout.parts.supply.supply_lead import SupplyLead
from layout.parts.wiring.hookup import Listed
from layout.parts.wiring.splitter import Splitter
from layout.questions.checking.check import check
from layout.questions.findings.finding import Check, Group, Verdict
from layout.table import as_table
from tests.build.machines import built, mm, tower, tower_case

HOOKUP = frozenset({Group.HOOKUP})
CASE = tower_case()


def asked(parts: dict[str, Spec], case: Case = CASE, *, every: bool = False) -> Check:
    return check(built(case, parts), groups=HOOKUP, every_pair=every)


def with_headers(headers: Listed, **others: Spec) -> dict[str, Spec]:
    return {"board": Board(socket="AM5", headers=headers), **others}


def supply(*leads: SupplyLead) -> Supply:
    usual = (SupplyLead(plug=Kind.MAIN), SupplyLead(plug=Kind.PROCESSOR))
    return Supply(length=mm(140), leads=(*usual, *leads))


def orders(found: Check) -> list[tuple[int, str, str]]:
    return [(each.count, each.what, each.owner) for each in found.to_order]


def test_a_build_that_says_nothing_of_cables_lacks_nothing() -> None:
    found = asked(tower())
    assert (found.verdict, found.findings, found.to_order) == (Verdict.CLEAR, (), ())
    assert found.notes[-3:] == (
        "board: sockets for 2 x drive data, 5 x 4-pin fan",
        "supply: leads for 24-pin, 2 x 8-pin processor power, 2 x drive power",
        "card: its power plugs find their leads",
    )


def test_all_lists_what_is_plugged_in() -> None:
    found = asked(tower(), every=True)
    assert {each.rule for each in found.findings} == {"plugged-in"}
    assert {each.a for each in found.findings} > {"disk", "front fans", "board"}
    assert all(each.verdict is Verdict.CLEAR for each in found.findings)


def test_more_than_usual_is_not_granted_without_a_word() -> None:
    many = Fan(mount="front", size=120, count=3, plugs=(("4-pin fan", 7),))
    *_, note, _, _ = asked(tower() | {"front fans": many}).notes
    assert "9 x 4-pin fan (more than usual: count them)" in note


def test_fans_without_a_header_order_a_splitter() -> None:
    fans = Fan(size=120, count=3, mount="front")
    found = asked(with_headers((("4-pin fan", 2),), fans=fans))
    (finding,) = found.findings
    assert (finding.id, finding.a, finding.b) == ("fan-4-pin:fans", "fans", None)
    assert finding.verdict is Verdict.MISSING
    told = "1 of its 3 plugs (4-pin fan) finds no socket: all 2 are taken"
    assert finding.why == told
    assert finding.gap_mm is finding.need_mm is finding.margin_mm is None
    assert orders(found) == [(1, "fan splitter, 1 plug to 2 or more", "fans")]
    assert "1000 mA" in finding.advice
    # that the fans have plugs of four contacts is what is usual
    assert finding.assumed == ("fans: plugs as usual, 3 x 4-pin fan",)


def test_many_fans_order_a_hub() -> None:
    fans = Fan(size=120, count=3, mount="front")
    found = asked(with_headers((("4-pin fan", 0),), fans=fans))
    assert orders(found) == [(1, "fan hub fed by drive power, for 3 or more", "fans")]


def test_a_family_that_lists_one_kind_has_no_other() -> None:
    lit = Fan(size=120, mount="front", plugs=(("4-pin fan", 1), ("5 V light", 1)))
    (finding,) = asked(with_headers((("12 V light", 1),), fan=lit)).findings
    assert finding.rule == "light-5-v"
    assert "destroys 5 V lights" in finding.advice
    assert finding.why.endswith("there is none")
    assert asked(with_headers((("5 V light", 1),), fan=lit)).findings == ()
    assert asked(with_headers((("19-pin USB", 1),), fan=lit)).findings == ()


def test_the_cases_leads_find_their_headers_or_an_adapter() -> None:
    case = replace(CASE, leads=(("front panel", 1), ("20-pin USB", 1)))
    found = asked(with_headers((("19-pin USB", 1),)), case)
    (finding,) = found.findings
    assert (finding.rule, finding.a) == ("usb-20-pin", "case")
    assert orders(found) == [
        (1, "adapter from 19-pin USB to 20-pin USB, slower", "case")
    ]
    assert asked(with_headers((("20-pin USB", 1),)), case).findings == ()


def test_a_case_that_says_nothing_is_granted_its_sockets() -> None:
    told = "case: its front panel's plugs find their sockets"
    assert told in asked(with_headers((("19-pin USB", 1),))).notes
    assert told not in asked({"board": Board(socket="AM5")}).notes
    (note,) = (
        e for e in asked(with_headers((("9-pin USB", 2),))).notes if "front" in e
    )
    assert note.startswith("case: a usual front's 19-pin USB finds no socket: look ")


def test_drives_need_data_and_power() -> None:
    parts = with_headers(
        (("drive data", 1),),
        supply=supply(SupplyLead(plug=Kind.DRIVE_POWER)),
        first=Drive(place="behind 1"),
    )
    assert asked(parts).findings == ()
    cage = tower()["cage"]
    found = asked(parts | {"cage": cage, "second": Drive(place="place 1")})
    assert {each.id for each in found.findings} == {
        "drive-data:second",
        "drive-power:second",
    }
    whats = {each.what for each in found.to_order}
    assert "drive power splitter, 1 plug to 2 or more" in whats


@pytest.mark.parametrize(
    ("leads", "lacks"),
    [
        ((SupplyLead(plug=Kind.CARD_8, count=2),), False),
        ((SupplyLead(plug=Kind.CARD_8, plugs=2),), False),
        ((SupplyLead(plug=Kind.CARD_8),), True),
        ((SupplyLead(plug=Kind.PROCESSOR, count=2),), True),
        ((SupplyLead(plug=Kind.CARD_16),), True),
    ],
)
def test_a_cards_sockets_need_their_leads(
    leads: tuple[SupplyLead, ...], *, lacks: bool
) -> None:
    card = Card(length=mm(240), power=(("8-pin card power", 2),))
    parts: dict[str, Spec] = {
        "board": Board(socket="AM5"),
        "card": card,
        "supply": supply(*leads),
    }
    found = asked(parts)
    assert [each.rule for each in found.findings] == ["card-power-8"] * lacks
    if any(each.plug is Kind.PROCESSOR for each in leads):
        assert "wired otherwise" in found.findings[0].advice


def test_a_card_may_have_the_sockets_that_a_board_lacks() -> None:
    parts = with_headers((("drive data", 0),), disk=Drive(place="behind 1"))
    found = asked(parts)
    assert orders(found) == [(1, "controller card for 1 or more drives", "disk")]
    card = Card(length=mm(170), headers=(("drive data", 4),))
    assert asked(parts | {"controller": card}).findings == ()


def test_a_16_pin_card_is_fed_by_its_adapter() -> None:
    card = Card(length=mm(240), power=(("12V-2x6", 1),))
    parts: dict[str, Spec] = {
        "board": Board(socket="AM5"),
        "card": card,
        "supply": supply(SupplyLead(plug=Kind.CARD_8, count=3)),
    }
    found = asked(parts)
    assert [each.rule for each in found.findings] == ["card-power-16"]
    assert "adapter from 8-pin card power" in orders(found)[0][1]
    adapter = Splitter(plug=Kind.CARD_8, plugs=3, gives=Kind.CARD_16, outlets=1)
    assert asked(parts | {"adapter": adapter}).findings == ()


EIGHT: Listed = (("8-pin card power", 3),)


@pytest.mark.parametrize(("eights", "lacks"), [(3, False), (2, True)])
def test_a_lead_that_must_be_ordered_takes_a_socket_too(
    eights: int, *, lacks: bool
) -> None:
    """One for the processor, one that is there, one for the card's two other plugs."""
    sockets = (("8-pin card power", eights),)
    parts: dict[str, Spec] = {
        "board": Board(socket="AM5"),
        "card": Card(length=mm(240), power=(("8-pin card power", 3),)),
        "supply": replace(supply(SupplyLead(plug=Kind.CARD_8)), sockets=sockets),
    }
    rules = [each.rule for each in asked(parts).findings]
    assert "card-power-8" in rules
    assert ("supply-sockets" in rules) is lacks


@pytest.mark.parametrize(
    ("sockets", "leads", "told"),
    [
        # One processor lead and two 8-pins for the card's lead: three of three.
        (EIGHT, (SupplyLead(plug=Kind.CARD_16),), None),
        # From three 8-pins it takes four with the processor's.
        (EIGHT, (SupplyLead(plug=Kind.CARD_16, takes=3),), "4 for 8-pin"),
        # Native: the card's lead takes none of the 8-pins.
        (
            (("8-pin card power", 1), ("12V-2x6", 1)),
            (SupplyLead(plug=Kind.CARD_16),),
            None,
        ),
        # The adapter's three plugs on leads of their own, and the processor's: four.
        (EIGHT, (SupplyLead(plug=Kind.CARD_8, count=3),), "4 for 8-pin"),
        # Two plugs on each lead: two leads and the processor's.
        (EIGHT, (SupplyLead(plug=Kind.CARD_8, plugs=2, count=2),), None),
        ((), (SupplyLead(plug=Kind.CARD_16),), "where it has none"),
    ],
)
def test_a_supplys_sockets_are_counted_by_kind(
    sockets: Listed, leads: tuple[SupplyLead, ...], told: str | None
) -> None:
    card = Card(length=mm(240), power=(("12V-2x6", 1),))
    of = replace(supply(*leads), sockets=sockets)
    parts: dict[str, Spec] = {"board": Board(socket="AM5"), "card": card, "supply": of}
    if leads[0].plug is Kind.CARD_8:
        parts["adapter"] = Splitter(
            plug=Kind.CARD_8, plugs=3, gives=Kind.CARD_16, outlets=1
        )
    found = asked(parts).findings
    assert [each.id for each in found] == (["supply-sockets:supply"] if told else [])
    if told:
        assert told in found[0].why


@pytest.mark.parametrize(("eights", "told"), [(3, False), (2, True)])
def test_sockets_are_counted_where_the_file_lists_no_leads(
    eights: int, *, told: bool
) -> None:
    card = Card(length=mm(240), power=(("8-pin card power", 3),))
    of = Supply(length=mm(150), sockets=(("8-pin card power", eights),))
    parts: dict[str, Spec] = {"board": Board(socket="AM5"), "card": card, "supply": of}
    # the processor's lead, and two for the card's three plugs
    found = [e for e in asked(parts).findings if e.rule == "supply-sockets"]
    assert bool(found) is told
    assert all("two plugs on a lead for cards" in each.why for each in found)


def test_leads_that_nothing_asks_for_take_no_socket() -> None:
    many = SupplyLead(plug=Kind.CARD_8, count=6)
    of = replace(supply(many), sockets=(("8-pin card power", 1),))
    assert asked({"board": Board(socket="AM5"), "supply": of}).findings == ()


def test_a_supply_with_fixed_leads_has_no_sockets() -> None:
    with pytest.raises(PartError, match="cables: modular"):
        Supply(cables=Cables.FIXED, sockets=EIGHT)


def test_a_second_processor_socket_may_stay_empty_unless_it_is_told() -> None:
    parts: dict[str, Spec] = {"board": Board(socket="AM5"), "supply": supply()}
    found = asked(parts)
    assert found.findings == ()
    assert any("may stay empty" in note for note in found.notes)
    parts["board"] = Board(socket="AM5", headers=(("8-pin processor power", 2),))
    (finding,) = asked(parts).findings
    assert finding.rule == "processor-power"


def test_a_lead_of_another_supply_is_refused_with_a_caution() -> None:
    stray = SupplyLead(plug=Kind.CARD_8, plugs=2, made_for="an older supply")
    card = Card(length=mm(240), power=(("8-pin card power", 2),))
    found = asked({"board": Board(socket="AM5"), "card": card, "supply": supply(stray)})
    by_rule = {each.rule: each for each in found.findings}
    assert set(by_rule) == {"lead-of-another-supply", "card-power-8"}
    refused = by_rule["lead-of-another-supply"]
    assert refused.verdict is Verdict.MISSING
    assert "2 x 8-pin card power of an older supply" in refused.why
    assert "wired otherwise and destroy" in refused.advice
    assert orders(found) == [
        (2, "8-pin card power lead made for this very supply", "card")
    ]


def test_a_splitter_that_bears_too_little_is_told() -> None:
    fans = Fan(size=120, count=3, mount="front", milliamperes=450)
    thin = Splitter(plug=Kind.FAN_4, outlets=3, milliamperes=1000)
    parts = with_headers((("4-pin fan", 1),), fans=fans, splitter=thin)
    found = asked(parts)
    (finding,) = found.findings
    assert finding.id == "splitter-load:splitter"
    assert finding.why == "its 3 fans draw 1350 mA, it bears 1000"
    assert orders(found) == [(1, "fan hub fed by drive power", "splitter")]


@pytest.mark.parametrize(
    ("light_ma", "bears_ma", "headers", "powered", "told"),
    [
        # Three plugs of one splitter: 3 x 400 over 1000, under 1200.
        (400, 1000, 1, False, "its 3 lights draw 1200 mA, it bears 1000"),
        (400, 1200, 1, False, None),
        # A header more takes one of them: 2 x 400.
        (400, 1000, 2, False, None),
        # A hub with a lead of its own bears what it tells, not what a header bears.
        (1500, 5000, 1, True, None),
        (1500, 4000, 1, True, "its 3 lights draw 4500 mA, it bears 4000"),
    ],
)
def test_lights_that_share_a_header_are_counted_by_current(
    light_ma: int, bears_ma: int, headers: int, *, powered: bool, told: str | None
) -> None:
    plugs: Listed = (("4-pin fan", 3), ("5 V light", 3))
    fans = Fan(
        size=120, count=3, mount="front", plugs=plugs, light_milliamperes=light_ma
    )
    hub = Splitter(
        plug=Kind.LIGHT_5V,
        outlets=3,
        milliamperes=bears_ma,
        also=(("drive power", 1),) if powered else (),
    )
    listed: Listed = (("4-pin fan", 3), ("5 V light", headers))
    found = asked(with_headers(listed, fans=fans, hub=hub)).findings
    assert [each.why for each in found] == ([told] if told else [])


def test_lights_over_what_a_header_usually_bears_are_to_be_confirmed() -> None:
    plugs: Listed = (("4-pin fan", 3), ("5 V light", 3))
    fans = Fan(size=120, count=3, mount="front", plugs=plugs, light_milliamperes=1100)
    hub = Splitter(plug=Kind.LIGHT_5V, outlets=3)
    headers: Listed = (("4-pin fan", 3), ("5 V light", 1))
    (found,) = asked(with_headers(headers, fans=fans, hub=hub)).findings
    assert (found.id, found.verdict) == ("splitter-load:hub", Verdict.CLEAR)
    assert "its 3 lights may be too many: they draw 3300 mA" in found.advice


def test_a_splitter_over_the_usual_figures_is_to_be_confirmed() -> None:
    fans = Fan(size=120, count=3, mount="front", milliamperes=450)
    parts = with_headers(
        (("4-pin fan", 1),), fans=fans, splitter=Splitter(plug=Kind.FAN_4, outlets=3)
    )
    (found,) = asked(parts).findings
    assert (found.id, found.verdict) == ("splitter-load:splitter", Verdict.CLEAR)
    assert found.advice.startswith("confirm before ordering: the splitter, its 3 fans")
    assert found.advice.endswith(
        "1350 mA at 300 each where none is told, where 1000 are usual: read the labels"
    )
    assert found.assumed


def test_liquid_coolers_and_radiators_plug_their_fans_in() -> None:
    cooler = LiquidCooler(radiator=Radiator(size=240, mount="top"))
    found = asked(with_headers((("4-pin fan", 1),), cooler=cooler))
    assert found.findings[0].why.startswith("1 of its 2 plugs (4-pin fan)")
    both = Radiator(size=240, mount="top", fans=FanPlaces.BOTH)
    found = asked(with_headers((("4-pin fan", 1),), radiator=both))
    assert found.findings[0].why.startswith("3 of its 4 plugs (4-pin fan)")


def test_the_table_ends_with_the_parts_to_order() -> None:
    fans = Fan(size=120, count=3, mount="front")
    text = as_table(asked(with_headers((("4-pin fan", 2),), fans=fans)))
    *_, last_block, closing = text.split("\n\n")
    assert last_block.splitlines() == [
        "Parts to order:",
        "  - 1 x fan splitter, 1 plug to 2 or more (for fans)",
    ]
    assert closing.startswith("machine: missing")


def test_a_card_whose_plugs_no_file_tells_is_granted_its_leads() -> None:
    card = Card(length=mm(240), plug=PlugAt.TOP_EDGE)
    parts: dict[str, Spec] = {
        "board": Board(socket="AM5"),
        "card": card,
        "supply": supply(),
    }
    found = asked(parts)
    assert found.findings == ()
    assert "card: its power plugs find their leads" in found.notes


def test_a_plug_whose_kind_is_told_needs_its_lead() -> None:
    """The file counts no power plugs, but names one's kind: one there must be."""
    card = Card(
        length=mm(285),
        height=mm(112),
        slots=2,
        plug=PlugAt.TOP_EDGE,
        plug_kind=Kind.CARD_16,
    )
    leads = supply(SupplyLead(plug=Kind.CARD_8, plugs=2))
    found = asked({"board": Board(socket="AM5"), "card": card, "supply": leads})
    (one,) = found.findings
    assert (one.rule, one.a) == ("card-power-16", "card")
    assert one.assumed == ("card: plugs as usual, 1 x 12V-2x6",)


def test_a_chain_that_draws_more_than_a_header_usually_bears_is_to_be_confirmed() -> (
    None
):
    fans = Fan(
        size=120, count=3, mount="front", milliamperes=500, plugs=(("4-pin fan", 1),)
    )
    found = asked(with_headers((("4-pin fan", 2),), fans=fans))
    (one,) = found.findings
    assert (one.id, one.verdict) == ("header-load:fans", Verdict.CLEAR)
    assert "1500 mA through one plug, where a header bears 1000 as usual" in one.advice
    lighter = replace(fans, milliamperes=300)
    found = asked(with_headers((("4-pin fan", 2),), fans=lighter))
    assert found.findings == ()


def test_a_splitter_that_states_its_limit_is_not_told_a_usual_one() -> None:
    fans = Fan(size=120, count=3, mount="front", milliamperes=400)
    rear = Fan(size=120, mount="rear")
    hub = Splitter(plug=Kind.FAN_4, outlets=3, milliamperes=1000)
    found = asked(with_headers((("4-pin fan", 2),), fans=fans, rear=rear, hub=hub))
    (told,) = [each.why for each in found.findings]
    assert told.endswith("where it bears 1000")
