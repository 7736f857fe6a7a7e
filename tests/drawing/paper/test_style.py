from __future__ import annotations

import itertools

import pytest

from layout.drawing.paper.scene import Hatch, Ink, Pen
from layout.drawing.paper.style import LARGE, STYLE, Style
from layout.drawing.views.kinds import FILLS, KINDS
from layout.parts.form.form import Role

_ISO_3098 = {1.8, 2.5, 3.5, 5.0, 7.0, 10.0}
_OUTLINES = {Role.CAGE, Role.SHROUD, Role.TRAY, Role.GRILLE, Role.SIDE_PANEL} | {
    Role.BACK_PANEL,
    Role.FLOOR,
    Role.TOP,
    Role.FRONT,
    Role.REAR,
}


def _luminance(ink: Ink) -> float:
    """Return relative luminance (WCAG 2)."""
    code = STYLE.colours[ink]
    parts = [int(code[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [
        each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4
        for each in parts
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def _contrast(a: Ink, b: Ink) -> float:
    high, low = sorted((_luminance(a), _luminance(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_every_ink_pen_and_hatch_is_said() -> None:
    assert set(STYLE.colours) == set(Ink)
    assert set(STYLE.strokes) == set(Pen)
    assert set(STYLE.patterns) == set(Hatch)


@pytest.mark.parametrize("style", [STYLE, LARGE])
def test_lettering_heights_are_iso_3098(style: Style) -> None:
    assert {style.small_mm, style.medium_mm, style.large_mm} <= _ISO_3098


def test_two_line_widths_two_to_one() -> None:
    assert STYLE.strokes[Pen.WIDE].width_mm == 2 * STYLE.strokes[Pen.NARROW].width_mm


@pytest.mark.parametrize("ink", KINDS)
def test_black_letters_read_on_every_fill(ink: Ink) -> None:
    assert _contrast(Ink.BLACK, ink) >= 4.5


@pytest.mark.parametrize("ink", [Ink.BLACK, Ink.SOFT, Ink.CLEAR, Ink.FAIL])
def test_every_ink_of_letters_reads_on_paper(ink: Ink) -> None:
    assert _contrast(ink, Ink.WHITE) >= 4.5


def test_fills_differ_by_hatch_as_well_as_by_colour() -> None:
    for a, b in itertools.combinations(KINDS, 2):
        assert STYLE.colours[a] != STYLE.colours[b]
        assert STYLE.fills[a] is not STYLE.fills[b]


def test_every_kind_of_part_has_a_fill_and_a_name() -> None:
    filled = {each for each in Role if each.is_matter} - _OUTLINES
    assert set(FILLS) == filled
    assert set(FILLS.values()) == set(KINDS)
