"""The sheet of positions: margins, what is clear, the best one and small others."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from layout.build.placed import Build
from layout.drawing.bodies import items_of
from layout.drawing.boxes import Frame
from layout.drawing.extremes import extreme_lines
from layout.drawing.lettering import fitted, plain, wrapped
from layout.drawing.margins import bars, curve
from layout.drawing.marks import INKS
from layout.drawing.scene import Align, Ink, Item, Line, Pen, Scene, Text
from layout.drawing.seen import seen
from layout.drawing.sheet import NAMED
from layout.drawing.style import STYLE
from layout.drawing.views import Facing, View, bounds_of
from layout.geometry.body import Body
from layout.geometry.space import ORIGIN, Box
from layout.questions.finding import Verdict
from layout.values import dataclass

__all__ = ["Shown", "moves_scene"]

_SMALL: Final = STYLE.small_mm
_MOST_SMALL: Final = 6
_STRIP_MM: Final = 78.0
_RIGHT_MM: Final = 150.0
_INKS: Final = {each.value: INKS[each] for each in Verdict}
_SCALES: Final = (2, 5, 10, 20, 50, 100)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """One position as the sheet shows it.

    Parameters
    ----------
    name, verdict : str
    at_mm : float or None
        The shift on a stretch; None at a named position.
    build : Build or None
        The build with the part there; None where it is not drawn.
    fails : bool
        Whether something of the part is short or clashes there.
    """

    name: str
    verdict: str
    margin_mm: float | None
    at_mm: float | None
    build: Build | None
    fails: bool


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
    head, y = _head(title, said, field)
    middle = field[2] - _RIGHT_MM
    chart = (field[0], field[1] + _STRIP_MM + 8.0, middle - 8.0, y)
    on_way = [row for row in rows if row.at_mm is not None]
    drawn = curve(on_way, clear_mm, chart) if on_way else bars(rows, chart)
    large, scale = _large(best, (middle, chart[1], field[2], y), extremes)
    others = [row for row in rows if row.build is not None and row is not best]
    strip = _strip(_spread(others), (field[0], field[1], field[2], chart[1] - 8.0))
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
    left, _, right, top = frame
    y = top - STYLE.large_mm
    text = fitted(plain(title), STYLE.large_mm, right - left, bold=True)
    out: list[Item] = [
        Text(at=(left, y), text=text, height_mm=STYLE.large_mm, bold=True)
    ]
    y -= 2.0
    for sentence in said[:4]:
        for line in wrapped(plain(sentence), _SMALL, right - left)[:2]:
            y -= 1.7 * _SMALL
            out.append(Text(at=(left, y), text=line, height_mm=_SMALL, ink=Ink.SOFT))
    return tuple(out), y - 9.0


def _spread(rows: Sequence[Shown]) -> list[Shown]:
    """Return a few of many, evenly spread, the first and the last among them."""
    if len(rows) <= _MOST_SMALL:
        return list(rows)
    step = (len(rows) - 1) / (_MOST_SMALL - 1)
    return [rows[round(step * k)] for k in range(_MOST_SMALL)]


def _box(build: Build) -> Box:
    boxes = [each.body.bounds for each in build.bodies]
    if build.case_size_mm is not None:
        boxes.append(Box(ORIGIN, build.case_size_mm))
    return bounds_of(boxes)


def _large(
    best: Shown | None, frame: Frame, extremes: Sequence[Body]
) -> tuple[tuple[Item, ...], int]:
    """Return both views of the best position, at a standard scale, and the scale."""
    left, bottom, right, top = frame
    if best is None or best.build is None:
        return (), 1
    box = _box(best.build)
    depth, height, width = (b - a for a, b in zip(box.low, box.high, strict=True))
    wide, high = right - left, top - bottom - 22.0
    scale = next(
        (s for s in _SCALES if depth / s <= wide and (height + width) / s <= high),
        _SCALES[-1],
    )
    label = fitted(f"best: {plain(best.name)}, {best.verdict}", 3.5, wide, bold=True)
    x = left + (wide - depth / scale) / 2
    side_top = top - 10.0
    below = side_top - height / scale - 6.0
    views = (
        _view(Facing.SIDE, box, scale, at=(x, side_top - height / scale)),
        _view(Facing.TOP, box, scale, at=(x, below)),
    )
    note = f"1:{scale}, side view over top view"
    if extremes:
        note = f"double-dot: ends of the travel; {note}"
    return (
        Text(at=(left, top - 3.5), text=label, height_mm=3.5, bold=True),
        *(item for view in views for item in _drawn(best.build, view)),
        *(line for view in views for line in extreme_lines(extremes, view)),
        Text(
            at=(right, below - width / scale - 5.0),
            text=note,
            height_mm=_SMALL,
            align=Align.RIGHT,
            ink=Ink.SOFT,
        ),
    ), scale


def _view(facing: Facing, box: Box, scale: int, *, at: tuple[float, float]) -> View:
    """Return a view whose left edge, and lower or upper one, lie at a point."""
    factor = 1.0 / scale
    x, y = at
    across = factor * box.low[facing.across.index]
    y += across if facing is Facing.TOP else -across
    return View(
        facing=facing,
        scale=factor,
        origin=(x - factor * box.low[0], y),
        box=box,
    )


def _drawn(build: Build, view: View) -> tuple[Item, ...]:
    return items_of(seen(build.bodies, view), STYLE)


def _strip(rows: Sequence[Shown], frame: Frame) -> tuple[Item, ...]:
    """Return small side views side by side, each with its name and verdict."""
    left, bottom, right, top = frame
    if not rows:
        return ()
    wide = (right - left) / max(len(rows), 4)
    out: list[Item] = [
        Line(points=((left, top + 3.0), (right, top + 3.0)), pen=Pen.NARROW)
    ]
    for place, row in enumerate(rows):
        if row.build is None:
            continue
        x, box = left + place * wide, _box(row.build)
        depth, height = box.high[0] - box.low[0], box.high[1] - box.low[1]
        room = top - bottom - 12.0
        fits = (s for s in _SCALES if depth / s < wide - 4.0 and height / s < room)
        scale = next(fits, _SCALES[-1])
        view = _view(Facing.SIDE, box, scale, at=(x + 1.0, bottom + 11.0))
        margin = "" if row.margin_mm is None else f", {row.margin_mm:+.1f} mm"
        out.extend(_drawn(row.build, view))
        ink = _INKS[row.verdict]
        for line, text in enumerate((row.name, f"{row.verdict}{margin}, 1:{scale}")):
            out.append(
                Text(
                    at=(x + 1.0, bottom + 5.5 - 4.4 * line),
                    text=fitted(plain(text), _SMALL, wide - 4.0),
                    height_mm=_SMALL,
                    ink=Ink.BLACK if line == 0 else ink,
                )
            )
    return tuple(out)
