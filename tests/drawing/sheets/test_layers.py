"""Layers: what is no matter, drawn on request and over nothing that must be read."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from layout.drawing.composed.compose import scene
from layout.drawing.ink.figure import render
from layout.drawing.paper.boxes import texts
from layout.drawing.paper.scene import Ink, Line, Pen, Scene
from layout.drawing.sheets.asked import AskedError
from layout.drawing.sheets.layers import Layer, layers_named
from layout.files.build_file import read_build
from layout.questions.checking.check import check
from tests.drawing.reading import drawn_lines, outside, overlapping, struck

_CASES = Path(__file__).parents[3] / "cases"
EVERY = tuple(Layer)


@cache
def _drawn(name: str, layers: tuple[Layer, ...]) -> Scene:
    build = read_build(_CASES / f"{name}-build.yaml")
    return scene(build, check(build), layers=layers)


def _lines(drawn: Scene, layer: Layer) -> list[Line]:
    return [
        each
        for each in drawn.items
        if isinstance(each, Line) and each.ref == f"layer {layer.value}"
    ]


def test_a_drawing_is_quiet_without_them() -> None:
    quiet = _drawn("transcript", ())
    assert not [each for layer in Layer for each in _lines(quiet, layer)]
    assert not any(each.id.startswith("layer") for each in quiet.subjects)


@pytest.mark.parametrize("layer", Layer)
def test_a_layer_alone_draws_itself_alone(layer: Layer) -> None:
    drawn = _drawn("transcript", (layer,))
    assert [each for each in Layer if _lines(drawn, each)] == [layer]


def test_each_layer_is_one_group_of_the_file() -> None:
    svg = render(_drawn("transcript", EVERY), "svg").decode()
    for layer in Layer:
        assert svg.count(f'<g id="layer-{layer.value}') == 1


def test_lettering_stays_readable_over_them() -> None:
    drawn = _drawn("transcript", EVERY)
    assert overlapping(drawn) == []
    assert outside(drawn) == []
    assert struck(drawn, drawn_lines(drawn)) == []


def test_the_legend_says_what_their_lines_are() -> None:
    said = {each.text for each in texts(_drawn("transcript", EVERY))}
    assert {"plug", "lead", "lead behind the tray", "room to bend"} <= said


def test_leads_are_named_and_dashed_behind_the_tray_and_red_where_too_short() -> None:
    drawn = _drawn("transcript", (Layer.LEADS,))
    said = {each.text for each in texts(drawn)}
    assert "processor lead" in said
    lines = _lines(drawn, Layer.LEADS)
    assert {Ink.LEAD, Ink.FAIL} == {each.ink for each in lines}
    assert {Pen.WIDE, Pen.HIDDEN} == {each.pen for each in lines}


def test_what_has_no_room_to_bend_is_red_until_its_plug_is_angled() -> None:
    straight = _lines(_drawn("render", (Layer.BENDS,)), Layer.BENDS)
    angled = _lines(_drawn("render-angled", (Layer.BENDS,)), Layer.BENDS)
    assert any(each.ink is Ink.FAIL for each in straight)
    assert not any(each.ink is Ink.FAIL for each in angled)


def test_names_come_in_any_order_and_an_unknown_one_is_refused() -> None:
    assert layers_named(None) == ()
    assert layers_named("leads, Screws") == (Layer.SCREWS, Layer.LEADS)
    with pytest.raises(AskedError, match="found 'wires'; some of bends, leads, plugs"):
        layers_named("leads,wires")
