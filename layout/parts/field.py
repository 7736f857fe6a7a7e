"""Declare a part's data-sheet fields once: type, default, bounds and meaning.

The file reader builds its checks, and the documents their tables, from what is
declared here; a kind says it nowhere else.
"""

from __future__ import annotations

import dataclasses
from typing import Any

__all__ = ["choice", "count", "flag", "length", "nested", "word"]

_REQUIRED = dataclasses.MISSING


def length(
    meaning: str,
    default: Any = _REQUIRED,
    *,
    least_mm: float,
    most_mm: float,
) -> Any:
    """Declare a length; outside the bounds it is refused, with a hint at inches.

    The annotation is ``Figure``, or ``Figure | None`` where the default is None.
    """
    return dataclasses.field(
        default=default,
        metadata={"meaning": meaning, "least_mm": least_mm, "most_mm": most_mm},
    )


def count(meaning: str, default: Any = _REQUIRED, *, least: int, most: int) -> Any:
    """Declare a whole number."""
    return dataclasses.field(
        default=default, metadata={"meaning": meaning, "least": least, "most": most}
    )


def word(meaning: str, default: Any = _REQUIRED) -> Any:
    """Declare free text, or the name of a seat or part."""
    return dataclasses.field(default=default, metadata={"meaning": meaning})


def choice(meaning: str, default: Any = _REQUIRED) -> Any:
    """Declare one of an Enum's values, written in files as the Enum's value."""
    return dataclasses.field(default=default, metadata={"meaning": meaning})


def flag(meaning: str, default: Any = _REQUIRED) -> Any:
    """Declare yes or no."""
    return dataclasses.field(default=default, metadata={"meaning": meaning})


def nested(meaning: str, default: Any = _REQUIRED) -> Any:
    """Declare a mapping, or a list or named set of mappings, of another dataclass.

    The annotation is a dataclass, ``tuple[Dataclass, ...]`` (a list in the file) or
    ``tuple[tuple[str, Dataclass], ...]`` (a mapping from names in the file).
    """
    return dataclasses.field(default=default, metadata={"meaning": meaning})
