"""The room for details: shared with the legend, or given to the views."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from layout.drawing.paper.boxes import Frame
from layout.drawing.sheets.sheet import (
    KEPT_AIR_MM,
    LEAST_ASIDE_MM,
    Plan,
    spare_mm,
    views_in,
)

__all__ = ["keyed", "opened"]

_RAISED_MM = (66.0, 70.0, 100.0)
"""So high are legend and notes in two columns, mostly, long ones, and in one column."""

_KEY_MM = (103.0, 66.0)
_SLIM_KEY_MM = (62.0, 93.0)
"""Width and height of legend and notes beside or under enlarged details, in two columns
and in one."""


def opened(plan: Plan) -> Plan:
    """Return the plan of a sheet without details: the views have their room, too."""
    if plan.aside is None or plan.key is not None:
        return plan
    left, bottom, right, top = plan.field
    field = left, min(bottom, plan.aside[1]), max(right, plan.aside[2]), top
    side, _ = plan.views
    return replace(
        plan, field=field, aside=None, views=views_in(side.box, side.scale, field)
    )


def keyed(plan: Plan) -> Iterator[Plan]:
    """Yield the plan with its legend among the details, where there is room for both.

    The column has more room for the table then.
    """
    for each in (plan, *_raised(plan)):
        if each.aside is not None:
            yield from _keyed(each, each.aside)


def _raised(plan: Plan) -> Iterator[Plan]:
    """Yield the plan with details as high as legend and notes, if they lack little."""
    if plan.aside is None or plan.aside[3] != plan.field[1]:
        return  # they stand beside the views
    left, bottom, right, top = plan.aside
    side, _ = plan.views
    box, factor = side.box, side.scale
    spare = spare_mm(box, factor, plan.field)
    for high in _RAISED_MM:
        more = high - (top - bottom)
        if 0.0 < more <= spare - KEPT_AIR_MM:
            field = (plan.field[0], top + more, *plan.field[2:])
            aside = (left, bottom, right, top + more)
            views = views_in(box, factor, field)
            yield replace(plan, field=field, aside=aside, views=views)


def _keyed(plan: Plan, aside: Frame) -> Iterator[Plan]:
    left, bottom, right, top = aside
    if top - bottom >= _SLIM_KEY_MM[1]:
        beside = [_SLIM_KEY_MM[0], _KEY_MM[0]]
    else:
        beside = [_KEY_MM[0]]
    for wide in beside:
        if (at := right - wide) - left >= LEAST_ASIDE_MM:
            key, rest = (at, bottom, right, top), (left, bottom, at, top)
            yield replace(plan, aside=rest, key=key)
    if top - (at := bottom + _KEY_MM[1]) >= LEAST_ASIDE_MM:
        key, rest = (left, bottom, right, at), (left, at, right, top)
        yield replace(plan, aside=rest, key=key)
