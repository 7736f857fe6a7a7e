from __future__ import annotations

from collections import Counter

import pytest

from layout.geometry.space import Axis
from layout.parts.form.form import Role
from layout.questions.checking.check import check
from layout.questions.clearances.rules import RULES, Rule
from layout.standards.figure import COMMON_PRACTICE
from tests.questions.builds import build_of, placed


def test_names_are_unique() -> None:
    assert not [n for n, k in Counter(rule.name for rule in RULES).items() if k > 1]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_every_rule_says_why_who_says_so_and_what_to_do(rule: Rule) -> None:
    assert rule.why
    assert all(each.told for each in rule.remedies)
    assert rule.source == COMMON_PRACTICE or len(rule.source) > len("a guide")
    assert rule.need_mm > 0


def test_the_room_behind_the_tray_is_asked_where_cables_can_be_led_there() -> None:
    tray = placed("case/tray", Role.TRAY, ((0, 400), (0, 400), (-1, 0)))
    back = placed("case/back panel", Role.BACK_PANEL, ((0, 400), (0, 400), (-9, -8)))
    hole = placed("case/cut-out edge", Role.CUT_OUT, ((300, 330), (9, 90), (-1, 0)))
    asked_of = {each.rule for each in check(build_of(tray, back, hole)).findings}
    assert "room-behind-tray" in asked_of
    assert check(build_of(tray, back)).findings == ()


def test_a_board_over_a_hole_covers_it() -> None:
    board = placed("board", Role.BOARD, ((0, 310), (0, 300), (6, 8)))
    hole = placed("case/cut-out edge", Role.CUT_OUT, ((300, 330), (9, 90), (-1, 8)))
    (finding,) = check(build_of(board, hole)).findings
    assert finding.advice.startswith(
        "the board covers 10.0 mm of the cut-out “edge”; 15.0 mm must give along depth"
    )


def test_a_hole_that_a_board_covers_wholly_is_told_as_that() -> None:
    board = placed("board", Role.BOARD, ((0, 340), (0, 300), (6, 8)))
    hole = placed("case/cut-out edge", Role.CUT_OUT, ((300, 330), (9, 90), (-1, 8)))
    (finding,) = check(build_of(board, hole)).findings
    assert finding.advice.startswith(
        "the board covers the whole of the cut-out “edge”, and no cable passes there: "
    )


def test_a_hole_may_be_covered_from_any_side() -> None:
    hole = placed("case/cut-out edge", Role.CUT_OUT, ((300, 330), (9, 90), (-1, 8)))
    for spans, axis, sign in (
        (((0, 310), (0, 300), (6, 8)), Axis.DEPTH, 1),
        (((325, 400), (0, 300), (6, 8)), Axis.DEPTH, -1),
        (((0, 400), (0, 12), (6, 8)), Axis.HEIGHT, 1),
        (((0, 400), (80, 300), (6, 8)), Axis.HEIGHT, -1),
    ):
        (finding,) = check(build_of(placed("board", Role.BOARD, spans), hole)).findings
        assert finding.overlap is not None
        assert (finding.overlap.axis, finding.overlap.sign) == (axis, sign)


@pytest.mark.parametrize("role", [Role.FAN, Role.RADIATOR])
def test_fans_at_the_top_keep_off_what_stands_at_the_front(role: Role) -> None:
    top = placed("top", Role.FAN, ((280, 370), (400, 425), (0, 120)), where="top")
    front = placed("front", role, ((370.4, 400), (20, 415), (0, 120)), where="front")
    (finding,) = check(build_of(top, front)).findings
    assert (finding.rule, finding.verdict.value) == ("top-fans-to-front", "short")
    assert finding.margin_mm == pytest.approx(-0.6)
    assert ("radiator" in finding.advice) is (role is Role.RADIATOR)
