"""The holes of fans in a row, and those of the mount they are screwed to."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

from layout.geometry.holes.holes import Hole
from layout.geometry.space import Axis
from layout.parts.form.form import FanRow, Seat
from layout.parts.form.mounted import row_of
from layout.parts.form.screws import Screws
from layout.parts.form.wish import Places
from layout.standards.fans import FRAMES
from layout.standards.figure import Figure
from layout.standards.screws import FAN_HOLE, FAN_SCREW

__all__ = ["fan_screws", "row_screws", "spacing_of"]

_CORNERS = tuple(product((-0.5, 0.5), repeat=2))


def spacing_of(size: int, told: Figure | None) -> Figure | None:
    """Return the spacing of a frame's holes, as told or as usual for its size."""
    usual = FRAMES[size].hole_spacing if size in FRAMES else None
    return told or usual


def row_screws(
    row: tuple[int, int, float],
    across: tuple[Axis, Axis],
    *,
    spacing: Figure | None,
    slots: Figure | None,
) -> Screws | None:
    """Return the holes of every place of a mount's row.

    Parameters
    ----------
    row : (int, int, float)
        Frame size, number of places, and where the first begins along the row.
    across : (Axis, Axis)
        The axis along the row, and the one across it.
    spacing : Figure or None
        Of the holes of one place, where that is not the frame size's.
    slots : Figure or None
        Length of the mount's slots along the row beyond a round hole.
    """
    size, count, start_mm = row
    found = spacing_of(size, spacing)
    if found is None:
        return None
    middles = [start_mm + (n + 0.5) * size for n in range(count)]
    return _screws(
        middles,
        across,
        spacing=found,
        names=("place", f"places of {size}"),
        slot_mm=slots.mm if slots else 0.0,
        given=bool(spacing or slots),
    )


def fan_screws(
    seat: Seat, places: Places, *, spacing: Figure | None, pitch: Figure | None = None
) -> Screws | None:
    """Return the holes of fans on a mount, or of a radiator for them.

    ``pitch`` is from one fan to the next, about the middle of all, where that is not
    their frame size.
    """
    row: FanRow = row_of(seat, places.size_mm)
    found = spacing_of(places.size_mm, spacing)
    if found is None:
        return None
    start_mm = row.start_mm + (places.first - 1) * places.size_mm
    middle_mm = start_mm + places.count * places.size_mm / 2
    step_mm = pitch.mm if pitch else float(places.size_mm)
    middles = [
        middle_mm + (n - (places.count - 1) / 2) * step_mm for n in range(places.count)
    ]
    (other,) = set(Axis) - {row.along, seat.approach.axis}
    return _screws(
        middles,
        (row.along, other),
        spacing=found,
        names=("fan", f"fans of {places.size_mm}"),
        slot_mm=0.0,
        given=bool(spacing or pitch),
    )


def _screws(
    middles: Sequence[float],
    across: tuple[Axis, Axis],
    *,
    spacing: Figure,
    names: tuple[str, str],
    slot_mm: float,
    given: bool,
) -> Screws:
    one, name = names
    return Screws(
        name=name,
        holes=tuple(
            Hole(
                name=f"hole {k} of {one} {n}",
                at_mm=(middle + x * spacing.mm - slot_mm / 2, y * spacing.mm),
                to_mm=(middle + x * spacing.mm + slot_mm / 2, y * spacing.mm),
                diameter_mm=FAN_HOLE.mm,
                off_mm=spacing.plus_minus_mm or 0.0,
            )
            for n, middle in enumerate(middles, start=1)
            for k, (x, y) in enumerate(_CORNERS, start=1)
        ),
        across=across,
        screw_mm=FAN_SCREW.mm,
        given=given,
    )
