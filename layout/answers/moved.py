"""Positions for readers: one line for each, the best, and what is clear between."""

from __future__ import annotations

from typing import Any

from layout.answers.grid import Column, grid, paragraph, verdict
from layout.questions.findings.shown import shown
from layout.questions.moving.positions import Position, Positions, Row

__all__ = ["as_json", "as_table", "closing", "named"]


def as_json(told: Positions) -> dict[str, Any]:
    """Return the object that ``positions --json`` prints."""
    return {
        "moved": told.moved[0] if len(told.moved) == 1 else list(told.moved),
        "rows": [
            {
                "position": _plain(row.position),
                "verdict": row.verdict.value,
                "least_margin_mm": row.least_margin_mm,
                "limited_by": list(row.limited_by) if row.limited_by else None,
            }
            for row in told.rows
        ],
        "clear_mm": [list(stretch) for stretch in told.clear_mm],
        "best": _plain(told.best),
    }


def _plain(position: Position | None) -> str | float | list[str] | None:
    return list(position) if isinstance(position, tuple) else position


def named(position: Position) -> str:
    """Return a position in words.

    Examples
    --------
    >>> named("front"), named(12.5), named(("front", "intake up"))
    ('front', '12.5', 'front, intake up')
    """
    if isinstance(position, tuple):
        return ", ".join(position)
    return position if isinstance(position, str) else f"{position:g}"


def as_table(told: Positions, *, width: int = 80, in_colour: bool = False) -> str:
    """Return the positions as a table, then what they come to."""
    title = "shift mm" if told.axis else "position"
    columns = (
        Column(title, number=told.axis is not None),
        Column("verdict"),
        Column("least margin mm", number=True),
        Column("limited by"),
    )
    lines = [
        (
            named(row.position),
            verdict(row.verdict.value),
            shown(row.least_margin_mm, signed=True),
            _limit(row),
        )
        for row in told.rows
    ]
    table = grid(columns, lines, width=width, in_colour=in_colour)
    return "\n\n".join([table, *(paragraph(each, width) for each in closing(told))])


def _limit(row: Row) -> str:
    between = " \N{EN DASH} ".join(row.limited_by or ())
    return "; ".join(filter(None, (between, row.note)))


def closing(told: Positions) -> tuple[str, ...]:
    """Return what the positions come to, in sentences."""
    said = []
    if told.axis is not None:
        said.append(
            f"Shifts run along {told.axis.value} from where it stands now: "
            f"{told.reason}."
        )
        said.append(f"Clear: {_stretches(told)}.")
    row = next((each for each in told.rows if each.position == told.best), None)
    if row is not None:
        margin = shown(row.least_margin_mm, signed=True)
        spare = f" ({margin} mm)" if margin else ""
        word = "Best" if not row.verdict.fails else "None works; nearest"
        said.append(f"{word}: {named(row.position)}{spare}, {row.verdict.value}.")
    if told.bends:
        ids = ", ".join(each.id for each in told.bends)
        said.append(f"There cables lack room to bend: {ids}.")
    said.append(
        "Verdicts are of what names the part or what it carries, by distance and holes."
    )
    if told.elsewhere:
        ids = ", ".join(each.id for each in told.elsewhere)
        said.append(f"Not clear besides, whatever the position: {ids}.")
    return tuple(said)


def _stretches(told: Positions) -> str:
    if not told.clear_mm:
        return "nowhere on this travel"
    return ", ".join(f"{low:.2f} to {high:.2f} mm" for low, high in told.clear_mm)
