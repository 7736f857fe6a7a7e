"""What to order where a plug finds no socket, and what never to do instead."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from layout.parts.form.connector import ConnectorKind
from layout.questions.hookup.ledger import Lack
from layout.questions.hookup.loads import HEADER_MA

__all__ = ["HUB", "caution", "to_order"]

_Kind = ConnectorKind

HUB: Final = "fan hub fed by drive power"

_MOST_ON_A_HEADER: Final = 3
"""Fans that one header usually feeds; common practice, no source."""


def to_order(lack: Lack) -> tuple[int, str]:
    """Return how many of what would meet a lack."""
    rule = _RULES.get(lack.kind)
    return rule(lack) if rule else (1, f"board with a socket for {lack.kind.value}")


def caution(lack: Lack) -> str:
    """Return what must not be done to help oneself, or what to mind; may be empty."""
    if lack.kind in {_Kind.FAN_3, _Kind.FAN_4} and lack.there:
        return f"one header feeds some {HEADER_MA} mA in all, see the board's manual"
    return next(
        (
            told
            for kinds, other, told in _NEVER
            if lack.kind in kinds and other in lack.left
        ),
        "",
    )


_NEVER: Final = (
    (
        frozenset({_Kind.LIGHT_5V}),
        _Kind.LIGHT_12V,
        "never plug it into the free 12 V socket, which destroys 5 V lights",
    ),
    (
        frozenset({_Kind.LIGHT_12V}),
        _Kind.LIGHT_5V,
        "the free 5 V socket is none for it: other contacts, other voltage",
    ),
    (
        frozenset({_Kind.CARD_6, _Kind.CARD_8}),
        _Kind.PROCESSOR,
        "never force the spare processor lead in: it is wired otherwise",
    ),
    (
        frozenset({_Kind.PROCESSOR}),
        _Kind.CARD_8,
        "never force a spare card lead in: it is wired otherwise",
    ),
)
"""What lacks, what is free, and why that is no help; common practice, no source."""


def _split(what: str) -> Callable[[Lack], tuple[int, str]]:
    return lambda lack: (1, f"{what}, 1 plug to {lack.count + 1} or more")


def _fan(lack: Lack) -> tuple[int, str]:
    if lack.there and lack.count < _MOST_ON_A_HEADER:
        return _split("fan splitter")(lack)
    return 1, f"{HUB}, for {lack.count} or more"


def _light(lack: Lack) -> tuple[int, str]:
    word = lack.kind.value
    if lack.there:
        return _split(f"{word} splitter")(lack)
    return 1, f"{word} controller fed by drive power"


def _usb(lack: Lack) -> tuple[int, str]:
    """Return an adapter from a socket that is free, the fastest first."""
    for other in (_Kind.USB_20, _Kind.USB_19, _Kind.USB_9):
        if other is not lack.kind and other in lack.left:
            slower = ", slower" if other is not _Kind.USB_20 else ""
            return (
                lack.count,
                f"adapter from {other.value} to {lack.kind.value}{slower}",
            )
    if lack.kind is _Kind.USB_9:
        return 1, "internal hub for 9-pin USB"
    return 1, f"card with a socket for {lack.kind.value}"


def _card_16(lack: Lack) -> tuple[int, str]:
    if _Kind.CARD_8 in lack.left:
        return (
            lack.count,
            "adapter from 8-pin card power to 12V-2x6, of the card's maker",
        )
    return _lead(lack)


def _lead(lack: Lack) -> tuple[int, str]:
    return lack.count, f"{lack.kind.value} lead made for this very supply"


def _drive_power(lack: Lack) -> tuple[int, str]:
    return _split("drive power splitter")(lack) if lack.there else _lead(lack)


_RULES: Final[Mapping[ConnectorKind, Callable[[Lack], tuple[int, str]]]] = (
    MappingProxyType(
        {
            _Kind.FAN_3: _fan,
            _Kind.FAN_4: _fan,
            _Kind.LIGHT_5V: _light,
            _Kind.LIGHT_12V: _light,
            _Kind.USB_9: _usb,
            _Kind.USB_19: _usb,
            _Kind.USB_20: _usb,
            _Kind.CARD_6: _lead,
            _Kind.CARD_8: _lead,
            _Kind.CARD_16: _card_16,
            _Kind.PROCESSOR: _lead,
            _Kind.MAIN: _lead,
            _Kind.DRIVE_POWER: _drive_power,
            _Kind.DRIVE_DATA: lambda lack: (
                1,
                f"controller card for {lack.count} or more drives",
            ),
        }
    )
)
