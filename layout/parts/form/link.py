"""Figures of a chain: how far each may be off, along which axis, and how it counts."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache
from typing import Final

from layout.geometry.space import Axis, Direction, Vector
from layout.parts.form.form import Link
from layout.standards import boards, cards
from layout.standards.figure import Figure, practice
from layout.standards.tolerances import (
    LEAST_MM,
    ToleranceClass,
    general_tolerance_mm,
)

__all__ = [
    "CONTACT_EDGE",
    "FIRST_HOLES",
    "REAR_EDGE",
    "SLOT_LINE",
    "STACK",
    "THICKNESS",
    "WALL",
    "at_share",
    "board_edge",
    "centred",
    "drawn",
    "exact",
    "facing",
    "less",
    "link",
    "plus_minus_mm",
    "said_mm",
    "sheet_link",
    "size",
    "slot_line",
    "spanning",
    "times",
    "without",
]

STACK: Final = "board's top to heat spreader"
CONTACT_EDGE: Final = "memory module's contact edge over the board"
THICKNESS: Final = "board thickness"
WALL: Final = "wall thickness"
SLOT_LINE: Final = "slot 1's line in the board frame"
FIRST_HOLES: Final = "board's first holes from the connectors' wall"
REAR_EDGE: Final = "board's rear edge to its first holes"
"""Figures of one part that others count on: they cancel by their names."""

_TENS_MM = 10.0


def link(
    label: str,
    figure: Figure,
    *axes: Axis,
    cls: ToleranceClass = ToleranceClass.MEDIUM,
    tape: str = "",
    entry: str = "",
) -> Link:
    """Return a figure that moves a seat, or the whole of a body, along the axes.

    A figure without a plus-minus gets the general one of its size: class m unless
    told otherwise, for a part that is machined or moulded.  One that was given in
    another reading is told as it was given, and what lies between beside it.
    """
    acting = [1.0 if axis in axes else 0.0 for axis in Axis]
    once: Vector = (acting[0], acting[1], acting[2])
    told = figure
    more: tuple[Link, ...] = ()
    if (was := figure.restated) is not None:
        told = replace(figure, mm=was.mm, assumed=was.assumed)
        step = link(was.between, was.step, *axes, cls=cls)
        more = (times(step, float(was.sign)),)
    off_mm = _own_mm(told.mm, told.plus_minus_mm, cls)
    return Link(
        label=label,
        plus_minus_mm=_times(once, off_mm),
        figure=told,
        tape=tape,
        entry=entry,
        low=once,
        high=once,
        more=more,
    )


@lru_cache(maxsize=512)  # the same in every build
def exact(label: str, mm: float, *axes: Axis) -> Link:
    """Return a figure of common practice that is taken to be just what it is."""
    return link(label, practice(mm, 0.0), *axes)


def times(link: Link, factor: float) -> Link:
    """Return a figure that counts more or less often than once, or backwards."""
    faces = _times(link.low, factor), _times(link.high, factor)
    return _counting(link, faces, (times(each, factor) for each in link.more))


def _counting(link: Link, faces: tuple[Vector, Vector], more: Iterable[Link]) -> Link:
    """Return a figure that counts otherwise: parts in all sizes make thousands.

    Written out it takes a third of the time of :func:`dataclasses.replace`.
    """
    return Link(
        label=link.label,
        plus_minus_mm=link.plus_minus_mm,
        figure=link.figure,
        tape=link.tape,
        entry=link.entry,
        low=faces[0],
        high=faces[1],
        more=tuple(more),
        instead=link.instead,
    )


def less(link: Link) -> Link:
    """Return a figure that is taken off."""
    return times(link, -1.0)


def facing(link: Link, side: Direction) -> Link:
    """Return a figure that places the one side of a body and not its opposite."""
    none = side.axis, 0.0
    low = _with(link.low, *none) if side.sign > 0 else link.low
    high = _with(link.high, *none) if side.sign < 0 else link.high
    return _counting(link, (low, high), (facing(each, side) for each in link.more))


def size(link: Link, side: Direction) -> Link:
    """Return a size that a body has from its origin to one side."""
    return times(facing(link, side), float(side.sign))


def spanning(link: Link, low: float, high: float) -> Link:
    """Return a figure that counts otherwise on the low faces than on the high ones."""
    faces = _times(link.low, low), _times(link.high, high)
    return _counting(link, faces, (spanning(each, low, high) for each in link.more))


def at_share(link: Link, axis: Axis, share: float) -> Link:
    """Return a size as it counts at a place inside its body: 0 at its low face."""
    low, high = link.low[axis.index], link.high[axis.index]
    count = low + (high - low) * share
    faces = _with(link.low, axis, count), _with(link.high, axis, count)
    return _counting(link, faces, (at_share(each, axis, share) for each in link.more))


def drawn(name: str, axis: Axis, span: tuple[float, float]) -> tuple[Link, Link]:
    """Return both faces of what stands where it is drawn: no figure tells its place."""
    near, far = (
        exact(f"{name}'s {side} edge, {axis.value}", mm, axis)
        for side, mm in zip(("near", "far"), span, strict=True)
    )
    return spanning(near, 1.0, 0.0), spanning(far, 0.0, 1.0)


def without(link: Link, axis: Axis) -> Link:
    """Return a figure that places nothing along an axis."""
    for sign in (1, -1):
        link = facing(link, Direction((axis, sign)))
    return link


def centred(link: Link) -> Link:
    """Return a size that a body has half to either side of its origin."""
    return spanning(link, -0.5, 0.5)


def board_edge() -> tuple[Link, Link]:
    """Return what lies between the connectors' wall and a board's rear edge."""
    first, edge = boards.DATUM_ROW_TO_REAR, boards.REAR_EDGE_TO_DATUM_ROW
    return (
        sheet_link(FIRST_HOLES, first, Axis.DEPTH),
        less(link(REAR_EDGE, replace(edge, plus_minus_mm=0.0), Axis.DEPTH)),
    )


def slot_line(opening: int) -> tuple[Link, Link]:
    """Return what places a card's line in the board frame."""
    over_mm = (opening - 1) * cards.SLOT_PITCH.mm
    return (
        link(
            SLOT_LINE,
            cards.FIRST_SLOT,
            Axis.HEIGHT,
            tape="lower edge of an ATX board to the middle of slot 1",
        ),
        less(exact(f"slots over slot {opening}", over_mm, Axis.HEIGHT)),
    )


def _with(vector: Vector, axis: Axis, value: float) -> Vector:
    """Return a vector with another value along an axis."""
    x, y, z = vector
    if axis is Axis.DEPTH:
        return (value, y, z)
    return (x, value, z) if axis is Axis.HEIGHT else (x, y, value)


def _times(vector: Vector, factor: float) -> Vector:
    x, y, z = vector
    return (x * factor, y * factor, z * factor)


def sheet_link(
    label: str, figure: Figure, *axes: Axis, tape: str = "", entry: str = ""
) -> Link:
    """Return a figure of bent sheet metal: class c."""
    cls = ToleranceClass.COARSE
    return link(label, figure, *axes, cls=cls, tape=tape, entry=entry)


def said_mm(off_mm: float) -> str:
    """Return how far a figure may be off as text says it: to two figures, or whole.

    Examples
    --------
    >>> said_mm(0.254), said_mm(9.96), said_mm(17.5), said_mm(100.0)
    ('0.25', '10', '18', '100')
    """
    return f"{off_mm:.0f}" if off_mm >= _TENS_MM else f"{off_mm:.2g}"


def plus_minus_mm(figure: Figure, cls: ToleranceClass) -> float:
    """Return how far a figure may be off.

    One that was given in another reading carries what lies between the two as well.
    """
    if figure.restated is None:
        return _own_mm(figure.mm, figure.plus_minus_mm, cls)
    own_mm = _own_mm(figure.restated.mm, figure.plus_minus_mm, cls)
    return math.hypot(own_mm, plus_minus_mm(figure.restated.step, cls))


def _own_mm(mm: float, stated_mm: float | None, cls: ToleranceClass) -> float:
    if stated_mm is not None:
        return stated_mm
    if mm == 0.0:
        return 0.0
    return general_tolerance_mm(max(abs(mm), LEAST_MM), cls)
