"""A card's power plug as its cable sees it."""

from __future__ import annotations

from layout.geometry.space import Axis, Direction
from layout.parts.connector import ConnectorKind
from layout.parts.errors import PartError
from layout.parts.form import Piece, Plug, PlugShape

__all__ = ["check_kind", "mated"]

_KINDS = (ConnectorKind.CARD_8, ConnectorKind.CARD_6, ConnectorKind.CARD_16)


def check_kind(kind: ConnectorKind) -> None:
    """Refuse plugs that give no card its power."""
    if kind not in _KINDS:
        known = ", ".join(each.value for each in _KINDS)
        raise PartError(field="plug kind", found=kind.value, right=f"one of {known}")


def mated(
    piece: Piece,
    kind: ConnectorKind,
    shape: PlugShape,
    *,
    ahead: bool,
    size_mm: tuple[float, float],
) -> Plug:
    """Return the plug that a piece is, with its wires at the far side.

    ``ahead``: it looks to the front, from the card's far end; else to the side panel.
    """
    bounds = piece.solids[0].bounds
    x, y, z = ((a + b) / 2 for a, b in zip(bounds.low, bounds.high, strict=True))
    return Plug(
        name=piece.name,
        kind=kind,
        at_mm=(bounds.high[0], y, z) if ahead else (x, y, bounds.high[2]),
        out=Direction.FRONT if ahead else Direction.PANEL,
        along=Axis.WIDTH if ahead else Axis.DEPTH,
        size_mm=size_mm,
        shape=shape,
        links=piece.links,
    )
