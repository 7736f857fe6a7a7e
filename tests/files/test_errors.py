from __future__ import annotations

from pathlib import Path

import pytest

from layout.errors import LayoutError
from layout.files.errors import InputError, nearest, refuse_if_any, shown

PATH = Path("a.yaml")


def error(line: int) -> InputError:
    return InputError(PATH, line, f"f{line}", found="1", right="2")


def test_an_error_is_one_line_with_all_it_knows() -> None:
    assert str(error(3)) == "a.yaml:3: f3: found 1; 2 would be right"
    alone = InputError(PATH, found="no file", right="a name")
    assert str(alone) == "a.yaml: found no file; a name would be right"
    assert isinstance(alone, LayoutError)


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("a\nb.yaml", r"a\nb.yaml"),
        ("a\x1b[31m\x07.yaml", r"a\x1b[31m\x07.yaml"),
        ("\u202elmay.yaml", r"\u202elmay.yaml"),
        ("\udcff.yaml", r"\udcff.yaml"),
    ],
)
def test_a_file_s_name_stays_on_one_line_and_commands_no_terminal(
    name: str, told: str
) -> None:
    assert str(InputError(Path(name), found="1", right="2")).startswith(f"{told}: ")


def test_errors_of_one_file_are_raised_as_one_by_line() -> None:
    refuse_if_any([])
    with pytest.raises(InputError, match="f1") as caught:
        refuse_if_any([error(5), error(1), error(3)])
    assert (caught.value.line, caught.value.field) == (1, "f1")
    assert str(caught.value).splitlines() == [error(n).text for n in (1, 3, 5)]


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        ("hieght", "height"),
        ("HEIGHT", "height"),
        ("room_over_memory", "room over memory"),
        ("colour", "one of height, room over memory"),
    ],
)
def test_the_nearest_word(word: str, meant: str) -> None:
    assert nearest(word, ("height", "room over memory")) == meant


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("plain words", "plain words"),
        ("two\nlines", r"'two\nlines'"),
        (" padded", "' padded'"),
        ("x" * 70, "x" * 56 + " ..."),
        ("\x1b[31m", r"'\x1b[31m'"),
    ],
)
def test_what_was_found_stays_on_one_short_line(text: str, line: str) -> None:
    assert shown(text) == line
