"""A right-angle adapter: its plug looks along the board or the card, not out of it."""

from __future__ import annotations

from dataclasses import replace
from enum import Enum
from typing import Final

from layout.geometry.solids.solid import block
from layout.geometry.space import Axis, Direction, Vector
from layout.parts.form import field
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.errors import PartError
from layout.parts.form.form import Link, Piece, Plug, Role
from layout.parts.form.link import at_share, exact, less, link, size
from layout.standards.cards import PLUG_BEYOND_CARD
from layout.standards.figure import Figure, practice
from layout.values import dataclass

__all__ = ["ADAPTED", "Adapter", "AdapterLooks", "BoardAdapter", "adapted"]

ADAPTED: Final = frozenset(
    {ConnectorKind.MAIN, ConnectorKind.PROCESSOR, ConnectorKind.USB_19}
)
"""Board sockets for which such adapters are sold; smaller plugs are angled alone."""


class AdapterLooks(Enum):
    """Where the socket of an adapter looks, the board upright, the card in a slot."""

    FRONT = "front"
    REAR = "rear"
    UP = "up"
    DOWN = "down"
    PANEL = "panel"
    TRAY = "tray"

    @property
    def direction(self) -> Direction:
        """Return the direction in its part's own axes."""
        return Direction[self.name]

    @property
    def opposite(self) -> AdapterLooks:
        """Return the other way across its socket."""
        return AdapterLooks[self.direction.opposite.name]


@dataclass(frozen=True, slots=True, kw_only=True)
class Adapter:
    """What stands between a socket and its plug, which it turns by 90 degrees.

    No standard gives its sizes: the usual ones are common practice without a source.
    """

    looks: AdapterLooks = field.choice("where its plug looks: front, rear, up, down")
    height: Figure = field.length(
        "how far it stands over the board, or beyond the card",
        practice(25.0, 5.0, assumed=True),
        least_mm=8,
        most_mm=60,
    )
    length: Figure = field.length(
        "middle of the socket that it is in to the face that its plug goes into",
        practice(15.0, 5.0, assumed=True),
        least_mm=6,
        most_mm=60,
    )
    plug: Figure = field.length(
        "from that face to the back of the plug in it",
        PLUG_BEYOND_CARD,
        least_mm=5,
        most_mm=60,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardAdapter(Adapter):
    """An adapter in one of a board's sockets."""

    kind: ConnectorKind = field.choice("the plug that it turns", among=ADAPTED)

    def __post_init__(self) -> None:
        if self.kind not in ADAPTED:
            known = ", ".join(each.value for each in ConnectorKind if each in ADAPTED)
            raise PartError(
                field="kind",
                found=self.kind.value,
                right=f"one of {known}, or 'angled plugs: [{self.kind.value}]'",
            )


def adapted(
    plug: Plug, adapter: Adapter, *, name: str, role: Role
) -> tuple[Piece, Plug]:
    """Return the body beside a socket's, and the plug in it, that an adapter adds.

    Parameters
    ----------
    plug : Plug
        A straight one that ends where the adapter does, over its own socket.

    Raises
    ------
    PartError
        If the adapter turns the plug to one of the socket's ends.
    """
    to, out = adapter.looks.direction, plug.out
    if to.axis in {out.axis, plug.along}:
        across = [
            e for e in AdapterLooks if e.direction.axis not in {out.axis, plug.along}
        ]
        raise PartError(
            field="looks",
            found=f"{adapter.looks.value} of a {plug.kind.value} adapter",
            right=f"{across[0].value} or {across[1].value}, across its socket",
        )
    long_mm, thick_mm = plug.size_mm
    beyond_mm = adapter.length.mm + adapter.plug.mm
    at = plug.at_mm
    near_mm = min(thick_mm / 2, adapter.length.mm)
    spans = {
        plug.along: _between(at[plug.along.index], -long_mm / 2, long_mm / 2),
        out.axis: _between(at[out.axis.index], -thick_mm * out.sign, 0.0),
        to.axis: _between(at[to.axis.index], near_mm * to.sign, beyond_mm * to.sign),
    }
    end_mm = {
        out.axis: sum(spans[out.axis]) / 2,
        to.axis: at[to.axis.index] + beyond_mm * to.sign,
    }
    x, y, z = (end_mm.get(axis, at[axis.index]) for axis in Axis)
    ends: Vector = (x, y, z)
    links = _links(plug, adapter, near_mm=near_mm)
    solid = block(spans[Axis.DEPTH], spans[Axis.HEIGHT], spans[Axis.WIDTH])
    return (
        Piece(name=name, role=role, solids=(solid,), links=links),
        replace(plug, name=name, at_mm=ends, out=to, links=links),
    )


def _between(at_mm: float, *ends_mm: float) -> tuple[float, float]:
    low_mm, high_mm = sorted(ends_mm)
    return at_mm + low_mm, at_mm + high_mm


def _links(plug: Plug, adapter: Adapter, *, near_mm: float) -> tuple[Link, ...]:
    """Return what the faces rest on: the socket's middle, then the adapter's figures.

    ``near_mm`` is from the socket's middle to where the body begins.
    """
    to, out, thick_mm = adapter.looks.direction, plug.out, plug.size_mm[1]
    kind = plug.kind.value
    socket = tuple(
        at_share(at_share(each, to.axis, 0.5), out.axis, 1.0 if out.sign > 0 else 0.0)
        for each in plug.links
    )
    near = exact("adapter beside its socket's middle", near_mm * to.sign, to.axis)
    beyond = (
        link(
            f"length of the {kind} adapter",
            adapter.length,
            to.axis,
            tape="middle of the socket to the face that the plug goes into",
            entry="length",
        ),
        link(
            f"plug beyond the {kind} adapter",
            adapter.plug,
            to.axis,
            tape="the adapter's face to the back of the plug in it",
            entry="plug",
        ),
    )
    thick = exact(f"thickness of the {kind} adapter", thick_mm, out.axis)
    return (
        *socket,
        near,
        *(size(each, to) for each in beyond),
        less(size(exact("the same, counted once", near_mm, to.axis), to)),
        size(thick, out.opposite),
    )
