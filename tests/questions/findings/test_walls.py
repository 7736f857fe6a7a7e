"""At an outer wall what must give is the way outwards, never the wall's far side."""

from __future__ import annotations

from dataclasses import replace

import pytest
from shapely.geometry import Polygon

from layout.build.placed import Build, PlacedBody, PlacedPlug
from layout.geometry.bodies.body import Body, Shape
from layout.geometry.solids.solid import Solid, rectangle
from layout.geometry.space import Axis, Direction
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import Plug, Role
from layout.questions.bends.bends import bends
from layout.questions.checking.check import check
from layout.questions.findings.finding import Finding, Verdict
from layout.questions.findings.walls import way_out
from tests.questions.builds import Span, build_of, placed
from tests.questions.explaining.test_explain import chained

PANEL = placed("case/side panel", Role.SIDE_PANEL, ((0, 400), (0, 400), (185, 189)))
PLUG = Plug(
    name="plug",
    kind=ConnectorKind.CARD_16,
    at_mm=(200.0, 100.0, 0.0),
    out=Direction.PANEL,
    along=Axis.DEPTH,
    size_mm=(20.0, 12.0),
)


def _card(top_mm: float) -> Build:
    """Return a card whose plug, 17.5 high, ends at a width."""
    under = top_mm - 17.5
    build = build_of(
        PANEL,
        placed("card", Role.CARD, ((0, 250), (60, 110), (20, under))),
        placed("card/plug", Role.CARD_PLUG, ((190, 210), (94, 106), (under, top_mm))),
    )
    plug = replace(PLUG, at_mm=(200.0, 100.0, top_mm))
    return replace(build, plugs=(PlacedPlug(part="card", plug=plug, chain=()),))


def _found(build: Build, rule: str) -> Finding:
    (finding,) = (each for each in check(build).findings if each.rule == rule)
    return finding


@pytest.mark.parametrize("top_mm", [186.0, 198.92, 201.92])
def test_a_plug_through_the_panel_wants_all_that_it_stands_beyond(
    top_mm: float,
) -> None:
    finding = _found(_card(top_mm), "card-to-panel")
    assert finding.overlap is not None
    assert (finding.overlap.axis, finding.overlap.sign) == (Axis.WIDTH, 1)
    assert finding.overlap.mm == pytest.approx(top_mm - 185.0, abs=1e-5)
    assert finding.margin_mm == pytest.approx(185.0 - top_mm - 2.0, abs=1e-5)
    assert f"{top_mm - 185.0 + 2.0:.1f} mm must give" in finding.advice


WALLS: dict[Direction, tuple[Role, tuple[Span, Span, Span]]] = {
    Direction.PANEL: (Role.SIDE_PANEL, ((-9, 109), (-9, 109), (93, 94))),
    Direction.TRAY: (Role.BACK_PANEL, ((-9, 109), (-9, 109), (6, 7))),
    Direction.DOWN: (Role.FLOOR, ((-9, 109), (6, 7), (-9, 109))),
    Direction.UP: (Role.TOP, ((-9, 109), (93, 94), (-9, 109))),
    Direction.FRONT: (Role.FRONT, ((93, 94), (-9, 109), (-9, 109))),
    Direction.REAR: (Role.REAR, ((6, 7), (-9, 109), (-9, 109))),
}


@pytest.mark.parametrize("to", WALLS)
@pytest.mark.parametrize("wall_first", [True, False])
def test_every_outer_wall_gives_outwards(to: Direction, *, wall_first: bool) -> None:
    role, spans = WALLS[to]
    pair: list[PlacedBody] = [
        placed("block", Role.BLOCK, ((0, 100), (0, 100), (0, 100))),
        placed("case/wall", role, spans),
    ]
    (finding,) = check(build_of(*(pair[::-1] if wall_first else pair))).findings
    assert finding.overlap is not None
    assert finding.overlap.axis is to.axis
    assert finding.overlap.mm == pytest.approx(7.0, abs=1e-5)
    # the stated shift is that of b
    sign = to.sign if finding.b == "case/wall" else -to.sign
    assert finding.overlap.sign == sign


def test_a_cable_stopped_by_the_panel_wants_its_bend_before_the_panel() -> None:
    # the plug ends 16.08 before the panel; 35 straight lead through its 4 mm
    (finding,) = bends(_card(168.92))
    assert finding.gap_mm == pytest.approx(185.0 - 168.92, abs=1e-5)
    assert finding.need_mm is not None
    assert finding.need_mm > 35.0
    assert finding.margin_mm == pytest.approx(16.08 - finding.need_mm, abs=1e-5)


@pytest.mark.parametrize("top_mm", [186.0, 189.0, 198.92])
def test_a_cable_that_begins_beyond_the_panel_is_short(top_mm: float) -> None:
    (before,) = bends(_card(168.92))
    (finding,) = bends(_card(top_mm))
    assert finding.verdict is Verdict.SHORT
    assert before.need_mm is not None
    assert finding.margin_mm == pytest.approx(185.0 - top_mm - before.need_mm, abs=1e-4)


@pytest.mark.parametrize("top_mm", [168.92, 198.92])
def test_what_explains_a_bend_is_stacked_as_its_finding(top_mm: float) -> None:
    build = _card(top_mm)
    told = chained(build, "card-plug-bend:card")
    assert told.along == (0.0, 0.0, 1.0)
    assert told.stacked_mm == told.finding.tolerance_mm


SHROUD = Solid(
    side=rectangle((0, 390), (110, 111)),
    top=Polygon(
        [
            *((0, 0), (390, 0), (390, 20), (330, 20)),
            *((330, 150), (390, 150), (390, 180), (0, 180)),
        ]
    ),
)


def under_shroud(role: Role, spans: tuple[Span, Span, Span]) -> Build:
    sheet = placed("case/shroud", Role.SHROUD, ((0, 390), (110, 111), (0, 180)))
    sheet = replace(sheet, body=Body(name=sheet.name, shape=Shape((SHROUD,))))
    return build_of(sheet, placed("part", role, spans))


@pytest.mark.parametrize(
    ("role", "spans", "told"),
    [
        # From below, and deep enough that the way past its far end were shorter.
        (Role.SUPPLY, ((0, 140), (0, 112.5), (12, 162)), (Axis.HEIGHT, 2.5)),
        (Role.SUPPLY, ((300, 320), (0, 200), (12, 60)), (Axis.HEIGHT, 90.0)),
        # From above.
        (Role.CARD, ((0, 250), (108, 220), (12, 60)), (Axis.HEIGHT, 3.0)),
        # In the opening for a radiator, against its edge: that gives.
        (Role.RADIATOR, ((327, 380), (20, 400), (30, 140)), (Axis.DEPTH, 3.0)),
        # At its front edge.
        (Role.FAN, ((385, 410), (20, 140), (0, 120)), (Axis.DEPTH, 5.0)),
    ],
)
def test_a_shroud_gives_away_from_what_lies_under_or_over_it(
    role: Role, spans: tuple[Span, Span, Span], told: tuple[Axis, float]
) -> None:
    met = [
        each
        for each in check(under_shroud(role, spans)).findings
        if each.overlap is not None
    ]
    assert met
    for finding in met:
        assert finding.overlap is not None
        axis, mm = told
        assert finding.overlap.axis is axis
        assert finding.overlap.mm == pytest.approx(mm, abs=1e-5)


def test_a_shroud_gives_to_its_own_side_whichever_is_named_first() -> None:
    build = under_shroud(Role.SUPPLY, ((300, 320), (0, 200), (12, 60)))
    sheet, supply = build.bodies
    assert way_out(supply, sheet) is Direction.UP
    assert way_out(sheet, supply) is Direction.DOWN


MESHES: dict[Direction, tuple[str, tuple[Span, Span, Span]]] = {
    Direction.PANEL: ("perforated side panel", ((-9, 109), (-9, 109), (93, 94))),
    Direction.TRAY: ("perforated back panel", ((-9, 109), (-9, 109), (-20, -19))),
    Direction.DOWN: ("perforated floor", ((-9, 109), (-1, 0), (-25, 109))),
    Direction.UP: ("top cover", ((-9, 109), (93, 94), (-9, 109))),
    Direction.FRONT: ("front cover", ((93, 94), (-9, 109), (-9, 109))),
}


@pytest.mark.parametrize("to", MESHES)
def test_a_perforated_wall_or_cover_gives_outwards_too(to: Direction) -> None:
    """A block 26 mm into it, which the shortest way would free along another axis."""
    name, spans = MESHES[to]
    k = to.axis.index
    inside_mm = spans[k][0] if to.sign > 0 else spans[k][1]
    ends: list[Span] = [(20.0, 24.0), (20.0, 24.0), (20.0, 24.0)]
    ends[k] = (inside_mm - 26.0, inside_mm + 26.0)
    x, y, z = ends
    part = placed("fan", Role.FAN, (x, y, z))
    mesh = placed(f"case/{name}", Role.GRILLE, spans)
    (finding,) = check(build_of(part, mesh)).findings
    assert finding.overlap is not None
    assert (finding.overlap.axis, finding.overlap.sign) == (to.axis, to.sign)
    assert finding.overlap.mm == pytest.approx(26.0, abs=1e-5)


@pytest.mark.parametrize(
    ("z", "told"),
    [((-26, 94), (Axis.WIDTH, 26.0, -1)), ((-94, 25), (Axis.WIDTH, 26.0, 1))],
)
def test_the_tray_gives_to_the_side_on_which_less_of_the_part_lies(
    z: Span, told: tuple[Axis, float, int]
) -> None:
    # by the shortest way the fan, 15 high, were lifted over it
    fan = placed("fan", Role.FAN, ((40, 160), (0, 15), z))
    tray = placed("case/tray", Role.TRAY, ((0, 300), (0, 200), (-1, 0)))
    (finding,) = check(build_of(fan, tray)).findings
    assert finding.overlap is not None
    got = (finding.overlap.axis, finding.overlap.mm, finding.overlap.sign)
    assert got[1] == pytest.approx(told[1], abs=1e-5)
    assert got[::2] == told[::2]


def test_past_the_edge_of_the_tray_the_shortest_way_stays() -> None:
    plate = placed("plate", Role.BACK_PLATE, ((298, 330), (40, 60), (-3, 5)))
    tray = placed("case/tray", Role.TRAY, ((0, 300), (0, 200), (-1, 0)))
    (finding,) = (e for e in check(build_of(plate, tray)).findings if e.overlap)
    assert finding.overlap is not None
    assert finding.overlap.axis is Axis.DEPTH
