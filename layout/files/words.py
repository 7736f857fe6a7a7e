"""Text to words: free text, a choice, yes or no; and a field's name in files."""

from __future__ import annotations

from collections.abc import Collection
from enum import Enum
from typing import Final, TypeAlias

from layout.files.errors import FieldError, one_of
from layout.files.numbers import found
from layout.files.tree import Scalar
from layout.parts.form.reading import word_of

__all__ = ["Pair", "choice", "flag", "pair", "text", "word_of"]

Pair: TypeAlias = tuple[str, str]

_LONGEST: Final = 200
_FLAGS: Final = {"true": True, "yes": True, "false": False, "no": False}


def text(value: object) -> str:
    """Return free text: one line, not empty."""
    right = f"one line of text, at most {_LONGEST} characters,"
    if not isinstance(value, Scalar) or value.empty:
        raise FieldError(found(value), right)
    line = value.text.strip()
    if not line or not line.isprintable() or len(line) > _LONGEST:
        raise FieldError(found(value), right)
    return line


def pair(value: object) -> Pair:
    """Return two different names."""
    right = "a list of two different names"
    if not isinstance(value, list):
        raise FieldError(found(value), right)
    names = tuple(map(text, value))
    if len(names) != 2 or names[0] == names[1]:
        raise FieldError(f"a list of {', '.join(names) or 'nothing'}", right)
    return names


def flag(value: object) -> bool:
    """Return yes or no."""
    known = _FLAGS.get(value.text.lower()) if isinstance(value, Scalar) else None
    if known is None:
        raise FieldError(found(value), "yes or no")
    return known


def choice(
    value: object, kinds: type[Enum], among: Collection[Enum] | None = None
) -> Enum:
    """Return one of an Enum's members, written as its value.

    ``among`` are the members that errors tell of, where those are not all.
    """
    every = {str(each.value): each for each in kinds}
    known = tuple(k for k, each in every.items() if among is None or each in among)
    if not isinstance(value, Scalar) or value.empty:
        raise FieldError(found(value), f"one of {', '.join(known)}")
    if value.text not in every:
        raise FieldError(found(value), one_of(value.text, known))
    return every[value.text]
