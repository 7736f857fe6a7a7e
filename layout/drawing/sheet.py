"""Which sheet and which scale, and where on the sheet the views and columns lie."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import count
from typing import Final

from layout.drawing.boxes import Frame
from layout.drawing.views import Facing, View
from layout.geometry.space import Box

__all__ = ["A2", "A3", "A4", "Plan", "Sheet", "planned"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet of paper, lying on its long side; ``column_mm`` is the text column."""

    name: str
    width_mm: float
    height_mm: float
    column_mm: float

    @property
    def border(self) -> Frame:
        """Return the frame line: 20 from the left, 10 from the others (ISO 5457)."""
        return 20.0, 10.0, self.width_mm - 10.0, self.height_mm - 10.0


# ISO 216; title blocks are at most 180 wide (ISO 5457, from memory, unverified).
A4: Final = Sheet(name="A4", width_mm=297.0, height_mm=210.0, column_mm=110.0)
A3: Final = Sheet(name="A3", width_mm=420.0, height_mm=297.0, column_mm=150.0)
A2: Final = Sheet(name="A2", width_mm=594.0, height_mm=420.0, column_mm=180.0)

_ABOVE_MM = 14.0
_BETWEEN_MM = 14.0
_BELOW_MM = 14.0
_LEFT_MM = 60.0
_RIGHT_MM = 42.0
_MARGIN_MM = 3.0


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
    """

    sheet: Sheet
    scale: tuple[int, int]
    views: tuple[View, View]
    field: Frame
    column: Frame


def planned(box: Box, *, in_case: bool, sheets: Sequence[Sheet] = (A3, A2)) -> Plan:
    """Return the largest standard scale that fits, on the smallest sheet it fits.

    Parameters
    ----------
    box : Box
        What is to be shown, in mm.
    in_case : bool
        Whether a whole case is shown, never larger than 1:2.
    """
    for scale in _scales(largest=(1, 2) if in_case else (50, 1)):
        for sheet in sheets:
            plan = _plan(box, scale, sheet)
            if plan is not None:
                return plan
    raise AssertionError("unreachable: scales go on without end")  # pragma: no cover


def _scales(largest: tuple[int, int]) -> Iterator[tuple[int, int]]:
    """Yield the scales of ISO 5455 from large to small, without end."""
    enlarged = [(50, 1), (20, 1), (10, 1), (5, 1), (2, 1), (1, 1)]
    if largest in enlarged:
        yield from enlarged[enlarged.index(largest) :]
    for power in count():
        for step in (2, 5, 10):
            yield 1, step * 10**power


def _plan(box: Box, scale: tuple[int, int], sheet: Sheet) -> Plan | None:
    left, bottom, right, top = sheet.border
    field = (left, bottom, right - sheet.column_mm - _MARGIN_MM, top)
    factor = scale[0] / scale[1]
    depth, height, width = (
        factor * (high - low) for low, high in zip(box.low, box.high, strict=True)
    )
    wide = field[2] - field[0] - depth - _LEFT_MM - _RIGHT_MM
    high = field[3] - field[1] - height - width - _ABOVE_MM - _BETWEEN_MM - _BELOW_MM
    if wide < 0 or high < 0:
        return None
    x = field[0] + _LEFT_MM + wide / 2 - factor * box.low[0]
    side_top = field[3] - _ABOVE_MM - high / 4
    top_top = side_top - height - _BETWEEN_MM - high / 4
    return Plan(
        sheet=sheet,
        scale=scale,
        views=(
            View(
                facing=Facing.SIDE,
                scale=factor,
                origin=(x, side_top - factor * box.high[1]),
                box=box,
            ),
            View(
                facing=Facing.TOP,
                scale=factor,
                origin=(x, top_top + factor * box.low[2]),
                box=box,
            ),
        ),
        field=field,
        column=(right - sheet.column_mm, bottom, right, top),
    )
