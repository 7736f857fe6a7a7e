from __future__ import annotations

from dataclasses import replace

import pytest

from layout.build.placed import Build, PlacedBody, PlacedLead, PlacedPlug
from layout.build.wired import wired
from layout.geometry.space import Axis, Direction, Vector
from layout.parts.board.board import Board
from layout.parts.card.card import Card, PlugAt
from layout.parts.form.cable import CableForm
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import Plug, PlugShape, Role
from layout.parts.form.lead import Lead
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Supply
from layout.parts.wiring.leads import CABLES
from layout.parts.wiring.plug import cable_of, leaves
from layout.questions.bends.bends import bends, cables_taken, shut_in
from layout.questions.checking.check import check
from layout.questions.clearances.plug_rules import PLUG_RULES, PlugRule
from layout.questions.clearances.rules import RULES
from layout.questions.findings.finding import Finding, Verdict
from layout.standards.bends import BendRule
from layout.standards.figure import given
from tests.build.machines import built, tower_case
from tests.questions.builds import Span, build_of, link, placed

CARD = Plug(
    name="plug",
    kind=ConnectorKind.CARD_8,
    at_mm=(200.0, 100.0, 100.0),
    out=Direction.PANEL,
    along=Axis.DEPTH,
    size_mm=(20.0, 12.0),
)
# 5 straight, 3 x 2.007 inside radius, one layer of 2.007 along the plug's 20 mm: what
# a builder adds up by hand.
SINKS = [Role.REGULATOR_HEATSINK, Role.CHIPSET_HEATSINK]
NEED_MM = 5.0 + 3 * 2.0066 + 2.0066


def _card(plug: Plug = CARD, *, chain: Vector | None = None) -> Build:
    links = (("card", link("plug", chain)),) if chain else ()
    build = build_of(
        placed("card", Role.CARD, ((0, 250), (60, 110), (20, 80))),
        placed("card/plug", Role.CARD_PLUG, ((190, 210), (94, 106), (80, 100))),
    )
    return replace(build, plugs=(PlacedPlug(part="card", plug=plug, chain=links),))


def _with(build: Build, *bodies: PlacedBody) -> Build:
    return replace(build, bodies=(*build.bodies, *bodies))


def _panel(mm: float) -> PlacedBody:
    spans: tuple[Span, Span, Span] = ((0, 400), (0, 400), (100 + mm, 102 + mm))
    return placed("case/side panel", Role.SIDE_PANEL, spans)


def _bend(build: Build) -> Finding:
    (finding,) = bends(build)
    return finding


def test_a_plug_whose_every_way_is_barred_is_one_found_short() -> None:
    walls = [_panel(10.0), _panel(3.0), _panel(40.0)]
    for build in [_with(_card(), wall) for wall in walls]:
        short = {each.id for each in bends(build) if each.verdict.fails}
        assert shut_in(build) <= short
    assert shut_in(_with(_card(), _panel(3.0))) == {"card-plug-bend:card"}
    assert not shut_in(_with(_card(), _panel(40.0)))


def test_the_need_is_the_sum_a_builder_does_by_hand() -> None:
    finding = _bend(_with(_card(), _panel(30)))
    assert finding.id == "card-plug-bend:card"
    assert (finding.a, finding.b) == ("card/plug", "case/side panel")
    assert finding.axis is Axis.WIDTH
    assert finding.gap_mm == pytest.approx(30.0)
    assert finding.need_mm == pytest.approx(NEED_MM, abs=0.06)
    assert finding.margin_mm == pytest.approx(30.0 - NEED_MM, abs=0.06)
    assert finding.from_mm is not None
    assert finding.to_mm is not None
    assert finding.from_mm[2] == pytest.approx(100.0)
    assert finding.to_mm[2] == pytest.approx(130.0)


@pytest.mark.parametrize(
    ("mm", "verdict"), [(12.9, Verdict.SHORT), (13.1, Verdict.CLEAR)]
)
def test_room_for_the_bend_decides(mm: float, verdict: Verdict) -> None:
    finding = _bend(_with(_card(), _panel(mm)))
    assert finding.verdict is verdict
    assert finding.gap_mm == pytest.approx(mm, abs=1e-6)


def test_figures_that_may_be_off_make_it_tight() -> None:
    near = _with(_card(chain=(0.0, 0.0, 3.0)), _panel(15))
    far = _with(_card(chain=(0.0, 0.0, 3.0)), _panel(17))
    assert _bend(near).verdict is Verdict.TIGHT
    assert _bend(far).verdict is Verdict.CLEAR


def test_a_cable_that_must_run_straight_wants_more_until_its_plug_is_angled() -> None:
    straight = replace(CARD, kind=ConnectorKind.CARD_16)
    angled = replace(straight, shape=PlugShape.ANGLED)
    finding = _bend(_with(_card(straight), _panel(34)))
    assert finding.verdict is Verdict.SHORT
    assert finding.need_mm is not None
    assert finding.need_mm > 35.0
    assert "angled plug" in finding.advice
    assert "from memory" in finding.source
    assert all(
        each.verdict is Verdict.CLEAR
        for each in bends(_with(_card(angled), _panel(34)))
    )


def test_an_angled_plug_needs_the_room_beside_it() -> None:
    angled = replace(CARD, shape=PlugShape.ANGLED)
    above = placed("block a", Role.BLOCK, ((150, 250), (107, 120), (90, 200)))
    below = placed("block b", Role.BLOCK, ((150, 250), (80, 93), (90, 200)))
    assert leaves(angled) == (Direction.DOWN, Direction.UP)
    assert set(leaves(CARD)) == set(Direction) - {Direction.TRAY}
    assert bends(_with(_card(angled), above)) == ()
    assert _bend(_with(_card(angled), above, below)).verdict is Verdict.SHORT


WALLS = {
    Direction.REAR: ((170, 187), (60, 140), (101, 150)),
    Direction.FRONT: ((213, 230), (60, 140), (101, 150)),
    Direction.DOWN: ((170, 230), (80, 92), (101, 150)),
    Direction.UP: ((170, 230), (107, 120), (101, 150)),
}


@pytest.mark.parametrize("open_way", WALLS)
def test_the_one_way_that_is_open_is_taken(open_way: Direction) -> None:
    walls = [
        placed(f"wall {way.name}", Role.BLOCK, spans)
        for way, spans in WALLS.items()
        if way is not open_way
    ]
    words = {"REAR": "rear", "FRONT": "front", "DOWN": "downwards", "UP": "upwards"}
    finding = _bend(_with(_card(), _panel(40), *walls))
    assert finding.verdict is Verdict.CLEAR
    assert words[open_way.name] in finding.why


def test_where_no_way_is_open_the_one_with_least_wanting_is_told() -> None:
    walls = [placed(f"wall {w.name}", Role.BLOCK, spans) for w, spans in WALLS.items()]
    finding = _bend(_with(_card(), _panel(20), *walls))
    assert finding.verdict is Verdict.SHORT
    wire_mm = cable_of(CARD).wire_mm
    # It comes out beside its plug by its own thickness; the lower wall leaves 2.0.
    lower_mm = (6 + wire_mm) - (100 - 92)
    assert 0.0 < lower_mm < 0.1
    assert finding.b == "wall DOWN"
    assert finding.margin_mm == pytest.approx(-lower_mm, abs=0.01)
    assert "has room to bend no way; downwards it wants least" in finding.advice


# Beyond its run a cable that goes straight on needs its bend's depth twice.
ON_MM = 5.0 + 2 * (3 * 2.0066 + 2.0066)


@pytest.mark.parametrize(
    ("mm", "verdict"), [(ON_MM + 0.1, Verdict.CLEAR), (ON_MM - 0.1, Verdict.SHORT)]
)
def test_between_neighbours_a_cable_goes_straight_on(
    mm: float, verdict: Verdict
) -> None:
    close = [
        ((180, 189), (60, 140), (101, 150)),
        ((211, 220), (60, 140), (101, 150)),
        ((170, 230), (80, 93), (101, 150)),
        ((170, 230), (107, 120), (101, 150)),
    ]
    walls = [placed(f"wall {k}", Role.BLOCK, each) for k, each in enumerate(close)]
    finding = _bend(_with(_card(), _panel(mm), *walls))
    assert finding.verdict is verdict
    assert finding.b == "case/side panel"
    assert "leaving straight on, to the side panel: 5 straight, then 16" in finding.why
    assert finding.need_mm == pytest.approx(ON_MM, abs=1e-6)
    assert finding.gap_mm == pytest.approx(mm, abs=1e-6)
    if verdict is Verdict.SHORT:
        assert "straight on, to the side panel it wants least" in finding.advice


def test_a_way_that_nothing_limits_is_not_worth_a_finding() -> None:
    walls = [placed(f"wall {w.name}", Role.BLOCK, spans) for w, spans in WALLS.items()]
    assert bends(_with(_card(), *walls)) == ()


def test_the_room_is_no_matter() -> None:
    build = _with(_card(), _panel(5))
    answer = check(build, with_pairs=True)
    assert {each.verdict for each in answer.findings if each.overlap} == set()
    assert answer.pairs is not None
    assert {each.a for each in answer.pairs} <= {body.name for body in build.bodies}


def test_cables_share_room_with_other_plugs() -> None:
    other = placed(
        "board/usb", Role.BOARD_CONNECTOR, ((150, 250), (80, 120), (105, 120))
    )
    assert bends(_with(_card(), other)) == ()


def test_a_need_of_the_file_takes_the_rules_place() -> None:
    build = replace(_with(_card(), _panel(30)), needs=(("card-plug-bend", 31.0),))
    finding = _bend(build)
    assert finding.need_mm == pytest.approx(31.0, abs=0.06)
    assert finding.verdict is Verdict.SHORT


def test_a_board_was_laid_out_with_its_plugs_in_mind_but_heatsinks_are_high() -> None:
    plug = replace(CARD, name="main power", kind=ConnectorKind.MAIN)
    build = replace(
        build_of(
            placed("board", Role.BOARD, ((0, 244), (0, 305), (0, 2))),
            placed(
                "board/main power",
                Role.BOARD_CONNECTOR,
                ((190, 210), (94, 106), (2, 100)),
            ),
            _panel(20),
        ),
        plugs=(PlacedPlug(part="board", plug=plug, chain=()),),
    )
    own = [placed(f"board/{w.name}", Role.CARD_SLOT, s) for w, s in WALLS.items()]
    sinks = [
        placed(f"board/{w.name}", role, s)
        for (w, s), role in zip(WALLS.items(), 2 * SINKS, strict=True)
    ]
    others = [placed(f"module {w.name}", Role.MEMORY, s) for w, s in WALLS.items()]
    assert _bend(_with(build, *own)).verdict is Verdict.CLEAR
    assert _bend(_with(build, *others)).verdict is Verdict.SHORT
    finding = _bend(_with(build, *sinks))
    assert finding.verdict is Verdict.SHORT
    assert finding.b == "board/DOWN"


@pytest.mark.parametrize("rule", PLUG_RULES, ids=lambda rule: rule.name)
def test_every_rule_says_why_and_what_to_do(rule: PlugRule) -> None:
    assert rule.kinds
    assert rule.why
    assert all(each.told for each in rule.remedies)


@pytest.mark.parametrize(
    ("form", "rule", "short"),
    [
        (CableForm.LOOSE, None, False),
        (CableForm.COMBED, None, False),
        (CableForm.SLEEVED, None, True),
        (CableForm.LOOSE, BendRule.SHORT_TERM, True),
        (CableForm.LOOSE, BendRule.LONG_TERM, True),
    ],
)
def test_a_cable_bends_as_its_supply_has_it(
    form: CableForm, rule: BendRule | None, *, short: bool
) -> None:
    lead = Lead(
        name="card lead",
        kinds=frozenset({ConnectorKind.CARD_8}),
        length=given(600.0),
        at_mm=(0.0, 0.0, 0.0),
        out=Direction.FRONT,
        ahead_mm=0.0,
        form=form,
        rule=rule,
    )
    build = _with(_card(), _panel(20))
    plugs = wired(build.plugs, [PlacedLead(part="supply", lead=lead)])
    asked = replace(build, plugs=plugs)
    assert (_bend(asked).verdict is Verdict.SHORT) is short


def _supply(*others: PlacedPlug, form: CableForm = CableForm.LOOSE) -> Build:
    """Return a supply whose plugs end at x = 165, under nothing yet."""
    row = [ConnectorKind.MAIN, *[ConnectorKind.PROCESSOR] * 2, ConnectorKind.CARD_8]
    plugs = [
        replace(
            CARD,
            name="leads",
            kind=kind,
            at_mm=(165.0, 43.0, 20.0 + 24.0 * k),
            out=Direction.FRONT,
            along=Axis.WIDTH,
        )
        for k, kind in enumerate(row)
    ]
    leads = [
        Lead(
            name=f"{kind.value} lead",
            kinds=frozenset({kind}),
            length=given(600.0),
            at_mm=(140.0, 43.0, 80.0),
            out=Direction.FRONT,
            ahead_mm=25.0,
            form=form,
        )
        for kind in dict.fromkeys(row)
    ]
    mine = [PlacedPlug(part="supply", plug=plug, chain=()) for plug in plugs]
    placed_leads = [PlacedLead(part="supply", lead=each) for each in leads]
    build = build_of(
        placed("supply", Role.SUPPLY, ((0, 140), (0, 86), (0, 150))),
        placed("supply/leads", Role.SUPPLY_LEADS, ((140, 165), (8, 78), (8, 142))),
    )
    return replace(build, plugs=wired([*mine, *others], placed_leads))


def test_only_sockets_with_a_lead_that_is_needed_are_asked_about() -> None:
    def in_use(build: Build) -> list[ConnectorKind]:
        return [
            p.plug.kind
            for p in build.plugs
            if p.name == "supply/leads" and not p.plug.spare
        ]

    main, power = ConnectorKind.MAIN, ConnectorKind.PROCESSOR
    assert in_use(_supply()) == [main]
    board = replace(CARD, name="processor power", kind=power, sockets=2)
    fed = PlacedPlug(part="board", plug=board, chain=())
    assert in_use(_supply(fed)) == [main, power, power]
    card = PlacedPlug(part="card", plug=CARD, chain=())
    assert in_use(_supply(card)) == [main, ConnectorKind.CARD_8]


@pytest.mark.parametrize("native", [False, True])
def test_a_16_contact_lead_bends_as_such_at_a_supply_that_has_its_socket(
    *, native: bool
) -> None:
    sockets = (("12V-2x6", 1), ("8-pin card power", 2)) if native else None
    parts: dict[str, Spec] = {
        "supply": Supply(length=given(150.0), sockets=sockets),
        "card": Card(
            length=given(250.0),
            slots=2,
            plug=PlugAt.TOP_EDGE,
            plug_kind=ConnectorKind.CARD_16,
        ),
        "board": Board(socket="AM5"),
    }
    build = built(tower_case(), parts)
    used = [
        each.plug.kind
        for each in build.plugs
        if each.name == "supply/leads" and not each.plug.spare
    ]
    of_card = [e for e in used if e in {ConnectorKind.CARD_8, ConnectorKind.CARD_16}]
    eight = [ConnectorKind.CARD_8] * 2
    assert of_card == ([ConnectorKind.CARD_16] if native else eight)
    wall = placed("wall", Role.CAGE, ((200, 201), (0, 99), (0, 186)))
    (found,) = (
        each
        for each in bends(replace(build, bodies=(*build.bodies, wall)))
        if each.rule == "supply-lead-bend"
    )
    # 35 straight and the bend do not go into the 25 that lie before the wall.
    assert found.verdict is (Verdict.SHORT if native else Verdict.CLEAR)
    assert ("12V-2x6 cable" in found.why) is native


@pytest.mark.parametrize(
    ("form", "verdict"),
    [(CableForm.LOOSE, Verdict.CLEAR), (CableForm.SLEEVED, Verdict.SHORT)],
)
def test_leads_that_need_more_than_the_cages_rule_asks_are_asked_of_the_cage(
    form: CableForm, verdict: Verdict
) -> None:
    cage = placed("cage", Role.CAGE, ((185, 300), (0, 90), (0, 150)))
    found = _bend(_with(_supply(form=form), cage))
    assert (found.verdict, found.b) == (verdict, "cage")
    assert ("move the cage" in found.advice) is verdict.fails


def test_each_lead_of_a_field_is_asked_of_the_shroud() -> None:
    walls = [
        placed("case/shroud", Role.SHROUD, ((0, 400), (50, 52), (60, 150))),
        placed("a", Role.BLOCK, ((100, 400), (30, 36), (60, 150))),
        placed("b", Role.BLOCK, ((166, 400), (36, 50), (60, 80))),
        placed("c", Role.BLOCK, ((166, 400), (36, 50), (105, 140))),
        placed("d", Role.BLOCK, ((180, 400), (36, 50), (60, 150))),
    ]
    card = PlacedPlug(part="card", plug=CARD, chain=())
    alone, fed = (bends(_with(_supply(*o), *walls)) for o in ((), (card,)))
    assert not any(each.verdict.fails for each in alone)
    (found,) = (each for each in fed if each.rule == "supply-lead-bend")
    assert found.verdict is Verdict.SHORT
    assert found.why.startswith("8-pin card power cable")


def test_what_is_taken_for_granted_is_said_once() -> None:
    assert len(cables_taken(_card(), every=False).notes) == 1
    assert cables_taken(build_of(), every=False).notes == ()


def test_behind_a_tray_the_thickest_cable_and_one_that_crosses_it_have_room() -> None:
    (rule,) = (each for each in RULES if each.name == "room-behind-tray")
    main, crossing = (CABLES[k] for k in (ConnectorKind.MAIN, ConnectorKind.PROCESSOR))
    flat_mm, _ = crossing.flat_mm(20.0)
    assert rule.need_mm >= main.bundle_mm + flat_mm


@pytest.mark.parametrize(
    ("role", "where", "remedy"),
    [
        (Role.CARD, None, "take a thinner card, or angled plugs there"),
        (Role.FAN, "floor", "take thinner fans on the floor, or leave out the fan"),
        (Role.FAN, "front", "take angled plugs there, or a case with more room under"),
        (Role.SHROUD, None, "take angled plugs there, or a case with more room under"),
    ],
)
def test_the_remedy_is_one_for_what_is_in_the_way(
    role: Role, where: str | None, remedy: str
) -> None:
    (rule,) = (each for each in PLUG_RULES if each.name == "lower-edge-bend")
    limit = placed("limit", role, ((0, 1), (0, 1), (0, 1)), where=where)
    helps = rule.remedy_before(build_of(limit), limit)
    assert helps.told.startswith(remedy)
    assert helps in rule.remedies
