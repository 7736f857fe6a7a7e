"""Which seat a part asks for, and what every kind of part answers."""

from __future__ import annotations

from typing import ClassVar, Protocol

from layout.parts.form.form import Form, Seat, SeatSort
from layout.values import dataclass

__all__ = ["Kind", "Places", "Row", "Wish"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """Places that fans of one size take on a mount, the first counted from 1."""

    size_mm: int
    first: int
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """Seats in a row that a part takes, counted from 1.

    Parameters
    ----------
    of : str
        What takes them, and the field that says how many: ``modules``.
    first : int or None
        None: those that are usual for so many.
    """

    of: str
    count: int
    first: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """The seat that a part, or one piece of it, asks for.

    Parameters
    ----------
    sort : SeatSort
    seats : tuple of str
        Names in order of preference; the first that exists and is free is taken.
        Empty: the first free seat of its sort.
    number : int or None
        Counts the seats of its sort from 1, where they are not named.
    host : str or None
        Key of the one part that may offer the seat; None: whichever does.
    field : str or None
        The field, as files write it, in which the seat is chosen.
    piece : str
        Name of the piece, where a part has several seats.
    places : Places or None
        What is taken of a fan mount.
    row : Row or None
        How many seats in a row the part takes; None where each is named by itself.
    """

    sort: SeatSort
    seats: tuple[str, ...] = ()
    number: int | None = None
    host: str | None = None
    field: str | None = None
    piece: str = ""
    places: Places | None = None
    row: Row | None = None


class Kind(Protocol):
    """A part as its data sheet gives it."""

    kind: ClassVar[str]

    def wishes(self) -> tuple[Wish, ...]:
        """Return the seats the part asks for."""
        ...

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return the part, or the piece that a wish is for, made for its seat."""
        ...
