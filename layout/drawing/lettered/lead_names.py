"""The name of each lead, once, beside its way on paper."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, TypeAlias

import numpy as np
import shapely

from layout.build.placed import Build
from layout.drawing.lettered.ground import Ground
from layout.drawing.lettered.labels import Places, frames
from layout.drawing.paper.lettering import plain, width_mm
from layout.drawing.paper.scene import Align, Leader, Point, Text
from layout.drawing.paper.style import Style
from layout.drawing.views.views import View
from layout.questions.reach.reach import routes

__all__ = ["lead_names"]

_PARTS: Final = np.linspace(0.1, 0.9, 17)
"""Where along a lead the leader of its name may end."""
_RAYS: Final = np.array(
    [
        (np.cos(angle), np.sin(angle), reach)
        for reach in (4.0, 7.0, 11.0, 16.0, 22.0, 30.0, 40.0)
        for angle in np.radians(np.arange(0, 360, 30))
    ]
)
"""Where its name may stand from there: cosine, sine, mm off."""
_HIGH: Final = 0.85
"""Half of the room that a name takes across its line, per height of a capital."""
_OFF_MM: Final = 0.5
"""Between a name and its leader."""

_Named: TypeAlias = tuple[Text, Leader]


def lead_names(
    build: Build, views: Sequence[View], ground: Ground, *, style: Style
) -> Iterator[Text | Leader]:
    """Yield each lead's name with its leader, where there is a place for it."""
    named: set[str] = set()
    for route in routes(build):
        if route.name in named:
            continue
        called = plain(route.name)
        for view in views:
            way = [view.point(each) for each in route.points]
            found = _beside(called, way, ground, style=style)
            if found is not None:
                named.add(route.name)
                yield from found
                break


def _beside(
    called: str, way: Sequence[Point], ground: Ground, *, style: Style
) -> _Named | None:
    """Return a name at the cheapest place beside a way."""
    line = shapely.LineString(way)
    if not line.length:
        return None
    height = style.small_mm
    half = (width_mm(called, height) / 2, _HIGH * height)
    at = shapely.get_coordinates(line.interpolate(_PARTS, normalized=True))
    on = np.repeat(at, len(_RAYS), axis=0)
    ray = np.tile(_RAYS, (len(at), 1))
    boxes = frames(on + ray[:, :2] * (ray[:, 2:] + half), half)
    edge = np.clip(on, boxes[:, :2] - _OFF_MM, boxes[:, 2:] + _OFF_MM)
    place = ground.best(Places(boxes, ray[:, 2], np.stack([edge, on], axis=1)))
    if place is None:
        return None
    left, bottom, right, top = place.box
    text = Text(
        at=((left + right) / 2, (bottom + top) / 2 - height / 2),
        text=called,
        height_mm=height,
        align=Align.CENTRE,
    )
    return text, Leader(points=place.leader)
