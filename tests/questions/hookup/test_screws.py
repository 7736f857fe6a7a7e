"""Screws and their holes: which miss, by how much, and what is taken for granted."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.parts.board.board import Board, BoardShape
from layout.parts.board.standoffs import Standoff, Standoffs
from layout.parts.case.case import Case
from layout.parts.case.case_bays import Bays
from layout.parts.case.case_fields import Mount, Takes
from layout.parts.case.case_supply import SupplyBay
from layout.parts.cooling.fan import Fan
from layout.parts.cooling.radiator import Radiator
from layout.parts.drives.cage import Cage
from layout.parts.drives.drive import Drive, DriveShape
from layout.parts.drives.drive_screws import HeldBy
from layout.parts.form.errors import PartError
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Intake, Supply, SupplyShape
from layout.questions.checking.check import check
from layout.questions.findings.finding import Check, Finding, Group, Verdict
from layout.standards.figure import given
from tests.build.machines import built, mm, tower, tower_case

HOLES = frozenset({Group.HOLES})
CASE = tower_case()


def asked(parts: dict[str, Spec], case: Case = CASE, *, every: bool = False) -> Check:
    return check(built(case, parts), groups=HOLES, every_pair=every)


def only(found: Check, rule: str) -> Finding:
    (finding,) = (each for each in found.findings if each.rule == rule)
    return finding


def on(standoffs: Standoffs, form: BoardShape, holes: tuple[str, ...] = ()) -> Check:
    case = replace(CASE, standoffs=standoffs)
    return asked({"board": Board(form=form, socket="AM5", holes=holes)}, case)


def test_an_ordinary_machine_gets_no_finding_and_one_note() -> None:
    found = asked(tower())
    assert found.findings == ()
    assert "case: a standoff under every hole of the board" in found.notes


def test_all_lists_what_usual_patterns_meet() -> None:
    rules = [each.rule for each in asked(tower(), every=True).findings]
    assert set(rules) == {
        *("cooler-kit", "board-on-standoffs", "fans-to-mount"),
        *("supply-to-plate", "drive-to-place"),
    }


def test_a_board_on_the_standoffs_of_its_form_is_clear() -> None:
    for form in (BoardShape.ATX, BoardShape.MICRO_ATX, BoardShape.MINI_ITX):
        found = on(Standoffs(forms=(form.value,)), form)
        finding = only(found, "board-on-standoffs")
        assert (finding.verdict, finding.advice) == (Verdict.CLEAR, "")


def test_a_form_whose_holes_no_text_gives_says_so() -> None:
    found = on(Standoffs(forms=("ATX",)), BoardShape.SSI_EEB)
    finding = only(found, "board-on-standoffs")
    (taken,) = finding.assumed
    assert "its holes are those of ATX" in taken
    assert taken in found.notes
    named = on(Standoffs(forms=("ATX",)), BoardShape.SSI_EEB, holes=("C", "F", "H"))
    assert only(named, "board-on-standoffs").assumed == ()


def test_a_larger_board_lacks_its_own_standoffs() -> None:
    finding = only(
        on(Standoffs(forms=("microATX", "Mini-ITX")), BoardShape.ATX),
        "board-on-standoffs",
    )
    assert finding.verdict is Verdict.MISSING
    assert finding.why == (
        "hole A, hole G and hole K have no standoff nearer than 78 mm"
    )
    assert finding.gap_mm is None


def test_a_standoff_under_no_hole_would_touch_the_board() -> None:
    found = on(Standoffs(forms=("ATX", "microATX")), BoardShape.ATX)
    finding = only(found, "board-on-standoffs")
    assert finding.verdict is Verdict.CLEAR
    assert finding.advice.startswith("leave out the standoff at B: no hole")
    # A lies under no microATX board: its lower edge is above it
    small = on(Standoffs(forms=("ATX", "microATX")), BoardShape.MICRO_ATX)
    assert only(small, "board-on-standoffs").advice == ""


# C to H is 154.94 to the front (Mini-ITX drawing, quoted); a standoff 158.5 away misses
# the hole by 3.56, less the hole's play of 0.23 and what both may be off.
def test_a_standoff_a_little_off_says_along_what() -> None:
    placed = Standoff(to_front=given(158.5, 0.0), up=given(0.0, 0.0))
    standoffs = Standoffs(holes=("C", "F", "J"), own=(("odd", placed),))
    finding = only(on(standoffs, BoardShape.MINI_ITX), "board-on-standoffs")
    assert finding.why == "hole H misses its standoff by 3.0 mm along depth"


def test_a_taped_standoff_may_be_off_by_what_a_tape_is() -> None:
    placed = Standoff(to_front=given(156.0, 1.0), up=given(0.0, 1.0))
    standoffs = Standoffs(holes=("C", "F", "J"), own=(("taped", placed),))
    finding = only(on(standoffs, BoardShape.MINI_ITX), "board-on-standoffs")
    assert finding.verdict is Verdict.CLEAR


def test_a_board_may_have_fewer_holes_than_its_form() -> None:
    standoffs = Standoffs(holes=("C", "F", "H", "J"))
    found = on(standoffs, BoardShape.ATX, holes=("C", "F", "H", "J"))
    assert only(found, "board-on-standoffs").verdict is Verdict.CLEAR


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: Standoffs(forms=("SSI EEB",)), "forms"),
        (lambda: Standoffs(holes=("Z",)), "holes"),
        (lambda: Board(socket="AM5", holes=("R",)), "holes"),
    ],
)
def test_unknown_holes_are_refused(make: object, field: str) -> None:
    assert callable(make)
    with pytest.raises(PartError, match=r"right would be one of") as caught:
        make()
    assert caught.value.field == field


def mounted(takes: Takes, part: Spec) -> Check:
    case = replace(CASE, mounts=(("front", Mount(takes=(takes,))),))
    return asked({"fans": part}, case)


def test_a_fan_of_another_spacing_misses_by_half_the_difference_each_way() -> None:
    takes = Takes(size=200, count=1)
    fan = Fan(size=200, mount="front", hole_spacing=given(170.0, 0.0))
    finding = only(mounted(takes, fan), "fans-to-mount")
    assert finding.verdict is Verdict.MISSING
    # 170 against 154: 8 each way, 11.3 in all, less the play of two holes and +- 0.3
    assert finding.why.startswith("every hole misses its hole in the mount by 7.")
    meets = Takes(size=200, count=1, hole_spacing=given(170.0))
    assert only(mounted(meets, fan), "fans-to-mount").verdict is Verdict.CLEAR


def test_slots_take_a_radiator_whose_fans_stand_apart() -> None:
    radiator = Radiator(size=240, mount="front", fan_pitch=given(125.0))
    round_holes = only(mounted(Takes(size=120, count=3), radiator), "fans-to-mount")
    assert round_holes.verdict is Verdict.MISSING
    assert "mm along height" in round_holes.why
    slotted = Takes(size=120, count=3, slots=given(10.0))
    assert only(mounted(slotted, radiator), "fans-to-mount").verdict is Verdict.CLEAR


# Fans 125 apart on places of 120 are 2.5 off each way, less 0.6 of play and 0.3 each
# hole may be off: what slots of the right length take up, half of it each way.
@pytest.mark.parametrize(("slot_mm", "off_mm"), [(0.0, 1.6), (2.0, 0.6), (4.0, 0.0)])
def test_a_radiators_pitch_misses_by_what_slots_leave(
    slot_mm: float, off_mm: float
) -> None:
    radiator = Radiator(size=240, mount="front", fan_pitch=given(125.0))
    slots = given(slot_mm) if slot_mm else None
    takes = Takes(size=120, count=3, slots=slots)
    finding = only(mounted(takes, radiator), "fans-to-mount")
    assert finding.verdict is (Verdict.MISSING if off_mm else Verdict.CLEAR)
    told = f"misses its hole in the mount by {off_mm:.1f} mm along height"
    assert (told in finding.why) is bool(off_mm)


def test_a_hole_too_far_off_says_how_far_the_nearest_is() -> None:
    takes = Takes(size=140, count=1)
    fan = Fan(size=140, mount="front", hole_spacing=given(105.0, 0.0))
    finding = only(mounted(takes, fan), "fans-to-mount")
    # 124.5 less 105, halved: 9.75 along and across, 13.8 in all, 12.9 beyond play
    assert finding.why.startswith("hole 1 of fan 1, hole 2 of fan 1, hole 3 of fan 1")
    assert finding.why.endswith("have no hole in the mount nearer than 13 mm")


def in_bay(bay: SupplyBay, supply: Supply) -> Check:
    return asked({"supply": supply}, replace(CASE, supply_bay=bay))


def test_a_supply_whose_plate_takes_it_one_way_only() -> None:
    bay = SupplyBay(plate_for=(Intake.DOWN,))
    down = in_bay(bay, Supply(length=mm(140), intake=Intake.DOWN))
    assert only(down, "supply-to-plate").verdict is Verdict.CLEAR
    up = only(in_bay(bay, Supply(length=mm(140), intake=Intake.UP)), "supply-to-plate")
    assert up.verdict is Verdict.MISSING
    # turned by half, (69, -37) lies 24 from (45, -37), (-69, -37) 10 from (-69, -27)
    assert "no hole in the plate" in up.why
    assert "along height" in up.why


@pytest.mark.parametrize(
    ("plate", "verdict"), [(True, Verdict.CLEAR), (False, Verdict.MISSING)]
)
def test_a_smaller_supply_needs_its_plate(plate: bool, verdict: Verdict) -> None:  # noqa: FBT001
    supply = Supply(form=SupplyShape.SFX, length=mm(100), adapter_plate=plate)
    found = in_bay(SupplyBay(), supply)
    assert only(found, "supply-to-plate").verdict is verdict
    assert [each.what for each in found.to_order] == (
        [] if plate else ["plate from SFX to ATX"]
    )


@pytest.mark.parametrize(
    ("own", "opening"),
    [
        (SupplyShape.ATX, SupplyShape.SFX),
        (SupplyShape.ATX, SupplyShape.TFX),
        (SupplyShape.SFX, SupplyShape.FLEX),
    ],
)
def test_no_plate_takes_a_larger_supply_to_a_smaller_opening(
    own: SupplyShape, opening: SupplyShape
) -> None:
    found = in_bay(SupplyBay(form=opening), Supply(form=own, length=mm(140)))
    finding = only(found, "supply-to-plate")
    assert finding.verdict is Verdict.MISSING
    assert f"take one of the form {opening.value}, no plate" in finding.advice
    assert found.to_order == ()
    known = Supply(form=own, length=mm(140), adapter_plate=True)
    had = in_bay(SupplyBay(form=opening), known)
    assert only(had, "supply-to-plate").verdict is Verdict.CLEAR


@pytest.mark.parametrize("own", [SupplyShape.TFX, SupplyShape.FLEX])
def test_small_forms_have_plates_for_a_large_opening(own: SupplyShape) -> None:
    found = in_bay(SupplyBay(), Supply(form=own, adapter_plate=False, length=mm(150)))
    assert only(found, "supply-to-plate").verdict is Verdict.MISSING
    (order,) = found.to_order
    assert order.what == f"plate from {own.value} to ATX"


def test_a_plate_that_no_file_tells_is_granted() -> None:
    found = in_bay(SupplyBay(), Supply(form=SupplyShape.SFX, length=mm(100)))
    assert found.findings == ()
    assert "supply: a plate from SFX to ATX in its box" in found.notes
    same = in_bay(
        SupplyBay(form=SupplyShape.SFX), Supply(form=SupplyShape.SFX_L, length=mm(130))
    )
    assert not any("plate" in note for note in same.notes)


@pytest.mark.parametrize(
    ("small_drives", "rules", "noted"),
    [
        (None, [], True),
        (True, ["drive-to-place"], False),
        (False, ["drive-to-place"], False),
    ],
)
def test_a_small_drive_in_a_large_place(
    small_drives: bool | None,  # noqa: FBT001
    rules: list[str],
    noted: bool,  # noqa: FBT001
) -> None:
    parts: dict[str, Spec] = {
        "cage": Cage(position="front", small_drives=small_drives),
        "disk": Drive(size=DriveShape.SMALL, place="place 1"),
    }
    found = asked(parts)
    assert [each.rule for each in found.findings] == rules
    assert ("cage: holes for 2.5 in drives" in found.notes) is noted
    if small_drives is False:
        assert found.findings[0].verdict is Verdict.MISSING
        assert "frame" in found.to_order[0].what


@pytest.mark.parametrize("form", [SupplyShape.SFX, SupplyShape.TFX, SupplyShape.FLEX])
def test_a_form_whose_holes_no_text_gives_is_matched_by_name_and_says_so(
    form: SupplyShape,
) -> None:
    bay = SupplyBay(form=form)
    found = in_bay(bay, Supply(form=form, length=mm(100)))
    assert found.findings == ()
    told = [each for each in found.notes if "name alone" in each]
    assert len(told) == 1
    assert told[0].startswith("supply: its screws meet those of its seat by the form")
    assert told[0].endswith(f"{form.value} (no text gives its holes; unverified)")


def test_a_drive_of_the_front_bays_is_matched_by_name_and_says_so() -> None:
    case = replace(CASE, bays=Bays(count=1, from_floor=mm(380)))
    found = asked({"disk": Drive(size=DriveShape.BAY)}, case, every=True)
    (one,) = [each for each in found.findings if each.rule == "drive-to-place"]
    assert one.verdict is Verdict.CLEAR
    assert "5.25 in (no text gives its holes; unverified)" in one.assumed[0]


@pytest.mark.parametrize("on_edge", [False, True])
def test_a_cage_may_hold_drives_by_their_sides(*, on_edge: bool) -> None:
    cage = Cage(position="front", held_by=HeldBy.SIDES, on_edge=on_edge)
    large, small = Drive(place="place 1"), Drive(size=DriveShape.SMALL, place="place 1")
    (one,) = asked({"cage": cage, "disk": large}).findings
    assert (one.rule, one.verdict) == ("drive-to-place", Verdict.CLEAR)
    own = replace(cage, small_drives=False)
    (other,) = asked({"cage": own, "disk": small}).findings
    assert other.verdict is Verdict.MISSING
    # 76.6 apart where the large one's are 101.6: too far off to be told as a miss.
    assert "hole 1 of 2.5 in and hole 2 of 2.5 in have no hole" in other.why
    both = replace(cage, small_drives=True)
    (one,) = asked({"cage": both, "disk": small}).findings
    assert one.verdict is Verdict.CLEAR
