"""What a file is refused for: where, what was found, what would be right."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from difflib import get_close_matches
from pathlib import Path
from typing import TypeVar

from layout.errors import LayoutError

__all__ = [
    "FieldError",
    "InputError",
    "OutputError",
    "caught",
    "escaped",
    "nearest",
    "one_of",
    "refuse_if_any",
    "shown",
]

_LONGEST_SHOWN = 60
_T = TypeVar("_T")


class InputError(LayoutError):
    """One field that cannot be used, and where it is written.

    Parameters
    ----------
    path : Path
        The file, as the user named it.
    line : int or None
        Counted from 1; None where the file itself is meant.
    field : str or None
        Such as ``parts.cooler.height``; None where the file itself is meant.
    found, right : str
        What is written there, and what would be right.
    also : sequence of InputError
        What else is wrong in the same file.
    """

    def __init__(
        self,
        path: Path,
        line: int | None = None,
        field: str | None = None,
        *,
        found: str,
        right: str,
        also: Sequence[InputError] = (),
    ) -> None:
        self.path = path
        self.line = line
        self.field = field
        self.found = found
        self.right = right
        self.also = tuple(also)
        super().__init__("\n".join(each.text for each in self.each))

    @property
    def each(self) -> tuple[InputError, ...]:
        """Return this error and what else is wrong in the same file."""
        return (self, *self.also)

    @property
    def text(self) -> str:
        """Return this one error as one line."""
        path = escaped(str(self.path))
        place = f"{path}:{self.line}" if self.line else path
        field = f"{self.field}: " if self.field else ""
        return f"{place}: {field}found {self.found}; {self.right} would be right"


class OutputError(LayoutError):
    """An output could not be written; nothing was touched."""


class FieldError(ValueError):
    """One value that cannot be used; its place is added by who knows it.

    ``at`` leads from the field to the value inside it: keys and indices.
    """

    def __init__(self, found: str, right: str, at: tuple[str | int, ...] = ()) -> None:
        self.found = found
        self.right = right
        self.at = at
        super().__init__(f"found {found}; {right} would be right")


def refuse_if_any(errors: Sequence[InputError]) -> None:
    """Raise the errors of one file as one, in the order of their lines."""
    if errors:
        first, *also = sorted(errors, key=lambda each: each.line or 0)
        raise InputError(
            first.path,
            first.line,
            first.field,
            found=first.found,
            right=first.right,
            also=also,
        )


def caught(read: Callable[[], _T], errors: list[InputError]) -> _T | None:
    """Return what is read, or None with the errors added to those found so far."""
    try:
        return read()
    except InputError as error:
        errors += error.each
        return None


def nearest(word: str, known: Sequence[str]) -> str:
    """Return the known word that is meant, or all of them where none is near.

    Examples
    --------
    >>> nearest("hieght", ["height", "width"])
    'height'
    >>> nearest("colour", ["height", "width"])
    'one of height, width'
    """
    folded = {each.casefold(): each for each in reversed(known)}
    near = get_close_matches(word.casefold().replace("_", " "), folded, n=1)
    if near:
        return folded[near[0]]
    return f"one of {', '.join(known)}" if known else "nothing"


def one_of(word: str, known: Sequence[str]) -> str:
    """Return all known words where none is the same but for its case.

    A word of a closed choice is not guessed: the nearest in letters may be another
    thing altogether.

    Examples
    --------
    >>> one_of("atx", ["ATX", "SFX"]), one_of("E-ATX", ["ATX", "SFX"])
    ('ATX', 'one of ATX, SFX')
    """
    same = [each for each in known if each.casefold() == word.casefold()]
    return same[0] if same else f"one of {', '.join(known)}"


def escaped(name: str) -> str:
    r"""Return a file's name so that it stays on one line and commands no terminal.

    Examples
    --------
    >>> escaped("a build.yaml"), escaped("a\nb.yaml")
    ('a build.yaml', 'a\\nb.yaml')
    """
    return name if name.isprintable() else repr(name)[1:-1]


def shown(text: str) -> str:
    """Return what was found so that it stays on one short line."""
    if not text or not text.isprintable() or text != text.strip():
        text = repr(text)
    if len(text) > _LONGEST_SHOWN:
        return f"{text[: _LONGEST_SHOWN - 4]} ..."
    return text
