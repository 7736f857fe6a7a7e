"""Figures of a tolerance chain: how far each may be off, and along which axis."""

from __future__ import annotations

import math

from layout.geometry.space import Axis
from layout.parts.form import Link
from layout.standards.figure import Figure
from layout.standards.tolerances import (
    LEAST_MM,
    ToleranceClass,
    general_tolerance_mm,
)

__all__ = ["link", "plus_minus_mm", "said_mm", "sheet_link"]

_TENS_MM = 10.0


def link(
    label: str,
    figure: Figure,
    *axes: Axis,
    cls: ToleranceClass = ToleranceClass.MEDIUM,
    tape: str = "",
    entry: str = "",
) -> Link:
    """Return a figure that acts along the axes.

    A figure without a plus-minus gets the general one of its size: class m unless
    told otherwise, for a part that is machined or moulded.
    """
    off_mm = plus_minus_mm(figure, cls)
    x, y, z = (off_mm if axis in axes else 0.0 for axis in Axis)
    return Link(
        label=label, plus_minus_mm=(x, y, z), figure=figure, tape=tape, entry=entry
    )


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
