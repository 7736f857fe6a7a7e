"""Where a card has its sockets for plugs of others: as told, or at its far end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from enum import Enum
from typing import Final

from layout.geometry.space import Axis, Direction
from layout.parts.form import field
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.errors import PartError
from layout.parts.form.form import Link, Plug, PlugShape
from layout.parts.form.link import at_share, exact, link
from layout.parts.wiring.hookup import HEADERS, Counts
from layout.standards.connectors import ANGLED_DRIVE_PLUG, OUTLINES
from layout.standards.figure import Figure, practice
from layout.values import dataclass

__all__ = ["CardHeader", "SocketLooks", "header_plugs"]

_PLACE: Final = practice(0.0, 30.0, assumed=True)
"""How far a socket may be from where it is taken to be; common practice, no source."""
_FROM_FINGERS: Final = 0.6
"""Share of the card's height at which the first socket is taken to be."""
_BEYOND: Final = "plug beyond the card's sockets"


class SocketLooks(Enum):
    """Over which edge of a card a socket looks."""

    FRONT = "front"  # at its far end
    PANEL = "panel"  # at its top edge


@dataclass(frozen=True, slots=True, kw_only=True)
class CardHeader:
    """Where a card's socket for a plug is: at its far end, or at its top edge."""

    kind: ConnectorKind = field.choice("what is plugged in there", among=HEADERS)
    looks: SocketLooks = field.choice(
        "front, over its far end, or panel, over its top edge", SocketLooks.FRONT
    )
    at: Figure = field.length(
        "bottom of the contact fingers to its middle; of one at the top edge: slot "
        "plane to its middle",
        least_mm=5,
        most_mm=450,
    )
    plug_shape: PlugShape = field.choice(
        "of the plug there: straight, or angled with its cable beside it",
        PlugShape.STRAIGHT,
    )
    plug_reach: Figure | None = field.length(
        "how far the plug stands beyond the edge; default: as a drive's data plug",
        None,
        least_mm=3,
        most_mm=60,
    )

    @property
    def beyond(self) -> Figure:
        """Return how far the plug stands beyond the card's edge."""
        if self.plug_reach is not None:
            return self.plug_reach
        angled = self.plug_shape is PlugShape.ANGLED
        return ANGLED_DRIVE_PLUG if angled else practice(_body_mm())


def header_plugs(
    counts: Counts,
    told: Sequence[CardHeader],
    *,
    length_mm: float,
    height_mm: float,
    links: tuple[Link, ...],
) -> tuple[Plug, ...]:
    """Return a plug for every kind of socket that a card has, or for each place told.

    Room to bend is asked of those whose place the file tells, of others where a lead
    is led to one that leaves its cable no room to turn.

    Parameters
    ----------
    told : sequence of CardHeader
        Places from the file, in place of the usual one of their kind.
    links : tuple of Link
        The figures of the card's body.

    Raises
    ------
    PartError
        If a place lies beside the card, or is one of a kind that it does not list.
    """
    size_mm = length_mm, height_mm
    own = [_told(each, dict(counts), size_mm=size_mm, links=links) for each in told]
    known = {each.kind for each in told}
    usual = [kind for kind, count in counts if count and kind not in known]
    return (*own, *_usual(usual, size_mm=size_mm, links=links))


def _usual(
    kinds: Sequence[ConnectorKind],
    *,
    size_mm: tuple[float, float],
    links: tuple[Link, ...],
) -> Iterator[Plug]:
    length_mm, height_mm = size_mm
    over_mm = _FROM_FINGERS * height_mm
    for kind in kinds:
        place = link(
            f"place of the {kind.value} sockets on the card",
            _PLACE,
            Axis.DEPTH,
            Axis.WIDTH,
            tape="slot plane and contact fingers to the card's sockets",
        )
        rests_on = (
            *(at_share(each, Axis.DEPTH, 1.0) for each in links[:1]),
            exact(_BEYOND, _body_mm(), Axis.DEPTH),
            exact("card's sockets over its fingers", over_mm, Axis.WIDTH),
            place,
        )
        at_mm = (length_mm + _body_mm(), 0.0, over_mm)
        yield _plug(kind, at_mm=at_mm, out=Direction.FRONT, links=rests_on)


def _told(
    header: CardHeader,
    counts: dict[ConnectorKind, int],
    *,
    size_mm: tuple[float, float],
    links: tuple[Link, ...],
) -> Plug:
    length_mm, height_mm = size_mm
    kind, at = header.kind, header.at
    ahead = header.looks is SocketLooks.FRONT
    most_mm, edge = (height_mm, "height") if ahead else (length_mm, "length")
    if not counts.get(kind):
        raise PartError(
            field="header places",
            found=f"a place for {kind.value}",
            right=f"a kind that 'headers' counts, as {{{kind.value}: 1}}",
        )
    if at.mm > most_mm:
        raise PartError(
            field="header places",
            found=f"{kind.value} at {at.mm:g} mm",
            right=f"no more than the card's {edge} of {most_mm:g} mm",
        )
    out, along = (
        (Direction.FRONT, Axis.WIDTH) if ahead else (Direction.PANEL, Axis.DEPTH)
    )
    card, shape = links[:1] if ahead else links[3:4], header.plug_shape
    beyond = header.beyond
    end_mm = (length_mm if ahead else height_mm) + beyond.mm
    rests_on = (
        *(at_share(each, out.axis, 1.0) for each in card),
        link(_BEYOND, beyond, out.axis, entry="header places.plug reach")
        if header.plug_reach
        else exact(_BEYOND, beyond.mm, out.axis),
        link(f"{kind.value} socket on the card", at, along, entry="header places.at"),
    )
    at_mm = (end_mm, 0.0, at.mm) if ahead else (at.mm, 0.0, end_mm)
    plug = _plug(kind, at_mm=at_mm, out=out, links=rests_on)
    return replace(plug, shape=shape, body_mm=beyond.mm, spare=False)


def _body_mm() -> float:
    height = OUTLINES["drive data plug"].height
    return height.mm if height else 0.0


def _plug(
    kind: ConnectorKind,
    *,
    at_mm: tuple[float, float, float],
    out: Direction,
    links: tuple[Link, ...],
) -> Plug:
    outline = OUTLINES["drive data plug"]
    return Plug(
        name="",
        kind=kind,
        at_mm=at_mm,
        out=out,
        along=Axis.WIDTH if out is Direction.FRONT else Axis.DEPTH,
        size_mm=(outline.length.mm, outline.width.mm),
        body_mm=_body_mm(),
        links=links,
        spare=True,
    )
