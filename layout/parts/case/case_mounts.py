"""The fan mounts of a case: each side of each sheet is a seat."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeAlias

from layout.geometry.solids.solid import block
from layout.geometry.space import Axis, Direction, Vector
from layout.parts.case.case_fields import Face, Mount, Rows, Takes
from layout.parts.case.case_inside import Inside
from layout.parts.case.case_sheet import CaseSheet
from layout.parts.cooling.fan_screws import row_screws
from layout.parts.form.errors import PartError
from layout.parts.form.form import FanRow, Link, Piece, Role, Seat, SeatSort
from layout.parts.form.link import WALL, less, sheet_link, spanning, times
from layout.standards.figure import Figure, practice
from layout.values import dataclass

__all__ = ["covers", "face_of", "mounts", "row_notes", "row_start"]

_MIDDLE_SCATTER_MM = 10.0
_ROW_SCATTER_MM = 15.0
_REAR_FAN_FROM_TRAY_MM = 51.0
"""Rear fans stand beside the rear connectors, which end 48.6 over the tray."""
_REAR_FAN_FROM_TOP_MM = 15.0
_BEFORE_FRONT_MM = 30.0
"""An upright row beside the board stands behind the front's own fans; common
practice, no source."""

_Sheet: TypeAlias = tuple[float, tuple[Link, ...]]
"""Where a sheet inside the case lies, mm along its own axis, and the figures for it."""


def row_notes(case: CaseSheet) -> tuple[str, ...]:
    """Return which rows of fans are taken from the radiators that a mount takes."""
    return tuple(
        f"case: {name} fans in rows of {rows}, as the radiators that the mount takes"
        for name, mount in case.mounts
        if not mount.takes
        for rows in [" or ".join(f"{e.count} x {e.size}" for e in mount.fan_rows)]
    )


def covers(case: CaseSheet, inside: Inside) -> tuple[Piece, ...]:
    """Return the meshes and filters over mounts with room on their outer side."""
    wall_mm = case.wall_thickness.mm
    back_mm = -case.tray_thickness.mm - case.behind_tray.mm
    depth_mm, height_mm, width_mm = inside.size_mm
    pieces = []
    for name, mount in case.mounts:
        if mount.outside is None:
            continue
        face = face_of(name, mount)
        out = face.outwards
        first_mm = inside.size_mm[out.axis.index] if out.sign > 0 else 0.0
        near_mm = first_mm + out.sign * (wall_mm + mount.outside.mm)
        far_mm = near_mm + out.sign * wall_mm
        spans = [(0.0, depth_mm), (0.0, height_mm), (back_mm, width_mm)]
        spans[out.axis.index] = (min(near_mm, far_mm), max(near_mm, far_mm))
        x, y, z = spans
        room = sheet_link(f"room outside the {name} mount", mount.outside, out.axis)
        wall = sheet_link(WALL, case.wall_thickness, out.axis)
        beyond = (spanning(wall, 1.0, 2.0), room)
        if out.sign < 0:
            beyond = (spanning(wall, -2.0, -1.0), less(room))
        links = (*((inside.link(out.axis),) if out.sign > 0 else ()), *beyond)
        pieces.append(
            Piece(
                name=f"{name} cover",
                role=Role.GRILLE,
                solids=(block(x, y, z),),
                links=links,
            )
        )
    return tuple(pieces)


def mounts(case: CaseSheet, inside: Inside) -> tuple[Seat, ...]:
    """Return every mount's inner side, and the outer one where there is room."""
    return tuple(
        seat
        for name, mount in case.mounts
        for seat in _Placed(
            name=name,
            mount=mount,
            face=face_of(name, mount),
            inside=inside,
            inner=_sheet(case, name, mount),
        ).seats(case.wall_thickness)
    )


def _sheet(case: CaseSheet, name: str, mount: Mount) -> _Sheet | None:
    """Return a mount's sheet that is no outer wall: the shroud, the back panel.

    Raises
    ------
    PartError
        If there is no shroud, or its mount is said to have an outer side.
    """
    face = face_of(name, mount)
    if face is Face.BACK_PANEL:
        behind = less(sheet_link("room behind the tray", case.behind_tray, Axis.WIDTH))
        tray = less(sheet_link("tray thickness", case.tray_thickness, Axis.WIDTH))
        return -case.tray_thickness.mm - case.behind_tray.mm, (tray, behind)
    if face is not Face.SHROUD:
        return None
    if case.shroud is None or mount.outside is not None:
        found = "a room outside it" if case.shroud else "a mount on no shroud"
        right = "none: the supply is under it" if case.shroud else "'shroud' beside it"
        raise PartError(field=f"mounts.{name}", found=found, right=right)
    high = sheet_link("shroud height", case.shroud.height, Axis.HEIGHT)
    thick = sheet_link("shroud's sheet", case.shroud.thickness, Axis.HEIGHT)
    return case.shroud.height.mm + case.shroud.thickness.mm, (high, thick)


def face_of(name: str, mount: Mount) -> Face:
    """Return the face that a mount says it is on, or is named for."""
    faces = {each.value: each for each in Face}
    face = mount.face or faces.get(name)
    if face is None:
        raise PartError(
            field=f"mounts.{name}",
            found="a mount without its face",
            right=f"'face' with one of {', '.join(faces)}",
        )
    if mount.rows is Rows.UPRIGHT and face.outwards.axis is not Axis.WIDTH:
        raise PartError(
            field=f"mounts.{name}.rows",
            found=f"an upright row on the {face.value}",
            right="one on the tray side, the panel side or the back panel",
        )
    return face


def row_start(takes: Takes, face: Face, face_mm: float) -> Figure:
    """Return where a row begins along a face so long, by default the usual place."""
    free_mm = max(0.0, face_mm - takes.size * takes.count)
    usual_mm = free_mm / 2
    if face is Face.REAR:
        usual_mm = max(0.0, free_mm - _REAR_FAN_FROM_TOP_MM)
    return takes.start or practice(usual_mm, _ROW_SCATTER_MM, assumed=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Placed:
    """A mount on its face of a case whose inside is settled."""

    name: str
    mount: Mount
    face: Face
    inside: Inside
    inner: _Sheet | None

    def seats(self, wall: Figure) -> tuple[Seat, ...]:
        """Return the inner side, and the outer one across the sheet."""
        out = self.face.outwards
        inner = self._seat(self.name, self._origin(0.0), out)
        if self.mount.outside is None:
            return (inner,)
        beyond = self._origin(wall.mm)
        sheet = times(sheet_link(WALL, wall, out.axis), float(out.sign))
        outer = self._seat(f"{self.name} outer", beyond, out.opposite)
        return (inner, replace(outer, links=(*outer.links, sheet)))

    def _seat(self, name: str, at_mm: Vector, approach: Direction) -> Seat:
        links = [
            sheet_link(
                f"{self.name} fans' middle",
                self._middle,
                self.across,
                tape=f"{self._across_from} to the middle of the {self.name} fans",
                entry=f"mounts.{self.name}.from tray",
            )
        ]
        if self.inner is not None:
            links += self.inner[1]
        elif self._at_far_end:
            links.append(self.inside.link(self.face.outwards.axis))
        return Seat(
            name=name,
            sort=SeatSort.FANS,
            at_mm=at_mm,
            approach=approach,
            links=tuple(links),
            rows=tuple(map(self._row, self.mount.fan_rows)),
            face=self.face.value,
        )

    @property
    def _across_from(self) -> str:
        """Return what the fans' middle is measured from."""
        if self.across is Axis.WIDTH:
            return "tray"
        return "floor" if self.across is Axis.HEIGHT else "rear panel"

    @property
    def along(self) -> Axis:
        """Return the axis along which the fans stand in a row."""
        upright = self.mount.rows is Rows.UPRIGHT
        return self.face.across if upright else self.face.along

    @property
    def across(self) -> Axis:
        """Return the face's other axis."""
        return self.face.along if self.along is self.face.across else self.face.across

    @property
    def _at_far_end(self) -> bool:
        return self.face.outwards.sign > 0

    def _origin(self, wall_mm: float) -> Vector:
        """Return the start of the rows on the sheet, or beyond its thickness."""
        out = self.face.outwards
        sheet_mm = self.inside.size_mm[out.axis.index] if self._at_far_end else 0.0
        if self.inner is not None:
            sheet_mm, _ = self.inner
        at = {
            self.along: 0.0,
            self.across: self._middle.mm,
            out.axis: sheet_mm + out.sign * wall_mm,
        }
        x, y, z = (at[axis] for axis in Axis)
        return (x, y, z)

    @property
    def _middle(self) -> Figure:
        """Return the row's middle across the face, by default the usual one."""
        if self.mount.from_tray is not None:
            return self.mount.from_tray
        face_mm = self.inside.size_mm[self.across.index]
        widest_mm = max(takes.size for takes in self.mount.fan_rows)
        mm = face_mm / 2
        if self.mount.rows is Rows.UPRIGHT:
            mm = max(widest_mm / 2, face_mm - _BEFORE_FRONT_MM - widest_mm / 2)
        if self.face is Face.REAR:
            mm = max(mm, _REAR_FAN_FROM_TRAY_MM + widest_mm / 2)
        return practice(mm, _MIDDLE_SCATTER_MM, assumed=True)

    def _row(self, takes: Takes) -> FanRow:
        """Return a row with the figure that places it along its face."""
        along = self.along
        face_mm = self.inside.size_mm[along.index]
        start = row_start(takes, self.face, face_mm)
        end_mm = start.mm + takes.size * takes.count
        if end_mm > face_mm:
            raise PartError(
                field=f"mounts.{self.name}.takes",
                found=f"{takes.count} fans of {takes.size} up to {end_mm:g} mm",
                right=f"a row that ends on the face, at {face_mm:g} mm or before",
            )
        begins = "floor" if along is Axis.HEIGHT else "rear panel"
        label = f"{self.name} fans' row of {takes.size}"
        return FanRow(
            size_mm=takes.size,
            count=takes.count,
            along=along,
            start_mm=start.mm,
            travel_mm=takes.slots.mm if takes.slots else 0.0,
            screws=row_screws(
                (takes.size, takes.count, start.mm),
                (along, self.across),
                spacing=takes.hole_spacing,
                slots=takes.slots,
            ),
            links=(
                sheet_link(
                    label,
                    start,
                    along,
                    tape=f"{begins} to the first {self.name} fan's edge",
                    entry=f"mounts.{self.name}.takes.start",
                ),
            ),
        )
