"""The holes below a drive or in its sides, and those of a cage's place for it."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum
from itertools import product
from typing import TypeAlias

from layout.geometry.holes.holes import Hole
from layout.geometry.space import Axis
from layout.parts.form.screws import Screws
from layout.standards.drives import HOLES
from layout.standards.screws import DRIVE_SCREW, PUNCHED

__all__ = ["HeldBy", "drive_screws", "held_by"]

_At: TypeAlias = tuple[float, float]


class HeldBy(Enum):
    """Which holes of a drive its place has screws for."""

    BELOW = "below"
    SIDES = "sides"


def held_by(seat: Screws | None) -> HeldBy:
    """Return by which holes a place holds drives, as its own pattern lies."""
    sides = seat is not None and seat.across == _ACROSS[HeldBy.SIDES]
    return HeldBy.SIDES if sides else HeldBy.BELOW


_ACROSS = {
    HeldBy.BELOW: (Axis.WIDTH, Axis.DEPTH),
    HeldBy.SIDES: (Axis.WIDTH, Axis.HEIGHT),
}
"""A drive lies with its length from tray to panel; its two sides are alike."""


def drive_screws(
    sizes: tuple[str, ...], *, given: bool, by: HeldBy = HeldBy.BELOW
) -> Screws:
    """Return the holes of drives of one size, or those of a place for several.

    Both are told from the pattern's own middle along the drive: it finds its place
    along the tray.  A size whose holes no text gives has none.
    """
    holes = [
        Hole(
            name=f"hole {number} of {size} in",
            at_mm=at_mm,
            diameter_mm=DRIVE_SCREW.mm,
            off_mm=PUNCHED.mm,
        )
        for size in sizes
        if size in HOLES
        for number, at_mm in enumerate(_places(size, by), start=1)
    ]
    return Screws(
        name=f"{sizes[0]} in",
        holes=tuple(holes),
        across=_ACROSS[by],
        screw_mm=DRIVE_SCREW.mm,
        given=given,
    )


def _places(size: str, by: HeldBy) -> Iterator[_At]:
    told = HOLES[size]
    if by is HeldBy.BELOW:
        long_mm, wide_mm = told.below_pitch.mm, told.below_across.mm
        for x, y in product((-0.5, 0.5), repeat=2):
            yield x * long_mm, y * wide_mm
        return
    middle_mm = max(each.mm for each in told.pitches) / 2
    for along_mm in (0.0, *(each.mm for each in told.pitches)):
        yield along_mm - middle_mm, told.side_height.mm
