"""Which published sizes belong to which kind of part; the figures lie in standards."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Any, Final

from layout.standards import (
    boards,
    cards,
    connectors,
    drives,
    fans,
    memory,
    processors,
    radiators,
    screws,
    supplies,
)
from layout.standards.figure import Figure
from layout.values import dataclass

__all__ = ["PUBLISHED", "Published", "Row"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One published thing, and its figures by name."""

    name: str
    figures: tuple[tuple[str, Figure], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """A table of published sizes."""

    title: str
    rows: tuple[Row, ...]


def _table(title: str, rows: Mapping[Any, Any]) -> Published:
    """Return a table of standards, a row for each of its entries."""
    return Published(
        title=title,
        rows=tuple(
            Row(name=str(name), figures=tuple(_figures(value)))
            for name, value in rows.items()
        ),
    )


def _figures(value: object) -> Iterator[tuple[str, Figure]]:
    """Yield the figures of an entry: of a dataclass those of its fields."""
    if isinstance(value, Figure):
        yield "", value
    elif isinstance(value, tuple):
        for each in value:
            yield from _figures(each)
    elif dataclasses.is_dataclass(value):
        for field in dataclasses.fields(value):
            word = field.name.replace("_", " ")
            for _, figure in _figures(getattr(value, field.name)):
                yield word, figure


_COOLERS: Final = (
    _table("cooler holes by socket, along and across", screws.COOLER_HOLES),
)
_CARD: Final = {
    "full length, from the card's edge": cards.FULL_LENGTH,
    "half length, from the card's edge": cards.HALF_LENGTH,
    "full height, from the fingers": cards.FULL_HEIGHT,
    "low height, from the fingers": cards.LOW_HEIGHT,
    "component side of one slot": cards.COMPONENT_SIDE,
    "over the card's surface, two slots": cards.DUAL_HEIGHT,
    "over the card's surface, three slots": cards.TRIPLE_HEIGHT,
    "solder side": cards.SOLDER_SIDE,
    "circuit board": cards.THICKNESS,
    "slot pitch": cards.SLOT_PITCH,
    "bracket": cards.BRACKET_LENGTH,
    "bracket's width": cards.BRACKET_WIDTH,
}
_MODULE: Final = {
    "length": memory.LENGTH,
    "height, bare": memory.HEIGHT,
    "thickness, bare": memory.THICKNESS_BARE,
    "thickness, with heat spreader": memory.THICKNESS_SPREADER,
    "slot pitch": memory.SLOT_PITCH,
    "contact edge over the board": memory.SEAT,
    "length, laptop size": memory.LAPTOP_LENGTH,
    "height, laptop size": memory.LAPTOP_HEIGHT,
    "thickness, laptop size": memory.LAPTOP_THICKNESS,
}
_CASE: Final = {
    "rear aperture's width": boards.APERTURE_WIDTH,
    "rear aperture's height": boards.APERTURE_HEIGHT,
    "first holes from the rear panel": boards.DATUM_ROW_TO_REAR,
    "standoff": boards.STANDOFF,
    "slot pitch": cards.SLOT_PITCH,
    "kept free over the board": boards.KEEP_OUT_REQUIRED,
}

PUBLISHED: Final[Mapping[str, tuple[Published, ...]]] = MappingProxyType(
    {
        "case": (_table("openings and places", _CASE),),
        "board": (
            _table("forms", boards.FORMS),
            _table("sockets", processors.SOCKETS),
            _table("socket's centre by form, from rear and top", processors.CENTRE),
            _table("connectors", connectors.OUTLINES),
        ),
        "processor": (_table("sockets", processors.SOCKETS),),
        "memory": (_table("modules", _MODULE),),
        "tower cooler": _COOLERS,
        "twin tower": _COOLERS,
        "low cooler": _COOLERS,
        "liquid cooler": (*_COOLERS, _table("classes", radiators.CLASSES)),
        "card": (
            _table("cards", _CARD),
            _table("slot bodies by lanes", cards.CONNECTOR_LENGTH),
        ),
        "radiator": (_table("classes", radiators.CLASSES),),
        "fan": (_table("frames", fans.FRAMES),),
        "supply": (_table("forms", supplies.FORMS),),
        "drive": (
            _table("sizes", drives.SIZES),
            _table("heights in use", drives.HEIGHTS),
        ),
    }
)
"""Tables by kind; a kind without any is not in it."""
