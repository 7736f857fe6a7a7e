"""A supply's vent at walls: perforated for it, in part, closed, and beside it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.build.placed import Build, PlacedBody
from layout.geometry.bodies.turn import UPRIGHT, Turn
from layout.geometry.space import Direction
from layout.parts.case.case_panels import Material, SidePanel
from layout.parts.form.errors import PartError
from layout.parts.form.form import Role
from layout.questions.checking.check import check
from layout.questions.findings.finding import Finding, Verdict
from tests.questions.builds import Span, build_of, placed

VENT = placed("supply/vent", Role.SUPPLY_VENT, ((20, 140), (0, 0.1), (30, 150)))
FLOOR: tuple[Span, Span, Span] = ((0, 400), (-1, 0), (0, 180))


def vents(mesh: tuple[Span, Span] | None) -> list[Finding]:
    """Return what is found of a vent on a floor that is perforated somewhere."""
    build: Build = build_of(
        VENT,
        placed("case/side panel", Role.SIDE_PANEL, ((0, 400), (0, 400), (155, 156))),
        placed("case/floor", Role.FLOOR, FLOOR),
        *(
            [placed("case/perforated floor", Role.GRILLE, (mesh[0], (-1, 0), mesh[1]))]
            if mesh
            else []
        ),
    )
    found = check(build, every_pair=True).findings
    return [each for each in found if each.rule == "supply-vent"]


@pytest.mark.parametrize("mesh", [((0, 220), (1, 179)), ((20, 140), (30, 150))])
def test_a_vent_over_its_perforated_wall_makes_no_row(mesh: tuple[Span, Span]) -> None:
    assert vents(mesh) == []


@pytest.mark.parametrize("mesh", [((0, 139), (1, 179)), ((20, 140), (31, 150))])
def test_closed_sheet_under_part_of_the_vent_is_told_as_that(
    mesh: tuple[Span, Span],
) -> None:
    # the plain boxes of this test leave the floor whole: it lies at the vent
    (finding,) = vents(mesh)
    assert (finding.b, finding.verdict) == ("case/floor", Verdict.SHORT)
    assert finding.gap_mm == pytest.approx(0.0, abs=1e-9)
    assert finding.why.startswith(
        "the floor's closed sheet covers part of the supply's fan"
    )
    assert finding.advice.endswith("a case that is perforated under the whole fan")


def test_a_tray_beside_the_vent_is_no_object_and_one_before_it_is() -> None:
    tray = placed("case/tray", Role.TRAY, ((0, 400), (-1, 400), (20, 21)))
    assert not [e for e in check(build_of(VENT, tray)).findings if e.a == VENT.name]
    looks = placed("supply/vent", Role.SUPPLY_VENT, ((20, 140), (9, 99), (29.9, 30)))
    (finding,) = check(build_of(looks, tray)).findings
    assert (finding.b, finding.verdict) == ("case/tray", Verdict.SHORT)
    assert finding.gap_mm == pytest.approx(8.9)


def test_a_closed_floor_is_an_object_and_a_panel_beside_is_none() -> None:
    (finding,) = vents(None)
    assert (finding.b, finding.verdict) == ("case/floor", Verdict.SHORT)
    assert finding.advice.endswith("turn the supply's intake to the other side")


def inlet(looks: Direction) -> PlacedBody:
    """Return the inlet's face of a supply of 150 x 150 x 86 at 100, 100, 50."""
    spans: list[Span] = [(105, 245), (105, 245), (55, 131)]
    axis = looks.axis.index
    face = (100.0, 250.0)[looks.sign > 0]
    spans[axis] = (
        min(face, face - 0.1 * looks.sign),
        max(face, face - 0.1 * looks.sign),
    )
    x, y, z = spans
    made = placed("supply/inlet", Role.SUPPLY_INLET, (x, y, z))
    turns = [
        UPRIGHT,
        *(
            Turn(looks.opposite, each)
            for each in Direction
            if each.axis is not looks.axis
        ),
    ]
    turn = next(each for each in turns if each.direction(Direction.REAR) is looks)
    return replace(made, turn=turn)


def before_inlet(looks: Direction, *others: PlacedBody) -> list[Finding]:
    found = check(build_of(inlet(looks), *others), every_pair=True).findings
    return [each for each in found if each.rule == "mains-plug"]


def test_a_mains_plug_needs_room_over_the_floor() -> None:
    floor = placed("case/floor", Role.FLOOR, ((0, 400), (79, 80), (-20, 180)))
    (finding,) = before_inlet(Direction.DOWN, floor)
    assert finding.gap_mm == pytest.approx(20.0)
    assert (finding.need_mm, finding.verdict) == (30.0, Verdict.SHORT)
    assert "an angled mains plug" in finding.why


def test_an_inlet_flush_with_the_top_reaches_through_it_and_one_under_it_does_not() -> (
    None
):
    for at_mm, asked in ((250, 0), (270, 1)):
        spans: tuple[Span, Span, Span] = ((0, 400), (at_mm, at_mm + 1), (-20, 180))
        top = placed("case/top", Role.TOP, spans)
        assert len(before_inlet(Direction.UP, top)) == asked
    on_it = placed("case/floor", Role.FLOOR, ((0, 400), (99, 100), (-20, 180)))
    assert len(before_inlet(Direction.DOWN, on_it)) == 1  # no plug goes through a floor


def test_what_stands_beside_or_behind_an_inlet_is_not_before_it() -> None:
    beside = placed(
        "case/side panel", Role.SIDE_PANEL, ((0, 400), (0, 400), (136, 137))
    )
    behind = placed("disk", Role.DRIVE, ((105, 200), (260, 290), (50, 130)))
    assert before_inlet(Direction.DOWN, beside, behind) == []


@pytest.mark.parametrize(
    ("vented", "asked"), [(False, ["case/side panel"]), (True, ["disk"])]
)
def test_a_perforated_side_panel_lets_a_low_coolers_fan_breathe(
    *, vented: bool, asked: list[str]
) -> None:
    build = build_of(
        placed("case/side panel", Role.SIDE_PANEL, ((0, 400), (0, 400), (66, 67))),
        placed("cooler/vent", Role.COOLER_VENT, ((50, 120), (50, 120), (59.9, 60))),
        placed("disk", Role.DRIVE, ((60, 100), (60, 100), (67, 70))),
    )
    made = replace(build, panel=SidePanel(vented=vented))
    found = [e for e in check(made).findings if e.rule == "cooler-breathes"]
    assert [each.b for each in found] == asked
    assert found[0].gap_mm == pytest.approx(7.0 if vented else 6.0)


def test_no_glass_is_perforated() -> None:
    with pytest.raises(PartError, match="vented: found a perforated pane of glass"):
        SidePanel(material=Material.GLASS, vented=True)
