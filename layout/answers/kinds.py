"""The kinds of parts for readers: every field, and the sizes that are published."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum
from typing import Any

from layout.answers.grid import Column, grid, paragraph
from layout.parts.form.reading import Reading, Readings
from layout.parts.kinds.described import FieldPage, KindPage, Value
from layout.parts.kinds.published import Published
from layout.standards.figure import Figure

__all__ = ["kind_as_json", "kind_as_text", "list_as_json", "list_as_text"]


def list_as_json(pages: Iterable[KindPage]) -> dict[str, Any]:
    """Return the object that ``parts --json`` prints."""
    return {"schema": 1, "units": "mm", "kinds": [_kind(each) for each in pages]}


def kind_as_json(page: KindPage) -> dict[str, Any]:
    """Return the object that ``parts KIND --json`` prints."""
    return {"schema": 1, "units": "mm", **_kind(page)}


def _kind(page: KindPage) -> dict[str, Any]:
    return {
        "kind": page.kind,
        "summary": page.summary,
        "fields": [_field(each) for each in page.fields],
        "published": [_published(each) for each in page.published],
    }


def _field(field: FieldPage) -> dict[str, Any]:
    return {
        "field": field.name,
        "unit": field.unit or None,
        "meaning": field.meaning,
        "right": field.right,
        "required": field.required,
        "default": _value(field.default),
        "measured_from": _readings(field.readings) if field.readings else None,
    }


def _value(value: Value) -> Any:  # noqa: ANN401  (what JSON can hold)
    """Return a default: a figure with its source, a word, a number."""
    if isinstance(value, Figure):
        return _figure(value)
    if isinstance(value, Enum):
        return value.value
    return [_value(each) for each in value] if isinstance(value, tuple) else value


def _figure(figure: Figure) -> dict[str, Any]:
    return {
        "mm": figure.mm,
        "plus_minus_mm": figure.plus_minus_mm,
        "assumed": figure.assumed,
        "standing": figure.standing.value,
        "source": figure.source,
    }


def _readings(readings: Readings) -> dict[str, Any]:
    return {
        "usual": readings.usual,
        "plus_minus_mm": readings.plus_minus_mm,
        "others": [
            {
                "reading": each.name,
                "meaning": each.meaning,
                "add_mm": each.sign * each.step.mm if each.step else None,
                "step": _figure(each.step) if each.step else None,
            }
            for each in readings.others
        ],
    }


def _published(table: Published) -> dict[str, Any]:
    return {
        "title": table.title,
        "rows": [
            {
                "name": row.name,
                "figures": [
                    {"figure": word or None, **_figure(figure)}
                    for word, figure in row.figures
                ],
            }
            for row in table.rows
        ],
    }


def list_as_text(
    pages: Iterable[KindPage], *, width: int = 80, in_colour: bool = False
) -> str:
    """Return the kinds, one a line."""
    columns = (Column("kind"), Column("fields", number=True), Column("what it is"))
    lines = [(each.kind, str(_outer(each)), each.summary) for each in pages]
    table = grid(columns, lines, width=width, in_colour=in_colour)
    return f"{table}\n\n{paragraph(_HOW, width)}"


_HOW = "case-layout parts KIND tells the fields of one, and the sizes published for it."


def _outer(page: KindPage) -> int:
    return sum(not each.inside for each in page.fields)


_FIELDS = (
    Column("field"),
    Column("what belongs there"),
    Column("default"),
    Column("meaning"),
)


def kind_as_text(page: KindPage, *, width: int = 80, in_colour: bool = False) -> str:
    """Return a kind's fields, what they are measured from, and published sizes."""
    lines = [
        (each.name, each.right, _default(each), each.meaning) for each in page.fields
    ]
    blocks = [
        paragraph(f"{page.kind}: {page.summary}", width),
        grid(_FIELDS, lines, width=width, in_colour=in_colour),
        _sources(page, width),
        _measured(page, width),
        *(_sizes(each, width=width, in_colour=in_colour) for each in page.published),
    ]
    return "\n\n".join(each for each in blocks if each)


def _default(field: FieldPage) -> str:
    if field.required:
        return "(needed)"
    value = field.default
    if isinstance(value, Figure):
        return _shown(value)
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "" if value in (None, ()) else str(value)


def _shown(figure: Figure) -> str:
    """Return a figure, its plus-minus, and a star where it is assumed."""
    off_mm = figure.plus_minus_mm
    scatter = f" ± {off_mm:g}" if off_mm else ""
    return f"{figure.mm:g}{scatter}{' *' if figure.assumed else ''}"


def _sources(page: KindPage, width: int) -> str:
    """Return where each default figure comes from."""
    told = [
        f"{each.name}: {_standing(each.default)}"
        for each in page.fields
        if isinstance(each.default, Figure)
    ]
    return _listed("Defaults (* assumed: no data sheet gives it)", told, width)


def _standing(figure: Figure) -> str:
    standing, source = figure.standing.value, figure.source
    return source if source == standing else f"{source} ({standing})"


def _measured(page: KindPage, width: int) -> str:
    """Return the readings of every figure that has several."""
    told = [
        f"{each.name}: {_told(each.readings)}" for each in page.fields if each.readings
    ]
    return _listed("Measured from (the usual reading first)", told, width)


def _told(readings: Readings) -> str:
    usual = f"'{readings.usual}'"
    if readings.plus_minus_mm is not None:
        usual += f", ± {readings.plus_minus_mm:g} unless stated"
    return "; ".join([usual, *map(_other, readings.others)])


def _other(reading: Reading) -> str:
    """Return a reading, and how the usual one comes from it."""
    told = f"'{reading.name}', {reading.meaning}"
    if reading.step is None:
        return told
    does = "add" if reading.sign > 0 else "take off"
    return f"{told}: {does} {_shown(reading.step)} ({_standing(reading.step)})"


def _listed(title: str, lines: list[str], width: int) -> str:
    if not lines:
        return ""
    told = [paragraph(f"- {each}", width - 2).replace("\n", "\n  ") for each in lines]
    return "\n".join([f"{title}:", *told])


_SIZES = (Column("what"), Column("mm"), Column("source"))


def _sizes(table: Published, *, width: int, in_colour: bool) -> str:
    lines = [
        (
            row.name,
            ", ".join(
                f"{word} {_shown(figure)}".strip() for word, figure in row.figures
            ),
            "; ".join(dict.fromkeys(_standing(figure) for _, figure in row.figures)),
        )
        for row in table.rows
    ]
    return f"Published, {table.title}:\n" + grid(
        _SIZES, lines, width=width, in_colour=in_colour
    )
