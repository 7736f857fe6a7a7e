"""A board's memory slots: upright beside one another, or lying two over one another."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from layout.geometry.solid import Solid, block
from layout.geometry.space import Axis, Box, Direction
from layout.parts.board_plan import BoardPlan
from layout.parts.form import Allowance, Link, Piece, Role, Seat, SeatSort
from layout.parts.link import link, plus_minus_mm
from layout.parts.memory_slot import SLOTS, MemoryLooks, SlotSize
from layout.standards import memory
from layout.standards.figure import Figure, practice
from layout.standards.tolerances import ToleranceClass

__all__ = ["memory_middle", "memory_seats", "memory_slots"]

_SCATTER_MM = 8.0
_EDGE_MM = 2.0
_PLAY_MM = 0.5
"""Play of a mated part beyond its slot's body."""
_LEVELS: Final = (
    practice(3.2, 0.5, assumed=True),
    practice(7.2, 0.5, assumed=True),
)
"""A lying module's middle over the board: the lower one, and the one over it."""
_BEHIND_MM = 8.5
"""The higher of two slots stands behind the lower one; common practice, no source."""
_PAIRS = practice(45.0, 10.0, assumed=True)
"""From one pair of lying modules to the next."""


def memory_seats(plan: BoardPlan) -> tuple[Seat, ...]:
    """Return a seat for each slot, the one nearest the processor first."""
    return tuple(_seat(plan, number) for number in range(1, plan.memory_slots + 1))


def memory_slots(plan: BoardPlan) -> tuple[Piece, ...]:
    """Return every slot's body."""
    return tuple(
        Piece(
            name=f"memory slot {number}",
            role=Role.MEMORY_SLOT,
            solids=(_socket(plan, number),),
            links=(plan.thick,) if _lying(plan) else (),
        )
        for number in range(1, plan.memory_slots + 1)
    )


def memory_middle(plan: BoardPlan) -> Figure:
    """Return the height of the memory slots' middle in the frame.

    Beside the socket's centre, lower where the board's top edge would cut the slots.
    """
    if plan.memory_from_top is not None:
        told = plan.memory_from_top
        return replace(told, mm=plan.upper_mm - told.mm)
    _, socket_y_mm = plan.socket_mm
    highest_mm = plan.upper_mm - _slot(plan).length.mm / 2 - _EDGE_MM
    return practice(min(socket_y_mm, highest_mm), _SCATTER_MM, assumed=True)


def _slot(plan: BoardPlan) -> SlotSize:
    return SLOTS[plan.memory_size]


def _lying(plan: BoardPlan) -> bool:
    return plan.memory_looks is MemoryLooks.FRONT


def _pitch(plan: BoardPlan) -> Figure:
    """Return the pitch of slots, of lying ones that of their pairs."""
    usual = _PAIRS if _lying(plan) else _slot(plan).pitch
    return plan.memory_pitch or usual


def _place(plan: BoardPlan, number: int) -> tuple[float, int, int]:
    """Return a slot's depth in the frame, its pitches, and its level, 0 or 1."""
    x_mm = plan.socket_mm[0] + plan.first_memory_slot.mm
    if not _lying(plan):
        return x_mm + (number - 1) * _pitch(plan).mm, number - 1, 0
    pair, level = divmod(number - 1, 2)
    return x_mm + pair * _pitch(plan).mm - level * _BEHIND_MM, pair, level


def _socket(plan: BoardPlan, number: int) -> Solid:
    x_mm, _, level = _place(plan, number)
    slot, y_mm = _slot(plan), memory_middle(plan).mm
    half_x_mm, half_y_mm = slot.width.mm / 2, slot.length.mm / 2
    high = memory.LAPTOP_SOCKET_HEIGHTS[level] if _lying(plan) else slot.height
    over_mm = plan.thickness.mm
    return block(
        (x_mm - half_x_mm, x_mm + half_x_mm),
        (y_mm - half_y_mm, y_mm + half_y_mm),
        (over_mm, over_mm + high.mm),
    )


def _seat(plan: BoardPlan, number: int) -> Seat:
    x_mm, pitches, level = _place(plan, number)
    middle = memory_middle(plan)
    over = _LEVELS[level] if _lying(plan) else memory.SEAT
    rear, _ = plan.socket_links
    return Seat(
        name=f"memory {number}",
        sort=SeatSort.MEMORY,
        at_mm=(x_mm, middle.mm, plan.thickness.mm + over.mm),
        approach=Direction.REAR if _lying(plan) else Direction.TRAY,
        turn=plan.memory_looks.turn,
        links=(
            rear,
            link(
                "first memory slot from the socket's centre",
                plan.first_memory_slot,
                Axis.DEPTH,
                tape="socket's centre to the middle of the first memory slot",
                entry="first memory slot",
            ),
            *((_pitched(plan, pitches),) if pitches else ()),
            link(
                "memory slots' middle along the board",
                middle,
                Axis.HEIGHT,
                tape="board's top edge to the middle of the memory slots",
                entry="memory from top",
            ),
            plan.thick,
            _over_board(plan, over),
        ),
        allowances=(Allowance(role=Role.MEMORY_SLOT, box=_in_slot(plan)),),
        takes=plan.memory_size.value,
    )


def _over_board(plan: BoardPlan, over: Figure) -> Link:
    if not _lying(plan):
        label = "memory module's contact edge over the board"
        return link(label, over, Axis.WIDTH)
    return link(
        "lying memory module's middle over the board",
        over,
        Axis.WIDTH,
        tape="board's surface to the middle of the lying module",
    )


def _in_slot(plan: BoardPlan) -> Box:
    """Return the volume of a slot that its module fills, in the module's own axes."""
    slot = _slot(plan)
    across_mm = slot.width.mm / 2 + _PLAY_MM
    half_y_mm = slot.length.mm / 2 + _PLAY_MM
    if _lying(plan):
        high_mm = memory.LAPTOP_SOCKET_HEIGHTS[1].mm
        return Box((-high_mm, -half_y_mm, -across_mm), (high_mm, half_y_mm, across_mm))
    seat_mm = memory.SEAT.mm
    return Box(
        (-across_mm, -half_y_mm, -seat_mm),
        (across_mm, half_y_mm, slot.height.mm - seat_mm),
    )


def _pitched(plan: BoardPlan, count: int) -> Link:
    """Return several pitches: what one is off by adds up from slot to slot."""
    pitch = _pitch(plan)
    off_mm = plus_minus_mm(pitch, ToleranceClass.MEDIUM)
    several = replace(pitch, mm=count * pitch.mm, plus_minus_mm=count * off_mm)
    return link(
        "memory slots' pitch",
        several,
        Axis.DEPTH,
        tape="middle of one memory slot to the middle of the next",
        entry="memory pitch",
    )
