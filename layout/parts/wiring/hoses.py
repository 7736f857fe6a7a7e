"""Hoses at their ports: straight out of the fitting, then round the least bend."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from typing import Final

from layout.geometry.solids.solid import Solid, block
from layout.geometry.space import Axis, Direction, Vector
from layout.parts.form.form import Link, Piece, Role
from layout.parts.form.link import centred, exact, link, size, spanning
from layout.standards.figure import Figure, practice

__all__ = [
    "DIAMETER",
    "FITTING_MM",
    "HOSE_LENGTH",
    "LEAST_BEND",
    "PortsLook",
    "hoses",
]

HOSE_LENGTH: Final = "hose length"
"""Label of the figure by which a question finds how long the hoses are."""
LEAST_BEND: Final = "hose's least bend"
DIAMETER: Final = "hose's diameter"
"""Labels of two more, which every hose has or may have."""


class PortsLook(Enum):
    """Where the ports in the end tank look; common practice, no source."""

    AWAY = "away"  # from the mount's sheet, beside the fans
    ALONG = "along"  # the radiator, beyond its end tank
    ASIDE = "aside"  # across its row: to the panel, on a side face to the top
    OTHER_SIDE = "to the other side"
    UNTOLD = "not told"  # hoses are left out


_FITTING = practice(18.0, 4.0, assumed=True)
"""From the face with the ports to where the hose may begin to bend."""
FITTING_MM: Final = _FITTING.mm
_BETWEEN_MM = 6.0
"""Free between both hoses at their ports; common practice, no source."""


def hoses(
    name: str,
    at_mm: Vector,
    out: Direction,
    *,
    beside: Axis,
    diameter: Figure,
    bend: Figure | None,
) -> Piece:
    """Return both hoses at the ports of one end, as far as they cannot turn away.

    Parameters
    ----------
    at_mm : Vector
        Middle between both ports, on the face they are in.
    out : Direction
        Where the ports look.
    beside : Axis
        The axis along which they lie side by side.
    diameter, bend : Figure
        Outside diameter, and least radius to the inside of the bend; no bend for a
        fitting whose elbow turns any way.
    """
    reach_mm = _FITTING.mm + (bend.mm + diameter.mm if bend else 0.0)
    off_mm = (diameter.mm + _BETWEEN_MM) / 2
    return Piece(
        name=name,
        role=Role.HOSE,
        solids=tuple(
            _hose(
                at_mm,
                out,
                aside=(beside, side * off_mm),
                size_mm=(reach_mm, diameter.mm),
            )
            for side in (-1, 1)
        ),
        links=_links(out, beside, diameter=diameter, bend=bend),
    )


def _hose(
    at_mm: Vector,
    out: Direction,
    *,
    aside: tuple[Axis, float],
    size_mm: tuple[float, float],
) -> Solid:
    """Return the box around one hose: as long as it needs before it has turned."""
    reach_mm, diameter_mm = size_mm
    spans = []
    for axis, middle_mm in zip(Axis, at_mm, strict=True):
        if axis is out.axis:
            end_mm = middle_mm + out.sign * reach_mm
            spans.append((min(middle_mm, end_mm), max(middle_mm, end_mm)))
            continue
        shifted_mm = middle_mm + (aside[1] if axis is aside[0] else 0.0)
        spans.append((shifted_mm - diameter_mm / 2, shifted_mm + diameter_mm / 2))
    return block(*spans)


def _links(
    out: Direction, beside: Axis, *, diameter: Figure, bend: Figure | None
) -> tuple[Link, ...]:
    (across,) = set(Axis) - {out.axis, beside}
    fitting = link(
        "hose fitting", _FITTING, out.axis, tape="port's face to the hose's start"
    )
    wide = _wide(diameter)
    return (
        size(fitting, out),
        *((size(link(LEAST_BEND, bend, out.axis), out),) if bend else ()),
        *((size(wide(out.axis), out),) if bend else ()),
        spanning(wide(beside), -1.0, 1.0),
        centred(exact("free between both hoses", _BETWEEN_MM, beside)),
        centred(wide(across)),
    )


def _wide(diameter: Figure) -> Callable[[Axis], Link]:
    def wide(axis: Axis) -> Link:
        tape = "one side of the hose to the other"
        return link(DIAMETER, diameter, axis, tape=tape)

    return wide
