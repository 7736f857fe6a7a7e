"""What assembly refuses: a part that finds no seat, or makes no part on it."""

from __future__ import annotations

from layout.errors import LayoutError

__all__ = ["SeatError"]


class SeatError(LayoutError, ValueError):
    """A part cannot be put in its place.

    Parameters
    ----------
    part : str
        Key of the part.
    field : str or None
        The field that chose the seat, as files write it.
    found, right : str
        What was asked for, and what would be right.
    """

    def __init__(self, *, part: str, field: str | None, found: str, right: str) -> None:
        where = f"{part}.{field}" if field else part
        super().__init__(f"{where}: found {found}; right would be {right}")
        self.part = part
        self.field = field
        self.found = found
        self.right = right
