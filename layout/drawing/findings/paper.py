"""What findings are drawn on."""

from __future__ import annotations

from shapely.geometry.base import BaseGeometry

from layout.drawing.paper.style import Style
from layout.drawing.views.seen import Seen
from layout.drawing.views.views import View
from layout.values import dataclass

__all__ = ["Paper"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """What findings are drawn on: the views, their edges, lettering that is there."""

    views: tuple[tuple[View, tuple[Seen, ...]], ...]
    edges: tuple[BaseGeometry, ...]
    lettered: BaseGeometry
    style: Style
