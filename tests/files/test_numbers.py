from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.files.errors import FieldError
from layout.files.numbers import figure, length_mm, number, whole
from layout.files.tree import Scalar
from layout.standards.figure import Figure, Standing


def written(text: str, *, quoted: bool = False) -> Scalar:
    return Scalar(text, quoted=quoted, line=1)


def read(text: str) -> Figure:
    return figure(written(text), least_mm=20, most_mm=400)


@pytest.mark.parametrize(
    ("text", "mm", "plus_minus_mm"),
    [
        ("165", 165.0, None),
        ("165.5", 165.5, None),
        ("+165", 165.0, None),
        ("165 mm", 165.0, None),
        ("165mm", 165.0, None),
        ("16.5 cm", 165.0, None),
        ("6.5 in", 165.1, None),
        ('6.5"', 165.1, None),
        ("6.5 inches", 165.1, None),
        ("165 +- 0.5", 165.0, 0.5),
        ("165 +/- 0.5", 165.0, 0.5),
        ("165 ± 0.5", 165.0, 0.5),
        ("165±0.5 mm", 165.0, 0.5),
        ("6.5 ± 0.02 in", 165.1, 0.508),
        ("6.5 in ± 0.5 mm", 165.1, 0.5),
        ("165 ± 0", 165.0, 0.0),
    ],
)
def test_lengths(text: str, mm: float, plus_minus_mm: float | None) -> None:
    got = read(text)
    assert got.mm == pytest.approx(mm, abs=1e-12)
    assert got.plus_minus_mm == (
        None if plus_minus_mm is None else pytest.approx(plus_minus_mm)
    )
    assert got.standing is Standing.GIVEN


def test_taped_lengths_carry_the_tape_s_plus_minus_unless_told() -> None:
    taped = read("210 taped")
    assert (taped.mm, taped.plus_minus_mm) == (210.0, 1.0)
    assert taped.standing is Standing.TAPED
    told = read("210 +-0.3 taped")
    assert (told.plus_minus_mm, told.standing) == (0.3, Standing.TAPED)


@pytest.mark.parametrize(
    ("text", "found", "right"),
    [
        ("010", "octal", "10"),
        ("0158", "octal", "158"),
        ("1:30", "reads like a time", "20 to 400 mm"),
        ("1_000", "1_000", "1000 (no underscores)"),
        ("158,5", "158,5", "158.5 (a decimal point)"),
        (".inf", "no finite number", "20 to 400 mm"),
        ("-.INF", "no finite number", "20 to 400 mm"),
        (".nan", "no finite number", "20 to 400 mm"),
        ("NaN", "no finite number", "20 to 400 mm"),
        ("inf", "no finite number", "20 to 400 mm"),
        ("1e999", "too large", "20 to 400 mm"),
        ("1.655e2", "1.655e2, a power of ten", "165.5 (written out)"),
        ("165 ± 5e-1", "a power of ten", "0.5 (written out)"),
        ("1e-300", "a power of ten", "20 to 400 mm"),
        ("yes", "a yes or no", "20 to 400 mm"),
        ("true", "a yes or no", "20 to 400 mm"),
        ("0x9e", "0x9e", "20 to 400 mm"),
        ("2026-11-25", "2026-11-25", "20 to 400 mm"),
        ("6 1/2 in", "6 1/2 in", "20 to 400 mm"),
        ("165 furlongs", "165 furlongs", "20 to 400 mm"),
        ("१६५", "१६५", "20 to 400 mm"),
        ("0", "0 mm", "20 to 400 mm"),
        ("-165", "-165 mm", "20 to 400 mm"),
        ("165 +- -1", "a plus-minus of -1", "0 or more"),
        ("1000", "1000 mm", "20 to 400 mm"),
        ("40 in", "40 in (1016 mm)", "20 to 400 mm"),
        ("", "nothing", "20 to 400 mm"),
        ("~", "nothing", "20 to 400 mm"),
    ],
)
def test_what_is_no_length(text: str, found: str, right: str) -> None:
    with pytest.raises(FieldError, match="would be right") as caught:
        read(text)
    assert found in caught.value.found
    assert right in caught.value.right


def test_what_reads_like_inches_is_told_so() -> None:
    with pytest.raises(FieldError, match=r"found 6\.5 mm; '6\.5 in'"):
        read("6.5")
    with pytest.raises(FieldError, match="found 6") as caught:
        read("6.5 mm")
    assert "in'" not in caught.value.right


@pytest.mark.parametrize("value", [[], {}, [written("1")]])
def test_a_list_or_mapping_is_no_number(value: object) -> None:
    with pytest.raises(FieldError, match=r"found a (list|mapping)"):
        number(value)


def test_whole_numbers() -> None:
    assert whole(written("3"), least=1, most=3) == 3
    assert whole(written("3.0"), least=1, most=3) == 3
    for text in ("2.5", "0", "4", "03", "1e300"):
        with pytest.raises(FieldError, match=r"1 to 3|3 would be right"):
            whole(written(text), least=1, most=3)


def test_outlines_that_programs_write_keep_their_powers_of_ten() -> None:
    assert length_mm(written("1e-05")) == 1e-5


@given(st.floats(allow_nan=False, allow_infinity=False, width=32))
def test_a_number_is_read_as_python_writes_it(value: float) -> None:
    assert number(written(repr(value))) == value


@given(st.text(max_size=12))
def test_text_is_a_finite_number_or_refused(text: str) -> None:
    try:
        told = f"{length_mm(written(text)):g}"
    except FieldError as error:
        told = str(error)
    assert "\n" not in told
    assert told not in {"nan", "inf", "-inf"}


def test_a_one_sided_plus_minus_is_centred_in_its_own_unit() -> None:
    read_mm = read("6.5 in +0.1 -0")
    assert read_mm.mm == pytest.approx(6.55 * 25.4)
    assert read_mm.plus_minus_mm == pytest.approx(0.05 * 25.4)
    assert read("200 +2 -0 taped").plus_minus_mm == pytest.approx(1.0)


def test_two_sorts_of_plus_minus_are_refused() -> None:
    with pytest.raises(FieldError):
        read("200 ± 1 +2 -0")
