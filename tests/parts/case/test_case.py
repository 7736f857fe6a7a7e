"""Cases: walls that touch, sizes from limits, and what disagrees."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import combinations

import pytest

from layout.geometry.bodies.body import Body, Shape
from layout.geometry.relations.query import relations
from layout.geometry.relations.relation import State
from layout.geometry.space import Direction
from layout.parts.case.case import Case
from layout.parts.case.case_bays import Bays
from layout.parts.case.case_fields import (
    BayPlace,
    CageRail,
    CutOut,
    Face,
    LimitWith,
    Mount,
    Position,
    Shroud,
    SupplyBay,
    Takes,
)
from layout.parts.case.case_stands import ConnectorsAt
from layout.parts.form.errors import PartError
from layout.parts.form.form import Role, Seat
from layout.parts.supply.supply import SupplyShape
from tests.build.machines import small_case, tower_case
from tests.parts.seats import box, mm, piece, size_mm

SLIT = CutOut(from_rear=mm(100), from_floor=mm(1), depth=mm(20), height=mm(600))
BARE = Case(depth=mm(400), height=mm(450), width=mm(190))


def seats(case: Case) -> dict[str, Seat]:
    return {each.name: each for each in case.form().seats}


@pytest.mark.parametrize("case", [tower_case(), small_case(), BARE])
def test_walls_touch_and_never_overlap(case: Case) -> None:
    bodies = [
        Body(name=each.name, shape=Shape(each.solids))
        for each in case.form().pieces
        if each.role not in {Role.CUT_OUT, Role.SHROUD}
    ]
    states = {(each.a, each.b): each.state for each in relations(bodies)}
    assert State.INTERFERING not in states.values()
    for a, b in combinations(("floor", "front", "side panel"), 2):
        found = {states.get((a, b)), states.get((b, a))}
        assert State.TOUCHING in found


def test_inside_faces_lie_where_the_tape_says() -> None:
    form = BARE.form()
    assert box(form, "front").low[0] == 400
    assert box(form, "top").low[1] == 450
    assert box(form, "side panel").low[2] == 190
    assert box(form, "rear").high[0] == 0
    assert box(form, "floor").high[1] == 0
    assert box(form, "tray").high[2] == 0
    assert form.notes == ()


def test_the_board_hangs_so_far_under_the_top_as_the_case_says() -> None:
    case = replace(BARE, room_over_board=mm(30))
    assert seats(case)["board"].at_mm == pytest.approx((2.11, 450 - 30 - 304.8, 6.35))


@pytest.mark.parametrize(
    ("form", "room_mm"), [(SupplyShape.ATX, 86 + 15), (SupplyShape.SFX, 63.5 + 15)]
)
def test_a_supply_on_top_hangs_over_the_board_by_default(
    form: SupplyShape, room_mm: float
) -> None:
    bay = SupplyBay(place=BayPlace.TOP_REAR, form=form)
    on_top = replace(BARE, supply_bay=bay)
    assert seats(on_top)["board"].at_mm[1] == pytest.approx(450 - room_mm - 304.8)
    told = replace(on_top, room_over_board=mm(30))
    assert seats(told)["board"].at_mm[1] == pytest.approx(450 - 30 - 304.8)
    turned = replace(on_top, connectors=ConnectorsAt.TOP)
    usual = replace(BARE, connectors=ConnectorsAt.TOP)
    assert seats(turned)["board"].at_mm == seats(usual)["board"].at_mm


def test_the_first_slots_line_places_the_board_too() -> None:
    case = replace(BARE, first_slot=mm(260))
    assert seats(case)["board"].at_mm[1] == pytest.approx(260 - 139.7)
    assert case.form().notes == ()


def test_two_figures_for_the_boards_place_are_compared() -> None:
    close = replace(BARE, room_over_board=mm(30), first_slot=mm(257))
    far = replace(BARE, room_over_board=mm(30), first_slot=mm(270))
    assert close.form().notes == ()
    (note,) = far.form().notes
    assert "the case says 270: they disagree by 15.1 mm" in note


def test_width_and_depth_come_from_limits_where_they_are_not_given() -> None:
    case = Case(
        height=mm(450),
        tallest_cooler=mm(165),
        longest_card=mm(370),
        longest_card_with=LimitWith.FANS,
    )
    front, panel = box(case.form(), "front"), box(case.form(), "side panel")
    assert front.low[0] == 370 + 25 + 5  # the play a card of that length needs
    assert panel.low[2] == pytest.approx(165 + 6.35 + 1.57 + 7.781 + 2)
    assert [note.split(" derived")[0] for note in case.form().notes] == [
        "inside depth 400",
        "inside width 182.7",
    ]
    no_fans = replace(case, longest_card_with=LimitWith.NO_FANS)
    assert box(no_fans.form(), "front").low[0] == 370 + 5


@pytest.mark.parametrize(
    ("fields", "note"),
    [
        ({"longest_card": mm(376)}, None),
        (
            {"longest_card": mm(399)},
            "no front fans, the limit would agree; the inside depth places the walls",
        ),
        (
            {"longest_card": mm(340)},
            "front fans disagree by 35.0 mm; the inside depth places the walls",
        ),
        ({"tallest_cooler": mm(176)}, None),
        (
            {"tallest_cooler": mm(182)},
            "'board surface' would explain it; the inside width places the walls",
        ),
        (
            {"tallest_cooler": mm(150)},
            "over a processor of LGA1155, 7.78 high; the inside width places the walls",
        ),
    ],
)
def test_limits_that_disagree_with_the_tape_are_told(
    fields: dict[str, object], note: str | None
) -> None:
    said = replace(BARE, longest_card_with=LimitWith.FANS)
    notes = replace(said, **fields).form().notes  # type: ignore[arg-type]
    assert len(notes) == (note is not None)
    assert note is None or notes[0].endswith(note)


def test_a_longest_card_may_end_at_the_cage_or_the_supply() -> None:
    said = replace(BARE, longest_card=mm(240))
    rail = CageRail(positions=(("low", Position(from_rear=mm(245))),))
    (note,) = replace(said, cage_rail=rail).form().notes
    assert note == (
        "longest card 240 ends before the cage at its position low, 245 from the rear "
        "panel"
    )
    beyond = replace(said, longest_card=mm(399), longest_card_with=LimitWith.FANS)
    (other,) = replace(beyond, cage_rail=rail).form().notes
    assert "told with no front fans, the limit would agree" in other
    assert "may end there" not in other
    bay = SupplyBay(place=BayPlace.FRONT, form=SupplyShape.SFX, from_rear=mm(260))
    disagree, not_said = replace(said, supply_bay=bay).form().notes
    assert "disagree by 135.0 mm; the supply begins 260 from the rear" in disagree
    assert "does not say with what at the front" in not_said


@pytest.mark.parametrize(
    ("from_floor_mm", "limit_mm", "ends"),
    [
        # by hand: 400 deep less a drive of 203; slot 1 lies 440 - 25 - 165.1 high
        (200, 197, True),
        (200, 190, True),
        (200, 150, False),
        (270, 197, None),
    ],
)
def test_a_longest_card_may_end_at_the_bays(
    from_floor_mm: float, limit_mm: float, *, ends: bool | None
) -> None:
    bays = Bays(count=1, from_floor=mm(from_floor_mm))
    case = Case(
        depth=mm(400),
        height=mm(440),
        width=mm(190),
        bays=bays,
        longest_card=mm(limit_mm),
        longest_card_with=LimitWith.FANS,
    )
    (note,) = case.form().notes
    if ends:
        assert note == (
            f"longest card {limit_mm} ends before a drive 203 long in the bays, 197 "
            "from the rear panel"
        )
    else:
        told = "a drive 203 long in the bays begins 197 from the rear panel"
        assert (told in note) is (ends is not None)
        assert "disagree by" in note


def test_a_longest_supply_should_meet_a_cage_position() -> None:
    assert replace(tower_case(), longest_supply_with="rear").form().notes == ()
    (note,) = (
        replace(tower_case(), longest_supply=mm(220), longest_supply_with=None)
        .form()
        .notes
    )
    assert note == (
        "longest supply 220 meets no cage position; the nearest is 30.0 mm off; the "
        "position's own place is used"
    )


def test_cut_outs_are_holes_and_those_for_cables_are_places() -> None:
    form = tower_case().form()
    tray = piece(form, "tray").solids[0]
    places = [each.name for each in form.pieces if each.role is Role.CUT_OUT]
    assert len(tray.side.interiors) == 2
    assert places == ["cut-out front"]
    assert size_mm(box(form, "cut-out front"))[:2] == (35, 250)


def test_a_supply_breathes_through_a_grille_at_floor_or_top() -> None:
    top = replace(BARE, supply_bay=SupplyBay(place=BayPlace.TOP_REAR))
    solid = replace(BARE, supply_bay=SupplyBay(vented=False))
    assert box(BARE.form(), "perforated floor").high[1] == 0
    assert box(top.form(), "perforated top").low[1] == 450
    assert seats(top)["supply bay"].at_mm[1] == 450  # from there it extends down
    names = {each.name for each in solid.form().pieces}
    assert not {each for each in names if each.startswith("perforated")}


@pytest.mark.parametrize(
    ("row", "shroud", "end_mm"),
    [
        (Takes(size=140, count=2), Shroud(height=mm(100)), 340),  # from 85 on
        (Takes(size=120, count=2), Shroud(height=mm(100)), 400),  # from 105 on
        (Takes(size=120, count=2, start=mm(40)), Shroud(height=mm(100)), 340),
        (Takes(count=3), Shroud(height=mm(100), to_depth=mm(390)), 390),
        (Takes(count=3), Shroud(height=mm(100), from_depth=mm(350)), 400),
    ],
)
def test_an_untold_shroud_ends_before_fans_that_reach_below_it(
    row: Takes, shroud: Shroud, end_mm: float
) -> None:
    case = replace(BARE, shroud=shroud, mounts=(("front", Mount(takes=(row,))),))
    form = case.form()
    assert box(form, "shroud").high == (end_mm, 101, 190)
    ends = [link for link in piece(form, "shroud").links if link.figure.assumed]
    assert [link.entry for link in ends] == ["shroud.to depth"] * (end_mm == 340)


def test_a_vented_shroud_is_a_grille() -> None:
    for vented, role in ((False, Role.SHROUD), (True, Role.GRILLE)):
        shroud = Shroud(height=mm(100), to_depth=mm(250), vented=vented)
        form = replace(BARE, shroud=shroud).form()
        assert piece(form, "shroud").role is role
        assert box(form, "shroud").low == (0, 100, 0)
        assert box(form, "shroud").high == (250, 101, 190)


@pytest.mark.parametrize(
    ("name", "at_mm", "approach"),
    [
        ("front", (400, 0, 95), Direction.FRONT),
        ("top", (0, 450, 95), Direction.UP),
        ("floor", (0, 0, 95), Direction.DOWN),
        # beside the rear connectors: 51 + 120 / 2
        ("rear", (0, 0, 111), Direction.REAR),
        ("panel side", (0, 225, 190), Direction.PANEL),
        ("tray side", (0, 225, 0), Direction.TRAY),
    ],
)
def test_mounts_lie_on_the_inside_of_their_face(
    name: str, at_mm: tuple[float, float, float], approach: Direction
) -> None:
    mount = Mount(takes=(Takes(size=120),))
    found = seats(replace(BARE, mounts=((name, mount),)))[name]
    assert (found.at_mm, found.approach, found.face) == (at_mm, approach, name)
    assert {link.figure.assumed for link in found.rows[0].links} == {True}


def test_an_outer_side_lies_beyond_the_sheet_and_ends_at_its_cover() -> None:
    mount = Mount(face=Face.FRONT, takes=(Takes(size=120),), outside=mm(30))
    case = replace(BARE, mounts=(("nose", mount),))
    outer = seats(case)["nose outer"]
    assert outer.at_mm[0] == 401
    assert outer.approach is Direction.REAR
    assert box(case.form(), "nose cover").low[0] == 431


def test_openings_are_as_many_as_the_case_has() -> None:
    some, none = BARE.form().openings, replace(BARE, slots=0).form().openings
    slots = some[1].box
    assert len(none) == 1
    assert slots.high[1] - slots.low[1] == pytest.approx(6 * 20.32 + 18.42)


@pytest.mark.parametrize(
    ("fields", "message"),
    [
        ({"depth": None}, "depth: found nothing; right would be the inside depth, or"),
        ({"width": None}, "width: found nothing; right would be the inside width, or"),
        (
            {"mounts": (("nose", Mount(takes=(Takes(),))),)},
            "a mount without its face; right would be 'face' with one of front",
        ),
        (
            {"shroud": Shroud(height=mm(100), from_depth=mm(400))},
            "shroud: found a shroud from 400 to 400 mm; right would be 'from depth'",
        ),
        (
            {"cut_outs": (("slit", SLIT),)},
            "cut outs.slit: found a hole up to 120 from the rear, 601 from the floor",
        ),
    ],
)
def test_cases_that_are_none(fields: dict[str, object], message: str) -> None:
    with pytest.raises(PartError, match=re.escape(message)):
        replace(BARE, **fields)  # type: ignore[arg-type]


def test_a_mount_that_takes_nothing_is_none() -> None:
    with pytest.raises(PartError, match="takes: found no row of fans"):
        Mount(takes=())
    with pytest.raises(PartError, match="or 'radiators' of 120, 140, 240"):
        Mount(radiators=(200,))


def test_a_mount_told_by_its_radiators_takes_their_fans() -> None:
    mount = Mount(radiators=(240, 360, 280))
    assert mount.fan_rows == (Takes(size=120, count=3), Takes(size=140, count=2))
    assert Mount(takes=(Takes(),), radiators=(360,)).fan_rows == (Takes(),)
    told = replace(BARE, mounts=(("front", mount),)).form()
    asked = replace(mount, takes=mount.fan_rows)
    same = replace(BARE, mounts=(("front", asked),)).form()
    assert (told.seats, told.pieces) == (same.seats, same.pieces)
    (note,) = set(told.notes) - set(same.notes)
    assert note.startswith("case: front fans in rows of 3 x 120 or 2 x 140, as the")


def test_holes_that_cut_a_piece_out_of_the_tray_are_none() -> None:
    ring = tuple(
        (
            name,
            CutOut(from_rear=mm(x), from_floor=mm(y), depth=mm(deep), height=mm(high)),
        )
        for name, x, y, deep, high in (
            ("lower", 50, 50, 90, 9),
            ("upper", 50, 99, 90, 9),
            ("rear", 50, 50, 9, 58),
            ("front", 131, 50, 9, 58),
        )
    )
    with pytest.raises(PartError, match="holes that leave no tray in one piece"):
        replace(BARE, cut_outs=ring)


def test_no_position_is_named_like_a_cage_taken_out() -> None:
    with pytest.raises(PartError, match="positions: found a position named out"):
        CageRail(positions=(("out", Position(from_rear=mm(200))),))


def test_a_row_of_fans_that_leaves_the_case_is_refused() -> None:
    row = Takes(size=120, count=3, start=mm(200))
    with pytest.raises(PartError, match=r"mounts\.top\.takes: found 3 fans of 120 up"):
        Case(
            depth=mm(430),
            height=mm(460),
            width=mm(186),
            mounts=(("top", Mount(takes=(row,))),),
        )


def test_a_tray_may_end_before_the_front() -> None:
    case = Case(depth=mm(430), height=mm(460), width=mm(186), tray_to_depth=mm(380))
    assert box(case.form(), "tray").high[0] == 380


def test_a_limit_that_does_not_say_with_what_it_was_told_is_noted() -> None:
    (card,) = replace(BARE, longest_card=mm(376)).form().notes
    (supply,) = tower_case().form().notes
    assert card.startswith("longest card 376: the case does not say with what at the ")
    assert card.endswith("front, read as front fans")
    assert supply.startswith("longest supply 190: the case does not say with which ")
    assert supply.endswith("cage position, read as with any")


def test_the_height_of_a_case_with_hanging_cards_comes_from_their_limit() -> None:
    case = Case(
        connectors=ConnectorsAt.TOP,
        depth=mm(380),
        tallest_cooler=mm(160),
        longest_card=mm(330),
        longest_card_with=LimitWith.FLOOR_FANS,
    )
    assert box(case.form(), "top").low[1] == 330 + 25 + 5
    told = [note for note in case.form().notes if "derived" in note]
    assert told[0].startswith("inside height 360 derived: longest card 330 told with")
    bare = replace(case, longest_card_with=LimitWith.NO_FLOOR_FANS)
    assert box(bare.form(), "top").low[1] == 330 + 5


@pytest.mark.parametrize(
    ("connectors", "field"),
    [(ConnectorsAt.TOP, "depth"), (ConnectorsAt.REAR, "height")],
)
def test_the_size_that_no_card_lies_along_must_be_given(
    connectors: ConnectorsAt, field: str
) -> None:
    with pytest.raises(PartError, match=f"{field}: found nothing.*the inside {field}"):
        Case(connectors=connectors, width=mm(190), longest_card=mm(330))
