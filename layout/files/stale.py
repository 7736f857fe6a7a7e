"""Further sheets of an earlier drawing that the drawing of now has no more."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Final

__all__ = ["stale_sheets"]

_HEAD: Final = 4096
"""A drawing says of itself what it is at its head."""


def stale_sheets(
    targets: Iterable[Path], written: Iterable[Path], *, mark: str
) -> tuple[Path, ...]:
    """Return NAME-2.svg and the like that stand beside a drawing and are none of it.

    A file counts only where it says itself that it is that very sheet of a drawing:
    what merely has such a name is someone else's.

    Parameters
    ----------
    targets : iterable of Path
        The drawings' first sheets.
    written : iterable of Path
        Every file of the drawings of now.
    mark : str
        What a sheet says of itself, with ``{}`` for its number and for how many.
    """
    said = re.compile(re.escape(mark).replace(r"\{\}", r"(\d+)").encode())
    kept = set(written)
    found = {each for target in targets for each in _further(target, said)}
    return tuple(sorted(found - kept))


def _further(target: Path, said: re.Pattern[bytes]) -> Iterator[Path]:
    named = re.compile(
        re.escape(target.stem) + r"-([2-9]|[1-9]\d+)" + re.escape(target.suffix)
    )
    try:
        beside = [*target.parent.iterdir()]
    except OSError:  # no folder yet, or none that can be: writing there tells
        return
    for each in beside:
        told = named.fullmatch(each.name)
        if told and each.is_file() and _number(each, said) == told[1].encode():
            yield each


def _number(path: Path, said: re.Pattern[bytes]) -> bytes | None:
    """Return the number of the sheet that a file says it is."""
    with path.open("rb") as file:
        told = said.search(file.read(_HEAD))
    return told[1] if told else None
