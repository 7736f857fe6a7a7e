"""What a field's annotation allows, and how to say it."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from enum import Enum
from types import NoneType
from typing import Any, Final, TypeAlias, get_args, get_origin

from shapely.geometry import Polygon

from layout.geometry.solids.solid import Solid
from layout.geometry.space import Vector
from layout.standards.figure import Figure

__all__ = ["Hint", "Raw", "each_of", "named_of", "sort_of", "without_none"]

Hint: TypeAlias = Any
"""A type as an annotation says it; the language has no type for all of them."""


class Raw:
    """Annotation of a field that is taken as it is written."""


def without_none(hint: Hint) -> Hint:
    """Return ``X`` of ``X | None``."""
    args = get_args(hint)
    if NoneType not in args:
        return hint
    (rest,) = (each for each in args if each is not NoneType)
    return rest


def each_of(hint: Hint) -> Hint:
    """Return ``X`` of ``tuple[X, ...]``, else None."""
    args, origin = get_args(hint), _origin(hint)
    several = origin is tuple and len(args) == 2 and args[1] is Ellipsis
    return args[0] if several else None


def named_of(each: Hint) -> Hint:
    """Return ``X`` of ``tuple[str, X]``, else None."""
    args, origin = get_args(each), _origin(each)
    pair = origin is tuple and len(args) == 2 and args[0] is str
    return args[1] if pair else None


def _origin(hint: Hint) -> Hint:
    return get_origin(hint)


def sort_of(hint: Hint, declared: Mapping[str, Any]) -> str:
    """Return what belongs in a field of this type."""
    if hint in _SORTS:
        return _SORTS[hint]
    if hint is Figure:
        return f"a length from {declared['least_mm']:g} to {declared['most_mm']:g} mm"
    if hint is int:
        return f"a whole number from {declared['least']} to {declared['most']}"
    if isinstance(hint, type) and issubclass(hint, Enum):
        among = declared.get("among", hint)
        return f"one of {', '.join(str(e.value) for e in hint if e in among)}"
    each = each_of(hint)
    if each is not None and named_of(each) is None:
        return "a list"
    mapping = each is not None or dataclasses.is_dataclass(hint) or hint is Raw
    return "a mapping of 'key: value' lines" if mapping else "a value"


_SORTS: Final[Mapping[Any, str]] = {
    str: "a word",
    bool: "yes or no",
    float: "a number",
    Vector: "[x, y, z]",
    Polygon: "a list of points",
    Solid: "a mapping of two outlines: 'side' or 'top' and the other, or 'y' or 'z'",
    tuple[float, float]: "[lower end, upper end]",
    tuple[str, str]: "a list of two names",
}
