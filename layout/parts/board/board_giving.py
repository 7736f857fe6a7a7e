"""Usual connectors of a board give way to its memory, whose place the file tells."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from layout.parts.board.board_memory import memory_spans
from layout.parts.board.board_plan import BoardPlan
from layout.parts.form.form import Piece, Plug, Role
from layout.parts.form.mounted import Span

__all__ = ["giving_way", "left_free", "no_place"]

_LEAST_MM: Final = 0.5
"""What meets by no more is not in the way: usual places are no better known."""
_HALF_MM: Final = 2.0
"""Of a header's pins, at least."""
_WHERE: Final = (
    "where boards usually have {what}, this one has its memory: the file does not "
    "tell where else, so no plug nor lead is asked there"
)


def giving_way(
    plan: BoardPlan, pieces: Sequence[Piece]
) -> tuple[tuple[Piece, ...], list[str]]:
    """Return a board's bodies without usual connectors in the way of its memory.

    With the names of those: a board has room for one of them, and how its memory lies
    is told.
    """
    out = [
        each
        for each in pieces
        if each.role is Role.BOARD_CONNECTOR and _met(plan, *_spans(each))
    ]
    kept = tuple(each for each in pieces if each not in out)
    return kept, [each.name for each in out]


def no_place(what: Sequence[str]) -> tuple[str, ...]:
    """Return a note on what a board usually has where this one has its memory."""
    *others, last = what or [""]
    named = f"{', '.join(others)} and {last}" if others else last
    return (_WHERE.format(what=named),) if what else ()


def left_free(plan: BoardPlan, plugs: Sequence[Plug]) -> list[Plug]:
    """Return the plugs on pins that are not where the board's memory lies.

    Pins close to upright modules stay: so they stand on boards.
    """
    if not plan.memory_looks.lies:
        return [*plugs]
    return [each for each in plugs if not _met(plan, *map(_about, each.at_mm[:2]))]


def _spans(piece: Piece) -> tuple[Span, Span]:
    box = piece.solids[0].bounds
    return (box.low[0], box.high[0]), (box.low[1], box.high[1])


def _met(plan: BoardPlan, x: Span, y: Span) -> bool:
    return any(
        _common_mm(x, u) > _LEAST_MM and _common_mm(y, v) > _LEAST_MM
        for u, v in memory_spans(plan)
    )


def _common_mm(a: Span, b: Span) -> float:
    return min(a[1], b[1]) - max(a[0], b[0])


def _about(at_mm: float) -> Span:
    return at_mm - _HALF_MM, at_mm + _HALF_MM
