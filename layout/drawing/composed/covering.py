"""What lies before the two faces that a detail is to show: it is taken out there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import shapely
from shapely.geometry.base import BaseGeometry

from layout.build.placed import PlacedBody
from layout.drawing.composed.details import Detail
from layout.drawing.views.kinds import FILLS
from layout.drawing.views.views import View
from layout.geometry.space import Vector
from layout.parts.form.form import Role
from layout.questions.findings.finding import Finding

__all__ = ["covering"]

_AROUND_MM = 1.0
"""Paper around a gap within which its faces must be seen."""

_LEVEL_MM = 1e-6


def covering(
    bodies: Sequence[PlacedBody], findings: Sequence[Finding], detail: Detail
) -> tuple[PlacedBody, ...]:
    """Return the bodies that hide a gap of a detail, none that a gap is about.

    Parameters
    ----------
    bodies : sequence of PlacedBody
        What comes into the detail.
    findings : sequence of Finding
        What the detail shows.
    """
    about = {name for each in findings for name in (each.a, each.b) if name}
    others = [
        each
        for each in bodies
        if not {each.name, each.part} & about
        and (each.role in FILLS or each.role is Role.TRAY)
    ]
    hiding: list[PlacedBody] = []
    for finding in findings:
        zone = _zone(finding, detail)
        own = {finding.a, finding.b}
        faces = [
            max(nears)
            for each in bodies
            if {each.name, each.part} & own
            and (nears := [*_nears(each, detail.view, zone)])
        ]
        least = min(faces, default=float("inf"))
        hiding += [
            each
            for each in others
            if any(n > least + _LEVEL_MM for n in _nears(each, detail.view, zone))
        ]
    return tuple(dict.fromkeys(hiding))


def _zone(finding: Finding, detail: Detail) -> BaseGeometry:
    """Return the paper on which a gap's faces are to be seen."""
    ends: list[Vector] = [each for each in (finding.from_mm, finding.to_mm) if each]
    points = [detail.view.point(each) for each in ends] or [detail.middle]
    middle = shapely.MultiPoint(points).envelope
    return detail.view.shown(middle.buffer(_AROUND_MM))


def _nears(placed: PlacedBody, view: View, zone: BaseGeometry) -> Iterator[float]:
    """Yield how near to the eye a body's solids come where they meet a place."""
    axis = view.facing.depth_order.index
    for solid in placed.body.shape.solids:
        outline = view.paper(view.facing.outline(solid), placed.body.at_mm)
        if outline.intersects(zone):
            yield solid.bounds.high[axis] + placed.body.at_mm[axis]
