"""Files read back: texts, places and lengths are the scene's, in the file's own units.

PDF texts are read as far as Latin-1 goes, joined letters (ff, fi, fl) left out: those
are glyphs of their own there.
"""

from __future__ import annotations

import io
import os
import re
import shutil
import subprocess
import zlib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Final
from xml.etree import ElementTree as ET

import matplotlib as mpl
import numpy as np
import pytest
from matplotlib.image import imread
from numpy.typing import NDArray

from layout.drawing.composed.compose import scene
from layout.drawing.ink.figure import render
from layout.drawing.ink.strokes import groups
from layout.drawing.paper.boxes import texts
from layout.drawing.paper.scene import Align, Area, Dimension, Ink, Point, Scene, Text
from tests.drawing.samples import blocks, tower

SVG: Final = "{http://www.w3.org/2000/svg}"
POINTS_PER_MM: Final = 72 / 25.4
CLOSE_MM: Final = 1e-3
CONVERTER: Final = shutil.which("rsvg-convert")
PNG_TOLERANCE: Final = 0.03
"""Mean difference of grey levels, of 1, between our PNG and the SVG drawn by another
program: edges and letters are smoothed otherwise."""

_WHOLE = re.DOTALL | re.MULTILINE
_ESCAPED = {"n": "\n", "r": "\r"}
_SAMPLES = {"tower": tower, "blocks": blocks}


@cache
def _drawn(name: str) -> Scene:
    return scene(*_SAMPLES[name]())


@cache
def _file(name: str, kind: str) -> bytes:
    return render(_drawn(name), kind)


@pytest.fixture(params=_SAMPLES)
def name(request: pytest.FixtureRequest) -> str:
    return str(request.param)


def _root(name: str) -> ET.Element:
    return ET.fromstring(_file(name, "svg"))  # noqa: S314 - our own file


def _page(name: str) -> str:
    """Return the PDF page's own instructions."""
    for each in re.findall(rb"stream\n(.*?)\nendstream", _file(name, "pdf"), re.DOTALL):
        try:
            told = zlib.decompress(each)
        except zlib.error:
            continue
        if b"\nBT\n" in told:
            return told.decode("latin-1")
    raise AssertionError("no page")


def _svg_points(name: str) -> NDArray[np.float64]:
    """Return every corner of every path, in mm from the lower left corner."""
    told = " ".join(each.attrib["d"] for each in _root(name).iter(f"{SVG}path"))
    found = re.findall(r"[ML] (-?[\d.]+) (-?[\d.]+)", told)
    corners = np.array(found, dtype=np.float64) / POINTS_PER_MM
    corners[:, 1] = _drawn(name).height_mm - corners[:, 1]
    return corners


def _pdf_points(name: str) -> NDArray[np.float64]:
    found = re.findall(r"^(-?[\d.]+) (-?[\d.]+) [ml]$", _page(name), re.MULTILINE)
    return np.array(found, dtype=np.float64) / POINTS_PER_MM


def _has(corners: NDArray[np.float64], point: Point) -> bool:
    return bool((np.abs(corners - np.array(point)).max(axis=1) < CLOSE_MM).any())


def _bar(drawn: Scene) -> tuple[Point, Point]:
    """Return the two ends of the scale bar's lower edge."""
    dark = [
        each
        for each in drawn.items
        if isinstance(each, Area)
        and each.fill in {Ink.BLACK, Ink.WHITE}
        and not each.ref
    ]
    corners = sorted(point for each in dark for point in each.outer)
    low = min(y for _, y in corners)
    return (corners[0][0], low), (corners[-1][0], low)


def _bar_mm(drawn: Scene) -> float:
    """Return the length that the scale bar states."""
    (said,) = (each.text for each in texts(drawn) if re.fullmatch(r"\d+ mm", each.text))
    return float(said.removesuffix(" mm"))


@pytest.mark.parametrize("read", [_svg_points, _pdf_points])
def test_the_scale_bar_measures_what_it_states(read: object, name: str) -> None:
    assert callable(read)
    drawn = _drawn(name)
    corners = read(name)
    start, end = _bar(drawn)
    assert _has(corners, start)
    assert _has(corners, end)
    on_paper_mm = _bar_mm(drawn) * drawn.scale[0] / drawn.scale[1]
    assert end[0] - start[0] == pytest.approx(on_paper_mm, abs=1e-6)


@pytest.mark.parametrize("read", [_svg_points, _pdf_points])
def test_every_dimension_is_drawn_from_end_to_end(read: object, name: str) -> None:
    assert callable(read)
    corners = read(name)
    drawn = [each for each in _drawn(name).items if isinstance(each, Dimension)]
    assert drawn
    for each in drawn:  # the arrowheads' tips lie on the two ends
        assert _has(corners, each.start), each.ref
        assert _has(corners, each.end), each.ref


def test_the_files_are_as_large_as_the_sheet(name: str) -> None:
    drawn = _drawn(name)
    points = [drawn.width_mm * POINTS_PER_MM, drawn.height_mm * POINTS_PER_MM]
    root = _root(name)
    svg = [float(root.attrib[each].removesuffix("pt")) for each in ("width", "height")]
    assert svg == pytest.approx(points, abs=1e-3)
    assert [float(each) for each in root.attrib["viewBox"].split()[2:]] == svg
    (box,) = re.findall(rb"/MediaBox \[ 0 0 ([\d.]+) ([\d.]+) \]", _file(name, "pdf"))
    assert [float(each) for each in box] == pytest.approx(points, abs=1e-3)


def test_svg_texts_are_the_scenes_and_stand_where_it_says(name: str) -> None:
    height_mm = _drawn(name).height_mm
    found = {
        (
            each.text,
            round(float(each.attrib["x"]) / POINTS_PER_MM, 1),
            round(height_mm - float(each.attrib["y"]) / POINTS_PER_MM, 1),
        )
        for each in _root(name).iter(f"{SVG}text")
    }
    for each in texts(_drawn(name)):
        x, y = each.at
        near = {
            (each.text, round(x + dx, 1), round(y + dy, 1))
            for dx in (-0.05, 0.0, 0.05)
            for dy in (-0.05, 0.0, 0.05)
        }
        assert near & found, each


def test_pdf_texts_are_the_scenes_and_stand_where_it_says(name: str) -> None:
    found = _pdf_texts(name)
    for each in texts(_drawn(name)):
        places = found[each.text]
        if each.align is Align.LEFT and not each.turned:
            assert min(abs(x - each.at[0]) for x, _ in places) < 0.05, each
            assert min(abs(y - each.at[1]) for _, y in places) < 0.05, each


def _pdf_texts(name: str) -> dict[str, list[Point]]:
    """Return the texts as a reader copies them: by the maps of the file's fonts."""
    maps = _pdf_maps(_file(name, "pdf"))
    out: dict[str, list[Point]] = {}
    pattern = r"^([^\n]* cm)\nBT\n(.*?)\nET$"
    for place, told in re.findall(pattern, _page(name), re.MULTILINE | re.DOTALL):
        x, y = (float(each) / POINTS_PER_MM for each in place.split()[4:6])
        out.setdefault("".join(_letters(told, maps)), []).append((x, y))
    return out


def _letters(told: str, maps: dict[str, dict[int, str]]) -> Iterator[str]:
    """Yield the letters of a text, font by font: two bytes a code."""
    for font, shown in re.findall(r"/(F\d+) [\d.]+ Tf\n(.*?)T[jJ]", told, re.DOTALL):
        strings = re.findall(r"\(((?:\\.|[^\\()])*)\)", shown, re.DOTALL)
        codes = "".join(
            re.sub(r"\\(.)", lambda each: _ESCAPED.get(each[1], each[1]), string)
            for string in strings
        )
        told_of = codes.encode("latin-1")
        for high, low in zip(told_of[::2], told_of[1::2], strict=True):
            yield maps[font][256 * high + low]


def _pdf_maps(file: bytes) -> dict[str, dict[int, str]]:
    """Return for each font of a PDF which letters its codes stand for."""
    objects = dict(re.findall(rb"^(\d+) 0 obj\n(.*?)\nendobj$", file, _WHOLE))
    fonts = re.findall(rb"/(F\d+) (\d+) 0 R", file)
    out = {}
    for font, number in fonts:
        (told,) = re.findall(rb"/ToUnicode (\d+) 0 R", objects[number])
        (stream,) = re.findall(rb"stream\n(.*)\nendstream", objects[told], re.DOTALL)
        ranges = re.findall(rb"<(\w+)> <\w+> \[(.*?)\]", zlib.decompress(stream))
        out[font.decode()] = {
            int(first, 16) + place: bytes.fromhex(letters.decode()).decode("utf-16-be")
            for first, row in ranges
            for place, letters in enumerate(re.findall(rb"<(\w+)>", row))
        }
    return out


def test_every_part_and_finding_has_an_id_and_a_tooltip_in_the_svg(name: str) -> None:
    drawn, root = _drawn(name), _root(name)
    told = {
        each.attrib["id"]: each.findtext(f"{SVG}title")
        for each in root.iter(f"{SVG}g")
        if "id" in each.attrib
    }
    ids = [each.attrib["id"] for each in root.iter() if "id" in each.attrib]
    assert len(ids) == len(set(ids))
    shown = {getattr(each, "ref", "") for each in drawn.items}
    subjects = [each for each in drawn.subjects if each.ref in shown]
    assert subjects
    for each in subjects:
        assert told[each.id] == each.told


def test_every_body_that_is_drawn_is_a_subject(name: str) -> None:
    refs = {each.ref for each in _drawn(name).subjects}
    assert {getattr(each, "ref", "") for each in _drawn(name).items} - {""} <= refs


def test_letters_and_lines_of_a_group_are_all_painted(name: str) -> None:
    painted = [each for group in groups(_drawn(name)) for each in group.paint]
    said = [each.text for each in painted if isinstance(each, Text)]
    assert set(said) >= {each.text for each in texts(_drawn(name))}


@pytest.mark.skipif(
    CONVERTER is None and "CASE_LAYOUT_EVERY_CHECK" not in os.environ,
    reason="rsvg-convert is absent; Debian's package librsvg2-bin has it",
)
def test_another_program_draws_the_svg_as_we_draw_the_png(
    name: str, tmp_path: Path
) -> None:
    ours = imread(io.BytesIO(_file(name, "png")))[..., :3].mean(axis=2)
    theirs = _converted(_file(name, "svg"), ours.shape[1], tmp_path)
    high = min(len(ours), len(theirs))  # a last part of a pixel may count as one
    assert max(len(ours), len(theirs)) <= high + 1
    ours, theirs = ours[:high], theirs[:high]
    assert theirs.shape == ours.shape
    assert float(np.abs(ours - theirs).mean()) < PNG_TOLERANCE
    # what is dark in one is dark in the other, a pixel to and fro
    for one, other in ((ours, theirs), (theirs, ours)):
        lost = (one < 0.35) & (_darkest_near(other) > 0.75)
        assert lost.mean() < 1e-4


def _converted(svg: bytes, width_px: int, folder: Path) -> NDArray[np.float64]:
    """Return the grey levels of the SVG as librsvg draws it, in the same letters."""
    fonts = folder / "fonts.conf"
    where = Path(mpl.get_data_path()) / "fonts" / "ttf"
    fonts.write_text(
        f"<fontconfig><dir>{where}</dir><cachedir>{folder}</cachedir></fontconfig>"
    )
    assert CONVERTER is not None
    done = subprocess.run(
        [CONVERTER, "--width", str(width_px), "--keep-aspect-ratio"],
        input=svg,
        capture_output=True,
        check=True,
        env={"FONTCONFIG_FILE": str(fonts)},
    )
    made: NDArray[np.float64] = imread(io.BytesIO(done.stdout))[..., :3].mean(axis=2)
    return made


def _darkest_near(grey: NDArray[np.float64]) -> NDArray[np.float64]:
    padded = np.pad(grey, 2, mode="edge")
    high, wide = grey.shape
    shifts = [padded[y : y + high, x : x + wide] for y in range(5) for x in range(5)]
    darkest: NDArray[np.float64] = np.minimum.reduce(shifts)
    return darkest
