"""The program: its commands, and where every refusal ends."""
# ruff: noqa: PLC0415 (the version is looked up only where it is asked for)

from __future__ import annotations

import atexit
import gc
import os
import sys
from collections.abc import Callable, Collection
from copy import copy
from io import TextIOWrapper
from typing import Annotated, Final

import typer

from layout.cli.asking import headroom_command, parts_command, positions_command
from layout.cli.checking import check_command, explain_command
from layout.cli.drawing import draw_command, sheet_command
from layout.cli.saying import refuse, say
from layout.errors import LayoutError

__all__ = ["app", "main"]

_OBJECTS_BEFORE_GARBAGE: Final = 1_000_000

app = typer.Typer(
    name="case-layout",
    help="Tell whether everything fits together inside one computer case, and draw it.",
    epilog="Exit codes: 0 nothing short or clashing, 1 something is, 2 bad input.",
    add_completion=False,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)


def main() -> None:
    """Run the command line; every refusal ends here, in words on standard error."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")
    # a check ends before its garbage is worth a look at every object it has loaded,
    # and what is left at its end goes with the process
    gc.set_threshold(_OBJECTS_BEFORE_GARBAGE)
    atexit.register(gc.freeze)
    # looking for pydantic's plugins takes longer than reading the files
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "1")
    try:
        _with_commands(sys.argv[1:2])(prog_name="case-layout")
    except LayoutError as error:
        refuse(error)
    except MemoryError:
        refuse("outlines too fine for this machine's memory")


def _with_commands(asked: Collection[str]) -> typer.Typer:
    """Return the program with the command that is asked for; with all where none is.

    Typer reads the options of every command that it is given, asked for or not.
    """
    chosen = copy(app)
    named = [each for each in app.registered_commands if each.name in asked]
    chosen.registered_commands = named or app.registered_commands
    return chosen


def _version(asked: bool) -> None:  # noqa: FBT001 (typer hands it over so)
    if asked:
        from importlib.metadata import PackageNotFoundError, version

        try:
            number = version("case-layout")
        except PackageNotFoundError:
            number = "(not installed)"
        say(f"case-layout {number}")
        raise typer.Exit


@app.callback()
def _options(
    *,
    version: Annotated[
        bool,
        typer.Option(
            "--version", callback=_version, is_eager=True, help="Show the version."
        ),
    ] = False,
) -> None:
    """Tell whether everything fits together inside one computer case, and draw it."""


_COMMANDS: Final[tuple[tuple[str, Callable[..., None], str], ...]] = (
    ("check", check_command, "What clears, what does not, and by how much."),
    ("explain", explain_command, "The chain of figures under one finding."),
    ("positions", positions_command, "Which place of a part works, and the best one."),
    ("parts", parts_command, "The kinds of parts, their fields, published sizes."),
    ("headroom", headroom_command, "How large each part could be, all else as built."),
    ("draw", draw_command, "Side and top view, to scale, with the gaps."),
    ("sheet", sheet_command, "A page to attach to a quote: words and drawing."),
)
for _name, _command, _told in _COMMANDS:
    app.command(_name, short_help=_told)(_command)
