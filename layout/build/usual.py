"""What a file leaves untold of two parts, taken so that neither stands in the other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from typing import Final, TypeVar

from layout.geometry.space import Direction
from layout.parts.board.board import Board
from layout.parts.board.board_plan import Heatsinks
from layout.parts.board.board_usual import HEATSINK_HEIGHT
from layout.parts.cooling.low_cooler import LowCooler
from layout.parts.cooling.processor import Processor
from layout.parts.form.form import Seat, SeatSort
from layout.parts.form.reading import restated
from layout.parts.kinds.kinds import Spec
from layout.standards.figure import Figure, practice

__all__ = ["board_under"]

_PASS_MM: Final = 1.0
"""Room that fins want over and beside the heatsinks they pass."""
_LOWEST_MM: Final = 3.0

_Kind = TypeVar("_Kind")


def board_under(board: Board, specs: Sequence[Spec]) -> Board:
    """Return a board with heatsinks that a very low cooler's fins pass over.

    Where neither the heatsinks' height nor the fins' lower edge is told, and the fins
    are wider than what the socket keeps free, the heatsinks are taken to be lower than
    usual: a builder who typed the data sheets' figures alone gets no clash of two
    figures that he did not type.  Their scatter stays, so it is tight.
    """
    cooler = _first(LowCooler, specs)
    untold = (
        board.heatsink_height is HEATSINK_HEIGHT
        and board.heatsinks is not Heatsinks.NONE
    )
    if cooler is None or not untold:
        return board
    chip = _first(Processor, specs)
    stack = (chip.stack if chip else None) or board.plan(standoff_mm=0.0).stack
    fins_mm = _on(stack, cooler).untold_fins_mm
    near_mm = board.heatsink_from_socket.mm - _PASS_MM
    if fins_mm is None or cooler.reach_mm <= near_mm:
        return board
    most_mm = stack.mm + fins_mm - _PASS_MM
    return (
        board
        if most_mm >= HEATSINK_HEIGHT.mm
        else _lowered(board, max(_LOWEST_MM, most_mm))
    )


@cache
def _lowered(board: Board, mm: float) -> Board:
    """Return a board with lower heatsinks, the same one for the same board."""
    return replace(
        board, heatsink_height=practice(mm, HEATSINK_HEIGHT.plus_minus_mm, assumed=True)
    )


def _on(stack: Figure, cooler: LowCooler) -> LowCooler:
    """Return a cooler with its figures in their usual readings, as on its seat."""
    seat = Seat(
        name="processor",
        sort=SeatSort.COOLER,
        at_mm=(0.0, 0.0, stack.mm),
        approach=Direction.TRAY,
        figure=stack,
    )
    return restated(cooler, seat)


def _first(kind: type[_Kind], specs: Sequence[Spec]) -> _Kind | None:
    return next((each for each in specs if isinstance(each, kind)), None)
