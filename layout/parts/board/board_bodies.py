"""The bodies of a board: its plate and what rises from it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from layout.geometry.solids.solid import block
from layout.geometry.space import Axis, Box, Direction
from layout.parts.board.board_connectors import connectors, power_span_mm, standing
from layout.parts.board.board_memory import memory_slots
from layout.parts.board.board_plan import BoardPlan, CardSlot
from layout.parts.form.form import Link, Piece, Portion, Role
from layout.parts.form.link import (
    at_share,
    centred,
    exact,
    facing,
    less,
    link,
    size,
    slot_line,
    spanning,
    times,
)
from layout.parts.form.mounted import Span
from layout.standards import boards, cards
from layout.standards.figure import practice

__all__ = ["bodies"]

_STANDOFF_EDGE_MM = 6.0
_SLOT_FROM_MM = 42.6
"""From the slot plane to a card slot's body: fingers begin at 45, its wall before."""
_APERTURE_FROM_MM = boards.HOLES["A"].x.mm + boards.APERTURE_TO_HOLE_A.mm
_SINK_MM = 25.0
_THINNEST_SINK_MM = 5.0
_BESIDE_MM = 1.0
"""A heatsink off the rear connectors; common practice, no source."""
_UNDER_TOP_MM = {True: 15.0, False: 3.0}
"""How far under the board's top edge the rear heatsink ends, and the top one."""
_ROUNDED_MM: Final = 1e-9
"""A side that is no farther off than rounding is where it keeps off the socket."""


_LEAST_HEIGHT_MM = 200.0
_LEAST_DEPTH_MM = 230.0
"""Smaller boards have their chipset elsewhere, under other parts."""


def bodies(plan: BoardPlan) -> tuple[Piece, ...]:
    """Return every body of the board; the plate first."""
    return (
        _plate(plan),
        _standoffs(plan),
        _rear_connectors(plan),
        *_heatsinks(plan),
        *_rear_cover(plan),
        *_chipset(plan),
        *memory_slots(plan),
        *(_card_slot(plan, slot) for slot in plan.card_slots),
        *connectors(plan),
    )


def _plate(plan: BoardPlan) -> Piece:
    return Piece(
        name="",
        role=Role.BOARD,
        solids=(
            block(
                (0.0, plan.depth.mm),
                (plan.lower_mm, plan.upper_mm),
                (0.0, plan.thickness.mm),
            ),
        ),
        links=(
            _deep(plan),
            *plan.edge_links,
            size(plan.thick, Direction.PANEL),
        ),
    )


def _deep(plan: BoardPlan) -> Link:
    return size(link("board depth", plan.depth, Axis.DEPTH), Direction.FRONT)


def _standoffs(plan: BoardPlan) -> Piece:
    half_mm = _STANDOFF_EDGE_MM / 2
    high = size(exact("standoff height", plan.standoff_mm, Axis.WIDTH), Direction.TRAY)
    edge = exact("standoff's edge", _STANDOFF_EDGE_MM, Axis.DEPTH, Axis.HEIGHT)
    return Piece(
        name="standoffs",
        role=Role.STANDOFF,
        solids=tuple(
            block(
                (x - half_mm, x + half_mm),
                (y - half_mm, y + half_mm),
                (-plan.standoff_mm, 0.0),
            )
            for x, y in plan.holes_mm
        ),
        links=(high,),
        portions=tuple(
            Portion(
                Box(
                    (x - half_mm, y - half_mm, -plan.standoff_mm),
                    (x + half_mm, y + half_mm, 0.0),
                ),
                (
                    high,
                    centred(edge),
                    exact("its hole from the board's rear edge", x, Axis.DEPTH),
                    exact("its hole in the board's frame", y, Axis.HEIGHT),
                ),
            )
            for x, y in plan.holes_mm
        ),
    )


def _rear_connectors(plan: BoardPlan) -> Piece:
    margin_mm = (boards.APERTURE_WIDTH.mm - boards.CONNECTORS_WIDTH.mm) / 2
    low_mm = _APERTURE_FROM_MM + margin_mm
    face, deep = plan.connectors_links
    return Piece(
        name="rear connectors",
        role=Role.REAR_CONNECTORS,
        solids=(
            standing(
                plan,
                plan.rear_connectors_mm,
                (low_mm, low_mm + boards.CONNECTORS_WIDTH.mm),
                height_mm=plan.rear_connector_height.mm,
            ),
        ),
        links=(
            face,
            size(deep, Direction.FRONT),
            exact("rear connectors in the frame", low_mm, Axis.HEIGHT),
            size(
                exact(
                    "rear connectors' width", boards.CONNECTORS_WIDTH.mm, Axis.HEIGHT
                ),
                Direction.UP,
            ),
            plan.thick,
            size(
                link("rear connectors' height", plan.rear_connector_height, Axis.WIDTH),
                Direction.PANEL,
            ),
        ),
    )


def _heatsinks(plan: BoardPlan) -> tuple[Piece, ...]:
    """Return the regulators' heatsinks round the socket, where there is room."""
    x_mm, y_mm = plan.socket_mm
    top_mm = plan.upper_mm
    near_mm = plan.heatsink_from_socket.mm
    wanted = []
    if plan.heatsinks.at_rear:
        front_mm = x_mm - near_mm
        rear_mm = max(plan.rear_connectors_mm[1] + _BESIDE_MM, front_mm - _SINK_MM)
        span = (y_mm - 45.0, min(y_mm + 55.0, top_mm - _UNDER_TOP_MM[True]))
        wanted.append(("rear heatsink", (rear_mm, front_mm), span))
    if plan.heatsinks.at_top:
        low_mm = max(y_mm + near_mm, top_mm - _SINK_MM)
        _, plugs_end_mm = power_span_mm(plan)
        along = (max(x_mm - 40.0, plugs_end_mm + 1.0), x_mm + 40.0)
        wanted.append(("top heatsink", along, (low_mm, top_mm - _UNDER_TOP_MM[False])))
    return tuple(
        Piece(
            name=name,
            role=Role.REGULATOR_HEATSINK,
            solids=(standing(plan, x, y, height_mm=plan.heatsink_height.mm),),
            links=_heatsink_links(plan, (x, y), rear=name == "rear heatsink"),
        )
        for name, x, y in wanted
        if min(x[1] - x[0], y[1] - y[0]) >= _THINNEST_SINK_MM
    )


def _heatsink_links(
    plan: BoardPlan, spans: tuple[Span, Span], *, rear: bool
) -> tuple[Link, ...]:
    """Return what a heatsink rests on: it stands where the socket leaves it.

    Its near side keeps off the socket; that and its other sides are usual places.
    """
    (x0, x1), (y0, y1) = spans
    x_mm, y_mm = plan.socket_mm
    near = link(
        "regulator heatsinks from the socket's centre",
        plan.heatsink_from_socket,
        Axis.DEPTH,
        Axis.HEIGHT,
        tape="socket's centre to the heatsink's near side",
        entry="heatsink from socket",
    )
    near_mm = plan.heatsink_from_socket.mm
    off_mm = -near_mm if rear else near_mm
    placed: tuple[Link, ...] = (
        *plan.socket_links,
        times(near, -1.0) if rear else near,
        *_drawn(Axis.DEPTH, (x0 - x_mm, x1 - x_mm), off_mm),
        *_drawn(Axis.HEIGHT, (y0 - y_mm, y1 - y_mm), off_mm),
    )
    if rear and x0 == plan.rear_connectors_mm[1] + _BESIDE_MM:
        placed = _from_connectors(plan, placed)
    under_mm = _UNDER_TOP_MM[rear]
    if y1 == plan.upper_mm - under_mm:
        under = exact("heatsink under the top edge", under_mm, Axis.HEIGHT)
        placed = (
            *(_not_at(each, Direction.UP) for each in placed),
            *(facing(each, Direction.UP) for each in plan.upper_links),
            facing(less(under), Direction.UP),
        )
    return (
        *placed,
        plan.thick,
        size(
            link(
                "regulator heatsink's height",
                plan.heatsink_height,
                Axis.WIDTH,
                tape="board's surface to the heatsink's top",
                entry="heatsink height",
            ),
            Direction.PANEL,
        ),
    )


def _from_connectors(plan: BoardPlan, placed: tuple[Link, ...]) -> tuple[Link, ...]:
    """Return the rear face against the rear connectors, where they leave no more."""
    back = (
        *plan.connectors_links,
        exact("heatsink beside the rear connectors", _BESIDE_MM, Axis.DEPTH),
    )
    return (
        *(_not_at(each, Direction.REAR) for each in placed),
        *(facing(each, Direction.REAR) for each in back),
    )


def _not_at(link: Link, side: Direction) -> Link:
    """Return a figure that places every face but the one on a side."""
    return facing(link, side.opposite)


def _drawn(axis: Axis, span: Span, off_mm: float) -> Iterator[Link]:
    """Yield where a heatsink's sides are drawn, beyond what it keeps off the socket.

    Nothing for the near side, which keeps off it just so.
    """
    labels = "heatsink's place", "heatsink's edge"
    for label, end_mm, sign in zip(labels, span, (-1, 1), strict=True):
        if abs(end_mm - off_mm) > _ROUNDED_MM:
            drawn = exact(label, end_mm - off_mm, axis)
            yield facing(drawn, Direction((axis, sign)))


def _rear_cover(plan: BoardPlan) -> tuple[Piece, ...]:
    """Return the cover over the rear connectors, up to the socket's keep-in."""
    cover = plan.rear_cover
    if cover is None or cover.mm <= plan.rear_connector_height.mm:
        return ()
    x_mm, _ = plan.socket_mm
    low_mm = _APERTURE_FROM_MM
    end_mm = max(plan.rear_connectors_mm[1], x_mm - plan.heatsink_from_socket.mm)
    lid = (
        plan.thickness.mm + plan.rear_connector_height.mm,
        plan.thickness.mm + cover.mm,
    )
    y = (low_mm, min(low_mm + boards.APERTURE_WIDTH.mm, plan.upper_mm))
    return (
        Piece(
            name="rear cover",
            role=Role.REGULATOR_HEATSINK,
            solids=(block((plan.rear_connectors_mm[0] + 3.0, end_mm), y, lid),),
            links=(
                *_cover_end(plan, end_mm),
                plan.thick,
                spanning(
                    link(
                        "rear connectors' height",
                        plan.rear_connector_height,
                        Axis.WIDTH,
                    ),
                    1.0,
                    0.0,
                ),
                size(link("rear cover's height", cover, Axis.WIDTH), Direction.PANEL),
            ),
        ),
    )


def _cover_end(plan: BoardPlan, end_mm: float) -> tuple[Link, ...]:
    """Return what places the cover's front end where it reaches to the heatsinks."""
    near = plan.heatsink_from_socket
    if end_mm != plan.socket_mm[0] - near.mm:
        return ()
    label = "regulator heatsinks from the socket's centre"
    keeps = less(link(label, near, Axis.DEPTH))
    socket = [each for each in plan.socket_links if each.low[Axis.DEPTH.index]]
    return tuple(facing(each, Direction.FRONT) for each in (*socket, keeps))


def _chipset(plan: BoardPlan) -> tuple[Piece, ...]:
    """Return the chipset's heatsink, where boards of full depth usually have it."""
    deep_mm = plan.depth.mm
    if plan.height.mm < _LEAST_HEIGHT_MM or deep_mm < _LEAST_DEPTH_MM:
        return ()
    x = (deep_mm - 90.0, deep_mm - 35.0)
    y = (plan.lower_mm + 25.0, plan.lower_mm + 80.0)
    place = practice(0.0, 15.0, assumed=True)
    return (
        Piece(
            name="chipset heatsink",
            role=Role.CHIPSET_HEATSINK,
            solids=(standing(plan, x, y, height_mm=plan.chipset_height.mm),),
            links=(
                size(
                    link(
                        "chipset heatsink's height",
                        plan.chipset_height,
                        Axis.WIDTH,
                        tape="board's surface to the top of the chipset's heatsink",
                        entry="chipset height",
                    ),
                    Direction.PANEL,
                ),
                at_share(_deep(plan), Axis.DEPTH, 1.0),
                less(exact("chipset heatsink from the front edge", 90.0, Axis.DEPTH)),
                size(
                    exact("chipset heatsink's edge", 55.0, Axis.DEPTH), Direction.FRONT
                ),
                *plan.lower_links,
                exact("chipset heatsink over the lower edge", 25.0, Axis.HEIGHT),
                size(exact("chipset heatsink's edge", 55.0, Axis.HEIGHT), Direction.UP),
                link(
                    "chipset heatsink's place",
                    place,
                    Axis.DEPTH,
                    Axis.HEIGHT,
                    tape="board's front or lower edge to the chipset's heatsink",
                ),
                plan.thick,
            ),
        ),
    )


def _card_slot(plan: BoardPlan, slot: CardSlot) -> Piece:
    low_mm = _SLOT_FROM_MM - plan.rear_edge_mm
    half_mm = cards.CONNECTOR_WIDTH.mm / 2
    y_mm = plan.card_y_mm(slot.opening)
    long_mm = cards.CONNECTOR_LENGTH[slot.lanes].mm
    line, under = slot_line(slot.opening)
    return Piece(
        name=f"slot {slot.opening}",
        role=Role.CARD_SLOT,
        solids=(
            standing(
                plan,
                (low_mm, low_mm + long_mm),
                (y_mm - half_mm, y_mm + half_mm),
                height_mm=cards.CONNECTOR_HEIGHT.mm,
            ),
        ),
        links=(
            exact("card slot from the board's rear edge", low_mm, Axis.DEPTH),
            size(exact("card slot's length", long_mm, Axis.DEPTH), Direction.FRONT),
            line,
            under,
            centred(exact("card slot's width", cards.CONNECTOR_WIDTH.mm, Axis.HEIGHT)),
            plan.thick,
            size(
                exact("card slot's height", cards.CONNECTOR_HEIGHT.mm, Axis.WIDTH),
                Direction.PANEL,
            ),
        ),
    )
