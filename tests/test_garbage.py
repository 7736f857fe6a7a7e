"""Whatever a file holds, the answer is an exit code and never a traceback."""

from __future__ import annotations

import contextlib
import io
import sys
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from unittest.mock import patch

from hypothesis import given, settings
from hypothesis import strategies as st

from layout.cli import main
from tests.files.builds import BLOCKS

CASES = Path(__file__).parents[1] / "cases"
EXAMPLE = (CASES / "newsroom-build.yaml").read_text("utf-8").replace(
    "case: ", f"case: {CASES}/"
)  # fmt: skip

WORDS = st.sampled_from(
    [
        *("yes", "~", ".inf", "-.nan", "010", "1:30", "1e308", "-1e308", "0", "-1"),
        *("[]", "{}", "[[0, 0], [0, 0], [0, 0]]", "[1e9, 1e9, 1e9]", "6.5 in", "*a"),
        *("&a", "!!python/name:os.system", "2026-11-25", "'", '"', "|", "- ", ": "),
        *("block", "fan", "\t", "\x00", "\ufeff", "1e-320", "99999999999999999999"),
    ]
)


def ended(content: bytes, case: bytes = b"") -> int:
    """Return the exit code of a check; anything else comes out as an exception."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "build.yaml"
        path.write_bytes(content)
        path.with_name("case.yaml").write_bytes(case)
        told = io.StringIO()
        with (
            patch.object(sys, "argv", ["case-layout", "check", "--json", str(path)]),
            contextlib.redirect_stdout(told),
            contextlib.redirect_stderr(told),
        ):
            try:
                main()
            except SystemExit as exit_:
                return int(exit_.code or 0)
    return -1


@given(st.binary(max_size=200))
@settings(max_examples=100)
def test_bytes(content: bytes) -> None:
    assert ended(content) in {0, 1, 2}


@given(st.text(max_size=100).map(lambda text: f"parts: {text}"))
@settings(max_examples=100)
def test_text(text: str) -> None:
    assert ended(text.encode()) in {0, 1, 2}


@st.composite
def mutated(draw: Callable[..., object], text: str) -> str:
    """Return a build file in which some words, lines or figures are others."""
    lines = text.splitlines()
    for _ in range(draw(st.integers(1, 3))):  # type: ignore[call-overload]
        index = draw(st.integers(0, len(lines) - 1))
        assert isinstance(index, int)
        words = lines[index].split(" ")
        place = draw(st.integers(0, len(words) - 1))
        assert isinstance(place, int)
        word = draw(WORDS)
        assert isinstance(word, str)
        words[place] = word
        lines[index] = " ".join(words)
    return "\n".join(lines)


@given(mutated(BLOCKS))
@settings(max_examples=200)
def test_blocks_with_other_words(text: str) -> None:
    assert ended(text.encode("utf-8", "surrogatepass")) in {0, 1, 2}


@given(mutated(EXAMPLE))
@settings(max_examples=150)
def test_an_example_with_other_words(text: str) -> None:
    assert ended(text.encode("utf-8", "surrogatepass")) in {0, 1, 2}


OF_A_CASE = (CASES / "newsroom-build.yaml").read_text("utf-8")
CASE = (CASES / f"{OF_A_CASE.partition('case: ')[2].split()[0]}").read_text("utf-8")
IN_CASE = OF_A_CASE.replace("case: ", "case: case.yaml # ")


def test_the_case_beside_the_build_is_read() -> None:
    assert ended(IN_CASE.encode(), CASE.encode()) == 1
    assert ended(IN_CASE.encode(), b"depth: x") == 2


@given(mutated(CASE))
@settings(max_examples=100)
def test_a_case_with_other_words(text: str) -> None:
    case = text.encode("utf-8", "surrogatepass")
    assert ended(IN_CASE.encode(), case) in {0, 1, 2}
