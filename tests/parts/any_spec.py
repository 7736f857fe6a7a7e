"""Specs with any figures inside their declared bounds, from a seeded generator."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from enum import Enum
from random import Random
from types import NoneType
from typing import Any, TypeVar, get_args, get_type_hints

from layout.parts.board.board import Board
from layout.parts.board.m2_drive import M2Drive
from layout.parts.board.standoffs import Standoffs
from layout.parts.card.card import Card
from layout.parts.card.card_headers import CardHeader
from layout.parts.case.case import Case
from layout.parts.cooling.radiator import Radiator
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.reading import MEASURED_FROM, Told, of, word_of
from layout.parts.wiring.adapter import Adapter, AdapterLooks, BoardAdapter
from layout.standards.drives import M2_LENGTHS
from layout.standards.figure import Figure, given
from layout.standards.radiators import CLASSES

__all__ = ["any_spec", "seeded"]

_Spec = TypeVar("_Spec")
_NAMES = ("front", "top", "rear")
_KINDS = ("4-pin fan", "front panel", "8-pin card power")
_WORDS = ("AM5", "front", "out")
_CHOICES: Mapping[tuple[type, str], tuple[object, ...]] = {
    (Board, "holes"): ((), ("C", "F", "H", "J")),
    (Board, "angled_plugs"): ((), ("24-pin",), ("19-pin USB", "24-pin")),
    (Board, "lying_sockets"): ((), ("24-pin",)),
    (Board, "adapters"): (
        (),
        (BoardAdapter(kind=ConnectorKind.PROCESSOR, looks=AdapterLooks.UP),),
    ),
    (Card, "adapter"): (None, Adapter(looks=AdapterLooks.DOWN)),
    (Case, "height"): (None, given(380.0), given(470.0), given(520.0)),
    (Standoffs, "forms"): ((), ("ATX",), ("microATX", "Mini-ITX")),
    (Standoffs, "holes"): ((), ("A", "B")),
    (Card, "headers"): ((), (("drive data", 4),)),
    (Card, "header_places"): (
        (),
        (CardHeader(kind=ConnectorKind.DRIVE_DATA, at=given(20.0)),),
    ),
    (Card, "power"): (None, (("8-pin card power", 2),)),
    (Radiator, "size"): tuple(CLASSES),
    (M2Drive, "length"): M2_LENGTHS,
}
"""Fields of which their bounds tell too little: a number drawn from them is none."""


def seeded(seed: int) -> Random:
    return Random(seed)  # noqa: S311  figures, not secrets


def any_spec(kind: type[_Spec], random: Random) -> _Spec:
    """Return a spec of a kind; it may refuse the figures in turn."""
    hints = get_type_hints(kind)
    declared = dataclasses.fields(kind)  # type: ignore[arg-type]
    values = {
        each.name: random.choice(_CHOICES[kind, each.name])
        if (kind, each.name) in _CHOICES
        else _value(hints[each.name], each.metadata, random)
        for each in declared
        if each.name != MEASURED_FROM
    }
    if any(each.name == MEASURED_FROM for each in declared):
        values[MEASURED_FROM] = _readings(kind, values, random)
    return kind(**values)


def _readings(kind: type, values: Mapping[str, object], random: Random) -> Told:
    """Return other readings for some of the given figures that have them."""
    given_ones = {word_of(name) for name, value in values.items() if value is not None}
    return tuple(
        (word, random.choice(readings.others).name)
        for word, readings in of(kind).items()
        if readings.others and word in given_ones and random.random() < 0.15
    )


def _value(hint: object, declared: Mapping[str, Any], random: Random) -> object:
    args = get_args(hint)
    if NoneType in args:
        (rest,) = (each for each in args if each is not NoneType)
        return random.choice([None, _value(rest, declared, random)])
    if args:
        return _several(args[0], declared, random)
    return _one(hint, declared, random)


def _several(each: object, declared: Mapping[str, Any], random: Random) -> object:
    """Return a list of up to two, or a mapping from names."""
    count = random.randint(0, 2)
    named = get_args(each)
    if not named:
        return tuple(_value(each, declared, random) for _ in range(count))
    names = _KINDS if named[1] is int else _NAMES
    return tuple(
        (name, _value(named[1], declared, random))
        for name in random.sample(names, count)
    )


def _one(hint: object, declared: Mapping[str, Any], random: Random) -> object:
    if hint is Figure:
        return given(random.uniform(declared["least_mm"], declared["most_mm"]))
    if hint is int:
        return random.randint(declared["least"], declared["most"])
    if hint is bool:
        return random.random() < 0.5
    if isinstance(hint, type) and issubclass(hint, Enum):
        return random.choice(list(hint))
    if isinstance(hint, type) and dataclasses.is_dataclass(hint):
        return any_spec(hint, random)
    return random.choice(_WORDS)
