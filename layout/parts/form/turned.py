"""A part turned to its seat: bodies, seats and openings in the axes of the case."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from shapely import affinity

from layout.geometry.bodies.turn import UPRIGHT, Turn
from layout.geometry.solids.solid import Solid
from layout.geometry.space import Vector, plus
from layout.parts.form.form import (
    Allowance,
    FanRow,
    Form,
    Link,
    Piece,
    Plug,
    Portion,
    Seat,
)

__all__ = ["bared", "shifted", "turned", "turned_links"]


def turned(form: Form, turn: Turn) -> Form:
    """Return a part, made in its own axes, as it stands in the case.

    A seat's ``turn`` is then the one of the whole way from the case to it.

    Raises
    ------
    TurnError
        If its outlines cannot be turned so.
    """
    if turn == UPRIGHT:
        return form
    return replace(
        form,
        pieces=tuple(_piece(each, turn) for each in form.pieces),
        seats=tuple(_seat(each, turn) for each in form.seats),
        openings=_allowances(form.openings, turn),
        plugs=tuple(_plug(each, turn) for each in form.plugs),
        leads=tuple(
            replace(each, at_mm=turn.vector(each.at_mm), out=turn.direction(each.out))
            for each in form.leads
        ),
    )


def bared(form: Form) -> Form:
    """Return a part's solids alone."""
    return replace(
        form,
        pieces=tuple(replace(each, links=(), portions=()) for each in form.pieces),
        seats=(),
        openings=(),
        plugs=(),
        leads=(),
    )


def shifted(form: Form, by_mm: Vector, *, by: Link) -> Form:
    """Return a part with all of it moved along its own axes, by a figure."""
    return replace(
        form,
        pieces=tuple(
            replace(_moved(each, by_mm, by), links=(by, *each.links))
            for each in form.pieces
        ),
        seats=tuple(
            replace(each, at_mm=plus(each.at_mm, by_mm), links=(by, *each.links))
            for each in form.seats
        ),
        plugs=tuple(
            replace(each, at_mm=plus(each.at_mm, by_mm)) for each in form.plugs
        ),
    )


def _moved(piece: Piece, by_mm: Vector, by: Link) -> Piece:
    x, y, z = by_mm
    solids = tuple(
        Solid(affinity.translate(each.side, x, y), affinity.translate(each.top, x, z))
        for each in piece.solids
    )
    portions = tuple(
        Portion(each.box.moved(by_mm), (by, *each.links)) for each in piece.portions
    )
    return replace(piece, solids=solids, portions=portions)


def _plug(plug: Plug, turn: Turn) -> Plug:
    return replace(
        plug,
        at_mm=turn.vector(plug.at_mm),
        out=turn.direction(plug.out),
        along=turn.axis(plug.along),
        links=turned_links(plug.links, turn),
    )


def _piece(piece: Piece, turn: Turn) -> Piece:
    return replace(
        piece,
        solids=turn.solids(piece.solids),
        links=turned_links(piece.links, turn),
        portions=tuple(
            Portion(turn.box(each.box), turned_links(each.links, turn))
            for each in piece.portions
        ),
    )


def _seat(seat: Seat, turn: Turn) -> Seat:
    """Return a seat; its allowances stay in the axes of the part that sits there."""
    return replace(
        seat,
        at_mm=turn.vector(seat.at_mm),
        approach=turn.direction(seat.approach),
        turn=turn.after(seat.turn),
        links=turned_links(seat.links, turn),
        rows=tuple(_row(each, turn) for each in seat.rows),
    )


def _row(row: FanRow, turn: Turn) -> FanRow:
    return replace(row, along=turn.axis(row.along), links=turned_links(row.links, turn))


def turned_links(links: Iterable[Link], turn: Turn) -> tuple[Link, ...]:
    """Return figures in the axes of the case."""
    return tuple(_link(each, turn) for each in links)


def _link(link: Link, turn: Turn) -> Link:
    """Return a figure in the axes of the case: a low face may become a high one."""
    low, high = turn.vector(link.low), turn.vector(link.high)
    ahead = [each > 0.0 for each in turn.vector((1.0, 1.0, 1.0))]
    lows = [a if on else b for a, b, on in zip(low, high, ahead, strict=True)]
    highs = [b if on else a for a, b, on in zip(low, high, ahead, strict=True)]
    return replace(
        link,
        plus_minus_mm=turn.extent(link.plus_minus_mm),
        low=(lows[0], lows[1], lows[2]),
        high=(highs[0], highs[1], highs[2]),
        more=turned_links(link.more, turn),
    )


def _allowances(allowances: Iterable[Allowance], turn: Turn) -> tuple[Allowance, ...]:
    return tuple(replace(each, box=turn.box(each.box)) for each in allowances)
