"""Cables that cross behind the tray: one lies over the other, with the panel closed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layout.build.placed import Build, PlacedPlug
from layout.geometry.space import Axis, Direction, Vector
from layout.parts.form.cable import CableForm
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import Plug, Role
from layout.parts.wiring.leads import CABLES
from layout.questions.findings.finding import Verdict
from layout.questions.reach.crossing import Run, crossing
from tests.questions.builds import build_of, link, placed

ACROSS = ((0.0, 100.0, -8.0), (200.0, 100.0, -8.0))
UP = ((100.0, 0.0, -8.0), (100.0, 200.0, -8.0))
BESIDE = ((0.0, 120.0, -8.0), (200.0, 120.0, -8.0))


def _run(
    kind: ConnectorKind,
    points: tuple[Vector, ...],
    form: CableForm = CableForm.LOOSE,
) -> Run:
    plug = Plug(
        name="",
        kind=kind,
        at_mm=points[-1],
        out=Direction.PANEL,
        along=Axis.DEPTH,
        size_mm=(20.0, 12.0),
        cable=replace(CABLES[kind], form=form),
    )
    fed = PlacedPlug(part="board", plug=plug, chain=())
    return Run(part="supply", name=f"{kind.value} lead", plug=fed, points=points)


def _behind(room_mm: float, *, off_mm: float = 0.0) -> Build:
    """Return a tray and a back panel; ``off_mm``: how far the tray may be off."""
    chain = (("case", link("tray", (0.0, 0.0, off_mm))),) if off_mm else ()
    return build_of(
        placed("case/tray", Role.TRAY, ((0, 400), (0, 400), (-1, 0)), chain=chain),
        placed(
            "case/back panel",
            Role.BACK_PANEL,
            ((0, 400), (0, 400), (-2 - room_mm, -1 - room_mm)),
        ),
    )


MAIN, POWER = ConnectorKind.MAIN, ConnectorKind.PROCESSOR


@pytest.mark.parametrize(
    ("room_mm", "verdict"), [(20.9, Verdict.SHORT), (21.1, Verdict.CLEAR)]
)
def test_bound_cables_that_cross_need_both_thicknesses(
    room_mm: float, verdict: Verdict
) -> None:
    main, power = (
        _run(kind, way, CableForm.SLEEVED)
        for kind, way in ((MAIN, ACROSS), (POWER, UP))
    )
    # Two sleeved bundles, 12.8 and 8.2 thick.
    want_mm = main.cable.bundle_mm + power.cable.bundle_mm
    assert want_mm == pytest.approx(21.02, abs=0.01)
    (found,) = crossing(_behind(room_mm), [main, power]).findings
    assert found.verdict is verdict
    assert found.need_mm == pytest.approx(want_mm)
    assert found.gap_mm == pytest.approx(room_mm)
    assert {"24-pin lead", "8-pin processor power lead"} == {
        *found.why.removeprefix("the ").split(",")[0].split(" over the ")
    }
    assert ("lack 0.1 mm" in found.advice) is verdict.fails


def test_crossing_cables_go_from_clear_through_tight_to_short() -> None:
    runs = [
        _run(kind, way, CableForm.SLEEVED)
        for kind, way in ((MAIN, ACROSS), (POWER, UP))
    ]
    rooms_mm = (24.0, 22.0, 20.0)
    found = [crossing(_behind(mm, off_mm=2.0), runs).findings[0] for mm in rooms_mm]
    verdicts = [each.verdict for each in found]
    assert verdicts == [Verdict.CLEAR, Verdict.TIGHT, Verdict.SHORT]
    spare_mm = [each.margin_mm for each in found if each.margin_mm is not None]
    assert spare_mm == pytest.approx([mm - 21.02 for mm in rooms_mm], abs=0.01)


def test_loose_cables_are_left_to_the_room_any_cable_is_asked_for() -> None:
    runs = [_run(MAIN, ACROSS), _run(POWER, UP)]
    assert crossing(_behind(16), runs).findings == ()


def test_the_cable_that_spreads_thinner_lies_over_the_other() -> None:
    runs = [_run(MAIN, ACROSS), _run(ConnectorKind.CARD_16, UP)]
    (found,) = crossing(_behind(16), runs).findings
    assert found.verdict is Verdict.SHORT
    assert found.need_mm == pytest.approx(10.03 + 6.02, abs=0.01)


@pytest.mark.parametrize(
    "other",
    [BESIDE, tuple((x, y, 8.0) for x, y, _ in UP)],
    ids=["beside", "before the tray"],
)
def test_cables_that_do_not_cross_there_ask_nothing(other: tuple[Vector, ...]) -> None:
    runs = [_run(MAIN, ACROSS, CableForm.TAPED), _run(POWER, other, CableForm.TAPED)]
    assert crossing(_behind(16), runs).findings == ()


def test_plugs_of_one_lead_do_not_cross_each_other() -> None:
    run = _run(MAIN, ACROSS, CableForm.TAPED)
    assert crossing(_behind(16), [run, replace(run, points=UP)]).findings == ()


def test_who_states_the_room_behind_the_tray_has_decided() -> None:
    build = replace(_behind(16), needs=(("room-behind-tray", 10.0),))
    runs = [_run(MAIN, ACROSS, CableForm.TAPED), _run(POWER, UP, CableForm.TAPED)]
    assert crossing(build, runs).findings == ()
