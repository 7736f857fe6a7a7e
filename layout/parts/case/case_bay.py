"""What a case leaves open for its supply: the perforated wall, and the felt."""

from __future__ import annotations

from typing import Final

from shapely.geometry import Polygon

from layout.geometry.solids.solid import rectangle
from layout.geometry.space import Axis, Box, Direction
from layout.parts.case.case_inside import Inside
from layout.parts.case.case_sheet import CaseSheet
from layout.parts.case.case_supply import bay_seat
from layout.parts.form.form import Seat
from layout.standards.supplies import FORMS

__all__ = ["bay_box", "grille_outline"]

_MARGIN_MM: Final = 1.0
_LONGEST_MM: Final = 220.0


def grille_outline(case: CaseSheet, inside: Inside) -> Polygon:
    """Return the perforated part of the wall at the supply, in depth and across it.

    It is as wide as the chamber: a supply's vent then has no rim of sheet beside it,
    wherever in its bay it stands.
    """
    depth_mm, height_mm, width_mm = inside.size_mm
    margin_mm = _MARGIN_MM
    at_mm = _bay_mm(case, inside)
    x = (at_mm, min(at_mm + _LONGEST_MM, depth_mm - margin_mm))
    level = case.supply_bay.breathes.axis is Axis.HEIGHT
    return rectangle(x, (margin_mm, (width_mm if level else height_mm) - margin_mm))


def _bay_mm(case: CaseSheet, inside: Inside) -> float:
    """Return the depth at which the supply's place begins."""
    seat = _seat(case, inside)
    x_mm = seat.at_mm[0]
    if seat.approach is Direction.FRONT:
        return max(0.0, x_mm - _LONGEST_MM)
    return min(x_mm, inside.size_mm[0] - 2 * _MARGIN_MM)


def bay_box(case: CaseSheet, inside: Inside) -> Box:
    """Return where the longest supply would stand in its bay, turned either way."""
    seat, form = _seat(case, inside), FORMS[case.supply_bay.form.value]
    across_mm = max(form.width.mm, form.height.mm)
    own = Box((0.0, 0.0, 0.0), (_LONGEST_MM, across_mm, across_mm))
    return seat.turn.box(own).moved(seat.at_mm)


def _seat(case: CaseSheet, inside: Inside) -> Seat:
    return bay_seat(
        case.supply_bay,
        inside_mm=inside.size_mm,
        tray_thickness=case.tray_thickness,
        inside_links=tuple(map(inside.link, Axis)),
    )
