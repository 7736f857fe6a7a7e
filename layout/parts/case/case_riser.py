"""Riser brackets: seats for a card that stands parallel to the board."""

from __future__ import annotations

from enum import Enum

from layout.geometry.bodies.turn import Turn
from layout.geometry.space import Axis, Box, Direction, Vector
from layout.parts.form import field
from layout.parts.form.form import Allowance, Link, Role, Seat, SeatSort
from layout.parts.form.link import sheet_link, times
from layout.standards import cards
from layout.standards.figure import Figure
from layout.values import dataclass

__all__ = ["Riser", "RiserLooks", "riser_seat"]

_FOOT_MM = 6.0
_BEYOND_MM = 125.0
"""From a card's contact edge to both ends of its bracket's opening, with play."""
_PLAY_MM = 0.5


class RiserLooks(Enum):
    """Where the card's fan side looks."""

    PANEL = "panel"  # in the board's chamber, its plug up
    BACK_PANEL = "back panel"  # behind the tray, its plug down

    @property
    def turn(self) -> Turn:
        """Return how the card stands; in a slot its fan side looks down."""
        panel = self is RiserLooks.PANEL
        back = Direction.TRAY if panel else Direction.PANEL
        return Turn(Direction.FRONT, back)


@dataclass(frozen=True, slots=True, kw_only=True)
class Riser:
    """A bracket with a socket on a cable, at the rear panel."""

    looks: RiserLooks = field.choice(
        "where the card's fans look: panel, or back panel behind the tray",
        RiserLooks.PANEL,
    )
    from_panel: Figure = field.length(
        "inside of the panel it looks at to the middle of the card's circuit board",
        least_mm=5,
        most_mm=300,
    )
    from_floor: Figure = field.length(
        "floor to the card's contact edge; a card that looks at the panel stands on "
        "it, one behind the tray hangs from it",
        least_mm=0,
        most_mm=900,
    )
    slots: int = field.count("openings beside one another", 2, least=1, most=4)


def riser_seat(
    name: str,
    riser: Riser,
    *,
    walls_mm: tuple[float, float, float],
    links: tuple[tuple[Link, ...], tuple[Link, ...]],
) -> Seat:
    """Return a bracket's seat: the card's contact edge at the rear panel.

    Parameters
    ----------
    walls_mm : (float, float, float)
        Inside of the side panel, inside of the back panel, thickness of the rear one.
    links : (tuple of Link, tuple of Link)
        The figures that place the side panel and the back panel.
    """
    panel_mm, back_mm, _ = walls_mm
    to_panel = riser.looks is RiserLooks.PANEL
    away_mm = riser.from_panel.mm
    at: Vector = (
        0.0,
        riser.from_floor.mm,
        panel_mm - away_mm if to_panel else back_mm + away_mm,
    )
    return Seat(
        name=name,
        sort=SeatSort.RISER,
        at_mm=at,
        approach=Direction.REAR,
        turn=riser.looks.turn,
        links=(
            *links[0 if to_panel else 1],
            times(
                sheet_link(
                    f"riser {name} from its panel", riser.from_panel, Axis.WIDTH
                ),
                -1.0 if to_panel else 1.0,
            ),
            sheet_link(f"riser {name} from the floor", riser.from_floor, Axis.HEIGHT),
        ),
        allowances=(_opening(riser, walls_mm[2]),),
    )


def _opening(riser: Riser, wall_mm: float) -> Allowance:
    """Return the openings in the rear panel, in the card's own axes."""
    back_mm = cards.THICKNESS.mm / 2 + cards.SOLDER_SIDE.mm + _PLAY_MM
    wide_mm = cards.BRACKET_WIDTH.mm + (riser.slots - 1) * cards.SLOT_PITCH.mm
    low_mm = back_mm - wide_mm - 2 * _PLAY_MM
    box = Box((-wall_mm, low_mm, -_BEYOND_MM), (0.0, back_mm, _BEYOND_MM))
    return Allowance(role=Role.REAR, box=box)
