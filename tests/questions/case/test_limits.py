"""What a case's data sheet states is asked of every part it is stated for."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.build.assemble import Entry
from layout.build.plan import Plan
from layout.parts.board.board import Board
from layout.parts.card.card import Card
from layout.parts.case.case import Case
from layout.parts.case.case_fields import LimitWith, Mount, Takes
from layout.parts.case.case_stands import ConnectorsAt
from layout.parts.cooling.fan import Fan, MountSide
from layout.parts.cooling.liquid_cooler import LiquidCooler
from layout.parts.cooling.radiator import Radiator
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.drives.cage import OUT, Cage
from layout.parts.form.errors import PartError
from layout.parts.form.reading import Told
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Supply
from layout.questions.case.limits import stated_limits
from layout.questions.case.stated import STATED_LIMIT
from layout.questions.checking.check import check
from layout.questions.findings.finding import Finding, Group, Verdict
from layout.questions.growing.headroom import headroom
from tests.build.machines import built, mm, tower, tower_case, wet

STACK_MM = 7.781
"""LGA1155, from the board's top to the heat spreader (tests/outside)."""


def stated(case: Case, parts: dict[str, Spec], part: str) -> Finding:
    answered = stated_limits(built(case, parts), every=True)
    (found,) = (each for each in answered.findings if each.id.split(":")[1] == part)
    return found


def case(**more: object) -> Case:
    return replace(tower_case(), **more)  # type: ignore[arg-type]


def cooler(height_mm: float, **more: object) -> dict[str, Spec]:
    sizes = {"height": mm(height_mm), "width": mm(125), "depth": mm(50), **more}
    return {**tower(), "cooler": TowerCooler(**sizes)}  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("height_mm", "verdict"),
    [(160, Verdict.CLEAR), (161, Verdict.SHORT)],
)
def test_a_cooler_keeps_to_the_tallest_that_is_stated(
    height_mm: float, verdict: Verdict
) -> None:
    found = stated(case(tallest_cooler=mm(160)), cooler(height_mm), "cooler")
    assert (found.verdict, found.group, found.b) == (verdict, Group.DISTANCE, None)
    assert found.gap_mm == 160
    assert found.need_mm == pytest.approx(height_mm)
    assert found.margin_mm == pytest.approx(160 - height_mm)
    assert found.source == "given in the case file"
    assert found.id == "stated-limit:cooler:cooler height"


def test_a_raised_fan_is_the_coolers_highest_point() -> None:
    parts = cooler(155, room_over_memory=mm(40), fan_raise=mm(20))
    found = stated(case(tallest_cooler=mm(160)), parts, "cooler")
    assert found.a == "cooler/fan 1"
    # Lower edge 40 + 3 - 7.781 over the contact face, 20 raised, 120 high.
    assert found.need_mm == pytest.approx(40 + 3 - STACK_MM + 20 + 120)


def test_a_limit_over_the_board_is_compared_over_the_board() -> None:
    over_board: Told = (("tallest cooler", "board surface"),)
    limit = case(tallest_cooler=mm(165), measured_from=over_board)
    found = stated(limit, cooler(158), "cooler")
    assert (found.gap_mm, found.verdict) == (165, Verdict.SHORT)
    assert found.need_mm == pytest.approx(158 + STACK_MM)
    assert "measured from board surface" in found.why


def test_an_assumed_height_may_eat_what_is_spare() -> None:
    parts = {**wet(), "cooler": LiquidCooler(radiator=Radiator(size=360, mount="top"))}
    found = stated(case(tallest_cooler=mm(60)), parts, "cooler")
    assert (found.verdict, found.tolerance_mm) == (Verdict.TIGHT, 10.0)
    assert found.assumed == ("cooler: pump block's height",)


def test_a_card_keeps_to_the_longest_by_what_stands_in_front() -> None:
    # Usual tower: 430 deep; front fans take 25 of it.
    card = {**tower(), "card": Card(length=mm(310))}
    with_fans = case(longest_card=mm(300))
    assert stated(with_fans, card, "card").margin_mm == pytest.approx(-10)
    no_fans = case(longest_card=mm(300), longest_card_with=LimitWith.NO_FANS)
    assert stated(no_fans, card, "card").margin_mm == pytest.approx(-10 - 25)
    without = {key: spec for key, spec in card.items() if key != "front fans"}
    assert stated(with_fans, without, "card").margin_mm == pytest.approx(-10 + 25)
    assert "nothing stands there: 325 here" in stated(with_fans, without, "card").why


def test_a_longest_card_told_to_the_cage_gains_nothing_by_a_bare_front() -> None:
    to_cage = case(longest_card=mm(250), longest_card_with=None)  # it begins at 255
    parts = {**tower(), "card": Card(length=mm(260), height=mm(112), slots=2)}
    bare = {key: each for key, each in parts.items() if key != "front fans"}
    for each in (parts, bare):
        found = stated(to_cage, each, "card")
        assert (found.gap_mm, found.verdict) == (250, Verdict.SHORT)
        assert "the cage at its position front before its end" in found.advice


def test_a_depth_that_leaves_more_than_the_longest_card_says_is_told() -> None:
    # Usual tower: 430 deep less 25 of fans is 105 more than 300, 2 more than 403.
    parts = {**tower(), "card": Card(length=mm(420))}
    found = stated(case(longest_card=mm(300)), parts, "card")
    assert "the inside depth of 430 leaves 105.0 mm more" in found.advice
    agreed = stated(case(longest_card=mm(403)), parts, "card")
    assert agreed.verdict is Verdict.SHORT
    assert "inside depth" not in agreed.advice


def test_a_front_radiator_takes_its_thickness_off_the_longest_card() -> None:
    parts = {
        **wet(),
        "cooler": LiquidCooler(
            radiator=Radiator(size=360, mount="front", thickness=mm(30))
        ),
        "card": Card(length=mm(280)),
    }
    found = stated(case(longest_card=mm(300)), parts, "card")
    assert found.margin_mm == pytest.approx(300 + 25 - 30 - 25 - 280)
    assert "55 mm of fans or radiator stand there: 270 here" in found.why


def test_fans_beyond_the_mounts_sheet_take_nothing() -> None:
    parts = {**tower(), "card": Card(length=mm(310))}
    outer = Fan(size=120, count=3, mount="front", side=MountSide.OUTER)
    found = stated(case(longest_card=mm(300)), {**parts, "front fans": outer}, "card")
    assert found.margin_mm == pytest.approx(-10 + 25)


def test_a_supply_keeps_to_the_longest_with_the_cage_where_it_was_told() -> None:
    told = case(longest_supply=mm(190), longest_supply_with="rear")
    parts = {**tower(), "supply": Supply(length=mm(200))}
    rear = {**parts, "cage": Cage(position="rear")}
    assert stated(told, rear, "supply").margin_mm == pytest.approx(-10)
    front = stated_limits(built(told, parts), every=True).findings
    assert not any(each.a == "supply" for each in front)
    said_nothing = case(longest_supply=mm(190))
    assert stated(said_nothing, parts, "supply").margin_mm == pytest.approx(-10)


def test_a_limit_told_without_a_cage_holds_without_one() -> None:
    told = case(longest_supply=mm(190), longest_supply_with=OUT)
    no_disk = {k: spec for k, spec in tower().items() if k != "disk"}
    out = {**no_disk, "cage": Cage(position=OUT), "supply": Supply(length=mm(180))}
    assert stated(told, out, "supply").margin_mm == pytest.approx(10)
    none = {key: spec for key, spec in out.items() if key != "cage"}
    assert stated(told, none, "supply").margin_mm == pytest.approx(10)


def test_a_limit_told_with_leads_is_compared_with_leads() -> None:
    with_leads: Told = (("longest supply", "with leads"),)
    told = case(longest_supply=mm(215), measured_from=with_leads)
    parts = {**tower(), "supply": Supply(length=mm(192), cable_depth=mm(20))}
    found = stated(told, parts, "supply")
    assert (found.gap_mm, found.need_mm, found.verdict) == (215, 212, Verdict.CLEAR)
    usual = stated(told, {**parts, "supply": Supply(length=mm(188))}, "supply")
    assert (usual.need_mm, usual.verdict) == (213, Verdict.TIGHT)  # plugs 25 +- 5
    assert usual.assumed == ("supply: plugs at the supply",)


@pytest.mark.parametrize(
    ("takes", "size", "margin_mm"),
    [((240, 360), 360, 0.0), ((240, 280), 360, -120.0), ((280,), 240, -240.0)],
)
def test_a_face_takes_the_classes_it_is_said_to(
    takes: tuple[int, ...], size: int, margin_mm: float
) -> None:
    front = Mount(takes=(Takes(size=120, count=3),), radiators=takes)
    takes_so = case(mounts=(("front", front), *tower_case().mounts[1:]))
    cooler = LiquidCooler(radiator=Radiator(size=size, mount="front"))
    build = built(takes_so, {**wet(), "cooler": cooler})
    (found,) = (
        each
        for each in stated_limits(build, every=True).findings
        if each.id == f"{STATED_LIMIT}:cooler:radiator class"
    )
    assert found.margin_mm == margin_mm
    assert found.axis is None


def test_a_height_that_another_reading_would_explain_is_told_so() -> None:
    # 165 over the contact face; from the board's surface 165 - 7.781 = 157.2.
    over = stated(case(tallest_cooler=mm(160)), cooler(165), "cooler")
    assert over.advice.endswith(
        "; if its data sheet measures from the board surface, its height is 157.2 "
        "and keeps to the limit"
    )
    far_over = stated(case(tallest_cooler=mm(150)), cooler(165), "cooler")
    assert "board surface" not in far_over.advice
    from_board: Told = (("height", "board surface"),)
    told = cooler(170, measured_from=from_board)
    assert "were its" not in stated(case(tallest_cooler=mm(160)), told, "cooler").advice


def test_only_what_is_over_its_limit_is_told_unless_all_is_asked_for() -> None:
    build = built(case(tallest_cooler=mm(160)), cooler(158))
    rules = [each.rule for each in check(build).findings]
    every = [each.rule for each in check(build, every_pair=True).findings]
    assert STATED_LIMIT not in rules
    assert every.count(STATED_LIMIT) == 3  # cooler, card, supply
    over = check(built(case(tallest_cooler=mm(150)), cooler(158))).findings
    (found,) = (each for each in over if each.rule == STATED_LIMIT)
    assert found.advice == (
        "the cooler: cooler height 158 is 8.0 mm over what the case's data sheet "
        "states (tallest cooler 150): take a lower one, or ask the case's maker, or "
        "take another case"
    )
    holes = check(built(case(), cooler(158)), groups=frozenset({Group.HOLES}))
    assert STATED_LIMIT not in {each.rule for each in holes.findings}


def test_a_position_that_no_rail_has_is_refused() -> None:
    with pytest.raises(PartError, match="longest supply with: found mid; right would"):
        case(longest_supply=mm(190), longest_supply_with="mid")


def test_a_note_on_cage_positions_is_left_out_where_no_cage_stands() -> None:
    told = case(longest_supply=mm(300))
    (note,) = told.form().notes
    assert note in built(told, tower()).notes
    caged = {"disk", "cage"}
    none = {key: spec for key, spec in tower().items() if key not in caged}
    assert note not in built(told, none).notes


def test_a_limit_told_with_a_position_is_compared_with_that_one() -> None:
    close = case(longest_supply=mm(190), longest_supply_with="rear")
    far = case(longest_supply=mm(190), longest_supply_with="front")
    assert close.form().notes == ()
    (note,) = far.form().notes
    assert note == (
        "longest supply 190 disagrees with cage position front by 65.0 mm; the "
        "position's own place is used"
    )


def hanging(**more: object) -> Case:
    """Return a case whose board is turned a quarter."""
    sizes: dict[str, object] = {
        "connectors": ConnectorsAt.TOP,
        "depth": mm(380),
        "height": mm(465),
        "width": mm(190),
        "room_over_board": mm(40),
        "mounts": (("floor", Mount(takes=(Takes(size=140, count=2),))),),
        "longest_card": mm(400),
        "longest_card_with": LimitWith.FLOOR_FANS,
    }
    return Case(**{**sizes, **more})  # type: ignore[arg-type]


BOARD = Board(socket="AM5")


@pytest.mark.parametrize(
    ("fan_mm", "length_mm", "verdict"),
    [
        (25, 398, Verdict.CLEAR),
        (25, 405, Verdict.SHORT),
        (None, 420, Verdict.CLEAR),
        (38, 390, Verdict.SHORT),
    ],
)
def test_a_card_that_hangs_keeps_to_the_longest_down_to_the_floor(
    fan_mm: float | None, length_mm: float, verdict: Verdict
) -> None:
    parts: dict[str, Spec] = {"board": BOARD, "card": Card(length=mm(length_mm))}
    if fan_mm is not None:
        fan = Fan(size=140, count=2, mount="floor", thickness=mm(fan_mm))
        parts["floor fans"] = fan
    assert stated(hanging(), parts, "card").verdict is verdict


def test_a_longest_card_that_hangs_is_held_against_the_inside_height() -> None:
    note = next(each for each in hanging().form().notes if "longest card" in each)
    assert "inside height 465 and longest card 400 told with floor fans" in note
    assert "disagree by 40.0 mm" in note
    agreed = hanging(longest_card=mm(440), longest_card_with=LimitWith.NO_FLOOR_FANS)
    (told,) = [each for each in agreed.form().notes if "longest card" in each]
    assert "told with floor fans, the limit would agree" in told


def test_front_fans_say_nothing_of_a_card_that_hangs() -> None:
    with pytest.raises(PartError, match="found front fans; right would be one of fl"):
        hanging(longest_card_with=LimitWith.FANS)
    with pytest.raises(PartError, match="found floor fans; right would be one of fr"):
        case(longest_card_with=LimitWith.FLOOR_FANS)


def test_headroom_tells_the_largest_card_and_cooler_over_a_quarter_turned_board() -> (
    None
):
    cooler_ = TowerCooler(height=mm(140), width=mm(120), depth=mm(50), fans=0)
    specs: dict[str, Spec] = {
        "board": BOARD,
        "cooler": cooler_,
        "card": Card(length=mm(250), slots=2),
    }
    entries = tuple(Entry(key=key, spec=spec) for key, spec in specs.items())
    plan = Plan(name="hanging", entries=entries, case=hanging())
    rows = {(e.part, e.dimension): e for e in headroom(plan).rows}
    # nothing stands on the floor: 25 mm of fans more than told, which the case states
    assert rows["card", "length"].largest_mm == pytest.approx(425, abs=0.01)
    wide_mm = 190 - 6.35 - 1.57 - 2.0
    stack = next(e for e in plan.build().bodies if e.part == "processor")
    high_mm = stack.body.bounds.high[2] - stack.body.bounds.low[2]
    largest = rows["cooler", "height"].largest_mm
    assert largest == pytest.approx(wide_mm - high_mm, abs=0.05)


def test_another_reading_of_a_card_would_keep_to_the_limit() -> None:
    parts: dict[str, Spec] = {**tower(), "card": Card(length=mm(420))}
    found = stated(case(longest_card=mm(405)), parts, "card")
    assert "told 'with the power connector', it would agree" in found.advice
    much: dict[str, Spec] = {**tower(), "card": Card(length=mm(445))}
    other = stated(case(longest_card=mm(405)), much, "card")
    assert "would agree" not in other.advice


def test_another_reading_of_a_longest_supply_would_take_the_supply() -> None:
    told = case(
        longest_supply=mm(190), measured_from=(("longest supply", "with leads"),)
    )
    parts: dict[str, Spec] = {**tower(), "supply": Supply(length=mm(188))}
    found = stated(told, parts, "supply")
    assert "were that limit told 'body alone'" in found.advice
