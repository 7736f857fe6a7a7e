"""What leaves each kind of plug: its cable as usually made, and how it must run."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from layout.parts.form.cable import Cable, CableForm, Strands
from layout.parts.form.connector import ConnectorKind
from layout.standards.connectors import STRAIGHT_RUNS
from layout.standards.figure import Figure

__all__ = ["CABLES", "straight_run"]


def _loose(count: int, gauge: int) -> Cable:
    return Cable(strands=(Strands(count, gauge),))


def _combed(count: int, gauge: int) -> Cable:
    return Cable(strands=(Strands(count, gauge),), form=CableForm.COMBED)


def _taped(count: int, gauge: int) -> Cable:
    return Cable(strands=(Strands(count, gauge),), form=CableForm.TAPED)


CABLES: Final[Mapping[ConnectorKind, Cable]] = MappingProxyType(
    {
        # Gauges of the 8-pin and the 12V-2x6 lead: ATX 3.0 guide, tables 5-5 and 5-8;
        # the others are common practice, no source.
        ConnectorKind.MAIN: _loose(24, 18),
        ConnectorKind.PROCESSOR: _loose(8, 18),
        ConnectorKind.CARD_8: _loose(8, 18),
        ConnectorKind.CARD_6: _loose(6, 18),
        ConnectorKind.CARD_16: Cable(strands=(Strands(12, 16), Strands(4, 28))),
        ConnectorKind.DRIVE_POWER: _loose(5, 18),
        ConnectorKind.DRIVE_DATA: _combed(7, 28),
        ConnectorKind.FAN_3: _loose(3, 28),
        ConnectorKind.FAN_4: _loose(4, 28),
        ConnectorKind.LIGHT_5V: _loose(3, 28),
        ConnectorKind.LIGHT_12V: _loose(4, 28),
        ConnectorKind.USB_9: _taped(9, 28),
        ConnectorKind.USB_19: _taped(19, 28),
        ConnectorKind.USB_20: _taped(20, 28),
        ConnectorKind.FRONT_PANEL: _loose(9, 28),
        ConnectorKind.AUDIO: _taped(7, 28),
    }
)


def straight_run(kind: ConnectorKind) -> Figure:
    """Return how far the cable runs straight behind the plug before it may bend."""
    return STRAIGHT_RUNS[kind.value]
