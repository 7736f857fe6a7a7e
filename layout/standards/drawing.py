"""Drawing: lines, letters, sheets, scales, colours."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from layout.standards.figure import Figure, Standing, memory, secondary, seen
from layout.standards.sources import (
    BORDER_PAGE,
    COLOUR_NOTE,
    COLOUR_PAGE,
    DIMENSION_TEXTS,
    LETTERING_PAGE,
    LINE_PAGE,
    MUTED_PAGE,
    REDUCING_SCALES,
    SCALES,
    SHEET_PAGE,
    TITLE_PAGE,
)
from layout.values import dataclass

__all__ = [
    "ARROW_LENGTH_TO_WIDTH",
    "BORDER_LEFT",
    "BORDER_OTHER",
    "CONTRAST_SHAPES",
    "CONTRAST_TEXT",
    "DIMENSION_FROM_DIMENSION",
    "DIMENSION_FROM_OUTLINE",
    "ENLARGING",
    "FRAME_LINE",
    "LETTERING_HEIGHTS",
    "LETTERING_LINE_TO_HEIGHT",
    "LINES_APART",
    "LINE_WIDTHS",
    "PALETTES",
    "REDUCING",
    "SHEETS",
    "TITLE_BLOCK_WIDTH",
    "TITLE_FIELDS",
    "WIDE_TO_NARROW",
    "Palette",
    "Ratio",
    "Scales",
    "Sheet",
    "TitleField",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ratio:
    """A published number without a unit."""

    value: float
    standing: Standing
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet's two sides."""

    name: str
    short: Figure
    long: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Scales:
    """Standard scales, as the larger number of 1:n or n:1."""

    values: tuple[int, ...]
    standing: Standing
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TitleField:
    """A field of a title block; no limit is stated where the characters are None."""

    name: str
    most_characters: int | None
    mandatory: bool
    standing: Standing
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """A published set of colours by name, six hexadecimal digits each."""

    name: str
    colours: Mapping[str, str]
    standing: Standing
    source: str


LINE_WIDTHS: Final = (
    memory(0.13, "ISO 128-2, from memory"),
    *(seen(mm, LINE_PAGE) for mm in (0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0)),
)
WIDE_TO_NARROW: Final = Ratio(value=2.0, standing=Standing.SEEN, source=LINE_PAGE)
LINES_APART: Final = seen(0.7, LINE_PAGE)

LETTERING_HEIGHTS: Final = tuple(
    # The page prints 2,8 for 2.5; ISO 3098 has 2.5.
    seen(mm, LETTERING_PAGE)
    for mm in (1.8, 2.5, 3.5, 5.0, 7.0, 10.0, 14.0, 20.0)
)
LETTERING_LINE_TO_HEIGHT: Final = Ratio(
    value=0.1, standing=Standing.MEMORY, source="ISO 3098 type B, from memory"
)


def _sheet(name: str, short_mm: float, long_mm: float) -> Sheet:
    """Return a sheet of the A series."""
    return Sheet(
        name=name, short=seen(short_mm, SHEET_PAGE), long=seen(long_mm, SHEET_PAGE)
    )


SHEETS: Final[Mapping[str, Sheet]] = MappingProxyType(
    {
        "A4": _sheet("A4", 210.0, 297.0),
        "A3": _sheet("A3", 297.0, 420.0),
        "A2": _sheet("A2", 420.0, 594.0),
        "A1": _sheet("A1", 594.0, 841.0),
        "A0": _sheet("A0", 841.0, 1189.0),
    }
)
BORDER_LEFT: Final = secondary(20.0, BORDER_PAGE)
BORDER_OTHER: Final = secondary(10.0, BORDER_PAGE)
FRAME_LINE: Final = memory(0.7, "ISO 5457:1999, from memory")

REDUCING: Final = Scales(
    values=(2, 5, 10, 20, 50, 100), standing=Standing.SEEN, source=REDUCING_SCALES
)
"""1:2, 1:5, 1:10 and their multiples by ten."""
ENLARGING: Final = Scales(
    values=(2, 5, 10, 20, 50), standing=Standing.SEEN, source=SCALES
)

DIMENSION_FROM_OUTLINE: Final = secondary(10.0, f"{DIMENSION_TEXTS}, at least")
DIMENSION_FROM_DIMENSION: Final = secondary(
    6.0, f"{DIMENSION_TEXTS}, at least; one says 8"
)
ARROW_LENGTH_TO_WIDTH: Final = Ratio(
    value=3.0, standing=Standing.SECONDARY, source=DIMENSION_TEXTS
)

TITLE_BLOCK_WIDTH: Final = memory(180.0, "ISO 7200, from memory, at most")


def _field(
    name: str, most_characters: int | None, *, mandatory: bool = True
) -> TitleField:
    """Return a field of the title block standard."""
    return TitleField(
        name=name,
        most_characters=most_characters,
        mandatory=mandatory,
        standing=Standing.SEEN,
        source=TITLE_PAGE,
    )


TITLE_FIELDS: Final = (
    _field("legal owner", None),
    _field("identification number", 16),
    _field("date of issue", 10),
    _field("sheet number", 4),
    _field("title", 25),
    _field("approval person", 20),
    _field("creator", 20),
    _field("document type", 30),
    _field("revision index", 2, mandatory=False),
    _field("number of sheets", 4, mandatory=False),
    _field("language code", 4, mandatory=False),
    _field("supplementary title", 25, mandatory=False),
    _field("responsible department", 10, mandatory=False),
    _field("technical reference", 20, mandatory=False),
)

_CONTRAST_SOURCE = "WCAG 2, success criteria 1.4.3 and 1.4.11, from memory"
CONTRAST_TEXT: Final = Ratio(
    value=4.5, standing=Standing.MEMORY, source=_CONTRAST_SOURCE
)
CONTRAST_SHAPES: Final = Ratio(
    value=3.0, standing=Standing.MEMORY, source=_CONTRAST_SOURCE
)


def _palette(name: str, source: str, colours: dict[str, str]) -> Palette:
    """Return a palette that was seen."""
    return Palette(
        name=name,
        colours=MappingProxyType(colours),
        standing=Standing.SEEN,
        source=source,
    )


PALETTES: Final[Mapping[str, Palette]] = MappingProxyType(
    {
        each.name: each
        for each in (
            _palette(
                "universal",
                COLOUR_PAGE,
                {
                    "orange": "E69F00",
                    "sky blue": "56B4E9",
                    "bluish green": "009E73",
                    "yellow": "F0E442",
                    "blue": "0072B2",
                    "vermillion": "D55E00",
                    "reddish purple": "CC79A7",
                    "black": "000000",
                },
            ),
            _palette(
                "bright",
                COLOUR_NOTE,
                {
                    "blue": "4477AA",
                    "red": "EE6677",
                    "green": "228833",
                    "yellow": "CCBB44",
                    "cyan": "66CCEE",
                    "purple": "AA3377",
                    "grey": "BBBBBB",
                },
            ),
            _palette(
                "high contrast",
                COLOUR_NOTE,
                {"blue": "004488", "yellow": "DDAA33", "red": "BB5566"},
            ),
            _palette(
                "vibrant",
                COLOUR_NOTE,
                {
                    "orange": "EE7733",
                    "blue": "0077BB",
                    "cyan": "33BBEE",
                    "magenta": "EE3377",
                    "red": "CC3311",
                    "teal": "009988",
                    "grey": "BBBBBB",
                },
            ),
            _palette(
                "muted",
                MUTED_PAGE,
                {
                    "indigo": "332288",
                    "cyan": "88CCEE",
                    "teal": "44AA99",
                    "green": "117733",
                    "olive": "999933",
                    "sand": "DDCC77",
                    "rose": "CC6677",
                    "wine": "882255",
                    "purple": "AA4499",
                    "pale grey": "DDDDDD",
                },
            ),
        )
    }
)
"""Sets stated to be safe for colour-blind readers; none is to be interpolated."""
