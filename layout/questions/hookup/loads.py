"""Whether fans can be shared out so that no splitter bears more than it may."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from layout.values import dataclass

__all__ = [
    "HEADER_MA",
    "LIGHT_HEADER_MA",
    "USUAL_FAN_MA",
    "USUAL_LIGHT_MA",
    "Bank",
    "Fan",
    "Load",
    "loads",
]

HEADER_MA: Final = 1000
"""What one fan header feeds; common practice, no source: the board's manual says."""

LIGHT_HEADER_MA: Final = 3000
"""What one header for lights feeds; common practice, no source: see its manual."""

USUAL_LIGHT_MA: Final = 500
"""What the lights of one plug draw that say nothing of it; common practice, no
source."""

USUAL_FAN_MA: Final = 300
"""What a fan draws that says nothing of it; common practice, no source."""

_MOST_TRIED: Final = 16
"""Fans on splitters up to which every way to share them out is tried."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fan:
    """One fan's plug and what the fan draws; None: nobody says."""

    part: str
    draws_ma: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bank:
    """The outlets of one splitter for fans.

    ``bears_ma`` is what its fans may draw together as the file tells it, ``usual_ma``
    what is usual where it does not; None: nobody says.
    """

    part: str
    outlets: int
    bears_ma: int | None
    usual_ma: int | None = None

    @property
    def limit_ma(self) -> int | None:
        """Return what its fans may draw together."""
        return self.usual_ma if self.bears_ma is None else self.bears_ma


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """A splitter whose fans draw more than it bears.

    ``sure`` where the file gives both; else it rests on usual figures, its limit among
    them unless ``stated``.
    """

    part: str
    fans: int
    draws_ma: int
    bears_ma: int
    sure: bool
    stated: bool = True
    of: str = "fans"
    usual_ma: int = USUAL_FAN_MA


def loads(
    fans: Sequence[Fan],
    headers: int,
    banks: Sequence[Bank],
    *,
    usual_ma: int = USUAL_FAN_MA,
) -> tuple[Load, ...]:
    """Return the splitters that bear too much however the fans are shared out.

    Parameters
    ----------
    fans : sequence of Fan
        Those that found a socket.
    headers : int
        How many of them find one on a board, each with a header to itself.
    banks : sequence of Bank

    Notes
    -----
    First only what the file tells is counted: what is too much then is so for sure.
    Else the usual figures fill what it leaves out.

    The headers take the fans that draw most: to change one of them for a fan on a
    splitter only adds to what that splitter bears.  The rest are tried on every bank
    in turn, the strongest fan first; more than a case ever holds, only the bank with
    most to spare.
    """
    told = [replace(each, usual_ma=None) for each in banks]
    sure = _overloaded([each.draws_ma or 0 for each in fans], headers, told)
    if sure:
        return tuple(_load(each, sure=True) for each in sure)
    usual = [usual_ma if each.draws_ma is None else each.draws_ma for each in fans]
    return tuple(_load(each, sure=False) for each in _overloaded(usual, headers, banks))


def _overloaded(
    draws_ma: Sequence[int], headers: int, banks: Sequence[Bank]
) -> list[_Room]:
    """Return the banks that bear too much, as evenly filled as can be."""
    drawing = sorted(draws_ma, reverse=True)[max(0, headers) :]
    rooms = [_Room(bank, bank.outlets, 0, 0) for bank in banks]
    if len(drawing) <= _MOST_TRIED and _shared(drawing, rooms):
        return []
    return [each for each in _filled(drawing, rooms) if _spare_ma(each) < 0]


def _load(room: _Room, *, sure: bool) -> Load:
    return Load(
        part=room.bank.part,
        fans=room.fans,
        draws_ma=room.load_ma,
        bears_ma=room.bank.limit_ma or 0,
        sure=sure,
        stated=room.bank.bears_ma is not None,
    )


@dataclass(frozen=True, slots=True)
class _Room:
    bank: Bank
    left: int
    load_ma: int
    fans: int

    def bears(self, draw_ma: int) -> bool:
        limit_ma = self.bank.limit_ma
        fits = limit_ma is None or self.load_ma + draw_ma <= limit_ma
        return self.left > 0 and fits

    def with_fan(self, draw_ma: int) -> _Room:
        return replace(
            self, left=self.left - 1, load_ma=self.load_ma + draw_ma, fans=self.fans + 1
        )


def _shared(drawing: Sequence[int], rooms: Sequence[_Room]) -> bool:
    """Tell whether every fan finds an outlet that bears it."""
    if not drawing:
        return True
    first, rest = drawing[0], drawing[1:]
    tried = set()
    for index, room in enumerate(rooms):
        alike = (room.left, room.load_ma, room.bank.limit_ma)
        if alike in tried or not room.bears(first):
            continue
        tried.add(alike)
        others = [*rooms[:index], room.with_fan(first), *rooms[index + 1 :]]
        if _shared(rest, others):
            return True
    return False


def _filled(drawing: Sequence[int], rooms: Sequence[_Room]) -> list[_Room]:
    """Return the rooms with every fan in the one that has most to spare."""
    now = list(rooms)
    for draw_ma in drawing:
        open_rooms = [i for i, room in enumerate(now) if room.left > 0]
        if not open_rooms:
            break
        best = max(open_rooms, key=lambda i: _spare_ma(now[i]))
        now[best] = now[best].with_fan(draw_ma)
    return now


def _spare_ma(room: _Room) -> float:
    limit_ma = room.bank.limit_ma
    return float("inf") if limit_ma is None else limit_ma - room.load_ma
