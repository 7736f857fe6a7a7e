"""Linings, hooks, and fans in shroud and back panel."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.geometry.bodies.body import Body, Shape
from layout.geometry.relations.query import relations
from layout.geometry.relations.relation import State
from layout.parts.case.case import Case
from layout.parts.case.case_bays import Bays
from layout.parts.case.case_fields import Linings, Mount, Shroud, SidePanel, Takes
from layout.parts.case.case_panels import Opens
from layout.parts.case.case_stands import ConnectorsAt
from layout.parts.case.case_supply import BayPlace, InletLooks, SupplyBay
from layout.parts.cooling.fan import Fan
from layout.parts.form.errors import PartError
from layout.parts.form.form import Role
from layout.parts.kinds.kinds import Spec
from layout.parts.supply.supply import Intake, Supply
from layout.questions.checking.check import check
from layout.questions.findings.finding import Verdict
from tests.build.any_machine import meeting
from tests.build.machines import body, built, mm

LINED = Case(
    depth=mm(420),
    height=mm(460),
    width=mm(190),
    behind_tray=mm(60),
    shroud=Shroud(height=mm(100)),
    bays=Bays(from_floor=mm(410)),
    side_panel=SidePanel(lining=mm(4)),
    lining=Linings(front=mm(5), top=mm(6), shroud=mm(3), back_panel=mm(2)),
    mounts=(
        ("front", Mount(takes=(Takes(size=120, count=2, start=mm(120)),))),
        ("top", Mount(takes=(Takes(size=120, count=3, start=mm(20)),))),
        ("shroud", Mount(takes=(Takes(size=120, start=mm(240)),))),
        ("back panel", Mount(takes=(Takes(size=120, start=mm(20)),))),
        ("panel side", Mount(takes=(Takes(size=120, start=mm(20)),))),
    ),
)


def test_linings_lie_on_their_walls_and_in_no_other_part_of_the_case() -> None:
    form = LINED.form()
    sheets = {Role.SHROUD, Role.FRONT, Role.TOP, Role.BACK_PANEL, Role.TRAY}
    bodies = {
        each.name: Body(name=each.name, shape=Shape(each.solids))
        for each in form.pieces
        if each.role in sheets
    }
    found = relations(list(bodies.values()))
    states = {frozenset({e.a, e.b}): e.state for e in found}
    assert State.INTERFERING not in states.values()
    for wall in ("front", "top", "shroud", "back panel"):
        assert states[frozenset({wall, f"{wall} lining"})] is State.TOUCHING
    assert bodies["front lining"].bounds.low[0] == 415
    assert bodies["shroud lining"].bounds.high[1] == 104


def test_a_lining_is_open_where_fans_and_bays_are() -> None:
    fans: dict[str, Spec] = {
        "front fans": Fan(size=120, count=2, mount="front"),
        "top fans": Fan(size=120, count=3, mount="top"),
        "shroud fan": Fan(size=120, mount="shroud"),
        "back fan": Fan(size=120, mount="back panel"),
        "panel fan": Fan(size=120, mount="panel side"),
    }
    build = built(LINED, fans)
    assert meeting(build) == set()
    assert body(build, "shroud fan").body.bounds.low[1] == 101
    assert body(build, "back fan").body.bounds.low[2] == -61
    assert body(build, "back fan").where == "back panel"


@pytest.mark.parametrize("vented", [True, False])
@pytest.mark.parametrize(
    ("bay", "intake"),
    [
        (SupplyBay(place=BayPlace.TOP_REAR), Intake.UP),
        (SupplyBay(place=BayPlace.FRONT, inlet=InletLooks.UP), Intake.PANEL),
        (SupplyBay(place=BayPlace.FRONT, inlet=InletLooks.FRONT), Intake.PANEL),
        (SupplyBay(place=BayPlace.BEHIND_TRAY), Intake.TRAY),
    ],
)
def test_a_lining_ends_round_the_supply(
    bay: SupplyBay, intake: Intake, *, vented: bool
) -> None:
    felt = Linings(front=mm(5), top=mm(6), back_panel=mm(2))
    case = replace(LINED, bays=None, shroud=None, mounts=(), lining=felt)
    case = replace(case, supply_bay=replace(bay, vented=vented), behind_tray=mm(110))
    build = built(case, {"supply": Supply(length=mm(180), intake=intake)})
    assert meeting(build) == set()
    asked = check(build, every_pair=True).findings
    chokes = {
        each.b for each in asked if each.rule == "supply-vent" and each.verdict.fails
    }
    assert not any((name or "").endswith("lining") for name in chokes)


def test_a_fan_on_the_shroud_stands_before_a_card_as_one_on_the_floor_does() -> None:
    low = replace(LINED, bays=None, lining=Linings())
    parts: dict[str, Spec] = {"fan": Fan(size=120, mount="shroud")}
    names = {each.name for each in built(low, parts).bodies}
    assert "fan" in names
    with pytest.raises(PartError, match=r"mounts\.shroud: found a mount on no shroud"):
        replace(low, shroud=None)


@pytest.mark.parametrize(
    ("lining", "more", "message"),
    [
        (Linings(shroud=mm(3)), {"shroud": None}, "a shroud that is not there"),
        (
            Linings(top=mm(3)),
            {"connectors": ConnectorsAt.TOP},
            "the wall that the connectors reach through",
        ),
    ],
)
def test_linings_that_are_none(
    lining: Linings, more: dict[str, object], message: str
) -> None:
    bare = Case(depth=mm(420), height=mm(460), width=mm(190))
    with pytest.raises(PartError, match=message):
        replace(bare, lining=lining, **more)  # type: ignore[arg-type]


def opening(opens: Opens, *, start: float = 20) -> Case:
    row = Mount(takes=(Takes(size=120, start=mm(start)),))
    return Case(
        depth=mm(420),
        height=mm(460),
        width=mm(190),
        side_panel=SidePanel(opens=opens),
        mounts=(("panel side", row),),
    )


FAN: dict[str, Spec] = {"fan": Fan(size=120, mount="panel side")}


@pytest.mark.parametrize(
    ("start", "verdict"), [(10, Verdict.SHORT), (14.9, Verdict.SHORT), (30, None)]
)
def test_a_panel_in_hooks_slides_with_its_fan(
    start: float, verdict: Verdict | None
) -> None:
    found = check(built(opening(Opens.SLID_REAR, start=start), FAN)).findings
    rules = {each.rule: each for each in found}
    assert rules.get("panel-opens") is None or verdict
    if verdict:
        slid = rules["panel-opens"]
        assert (slid.a, slid.b, slid.verdict) == ("fan", "case/rear", verdict)
        assert slid.gap_mm == pytest.approx(start, abs=2e-6)
        assert slid.need_mm == 15


def test_a_hinged_panel_swings_its_fan_past_the_rear() -> None:
    # From the hinge 420 - 0.2 along and 25 in: 0.744 mm farther as it swings.
    found = check(built(opening(Opens.HINGED_FRONT, start=0.2), FAN)).findings
    (swung,) = [each for each in found if each.rule == "panel-opens"]
    assert swung.need_mm == pytest.approx((419.8**2 + 25**2) ** 0.5 - 419.8)
    assert swung.gap_mm == pytest.approx(0.2, abs=2e-6)
    clear = check(built(opening(Opens.HINGED_REAR), FAN)).findings
    assert "panel-opens" not in {each.rule for each in clear}


@pytest.mark.parametrize("opens", Opens)
def test_the_room_a_panel_takes_outside_is_said(opens: Opens) -> None:
    notes = " ".join(check(built(opening(opens), {})).notes)
    told = {
        Opens.LIFTED: "",
        Opens.HINGED_FRONT: "it swings through 420 mm beside the case",
        Opens.HINGED_REAR: "it swings through 420 mm beside the case",
        Opens.SLID_REAR: "it slides 15 mm before it comes off",
    }[opens]
    assert told in notes
    assert ("side panel " in notes) is (opens is not Opens.LIFTED)


@pytest.mark.parametrize(
    ("opens", "told"),
    [
        (
            Opens.HINGED_FRONT,
            ["past the case's front", "moves 0.7 mm", "before the rear"],
        ),
        (
            Opens.HINGED_REAR,
            ["past the case's rear", "moves 0.7 mm", "before the front"],
        ),
        (Opens.SLID_REAR, ["lining moves 15.0 mm", "before the rear's frame"]),
    ],
)
def test_a_panels_edges_are_told_to_clear_the_frame(
    opens: Opens, told: list[str]
) -> None:
    panel = SidePanel(opens=opens, thickness=mm(4), lining=mm(24))
    notes = " ".join(check(built(replace(opening(opens), side_panel=panel), {})).notes)
    assert all(each in notes for each in told)
    assert ("own edge turns up to 4 mm" in notes) is opens.hinged
    thin = replace(panel, lining=mm(4))
    felt = check(built(replace(opening(opens), side_panel=thin), {})).notes
    assert any("lining moves" in each for each in felt) is not opens.hinged


def test_hooks_take_the_panels_edges() -> None:
    low = Mount(takes=(Takes(size=140, start=mm(20)),), from_tray=mm(118))
    case = replace(opening(Opens.SLID_REAR), mounts=(("floor", low),))
    found = check(built(case, {"fan": Fan(size=140, mount="floor")})).findings
    assert "case/panel hooks" in {each.b for each in found} | {e.a for e in found}
