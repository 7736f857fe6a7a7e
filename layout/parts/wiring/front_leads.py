"""The leads of a case's front: where they start and how long each is."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum
from typing import Final

from layout.geometry.space import Vector
from layout.parts.form import field
from layout.parts.form.connector import ConnectorKind
from layout.standards.figure import Figure
from layout.standards.leads import front_lead
from layout.values import dataclass

__all__ = ["USUAL_FRONT", "FrontLeads", "lengths", "starts_mm"]

_Kind = ConnectorKind

USUAL_FRONT: Final = ((_Kind.FRONT_PANEL, 1), (_Kind.USB_19, 1), (_Kind.AUDIO, 1))
"""What nearly every case's front brings; common practice, no source."""

_FROM_FRONT_MM: Final = 15.0
_FROM_EDGE_MM: Final = 10.0
"""Where leads come in, from the inside of the walls at their connectors; common
practice, no source."""


class FrontAt(Enum):
    """Where a case has the connectors of its front."""

    TOP = "top"  # at the top's front end
    FRONT = "front"


@dataclass(frozen=True, slots=True, kw_only=True)
class FrontLeads:
    """Where the front's leads start, and their lengths from there to their plugs."""

    at: FrontAt = field.choice("where its connectors are", FrontAt.TOP)
    from_floor: Figure | None = field.length(
        "floor to where they come in; default: the top", None, least_mm=0, most_mm=1000
    )
    from_tray: Figure | None = field.length(
        "tray to where they come in; default: half the width",
        None,
        least_mm=-200,
        most_mm=600,
    )
    front_panel: Figure | None = field.length(
        "front panel's lead; default: usual for the case's size, assumed",
        None,
        least_mm=100,
        most_mm=2000,
    )
    usb: Figure | None = field.length(
        "leads to internal USB; default: likewise", None, least_mm=100, most_mm=2000
    )
    audio: Figure | None = field.length(
        "audio's lead; default: likewise", None, least_mm=100, most_mm=2000
    )
    light: Figure | None = field.length(
        "leads of its lights; default: likewise", None, least_mm=100, most_mm=2000
    )
    fans: Figure | None = field.length(
        "leads of what it has of fans or their hub; default: likewise",
        None,
        least_mm=100,
        most_mm=2000,
    )


def lengths(
    told: FrontLeads | None, inside_mm: Vector
) -> Iterator[tuple[ConnectorKind, Figure, str]]:
    """Yield how long the lead to each kind of plug is, and the field that tells it."""
    given = told or FrontLeads()
    for kinds, entry, part in (
        ((_Kind.FRONT_PANEL,), "front_panel", 0.75),
        ((_Kind.USB_9, _Kind.USB_19, _Kind.USB_20), "usb", 0.65),
        ((_Kind.AUDIO,), "audio", 0.9),
        ((_Kind.LIGHT_5V, _Kind.LIGHT_12V), "light", 0.75),
        ((_Kind.FAN_3, _Kind.FAN_4), "fans", 0.75),
    ):
        length = getattr(given, entry) or front_lead(inside_mm, part)
        told_in = f"front leads.{entry.replace('_', ' ')}"
        yield from ((kind, length, told_in) for kind in kinds)


def starts_mm(told: FrontLeads | None, inside_mm: Vector) -> Vector:
    """Return where the front's leads come into the case."""
    depth_mm, height_mm, width_mm = inside_mm
    given = told or FrontLeads()
    top_mm = height_mm - _FROM_EDGE_MM
    back_mm = _FROM_FRONT_MM if given.at is FrontAt.TOP else _FROM_EDGE_MM
    return (
        depth_mm - back_mm,
        given.from_floor.mm if given.from_floor else top_mm,
        given.from_tray.mm if given.from_tray else width_mm / 2,
    )
