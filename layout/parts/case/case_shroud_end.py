"""Where a shroud ends: before the front's fans, where no file tells it."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from layout.geometry.space import Axis
from layout.parts.case.case_fields import Face
from layout.parts.case.case_inside import Inside
from layout.parts.case.case_mounts import face_of, row_start
from layout.parts.case.case_sheet import CaseSheet
from layout.parts.case.case_shroud import Shroud, shroud_piece
from layout.parts.form.form import Piece
from layout.standards.figure import practice

__all__ = ["standing_shroud"]

_BEFORE_FRONT_MM: Final = 60.0
"""A shroud leaves room for fans with a usual radiator; common practice, no source."""
_SCATTER_MM: Final = 15.0


def standing_shroud(case: CaseSheet, inside: Inside) -> Piece | None:
    """Return the sheet over the supply, None where there is none.

    Without a told end it runs to the front, or, where the front's fans reach below it
    and no opening is told, to the room that they want.
    """
    shroud = case.shroud
    if shroud is None:
        return None
    if shroud.to_depth is None and shroud.cut_out is None:
        end_mm = inside.size_mm[0] - _BEFORE_FRONT_MM
        if end_mm > shroud.from_depth.mm and _fans_reach_below(case, shroud, inside):
            end = practice(end_mm, _SCATTER_MM, assumed=True)
            shroud = replace(shroud, to_depth=end)
    return shroud_piece(shroud, inside.size_mm, inside.level_links)


def _fans_reach_below(case: CaseSheet, shroud: Shroud, inside: Inside) -> bool:
    top_mm = shroud.height.mm + shroud.thickness.mm
    high_mm = inside.size_mm[Axis.HEIGHT.index]
    return any(
        row_start(row, Face.FRONT, high_mm).mm < top_mm
        for name, mount in case.mounts
        if face_of(name, mount) is Face.FRONT
        for row in mount.fan_rows
    )
