"""A supply's leads: how long each is, from its case to its first plug."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from layout.geometry.solid import Solid
from layout.geometry.space import Axis, Direction, Vector
from layout.parts.cable import CableForm
from layout.parts.connector import ConnectorKind
from layout.parts.form import Link, Plug
from layout.parts.lead import Lead
from layout.parts.supply_lead import SupplyLead
from layout.standards.bends import BendRule
from layout.standards.connectors import OUTLINES
from layout.standards.figure import Figure, practice

__all__ = ["middle_of_face", "supply_leads", "thickest_lead"]

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
    made: tuple[CableForm, BendRule | None],
    at_mm: Vector,
    ahead_mm: float,
) -> tuple[Lead, ...]:
    """Return the leads of a supply in its own axes, where they leave to the front.

    Where the file lists them, those alone that were made for this supply; ``small``
    forms have shorter ones.  ``made`` is how their wires are held, and by which rule
    they bend where it is not the usual one.
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
                form=made[0],
                rule=made[1],
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


def middle_of_face(leads: Solid) -> Vector:
    """Return where leads leave the supply's case, in the middle of their field."""
    low, high = leads.bounds.low, leads.bounds.high
    return low[0], (low[1] + high[1]) / 2, (low[2] + high[2]) / 2


def thickest_lead(leads: Solid, links: tuple[Link, ...]) -> Plug:
    """Return the thickest lead's plug, in the middle of the field or of the exit."""
    low, high = leads.bounds.low, leads.bounds.high
    _, y, z = middle_of_face(leads)
    outline = OUTLINES["24-pin power, lying"]
    return Plug(
        name="leads",
        kind=ConnectorKind.MAIN,
        at_mm=(high[0], y, z),
        out=Direction.FRONT,
        along=Axis.WIDTH,
        size_mm=(
            min(outline.length.mm, high[2] - low[2]),
            min(outline.width.mm, high[1] - low[1]),
        ),
        links=links,
    )
