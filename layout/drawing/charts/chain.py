"""A dimension chain: how a gap comes about, step by step along one line."""

from __future__ import annotations

from typing import Final

from layout.drawing.charts.chain_rows import Field, high_mm, rows, that_matter, ways
from layout.drawing.paper.boxes import Frame
from layout.drawing.paper.lettering import fitted, plain, wrapped
from layout.drawing.paper.scene import Ink, Item, Line, Pen, Scene, Text
from layout.drawing.paper.style import STYLE
from layout.drawing.paper.words import length, named, outcome
from layout.drawing.sheets.sheet import NAMED, Sheet
from layout.parts.form.link import said_mm
from layout.questions.findings.advice import percent
from layout.questions.findings.explanation import NOTHING_OFF, Explanation

__all__ = ["chain_scene"]

_SMALL: Final = STYLE.small_mm


def chain_scene(told: Explanation) -> Scene:
    """Return the drawing of one finding's chain: its steps, its figures, their shares.

    Steps are to scale among themselves; the sheet says that it has no scale.
    """
    (a4, _), (a3, _) = NAMED["A4"], NAMED["A3"]
    sheet = a4 if high_mm(told) < a4.height_mm - 80.0 else a3
    left, bottom, right, top = sheet.border
    head, y = _head(told, (left + 5.0, bottom, right - 5.0, top - 4.0))
    a_way, b_way = ways(told)
    places = [0.0, told.room_mm] if told.closes else []
    places += [
        place for step in (*a_way, *b_way) for place in (step.from_mm, step.to_mm)
    ]
    least, most = min(places), max(places)
    field = Field(
        (left + 5.0, bottom, right - 5.0, y),
        least,
        most if most > least else least + 1.0,
    )
    return Scene(
        title=plain(told.finding.id),
        description=f"Dimension chain of {told.finding.id}",
        width_mm=sheet.width_mm,
        height_mm=sheet.height_mm,
        scale=(1, 1),
        items=(*_border(sheet), *head, *rows(told, field), *_foot(told, field)),
    )


def _border(sheet: Sheet) -> tuple[Item, ...]:
    left, bottom, right, top = sheet.border
    corners = ((left, bottom), (right, bottom), (right, top), (left, top))
    return (Line(points=(*corners, corners[0]), pen=Pen.FRAME),)


def _head(told: Explanation, frame: Frame) -> tuple[tuple[Item, ...], float]:
    left, _, right, y = frame
    finding = told.finding
    names = [named(each) for each in (finding.a, finding.b) if each]
    between = " \N{EN DASH} ".join(names)
    number = f"{told.number}  " if told.number else ""
    y -= 7.0
    out: list[Item] = [
        Text(
            at=(left, y),
            text=fitted(f"{number}{between}", STYLE.large_mm, right - left, bold=True),
            height_mm=STYLE.large_mm,
            bold=True,
        )
    ]
    need = "" if finding.b is None else f" ({length(finding.need_mm or 0.0)} mm needed)"
    said = f"{outcome(finding)}: {finding.why}{need}"
    for line in wrapped(plain(said), STYLE.medium_mm, right - left)[:2]:
        y -= 6.5
        out.append(Text(at=(left, y), text=line, height_mm=STYLE.medium_mm))
    y -= 5.0
    build = fitted(plain(told.build), _SMALL, right - left)
    out.append(Text(at=(left, y), text=build, height_mm=_SMALL, ink=Ink.SOFT))
    return tuple(out), y - 6.0


def _foot(told: Explanation, field: Field) -> tuple[Item, ...]:
    """Return the sums, what they rest on, and the caution."""
    left, bottom, right, _ = field.frame
    sums, rests = NOTHING_OFF, ""
    if told.chain:
        sums = (
            f"± {said_mm(told.rss_mm)} by root sum of squares, "
            f"± {said_mm(told.worst_mm)} if every figure is off at once; "
            f"chance of less than the need: {percent(told.chance)}"
        )
        rests = (
            "if every figure scatters normally and by itself, its ± at 3 standard "
            "deviations. Bars: shares of the variance; orange: assumed."
        )
    if not told.closes and len(that_matter(told)) < len(told.chain):
        rests += " Under 0.5 %: left out."
    caution = (
        "Sizes in mm; steps to one another's scale. Not a safety approval: measure "
        "before ordering."
    )
    lines = tuple(filter(None, (sums, rests, caution)))
    return tuple(
        Text(
            at=(left, bottom + 4.0 + 4.6 * (len(lines) - 1 - row)),
            text=fitted(line, _SMALL, right - left),
            height_mm=_SMALL,
            bold=row == 0,
            ink=Ink.BLACK if row == 0 else Ink.SOFT,
        )
        for row, line in enumerate(lines)
    )
