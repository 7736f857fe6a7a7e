from __future__ import annotations

from pathlib import Path

import matplotlib as mpl
import pytest
from matplotlib import ft2font

from layout.drawing.paper.lettering import (
    EM_PER_HEIGHT,
    fitted,
    plain,
    width_mm,
    wrapped,
)

_FONTS = Path(mpl.get_data_path()) / "fonts" / "ttf"
_FILES = {False: "DejaVuSans.ttf", True: "DejaVuSans-Bold.ttf"}
_LETTERS = (
    *map(chr, range(0x20, 0x7F)),
    *map(chr, range(0xA0, 0x100)),
    *"\u2013…≥≤\u2212“”",
)
_WORDS = (
    "front fans, 3 by 120",
    "AVATAR Type WAVE To",
    "rear I/O plate “quiet” \u2212 12.7 ± 0.3 mm",
    "Prüfgerät für Hörfunk",
    "0.8 mm to spare, sizes may be off by 0.9 mm *",
)


def _drawn_mm(text: str, height_mm: float, file: str) -> float:
    font = ft2font.FT2Font(str(_FONTS / file))
    font.set_size(100.0, 72)
    font.set_text(text, 0.0, flags=ft2font.LoadFlags.NO_HINTING)
    width, _ = font.get_width_height()
    return float(width) / 64 / 100.0 * EM_PER_HEIGHT * height_mm


@pytest.mark.parametrize("bold", [False, True])
def test_advances_are_those_of_the_font(*, bold: bool) -> None:
    font = ft2font.FT2Font(str(_FONTS / _FILES[bold]))
    font.set_size(100.0, 72)
    for letter in _LETTERS:
        glyph = font.load_char(ord(letter), flags=ft2font.LoadFlags.NO_HINTING)
        advance_mm = glyph.linearHoriAdvance / 65536 / 100.0 * EM_PER_HEIGHT
        measured_mm = width_mm(letter, 1.0, bold=bold)
        assert measured_mm == pytest.approx(advance_mm, abs=1e-3), letter


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("text", _WORDS)
def test_no_text_is_drawn_wider_than_measured(
    text: str,
    *,
    bold: bool,
) -> None:
    drawn_mm = _drawn_mm(text, 2.5, _FILES[bold])
    assert drawn_mm <= width_mm(text, 2.5, bold=bold) + 0.1
    assert drawn_mm >= 0.9 * width_mm(text, 2.5, bold=bold)


@pytest.mark.parametrize("letter", ["Ж", "Ω", "Ǆ", "漢"])
def test_letters_not_in_the_table_are_taken_as_wide(letter: str) -> None:
    assert width_mm(letter, 2.5) > width_mm("W", 2.5)


def test_width_grows_with_height() -> None:
    assert width_mm("abc", 5.0) == pytest.approx(2 * width_mm("abc", 2.5))


def test_plain_keeps_one_line_of_printable_letters() -> None:
    assert plain(" a\tb\n\x00c\u202ed \ud800") == "a b c d"


def test_fitted_cuts_only_what_is_too_wide() -> None:
    assert fitted("short", 2.5, 100.0) == "short"
    cut = fitted("a very long name indeed", 2.5, 20.0)
    assert cut.endswith("…")
    assert width_mm(cut, 2.5) <= 20.0


def test_wrapped_breaks_between_words() -> None:
    lines = wrapped("one two three four", 2.5, 18.0)
    assert " ".join(lines) == "one two three four"
    assert len(lines) > 1
    assert all(width_mm(each, 2.5) <= 18.0 for each in lines)


def test_wrapped_breaks_a_word_that_is_wider_than_the_line() -> None:
    lines = wrapped("how immeasurable", 2.5, 10.0)
    assert "".join(lines) == "howimmeasurable"
    assert all(width_mm(each, 2.5) <= 10.0 for each in lines)


def test_wrapped_text_of_no_words_has_no_lines() -> None:
    assert wrapped("  ", 2.5, 10.0) == ()
