from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from random import Random

import pytest

from layout.answers.roomy import as_table
from layout.build.assemble import Entry
from layout.build.errors import SeatError
from layout.build.placed import Build, OwnNeed
from layout.build.plan import Plan
from layout.build.remade import Remaker
from layout.files.build_file import read_plan
from layout.parts.board.m2_drive import M2Drive
from layout.parts.cooling.tower_cooler import TowerCooler
from layout.parts.form.errors import PartError
from layout.parts.kinds.dimensions import dimensions
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Supply
from layout.questions.bends.bends import bends
from layout.questions.bends.cables import Cables
from layout.questions.checking.check import check
from layout.questions.findings.finding import Finding, Verdict
from layout.questions.growing.bend_room import with_radius
from layout.questions.growing.headroom import (
    Headroom,
    Room,
    headroom,
    headroom_of_cables,
    largest,
)
from layout.questions.growing.holding import Holding
from layout.questions.moving.moves import MoveError
from layout.questions.moving.positions import GROUPS
from tests.build.any_machine import LAYOUTS, machine
from tests.build.machines import mm, tower, wet
from tests.questions.moving.test_positions import plan_of

CASES = Path(__file__).parents[3] / "cases"
EXAMPLES = sorted(CASES.glob("*-build.yaml"))
BAD = {Verdict.SHORT, Verdict.CLASH}


def failing(of: Remaker, row: Room, figure_mm: float) -> list[Finding] | None:
    """Return what fails of the row's part with a figure; None: no such part."""
    if row.dimension.startswith(BEND):
        return failing_bends(of.build, row, figure_mm)
    spec = of.plan.spec(row.part)
    assert spec is not None
    (dimension,) = [e for e in dimensions(spec) if e.name == row.dimension]
    try:
        build = of.changed(row.part, dimension.with_mm(figure_mm))
    except (PartError, SeatError):
        return None
    parts = build.carried_by(row.part)
    found = check(build, of=parts, groups=GROUPS).findings
    return [each for each in found if each.verdict in BAD]


BEND = "bend radius of "


def failing_bends(build: Build, row: Room, radius_mm: float) -> list[Finding]:
    """Return what cables of one kind lack that may be bent no more tightly."""
    kind = row.dimension.removeprefix(BEND)
    own = [
        each
        for each in build.plugs
        if each.part == row.part and each.plug.kind.value == kind
    ]
    found = bends(replace(build, plugs=with_radius(own, radius_mm)))
    return [each for each in found if each.verdict in BAD]


def assert_row_exact(of: Remaker, row: Room) -> None:
    """Assert that a figure clears, and that none is left above it.

    What limits a cable is what fails just past its figure.
    """
    if row.largest_mm is None and row.limited_by is None:
        for figure_mm in (row.now_mm, (row.now_mm + row.end_mm) / 2, row.end_mm):
            assert not failing(of, row, figure_mm), row
    elif row.largest_mm is None:
        for part in (1.0, 0.7, 0.3, 0.05):
            assert failing(of, row, part * row.now_mm) != [], row
    else:
        assert failing(of, row, row.largest_mm) == [], row
        past = failing(of, row, row.largest_mm + 0.01)
        assert past, row
        if row.dimension.startswith(BEND):
            assert row.limited_by in [(each.a, each.b) for each in past]
        if row.largest_mm < row.now_mm:
            assert failing(of, row, row.now_mm) != [], row


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: str(path.stem))
def test_the_figure_of_an_example_clears_and_none_is_left_above(path: Path) -> None:
    plan, _ = read_plan(path)
    whole = Remaker.of(plan)
    rows = [*_rows_here(whole), *headroom_of_cables(whole.build)]
    assert rows
    for row in rows:
        assert_row_exact(whole, row)


def _rows_here(remaker: Remaker) -> Iterator[Room]:
    """Yield every figure of every part, where it is."""
    cables, held = Cables(), Holding(remaker.build)
    for entry in remaker.plan.entries:
        for each in dimensions(entry.spec):
            yield largest(remaker, entry.key, each.name, cables=cables, holding=held)


def test_a_piece_that_appears_at_another_size_has_its_own_limit() -> None:
    whole = Remaker.of(plan_of(tower()))
    bodies = tuple(e for e in whole.build.bodies if e.name != "cooler/fan 1")
    without = replace(whole, build=replace(whole.build, bodies=bodies))
    for name in ("height", "fan raise"):
        row, known = (largest(each, "cooler", name) for each in (without, whole))
        assert (row.largest_mm, row.rule) == (known.largest_mm, known.rule)


def test_a_piece_that_is_there_at_some_sizes_alone_limits_nothing_at_others() -> None:
    remaker = Remaker.of(plan_of(tower()))
    held = Holding(remaker.build)
    known = held.limits("cooler")
    known[:0] = [replace(each, mine="cooler/gone") for each in known]
    row = largest(remaker, "cooler", "height", holding=held)
    assert row == largest(remaker, "cooler", "height")


def test_a_drive_on_the_board_may_grow_up_to_what_lies_over_it() -> None:
    told = headroom(plan_of({**tower(), "stick": M2Drive()}), part="stick")
    (row,) = told.rows
    assert row.dimension == "height"
    assert row.limited_by is not None
    assert "stick" in row.limited_by


def test_no_note_is_made_where_bodies_and_data_sheet_say_the_same() -> None:
    supply = Supply(length=mm(150))
    plan = plan_of({**tower(), "supply": supply})
    assert plan.case is not None
    for stated_mm, notes in ((215.0, 0), (214.0, 1)):
        case = replace(plan.case, longest_supply=mm(stated_mm))
        told = headroom(replace(plan, case=case), part="supply")
        assert len(told.notes) == notes


def test_no_figure_is_told_that_a_file_may_not_give() -> None:
    plan, _ = read_plan(CASES / "audiobook-build.yaml")
    told = headroom(plan, part="memory")
    (row,) = told.rows
    assert (row.largest_mm, row.limited_by) == (None, None)
    assert row.end_mm == 80.0
    said = " ".join(as_table(told, width=160).split())
    assert "any nothing, up to 80 mm (the most a file may give)" in said


EACH = -(-100 // len(LAYOUTS))
"""Machines of each layout: 100 at least, of each of them one figure."""


@pytest.mark.parametrize("layout", LAYOUTS)
def test_the_same_holds_of_one_figure_of_random_machines(layout: str) -> None:
    for seed in range(EACH):
        made = machine(layout, seed)
        entries = tuple(Entry(key=key, spec=spec) for key, spec in made.parts.items())
        plan = Plan(name="machine", entries=entries, case=made.case)
        chosen = Random(f"{layout} {seed}")  # noqa: S311  figures, not secrets
        whole = Remaker.of(plan)
        assert_row_exact(whole, _drawn(whole, chosen))


def _drawn(remaker: Remaker, chosen: Random) -> Room:
    """Return one figure of a machine, drawn at random."""
    entries = remaker.plan.entries
    sizes = [(e.key, d.name) for e in entries for d in dimensions(e.spec)]
    plugged = sorted({each.part for each in remaker.build.plugs})
    if chosen.random() < BENT:
        part = chosen.choice(plugged)
        rooms = headroom_of_cables(remaker.build, part=part)
        if rooms:
            return chosen.choice(rooms)
    key, name = chosen.choice(sizes)
    return largest(remaker, key, name)


BENT = 0.2
"""Share of the figures that are cables' radii."""


def _row(told: Headroom, part: str, dimension: str) -> Room:
    (row,) = [e for e in told.rows if (e.part, e.dimension) == (part, dimension)]
    return row


def _case_without_limits(**parts: Spec) -> Plan:
    plan = plan_of({**tower(), **parts})
    assert plan.case is not None
    case = replace(
        plan.case, tallest_cooler=None, longest_card=None, longest_supply=None
    )
    return replace(plan, case=case)


def test_a_cooler_may_be_as_high_as_a_builder_reckons() -> None:
    # width less standoff, board (boards.STANDOFF, boards.THICKNESS), stack of
    # LGA1155 (Intel, 7.781, seen in standards) and the 2 mm under the panel
    by_hand_mm = 186 - 6.35 - 1.57 - 7.781 - 2.0
    row = _row(headroom(_case_without_limits(), part="cooler"), "cooler", "height")
    assert row.largest_mm == pytest.approx(by_hand_mm, abs=0.0011)
    assert (row.limited_by, row.rule) == (
        ("cooler", "case/side panel"),
        "panel-over-cooler",
    )


def test_a_part_that_is_too_large_is_told_the_largest_that_clears() -> None:
    plan = _case_without_limits(supply=Supply(length=mm(250)))
    row = _row(headroom(plan, part="supply"), "supply", "length")
    assert not row.fits
    assert row.largest_mm == pytest.approx(215.0)
    assert row.rule == "leads-to-cage"


def test_where_no_size_fits_the_reason_is_named() -> None:
    plan = _case_without_limits(
        cooler=TowerCooler(height=mm(180), width=mm(125), depth=mm(50))
    )
    row = _row(headroom(plan, part="cooler"), "cooler", "fan raise")
    assert (row.largest_mm, row.fits) == (None, False)
    assert row.limited_by == ("cooler", "case/side panel")


def test_a_stated_limit_is_used_where_it_is_less_and_the_difference_told() -> None:
    plan = plan_of(tower())
    told = headroom(plan, part="supply")
    row = _row(told, "supply", "length")
    assert (row.largest_mm, row.limited_by) == (190.0, ("supply", "case"))
    assert row.rule == "stated-limit"
    (note,) = told.notes
    assert note == (
        "supply, length: the bodies leave 215 mm, the case's data sheet states 190 mm, "
        "25.0 mm less; 190 mm was used"
    )


def test_bodies_are_used_where_they_leave_less_than_the_case_states() -> None:
    cooler = TowerCooler(height=mm(155), width=mm(125), depth=mm(50))
    told = headroom(plan_of({**tower(), "cooler": cooler}), part="cooler")
    assert _row(told, "cooler", "height").rule == "panel-over-cooler"
    (note,) = told.notes
    assert note == (
        "cooler, height: the bodies leave 168.29 mm, the case's data sheet states "
        "170 mm, 1.7 mm more (they agree within 3); 168.29 mm was used"
    )


def test_a_supply_is_told_for_every_position_of_the_cage() -> None:
    told = headroom(_case_without_limits(), part="supply")
    assert [row.dimension for row in told.rows][:3] == [
        "length",
        "length, cage rear",
        "length, cage taken out",
    ]


def test_a_radiator_is_told_for_every_mount_that_takes_it() -> None:
    told = headroom(plan_of(wet()), part="cooler")
    names = [row.dimension for row in told.rows]
    assert names[:3] == ["block height", "radiator thickness", "radiator length"]
    assert "radiator thickness, top" in names
    assert "radiator length, front outer" in names


@pytest.mark.parametrize("part", ["cage", "coler"])
def test_a_part_without_such_a_figure_is_refused(part: str) -> None:
    with pytest.raises(MoveError, match="one of memory, cooler, card, supply"):
        headroom(plan_of(tower()), part=part)


def test_a_case_and_a_board_make_the_cases_data_sheet() -> None:
    plan = _case_without_limits()
    bare = replace(plan, entries=tuple(e for e in plan.entries if e.key == "board"))
    told = headroom(bare)
    rows = {(e.part, e.dimension): e for e in told.rows}
    assert {
        ("cooler", "height"),
        ("memory", "height"),
        ("card", "length"),
        ("card", "length, front radiator"),
        ("supply", "length"),
        ("supply", "length, cage rear"),
        ("supply", "length, cage front"),
        ("radiator", "thickness of 420, front"),
        ("radiator", "thickness of 360, top"),
    } <= {*rows}
    new = [e for of, e in rows.items() if of[0] != "board"]
    assert all(e.now_mm == 0.0 and e.left_out for e in new)
    supply = tuple(e for e in told.rows if e.part == "supply")
    said = " ".join(as_table(replace(told, rows=supply), width=160).split())
    assert "supply length, cage front \N{EN DASH} 215 supply/leads" in said
    # by hand as in the test of a cooler's height above; the front position at 255,
    # plugs 25 and their bend 15 before it
    assert rows["cooler", "height"].largest_mm == pytest.approx(168.299, abs=0.0011)
    assert rows["supply", "length, cage front"].largest_mm == pytest.approx(215.0)
    open_front, cooled = (
        rows["card", f"length{suffix}"] for suffix in ("", ", front radiator")
    )
    # a radiator of 27 and its fans of 25 stand before the front
    assert (open_front.largest_mm or 0) - (cooled.largest_mm or 0) == pytest.approx(52)


def test_of_a_whole_build_a_card_alone_is_asked_that_it_leaves_out() -> None:
    plan = _case_without_limits()
    without = replace(plan, entries=tuple(e for e in plan.entries if e.key != "card"))
    rows = headroom(without, part="card").rows
    told = [(row.dimension, row.now_mm) for row in rows]
    assert told == [("length", 0.0), ("height", 0.0)]
    with pytest.raises(MoveError, match="one of"):
        headroom(without, part="radiator")


def test_what_no_height_mends_does_not_hide_the_height_that_would_clear() -> None:
    # by hand: the cooler stands where it stands from the rear, whatever its height
    own = OwnNeed(a="cooler", b="case/rear", need_mm=300.0, why="a duct", source="us")
    plan = replace(_case_without_limits(), own_needs=(own,))
    found = headroom(plan, part="cooler")
    row = _row(found, "cooler", "height")
    assert (row.largest_mm, row.rule, row.fits) == (None, "own-need", False)
    assert row.but_for_mm == pytest.approx(168.299, abs=0.0011)
    assert row.note == (
        "cooler, height: no height mends that the cooler and the rear are too near; "
        "but for that 168.29 mm would clear, limited by the cooler and the side panel"
    )
    told = as_table(found)
    assert "(168.29)" in told
    assert "In brackets" in told


def test_where_a_smaller_part_would_clear_nothing_stands_in_brackets() -> None:
    plan = _case_without_limits(supply=Supply(length=mm(250)))
    row = _row(headroom(plan, part="supply"), "supply", "length")
    assert row.but_for_mm is None


@cache
def _data_sheet(case: str) -> Headroom:
    plan, _ = read_plan(CASES / f"{case}-build.yaml")
    return headroom(
        replace(plan, entries=tuple(e for e in plan.entries if e.key == "board"))
    )


def test_a_flat_case_takes_a_low_card_and_a_supply_that_looks_to_the_panel() -> None:
    told = _data_sheet("playout")
    card = _row(told, "card", "length, low card")
    assert card.largest_mm == pytest.approx(355.0)  # 360 deep, 5 of play
    assert _row(told, "supply", "length, intake panel").fits


def test_the_data_sheet_tells_every_class_of_radiator_that_a_mount_takes() -> None:
    rows = [e for e in _data_sheet("audiobook").rows if e.part == "radiator"]
    front = [e for e in rows if e.dimension.endswith(", front")]
    assert [e.dimension for e in front] == [
        f"thickness of {n}, front" for n in (360, 280, 240, 140, 120)
    ]
    # the long ones reach behind the shroud, the short ones stand over it
    assert front[0].largest_mm is not None
    assert front[2].limited_by is None


def test_the_data_sheet_tells_where_the_makers_figures_are_others() -> None:
    notes = _data_sheet("audiobook").notes
    # by hand: 425 deep, 5 of play; stated are 400 with fans of 25 at the front
    assert (
        "card, length: the bodies leave 420 mm, the case's data sheet states longest "
        "card 400 with front fans; nothing stands there: 425 here, 5.0 mm more; "
        "420 mm was used"
    ) in notes
    # 190 to the cage at the rear, plugs 25 and their bend 15 before it
    assert (
        "supply, length, cage rear: the bodies leave 150 mm, the case's data sheet "
        "states 190 mm, 40.0 mm more; 150 mm was used"
    ) in notes
    # 35 mm lie between shroud and front, 25 of them the fans'
    (thin,) = (each for each in notes if each.startswith("no usual radiator (27 mm"))
    assert "has room as: 360, front; 280, front; 360, top" in thin
