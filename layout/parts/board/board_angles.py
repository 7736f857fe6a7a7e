"""Board plugs that do not stand up: right-angle plugs, and sockets at the edge."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from layout.geometry.space import Axis, Direction
from layout.parts.board.board_plan import BoardPlan
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.errors import PartError
from layout.parts.form.form import Piece, Plug, PlugShape, Role
from layout.parts.form.link import link
from layout.parts.wiring.adapter import adapted
from layout.parts.wiring.hookup import HEADERS
from layout.standards.connectors import ANGLED_DRIVE_PLUG
from layout.standards.figure import Figure, practice

__all__ = [
    "ANGLED",
    "LYING",
    "LYING_HEIGHT",
    "height_of",
    "kinds_named",
    "turned",
    "with_adapters",
]

_Kind = ConnectorKind

ANGLED: Final = HEADERS | {_Kind.MAIN, _Kind.PROCESSOR}
"""Plugs that a right-angle one, or an adapter, may take the place of."""

_BEYOND: Final[Mapping[ConnectorKind, Figure]] = MappingProxyType(
    {
        _Kind.MAIN: practice(15.0, 4.0, assumed=True),
        _Kind.USB_19: practice(20.0, 5.0, assumed=True),
        _Kind.USB_20: practice(18.0, 4.0, assumed=True),
    }
)
"""How far a mated plug stands beyond the edge that its lying socket looks over."""

LYING: Final = frozenset(_BEYOND)
"""Sockets that some boards have lying at their front edge; those for drives' data
always lie there."""

LYING_HEIGHT: Final = practice(13.0, 2.0, assumed=True)
"""From the board to the top of a lying socket."""


_ANGLED_POWER: Final = practice(25.0, 5.0, assumed=True)
_ANGLED_USB: Final = practice(15.0, 3.0, assumed=True)
_ANGLED_PINS: Final = practice(10.0, 2.0, assumed=True)
_ANGLED_HEIGHTS: Final[Mapping[ConnectorKind, Figure]] = MappingProxyType(
    {
        _Kind.MAIN: _ANGLED_POWER,
        _Kind.PROCESSOR: _ANGLED_POWER,
        _Kind.USB_19: _ANGLED_USB,
        _Kind.USB_20: _ANGLED_USB,
    }
)
"""From the board to the top of a right-angle plug, its cable's turn in it: higher than
a straight plug's wire side, lower than that with its bend; of all others' the pins'."""


def height_of(plan: BoardPlan, kind: ConnectorKind, straight: Figure) -> Figure:
    """Return how high a plug stands over the board: lying, angled, or straight.

    An adapter in its socket counts in its place.
    """
    for each in plan.adapters:
        if each.kind is kind:
            return each.height
    if kind in plan.lying:
        return LYING_HEIGHT
    if kind in plan.angled:
        return _ANGLED_HEIGHTS.get(kind, _ANGLED_PINS)
    return straight


def kinds_named(
    field: str, words: tuple[str, ...], allowed: Iterable[ConnectorKind]
) -> frozenset[ConnectorKind]:
    """Return the kinds that a board's file names in a list.

    Raises
    ------
    PartError
        If it names a kind that does not exist, or that the list does not take.
    """
    known = {each.value: each for each in ConnectorKind if each in set(allowed)}
    for word in words:
        if word not in known:
            raise PartError(field=field, found=word, right=f"one of {', '.join(known)}")
    return frozenset(known[word] for word in words)


def with_adapters(
    plan: BoardPlan, plugs: tuple[Plug, ...]
) -> tuple[tuple[Piece, ...], tuple[Plug, ...]]:
    """Return the bodies that adapters add to a board, and its plugs with theirs.

    Raises
    ------
    PartError
        If the board has no such socket, or the adapter turns to one of its ends.
    """
    pieces = []
    kept = list(plugs)
    for each in plan.adapters:
        at = next((k for k, e in enumerate(kept) if _takes(e, each.kind)), None)
        if at is None:
            raise PartError(
                field="adapters",
                found=f"one for {each.kind.value}, of which the board has no socket",
                right="none, or another kind",
            )
        name = f"{each.kind.value} adapter"
        piece, kept[at] = adapted(kept[at], each, name=name, role=Role.BOARD_CONNECTOR)
        pieces.append(piece)
    return tuple(pieces), tuple(kept)


def _takes(plug: Plug, kind: ConnectorKind) -> bool:
    return plug.kind is kind and bool(plug.name) and plug.out is Direction.PANEL


def turned(plan: BoardPlan, plugs: tuple[Plug, ...]) -> tuple[Plug, ...]:
    """Return a board's plugs with those that lie or are angled as they are."""
    lying = tuple(_over_edge(plan, e) if e.kind in plan.lying else e for e in plugs)
    return tuple(_angled(e) if e.kind in plan.angled else e for e in lying)


def _over_edge(plan: BoardPlan, plug: Plug) -> Plug:
    """Return a plug in a socket that lies at the front edge and looks over it."""
    beyond = _BEYOND[plug.kind]
    label = f"{plug.kind.value} plug beyond the board's edge"
    tape = "board's front edge to the back of the plug in its lying socket"
    return replace(
        plug,
        at_mm=(
            plan.depth.mm + beyond.mm,
            plug.at_mm[1],
            plan.thickness.mm + LYING_HEIGHT.mm / 2,
        ),
        out=Direction.FRONT,
        along=Axis.HEIGHT,
        size_mm=(max(plug.size_mm), min(plug.size_mm)),
        body_mm=beyond.mm,
        links=(*plug.links, link(label, beyond, Axis.DEPTH, tape=tape)),
    )


def _angled(plug: Plug) -> Plug:
    """Return a right-angle plug: its cable leaves along the board, or across it."""
    if not plug.body_mm:
        return replace(plug, shape=PlugShape.ANGLED)
    # What stands out of a lying socket is lower where the plug is angled.
    less_mm = max(0.0, plug.body_mm - ANGLED_DRIVE_PLUG.mm)
    x, y, z = plug.at_mm
    return replace(
        plug,
        shape=PlugShape.ANGLED,
        at_mm=(x - less_mm, y, z),
        body_mm=plug.body_mm - less_mm,
    )
