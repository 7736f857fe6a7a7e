from __future__ import annotations

import pytest

from layout.build.placed import PlacedBody
from layout.drawing.sheets.sheet import NAMED, plans
from layout.drawing.views.seen import Seen, seen
from layout.drawing.views.views import View
from layout.geometry.space import Box
from layout.parts.form.form import Role
from tests.drawing.samples import Span, placed

_SIDE, _TOP = plans(
    Box((0, 0, -25), (430, 460, 210)), in_case=True, sheets=NAMED["A2"]
)[0].views
_NEAR: tuple[Span, Span, Span] = ((100, 200), (100, 200), (100, 150))
_FAR: tuple[Span, Span, Span] = ((120, 180), (120, 180), (10, 50))


def _seen(view: View, *bodies: PlacedBody) -> list[Seen]:
    return list(seen(bodies, view))


@pytest.mark.parametrize("turned", [False, True])
def test_what_lies_nearer_hides_whatever_the_order(*, turned: bool) -> None:
    bodies = [placed("near", Role.CARD, _NEAR), placed("far", Role.BOARD, _FAR)]
    shown = {
        each.body.name: each
        for each in _seen(_SIDE, *(reversed(bodies) if turned else bodies))
    }
    assert shown["far"].hidden
    assert not shown["near"].hidden


def test_in_the_top_view_what_lies_higher_hides() -> None:
    low = placed("low", Role.SUPPLY, ((0, 100), (0, 80), (0, 100)))
    high = placed("high", Role.CARD, ((50, 150), (200, 250), (0, 100)))
    first, second = _seen(_TOP, low, high)
    assert first.visible.area == pytest.approx(first.outline.area / 2)
    assert second.visible.area == pytest.approx(second.outline.area)


@pytest.mark.parametrize(
    "role", [Role.SIDE_PANEL, Role.SHROUD, Role.CAGE, Role.GRILLE, Role.CUT_OUT]
)
def test_sheets_cage_and_places_hide_nothing(role: Role) -> None:
    first, _ = _seen(_SIDE, placed("far", Role.BOARD, _FAR), placed("it", role, _NEAR))
    assert first.visible.area == pytest.approx(first.outline.area)


def test_the_tray_hides_what_lies_behind_it_in_the_side_view_only() -> None:
    tray = placed("case/tray", Role.TRAY, ((0, 430), (0, 460), (-1, 0)))
    behind = placed("drive", Role.DRIVE, ((10, 100), (10, 80), (-10, -3)))
    before = placed("board", Role.BOARD, ((10, 100), (10, 80), (6, 8)))
    assert [each.hidden for each in _seen(_SIDE, tray, behind, before)] == [
        False,
        True,
        False,
    ]
    assert not any(each.hidden for each in _seen(_TOP, tray, behind, before))


def test_what_is_fixed_to_the_top_is_an_outline_in_the_top_view_only() -> None:
    fan = placed("fan", Role.FAN, ((100, 220), (435, 460), (20, 140)), where="top")
    board = placed("board", Role.BOARD, ((110, 210), (100, 400), (30, 40)))
    over, under = _seen(_TOP, fan, board)
    assert over.see_through
    assert under.visible.area == pytest.approx(under.outline.area)
    assert not _seen(_SIDE, fan, board)[0].see_through


def test_bodies_at_one_level_do_not_hide_each_other() -> None:
    bodies = [placed(name, Role.BLOCK, _NEAR) for name in ("one", "other")]
    assert not any(each.hidden for each in _seen(_SIDE, *bodies))
