"""How far a hole for cables is covered: along its sheet, never through it."""

from __future__ import annotations

from dataclasses import replace

from layout.build.placed import PlacedBody
from layout.geometry.relations.relation import Overlap, Relation
from layout.geometry.space import Axis
from layout.parts.form.form import Role

__all__ = ["covered", "is_wholly"]

_IN_THE_SHEET = (Axis.DEPTH, Axis.HEIGHT)


def is_wholly(a: PlacedBody, b: PlacedBody) -> bool:
    """Tell whether a body lies over the whole of a hole in the tray."""
    over, hole = a.body.bounds, b.body.bounds
    return b.role is Role.CUT_OUT and all(
        over.low[k] <= hole.low[k] and hole.high[k] <= over.high[k]
        for k in (axis.index for axis in _IN_THE_SHEET)
    )


def covered(a: PlacedBody, b: PlacedBody, stands: Relation) -> Relation:
    """Return how a body stands to a hole in the tray that it covers.

    The shortest shift in space would lead through the sheet, by no more than the
    body's thickness; what a builder can move lies along depth and height.  A hole is
    a box, and a board over one is as wide there as its box.
    """
    if b.role is not Role.CUT_OUT or stands.overlap is None:
        return stands
    low, high = a.body.bounds.low, a.body.bounds.high
    from_, to = b.body.bounds.low, b.body.bounds.high
    shifts = [
        shift
        for axis in _IN_THE_SHEET
        for i in (axis.index,)
        for shift in (
            Overlap(axis=axis, mm=high[i] - from_[i], sign=1),
            Overlap(axis=axis, mm=to[i] - low[i], sign=-1),
        )
    ]
    return replace(stands, overlap=min(shifts, key=lambda each: each.mm))
