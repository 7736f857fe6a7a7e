from __future__ import annotations

import re
import struct
import subprocess
import sys
from functools import cache
from xml.etree import ElementTree as ET

import pytest

from layout.drawing.composed.compose import scene
from layout.drawing.ink.figure import render
from layout.drawing.paper.boxes import texts
from layout.drawing.paper.scene import Scene, Text
from tests.drawing.samples import blocks

_KINDS = ("svg", "png", "pdf")
_AGAIN = """
import hashlib
from layout.drawing.composed.compose import scene
from layout.drawing.ink.figure import render
from tests.drawing.samples import blocks
drawn = scene(*blocks())
for kind in ("svg", "png", "pdf"):
    print(hashlib.sha256(render(drawn, kind)).hexdigest())
"""


@cache
def _drawn() -> Scene:
    return scene(*blocks())


@cache
def _bytes(kind: str) -> bytes:
    return render(_drawn(), kind)


def _svg() -> ET.Element:
    return ET.fromstring(_bytes("svg"))  # noqa: S314 - our own file


@pytest.mark.parametrize("kind", _KINDS)
def test_same_bytes_in_one_process(kind: str) -> None:
    assert render(_drawn(), kind) == _bytes(kind)


def test_same_bytes_in_two_processes_of_other_hash_order() -> None:
    outputs = [
        subprocess.run(
            [sys.executable, "-c", _AGAIN],
            check=True,
            capture_output=True,
            text=True,
            env={"PYTHONHASHSEED": seed, "PATH": "", "PYTHONPATH": "."},
        ).stdout
        for seed in ("1", "2")
    ]
    assert outputs[0] == outputs[1]
    assert len(outputs[0].split()) == 3


def test_svg_keeps_every_text_as_text() -> None:
    said = {
        "".join(each.itertext())
        for each in _svg().iter("{http://www.w3.org/2000/svg}text")
    }
    assert {each.text for each in texts(_drawn())} <= said


def test_svg_is_true_to_size() -> None:
    width, height = (_svg().attrib[each] for each in ("width", "height"))
    points = [float(re.sub("pt$", "", each)) for each in (width, height)]
    assert points == pytest.approx([420 / 25.4 * 72, 297 / 25.4 * 72], abs=1e-3)


def test_svg_text_stands_where_the_scene_says() -> None:
    (text,) = (each for each in texts(_drawn()) if each.text == "Side view")
    (found,) = (
        each
        for each in _svg().iter("{http://www.w3.org/2000/svg}text")
        if each.text == "Side view"
    )
    numbers = re.findall(r"-?\d+\.?\d*", found.attrib["transform"])
    x, y = (float(each) / 72 * 25.4 for each in numbers[-2:])
    assert (x, 297 - y) == pytest.approx(text.at, abs=0.05)


def test_no_file_tells_a_date_or_a_program() -> None:
    for kind in _KINDS:
        assert not re.search(rb"matplotlib v|CreationDate|dc:date", _bytes(kind))


def test_png_has_150_dots_an_inch() -> None:
    width, height = struct.unpack(">II", _bytes("png")[16:24])
    assert (width, height) == (int(420 / 25.4 * 150), int(297 / 25.4 * 150))


def test_title_and_description_are_in_the_svg() -> None:
    assert b"blocks $1 of $2" in _bytes("svg")
    assert _drawn().description.encode() in _bytes("svg")


def test_letters_that_the_font_lacks_are_no_error() -> None:
    odd = Scene(
        title="漢字",
        description="",
        width_mm=50.0,
        height_mm=20.0,
        scale=(1, 1),
        items=(Text(at=(5.0, 5.0), text="漢字 $x$ \\frac", height_mm=2.5),),
    )
    assert [len(render(odd, kind)) > 0 for kind in _KINDS] == [True] * 3


def test_pyplot_is_never_imported() -> None:
    asked = "print('matplotlib.pyplot' in sys.modules)"
    code = f"import sys, layout.drawing.ink.figure; {asked}"
    done = subprocess.run(
        [sys.executable, "-c", code], check=True, capture_output=True, text=True
    )
    assert done.stdout.strip() == "False"


def test_a_scene_needs_no_matplotlib() -> None:
    asked = "print('matplotlib' in sys.modules)"
    code = f"import sys, layout.drawing.composed.compose; {asked}"
    done = subprocess.run(
        [sys.executable, "-c", code], check=True, capture_output=True, text=True
    )
    assert done.stdout.strip() == "False"
