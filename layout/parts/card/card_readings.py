"""What a card's figures are measured from."""

from __future__ import annotations

from enum import Enum
from typing import Any, Final

from layout.parts.form.errors import PartError
from layout.parts.form.form import Seat
from layout.parts.form.reading import Reading, Readings
from layout.standards import cards
from layout.standards.figure import Figure

__all__ = ["BOARDS_COUNT", "HEIGHT", "LENGTH", "SLOT", "THICKNESS", "PlugAt"]

BOARDS_COUNT: Final = "board's own count"


class PlugAt(Enum):
    """Where the card takes its power, and which way the plug looks."""

    TOP_EDGE = "top edge"  # towards the side panel
    FAR_END = "far end"  # towards the front
    NONE = "none"


def _plug(card: Any, seat: Seat | None) -> Figure:  # noqa: ANN401  (card imports this)
    """Return how far the plug at a card's far end reaches."""
    del seat
    if card.plug is not PlugAt.FAR_END:
        raise PartError(
            field="measured from.length",
            found=f"a length with the power connector, and 'plug: {card.plug.value}'",
            right="'plug: far end' beside it, or slot plane",
        )
    reach: Figure = card.plug_beyond
    return reach


LENGTH: Final = Readings(
    usual="slot plane",
    # Data sheets do not say whether the bracket's own sheet is in it, or a shroud
    # that stands over the circuit board; common practice, no source.
    plus_minus_mm=2.0,
    others=(
        Reading(
            name="circuit board's edge",
            meaning="edge of the circuit board at the bracket to the far end",
            step=cards.BRACKET_OUTSIDE,
            sign=1,
        ),
        Reading(
            name="with the power connector",
            meaning="slot plane to the end of the plug at the far end",
            step=cards.PLUG_BEYOND_CARD,
            between="plug beyond the card",
            found=_plug,
        ),
    ),
)

HEIGHT: Final = Readings(
    usual="contact fingers",
    others=(
        Reading(
            name="slot top",
            meaning="upper edge of the board's slot to the card's top edge",
            step=cards.SLOT_TOP,
            sign=1,
        ),
        Reading(
            name="board edge",
            meaning="circuit board's lower edge beside the fingers to the top edge",
            step=cards.SHOULDER,
            sign=1,
        ),
        Reading(
            name="bracket top",
            meaning="seat of the bracket's screw tab to the card's top edge",
            step=cards.BRACKET_TAB_SEAT,
            sign=1,
        ),
    ),
)

THICKNESS: Final = Readings(usual="back of the board to the fan side")

SLOT: Final = Readings(
    usual="case's openings",
    others=(
        Reading(
            name=BOARDS_COUNT,
            meaning="the board's card sockets, 1 nearest the processor",
        ),
    ),
)
