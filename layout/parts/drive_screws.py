"""The holes below a drive, and those of a cage's place for it."""

from __future__ import annotations

from itertools import product

from layout.geometry.holes import Hole
from layout.geometry.space import Axis
from layout.parts.screws import Screws
from layout.standards.drives import HOLES
from layout.standards.screws import DRIVE_SCREW, PUNCHED

__all__ = ["drive_screws"]


def drive_screws(sizes: tuple[str, ...], *, given: bool) -> Screws:
    """Return the four holes below drives of one size, or those of a place for several.

    Both are told from their own middle: a drive finds its place along the tray.
    """
    holes = []
    for size in (each for each in sizes if each in HOLES):
        long_mm, wide_mm = HOLES[size].below_pitch.mm, HOLES[size].below_across.mm
        holes += [
            Hole(
                name=f"hole {number} of {size} in",
                at_mm=(x * long_mm, y * wide_mm),
                diameter_mm=DRIVE_SCREW.mm,
                off_mm=PUNCHED.mm,
            )
            for number, (x, y) in enumerate(product((-0.5, 0.5), repeat=2), start=1)
        ]
    return Screws(
        name=f"{sizes[0]} in",
        holes=tuple(holes),
        across=(Axis.WIDTH, Axis.DEPTH),
        screw_mm=DRIVE_SCREW.mm,
        given=given,
    )
