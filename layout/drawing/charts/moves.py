"""The sheet of positions: margins, what is clear, the best one and small others."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from layout.drawing.charts.margins import bars, curve
from layout.drawing.charts.small_views import (
    SCALES,
    Shown,
    box_of,
    drawn_at,
    small_views,
    spread,
    view_at,
)
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.lettering import fitted, plain, wrapped
from layout.drawing.paper.scene import Align, Ink, Item, Line, Pen, Scene, Text
from layout.drawing.paper.style import STYLE
from layout.drawing.sheets.sheet import NAMED
from layout.drawing.views.extremes import extreme_lines
from layout.drawing.views.views import Facing, bounds_of
from layout.geometry.bodies.body import Body

__all__ = ["moves_scene"]

_SMALL: Final = STYLE.small_mm
_RIGHT_MM: Final = 150.0
_APART_MM: Final = 8.0
_MOST_LINES: Final = 9


def moves_scene(
    title: str,
    rows: Sequence[Shown],
    best: Shown | None,
    *,
    clear_mm: Sequence[tuple[float, float]] = (),
    said: Sequence[str] = (),
    extremes: Sequence[Body] = (),
) -> Scene:
    """Return the drawing of a part's positions.

    Parameters
    ----------
    title : str
    rows : sequence of Shown
        Every position, in order.
    best : Shown or None
        That drawn large; its view has no dimensions, ``draw`` makes those.
    clear_mm : sequence of (float, float)
        The clear stretches of a travel, shaded.
    said : sequence of str
        Sentences under the title.
    extremes : sequence of Body
        The part at the ends of its travel, over the best position.
    """
    (sheet, _) = NAMED["A3"]
    left, bottom, right, top = sheet.border
    field = (left + 5.0, bottom + 5.0, right - 5.0, top - 5.0)
    middle = field[2] - _RIGHT_MM
    others = [row for row in rows if row.build is not None and row is not best]
    strip, over = small_views(spread(others), best, field)
    under = top - 5.0 - STYLE.large_mm
    large, scale = _large(best, (middle, over + 4.0, field[2], under - 4.0), extremes)
    head, y = _head(title, said, (*field[:2], middle - _APART_MM, field[3]))
    chart = (field[0], over + 4.0, middle - _APART_MM, y)
    on_way = [row for row in rows if row.at_mm is not None]
    drawn = curve(on_way, clear_mm, chart, best=best) if on_way else bars(rows, chart)
    corners = ((left, bottom), (right, bottom), (right, top), (left, top))
    return Scene(
        title=plain(title),
        description=plain(" ".join((title, *said))),
        width_mm=sheet.width_mm,
        height_mm=sheet.height_mm,
        scale=(1, scale),
        items=(
            Line(points=(*corners, corners[0]), pen=Pen.WIDE),
            *head,
            *drawn,
            *large,
            *strip,
        ),
    )


def _head(
    title: str, said: Sequence[str], frame: Frame
) -> tuple[tuple[Item, ...], float]:
    """Return the title, over the whole sheet, and the words under it on the left."""
    left, _, right, top = frame
    y = top - STYLE.large_mm
    wide = right + _APART_MM + _RIGHT_MM - left
    text = fitted(plain(title), STYLE.large_mm, wide, bold=True)
    out: list[Item] = [
        Text(at=(left, y), text=text, height_mm=STYLE.large_mm, bold=True)
    ]
    y -= 2.0
    lines = [each for one in said for each in wrapped(plain(one), _SMALL, right - left)]
    if len(lines) > _MOST_LINES:
        lines[_MOST_LINES - 1 :] = ["… and more: see the table."]
    for line in lines:
        y -= 1.7 * _SMALL
        out.append(Text(at=(left, y), text=line, height_mm=_SMALL, ink=Ink.SOFT))
    return tuple(out), y - 9.0


def _large(
    best: Shown | None, frame: Frame, extremes: Sequence[Body]
) -> tuple[tuple[Item, ...], int]:
    """Return both views of the best position, at a standard scale, and the scale."""
    left, bottom, right, top = frame
    if best is None or best.build is None:
        return (), 1
    box = bounds_of([box_of(best.build), *(each.bounds for each in extremes)])
    depth, height, width = (b - a for a, b in zip(box.low, box.high, strict=True))
    wide, high = right - left, top - bottom - 22.0
    scale = next(
        (s for s in SCALES if depth / s <= wide and (height + width) / s <= high),
        SCALES[-1],
    )
    said = f"best: {plain(best.name)}, {best.verdict}"
    if best.fails:
        said = f"none works; nearest: {plain(best.name)}"
    label = fitted(said, 3.5, wide, bold=True)
    x = left + (wide - depth / scale) / 2
    side_top = top - 10.0
    below = side_top - height / scale - 6.0
    views = (
        view_at(Facing.SIDE, box, scale, at=(x, side_top - height / scale)),
        view_at(Facing.TOP, box, scale, at=(x, below)),
    )
    ends = "; double-dot: ends of the travel" if extremes else ""
    note = f"heavy: what is moved{ends}; 1:{scale}, side view over top view"
    return (
        Text(at=(left, top - 3.5), text=label, height_mm=3.5, bold=True),
        *(item for view in views for item in drawn_at(best, view)),
        *(line for view in views for line in extreme_lines(extremes, view)),
        Text(
            at=(right, below - width / scale - 5.0),
            text=note,
            height_mm=_SMALL,
            align=Align.RIGHT,
            ink=Ink.SOFT,
        ),
    ), scale
