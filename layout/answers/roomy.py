"""Headroom for readers: now, the largest that clears, what is left, what limits it."""

from __future__ import annotations

from typing import Any

from rich.text import Text

from layout.answers.grid import Column, grid, paragraph
from layout.questions.case.faces import Face
from layout.questions.findings.shown import down, shown, trimmed
from layout.questions.growing.headroom import LIMIT_MM, Headroom, Room

__all__ = ["as_json", "as_table"]


def as_json(told: Headroom) -> dict[str, Any]:
    """Return the object that ``headroom --json`` prints."""
    return {
        "rows": [
            {
                "part": row.part,
                "dimension": row.dimension,
                "now_mm": row.now_mm,
                "largest_mm": row.largest_mm,
                "limited_by": list(row.limited_by) if row.limited_by else None,
                "rule": row.rule,
            }
            for row in told.rows
        ],
        **({"faces": [_face(each) for each in told.faces]} if told.faces else {}),
    }


def _face(face: Face) -> dict[str, Any]:
    return {
        "mount": face.name,
        "together": [
            [{"size": size, "count": count} for size, count in choice]
            for choice in face.choices
        ],
    }


_COLUMNS = (
    Column("part"),
    Column("dimension"),
    Column("now mm", number=True),
    Column("largest", number=True),
    Column("left", number=True),
    Column("limited by"),
)


def as_table(told: Headroom, *, width: int = 80, in_colour: bool = False) -> str:
    """Return the dimensions as a table, then what else is to be said."""
    lines = [_line(row) for row in told.rows]
    said = [
        "Largest: with all else as built, nothing of the part is short or clashes.",
        *(f"{note[0].upper()}{note[1:]}." for note in told.notes),
    ]
    if any(row.but_for_mm is not None for row in told.rows):
        said.insert(1, "In brackets: but for what no such figure mends, told below.")
    if told.faces:
        said.append("Fans side by side, whatever is there now (radiators likewise):")
        said += [f"  {face.name}: {face.told}." for face in told.faces]
    if told.elsewhere:
        ids = ", ".join(each.id for each in told.elsewhere)
        said.append(f"Reach and hook-up are not looked at here; not clear: {ids}.")
    table = grid(_COLUMNS, lines, width=width, in_colour=in_colour)
    return "\n\n".join([table, *(paragraph(each, width) for each in said)])


def _line(row: Room) -> list[str | Text]:
    if row.largest_mm is None:
        free = row.limited_by is None
        largest = "any" if free else "none fits"
        if row.but_for_mm is not None:
            largest = f"({down(row.but_for_mm)})"
    else:
        largest = down(row.largest_mm)
    left = "" if row.left_out else shown(row.left_mm, signed=True)
    style = "" if row.fits else "bold red"
    return [
        row.part,
        row.dimension,
        "\N{EN DASH}" if row.left_out else trimmed(row.now_mm),
        Text(largest, style=style),
        Text(left, style=style),
        _limit(row),
    ]


def _limit(row: Room) -> str:
    """Return what limits a figure, or how far nothing does."""
    if row.limited_by:
        between = " \N{EN DASH} ".join(row.limited_by)
        return f"{between} ({row.rule})" if row.rule else between
    end = "the most a file may give" if row.end_mm < LIMIT_MM else "as far as looked"
    return f"nothing, up to {row.end_mm:g} mm ({end})"
