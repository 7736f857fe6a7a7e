"""Declare a part's data-sheet fields once: type, default, bounds and meaning.

The file reader builds its checks, and the documents their tables, from what is
declared here; a kind says it nowhere else.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Collection
from enum import Enum
from typing import Any

from layout.parts.form.reading import Readings

__all__ = ["choice", "count", "flag", "length", "measured_from", "nested", "word"]

_REQUIRED = dataclasses.MISSING


def length(
    meaning: str,
    default: Any = _REQUIRED,
    *,
    least_mm: float,
    most_mm: float,
    readings: Readings | None = None,
) -> Any:
    """Declare a length; outside the bounds it is refused, with a hint at inches.

    The annotation is ``Figure``, or ``Figure | None`` where the default is None.
    The bounds are those of the usual one of its readings.
    """
    metadata = {"meaning": meaning, "least_mm": least_mm, "most_mm": most_mm}
    return dataclasses.field(default=default, metadata=_with(metadata, readings))


def count(
    meaning: str,
    default: Any = _REQUIRED,
    *,
    least: int,
    most: int,
    readings: Readings | None = None,
) -> Any:
    """Declare a whole number."""
    metadata = {"meaning": meaning, "least": least, "most": most}
    return dataclasses.field(default=default, metadata=_with(metadata, readings))


def measured_from() -> Any:
    """Declare where a kind's file says in which reading its figures are given.

    The annotation is ``Told``; every kind with a figure of several readings has it.
    """
    return dataclasses.field(
        default=(),
        metadata={"meaning": "figures given in another reading than the usual one"},
    )


def word(meaning: str, default: Any = _REQUIRED) -> Any:
    """Declare free text, or the name of a seat or part."""
    return dataclasses.field(default=default, metadata={"meaning": meaning})


def choice(
    meaning: str,
    default: Any = _REQUIRED,
    *,
    among: Collection[Enum] | None = None,
) -> Any:
    """Declare one of an Enum's values, written in files as the Enum's value.

    ``among`` are those that can stand there, where that is not every one; its class
    refuses the others.
    """
    metadata: dict[str, Any] = {"meaning": meaning}
    if among is not None:
        metadata["among"] = among
    return dataclasses.field(default=default, metadata=metadata)


def flag(meaning: str, default: Any = _REQUIRED) -> Any:
    """Declare yes or no."""
    return dataclasses.field(default=default, metadata={"meaning": meaning})


def nested(meaning: str, default: Any = _REQUIRED) -> Any:
    """Declare a mapping, or a list or named set of mappings, of another dataclass.

    The annotation is a dataclass, ``tuple[Dataclass, ...]`` (a list in the file) or
    ``tuple[tuple[str, Dataclass], ...]`` (a mapping from names in the file).
    """
    return dataclasses.field(default=default, metadata={"meaning": meaning})


def _with(metadata: dict[str, Any], readings: Readings | None) -> dict[str, Any]:
    return metadata if readings is None else {**metadata, "readings": readings}
