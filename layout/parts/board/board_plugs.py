"""The plugs on a board whose cables need room, at the places boards usually have."""

from __future__ import annotations

from layout.geometry.space import Axis, Direction
from layout.parts.board.board_angles import height_of
from layout.parts.board.board_connectors import PINS_HEIGHT
from layout.parts.board.board_plan import BoardPlan
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import Piece, Plug
from layout.parts.form.link import link
from layout.parts.form.mounted import Span
from layout.standards.connectors import OUTLINES

__all__ = ["plugs"]

_ALONG_LOWER_EDGE = (
    (ConnectorKind.AUDIO, "audio", 0.08),
    (ConnectorKind.FAN_4, "4-pin fan", 0.45),
    (ConnectorKind.USB_9, "9-pin internal USB", 0.7),
    (ConnectorKind.FRONT_PANEL, "front panel", 0.93),
)
"""Kind, outline, and where along the row from its rear end; common practice."""


def plugs(plan: BoardPlan, pieces: tuple[Piece, ...]) -> tuple[Plug, ...]:
    """Return the plug of each connector among a board's pieces."""
    by_name = {piece.name: piece for piece in pieces}
    out: list[Plug] = []
    if main := by_name.get("main power"):
        out.append(_upright(main, ConnectorKind.MAIN, Axis.HEIGHT))
    if usb := by_name.get("internal usb"):
        out.append(_upright(usb, ConnectorKind.USB_19, Axis.HEIGHT))
    if power := by_name.get("processor power"):
        sockets = plan.power_plugs
        out.append(
            _upright(power, ConnectorKind.PROCESSOR, Axis.DEPTH, sockets=sockets)
        )
    if drives := by_name.get("drive data"):
        out.append(_lying(drives))
    if pins := by_name.get("front panel pins"):
        out += _row(plan, pins)
    return tuple(out)


def _spans(piece: Piece) -> tuple[Span, Span, Span]:
    bounds = piece.solids[0].bounds
    x, y, z = zip(bounds.low, bounds.high, strict=True)
    return x, y, z


def _upright(
    piece: Piece, kind: ConnectorKind, along: Axis, *, sockets: int = 1
) -> Plug:
    """Return the plug whose top is that of its piece."""
    x, y, z = _spans(piece)
    sizes = {Axis.DEPTH: x[1] - x[0], Axis.HEIGHT: y[1] - y[0]}
    across = Axis.DEPTH if along is Axis.HEIGHT else Axis.HEIGHT
    return Plug(
        name=piece.name,
        kind=kind,
        at_mm=(sum(x) / 2, sum(y) / 2, z[1]),
        out=Direction.PANEL,
        along=along,
        size_mm=(sizes[along], sizes[across]),
        links=piece.links,
        sockets=sockets,
    )


def _lying(piece: Piece) -> Plug:
    """Return a data plug in the middle of the lying connectors at the front edge."""
    x, y, z = _spans(piece)
    outline = OUTLINES["drive data plug"]
    body_mm = outline.height.mm if outline.height else 0.0
    return Plug(
        name=piece.name,
        kind=ConnectorKind.DRIVE_DATA,
        at_mm=(x[1] + body_mm, sum(y) / 2, sum(z) / 2),
        out=Direction.FRONT,
        along=Axis.HEIGHT,
        size_mm=(outline.length.mm, outline.width.mm),
        body_mm=body_mm,
        links=piece.links,
    )


def _row(plan: BoardPlan, piece: Piece) -> list[Plug]:
    """Return the plugs of the pins at the lower edge; angled ones stand lower."""
    x, y, z = _spans(piece)
    out = []
    for kind, name, part in _ALONG_LOWER_EDGE:
        top_mm, links = z[1], piece.links
        if kind in plan.angled:
            height = height_of(plan, kind, PINS_HEIGHT)
            top_mm = plan.thickness.mm + height.mm
            own = link(f"height of the angled {kind.value} plug", height, Axis.WIDTH)
            links = (own, *(each for each in links if each.figure is not PINS_HEIGHT))
        out.append(
            Plug(
                name=piece.name,
                kind=kind,
                at_mm=(x[0] + part * (x[1] - x[0]), sum(y) / 2, top_mm),
                out=Direction.PANEL,
                along=Axis.DEPTH,
                size_mm=(OUTLINES[name].length.mm, OUTLINES[name].width.mm),
                links=links,
            )
        )
    return out
