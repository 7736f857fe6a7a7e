"""What of each body is seen in a view, decided by geometry.

Case panels, shroud and cage are cut away: they are outlines that hide nothing, so
the very parts asked about are seen.  What is fixed to the top is an outline in the
top view, for the same reason.  The tray hides what lies behind it.
"""

from __future__ import annotations

import numpy as np
import shapely
from shapely.geometry import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from layout.build.placed import PlacedBody
from layout.drawing.views.kinds import FILLS
from layout.drawing.views.views import Facing, View
from layout.geometry.solids.solid import Solid
from layout.parts.form.form import Role
from layout.values import dataclass

__all__ = ["DETAILS", "Seen", "is_sheet", "polygons", "seen"]

DETAILS = frozenset(
    {
        Role.STANDOFF,
        Role.REAR_CONNECTORS,
        Role.REGULATOR_HEATSINK,
        Role.CHIPSET_HEATSINK,
        Role.BOARD_CONNECTOR,
        Role.MEMORY_SLOT,
        Role.CARD_SLOT,
        Role.PROCESSOR,
        Role.CARD_BRACKET,
    }
)
"""Small bodies that are left out where they are hidden."""

_LEVEL_MM = 1e-6
"""By how much one face must lie nearer than another to hide it."""

_MOUNTS = {Facing.TOP: "top", Facing.SIDE: "panel side"}
"""The fan mounts that lie between the eye and everything else."""


@dataclass(frozen=True, slots=True)
class Seen:
    """A body in a view: its outline on paper, and the part of it that is seen.

    A body that is ``see_through`` is drawn as an outline and hides nothing.
    """

    body: PlacedBody
    outline: BaseGeometry
    visible: BaseGeometry
    see_through: bool

    @property
    def hidden(self) -> bool:
        """Tell whether nothing of the body is seen."""
        return self.visible.area < 1e-3 * self.outline.area


@dataclass(frozen=True, slots=True)
class _Face:
    """A solid's outline on paper and how near to the eye it comes."""

    owner: int
    outline: BaseGeometry
    near_mm: float


def seen(bodies: tuple[PlacedBody, ...], view: View) -> tuple[Seen, ...]:
    """Return every body with the part of it that is seen, in the bodies' order."""
    faces = [_faces(index, each, view) for index, each in enumerate(bodies)]
    covers = [
        face
        for body, own in zip(bodies, faces, strict=True)
        if _hides(body, view)
        for face in own
    ]
    outlines = np.array([each.outline for each in covers], dtype=object)
    near = np.array([each.near_mm for each in covers])
    owner = np.array([each.owner for each in covers], dtype=np.intp)
    tree = shapely.STRtree(outlines)
    out = []
    for index, body in enumerate(bodies):
        left = []
        for face in faces[index]:
            hit = tree.query(face.outline, predicate="intersects")
            hit = hit[(near[hit] > face.near_mm + _LEVEL_MM) & (owner[hit] != index)]
            left.append(face.outline.difference(shapely.union_all(outlines[hit])))
        whole = shapely.union_all([each.outline for each in faces[index]])
        through = _see_through(body, view)
        shown = whole if through else polygons(shapely.union_all(left))
        out.append(Seen(body, whole, shown, through))
    return tuple(out)


def is_sheet(placed: PlacedBody) -> bool:
    """Tell whether a body is one of the case's own sheets."""
    role = placed.role
    return role.is_matter and role not in FILLS and role is not Role.CAGE


def polygons(shape: BaseGeometry) -> BaseGeometry:
    """Return a shape without the lines and points that cutting leaves behind."""
    kept = [each for each in shapely.get_parts(shape) if isinstance(each, Polygon)]
    return MultiPolygon(kept)


def _faces(index: int, placed: PlacedBody, view: View) -> list[_Face]:
    body = placed.body
    return [
        _Face(
            index,
            view.paper(view.facing.outline(solid), body.at_mm),
            _near(solid, view) + body.at_mm[view.facing.depth_order.index],
        )
        for solid in body.shape.solids
    ]


def _near(solid: Solid, view: View) -> float:
    return solid.bounds.high[view.facing.depth_order.index]


def _hides(placed: PlacedBody, view: View) -> bool:
    """Tell whether a body hides what lies behind it in this view."""
    if placed.role is Role.TRAY:
        return view.facing is Facing.SIDE
    return placed.role.is_matter and not _see_through(placed, view)


def _see_through(placed: PlacedBody, view: View) -> bool:
    """Tell whether a body is cut away in this view: sheets, cage, what is in front."""
    return placed.role.is_matter and (
        placed.role not in FILLS or placed.where == _MOUNTS[view.facing]
    )
