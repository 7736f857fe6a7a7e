from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from layout.build.assemble import Entry
from layout.build.plan import Plan
from layout.build.remade import Remaker
from layout.files.build_file import read_plan
from layout.parts.board.board import Board
from layout.parts.card.card import Card, PlugAt
from layout.parts.card.card_sheet import BracketShape
from layout.parts.case.case import Case
from layout.parts.case.case_bays import Bays
from layout.parts.case.case_fields import Shroud, SupplyBay
from layout.parts.case.case_supply import BayPlace
from layout.parts.cooling.fan import Fan
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.radiator import PortEnd, Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.drives.cage import Cage
from layout.parts.drives.drive import Drive, DriveShape
from layout.parts.form.connector import ConnectorKind
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Supply
from layout.parts.wiring.adapter import Adapter, AdapterLooks, BoardAdapter
from layout.questions.checking.check import check
from layout.questions.clearances.plug_rules import PLUG_RULES
from layout.questions.clearances.rules import RULES
from layout.questions.findings.finding import Check, Finding, Verdict
from layout.questions.findings.remedy import Remedy
from layout.questions.mending.changes import Change, angled
from layout.questions.mending.least import least_raise
from layout.questions.mending.mending import mended, mends
from tests.build.any_machine import LAYOUTS, machine
from tests.build.machines import mm, tower, wet
from tests.questions.moving.test_positions import long_supply, plan_of


def _plan(parts: dict[str, Spec]) -> Plan:
    plan = plan_of(parts)
    assert plan.case is not None
    case = replace(
        plan.case, tallest_cooler=None, longest_card=None, longest_supply=None
    )
    return replace(plan, case=case)


def _mended(plan: Plan) -> Check:
    made = Remaker.of(plan)
    return mended(made, check(made.build))


def _failing(found: Check) -> list[Finding]:
    return [each for each in found.findings if each.verdict.fails]


def _said(parts: dict[str, Spec], rule: str) -> str:
    found = _mended(_plan(parts))
    return next(each.advice for each in found.findings if each.rule == rule)


def test_another_position_comes_first() -> None:
    said = _said(long_supply(), "leads-to-cage")
    assert said.endswith(": move the cage to its position 'front'")


def test_a_place_that_clears_comes_before_one_that_is_tight() -> None:
    """The plugs end at 205, and 5 of them are assumed: 20 left is tight, 45 is not."""
    plan = _plan(long_supply())
    assert plan.case is not None
    rail = plan.case.cage_rail
    assert rail is not None
    places = dict(rail.positions)
    near, far = (replace(places["front"], from_rear=mm(at)) for at in (225, 250))
    positions = tuple({"rear": places["rear"], "middle": near, "front": far}.items())
    case = replace(plan.case, cage_rail=replace(rail, positions=positions))
    found = _mended(replace(plan, case=case)).findings
    said = [re.findall(r"its position '(\w+)'", each.advice) for each in found]
    assert {name for names in said for name in names} == {"front"}


def test_what_is_advised_mends_the_finding_and_makes_none_worse() -> None:
    plan = _plan(long_supply())
    before = {each.id for each in _failing(check(plan.build()))}
    after = {
        each.id
        for each in _failing(
            check(plan.changed("cage", Cage(position="front")).build())
        )
    }
    assert before
    assert not after


def test_where_no_position_helps_the_size_to_look_for_is_told() -> None:
    said = _said({**tower(), "supply": Supply(length=mm(230))}, "leads-to-cage")
    # by hand: the front position at 255, plugs 25 and their bend 15 before it
    assert ": take a supply of 215 mm or shorter" in said


def test_the_size_told_clears_and_a_millimetre_more_does_not() -> None:
    cooler = TowerCooler(height=mm(175), width=mm(125), depth=mm(50))
    plan = _plan({**tower(), "cooler": cooler})
    (finding,) = [e for e in _mended(plan).findings if e.rule == "panel-over-cooler"]
    match = re.search(r"take a cooler of (\d+) mm or lower(?:;|$)", finding.advice)
    assert match is not None
    told_mm = int(match[1])
    for height_mm, fails in ((told_mm, False), (told_mm + 1, True)):
        other = replace(cooler, height=mm(height_mm))
        found = check(plan.changed("cooler", other).build(), of=("cooler",))
        assert bool(_failing(found)) is fails


def test_a_fan_over_the_memory_is_raised() -> None:
    cooler = TowerCooler(
        height=mm(140), width=mm(100), depth=mm(100), room_over_memory=mm(30)
    )
    parts = {**tower(), "cooler": cooler}
    said = _said(parts, "cooler-over-memory")
    match = re.search(r": have the cooler's front fan raised by ([\d.]+) mm$", said)
    assert match is not None
    told_mm = float(match[1])
    # 0.1 mm less leaves no more than the tolerance
    for raise_mm, left in ((told_mm, set()), (told_mm - 0.1, {Verdict.TIGHT})):
        raised = replace(cooler, fan_raise=mm(raise_mm))
        found = check(_plan({**parts, "cooler": raised}).build())
        over = [e for e in found.findings if e.rule == "cooler-over-memory"]
        assert {e.verdict for e in over} - {Verdict.CLEAR} == left


def test_an_angled_plug_is_tried_before_another_card() -> None:
    card = Card(length=mm(260), height=mm(145), slots=2, plug=PlugAt.TOP_EDGE)
    said = _said({**tower(), "card": card}, "card-plug-bend")
    assert "take an angled plug or adapter for the card" in said


def test_an_angled_plug_for_the_boards_own_kind_is_tried() -> None:
    case = Case(name="flat", depth=mm(430), height=mm(460), width=mm(46))
    board = Entry(key="board", spec=Board(socket="AM5", rear_connector_height=mm(30)))
    found = _mended(Plan(name="flat", entries=(board,), case=case))
    said = next(e.advice for e in found.findings if e.rule == "internal-usb-bend")
    told = "take a right-angle plug or adapter for the 19-pin USB of the board "
    assert f"{told}('angled plugs: [19-pin USB]')" in said


def test_an_adapter_that_looks_the_other_way_is_tried() -> None:
    kind, up = ConnectorKind.PROCESSOR, AdapterLooks.UP
    board = Board(socket="AM5", adapters=(BoardAdapter(kind=kind, looks=up),))
    said = _said({**tower(), "board": board}, "processor-power-bend")
    assert "adapter that looks down for the 8-pin processor power plug of the" in said
    card = Card(length=mm(260), plug=PlugAt.TOP_EDGE, adapter=Adapter(looks=up))
    (change,) = angled((("card", card),))
    told = "take an adapter that looks down for the plug of the card"
    assert change.told == told


def test_a_radiator_is_turned_end_for_end_before_other_fans_are_bought() -> None:
    radiator = Radiator(size=360, mount="top", thickness=mm(27))
    cooler = LiquidCooler(radiator=radiator)
    fans = Fan(size=120, count=3, mount="front")
    parts = {**wet(), "cooler": cooler, "front fans": fans}
    said = _said(parts, "hoses-to-walls")
    assert said.endswith(": turn the cooler's radiator end for end (ports: first)")
    turned = LiquidCooler(radiator=replace(radiator, ports=PortEnd.FIRST))
    after = check(_plan({**parts, "cooler": turned}).build())
    assert all(each.rule != "hoses-to-walls" for each in _failing(after))


def test_a_vent_turned_away_mends_nothing_while_the_bodies_meet() -> None:
    deep = TowerCooler(height=mm(150), width=mm(125), depth=mm(50))
    plan = _plan({**tower(), "cooler": deep})
    assert plan.case is not None
    plan = replace(
        plan,
        case=replace(
            plan.case,
            supply_bay=SupplyBay(place=BayPlace.TOP_REAR),
            room_over_board=mm(20),
        ),
    )
    found = _mended(plan)
    clashing = {each.parts for each in found.findings if each.verdict is Verdict.CLASH}
    assert frozenset({"supply", "cooler"}) in clashing
    assert not any("turn the supply over" in each.advice for each in found.findings)


def test_a_board_is_not_told_to_move_from_its_shroud() -> None:
    plan = _plan(tower())
    assert plan.case is not None
    case = replace(plan.case, shroud=Shroud(height=mm(190), to_depth=mm(370)))
    found = _mended(replace(plan, case=case))
    said = [
        each.advice
        for each in found.findings
        if each.rule == "no-interference" and each.parts == {"board", "case"}
    ]
    assert said
    assert all(
        "take a smaller board, or take a case with more" in each for each in said
    )


def test_a_build_that_goes_together_is_left_as_it_is() -> None:
    plan = _plan(tower())
    found = check(plan.build())
    if not found.verdict.fails:
        assert mended(Remaker.of(plan), found) is found


@pytest.mark.parametrize("rule", ["panel-over-cooler"])
def test_of_what_nothing_mends_only_what_cannot_be_tried_is_told(rule: str) -> None:
    # the panel is as near to the processor as no cooler is low
    plan = _plan(tower())
    plan = replace(plan, needs=((rule, 900.0),))
    (finding,) = [e for e in _mended(plan).findings if e.rule == rule]
    assert finding.advice.endswith(": take a wider case")


def test_every_finding_that_fails_is_told_what_mends_it_not_the_worst_alone() -> None:
    supply = Supply(length=mm(200))
    cooler = TowerCooler(height=mm(175), width=mm(125), depth=mm(50))
    card = Card(length=mm(420), height=mm(145), slots=2, plug=PlugAt.TOP_EDGE)
    plan = _plan({**long_supply(), "supply": supply, "cooler": cooler, "card": card})
    bad = [e for e in _failing(_mended(plan)) if e.verdict is not Verdict.MISSING]
    assert len(bad) > 6
    tried = re.compile(
        r"(take a \w+ of \d+ mm|angled plug|to its position|front outer)"
    )
    assert [each.id for each in bad if not tried.search(each.advice)] == []


def test_a_part_over_a_stated_limit_is_told_the_size_that_keeps_to_it() -> None:
    plan = plan_of({**tower(), "cooler": replace(FLAT, height=mm(171))})
    (finding,) = [e for e in _mended(plan).findings if e.rule == "stated-limit"]
    assert "take a cooler of 168 mm or lower" in finding.advice


FLAT = TowerCooler(height=mm(155), width=mm(125), depth=mm(50))


def test_only_what_changed_is_made_anew() -> None:
    plan = _plan(tower())
    remaker = Remaker.of(plan)
    other = remaker.changed("supply", Supply(length=mm(141)))
    was = {each.name: each.body for each in remaker.build.bodies}
    anew = {e.part for e in other.bodies if e.body.shape is not was[e.name].shape}
    assert anew == {"supply"}
    assert other == plan.changed("supply", Supply(length=mm(141))).build()


def test_a_drive_that_stands_in_others_must_first_go_elsewhere() -> None:
    bays = Bays(count=1, from_floor=mm(300), from_tray=mm(15))
    plan = _plan({**tower(), "optical": Drive(size=DriveShape.BAY, place="bay 1")})
    assert plan.case is not None
    found = _mended(replace(plan, case=replace(plan.case, bays=bays)))
    failing = [e for e in _failing(found) if "optical" in e.parts]
    assert {e.verdict for e in failing} == {Verdict.CLASH, Verdict.SHORT}
    for each in failing:
        assert "cage" not in each.advice  # it lies in the case's own bay
        if each.rule == "drive-plug-bend":
            assert "find the optical drive another place first: it meets" in each.advice


CASES = Path(__file__).parents[3] / "cases"


def _machines() -> Iterator[Plan]:
    for seed in range(2):
        for layout in LAYOUTS:
            made = machine(layout, seed)
            entries = tuple(Entry(key=key, spec=e) for key, e in made.parts.items())
            yield Plan(name=f"{layout} {seed}", entries=entries, case=made.case)


def _applied(plan: Plan, change: Change) -> Check:
    for key, spec in change.parts:
        plan = plan.without((key,)) if spec is None else plan.changed(key, spec)
    return check(plan.build())


def _assert_advice_holds(plan: Plan) -> int:
    """Assert that each change told mends its finding and nothing else is worse."""
    made = Remaker.of(plan)
    found = check(made.build)
    before = {each.id: each for each in found.findings}
    told = {id_: c for id_, c in mends(made, found).items() if c and c.parts}
    for id_, change in told.items():
        for each in _failing(_applied(plan, change)):
            was = before.get(each.id)
            assert each.id != id_, (change.told, each.id)
            assert was is not None, (change.told, each.id)
            assert was.verdict.fails, (change.told, each.id)
            assert (each.margin_mm is None) is (was.margin_mm is None)
            if each.margin_mm is not None and was.margin_mm is not None:
                assert each.margin_mm >= was.margin_mm - 1e-6, (change.told, each.id)
    return len(told)


@pytest.mark.parametrize(
    "path", sorted(CASES.glob("*-build.yaml")), ids=lambda e: e.stem
)
def test_what_is_told_for_an_example_mends_it_and_nothing_is_worse(path: Path) -> None:
    plan, _ = read_plan(path)
    _assert_advice_holds(plan)


def test_the_same_holds_of_random_machines() -> None:
    assert sum(map(_assert_advice_holds, _machines())) > 2


def _two_radiators() -> dict[str, Spec]:
    top = Radiator(size=360, mount="top", thickness=mm(27))
    front = Radiator(size=360, mount="front", thickness=mm(27))
    cooler = LiquidCooler(radiator=front)
    return {**wet(), "cooler": cooler, "second": top}


def test_of_two_radiators_the_one_to_turn_is_named_and_was_tried() -> None:
    plan = _plan(_two_radiators())
    bad = _failing(_mended(plan))
    said = [each.advice for each in bad if "end for end" in each.advice]
    assert said
    for each in said:
        assert re.search(r"turn the (cooler's radiator|second) end for end", each), each


TRIED = re.compile(
    r"end for end|(?:another|other) (?:mount|slot)|raise the fan|(?:lower|higher) slot|"
    r"lower (?:card|cooler|memory)|thinner (?:front )?fans|thinner card|"
    r"shorter (?:card|supply)|move the cage|take it out|"
    r"into (?:a|another) slot|intake to"
)
"""Changes that the program tries itself, as remedies name them."""


@pytest.mark.parametrize(
    "remedy",
    [each for rule in (*RULES, *PLUG_RULES) for each in rule.remedies],
    ids=lambda remedy: remedy.told,
)
def test_what_is_left_of_a_remedy_names_no_change_that_was_tried(
    remedy: Remedy,
) -> None:
    assert TRIED.search(remedy.left) is None
    if remedy.tried and remedy.others:  # nothing leans on what was left out
        assert re.search(r"\b(?:it|one(?! of)|them|none)\b", remedy.left) is None


_CUBE = """name: Cube
depth: 250
height: 240
width: 110
behind tray: 18
room over board: 55
slots: 2
supply bay:
  {place: front, form: SFX, inlet: down, from rear: 185, from floor: 100, from tray: 10}
"""
_HOST = """name: Host
case: case.yaml
parts:
  board: {kind: board, form: Mini-ITX, socket: LGA1700}
  supply: {kind: supply, form: SFX, intake: panel}
"""


def test_leads_of_a_supply_in_a_wall_wait_for_the_supply_itself(tmp_path: Path) -> None:
    (tmp_path / "case.yaml").write_text(_CUBE)
    (tmp_path / "host.yaml").write_text(_HOST)
    plan, _ = read_plan(tmp_path / "host.yaml")
    found = _mended(plan)
    (leads,) = [e for e in _failing(found) if e.rule == "supply-lead-bend"]
    assert "find the supply another place first: it meets the front" in leads.advice
    assert "leads fixed" not in leads.advice


_DEEP = """
depth: 420
height: 410
width: 178
mounts:
  front: {takes: [{size: 120, count: 1, start: 20}]}
bays: {count: 3, from floor: 270, from tray: 15}
cage rail: {from tray: 12, base: 10, positions: {low: {from rear: 295}}}
"""
_TWO_DISKS = """
case: case.yaml
parts:
  cage: {kind: cage, position: low, places: 4}
  disk 1: {kind: drive, size: "3.5", place: place 1}
  disk 2: {kind: drive, size: "3.5", place: place 4}
  front fan: {kind: fan, size: 120, mount: front}
"""


def test_two_parts_are_not_sent_to_one_place(tmp_path: Path) -> None:
    (tmp_path / "case.yaml").write_text(_DEEP)
    (tmp_path / "disks.yaml").write_text(_TWO_DISKS)
    plan, _ = read_plan(tmp_path / "disks.yaml")
    found = [e for e in _failing(_mended(plan)) if "front fan" in e.parts]
    told = [e.advice for e in found if e.a.startswith("disk")]
    assert len(told) == 2
    assert ["bay 1" in told[0], "bay 2" in told[1]] == [True, True]
    assert all(", in a frame for a 5.25 in bay" in each for each in told)


def test_a_low_card_on_its_full_bracket_is_told_the_low_one() -> None:
    plan, _ = read_plan(CASES / "playout-build.yaml")
    card = plan.spec("card")
    assert isinstance(card, Card)
    full = plan.changed("card", replace(card, bracket=BracketShape.FULL))
    (found,) = [e for e in _failing(_mended(full)) if "card/bracket" in (e.a, e.b)]
    assert found.advice.endswith(": put the low bracket on the card")
    assert _assert_advice_holds(full) > 0


def test_of_two_changes_at_once_the_raise_is_told_to_a_tenth() -> None:
    cooler = TowerCooler(height=mm(140), width=mm(100), depth=mm(100))
    raised = replace(cooler, fan_raise=mm(15))
    two = Change(
        (("card", None), ("cooler", raised)),
        "take the card out, and have the cooler's front fan raised by 15 mm",
    )

    def does(change: Change) -> bool:
        spec = dict(change.parts)["cooler"]
        assert isinstance(spec, TowerCooler)
        assert spec.fan_raise is not None
        return spec.fan_raise.mm >= 12.26

    least = least_raise(_plan({**tower(), "cooler": cooler}), two, does)
    fan = "have the cooler's front fan raised by 12.3 mm"
    assert least.told == f"take the card out, and {fan}"
    assert does(least)
    assert least.parts[0] == ("card", None)
