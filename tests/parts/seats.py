"""Seats as hosts offer them, for tests of one part alone."""

from __future__ import annotations

from layout.geometry.space import ORIGIN, Axis, Box, Direction, Vector
from layout.parts.form.form import FanRow, Form, Piece, Seat, SeatSort
from layout.standards.figure import Figure, given

__all__ = ["box", "contact", "mm", "mount", "piece", "seat", "size_mm"]


def mm(value: float) -> Figure:
    return given(value)


def seat(
    sort: SeatSort,
    *,
    at_mm: Vector = ORIGIN,
    room_mm: tuple[float, float] | None = None,
) -> Seat:
    return Seat(
        name="seat",
        sort=sort,
        at_mm=at_mm,
        approach=Direction.TRAY,
        room_mm=room_mm,
    )


def contact(stack_mm: float) -> Seat:
    """Return the top of a processor that stands so high over the board."""
    return Seat(
        name="processor",
        sort=SeatSort.COOLER,
        at_mm=(0.0, 0.0, stack_mm),
        approach=Direction.TRAY,
    )


def mount(
    approach: Direction, along: Axis, *, size: int = 120, start_mm: float = 0.0
) -> Seat:
    """Return a mount for three fans whose middle line runs through the origin."""
    row = FanRow(size_mm=size, count=3, along=along, start_mm=start_mm)
    return Seat(
        name="mount",
        sort=SeatSort.FANS,
        at_mm=(0.0, 0.0, 0.0),
        approach=approach,
        rows=(row,),
        face="front",
    )


def piece(form: Form, name: str = "") -> Piece:
    return next(each for each in form.pieces if each.name == name)


def box(form: Form, name: str = "") -> Box:
    """Return the box around all of a piece's solids."""
    bounds = [solid.bounds for solid in piece(form, name).solids]
    low = tuple(min(each.low[i] for each in bounds) for i in range(3))
    high = tuple(max(each.high[i] for each in bounds) for i in range(3))
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def size_mm(of: Box) -> Vector:
    x, y, z = (b - a for a, b in zip(of.low, of.high, strict=True))
    return (x, y, z)
