"""A board's places for M.2 drives: on it, or behind it."""

from __future__ import annotations

from enum import Enum

from layout.geometry.bodies.turn import OVER, UPRIGHT
from layout.geometry.space import Axis, Direction
from layout.parts.form import field
from layout.parts.form.form import Link, Seat, SeatSort
from layout.parts.form.link import less, link
from layout.standards.figure import Figure, practice
from layout.values import dataclass

__all__ = ["BEHIND_BOARD", "BoardSide", "M2Place", "m2_seat", "usual_places"]

BEHIND_BOARD = "behind board"
"""The place of what lies between board and tray."""

_SCATTER_MM = 15.0


class BoardSide(Enum):
    """Which face of the board a drive lies on."""

    ON = "on"
    BEHIND = "behind"


@dataclass(frozen=True, slots=True, kw_only=True)
class M2Place:
    """A place for an M.2 drive, its connector at the rear end."""

    from_rear: Figure = field.length(
        "board's rear edge to the drive's connector end", least_mm=0, most_mm=300
    )
    from_top: Figure = field.length(
        "board's top edge to the drive's middle line", least_mm=5, most_mm=340
    )
    side: BoardSide = field.choice("face of the board", BoardSide.ON)


def usual_places(
    *, upper_mm: float, slots_mm: tuple[float, ...], small: bool
) -> tuple[tuple[str, M2Place], ...]:
    """Return where boards usually have them; common practice, no source.

    Parameters
    ----------
    upper_mm : float
        The board's upper edge in the frame.
    slots_mm : tuple of float
        Lines of the card slots in the frame, the first above the others.
    small : bool
        Whether it is a board of one slot.
    """
    if not slots_mm:
        return ()

    def place(from_rear_mm: float, line_mm: float, side: BoardSide) -> M2Place:
        from_top_mm = upper_mm - line_mm
        return M2Place(
            from_rear=practice(from_rear_mm, _SCATTER_MM, assumed=True),
            from_top=practice(from_top_mm, _SCATTER_MM / 2, assumed=True),
            side=side,
        )

    over_mm, under_mm = slots_mm[0] + 22.0, slots_mm[0] - 20.0
    if small:
        return (
            ("m.2 1", place(55.0, over_mm, BoardSide.ON)),
            ("m.2 2", place(40.0, slots_mm[0] + 50.0, BoardSide.BEHIND)),
        )
    # so far to the rear that the longest drive ends before memory and chipset
    return (
        ("m.2 1", place(45.0, over_mm, BoardSide.ON)),
        ("m.2 2", place(40.0, under_mm, BoardSide.ON)),
    )


def m2_seat(
    name: str,
    place: M2Place,
    *,
    upper_mm: float,
    upper: tuple[Link, ...],
    thickness: Figure,
    thick: Link,
) -> Seat:
    """Return a place as a seat; behind the board the drive lies turned over."""
    behind = place.side is BoardSide.BEHIND
    return Seat(
        name=name,
        sort=SeatSort.M2,
        at_mm=(
            place.from_rear.mm,
            upper_mm - place.from_top.mm,
            0.0 if behind else thickness.mm,
        ),
        approach=Direction.PANEL if behind else Direction.TRAY,
        turn=OVER if behind else UPRIGHT,
        links=(
            link(f"{name} from the board's rear edge", place.from_rear, Axis.DEPTH),
            *upper,
            less(
                link(f"{name} from the board's top edge", place.from_top, Axis.HEIGHT)
            ),
            *(() if behind else (thick,)),
        ),
        face=BEHIND_BOARD if behind else None,
    )
