"""Where a card has its sockets for plugs of others: at its far end, as is usual."""

from __future__ import annotations

from typing import Final

from layout.geometry.space import Axis, Direction
from layout.parts.form import Link, Plug
from layout.parts.hookup import Counts
from layout.parts.link import at_share, exact, link
from layout.standards.connectors import OUTLINES
from layout.standards.figure import practice

__all__ = ["header_plugs"]

_PLACE: Final = practice(0.0, 30.0, assumed=True)
"""How far a socket may be from where it is taken to be; common practice, no source."""
_FROM_FINGERS: Final = 0.6
"""Share of the card's height at which the first socket is taken to be."""


def header_plugs(
    counts: Counts, *, length_mm: float, height_mm: float, links: tuple[Link, ...]
) -> tuple[Plug, ...]:
    """Return a plug for every kind of socket that a card has, pulled off its far end.

    No room is asked of them, since no file tells their places: leads are led to them.

    Parameters
    ----------
    links : tuple of Link
        The figures of the card's body.
    """
    outline = OUTLINES["drive data plug"]
    body_mm = outline.height.mm if outline.height else 0.0
    out = []
    for kind, count in counts:
        if not count:
            continue
        place = link(
            f"place of the {kind.value} sockets on the card",
            _PLACE,
            Axis.DEPTH,
            Axis.WIDTH,
            tape="slot plane and contact fingers to the card's sockets",
        )
        over_mm = _FROM_FINGERS * height_mm
        out.append(
            Plug(
                name="",
                kind=kind,
                at_mm=(length_mm + body_mm, 0.0, over_mm),
                out=Direction.FRONT,
                along=Axis.WIDTH,
                size_mm=(outline.length.mm, outline.width.mm),
                body_mm=body_mm,
                links=(
                    *(at_share(each, Axis.DEPTH, 1.0) for each in links[:1]),
                    exact("plug beyond the card's sockets", body_mm, Axis.DEPTH),
                    exact("card's sockets over its fingers", over_mm, Axis.WIDTH),
                    place,
                ),
                spare=True,
            )
        )
    return tuple(out)
