"""What a case's stated limits leave unsaid, and where they agree with nothing."""

from __future__ import annotations

from typing import Final

from layout.parts.case import case_readings
from layout.parts.case.case_fields import LimitWith
from layout.parts.case.case_sheet import CaseSheet
from layout.parts.case.case_stands import ConnectorsAt
from layout.parts.case.case_supply import BayPlace
from layout.parts.drives.cage import OUT
from layout.parts.form.errors import PartError
from layout.parts.form.reading import Readings, as_given, usual
from layout.standards import cards
from layout.standards.drives import SIZES
from layout.standards.figure import Figure, practice
from layout.standards.supplies import FORMS

__all__ = [
    "DISAGREE_MM",
    "ENDS_AT_MM",
    "FRAME_TOP_MM",
    "card_ends_at",
    "card_not_said",
    "card_obstacle",
    "card_with",
    "explained",
    "supply_meets",
    "supply_not_said",
    "usual_room",
]

DISAGREE_MM: Final = 3.0
"""Two figures for one length that differ by more do not agree (design)."""

ENDS_AT_MM: Final = DISAGREE_MM + 5.0
"""How near to a longest card's end its obstacle stands, a card's play counted in."""

FRAME_TOP_MM: Final = 304.8
"""An ATX board's upper edge in its frame."""
_ROOM_OVER_BOARD: Final = practice(25.0, 12.0, assumed=True)
_UNDER_SUPPLY: Final = (15.0, 8.0)
"""Room between a supply on top and the board, with its scatter; common practice."""
_CARD_BACK_MM: Final = 10.0
"""What a card has over its circuit board, a back plate counted in."""


def usual_room(case: CaseSheet) -> Figure:
    """Return the usual room over the board: a supply on top hangs in it."""
    on_top = case.supply_bay.place is BayPlace.TOP_REAR
    if not on_top or case.connectors is not ConnectorsAt.REAR:
        return _ROOM_OVER_BOARD
    under_mm, off_mm = _UNDER_SUPPLY
    height_mm = FORMS[case.supply_bay.form.value].height.mm
    return practice(height_mm + under_mm, off_mm, assumed=True)


def card_with(case: CaseSheet) -> LimitWith:
    """Return with what before its far end the longest card was told.

    Raises
    ------
    PartError
        If it is told of the floor where cards lie along depth, or the other way round.
    """
    hangs = case.connectors is not ConnectorsAt.REAR
    told = case.longest_card_with
    if told is None:
        return LimitWith.FLOOR_FANS if hangs else LimitWith.FANS
    if told.at_floor is not hangs:
        right = [each.value for each in LimitWith if each.at_floor is hangs]
        raise PartError(
            field="longest card with",
            found=told.value,
            right=f"one of {right[0]}, {right[1]}: what a card's far end looks at",
        )
    return told


def card_obstacle(
    case: CaseSheet, limit_mm: float, front_mm: float
) -> tuple[str, float] | None:
    """Return what stands nearest to where a longest card ends, before the front.

    A cage, a supply or bays that begin before the front's fans are what such a limit
    is often told to.  None where nothing of the kind is in the case file, and where
    cards hang.
    """
    if case.connectors is not ConnectorsAt.REAR:
        return None
    rail, bay = case.cage_rail, case.supply_bay
    at: list[tuple[str, float]] = [
        (f"the cage at its position {name}", position.from_rear.mm)
        for name, position in (rail.positions if rail else ())
    ]
    if bay.place is BayPlace.FRONT and bay.from_rear is not None:
        at.append(("the supply", bay.from_rear.mm))
    at += _bays(case)
    nearer = [each for each in at if each[1] < front_mm - DISAGREE_MM]
    return min(nearer, key=lambda each: abs(each[1] - limit_mm), default=None)


def _bays(case: CaseSheet) -> list[tuple[str, float]]:
    """Return where drives in the bays begin, if bays reach down to the cards.

    No file tells a bay's depth: it is that of the longest drive.
    """
    if case.bays is None or case.depth is None or case.height is None:
        return []
    line_mm = case.first_slot.mm if case.first_slot else 0.0
    if case.room_over_board is not None or case.first_slot is None:
        room = case.room_over_board or usual_room(case)
        line_mm = case.height.mm - room.mm - FRAME_TOP_MM + cards.FIRST_SLOT.mm
    if case.bays.from_floor.mm >= line_mm + _CARD_BACK_MM:
        return []
    long_mm = SIZES["5.25"].length.mm
    return [(f"a drive {long_mm:g} long in the bays", case.depth.mm - long_mm)]


def card_ends_at(case: CaseSheet, front_mm: float) -> str | None:
    """Return the cage or supply before which a longest card ends, if it does."""
    limit = usual(case, "longest_card")
    before = card_obstacle(case, limit.mm, front_mm) if limit else None
    if limit is None or before is None or abs(before[1] - limit.mm) > ENDS_AT_MM:
        return None
    return before[0]


def explained(readings: Readings, limit: Figure, off_mm: float) -> str:
    """Return that another reading of the limit would explain what it is off by."""
    reading = readings.explaining(limit, off_mm, within_mm=DISAGREE_MM)
    return f"; the reading '{reading}' would explain it" if reading else ""


def card_not_said(case: CaseSheet) -> tuple[str, ...]:
    """Return a note where a longest card does not say what stood at the front.

    One that ends at a cage or a supply says nothing of the front's fans.
    """
    if case.longest_card is None or case.longest_card_with is not None:
        return ()
    if case.depth is not None and card_ends_at(case, case.depth.mm):
        return ()
    with_ = card_with(case)
    told = f"longest card {case.longest_card.mm:g}: the case does not say with what at "
    face = "floor" if with_.at_floor else "front"
    return (f"{told}the {face}, read as {with_.value}",)


def supply_not_said(case: CaseSheet) -> tuple[str, ...]:
    """Return a note where a longest supply does not say where the cage stood."""
    limit, rail = case.longest_supply, case.cage_rail
    if limit is None or rail is None or case.longest_supply_with is not None:
        return ()
    told = f"longest supply {as_given(limit)}: the case does not say with which cage "
    return (f"{told}position, read as with any",)


def supply_meets(case: CaseSheet) -> tuple[str, ...]:
    """Return a note where no cage position explains the longest supply."""
    limit, rail = usual(case, "longest_supply"), case.cage_rail
    if limit is None or rail is None or not rail.positions:
        return ()
    told = case.longest_supply_with
    positions = {name: position.from_rear.mm for name, position in rail.positions}
    if told is not None and told not in {*positions, OUT}:
        names = ", ".join([*positions, OUT])
        raise PartError(
            field="longest supply with", found=told, right=f"one of {names}"
        )
    if told == OUT:
        return ()
    asked = [positions[told]] if told else list(positions.values())
    off_mm = min((mm - limit.mm for mm in asked), key=abs)
    if abs(off_mm) <= DISAGREE_MM:
        return ()
    meets = f"disagrees with cage position {told}" if told else "meets no cage position"
    text = f"longest supply {as_given(limit)} {meets}"
    text += (
        f" by {abs(off_mm):.1f} mm"
        if told
        else f"; the nearest is {abs(off_mm):.1f} mm off"
    )
    other = explained(case_readings.LONGEST_SUPPLY, limit, off_mm)
    return (f"{text}{other}; the position's own place is used",)
