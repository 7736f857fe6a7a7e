"""What a drawing says survives grey print and a colour deficiency.

Simulated: grey by relative luminance (WCAG 2); protanopia and deuteranopia after
Vienot, Brettel and Mollon, "Digital video colourmaps for checking the legibility of
displays by dichromats", Color Research and Application 24 (1999), the matrices from
memory, unverified.  Differences in CIELAB (CIE 1976), D65.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable

import numpy as np
import pytest
from numpy.typing import NDArray

from layout.drawing.findings.marks import INKS, LINES, MARKS
from layout.drawing.ink.strokes import Fill, Stroke, groups
from layout.drawing.paper.scene import Balloon, Hatch, Ink, Mark, Scene
from layout.drawing.paper.style import STYLE
from layout.drawing.views.kinds import KINDS
from layout.questions.findings.finding import Verdict
from layout.standards.drawing import CONTRAST_SHAPES, CONTRAST_TEXT

Linear = NDArray[np.float64]
Seen = Callable[[Linear], Linear]

_LMS = np.array(
    [
        [17.8824, 43.5161, 4.11935],
        [3.45565, 27.1554, 3.86714],
        [0.0299566, 0.184309, 1.46709],
    ]
)
_PROTAN = np.array([[0.0, 2.02344, -2.52581], [0, 1, 0], [0, 0, 1]])
_DEUTAN = np.array([[1, 0, 0], [0.494207, 0.0, 1.24827], [0, 0, 1]])
_LUMINANCE = np.array([0.2126, 0.7152, 0.0722])
_XYZ = np.array(
    [
        [0.4124, 0.3576, 0.1805],
        [0.2126, 0.7152, 0.0722],
        [0.0193, 0.1192, 0.9505],
    ]
)
_WHITE = np.array([0.95047, 1.0, 1.08883])
_APART = 10.0
"""Two colours that differ by so much in CIELAB are told apart side by side."""


def _dichromat(lost: NDArray[np.float64]) -> Seen:
    matrix = np.linalg.inv(_LMS) @ lost @ _LMS
    return lambda rgb: np.clip(matrix @ rgb, 0.0, 1.0)


def _grey(rgb: Linear) -> Linear:
    return np.full(3, float(_LUMINANCE @ rgb))


_EYES: dict[str, Seen] = {
    "grey": _grey,
    "protanope": _dichromat(_PROTAN),
    "deuteranope": _dichromat(_DEUTAN),
    "trichromat": lambda rgb: rgb,
}


def _linear(ink: Ink) -> Linear:
    code = STYLE.colours[ink]
    parts = np.array([int(code[at : at + 2], 16) / 255 for at in (1, 3, 5)])
    curved = ((parts + 0.055) / 1.055) ** 2.4
    made: Linear = np.where(parts <= 0.04045, parts / 12.92, curved)
    return made


def _contrast(a: Linear, b: Linear) -> float:
    low, high = sorted((float(_LUMINANCE @ a), float(_LUMINANCE @ b)))
    return (high + 0.05) / (low + 0.05)


def _lab(rgb: Linear) -> Linear:
    ratio = _XYZ @ rgb / _WHITE
    f = np.where(ratio > 216 / 24389, np.cbrt(ratio), (24389 / 27 * ratio + 16) / 116)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


def _differs(a: Ink, b: Ink, eye: Seen) -> float:
    return float(np.linalg.norm(_lab(eye(_linear(a))) - _lab(eye(_linear(b)))))


@pytest.fixture(params=_EYES)
def eye(request: pytest.FixtureRequest) -> Seen:
    return _EYES[str(request.param)]


def test_white_stays_white_and_black_black_to_every_eye(eye: Seen) -> None:
    assert eye(np.ones(3)) == pytest.approx(np.ones(3), abs=2e-3)
    assert eye(np.zeros(3)) == pytest.approx(np.zeros(3), abs=2e-3)


def test_red_and_green_look_alike_to_a_deuteranope_and_not_to_us() -> None:
    red, green = np.array([0.5, 0.1, 0.0]), np.array([0.1, 0.2535, 0.02])
    seen = _EYES["deuteranope"]
    ours = np.linalg.norm(_lab(red) - _lab(green))
    theirs = np.linalg.norm(_lab(seen(red)) - _lab(seen(green)))
    assert theirs < ours / 3


@pytest.mark.parametrize("fill", [*KINDS, Ink.WHITE])
def test_black_letters_on_every_fill(fill: Ink, eye: Seen) -> None:
    contrast = _contrast(eye(_linear(Ink.BLACK)), eye(_linear(fill)))
    assert contrast >= CONTRAST_TEXT.value


@pytest.mark.parametrize("ink", [Ink.SOFT, Ink.CLEAR, Ink.FAIL, Ink.LEAD])
def test_coloured_letters_on_paper_and_white_ones_on_colour(
    ink: Ink, eye: Seen
) -> None:
    letters, paper = (eye(_linear(each)) for each in (ink, Ink.WHITE))
    assert _contrast(letters, paper) >= CONTRAST_TEXT.value


@pytest.mark.parametrize("fill", KINDS)
def test_the_black_edge_between_two_fills_is_seen(fill: Ink, eye: Seen) -> None:
    contrast = _contrast(eye(_linear(Ink.BLACK)), eye(_linear(fill)))
    assert contrast >= CONTRAST_SHAPES.value


def test_two_fills_differ_by_colour_or_else_by_hatch(eye: Seen) -> None:
    for a, b in itertools.combinations(KINDS, 2):
        hatches = {STYLE.fills[a], STYLE.fills[b]}
        assert len(hatches) == 2 or _differs(a, b, eye) >= _APART, (a, b)
    plain = [each for each in KINDS if STYLE.fills[each] is None]
    assert len(plain) <= 1


def test_two_hatches_are_two_patterns() -> None:
    patterns = [STYLE.patterns[each] for each in Hatch]
    assert all(a != b for a, b in itertools.combinations(patterns, 2))


def test_verdicts_are_told_apart_by_form_whatever_the_colour() -> None:
    forms = [MARKS[each] for each in Verdict]
    assert len(set(forms)) == len(forms)


def test_what_fails_differs_from_what_does_not_by_colour_too(eye: Seen) -> None:
    for fails in (each for each in Verdict if each.fails):
        assert _differs(INKS[fails], INKS[Verdict.CLEAR], eye) >= _APART or (
            fails is Verdict.MISSING
        )


def test_lines_are_seen_on_paper(eye: Seen) -> None:
    for verdict, ink in LINES.items():
        contrast = _contrast(eye(_linear(ink)), eye(_linear(Ink.WHITE)))
        assert contrast >= CONTRAST_SHAPES.value, verdict


def test_a_mark_too_pale_for_paper_has_a_black_ring() -> None:
    for mark in Mark:
        balloon = Balloon(number=1, centre=(10.0, 10.0), radius_mm=3.0, mark=mark)
        drawn = Scene(
            title="",
            description="",
            width_mm=20.0,
            height_mm=20.0,
            scale=(1, 1),
            items=(balloon,),
        )
        inks = {
            each.ink
            for each in groups(drawn)[0].paint
            if isinstance(each, Fill | Stroke)
        }
        paper = _linear(Ink.WHITE)
        best = max(_contrast(_linear(each), paper) for each in inks)
        assert best >= CONTRAST_SHAPES.value, mark
