"""Boxes on a fan mount's sheet, told along its row, across it and off the sheet."""

from __future__ import annotations

from layout.geometry.solids.solid import Solid, block
from layout.geometry.space import Axis
from layout.parts.form.form import FanRow, Link, Seat
from layout.parts.form.link import centred, exact, spanning
from layout.parts.form.wish import Places

__all__ = ["Span", "fan_boxes", "frame_links", "on_sheet", "row_of", "span_of"]

Span = tuple[float, float]


def row_of(seat: Seat, size_mm: int) -> FanRow:
    """Return the mount's row of a fan size; the seat tree has seen to it."""
    return next(row for row in seat.rows if row.size_mm == size_mm)


def span_of(row: FanRow, places: Places) -> Span:
    """Return the stretch of the row that the places take, mm."""
    start_mm = row.start_mm + (places.first - 1) * row.size_mm
    return start_mm, start_mm + places.count * row.size_mm


def on_sheet(seat: Seat, row: FanRow, *, along: Span, across: Span, off: Span) -> Solid:
    """Return the box over three spans, mm, at the seat's origin.

    ``off`` counts away from the sheet, towards where the part was brought from.
    """
    out = seat.approach.opposite
    near_mm, far_mm = (out.sign * each for each in off)
    away = (min(near_mm, far_mm), max(near_mm, far_mm))
    spans = {out.axis: away, row.along: along}
    x, y, z = (spans.get(axis, across) for axis in Axis)
    return block(x, y, z)


def fan_boxes(seat: Seat, places: Places, off: Span) -> tuple[Solid, ...]:
    """Return one box for each fan."""
    row = row_of(seat, places.size_mm)
    start_mm, _ = span_of(row, places)
    half_mm = places.size_mm / 2
    return tuple(
        on_sheet(
            seat,
            row,
            along=(
                start_mm + index * places.size_mm,
                start_mm + (index + 1) * places.size_mm,
            ),
            across=(-half_mm, half_mm),
            off=off,
        )
        for index in range(places.count)
    )


def frame_links(seat: Seat, places: Places) -> tuple[tuple[Link, ...], ...]:
    """Return for each fan what places its frame in its row: frames side by side."""
    along = row_of(seat, places.size_mm).along
    (across,) = set(Axis) - {along, seat.approach.axis}
    beside = exact("fan's frame", places.size_mm, along)
    wide = centred(exact("fan's frame across", places.size_mm, across))
    return tuple(
        (spanning(beside, float(before), float(before + 1)), wide)
        for before in range(places.first - 1, places.first - 1 + places.count)
    )
