"""A supply's vent at walls: perforated for it, in part, closed, and beside it."""

from __future__ import annotations

import pytest

from layout.build.placed import Build
from layout.parts.form import Role
from layout.questions.check import check
from layout.questions.finding import Finding, Verdict
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
