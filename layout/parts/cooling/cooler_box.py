"""What every cooler's box holds, declared once: plate, kits, lead and plugs."""

from __future__ import annotations

from typing import Any

from layout.parts.form import field
from layout.standards.figure import Figure

__all__ = ["back_plate", "kits", "lead", "off_centre", "plugs"]


def off_centre(what: str) -> Any:
    """Declare how far a cooler's fins stand off the socket's centre."""
    return field.length(what, None, least_mm=-60, most_mm=60)


def back_plate() -> Any:
    """Declare a cooler's plate behind the board; the annotation: Figure or None."""
    return field.length(
        "its own plate behind the board, from the board's underside",
        None,
        least_mm=0.5,
        most_mm=15,
    )


def kits() -> Any:
    """Declare a cooler's kits; the annotation: a tuple of Kit, or None."""
    return field.nested(
        "mounting kits in the box; default: one for the board's socket, assumed", None
    )


def lead(meaning: str, usual: Figure) -> Any:
    """Declare the length of a cooler's own lead."""
    return field.length(meaning, usual, least_mm=30, most_mm=1500)


def plugs(usual: str) -> Any:
    """Declare the plugs that a cooler wants sockets for; the annotation: Listed."""
    return field.count(
        "plugs to be plugged in: {4-pin fan: 1, 5 V light: 1}; default: " + usual,
        None,
        least=0,
        most=12,
    )
