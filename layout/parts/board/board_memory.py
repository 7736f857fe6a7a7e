"""A board's memory slots: upright beside one another, or lying two over one another."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from layout.geometry.solids.solid import Solid, block
from layout.geometry.space import Axis, Box, Direction
from layout.parts.board.board_plan import BoardPlan
from layout.parts.board.board_usual import LYING_PAIRS, lying_mm
from layout.parts.board.memory_place import along_links, middle_mm, stands_by
from layout.parts.board.memory_slot import SLOTS, MemoryLooks, MemorySize, SlotSize
from layout.parts.form.form import Allowance, Link, Piece, Role, Seat, SeatSort
from layout.parts.form.link import (
    CONTACT_EDGE,
    centred,
    exact,
    less,
    link,
    plus_minus_mm,
    size,
    times,
)
from layout.parts.form.mounted import Span
from layout.standards import memory
from layout.standards.figure import Figure, practice
from layout.standards.tolerances import ToleranceClass

__all__ = ["memory_seats", "memory_slots", "memory_spans"]

_PLAY_MM = 0.5
"""Play of a mated part beyond its slot's body."""
_LEVELS: Final = {
    MemorySize.LAPTOP: (
        practice(3.2, 0.5, assumed=True),
        practice(7.2, 0.5, assumed=True),
    ),
    MemorySize.FULL: (
        practice(5.0, 1.0, assumed=True),
        practice(14.0, 2.0, assumed=True),
    ),
}
"""A lying module's middle over the board: the lower one, and the one over it; full-size
ones, of which hardly a board is known, with room for heat spreaders."""
_LYING_HEIGHTS: Final = {
    MemorySize.LAPTOP: memory.LAPTOP_SOCKET_HEIGHTS,
    MemorySize.FULL: (
        practice(9.0, 1.0, assumed=True),
        practice(18.0, 2.0, assumed=True),
    ),
}
_HALF_MODULE_MM = 4.25
"""Half of the thickest module, with heat spreaders."""
_BEHIND_MM = 8.5
"""The higher of two slots stands behind the lower one; common practice, no source."""


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
            links=_slot_links(plan, number),
        )
        for number in range(1, plan.memory_slots + 1)
    )


def memory_spans(plan: BoardPlan) -> tuple[tuple[Span, Span], ...]:
    """Return the depths and heights that the slots take with their modules."""
    spans = []
    for number in range(1, plan.memory_slots + 1):
        box = _socket(plan, number).bounds
        ends = [(box.low[0], box.high[0]), (box.low[1], box.high[1])]
        out, _ = _axes(plan)
        middle_mm = sum(ends[out.index]) / 2
        near_mm, far_mm = sorted((0.0, _sign(plan) * lying_mm(plan.memory_size)))
        if not _lying(plan):
            near_mm, far_mm = -_HALF_MODULE_MM, _HALF_MODULE_MM
        ends[out.index] = (middle_mm + near_mm, middle_mm + far_mm)
        spans.append((ends[0], ends[1]))
    return tuple(spans)


def _slot_links(plan: BoardPlan, number: int) -> tuple[Link, ...]:
    """Return what a slot's body rests on."""
    _, pitches, level = _place(plan, number)
    slot = _slot(plan)
    out, along = _axes(plan)
    high = _LYING_HEIGHTS[plan.memory_size][level] if _lying(plan) else slot.height
    return (
        *_placing(plan, pitches, level),
        centred(exact("memory slot's width", slot.width.mm, out)),
        centred(exact("memory slot's length", slot.length.mm, along)),
        plan.thick,
        size(exact("memory slot's height", high.mm, Axis.WIDTH), Direction.PANEL),
    )


def _slot(plan: BoardPlan) -> SlotSize:
    return SLOTS[plan.memory_size]


def _lying(plan: BoardPlan) -> bool:
    return plan.memory_looks.lies


def _sign(plan: BoardPlan) -> int:
    """Return on which side of the socket they are: they look away from it."""
    return -1 if plan.memory_looks in {MemoryLooks.REAR, MemoryLooks.DOWN} else 1


def _at(plan: BoardPlan, off_mm: float) -> tuple[float, float]:
    """Return depth and height in the frame, some way off the socket's centre."""
    along_mm, (x_mm, y_mm) = middle_mm(plan), plan.socket_mm
    if stands_by(plan):
        return x_mm + _sign(plan) * off_mm, along_mm
    return along_mm, y_mm + _sign(plan) * off_mm


def _pitch(plan: BoardPlan) -> Figure:
    """Return the pitch of slots, of lying ones that of their pairs."""
    usual = LYING_PAIRS if _lying(plan) else _slot(plan).pitch
    return plan.memory_pitch or usual


def _place(plan: BoardPlan, number: int) -> tuple[float, int, int]:
    """Return how far a slot is off the socket, its pitches, and its level, 0 or 1."""
    first_mm = plan.first_memory_slot.mm
    if not _lying(plan):
        return first_mm + (number - 1) * _pitch(plan).mm, number - 1, 0
    pair, level = divmod(number - 1, 2)
    return first_mm + pair * _pitch(plan).mm - level * _BEHIND_MM, pair, level


def _socket(plan: BoardPlan, number: int) -> Solid:
    off_mm, _, level = _place(plan, number)
    slot, (x_mm, y_mm) = _slot(plan), _at(plan, off_mm)
    across_mm, along_mm = slot.width.mm / 2, slot.length.mm / 2
    half_x_mm, half_y_mm = (
        (across_mm, along_mm) if stands_by(plan) else (along_mm, across_mm)
    )
    high = _LYING_HEIGHTS[plan.memory_size][level] if _lying(plan) else slot.height
    over_mm = plan.thickness.mm
    return block(
        (x_mm - half_x_mm, x_mm + half_x_mm),
        (y_mm - half_y_mm, y_mm + half_y_mm),
        (over_mm, over_mm + high.mm),
    )


def _seat(plan: BoardPlan, number: int) -> Seat:
    off_mm, pitches, level = _place(plan, number)
    x_mm, y_mm = _at(plan, off_mm)
    over = _LEVELS[plan.memory_size][level] if _lying(plan) else memory.SEAT
    return Seat(
        name=f"memory {number}",
        sort=SeatSort.MEMORY,
        at_mm=(x_mm, y_mm, plan.thickness.mm + over.mm),
        approach=plan.memory_looks.direction.opposite,
        turn=plan.memory_looks.turn,
        links=(
            *_placing(plan, pitches, level),
            plan.thick,
            _over_board(plan, over),
        ),
        allowances=(Allowance(role=Role.MEMORY_SLOT, box=_in_slot(plan)),),
        takes=plan.memory_size.value,
    )


def _axes(plan: BoardPlan) -> tuple[Axis, Axis]:
    """Return the axis along which slots stand off the socket, and that along them."""
    by = stands_by(plan)
    return (Axis.DEPTH, Axis.HEIGHT) if by else (Axis.HEIGHT, Axis.DEPTH)


def _placing(plan: BoardPlan, pitches: int, level: int) -> tuple[Link, ...]:
    """Return what places a slot on the board."""
    out, _ = _axes(plan)
    first = link(
        "first memory slot from the socket's centre",
        plan.first_memory_slot,
        out,
        tape="socket's centre to the middle of the first memory slot",
        entry="first memory slot",
    )
    behind = exact("higher slot behind the lower one", level * _BEHIND_MM, out)
    off = (
        first,
        *((_pitched(plan, pitches, out),) if pitches else ()),
        *((less(behind),) if level else ()),
    )
    return (
        *(plan.socket_links[:1] if stands_by(plan) else plan.socket_links[1:]),
        *(times(each, float(_sign(plan))) for each in off),
        *along_links(plan),
    )


def _over_board(plan: BoardPlan, over: Figure) -> Link:
    if not _lying(plan):
        return link(CONTACT_EDGE, over, Axis.WIDTH)
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
        high_mm = _LYING_HEIGHTS[plan.memory_size][1].mm
        return Box((-high_mm, -half_y_mm, -across_mm), (high_mm, half_y_mm, across_mm))
    seat_mm = memory.SEAT.mm
    return Box(
        (-across_mm, -half_y_mm, -seat_mm),
        (across_mm, half_y_mm, slot.height.mm - seat_mm),
    )


def _pitched(plan: BoardPlan, count: int, axis: Axis) -> Link:
    """Return several pitches: what one is off by adds up from slot to slot."""
    pitch = _pitch(plan)
    off_mm = plus_minus_mm(pitch, ToleranceClass.MEDIUM)
    several = replace(pitch, mm=count * pitch.mm, plus_minus_mm=count * off_mm)
    return link(
        "memory slots' pitch",
        several,
        axis,
        tape="middle of one memory slot to the middle of the next",
        entry="memory pitch",
    )
