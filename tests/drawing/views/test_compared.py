"""What if I take the shorter card: two builds, and what has changed."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from layout.build.placed import Build, PlacedPart
from layout.drawing.composed.compose import scene
from layout.drawing.paper.boxes import texts
from layout.drawing.paper.scene import Line, Pen, Scene
from layout.drawing.views.compared import Before, changes_first, earlier
from layout.files.build_file import read_build
from layout.geometry.space import ORIGIN
from layout.parts.form.form import Role
from layout.questions.checking.check import check
from layout.questions.findings.finding import Check
from tests.drawing.reading import drawn_lines, outlines, outside, overlapping, struck
from tests.drawing.samples import Asked, check_of, clear_tower, placed

_CASES = Path(__file__).parents[3] / "cases"

_ASKED: tuple[Asked, ...] = (("card", "front fans/fan 2", 5.0, 1.0),)


def _with_card(length_mm: float) -> tuple[Build, Check]:
    build, _ = clear_tower()
    card = placed("card", Role.CARD, ((0, length_mm), (220, 260), (15, 130)))
    made = replace(build, bodies=(*build.bodies, card))
    return made, check_of(made, _ASKED)


def _drawn() -> Scene:
    long, short = _with_card(402.0), _with_card(280.0)
    return scene(*short, before=Before(*long))


def _lines(drawn: Scene, pen: Pen) -> list[Line]:
    return [
        each
        for each in drawn.items
        if isinstance(each, Line) and each.pen is pen and each.ref
    ]


def test_what_has_changed_is_outlined_as_it_is_and_as_it_was() -> None:
    drawn = _drawn()
    heavy = _lines(drawn, Pen.HEAVY)
    was = [each for each in _lines(drawn, Pen.PLACE) if each.ref == "card"]
    assert {each.ref for each in heavy} == {"card"}
    scale = drawn.scale[0] / drawn.scale[1]
    for lines, length_mm in ((heavy, 280.0), (was, 402.0)):
        xs = [x for each in lines for x, _ in each.points]
        assert round(max(xs) - min(xs), 6) == round(length_mm * scale, 6)


def test_what_is_hidden_in_a_view_is_outlined_where_it_is_seen() -> None:
    build, _ = clear_tower()
    spans = ((150.0, 220.0), (100.0, 160.0), (-20.0, -10.0))  # behind the tray
    more = replace(build, bodies=(*build.bodies, placed("disk", Role.DRIVE, spans)))
    drawn = scene(more, check_of(more, ()), before=Before(build, check_of(build, ())))
    heavy = [each for each in _lines(drawn, Pen.HEAVY) if each.ref == "disk"]
    highest = max(y for each in heavy for _, y in each.points)
    lowest = min(y for each in heavy for _, y in each.points)
    assert highest - lowest == pytest.approx(10.0 * drawn.scale[0] / drawn.scale[1])


def test_the_table_tells_the_gap_before_and_after() -> None:
    said = [each.text for each in texts(_drawn())]
    assert "before" in said
    assert {"3", "125"} <= set(said)
    assert any("too close by 2 mm" in each for each in said)


def test_an_answer_is_found_by_its_id() -> None:
    long, short = _with_card(402.0), _with_card(280.0)
    (finding,) = short[1].findings
    was = earlier(Before(*long), finding)
    assert was is not None
    assert was.gap_mm == 3.0
    assert earlier(Before(*long), replace(finding, id="other")) is None


def test_nothing_is_outlined_where_nothing_has_changed() -> None:
    build, found = _with_card(280.0)
    drawn = scene(build, found, before=Before(build, found))
    assert _lines(drawn, Pen.HEAVY) == []
    assert not any("changed" in each.text for each in texts(drawn))


def test_in_another_case_parts_alone_are_outlined_and_nothing_as_it_was() -> None:
    (long, found), (short, answer) = _with_card(402.0), _with_card(280.0)
    elsewhere = replace(
        long,
        case_name="other",
        bodies=tuple(
            replace(each, body=replace(each.body, at_mm=(7.0, 0.0, 0.0)))
            for each in long.bodies
        ),
    )
    drawn = scene(short, answer, before=Before(elsewhere, found))
    assert {each.ref for each in _lines(drawn, Pen.HEAVY)} == {"card"}
    assert not [each for each in _lines(drawn, Pen.PLACE) if each.ref == "card"]
    assert any("in the case “other”" in each.text for each in texts(drawn))


def test_parts_of_one_of_the_two_alone_are_named() -> None:
    build, answer = _with_card(280.0)
    extra = PlacedPart(
        key="post", kind="post", size="", seat="", at_mm=ORIGIN, approach=None
    )
    more = replace(build, parts=(*build.parts, extra))
    gone = scene(build, answer, before=Before(more, answer))
    new = scene(more, answer, before=Before(build, answer))
    assert any("Gone: post." in each.text for each in texts(gone))
    assert any("New: post." in each.text for each in texts(new))


def test_lettering_stands_free_all_the_same() -> None:
    drawn = _drawn()
    assert overlapping(drawn) == []
    assert outside(drawn) == []
    assert struck(drawn, drawn_lines(drawn)) == []
    assert struck(drawn, outlines(drawn)) == []


def test_a_plug_whose_cable_leaves_otherwise_is_outlined_with_its_room() -> None:
    was, now = (
        read_build(_CASES / f"{name}-build.yaml")
        for name in ("render", "render-angled")
    )
    told, before = check(now), Before(was, check(was))
    drawn = scene(now, told, before=before)
    heavy, dashed = (
        [each for each in _lines(drawn, pen) if each.ref == "card/plug"]
        for pen in (Pen.HEAVY, Pen.PLACE)
    )
    highest = [
        max(y for one in each for _, y in one.points) for each in (heavy, dashed)
    ]
    assert highest[0] > highest[1]  # up along the board, and no more to the panel
    worst, changed, *_ = changes_first(before, told).findings
    assert worst == told.findings[0]
    assert changed != told.findings[1]
    assert earlier(before, changed) != changed
