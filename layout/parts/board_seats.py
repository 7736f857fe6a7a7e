"""The seats a board offers: its socket, its memory slots, its card slots."""

from __future__ import annotations

from dataclasses import replace

from layout.geometry.space import Axis, Box, Direction
from layout.parts.board_m2 import m2_seat
from layout.parts.board_plan import BoardPlan, CardSlot
from layout.parts.form import Allowance, Role, Seat, SeatSort
from layout.parts.kit import cooler_holes
from layout.parts.link import link, plus_minus_mm
from layout.parts.screws import Screws
from layout.standards import cards, memory
from layout.standards.figure import Figure, practice
from layout.standards.tolerances import ToleranceClass

__all__ = ["MEMORY_SLOT_HEIGHT", "memory_middle", "seats"]

MEMORY_SLOT_HEIGHT = practice(9.0, 1.0)
"""A memory slot's body above the board, its latches left out."""

_MEMORY_SCATTER_MM = 8.0
_EDGE_MM = 2.0
_PLAY_MM = 0.5
"""Play of a mated part beyond its slot's body."""


def seats(plan: BoardPlan) -> tuple[Seat, ...]:
    """Return every seat of the board."""
    return (
        _socket(plan),
        *(_memory(plan, number) for number in range(1, plan.memory_slots + 1)),
        *(_card(plan, slot) for slot in sorted(plan.card_slots, key=_opening)),
        *(
            m2_seat(
                name,
                place,
                upper_mm=plan.upper_mm,
                thickness=plan.thickness,
                thick=plan.thick,
            )
            for name, place in plan.m2_places
        ),
    )


def _opening(slot: CardSlot) -> int:
    return slot.opening


def memory_middle(plan: BoardPlan) -> Figure:
    """Return the height of the memory slots' middle in the frame.

    Beside the socket's centre, lower where the board's top edge would cut the slots.
    """
    if plan.memory_from_top is not None:
        told = plan.memory_from_top
        return replace(told, mm=plan.upper_mm - told.mm)
    _, socket_y_mm = plan.socket_mm
    highest_mm = plan.upper_mm - memory.SOCKET_LENGTH.mm / 2 - _EDGE_MM
    return practice(min(socket_y_mm, highest_mm), _MEMORY_SCATTER_MM, assumed=True)


def _socket(plan: BoardPlan) -> Seat:
    x_mm, y_mm = plan.socket_mm
    return Seat(
        name="socket",
        sort=SeatSort.PROCESSOR,
        at_mm=(x_mm, y_mm, plan.thickness.mm),
        approach=Direction.TRAY,
        links=(*plan.socket_links, plan.thick),
        figure=plan.stack,
        screws=Screws(
            name=plan.socket,
            holes=cooler_holes(plan.socket),
            across=(Axis.DEPTH, Axis.HEIGHT),
            screw_mm=0.0,
        ),
    )


def _memory(plan: BoardPlan, number: int) -> Seat:
    middle = memory_middle(plan)
    half_x_mm = memory.SOCKET_WIDTH.mm / 2 + _PLAY_MM
    half_y_mm = memory.SOCKET_LENGTH.mm / 2 + _PLAY_MM
    seat_mm = memory.SEAT.mm
    in_slot = Box(
        (-half_x_mm, -half_y_mm, -seat_mm),
        (half_x_mm, half_y_mm, MEMORY_SLOT_HEIGHT.mm - seat_mm),
    )
    rear, _ = plan.socket_links
    pitch = (
        (
            link(
                "memory slots' pitch",
                _pitches(plan, number - 1),
                Axis.DEPTH,
                tape="middle of one memory slot to the middle of the next",
                entry="memory pitch",
            ),
        )
        if number > 1
        else ()
    )
    return Seat(
        name=f"memory {number}",
        sort=SeatSort.MEMORY,
        at_mm=(plan.memory_x_mm(number), middle.mm, plan.thickness.mm + seat_mm),
        approach=Direction.TRAY,
        links=(
            rear,
            link(
                "first memory slot from the socket's centre",
                plan.first_memory_slot,
                Axis.DEPTH,
                tape="socket's centre to the middle of the first memory slot",
                entry="first memory slot",
            ),
            *pitch,
            link(
                "memory slots' middle along the board",
                middle,
                Axis.HEIGHT,
                tape="board's top edge to the middle of the memory slots",
                entry="memory from top",
            ),
            plan.thick,
            link(
                "memory module's contact edge over the board", memory.SEAT, Axis.WIDTH
            ),
        ),
        allowances=(Allowance(role=Role.MEMORY_SLOT, box=in_slot),),
    )


def _pitches(plan: BoardPlan, count: int) -> Figure:
    """Return several pitches: what one is off by adds up from slot to slot."""
    pitch = plan.memory_pitch
    off_mm = plus_minus_mm(pitch, ToleranceClass.MEDIUM)
    return replace(pitch, mm=count * pitch.mm, plus_minus_mm=count * off_mm)


def _card(plan: BoardPlan, slot: CardSlot) -> Seat:
    seat_mm = cards.FINGER_SEAT.mm
    half_mm = cards.CONNECTOR_WIDTH.mm / 2 + _PLAY_MM
    in_slot = Box(
        (0.0, -half_mm, -seat_mm),
        (
            plan.depth.mm,
            half_mm,
            cards.CONNECTOR_HEIGHT.mm - seat_mm,
        ),
    )
    return Seat(
        name=f"slot {slot.opening}",
        sort=SeatSort.SLOT,
        at_mm=(
            -plan.rear_edge_mm,
            plan.card_y_mm(slot.opening),
            plan.thickness.mm + seat_mm,
        ),
        approach=Direction.TRAY,
        links=(
            link(
                "slot 1's line from the board frame",
                cards.FIRST_SLOT,
                Axis.HEIGHT,
                tape="lower edge of an ATX board to the middle of slot 1",
            ),
            plan.thick,
            link("card's contact edge over the board", cards.FINGER_SEAT, Axis.WIDTH),
        ),
        allowances=(Allowance(role=Role.CARD_SLOT, box=in_slot),),
    )
