"""Names that found no room beside their view: somewhere in its room all the same.

They are placed once all else is settled, so that nothing gives way to them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final, TypeAlias

import numpy as np
import shapely

from layout.drawing.lettered.cheapest import CROSSED
from layout.drawing.lettered.ground import Ground
from layout.drawing.lettered.labels import Candidate, Offer, Places, joined
from layout.drawing.lettered.names import Name
from layout.drawing.lettered.naming import block_size, lettered, lines_of, slots
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.scene import Item
from layout.drawing.paper.style import Style

__all__ = ["Keys", "led_in"]

Keys: TypeAlias = tuple[tuple[str, str], ...]
"""Numbers that stand on a drawing for a name, each with its name."""

_APART_MM: Final = 6.0
"""How far apart the columns stand in which places are looked for."""
_RIM_MM: Final = 0.8
"""How far within its part's edge a leader ends."""
_BACK_MM: Final = 2.0
"""How far a leader may come back past its elbow."""


def led_in(
    strays: Sequence[Name],
    columns: tuple[Frame, Frame],
    ground: Ground,
    *,
    style: Style,
    first: int,
) -> tuple[tuple[Item, ...], Keys]:
    """Return names in a view's room, each as a number where only that has a place.

    A number, returned with its name, is taken rather than a leader that crosses others.

    Parameters
    ----------
    columns : (Frame, Frame)
        Room on the left and on the right of the view; places between them count, too.
    first : int
        The first number.
    """
    out: list[Item] = []
    keys: list[tuple[str, str]] = []
    for name in strays:
        number = replace(name, lines=(f"P{first + len(keys)}",))
        found = _best((name, number), columns, ground, style=style)
        if found is None:
            continue
        told, place = found
        out.extend(lettered(told, place, columns=columns, style=style))
        if told is number:
            keys.append((number.lines[0], ", ".join(name.lines)))
    return tuple(out), tuple(keys)


def _best(
    names: Sequence[Name],
    columns: tuple[Frame, Frame],
    ground: Ground,
    *,
    style: Style,
) -> tuple[Name, Candidate] | None:
    """Return the first of several names that has a place, and the place."""
    offers = [_places(each, columns, style=style) for each in names]
    for most in (CROSSED, np.inf):
        for each, offer in zip(names, offers, strict=True):
            place = ground.best(offer, most=most)
            if place is not None:
                return each, place
    return None


def _places(name: Name, columns: tuple[Frame, Frame], *, style: Style) -> Offer:
    """Return places all over a view and its margins, led to all along a part's rim."""
    inner = name.shape.buffer(-_RIM_MM)
    shape = name.shape if inner.is_empty else shapely.boundary(inner)
    (start, low, _, high), (after, _, end, _) = columns
    made = []
    for left in np.arange(start, end, _APART_MM).tolist():
        size = block_size(lines_of(name, columns[left >= after], style), style)
        if left + size[0] <= end:
            column = left, low, left + size[0], high
            made.append(slots(shape, size, column, at_right=True))
            made.append(slots(shape, size, column, at_right=False))
    return Offer(_straight(joined(made)))


def _straight(places: Places) -> Places:
    """Return the places whose leaders go on the way they set out, or nearly."""
    if places.leaders is None:
        return places
    set_out, on = np.diff(places.leaders[:, :, 0], axis=1).T
    kept = np.sign(set_out) * on >= -_BACK_MM
    return Places(
        places.boxes, places.costs[kept], places.leaders[kept], places.box_of[kept]
    )
