"""The seats a case offers, and the openings in its rear panel."""

from __future__ import annotations

from layout.geometry.space import Axis, Box, Direction
from layout.parts.case_fields import BayPlace, DrivePlace
from layout.parts.case_inside import Inside
from layout.parts.case_mounts import mounts
from layout.parts.case_sheet import CaseSheet
from layout.parts.form import BEHIND_TRAY, Allowance, Role, Seat, SeatSort
from layout.parts.link import link, sheet_link
from layout.standards import boards, cards
from layout.standards.supplies import FORMS

__all__ = ["openings", "seats"]

_BRACKET_FOOT_MM = 6.0
_BRACKET_TOP_MM = 125.0


def seats(case: CaseSheet, inside: Inside) -> tuple[Seat, ...]:
    """Return every seat of the case."""
    return (
        _board(case, inside),
        _bay(case, inside),
        *mounts(case, inside),
        *_positions(case),
        *(_behind(case, name, place) for name, place in case.drive_places),
    )


def openings(case: CaseSheet, inside: Inside) -> tuple[Allowance, ...]:
    """Return the holes of the rear panel: for connectors, and for card brackets."""
    x = (-case.wall_thickness.mm, 0.0)
    low_mm = inside.frame_mm + boards.HOLES["A"].x.mm + boards.APERTURE_TO_HOLE_A.mm
    bottom_mm = (
        case.standoff.mm + boards.THICKNESS.mm - boards.APERTURE_BELOW_BOARD_TOP.mm
    )
    aperture = Box(
        (x[0], low_mm, bottom_mm),
        (
            x[1],
            low_mm + boards.APERTURE_WIDTH.mm,
            bottom_mm + boards.APERTURE_HEIGHT.mm,
        ),
    )
    holes = [aperture]
    if case.slots:
        back_mm = cards.THICKNESS.mm / 2 + cards.SOLDER_SIDE.mm
        top_mm = inside.frame_mm + cards.FIRST_SLOT.mm + back_mm
        # The webs between openings are left out: brackets fit between them.
        high_mm = cards.SLOT_PITCH.mm * (case.slots - 1) + cards.BRACKET_WIDTH.mm
        holes.append(
            Box(
                (x[0], top_mm - high_mm, -_BRACKET_FOOT_MM),
                (x[1], top_mm, _BRACKET_TOP_MM),
            )
        )
    return tuple(Allowance(role=Role.REAR, box=box) for box in holes)


def _board(case: CaseSheet, inside: Inside) -> Seat:
    rear_mm = boards.DATUM_ROW_TO_REAR.mm - boards.REAR_EDGE_TO_DATUM_ROW.mm
    return Seat(
        name="board",
        sort=SeatSort.BOARD,
        at_mm=(rear_mm, inside.frame_mm, case.standoff.mm),
        approach=Direction.TRAY,
        links=(
            *inside.frame_links,
            sheet_link(
                "board's first holes from the rear panel",
                boards.DATUM_ROW_TO_REAR,
                Axis.DEPTH,
            ),
            link("standoff height", case.standoff, Axis.WIDTH),
        ),
    )


def _bay(case: CaseSheet, inside: Inside) -> Seat:
    bay = case.supply_bay
    form = FORMS[bay.form.value]
    at_top = bay.place is BayPlace.TOP_REAR
    low_mm = inside.height.mm - form.height.mm if at_top else 0.0
    level = (inside.link(Axis.HEIGHT),) if at_top else ()
    return Seat(
        name="supply bay",
        sort=SeatSort.SUPPLY,
        at_mm=(0.0, low_mm, bay.from_tray.mm),
        approach=Direction.REAR,
        room_mm=(form.height.mm, form.width.mm),
        links=(*level, sheet_link("supply from the tray", bay.from_tray, Axis.WIDTH)),
    )


def _positions(case: CaseSheet) -> tuple[Seat, ...]:
    rail = case.cage_rail
    if rail is None:
        return ()
    return tuple(
        Seat(
            name=name,
            sort=SeatSort.CAGE,
            at_mm=(position.from_rear.mm, rail.base.mm, rail.from_tray.mm),
            approach=Direction.TRAY,
            links=(
                sheet_link(
                    f"cage position {name} from the rear",
                    position.from_rear,
                    Axis.DEPTH,
                ),
                sheet_link("cage over the floor", rail.base, Axis.HEIGHT),
                sheet_link("cage from the tray", rail.from_tray, Axis.WIDTH),
            ),
        )
        for name, position in rail.positions
    )


def _behind(case: CaseSheet, name: str, place: DrivePlace) -> Seat:
    return Seat(
        name=name,
        sort=SeatSort.DRIVE,
        at_mm=(place.from_rear.mm, place.from_floor.mm, -case.tray_thickness.mm),
        approach=Direction.PANEL,
        face=BEHIND_TRAY,
        links=(
            sheet_link(f"{name} from the rear", place.from_rear, Axis.DEPTH),
            sheet_link(f"{name} from the floor", place.from_floor, Axis.HEIGHT),
            sheet_link("tray thickness", case.tray_thickness, Axis.WIDTH),
        ),
    )
