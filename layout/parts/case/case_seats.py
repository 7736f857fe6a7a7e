"""The seats a case offers, and the openings in its rear panel."""

from __future__ import annotations

from layout.geometry.bodies.turn import UPRIGHT
from layout.geometry.space import ORIGIN, Axis, Box, Direction
from layout.parts.case.case_bays import bay_seats
from layout.parts.case.case_fields import DrivePlace
from layout.parts.case.case_inside import Inside
from layout.parts.case.case_mounts import mounts
from layout.parts.case.case_riser import Riser, riser_seat
from layout.parts.case.case_sheet import CaseSheet
from layout.parts.case.case_supply import bay_seat
from layout.parts.form.form import BEHIND_TRAY, Allowance, Seat, SeatSort
from layout.parts.form.link import board_edge, less, link, sheet_link
from layout.parts.form.turned import turned_links
from layout.standards import boards, cards

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
        *_bays(case, inside),
        *(_riser(case, inside, riser=each) for each in case.risers),
    )


def openings(case: CaseSheet, inside: Inside) -> tuple[Allowance, ...]:
    """Return the holes of the connectors' wall: for them, and for card brackets."""
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
    turn, corner = case.connectors.turn, case.connectors.place(ORIGIN, inside.size_mm)
    return tuple(
        Allowance(role=case.connectors.wall, box=turn.box(box).moved(corner))
        for box in holes
    )


def _board(case: CaseSheet, inside: Inside) -> Seat:
    rear_mm = boards.DATUM_ROW_TO_REAR.mm - boards.REAR_EDGE_TO_DATUM_ROW.mm
    own = (rear_mm, inside.frame_mm, case.standoff.mm)
    turn = case.connectors.turn
    level = (inside.link(Axis.HEIGHT),) if turn != UPRIGHT else ()
    return Seat(
        name="board",
        sort=SeatSort.BOARD,
        at_mm=case.connectors.place(own, inside.size_mm),
        approach=Direction.TRAY,
        turn=turn,
        links=(
            *inside.frame_links,
            *level,
            *turned_links(board_edge(), turn),
            link("standoff height", case.standoff, Axis.WIDTH),
        ),
        screws=case.standoffs.screws((turn.axis(Axis.DEPTH), turn.axis(Axis.HEIGHT)))
        if case.standoffs
        else None,
    )


def _bay(case: CaseSheet, inside: Inside) -> Seat:
    return bay_seat(
        case.supply_bay,
        inside_mm=inside.size_mm,
        tray_thickness=case.tray_thickness,
        inside_links=tuple(map(inside.link, Axis)),
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
                sheet_link(
                    "cage from the tray",
                    rail.from_tray,
                    Axis.WIDTH,
                    tape="tray to the cage's side",
                    entry="cage rail.from tray",
                ),
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
            less(sheet_link("tray thickness", case.tray_thickness, Axis.WIDTH)),
        ),
    )


def _bays(case: CaseSheet, inside: Inside) -> tuple[Seat, ...]:
    if case.bays is None:
        return ()
    depth_mm, _, _ = inside.size_mm
    return bay_seats(case.bays, depth_mm=depth_mm, depth=inside.link(Axis.DEPTH))


def _riser(case: CaseSheet, inside: Inside, *, riser: tuple[str, Riser]) -> Seat:
    name, bracket = riser
    back_mm = -case.tray_thickness.mm - case.behind_tray.mm
    sheet = less(sheet_link("tray thickness", case.tray_thickness, Axis.WIDTH))
    behind = less(sheet_link("room behind the tray", case.behind_tray, Axis.WIDTH))
    return riser_seat(
        name,
        bracket,
        walls_mm=(inside.size_mm[2], back_mm, case.wall_thickness.mm),
        links=((inside.link(Axis.WIDTH),), (sheet, behind)),
    )
