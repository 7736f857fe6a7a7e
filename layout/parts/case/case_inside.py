"""A case's inside size: as given, or derived from its stated limits.

What is derived is said, and where two figures disagree, that is said too.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import lru_cache

from layout.geometry.space import Axis, Vector
from layout.parts.case import case_readings
from layout.parts.case.case_fields import LimitWith
from layout.parts.case.case_said import (
    DISAGREE_MM,
    ENDS_AT_MM,
    FRAME_TOP_MM,
    card_not_said,
    card_obstacle,
    card_with,
    explained,
    supply_meets,
    supply_not_said,
    usual_room,
)
from layout.parts.case.case_sheet import CaseSheet
from layout.parts.case.case_stands import ConnectorsAt
from layout.parts.form.errors import PartError
from layout.parts.form.form import Link
from layout.parts.form.link import SLOT_LINE, exact, less, plus_minus_mm, sheet_link
from layout.parts.form.reading import as_given, usual
from layout.standards import boards, cards, processors
from layout.standards.figure import Figure
from layout.standards.tolerances import ToleranceClass
from layout.values import dataclass

__all__ = ["DISAGREE_MM", "Inside", "settled", "width_notes"]

_STACK = processors.SOCKETS["LGA1155"].stack
_FAN_MM = 25.0
_PLAY_MM = 5.0
"""What a card needs beyond the longest that is said to fit; common practice."""
_UNDER_PANEL_MM = 2.0
"""What the panel needs over the tallest cooler that is said to fit; likewise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """The settled inside of a case.

    ``frame_mm`` is where the board frame's lower edge lies along the board's height;
    ``frame_links`` are the figures that place it; ``cage_notes`` those of ``notes``
    that matter only where a cage stands.
    """

    depth: Figure
    height: Figure
    width: Figure
    frame_mm: float
    frame_links: tuple[Link, ...]
    notes: tuple[str, ...]
    cage_notes: tuple[str, ...]

    @property
    def size_mm(self) -> Vector:
        """Return depth, height and width."""
        return self.depth.mm, self.height.mm, self.width.mm

    @property
    def level_links(self) -> tuple[Link, Link]:
        """Return depth and width as links."""
        return self.link(Axis.DEPTH), self.link(Axis.WIDTH)

    def link(self, axis: Axis) -> Link:
        """Return the inside size along an axis as a link."""
        figure = (self.depth, self.height, self.width)[axis.index]
        return sheet_link(f"inside {axis.value}", figure, axis)


@lru_cache(maxsize=16)  # the same for every build of a case
def settled(case: CaseSheet) -> Inside:
    """Return the inside size with what it rests on.

    Raises
    ------
    PartError
        If neither a size nor the limit it could be derived from is given.
    """
    depth, height, notes = _lengths(case)
    width, width_notes = _width(case)
    along = height if case.connectors is ConnectorsAt.REAR else depth
    cage_notes = supply_meets(case) or supply_not_said(case)
    frame_mm, links, frame_notes = _frame(case, along)
    return Inside(
        depth=depth,
        height=height,
        width=width,
        frame_mm=frame_mm,
        frame_links=links,
        notes=(
            *notes,
            *width_notes,
            *frame_notes,
            *cage_notes,
            *card_not_said(case),
        ),
        cage_notes=cage_notes,
    )


def _lengths(case: CaseSheet) -> tuple[Figure, Figure, tuple[str, ...]]:
    """Return inside depth and height, and what a longest card says of one of them.

    Cards lie along depth, and hang down along height from connectors at the top: a
    longest card says nothing of the other one.
    """
    hangs = case.connectors is not ConnectorsAt.REAR
    along, across = (case.height, case.depth) if hangs else (case.depth, case.height)
    word, other = ("height", "depth") if hangs else ("depth", "height")
    if across is None:
        raise PartError(field=other, found="nothing", right=f"the inside {other}")
    made, notes = _by_card(case, along, word)
    return (across, made, notes) if hangs else (made, across, notes)


def _by_card(
    case: CaseSheet, size: Figure | None, word: str
) -> tuple[Figure, tuple[str, ...]]:
    """Return the inside size that cards lie along, given or from the longest card."""
    limit, with_ = usual(case, "longest_card"), card_with(case)
    if limit is None:
        if size is None:
            right = f"the inside {word}, or 'longest card' to derive it from"
            raise PartError(field=word, found="nothing", right=right)
        return size, ()
    fans_mm = _FAN_MM if with_.fans else 0.0
    told = f"longest card {limit.mm:g} told with {with_.value}"
    if size is None:
        made = _derived(limit, "longest card", fans_mm + _PLAY_MM)
        text = f"{told}, {_PLAY_MM:g} of play beyond it"
        return made, (f"inside {word} {made.mm:g} derived: {text}",)
    off_mm = size.mm - limit.mm - fans_mm
    if abs(off_mm) <= DISAGREE_MM:
        return size, ()
    other = _other(with_.other, size.mm - limit.mm - (_FAN_MM - fans_mm))
    before = card_obstacle(case, limit.mm, size.mm - fans_mm)
    if before is not None:
        what, at_mm = before
        if abs(at_mm - limit.mm) <= ENDS_AT_MM:
            text = f"longest card {limit.mm:g} ends before {what}, {at_mm:g} from the"
            return size, (f"{text} rear panel",)
        if not other and limit.mm < at_mm:
            other = f"; {what} begins {at_mm:g} from the rear panel: it may end there"
    text = f"inside {word} {size.mm:g} and {told} disagree by {abs(off_mm):.1f} mm"
    return size, (f"{text}{other}; the inside {word} places the walls",)


def _other(reading: LimitWith, off_mm: float) -> str:
    if abs(off_mm) > DISAGREE_MM:
        return ""
    return f"; told with {reading.value}, the limit would agree"


def _width(case: CaseSheet) -> tuple[Figure, tuple[str, ...]]:
    limit = usual(case, "tallest_cooler")
    board_mm = case.standoff.mm + boards.THICKNESS.mm
    if limit is None:
        if case.width is None:
            raise PartError(
                field="width",
                found="nothing",
                right="the inside width, or 'tallest cooler' to derive it from",
            )
        return case.width, ()
    if case.width is None:
        told = f"tallest cooler {as_given(limit)}"
        return _width_of(limit, board_mm + _STACK.mm, told)
    return case.width, width_notes(case)


def width_notes(
    case: CaseSheet, socket: str = "LGA1155", stack: Figure = _STACK
) -> tuple[str, ...]:
    """Return where a tallest cooler and the inside width disagree, or nothing.

    Parameters
    ----------
    socket, stack
        What the limit's cooler stands on: the build's own, or the usual one of a case
        alone.  A limit told from the board's surface asks for neither.
    """
    limit = usual(case, "tallest_cooler")
    if limit is None or case.width is None:
        return ()
    was = limit.restated
    over_mm = was.mm if was else limit.mm + stack.mm
    off_mm = case.width.mm - case.standoff.mm - boards.THICKNESS.mm - over_mm
    if abs(off_mm) <= DISAGREE_MM:
        return ()
    on = "" if was else f" over a processor of {socket}, {stack.mm:.3g} high"
    other = explained(case_readings.TALLEST_COOLER, limit, off_mm)
    text = (
        f"inside width {case.width.mm:g} and tallest cooler {as_given(limit)} disagree "
        f"by {abs(off_mm):.1f} mm{on}"
    )
    return (f"{text}{other}; the inside width places the walls",)


def _width_of(
    limit: Figure, under_mm: float, told: str
) -> tuple[Figure, tuple[str, ...]]:
    """Return the width that a tallest cooler leaves room for."""
    # Told from the board's surface the limit holds whatever the processor's stack.
    scatter_mm = 0.0 if limit.restated else _STACK.plus_minus_mm or 0.0
    read = limit.restated.reading if limit.restated else limit.reading
    bare = replace(limit, restated=None, reading=read)
    over_mm = under_mm + _UNDER_PANEL_MM
    width = _derived(bare, "tallest cooler", over_mm, scatter_mm=scatter_mm)
    over = (
        f"a board {under_mm - _STACK.mm:.1f}"
        if limit.restated
        else f"a processor {under_mm:.1f}"
    )
    text = f"{told} over {over} from the tray, {_UNDER_PANEL_MM:g} free under the panel"
    return width, (f"inside width {width.mm:.1f} derived: {text}",)


def _derived(
    limit: Figure, name: str, more_mm: float, *, scatter_mm: float = 0.0
) -> Figure:
    """Return a size that a stated limit and what lies beyond it add up to."""
    off_mm = plus_minus_mm(limit, ToleranceClass.COARSE)
    return Figure(
        mm=limit.mm + more_mm,
        plus_minus_mm=math.hypot(off_mm, scatter_mm),
        standing=limit.standing,
        source="derived from the case's stated limit",
        assumed=limit.assumed,
        reading=f"by its {name}, {limit.reading}",
    )


def _frame(
    case: CaseSheet, size: Figure
) -> tuple[float, tuple[Link, ...], tuple[str, ...]]:
    """Return the board frame's lower edge along its height, with what places it.

    It counts from the floor; on a board turned a quarter from the rear panel.
    """
    room, axis = case.room_over_board, case.connectors.frame_axis
    if room is None and case.first_slot is not None:
        line = sheet_link("slot 1's line in the case", case.first_slot, axis)
        frame = sheet_link(
            SLOT_LINE,
            _SLOT_LINE,
            axis,
            tape="top edge of an ATX board to the top's inside",
            entry="room over board",
        )
        return case.first_slot.mm - _SLOT_LINE.mm, (line, less(frame)), ()
    room = room or usual_room(case)
    frame_mm = size.mm - room.mm - FRAME_TOP_MM
    links = (
        sheet_link(f"inside {axis.value}", size, axis),
        less(
            sheet_link(
                "room over the board",
                room,
                axis,
                tape="top edge of an ATX board to the top's inside",
                entry="room over board",
            )
        ),
        less(exact("ATX board's top edge in its frame", FRAME_TOP_MM, axis)),
    )
    if case.first_slot is None:
        return frame_mm, links, ()
    off_mm = case.first_slot.mm - frame_mm - _SLOT_LINE.mm
    if abs(off_mm) <= DISAGREE_MM:
        return frame_mm, links, ()
    text = (
        f"room over the board puts slot 1's line at {frame_mm + _SLOT_LINE.mm:.1f}, "
        f"the case says {case.first_slot.mm:g}: they disagree by {abs(off_mm):.1f} mm; "
        "the room over the board is used"
    )
    return frame_mm, links, (text,)


_SLOT_LINE = cards.FIRST_SLOT
