"""What is on every sheet: the frame line, title and verdict."""

from __future__ import annotations

from typing import Final

from layout.build.placed import Build
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.lettering import plain, unbroken, wrapped
from layout.drawing.paper.scene import Ink, Item, Line, Pen, Scene, Text
from layout.drawing.paper.style import Style
from layout.drawing.paper.words import length, summary
from layout.drawing.sheets.sheet import Plan, Share
from layout.drawing.views.compared import Before, in_another_case, only_in
from layout.geometry.bodies.turn import UPRIGHT
from layout.parts.form.form import Role
from layout.questions.findings.finding import Check

__all__ = ["border", "heading", "parted"]

_QUARTER: Final = "the board turned a quarter, its connectors at the top"


def border(plan: Plan) -> tuple[Item, ...]:
    """Return the frame line, and the line between the views and the text."""
    left, bottom, right, top = plan.sheet.border
    corners = ((left, bottom), (right, bottom), (right, top), (left, top))
    column = plan.column
    edge = ((column[0], column[1]), (column[0], column[3]))
    if plan.sheet.stands:
        edge = ((column[0], column[3]), (column[2], column[3]))
    return (
        Line(points=(*corners, corners[0]), pen=Pen.FRAME),
        Line(points=edge, pen=Pen.NARROW),
    )


def parted(sheet: Scene) -> tuple[Frame, Frame]:
    """Return the room of the views on a sheet and that of its text, by its border."""
    frame, edge, *_ = (each.points for each in sheet.items if isinstance(each, Line))
    (left, bottom), _, (right, top), *_ = frame
    (x, y), (across, _) = edge
    if x == across:
        return (left, bottom, x, top), (x, bottom, right, top)
    return (left, y, right, top), (left, bottom, right, y)


def heading(
    build: Build,
    check: Check,
    column: Frame,
    *,
    style: Style,
    share: Share,
    before: Before | None = None,
) -> tuple[tuple[Item, ...], float]:
    """Return title and verdict at the head of the column, and where they end."""
    left, _, right, top = column
    room_mm = right - left
    blocks = (
        (plain(build.name), style.large_mm),
        (_case(build), style.small_mm),
        (_compared(before, build), style.small_mm),
        (unbroken(summary(check)), style.medium_mm),
        (_continued(share), style.small_mm),
    )
    y = top - style.small_mm
    out: list[Item] = []
    for text, height_mm in blocks:
        bold = height_mm > style.small_mm
        lines = wrapped(text, height_mm, room_mm, bold=bold)
        for line in lines:
            y -= style.line_step * height_mm
            ink = Ink.BLACK if bold else Ink.SOFT
            out.append(
                Text(at=(left, y), text=line, height_mm=height_mm, bold=bold, ink=ink)
            )
        y -= 0.6 * style.small_mm if lines else 0.0
    return tuple(out), y


def _compared(before: Before | None, build: Build) -> str:
    """Return what the build is compared with, and which parts one of them lacks."""
    if before is None:
        return ""
    was = before.build
    said = f"compared with “{plain(was.name)}”"
    if in_another_case(was, build):
        said += f" {_case(was)}" if was.case_name else ""
    said = f"{said}, of which this was said: {summary(before.check)}"
    for words, parts in (("New", only_in(build, was)), ("Gone", only_in(was, build))):
        if parts:
            said += f" {words}: {plain(', '.join(parts))}."
    return said


def _continued(share: Share) -> str:
    """Return where a further sheet goes on."""
    if share.number == 1:
        return ""
    return f"continued from sheet {share.number - 1}: row {share.first + 1} and on"


def _case(build: Build) -> str:
    """Return the case's name and inside sizes, as far as there is a case."""
    said = [f"in the case “{plain(build.case_name)}”"] if build.case_name else []
    if build.case_size_mm is not None:
        depth, height, width = map(length, build.case_size_mm)
        said.append(f"inside {depth} deep, {height} high, {width} wide")
    boards = (each for each in build.bodies if each.role is Role.BOARD)
    said += [_QUARTER] if any(each.turn != UPRIGHT for each in boards) else []
    said += [build.stands.told] if build.stands.told else []
    return ", ".join(said)
