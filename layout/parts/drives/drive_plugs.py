"""The plugs at a drive's end: power and data, whichever end is turned that way."""

from __future__ import annotations

from layout.geometry.space import Axis, Direction, Vector
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import Link, Plug, PlugShape, Role
from layout.parts.form.link import at_share
from layout.standards.connectors import ANGLED_DRIVE_PLUG, OUTLINES

__all__ = ["drive_plugs"]

_OUTLINES = {
    ConnectorKind.DRIVE_POWER: ("drive power plug", 8.0),
    ConnectorKind.DRIVE_DATA: ("drive data plug", -14.0),
}
"""Outline, and where its middle lies beside the drive's; common practice."""
_OPEN = frozenset({Role.TRAY})
"""A tray is open behind a cage, for the plugs of its drives; common practice."""
_OVER_UNDERSIDE_MM = 6.0
"""From a drive's underside to the middle of its plugs, about; from memory."""


def drive_plugs(
    *,
    long_mm: float,
    high_mm: float,
    ends: tuple[Direction, Direction],
    up: Direction,
    shape: PlugShape,
    links: tuple[Link, ...],
) -> tuple[Plug, ...]:
    """Return both plugs at either end: the drive can be put in either way round.

    Parameters
    ----------
    long_mm, high_mm : float
        The drive's body, centred on its seat along and across, its underside at it.
    ends : (Direction, Direction)
        Which ways its ends look.
    up : Direction
        Which way its lid looks.
    shape : PlugShape
        Straight plugs, or angled ones.
    """
    over_mm = min(_OVER_UNDERSIDE_MM, high_mm / 2)
    out = []
    for end in ends:
        for kind, (name, beside_mm) in _OUTLINES.items():
            outline = OUTLINES[name]
            body_mm = _body_mm(name, shape)
            spans = {
                Axis.DEPTH: beside_mm,
                end.axis: end.sign * (long_mm / 2 + body_mm),
                up.axis: up.sign * over_mm,
            }
            at_mm: Vector = tuple(spans[axis] for axis in Axis)  # type: ignore[assignment]  # three axes
            out.append(
                Plug(
                    name="",
                    kind=kind,
                    at_mm=at_mm,
                    out=end,
                    along=Axis.DEPTH,
                    size_mm=(outline.length.mm, outline.width.mm),
                    body_mm=body_mm,
                    shape=shape,
                    passes=frozenset() if up is Direction.TRAY else _OPEN,
                    links=tuple(
                        at_share(
                            at_share(each, end.axis, 1.0 if end.sign > 0 else 0.0),
                            up.axis,
                            0.0 if up.sign > 0 else 1.0,
                        )
                        for each in links
                    ),
                )
            )
    return tuple(out)


def _body_mm(name: str, shape: PlugShape) -> float:
    """Return how far a mated plug stands out of the drive."""
    height = OUTLINES[name].height
    if shape is PlugShape.ANGLED or height is None:
        return ANGLED_DRIVE_PLUG.mm
    return height.mm
