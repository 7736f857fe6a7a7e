"""A card's power plug as its cable sees it."""

from __future__ import annotations

from typing import Final

from layout.geometry.space import Axis, Direction
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.errors import PartError
from layout.parts.form.form import Piece, Plug, PlugShape
from layout.parts.wiring.hookup import Counts

__all__ = ["CARD_PLUGS", "in_row", "kind_of", "mated"]

CARD_PLUGS: Final = (ConnectorKind.CARD_8, ConnectorKind.CARD_6, ConnectorKind.CARD_16)


def kind_of(told: ConnectorKind | None, power: Counts | None) -> ConnectorKind:
    """Return the kind of a card's plug: as told, as its power needs, or the usual one.

    Raises
    ------
    PartError
        If it gives no card its power, or is another than the power plugs listed.
    """
    if told is not None and told not in CARD_PLUGS:
        known = ", ".join(each.value for each in CARD_PLUGS)
        raise PartError(field="plug kind", found=told.value, right=f"one of {known}")
    listed = [kind for kind, count in power or () if count and kind in CARD_PLUGS]
    if told is None:
        return listed[0] if listed else ConnectorKind.CARD_8
    if power is not None and told not in listed:
        taken = ", ".join(f"{count} x {kind.value}" for kind, count in power) or "none"
        raise PartError(
            field="plug kind",
            found=f"{told.value}, where 'power' lists {taken}",
            right=f"one of those, or 'power: {{{told.value}: 1}}'",
        )
    return told


def in_row(kind: ConnectorKind, power: Counts | None) -> int:
    """Return how many plugs stand side by side: those of 6 and 8 contacts together.

    Examples
    --------
    >>> eight, six = ConnectorKind.CARD_8, ConnectorKind.CARD_6
    >>> in_row(eight, ((eight, 1), (six, 1))), in_row(eight, None)
    (2, 1)
    """
    alike = {kind} if kind is ConnectorKind.CARD_16 else set(CARD_PLUGS[:2])
    return max(1, sum(count for each, count in power or () if each in alike))


def mated(
    piece: Piece,
    kind: ConnectorKind,
    shape: PlugShape,
    *,
    ahead: bool,
    size_mm: tuple[float, float],
    sockets: int = 1,
) -> Plug:
    """Return the plug that a piece is, with its wires at the far side.

    ``sockets`` such plugs may stand side by side, their cables as one.  ``ahead``: it
    looks to the front, from the card's far end; else to the side panel.
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
        sockets=sockets,
    )
