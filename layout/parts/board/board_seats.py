"""The seats a board offers: its socket, its memory slots, its card slots."""

from __future__ import annotations

from layout.geometry.space import Axis, Box, Direction
from layout.parts.board.board_m2 import m2_seat
from layout.parts.board.board_memory import memory_seats
from layout.parts.board.board_plan import BoardPlan, CardSlot
from layout.parts.form.form import Allowance, Role, Seat, SeatSort
from layout.parts.form.kit import cooler_holes
from layout.parts.form.link import board_edge, less, link, slot_line
from layout.parts.form.screws import Screws
from layout.standards import cards

__all__ = ["seats"]

_PLAY_MM = 0.5
"""Play of a mated part beyond its slot's body."""


def seats(plan: BoardPlan) -> tuple[Seat, ...]:
    """Return every seat of the board."""
    return (
        _socket(plan),
        *memory_seats(plan),
        *(_card(plan, slot) for slot in sorted(plan.card_slots, key=_opening)),
        *(
            m2_seat(
                name,
                place,
                upper_mm=plan.upper_mm,
                upper=plan.upper_links,
                thickness=plan.thickness,
                thick=plan.thick,
            )
            for name, place in plan.m2_places
        ),
    )


def _opening(slot: CardSlot) -> int:
    return slot.opening


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
            *map(less, board_edge()),
            *slot_line(slot.opening),
            plan.thick,
            link("card's contact edge over the board", cards.FINGER_SEAT, Axis.WIDTH),
        ),
        allowances=(Allowance(role=Role.CARD_SLOT, box=in_slot),),
    )
