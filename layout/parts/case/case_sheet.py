"""What a case's data sheet says, and what a tape finds."""

from __future__ import annotations

from layout.parts.board.standoffs import Standoffs
from layout.parts.case import case_readings
from layout.parts.case.case_bays import Bays
from layout.parts.case.case_fields import (
    CageRail,
    CutOut,
    DrivePlace,
    LimitWith,
    Linings,
    Mount,
    Shroud,
    SidePanel,
    SupplyBay,
)
from layout.parts.case.case_riser import Riser
from layout.parts.case.case_stands import ConnectorsAt, Stands
from layout.parts.form import field
from layout.parts.form.reading import Told
from layout.parts.wiring.front_leads import FrontLeads
from layout.parts.wiring.hookup import Listed
from layout.standards import boards
from layout.standards.figure import Figure, practice
from layout.values import dataclass

__all__ = ["CaseSheet"]


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseSheet:
    """The figures of a case; what may be left out is derived or usual.

    Depth runs from the rear panel's inside to the front mounting sheet, height from
    the floor's inside to the top's, width from the tray's surface to the side panel's
    inside.
    """

    name: str | None = field.word("what the case is called", None)
    stands: Stands = field.choice(
        "how it stands on the desk; all else is told with the board upright",
        Stands.UPRIGHT,
    )
    connectors: ConnectorsAt = field.choice(
        "wall that the rear connectors reach through; top: the board is turned a "
        "quarter",
        ConnectorsAt.REAR,
    )
    depth: Figure | None = field.length(
        "rear panel's inside to the front mounting sheet; default: from the longest "
        "card where cards lie along depth",
        None,
        least_mm=100,
        most_mm=1000,
    )
    height: Figure | None = field.length(
        "floor's inside to the top's inside; default, with connectors at the top: from "
        "the longest card",
        None,
        least_mm=100,
        most_mm=1000,
    )
    width: Figure | None = field.length(
        "tray's surface to the side panel's inside; default: from the tallest cooler",
        None,
        least_mm=40,
        most_mm=600,
    )
    behind_tray: Figure = field.length(
        "tray's back to the back panel's inside, at the flat",
        practice(20.0, 5.0, assumed=True),
        least_mm=2,
        most_mm=200,
        readings=case_readings.BEHIND_TRAY,
    )
    tray_thickness: Figure = field.length(
        "sheet", practice(1.0), least_mm=0.4, most_mm=5
    )
    tray_to_depth: Figure | None = field.length(
        "rear panel to the tray's front edge; default: the whole depth",
        None,
        least_mm=50,
        most_mm=1000,
    )
    wall_thickness: Figure = field.length(
        "floor, top, front, rear and back panel", practice(1.0), least_mm=0.4, most_mm=8
    )
    side_panel: SidePanel = field.nested("the panel over the board", SidePanel())
    lining: Linings = field.nested("felt or foam on other walls", Linings())
    standoff: Figure = field.length(
        "tray's surface to the board's underside",
        boards.STANDOFF,
        least_mm=3,
        most_mm=15,
    )
    room_over_board: Figure | None = field.length(
        "top edge of an ATX board to the top's inside (turned a quarter: to the "
        "front); default: usual, a supply on top counted in, assumed",
        None,
        least_mm=0,
        most_mm=300,
    )
    slots: int = field.count("card openings", 7, least=0, most=10)
    first_slot: Figure | None = field.length(
        "floor (turned a quarter: rear panel) to the line of slot 1: the middle of its "
        "card's circuit board",
        None,
        least_mm=20,
        most_mm=900,
    )
    shroud: Shroud | None = field.nested("the sheet over the supply", None)
    mounts: tuple[tuple[str, Mount], ...] = field.nested("fan mounts by name", ())
    supply_bay: SupplyBay = field.nested("where the supply goes", SupplyBay())
    cage_rail: CageRail | None = field.nested("where a drive cage goes", None)
    cut_outs: tuple[tuple[str, CutOut], ...] = field.nested("holes in the tray", ())
    bays: Bays | None = field.nested("bays for drives of 5.25 in at the front", None)
    drive_places: tuple[tuple[str, DrivePlace], ...] = field.nested(
        "places behind the tray by name", ()
    )
    risers: tuple[tuple[str, Riser], ...] = field.nested(
        "brackets for a card that stands parallel to the board, by name", ()
    )
    tallest_cooler: Figure | None = field.length(
        "stated limit: top of the heat spreader to the panel's inside",
        None,
        least_mm=20,
        most_mm=250,
        readings=case_readings.TALLEST_COOLER,
    )
    longest_card: Figure | None = field.length(
        "stated limit: slot plane to the nearest obstacle at the front (turned a "
        "quarter: at the floor)",
        None,
        least_mm=100,
        most_mm=700,
        readings=case_readings.LONGEST_CARD,
    )
    longest_card_with: LimitWith | None = field.choice(
        "whether that limit was told with front fans (turned a quarter: floor fans); "
        "default: with, and a note",
        None,
    )
    longest_supply: Figure | None = field.length(
        "stated limit: body alone",
        None,
        least_mm=80,
        most_mm=400,
        readings=case_readings.LONGEST_SUPPLY,
    )
    longest_supply_with: str | None = field.word(
        "position of the cage with which that limit was told, or out; default: not "
        "said",
        None,
    )
    measured_from: Told = field.measured_from()
    standoffs: Standoffs | None = field.nested(
        "which standoffs the tray has; default: one under every hole of the board, "
        "assumed",
        None,
    )
    leads: Listed | None = field.count(
        "plugs of its front panel: {front panel: 1, audio: 1, 19-pin USB: 1}; "
        "default: usual ones that the board has headers for, assumed",
        None,
        least=0,
        most=8,
    )
    front_leads: FrontLeads | None = field.nested(
        "where the front's leads start, and their lengths", None
    )
