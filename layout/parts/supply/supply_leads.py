"""A supply's leads: how long each is, from its case to its first plug."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from layout.geometry.solids.solid import Solid
from layout.geometry.space import Axis, Direction, Vector
from layout.parts.form.cable import CableForm
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import Link, Plug
from layout.parts.form.lead import Lead
from layout.parts.form.link import link
from layout.parts.supply.supply_lead import LENGTH, PITCH, SupplyLead
from layout.standards.bends import BendRule
from layout.standards.connectors import OUTLINES
from layout.standards.figure import Figure, practice

__all__ = ["USUAL_BOX", "middle_of_face", "plugs_of_leads", "supply_leads"]

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
_MOST_LEADS: Final = 12
USUAL_BOX: Final = (
    SupplyLead(plug=ConnectorKind.CARD_16, count=_MOST_LEADS),
    SupplyLead(plug=ConnectorKind.PROCESSOR, count=_MOST_LEADS),
    SupplyLead(plug=ConnectorKind.CARD_8, plugs=2, count=_MOST_LEADS),
    SupplyLead(plug=ConnectorKind.CARD_6, plugs=2, count=_MOST_LEADS),
    replace(_USUAL_DRIVE_LEAD, count=_MOST_LEADS),
)
"""As many usual leads as a supply may have, each with the plugs that one usually has;
common practice, no source."""


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
                length=lead.length or LENGTH.of_usual(usual[name]),
                at_mm=at_mm,
                out=Direction.FRONT,
                ahead_mm=ahead_mm,
                plugs=lead.plugs,
                between=PITCH.of_usual(lead.between_plugs),
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


def plugs_of_leads(
    leads: Solid, links: tuple[Link, ...], *, modular: bool, native: bool
) -> tuple[Plug, ...]:
    """Return the plugs of leads at the supply, where they are pulled to the front.

    A fixed exit has the thickest lead alone, in its middle.  Where a modular field
    has its sockets no standard says: the main one is taken to be in its middle, the
    others in rows over and under it, those of one kind side by side.  A ``native``
    12V-2x6 socket takes the place of the last one for cards in the upper row.
    """
    main = _main_lead(leads, links)
    if not modular:
        return (main,)
    long, short = _axes(leads)
    low, high = leads.bounds.low, leads.bounds.high
    out = [main]
    for share, kinds in _NATIVE_ROWS if native else _ROWS:
        sizes = [OUTLINES[_OUTLINES[kind]] for kind in kinds]
        long_mm = high[long.index] - low[long.index]
        widest_mm = max(each.length.mm for each in sizes)
        pitch_mm = min(widest_mm + _BETWEEN_MM, long_mm / len(kinds))
        first_mm = (low[long.index] + high[long.index] - pitch_mm * len(kinds)) / 2
        for number, (kind, size) in enumerate(zip(kinds, sizes, strict=True)):
            at = [high[0], *main.at_mm[1:]]
            at[long.index] = first_mm + (number + 0.5) * pitch_mm
            room_mm = high[short.index] - low[short.index]
            at[short.index] = low[short.index] + share * room_mm
            out.append(
                Plug(
                    name="leads",
                    kind=kind,
                    at_mm=(at[0], at[1], at[2]),
                    out=Direction.FRONT,
                    along=long,
                    size_mm=(size.length.mm, size.width.mm),
                    links=(*links, _place_link(kind, long, short)),
                )
            )
    return tuple(out)


_ROWS: Final = (
    (5 / 6, (ConnectorKind.PROCESSOR,) * 2 + (ConnectorKind.CARD_8,) * 2),
    (1 / 6, (ConnectorKind.DRIVE_POWER,) * 3 + (ConnectorKind.CARD_8,)),
)
"""Rows of sockets: how far up the field, and what is in them; an assumption."""
_NATIVE_ROWS: Final = (
    (_ROWS[0][0], (*_ROWS[0][1][:-1], ConnectorKind.CARD_16)),
    *_ROWS[1:],
)
_OUTLINES: Final[Mapping[ConnectorKind, str]] = MappingProxyType(
    {
        ConnectorKind.PROCESSOR: "8-pin power, lying",
        ConnectorKind.CARD_8: "8-pin power, lying",
        ConnectorKind.CARD_16: "12V-2x6 plug",
        ConnectorKind.DRIVE_POWER: "6-pin power, lying",
    }
)
_BETWEEN_MM: Final = 4.0
_PLACE: Final = practice(0.0, 10.0, assumed=True)


def _axes(leads: Solid) -> tuple[Axis, Axis]:
    """Return the axes along which a field is long, and short."""
    low, high = leads.bounds.low, leads.bounds.high
    upright = high[1] - low[1] > high[2] - low[2]
    return (Axis.HEIGHT, Axis.WIDTH) if upright else (Axis.WIDTH, Axis.HEIGHT)


def _place_link(kind: ConnectorKind, *axes: Axis) -> Link:
    label = f"place of the {kind.value} socket in the field"
    return link(label, _PLACE, *axes, tape="side of the supply to the socket's middle")


def _main_lead(leads: Solid, links: tuple[Link, ...]) -> Plug:
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
