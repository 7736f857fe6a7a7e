"""The plugs of a splitter that the supply feeds, where a file gives its place."""

from __future__ import annotations

from typing import Final

from layout.build.placed import PlacedPlug
from layout.geometry.space import Axis, Direction
from layout.parts.form.form import Plug
from layout.parts.kinds.hookups import hookup_of
from layout.parts.wiring.hookup import POWER
from layout.parts.wiring.splitter import Splitter

__all__ = ["fed"]

_SIZE_MM: Final = (25.0, 6.0)
"""Section of a drive power plug, about, from memory."""


def fed(key: str, splitter: Splitter) -> list[PlacedPlug]:
    """Return its power plugs at its place; none where the file gives no place."""
    at_mm = splitter.at_mm
    if at_mm is None:
        return []
    out = Direction.PANEL if at_mm[2] >= 0.0 else Direction.TRAY
    return [
        PlacedPlug(
            part=key,
            plug=Plug(
                name="",
                kind=kind,
                at_mm=at_mm,
                out=out,
                along=Axis.DEPTH,
                size_mm=_SIZE_MM,
            ),
            chain=(),
        )
        for kind, _ in hookup_of(splitter).demands
        if kind in POWER
    ]
