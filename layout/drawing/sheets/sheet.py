"""Which sheet and which scale, and what lies where on the sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import count, islice
from types import MappingProxyType
from typing import Final

from layout.drawing.paper.boxes import Frame
from layout.drawing.views.views import Facing, View
from layout.geometry.space import Box
from layout.standards.drawing import BORDER_LEFT, BORDER_OTHER, SHEETS
from layout.values import dataclass

__all__ = [
    "CHOSEN_FROM",
    "KEPT_AIR_MM",
    "LEAST_ASIDE_MM",
    "NAMED",
    "SHEET_MARK",
    "Plan",
    "Share",
    "Sheet",
    "plans",
    "spare_mm",
    "views_in",
]

SHEET_MARK: Final = "case-layout, sheet {} of {}"
"""What the file of a sheet says of itself, so that it is known again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet of paper, lying on its long side or standing on its short one."""

    name: str
    width_mm: float
    height_mm: float

    @property
    def border(self) -> Frame:
        """Return the frame line: 20 from the left, 10 from the others (ISO 5457)."""
        left, other = BORDER_LEFT.mm, BORDER_OTHER.mm
        return left, other, self.width_mm - other, self.height_mm - other

    @property
    def stands(self) -> bool:
        """Tell whether the sheet stands on its short side."""
        return self.height_mm > self.width_mm


def _sheets() -> dict[str, tuple[Sheet, ...]]:
    """Return for each size the sheet lying and the sheet standing."""
    return {
        name: (
            Sheet(name=name, width_mm=each.long.mm, height_mm=each.short.mm),
            Sheet(name=name, width_mm=each.short.mm, height_mm=each.long.mm),
        )
        for name, each in SHEETS.items()
    }


NAMED: Final = MappingProxyType(_sheets())
"""The sheets by name, lying first."""

CHOSEN_FROM: Final = (*NAMED["A4"], *NAMED["A3"])
"""What a workshop's printer takes, the smallest first."""

_BESIDE_MM = (42.0, 34.0)
_WISHED_MM = (56.0, 48.0)
"""Least and wished room on the left and right of the views for dimensions, names and
balloons."""

_HIGH_MM = (14.0, 20.0, 18.0)
_AIRY_MM = (22.0, 28.0, 30.0)
"""Least and wished room above the side view, between the views, under them."""

_AIR_MM = sum(_AIRY_MM) - sum(_HIGH_MM)

_MARGIN_MM = 3.0
_COLUMN_MM = (100.0, 180.0)
"""Least and greatest width of the text; title blocks are at most 180 wide (ISO 7200,
from memory, unverified)."""

_STANDING_COLUMN_MM = 95.0
"""Least height of the text under the views of a sheet that stands."""

LEAST_ASIDE_MM = 54.0
"""Less is no room for enlarged details."""

KEPT_AIR_MM = 0.4 * _AIR_MM
"""How much of the wished room above and under the views they keep where details, or
legend and notes beside them, lack a little height."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What lies where on a sheet.

    Parameters
    ----------
    scale : (int, int)
        As printed: (1, 2) for 1:2.
    field : Frame
        Room of the views and their lettering.
    column : Frame
        Room of title, table, legend and title block.
    aside : Frame or None
        Room for enlarged details.
    key : Frame or None
        Room for the legend, where it does not stand in the column.
    """

    sheet: Sheet
    scale: tuple[int, int]
    views: tuple[View, View]
    field: Frame
    column: Frame
    aside: Frame | None
    key: Frame | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """Which rows of the table one of several sheets holds, and which sheet it is.

    Parameters
    ----------
    first : int
        How many rows stand on the sheets before it.
    number, of : int
        The sheet's number, and how many sheets there are (ISO 7200).
    last : int, optional
        How many rows stand on it and those before it at most; default: as many as it
        has room for.
    """

    first: int = 0
    number: int = 1
    of: int = 1
    last: int | None = None


def plans(
    box: Box,
    *,
    in_case: bool,
    sheets: Sequence[Sheet] = CHOSEN_FROM,
    smaller: int = 0,
) -> tuple[Plan, ...]:
    """Return the plans at the largest standard scale that fits, in the sheets' order.

    Parameters
    ----------
    box : Box
        What is to be shown, in mm.
    in_case : bool
        Whether a whole case is shown, never larger than 1:2.
    smaller : int
        How many scales smaller than the largest that fits, for more text beside it.
    """
    scales = _scales(largest=(1, 2) if in_case else (50, 1))
    made = (
        tuple(filter(None, (_plan(box, scale, each) for each in sheets)))
        for scale in scales
    )
    return next(islice(filter(None, made), smaller, None))


def spare_mm(box: Box, factor: float, field: Frame) -> float:
    """Return the height that the views and the least room round them leave."""
    _, height, width = _drawn(box, factor)
    return field[3] - field[1] - height - width - sum(_HIGH_MM)


def _drawn(box: Box, factor: float) -> tuple[float, float, float]:
    """Return depth, height and width of a box on paper."""
    depth, height, width = (
        factor * (high - low) for low, high in zip(box.low, box.high, strict=True)
    )
    return depth, height, width


def _scales(largest: tuple[int, int]) -> Iterator[tuple[int, int]]:
    """Yield the scales of ISO 5455 from large to small, without end."""
    enlarged = [(50, 1), (20, 1), (10, 1), (5, 1), (2, 1), (1, 1)]
    if largest in enlarged:
        yield from enlarged[enlarged.index(largest) :]
    for power in count():
        for step in (2, 5, 10):
            yield 1, step * 10**power


def _plan(box: Box, scale: tuple[int, int], sheet: Sheet) -> Plan | None:
    factor = scale[0] / scale[1]
    depth, height, width = _drawn(box, factor)
    wide, high = depth + sum(_BESIDE_MM), height + width + sum(_HIGH_MM)
    parts = _parted(sheet, wide, high)
    if parts is None:
        return None
    field, column = parts
    spare = field[2] - field[0] - wide, field[3] - field[1] - high
    aside = None
    if spare[1] - KEPT_AIR_MM >= LEAST_ASIDE_MM:
        over = max(spare[1] - _AIR_MM, LEAST_ASIDE_MM)
        aside = (field[0], field[1], field[2], field[1] + over)
        field = (field[0], aside[3], *field[2:])
    elif spare[0] - sum(_WISHED_MM) + sum(_BESIDE_MM) >= LEAST_ASIDE_MM:
        over = spare[0] - sum(_WISHED_MM) + sum(_BESIDE_MM)
        aside = (field[2] - over, *field[1:])
        field = (*field[:2], aside[0], field[3])
    return Plan(
        sheet=sheet,
        scale=scale,
        views=views_in(box, factor, field),
        field=field,
        column=column,
        aside=aside,
    )


def _parted(sheet: Sheet, wide: float, high: float) -> tuple[Frame, Frame] | None:
    """Return field and column of a sheet; None where the views do not fit."""
    left, bottom, right, top = sheet.border
    least, most = _COLUMN_MM
    if sheet.stands:
        under = top - bottom - high - _MARGIN_MM
        if right - left < wide or under < _STANDING_COLUMN_MM:
            return None
        # what is over goes to the text, then to the views
        foot = bottom + max(_STANDING_COLUMN_MM, 0.8 * under)
        return (left, foot + _MARGIN_MM, right, top), (left, bottom, right, foot)
    beside = right - left - wide - _MARGIN_MM
    if top - bottom < high or beside < least:
        return None
    airy = beside - sum(_WISHED_MM) + sum(_BESIDE_MM)
    at = right - min(max(airy, least), most)
    return (left, bottom, at - _MARGIN_MM, top), (at, bottom, right, top)


def views_in(box: Box, factor: float, field: Frame) -> tuple[View, View]:
    """Return the views in their field, one over the other."""
    depth, height, _ = _drawn(box, factor)
    over = spare_mm(box, factor, field)
    shares = [airy - least for airy, least in zip(_AIRY_MM, _HIGH_MM, strict=True)]
    above, between, _ = (
        least + over * share / sum(shares)
        for least, share in zip(_HIGH_MM, shares, strict=True)
    )
    beside = (field[2] - field[0] - depth - sum(_BESIDE_MM)) / 2
    x = field[0] + _BESIDE_MM[0] + beside - factor * box.low[0]
    side_top = field[3] - above
    top_top = side_top - height - between
    side, top = side_top - factor * box.high[1], top_top + factor * box.low[2]
    return (
        View(facing=Facing.SIDE, scale=factor, origin=(x, side), box=box),
        View(facing=Facing.TOP, scale=factor, origin=(x, top), box=box),
    )
