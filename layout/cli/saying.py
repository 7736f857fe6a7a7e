"""What every command ends with: printing, and the exit code."""
# ruff: noqa: PLC0415, T201 (imports inside, as commands have them; printing is its job)

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING, Any, Final, NoReturn, TypedDict

if TYPE_CHECKING:
    from layout.questions.findings.finding import Check

__all__ = ["BAD_INPUT", "FAILS", "dumped", "exit_code", "page", "refuse", "say"]

FAILS: Final = 1
"""Exit code where something is short, clashes or is missing."""
BAD_INPUT: Final = 2
"""Exit code of bad usage (typer's own) and of bad input."""

_WIDEST: Final = 140


def say(text: str) -> None:
    """Print; a reader who has gone is none of our business."""
    try:
        print(text, flush=True)
    except BrokenPipeError:
        # Python flushes once more at its end and would complain to standard error
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def refuse(reason: object) -> NoReturn:
    """Print why an input is refused on standard error, and end with its exit code."""
    print(reason, file=sys.stderr)
    sys.exit(BAD_INPUT)


def dumped(told: dict[str, Any]) -> str:
    """Return an answer as the text of one JSON object."""
    import json

    return json.dumps(told, indent=2, allow_nan=False)


class _Page(TypedDict):
    width: int
    in_colour: bool


def page() -> _Page:
    """Return how wide the page is, and whether it shows colours."""
    from shutil import get_terminal_size

    width = min(get_terminal_size().columns, _WIDEST)
    return {"width": width, "in_colour": sys.stdout.isatty()}


def exit_code(answers: list[Check]) -> int:
    """Return 1 where something of any build fails, else 0."""
    return FAILS if any(each.verdict.fails for each in answers) else 0
