"""Every kind's fields as its dataclass declares them, and the sizes published for it.

What a kind can be given is said once, in its fields; this reads it back.
"""

from __future__ import annotations

import dataclasses
import inspect
from collections.abc import Iterator, Mapping
from enum import Enum
from types import MappingProxyType
from typing import Any, Final, get_type_hints

from layout.parts.case.case import Case
from layout.parts.form.hints import Hint, each_of, named_of, sort_of, without_none
from layout.parts.form.reading import Readings, word_of
from layout.parts.kinds.kinds import KINDS
from layout.parts.kinds.published import PUBLISHED, Published
from layout.standards.figure import Figure
from layout.values import dataclass

__all__ = ["DESCRIBED", "FieldPage", "KindPage", "described"]

DESCRIBED: Final[Mapping[str, Hint]] = MappingProxyType({Case.kind: Case, **KINDS})
"""Every kind that a file describes, by its word: the case first."""

Value = Figure | Enum | str | int | float | bool | tuple[Any, ...] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldPage:
    """A field of a kind.

    Parameters
    ----------
    name : str
        As files write it; those of a mapping inside have its name before them.
    unit : str
        ``mm``, or empty where it is no length.
    right : str
        What belongs there, with its bounds or choices.
    meaning : str
    required : bool
    default : Value
        What is taken where the file says nothing; None where it depends on the
        others, as the meaning says.
    readings : Readings or None
        What it is measured from, where the trade has several ways.
    inside : bool
        Whether it belongs to a mapping inside the kind.
    """

    name: str
    unit: str
    right: str
    meaning: str
    required: bool
    default: Value
    readings: Readings | None
    inside: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class KindPage:
    """A kind: what it is, its fields, and what is published of its sizes."""

    kind: str
    summary: str
    fields: tuple[FieldPage, ...]
    published: tuple[Published, ...]


def described(kind: str) -> KindPage:
    """Return what can be said of a kind; its word must be known."""
    declared = DESCRIBED[kind]
    return KindPage(
        kind=kind,
        summary=(inspect.getdoc(declared) or "")
        .partition("\n\n")[0]
        .replace("\n", " "),
        fields=tuple(_fields(declared, "")),
        published=PUBLISHED.get(kind, ()),
    )


def _fields(declared: Hint, before: str) -> Iterator[FieldPage]:
    """Yield the fields of a dataclass, each followed by those inside it."""
    hints = get_type_hints(declared)
    for each in dataclasses.fields(declared):
        hint = without_none(hints[each.name])
        name = f"{before}{word_of(each.name)}"
        yield _field(each, hint, name)
        inner, inside = _inner(hint)
        if inner is not None:
            yield from _fields(inner, f"{name}{inside}.")


def _field(each: Any, hint: Hint, name: str) -> FieldPage:  # noqa: ANN401  (dataclasses.Field is generic in name only)
    missing = dataclasses.MISSING
    required = each.default is missing and each.default_factory is missing
    one = each_of(hint)
    leaf = (named_of(one) or one) if one is not None else hint
    return FieldPage(
        name=name,
        unit="mm" if leaf is Figure else "",
        right=_right(hint, each.metadata),
        meaning=each.metadata["meaning"],
        required=required,
        default=None if required else _plain(each.default),
        readings=each.metadata.get("readings"),
        inside="." in name,
    )


def _right(hint: Hint, declared: Mapping[str, Any]) -> str:
    """Return what belongs in a field; of a list what belongs in each of its places."""
    one = each_of(hint)
    if one is None or _described(one):
        return sort_of(hint, declared)
    named = named_of(one)
    if named is not None:
        return f"a mapping from names, each {sort_of(named, declared)}"
    return f"a list, each {sort_of(one, declared)}"


def _plain(value: object) -> Value:
    """Return a default; of a mapping inside its fields tell theirs."""
    if dataclasses.is_dataclass(value) and not isinstance(value, Figure):
        return None
    known: Value = value  # type: ignore[assignment]
    return known


def _inner(hint: Hint) -> tuple[Hint, str]:
    """Return the dataclass inside a field, and how a place in it is written."""
    if _described(hint):
        return hint, ""
    one = each_of(hint)
    if one is None:
        return None, ""
    named = named_of(one)
    if _described(named):
        return named, ".NAME"
    return (one, "[]") if _described(one) else (None, "")


def _described(hint: Hint) -> bool:
    """Tell whether a type is a dataclass whose fields say what they mean."""
    if not isinstance(hint, type) or not dataclasses.is_dataclass(hint):
        return False
    return all("meaning" in each.metadata for each in dataclasses.fields(hint))
