"""Where a board's memory slots lie along themselves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from layout.geometry.space import Axis
from layout.parts.board.board_plan import BoardPlan
from layout.parts.board.board_usual import PLUGS_MM
from layout.parts.board.memory_slot import SLOTS, MemoryLooks
from layout.parts.form.form import Link
from layout.parts.form.link import less, link
from layout.standards.figure import practice

__all__ = ["along_links", "middle_mm", "stands_by"]

_SCATTER_MM = 8.0
_EDGE_MM = 2.0
_MIDDLE = "memory slots' middle"


def stands_by(plan: BoardPlan) -> bool:
    """Tell whether the slots stand before or behind the socket, along height."""
    return plan.memory_looks not in {MemoryLooks.UP, MemoryLooks.DOWN}


def middle_mm(plan: BoardPlan) -> float:
    """Return where the slots' middle lies along them in the frame: a height.

    Of modules that look up or down it is a depth, over or under the socket.
    """
    axis = _axis(plan)
    return sum(e.low[axis.index] * e.figure.mm for e in along_links(plan))


def along_links(plan: BoardPlan) -> tuple[Link, ...]:
    """Return the figures that place the slots along themselves.

    Untold slots lie beside the socket's centre, where it is told as well as where it
    is not; at an edge of the board, or at the rear connectors, where those would cut
    them.
    """
    return _height_links(plan) if stands_by(plan) else _depth_links(plan)


def _axis(plan: BoardPlan) -> Axis:
    return Axis.HEIGHT if stands_by(plan) else Axis.DEPTH


def _height_links(plan: BoardPlan) -> tuple[Link, ...]:
    if (told := plan.memory_from_top) is not None:
        made = link(f"{_MIDDLE} along the board", told, Axis.HEIGHT)
        return (*plan.upper_links, less(made))
    _, socket_y_mm = plan.socket_mm
    under_mm = PLUGS_MM if plan.memory_looks is MemoryLooks.REAR else _EDGE_MM
    least_mm = _half_mm(plan) + under_mm
    if socket_y_mm <= plan.upper_mm - least_mm:
        return _from(plan.socket_links[1:], _off(plan, "the socket's centre", 0.0))
    return (*plan.upper_links, less(_off(plan, "the board's top edge", least_mm)))


def _depth_links(plan: BoardPlan) -> tuple[Link, ...]:
    """Return slots along depth: they end on the board, before the rear connectors.

    The connectors give way where the board is not deep enough for both.
    """
    if (told := plan.memory_from_rear) is not None:
        return (link(f"{_MIDDLE} along the board", told, Axis.DEPTH),)
    least_mm = _half_mm(plan) + _EDGE_MM
    connectors, (x_mm, _) = plan.connectors_links, plan.socket_mm
    begins_mm = sum(each.figure.mm for each in connectors) + least_mm
    if max(begins_mm, x_mm) > plan.depth.mm - least_mm:
        return _before_edge(plan, least_mm)
    if x_mm >= begins_mm:
        return _from(plan.socket_links[:1], _off(plan, "the socket's centre", 0.0))
    return _from(connectors, _off(plan, "the rear connectors", least_mm))


def _before_edge(plan: BoardPlan, least_mm: float) -> tuple[Link, ...]:
    """Return slots that end at the front edge, or fill the board's depth."""
    if plan.depth.mm < 2 * least_mm:
        return (_off(plan, "the board's rear edge", least_mm),)
    deep = link("board depth", plan.depth, Axis.DEPTH)
    return (deep, less(_off(plan, "the board's front edge", least_mm)))


def _from(what: Sequence[Link], off: Link) -> tuple[Link, ...]:
    """Return figures that a tape from the board's edge to the slots makes needless."""
    assumed = tuple(each for each in what if each.figure.assumed)
    return (*what, replace(off, instead=assumed))


def _half_mm(plan: BoardPlan) -> float:
    return SLOTS[plan.memory_size].length.mm / 2


def _off(plan: BoardPlan, what: str, mm: float) -> Link:
    """Return how far the slots' middle lies off something, with its scatter."""
    edge = "top" if stands_by(plan) else "rear"
    return link(
        f"{_MIDDLE} from {what}",
        practice(mm, _SCATTER_MM, assumed=True),
        _axis(plan),
        tape=f"board's {edge} edge to the middle of the memory slots",
        entry=f"memory from {edge}",
    )
