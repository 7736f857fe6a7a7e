"""What is on every sheet: frame line, title and verdict, title block."""

from __future__ import annotations

from layout.build.placed import Build
from layout.drawing.boxes import Frame
from layout.drawing.lettering import fitted, plain, wrapped
from layout.drawing.scale_bar import scale_bar
from layout.drawing.scene import Circle, Ink, Item, Line, Pen, Point, Text
from layout.drawing.sheet import Plan
from layout.drawing.style import Style
from layout.drawing.words import length, summary
from layout.questions.finding import Check

__all__ = ["border", "heading", "title_block"]

_BLOCK = 14.0
_ROW = 5.4
_CELL = 6.3
"""Heights and width of the title block's cells, per height of a capital."""

_CAUTION = "All sizes in mm, from data sheets: measure before ordering."


def border(plan: Plan) -> tuple[Item, ...]:
    """Return the frame line and the line between the views and the text column."""
    left, bottom, right, top = plan.sheet.border
    corners = ((left, bottom), (right, bottom), (right, top), (left, top))
    x = plan.field[2]
    return (
        Line(points=(*corners, corners[0]), pen=Pen.WIDE),
        Line(points=((x, bottom), (x, top)), pen=Pen.NARROW),
    )


def heading(
    build: Build, check: Check, column: Frame, *, style: Style
) -> tuple[tuple[Item, ...], float]:
    """Return title and verdict at the head of the column, and where they end."""
    left, _, right, top = column
    room_mm = right - left
    blocks = (
        (plain(build.name), style.large_mm, 2),
        (_case(build), style.small_mm, 3),
        (summary(check), style.medium_mm, 4),
    )
    y = top - style.small_mm
    out: list[Item] = []
    for text, height_mm, most in blocks:
        bold = height_mm > style.small_mm
        lines = wrapped(text, height_mm, room_mm, bold=bold)
        for line in lines[:most]:
            y -= style.line_step * height_mm
            ink = Ink.BLACK if bold else Ink.SOFT
            out.append(
                Text(at=(left, y), text=line, height_mm=height_mm, bold=bold, ink=ink)
            )
        y -= 0.6 * style.small_mm if lines else 0.0
    return tuple(out), y


def _case(build: Build) -> str:
    """Return the case's name and inside sizes, as far as there is a case."""
    said = [f"in the case “{plain(build.case_name)}”"] if build.case_name else []
    if build.case_size_mm is not None:
        depth, height, width = map(length, build.case_size_mm)
        said.append(f"inside {depth} deep, {height} high, {width} wide")
    said += [build.stands.told] if build.stands.told else []
    return ", ".join(said)


def title_block(
    build: Build, plan: Plan, style: Style
) -> tuple[tuple[Item, ...], float]:
    """Return the title block at the column's lower right corner, and its upper edge."""
    left, bottom, right, _ = plan.column
    small = style.small_mm
    middle, top = bottom + _ROW * small, bottom + _BLOCK * small
    wide = _CELL * small
    edges = [right - 3 * wide, right - 2 * wide, right - wide]
    title = fitted(plain(build.name), small, edges[0] - left - small)
    scale = f"{plan.scale[0]}:{plan.scale[1]}"
    aside = plan.field[2]
    bar = scale_bar(plan.scale, (left, middle + 4.2 * small), style)
    out: list[Item] = [
        Line(points=((aside, top), (right, top)), pen=Pen.WIDE),
        Line(points=((aside, middle), (right, middle)), pen=Pen.NARROW),
        *(Line(points=((x, bottom), (x, middle)), pen=Pen.NARROW) for x in edges),
        *_cell(("title", title), (left, middle), style),
        *_cell(("scale", scale), (edges[0] + 0.6 * small, middle), style),
        *_cell(("sheet", plan.sheet.name), (edges[1] + 0.6 * small, middle), style),
        *_symbol((right - wide / 2, bottom + _ROW * small / 2)),
        *bar,
        Text(
            at=(left, middle + 1.3 * small),
            text=fitted(_CAUTION, small, right - left),
            height_mm=small,
            ink=Ink.SOFT,
        ),
    ]
    return tuple(out), top


def _cell(said: tuple[str, str], at: Point, style: Style) -> tuple[Item, ...]:
    (x, top), small = at, style.small_mm
    label, value = said
    return (
        Text(at=(x, top - 1.8 * small), text=label, height_mm=small, ink=Ink.SOFT),
        Text(at=(x, top - 4.2 * small), text=value, height_mm=small),
    )


def _symbol(centre: Point) -> tuple[Item, ...]:
    """Return the first-angle symbol: a cone, small end left, and its left view right.

    ISO 5456-2, by construction from memory.
    """
    x, y = centre
    small, large = 1.3, 2.6
    cone = (
        (x - 6.5, y - small),
        (x - 1.5, y - large),
        (x - 1.5, y + large),
        (x - 6.5, y + small),
        (x - 6.5, y - small),
    )
    return (
        Line(points=cone, pen=Pen.NARROW),
        Circle(centre=(x + 3.5, y), radius_mm=small),
        Circle(centre=(x + 3.5, y), radius_mm=large),
        Line(points=((x - 7.3, y), (x - 0.7, y)), pen=Pen.CENTRE),
        Line(points=((x + 0.1, y), (x + 6.9, y)), pen=Pen.CENTRE),
        Line(points=((x + 3.5, y - 3.4), (x + 3.5, y + 3.4)), pen=Pen.CENTRE),
    )
