"""What a case's stated limits are measured from; common practice, no source."""

from __future__ import annotations

from typing import Final

from layout.parts.form.reading import Reading, Readings
from layout.standards.processors import SOCKETS
from layout.standards.supplies import PLUGS

__all__ = ["BEHIND_TRAY", "LONGEST_CARD", "LONGEST_SUPPLY", "TALLEST_COOLER"]

TALLEST_COOLER: Final = Readings(
    usual="heat spreader",
    others=(
        Reading(
            name="board surface",
            meaning="board's top to the inside of the panel",
            step=SOCKETS["LGA1155"].stack,
        ),
    ),
)

LONGEST_CARD: Final = Readings(usual="slot plane")

LONGEST_SUPPLY: Final = Readings(
    usual="body alone",
    others=(
        Reading(
            name="with leads",
            meaning="body and the plugs or cable exit beyond it, before the bend",
            step=PLUGS,
        ),
    ),
)

BEHIND_TRAY: Final = Readings(usual="panel's inside at the flat")
