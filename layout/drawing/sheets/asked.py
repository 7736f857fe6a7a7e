"""What a user asks of a drawing in words: which sheet, what the title block states."""

from __future__ import annotations

import re

from layout.drawing.sheets.sheet import CHOSEN_FROM, NAMED, Sheet
from layout.drawing.sheets.title_block import Title
from layout.errors import LayoutError

__all__ = ["AskedError", "checked", "sheets_named"]

_WAYS = {"landscape": 0, "portrait": 1}


class AskedError(LayoutError, ValueError):
    """What is asked of a drawing cannot be done."""


def sheets_named(words: str | None) -> tuple[Sheet, ...]:
    """Return the sheets that words name; without words those a workshop prints.

    Raises
    ------
    AskedError
        If there is no such sheet.

    Examples
    --------
    >>> [each.width_mm for each in sheets_named("a3 portrait")]
    [297.0]
    >>> [each.width_mm for each in sheets_named("A2")]
    [594.0, 420.0]
    """
    if words is None:
        return CHOSEN_FROM
    name, *way = re.split(r"[\s-]+", words.strip())
    sheets = NAMED.get(name.upper())
    if sheets is None or len(way) > 1 or not {*way} <= {*_WAYS}:
        raise AskedError(
            f"--sheet: found {words!r}; one of {', '.join(NAMED)}, as it is or with "
            f"{' or '.join(_WAYS)}, would be right"
        )
    return (sheets[_WAYS[way[0]]],) if way else sheets


def checked(title: Title) -> Title:
    """Return what a title block states, if its fields hold it (ISO 7200).

    Raises
    ------
    AskedError
        If a text is too long.
    """
    for name, text, most in title.too_long():
        raise AskedError(
            f"the title block's {name}: found {text!r}, {len(text)} characters; "
            f"at most {most} would be right (ISO 7200)"
        )
    return title
