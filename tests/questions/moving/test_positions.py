from __future__ import annotations

from dataclasses import replace

import pytest

from layout.build.assemble import Entry
from layout.build.plan import Plan
from layout.build.remade import Remaker
from layout.parts.board.board import Board
from layout.parts.cooling.low_cooler import LowCooler
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.drives.cage import Cage
from layout.parts.drives.drive import Drive
from layout.parts.kinds.kinds import Spec
from layout.parts.kinds.places import TAKEN_OUT, WANTED_SLOTS, places
from layout.parts.supply.supply import Intake, Supply
from layout.questions.checking.check import check
from layout.questions.findings.finding import Verdict
from layout.questions.moving.moves import MoveError
from layout.questions.moving.positions import GROUPS, Positions, Row, best_of, positions
from tests.build.machines import mm, small_case, tower, tower_case, wet


def plan_of(parts: dict[str, Spec], *, small: bool = False) -> Plan:
    entries = tuple(Entry(key=key, spec=spec) for key, spec in parts.items())
    return Plan(
        name="machine", entries=entries, case=small_case() if small else tower_case()
    )


def _names(told: Positions) -> list[object]:
    return [row.position for row in told.rows]


def long_supply() -> dict[str, Spec]:
    return {**tower(), "supply": Supply(length=mm(180)), "cage": Cage(position="rear")}


def test_a_cage_has_every_place_of_its_rail_and_can_be_taken_out() -> None:
    told = positions(plan_of(long_supply()), ["cage"])
    assert _names(told) == ["rear", "front", TAKEN_OUT]
    assert [row.verdict.fails for row in told.rows] == [True, False, False]
    assert told.rows[0].limited_by == ("supply/leads", "cage")
    assert told.rows[2].note == "with disk"
    assert (told.best, told.works) == ("front", True)


def test_a_cage_is_taken_out_only_where_nothing_else_works() -> None:
    parts = {**long_supply(), "supply": Supply(length=mm(280))}
    assert positions(plan_of(parts), ["cage"]).best == TAKEN_OUT


def _clear_row(position: str, *margins_mm: float) -> Row:
    return Row(
        position=position,
        verdict=Verdict.CLEAR,
        least_margin_mm=margins_mm[0],
        limited_by=None,
        margins_mm=margins_mm,
    )


def test_of_equal_least_margins_the_next_ones_tell_the_better_position() -> None:
    rear, front = _clear_row("rear", 6.0, 15.0), _clear_row("front", 6.0 - 1e-9, 55.0)
    assert best_of([rear, front]) == "front"
    assert best_of([rear, _clear_row("taken by nothing", 6.0)]) == "taken by nothing"
    assert best_of([_clear_row("farther", 6.1, 6.1), front]) == "farther"


def test_memory_stays_where_boards_want_it_while_it_is_clear_there() -> None:
    told = positions(plan_of(tower()), ["memory"])
    wanted, *others = told.rows
    assert wanted.position == WANTED_SLOTS
    assert not wanted.verdict.fails
    assert any(
        (each.least_margin_mm or 0) > (wanted.least_margin_mm or 0) for each in others
    )
    assert told.best == WANTED_SLOTS


def test_a_place_is_never_taken_by_what_is_moved_there() -> None:
    parts = {**tower(), "disk": Drive(place="place 1"), "other": Drive(place="place 2")}
    told = positions(plan_of(parts), ["disk"])
    (taken,) = (row for row in told.rows if row.position == "place 2")
    assert taken.note == "found place 2, taken by other"
    assert taken.limited_by == ("disk", "other")


@pytest.mark.parametrize("key", ["cage", "supply", "card", "rear fan", "cooler"])
def test_a_row_is_what_check_says_of_the_part_there(key: str) -> None:
    plan = plan_of(tower())
    told = positions(plan, [key])
    for row in told.rows:
        if row.build is None or row.position == TAKEN_OUT:
            continue
        parts = row.build.carried_by(key)
        whole = check(row.build, groups=GROUPS).findings
        own = [each for each in whole if each.parts & parts]
        margins = [each.margin_mm for each in own if each.margin_mm is not None]
        assert row.verdict is (own[0].verdict if own else Verdict.CLEAR)
        assert row.least_margin_mm == (min(margins) if margins else None)


def test_a_fan_has_every_place_of_every_mount_that_takes_it() -> None:
    told = positions(plan_of(tower()), ["rear fan"])
    expected = [
        *(f"front, place {n}" for n in (1, 2, 3)),
        *(f"front outer, place {n}" for n in (1, 2, 3)),
        *(f"top, place {n}" for n in (1, 2, 3)),
        "rear",
    ]
    assert _names(told) == expected
    taken = [row for row in told.rows if row.verdict is Verdict.MISSING]
    assert [row.limited_by for row in taken] == [("rear fan", "front fans")] * 3
    assert all((row.least_margin_mm or 0.0) < 0.0 for row in taken)


def test_a_radiator_goes_on_every_mount_that_takes_it() -> None:
    told = positions(plan_of(wet()), ["cooler"])
    assert _names(told) == [
        f"{mount}, ports {end}"
        for mount in ("front", "front outer", "top")
        for end in ("first", "last")
    ]


def test_a_supply_turns_over() -> None:
    told = positions(plan_of(tower()), ["supply"])
    assert _names(told) == ["intake down", "intake up"]
    on_edge = {**tower(), "supply": Supply(intake=Intake.PANEL)}
    assert _names(positions(plan_of(on_edge), ["supply"])) == [
        "intake panel",
        "intake tray",
    ]


def test_a_supply_turns_by_a_quarter_where_the_plate_is_made_for_it() -> None:
    plan = plan_of(tower())
    assert plan.case is not None
    bay = replace(plan.case.supply_bay, plate_for=(Intake.DOWN, Intake.PANEL))
    made = replace(plan, case=replace(plan.case, supply_bay=bay))
    told = positions(made, ["supply"])
    assert _names(told) == ["intake down", "intake up", "intake panel"]
    by = {row.position: row.verdict for row in told.rows}
    # the plate has no holes for one that is turned over, and has them for a quarter
    assert by["intake up"] is Verdict.MISSING
    assert by["intake panel"] is not Verdict.MISSING


def test_two_parts_at_once_are_every_two_places() -> None:
    told = positions(plan_of(long_supply()), ["cage", "supply"])
    assert len(told.rows) == 6
    assert told.rows[0].position == ("rear", "intake down")
    assert isinstance(told.best, tuple)
    assert told.best[0] == "front"


def test_what_fails_elsewhere_is_said_and_counts_for_no_position() -> None:
    cooler = TowerCooler(height=mm(175), width=mm(125), depth=mm(50))
    parts = {**long_supply(), "cooler": cooler}
    told = positions(plan_of(parts), ["cage"])
    assert told.works
    assert "panel-over-cooler:cooler:case/side panel" in {
        each.id for each in told.elsewhere
    }


@pytest.mark.parametrize(
    ("moved", "told"),
    [
        (["cagee"], "found no part 'cagee' in the build; cage would be right"),
        (["board"], "which has one place alone; one of memory, cooler, card, supply"),
        (["cage", "cage"], "one part or two different ones would be right"),
        (["cage", "card", "supply"], "one part or two different ones would be right"),
    ],
)
def test_a_part_that_cannot_be_moved_is_refused(moved: list[str], told: str) -> None:
    with pytest.raises(MoveError, match=told):
        positions(plan_of(tower()), moved)


def test_a_tower_turns_by_90_degrees_where_its_kit_allows() -> None:
    # LGA1155 holds coolers by a square of 75 mm, AM5 by an oblong of 54 x 90
    square = tower()
    board = square["board"]
    assert isinstance(board, Board)
    oblong = {**square, "board": replace(board, socket="AM5")}
    turned = ["turned to blow upwards", "turned to blow downwards"]
    assert _names(positions(plan_of(square), ["cooler"]))[-2:] == turned
    assert not {*turned} & {*_names(positions(plan_of(oblong), ["cooler"]))}


def test_a_turned_tower_stands_across() -> None:
    cooler = TowerCooler(height=mm(150), width=mm(130), depth=mm(60))
    told = positions(plan_of({**tower(), "cooler": cooler}), ["cooler"])
    sizes = {}
    for row in told.rows:
        if row.build is not None:
            (body,) = [e.body for e in row.build.bodies if e.name == "cooler"]
            low, high = body.bounds.low, body.bounds.high
            sizes[row.position] = (high[0] - low[0], high[1] - low[1])
    assert sizes["fan at its lowest"] == pytest.approx((60, 130))
    assert sizes["turned to blow upwards"] == pytest.approx((130, 60))


@pytest.mark.parametrize(("socket", "turns"), [("LGA1700", True), ("AM5", False)])
def test_a_low_cooler_turns_where_its_kit_allows(socket: str, turns: bool) -> None:  # noqa: FBT001 (parametrised)
    board = tower()["board"]
    assert isinstance(board, Board)
    cooler = LowCooler(height=mm(60), width=mm(95), depth=mm(110), forward=mm(10))
    parts: dict[str, Spec] = {
        "board": replace(board, socket=socket),
        "cooler": cooler,
    }
    seats = tuple(
        (each.host, each.seat) for each in Remaker.of(plan_of(parts)).tree.seats.offers
    )
    found = dict(places(cooler, seats))
    assert bool(found) is turns
    if turns:
        other = found["turned by 90 degrees"]
        assert isinstance(other, LowCooler)
        assert (other.width.mm, other.depth.mm) == (110, 95)
        assert (other.upward, other.forward) == (cooler.forward, None)
