"""A supply's leads: how long each is, from its case to its first plug."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from layout.geometry.space import Direction, Vector
from layout.parts.connector import ConnectorKind
from layout.parts.lead import Lead
from layout.parts.supply_lead import SupplyLead
from layout.standards.figure import Figure, practice

__all__ = ["supply_leads"]

_FULL: Final[Mapping[str, Figure]] = MappingProxyType(
    {
        "main": practice(600.0, 50.0, assumed=True),
        "processor": practice(700.0, 50.0, assumed=True),
        "card": practice(650.0, 50.0, assumed=True),
        "drive": practice(500.0, 50.0, assumed=True),
    }
)
"""Usual leads of supplies for towers; the scatter is that of what is sold."""
_SHORT: Final[Mapping[str, Figure]] = MappingProxyType(
    {
        "main": practice(400.0, 100.0, assumed=True),
        "processor": practice(500.0, 100.0, assumed=True),
        "card": practice(500.0, 100.0, assumed=True),
        "drive": practice(400.0, 100.0, assumed=True),
    }
)
"""The same of the small forms, which differ more."""

_KINDS: Final[Mapping[str, frozenset[ConnectorKind]]] = MappingProxyType(
    {
        "main": frozenset({ConnectorKind.MAIN}),
        "processor": frozenset({ConnectorKind.PROCESSOR}),
        "card": frozenset(
            {ConnectorKind.CARD_6, ConnectorKind.CARD_8, ConnectorKind.CARD_16}
        ),
        "drive": frozenset({ConnectorKind.DRIVE_POWER}),
    }
)


_USUAL_DRIVE_LEAD: Final = SupplyLead(plug=ConnectorKind.DRIVE_POWER, plugs=3, count=2)


def supply_leads(
    listed: tuple[SupplyLead, ...] | None,
    *,
    small: bool,
    at_mm: Vector,
    ahead_mm: float,
) -> tuple[Lead, ...]:
    """Return the leads of a supply in its own axes, where they leave to the front.

    Where the file lists them, those alone that were made for this supply; ``small``
    forms have shorter ones.
    """
    usual = _SHORT if small else _FULL
    out = []
    for name, kinds in _KINDS.items():
        lead = _of_kind(listed, kinds)
        if lead is None:
            continue
        out.append(
            Lead(
                name=f"{name} lead",
                kinds=kinds,
                length=lead.length or usual[name],
                at_mm=at_mm,
                out=Direction.FRONT,
                ahead_mm=ahead_mm,
                plugs=lead.plugs,
                between=lead.between_plugs,
                leads=lead.count,
                of="leads",
            )
        )
    return tuple(out)


def _of_kind(
    listed: tuple[SupplyLead, ...] | None, kinds: frozenset[ConnectorKind]
) -> SupplyLead | None:
    """Return the lead for some plugs: of several sorts, the longest."""
    if listed is None:
        drive = ConnectorKind.DRIVE_POWER in kinds
        return _USUAL_DRIVE_LEAD if drive else SupplyLead(plug=min(kinds, key=_name))
    own = [each for each in listed if each.plug in kinds and each.made_for is None]
    return max(
        own, key=lambda each: each.length.mm if each.length else 0.0, default=None
    )


def _name(kind: ConnectorKind) -> str:
    return kind.value
