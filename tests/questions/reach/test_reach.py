from __future__ import annotations

import math
from dataclasses import replace

import pytest
from shapely.geometry import Polygon

from layout.build.placed import (
    Build,
    PlacedBody,
    PlacedLead,
    PlacedPlug,
    PlacedPortion,
)
from layout.geometry.bodies.body import Body, Shape
from layout.geometry.solids.solid import Solid, rectangle
from layout.geometry.space import Axis, Box, Direction, Vector
from layout.parts.case.case_shroud import Shroud, ShroudCutOut, shroud_piece
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import Plug, PlugShape, Role
from layout.parts.form.lead import Lead
from layout.parts.form.link import sheet_link
from layout.questions.checking.check import check
from layout.questions.findings.answered import Answered
from layout.questions.findings.finding import Finding, Group, Verdict
from layout.questions.findings.holes import Passage, shroud_opening
from layout.questions.findings.passages import OFF_MM, passages
from layout.questions.reach.lead_ways import lead_ways
from layout.questions.reach.plug_end import plug_ends
from layout.questions.reach.reach import reach
from layout.standards.figure import given, practice
from tests.questions.builds import build_of, placed

INSIDE: Vector = (400.0, 400.0, 180.0)
HOLES = {
    "low": ((300.0, 330.0), (150.0, 200.0)),
    "high": ((300.0, 330.0), (330.0, 380.0)),
    "before": ((264.0, 294.0), (215.0, 315.0)),
    "slit": ((300.0, 310.0), (20.0, 80.0)),
}
AT: Vector = (150.0, 360.0, 30.0)
_NEAR, _WIDE = "shroud's opening from the tray", "shroud's opening, width"


def _tray(*names: str) -> PlacedBody:
    holes = [rectangle(*HOLES[name]).exterior.coords for name in names]
    side = Polygon(rectangle((0, 400), (0, 400)).exterior.coords, holes)
    solid = Solid(side=side, top=rectangle((0, 400), (-1, 0)))
    shape = Shape((solid,))
    return PlacedBody(
        part="case",
        body=Body(name="case/tray", shape=shape),
        role=Role.TRAY,
        where=None,
        chain=(),
    )


def _case(*names: str, shroud: bool = True) -> Build:
    """Return a case with a board, its holes by name, and a plate over the supply."""
    plate = ((0.0, 400.0), (120.0, 121.0), (0.0, 180.0))
    bodies = [
        _tray(*names),
        placed("case/back panel", Role.BACK_PANEL, ((0, 400), (0, 400), (-22, -21))),
        *(
            placed(f"case/cut-out {name}", Role.CUT_OUT, (*HOLES[name], (-1, 8)))
            for name in names
        ),
        *([placed("case/shroud", Role.SHROUD, plate)] if shroud else []),
        placed("board", Role.BOARD, ((10, 254), (140, 390), (6, 8))),
    ]
    return replace(build_of(*bodies), case_size_mm=INSIDE)


def _lead(length_mm: float, **changes: object) -> PlacedLead:
    lead = Lead(
        name="processor lead",
        kinds=frozenset({ConnectorKind.PROCESSOR}),
        length=given(length_mm, 0.0),
        at_mm=(140.0, 50.0, 80.0),
        out=Direction.FRONT,
        ahead_mm=25.0,
    )
    return PlacedLead(part="supply", lead=replace(lead, **changes))  # type: ignore[arg-type]  # by name


def _plug(part: str, at_mm: Vector, kind: ConnectorKind) -> PlacedPlug:
    plug = Plug(
        name="power",
        kind=kind,
        at_mm=at_mm,
        out=Direction.PANEL,
        along=Axis.DEPTH,
        size_mm=(18.0, 11.0),
    )
    return PlacedPlug(part=part, plug=plug, chain=())


PROCESSOR = _plug("board", AT, ConnectorKind.PROCESSOR)


def _asked(
    build: Build, *leads: PlacedLead, plugs: tuple[PlacedPlug, ...] = (PROCESSOR,)
) -> Answered:
    return reach(replace(build, leads=leads, plugs=plugs), every=False)


def _one(build: Build, lead: PlacedLead) -> Finding:
    (finding,) = _asked(build, lead).findings
    return finding


def _way_mm(finding: Finding, length_mm: float) -> float:
    assert finding.gap_mm is not None
    return length_mm - finding.gap_mm


def test_gap_is_length_less_way_and_need_the_slack() -> None:
    finding = _one(_case("high"), _lead(700.0))
    assert finding.group is Group.REACH
    assert finding.id == "processor-lead-reach:supply:board"
    way_mm = _way_mm(finding, 700.0)
    assert finding.need_mm == 20.0
    exactly = _one(_case("high"), _lead(way_mm + 20.0))
    assert exactly.margin_mm == pytest.approx(0.0, abs=1e-9)
    # It meets its need, but the hole beside the supply is only assumed.
    assert exactly.verdict is Verdict.TIGHT
    assert "case: place of an opening beside the supply" in exactly.assumed
    assert "measure first" in exactly.advice


def test_a_lead_too_short_says_by_how_much() -> None:
    way_mm = _way_mm(_one(_case("high"), _lead(700.0)), 700.0)
    finding = _one(_case("high"), _lead(way_mm - 30.0))
    assert finding.verdict is Verdict.SHORT
    assert finding.gap_mm == pytest.approx(-30.0)
    assert finding.margin_mm == pytest.approx(-50.0)
    assert "50 mm too short" in finding.advice
    assert "made for this very supply" in finding.advice


def test_a_usual_lead_that_is_too_short_is_to_be_measured_first() -> None:
    build = _case("low", "high")
    way_mm = _way_mm(_one(build, _lead(900.0)), 900.0)
    lead = _lead(way_mm, length=practice(way_mm, 100.0, assumed=True))
    finding = _one(build, lead)
    assert finding.verdict is Verdict.SHORT
    assert finding.why.endswith("; the length is assumed")
    assert finding.advice.startswith("measure first: supply: processor lead, from ")
    assert "as assumed, the supply's processor lead is 20 mm too short" in (
        finding.advice
    )


def test_a_length_that_may_be_off_makes_it_tight() -> None:
    way_mm = _way_mm(_one(_case("high"), _lead(700.0)), 700.0)
    lead = _lead(0.0, length=given(way_mm + 40.0, 30.0))
    assert _one(_case("high"), lead).verdict is Verdict.TIGHT


def test_the_way_is_no_shorter_than_a_string_and_little_longer_than_by_hand() -> None:
    finding = _one(_case("high"), _lead(900.0))
    # Under the shroud to the opening that is assumed beside the supply, up the tray's
    # back to the hole's near corner, round it, and over the board to the plug.
    corner = (300.0 + OFF_MM, 330.0 + OFF_MM)
    opened = (165.0 + 70.0 - OFF_MM, 110.0 - OFF_MM)
    by_hand_mm = (
        25.0
        + math.dist((165.0, 50.0, 80.0), (*opened, -1.0))
        + math.dist(opened, corner)
        + math.dist((*corner, 0.0), (AT[0], AT[1], 42.0))
        + 12.0
    )
    assert math.dist((140.0, 50.0, 80.0), AT) < _way_mm(finding, 900.0)
    assert _way_mm(finding, 900.0) == pytest.approx(by_hand_mm, rel=0.03)


def test_the_holes_that_are_used_are_named_and_an_assumed_one_is_said() -> None:
    answer = _asked(_case("low", "high"), _lead(900.0))
    (finding,) = answer.findings
    assert "cut-out low and an opening beside the supply" in finding.why
    assert "cut-out high" not in finding.why
    assert "case: an opening beside the supply in the tray" in finding.assumed
    assert answer.notes == ("assumed: case: an opening beside the supply in the tray",)


def test_another_hole_never_makes_a_way_longer() -> None:
    one = _way_mm(_one(_case("high"), _lead(900.0)), 900.0)
    both = _way_mm(_one(_case("low", "high"), _lead(900.0)), 900.0)
    assert both <= one + 1e-9


def test_a_tray_of_many_holes_is_as_open_as_one_of_few(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    names = [f"slit {k}" for k in range(1, 15)]
    for k, name in enumerate(names):
        monkeypatch.setitem(HOLES, name, ((20.0 + 9 * k, 23.0 + 9 * k), (60.0, 69.0)))
    build = _case("low", "high")
    tray = _tray("low", "high", *names)
    assert len(tray.body.shape.cells) > 24
    others = [each for each in build.bodies if each.role is not Role.TRAY]
    pierced = replace(build, bodies=(tray, *others))
    lead = _lead(700.0)
    assert _one(pierced, lead).gap_mm == pytest.approx(_one(build, lead).gap_mm)


def test_no_lead_passes_between_board_and_tray() -> None:
    # With a shroud over the whole depth, behind the tray is the only way up.
    routes = passages(replace(_case("low"), leads=(_lead(900.0),)))
    assert routes is not None
    under: Vector = (100.0, 250.0, 3.0)
    assert not routes.holds(under)


def test_where_the_case_names_no_hole_the_usual_ones_are_assumed() -> None:
    answer = _asked(_case(), _lead(900.0))
    (finding,) = answer.findings
    assert "an opening before the board" in finding.why
    assert len(answer.notes) == 2


@pytest.mark.parametrize("shut", [Direction.UP, Direction.DOWN])
def test_the_cable_of_an_angled_plug_leaves_to_the_side_with_room(
    shut: Direction,
) -> None:
    plug = replace(PROCESSOR, plug=replace(PROCESSOR.plug, shape=PlugShape.ANGLED))
    y = (366.0, 390.0) if shut is Direction.UP else (330.0, 354.0)
    wall = placed("wall", Role.BLOCK, ((125, 175), y, (10, 60)))
    build = _case("low", "high", shroud=False)
    build = replace(build, bodies=(*build.bodies, wall))
    space = passages(build)
    assert space is not None
    ((end, turn),) = plug_ends(plug, space)
    # Out of the plug's broad side, level with its end, the straight run and the bend.
    assert abs(end[1] - AT[1]) == pytest.approx(5.5)
    assert end[2] < AT[2]
    assert (turn[0], turn[2]) == (end[0], end[2])
    assert (turn[1] < AT[1]) is (shut is Direction.UP)
    (way,) = lead_ways(replace(build, plugs=(plug,)), _lead(900.0), space)
    assert not isinstance(way, str)
    assert way.points[-2:] == (turn, end)


def test_an_angled_plug_with_room_on_both_sides_takes_the_shorter_way() -> None:
    plug = replace(PROCESSOR, plug=replace(PROCESSOR.plug, shape=PlugShape.ANGLED))
    build = _case("low", "high", shroud=False)
    space = passages(build)
    assert space is not None
    ends = plug_ends(plug, space)
    assert len(ends) == 2
    (way,) = lead_ways(replace(build, plugs=(plug,)), _lead(900.0), space)
    assert not isinstance(way, str)
    start = way.points[1]
    mm = []
    for end in ends:
        between = space.routes.shortest(start, end[-1])
        assert between is not None
        mm.append(sum(map(math.dist, between, between[1:])))
    assert way.points[-1] == ends[mm.index(min(mm))][0]


def test_without_a_way_nothing_is_asked_and_that_is_said() -> None:
    wall = placed("wall", Role.BLOCK, ((166, 170), (0, 120), (-21, 180)))
    build = _case("high")
    answer = _asked(replace(build, bodies=(*build.bodies, wall)), _lead(900.0))
    blocked = placed("wall", Role.BLOCK, ((0, 400), (121, 125), (-21, 0)))
    shut = _asked(replace(build, bodies=(*build.bodies, blocked)), _lead(900.0))
    assert answer.findings
    assert shut.findings == ()
    assert "no way for its processor lead" in shut.notes[0]
    assert "the wall stands in its way" in shut.notes[0]


def _over_supply(width_mm: float | None, *, from_tray_mm: float = 0.0) -> Build:
    """Return the case with a slit under its shroud, which is opened in front."""
    width = width_mm and given(width_mm, 3.0)
    cut = ShroudCutOut(
        from_depth=given(300.0, 1.0),
        from_tray=given(from_tray_mm, 2.0),
        width=width or None,
    )
    deep, wide = (
        sheet_link("inside", given(0.0, 0.0), axis) for axis in (Axis.DEPTH, Axis.WIDTH)
    )
    piece = shroud_piece(
        Shroud(height=given(120.0, 0.0), cut_out=cut), INSIDE, (deep, wide)
    )
    sheet = PlacedBody(
        part="case",
        body=Body(name="case/shroud", shape=Shape(piece.solids)),
        role=piece.role,
        where=None,
        chain=(),
        portions=tuple(
            PlacedPortion(each.box, tuple(("case", link) for link in each.links))
            for each in piece.portions
        ),
    )
    build = _case("slit", "high", shroud=False)
    return replace(build, bodies=(*build.bodies, sheet))


@pytest.mark.parametrize(
    ("width_mm", "told"),
    [(30.0, "through the shroud's opening"), (None, "on one side of the tray")],
)
def test_an_opening_that_a_lead_passes_in_the_shroud_is_named(
    width_mm: float | None, told: str
) -> None:
    # The slit is 10 wide and the plug 11: the lead stays before the tray.
    build = _over_supply(width_mm)
    finding = _one(build, _lead(900.0))
    assert told in finding.why
    edge = "shroud's opening from the rear"
    space = passages(build)
    assert space is not None
    (way,) = lead_ways(replace(build, plugs=(PROCESSOR,)), _lead(900.0), space)
    assert not isinstance(way, str)
    rests = [link.label for each in way.bearing for _, link in each.chain]
    assert (edge in rests) is (width_mm is not None)


@pytest.mark.parametrize(
    ("from_tray_mm", "near", "far"),
    [(20.0, {_NEAR: 1}, {_NEAR: 1, _WIDE: 1}), (0.0, {}, {_NEAR: 1, _WIDE: 1})],
)
def test_each_edge_of_an_opening_in_the_shroud_rests_on_what_places_it(
    from_tray_mm: float, near: dict[str, float], far: dict[str, float]
) -> None:
    (hole,) = shroud_opening(_over_supply(30.0, from_tray_mm=from_tray_mm))
    for z_mm, told in ((hole.box.low[2] + 4.0, near), (hole.box.high[2] - 4.0, far)):
        bears = hole.bears((304.0, 120.0, z_mm))
        counts = {link.label: bears.counted(link) for _, link in bears.chain}
        assert counts["shroud's opening from the rear"][0] == 1.0
        across = {label: count[2] for label, count in counts.items() if count[2]}
        assert across == told


def test_what_lets_no_plug_through_is_told() -> None:
    plug = replace(PROCESSOR, plug=replace(PROCESSOR.plug, size_mm=(32.0, 31.0)))
    build = _over_supply(30.0)
    notes = _asked(build, _lead(900.0), plugs=(plug,)).notes
    names = "of which cut-out slit, cut-out high and the shroud's opening let no plug "
    assert any(f"{names}of 32 by 31 mm through" in each for each in notes)
    assert not _asked(build, _lead(900.0), plugs=(plug,)).findings


@pytest.mark.parametrize(
    ("hole_mm", "lets"),
    [
        ((11.0, 40.0), True),
        ((10.9, 40.0), False),
        ((11.0, 25.0), True),  # turned lengthwise
        ((24.0, 24.0), False),
    ],
)
def test_a_plug_goes_through_straight_or_lengthwise(
    hole_mm: tuple[float, float], *, lets: bool
) -> None:
    hole = Passage("a hole", Box((0.0, 0.0, -1.0), (*hole_mm, 0.0)), 0.0)
    plug = replace(PROCESSOR.plug, size_mm=(36.0, 11.0))
    assert hole.lets(plug) is lets
    assert hole.lets(replace(plug, size_mm=(72.0, 11.0), sockets=2)) is lets


def test_without_a_way_the_opening_that_would_give_one_is_told() -> None:
    over = placed("box", Role.BLOCK, ((290, 400), (320, 400), (0, 180)))
    build = _case("high")
    shut = _asked(replace(build, bodies=(*build.bodies, over)), _lead(900.0))
    (told,) = [each for each in shut.notes if "no way" in each]
    # Before the board, whose edge is at 254: 10 off it, 30 wide, 100 high about 265.
    assert "an opening before the board would let it through" in told
    assert "(from rear 264, from floor 215, depth 30, height 100)" in told
    opened = _case("high", "before")
    assert _asked(replace(opened, bodies=(*opened.bodies, over)), _lead(900.0)).findings


DRIVE_AT: tuple[Vector, ...] = (
    (350.0, 60.0, 60.0),
    (350.0, 90.0, 60.0),
    (350.0, 60.0, 150.0),
)


def _drives(*at: Vector) -> tuple[PlacedPlug, ...]:
    return tuple(
        _plug(f"disk {k}", each, ConnectorKind.DRIVE_POWER)
        for k, each in enumerate(at, start=1)
    )


def _drive_lead(**changes: object) -> PlacedLead:
    plain = {
        "name": "drive lead",
        "kinds": frozenset({ConnectorKind.DRIVE_POWER}),
        "plugs": 3,
        "leads": 2,
        "between": given(150.0, 0.0),
    }
    return _lead(500.0, **{**plain, **changes})


def test_plugs_on_one_lead_are_counted_from_plug_to_plug() -> None:
    answer = _asked(_case(), _drive_lead(), plugs=_drives(*DRIVE_AT[:2]))
    first, second = answer.findings
    assert "of 500" in first.why
    assert "of 150" in second.why
    assert "plug to plug" not in " ".join(first.assumed)
    # Both bends, and the 30 mm between the drives.
    assert second.gap_mm is not None
    assert 150.0 - second.gap_mm < 30.0 + 2 * 15.0


def test_a_plug_too_far_for_the_lead_gets_another_lead() -> None:
    lead = _drive_lead(between=given(75.0, 0.0))
    answer = _asked(_case(), lead, plugs=_drives(*DRIVE_AT))
    lengths = sorted(
        each.why.split(" of ")[1].split(" ")[0] for each in answer.findings
    )
    assert lengths == ["500", "500", "75"]
    assert not any(each.verdict.fails for each in answer.findings)


def test_a_lead_whose_plugs_are_all_used_counts_before_the_next_one() -> None:
    near = ((100.0, 60.0, 40.0), (110.0, 60.0, 40.0))
    far = ((120.0, 60.0, 40.0), (340.0, 400.0, 40.0))
    few, enough = (
        _asked(
            _case(),
            _drive_lead(between=given(75.0, 0.0), plugs=2, leads=count),
            plugs=_drives(*near, *far),
        )
        for count in (2, 3)
    )
    # Of two leads the second must serve the far drive from plug to plug.
    assert sum(" of 75 " in each.why for each in few.findings) == 2
    assert sum(" of 75 " in each.why for each in enough.findings) == 1


def test_a_need_of_the_file_is_the_slack() -> None:
    build = replace(_case("high"), needs=(("processor-lead-reach", 80.0),))
    finding = _one(build, _lead(900.0))
    assert finding.need_mm == 80.0
    assert finding.source == "given in the file"


def test_the_group_can_be_left_out() -> None:
    build = replace(_case("high"), leads=(_lead(100.0),), plugs=(PROCESSOR,))
    only = check(build, groups=frozenset({Group.DISTANCE}))
    assert [each for each in only.findings if each.group is Group.REACH] == []
    asked = check(build, groups=frozenset({Group.REACH}))
    assert [each.verdict for each in asked.findings] == [Verdict.SHORT]


def test_a_build_without_a_case_asks_nothing() -> None:
    build = replace(build_of(placed("board", Role.BOARD, ((0, 1), (0, 1), (0, 1)))))
    assert _asked(build, _lead(500.0)) == Answered()
