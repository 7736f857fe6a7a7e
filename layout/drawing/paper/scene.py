"""The scene: every line, area, letter and dimension of a sheet, in mm on paper.

The origin is the sheet's lower left corner, x grows to the right and y upwards.  A
scene knows no drawing library: it is what tests compare, and what is then drawn.
"""

from __future__ import annotations

import dataclasses
import json
from enum import Enum
from typing import Any, TypeAlias

from layout.values import dataclass

__all__ = [
    "Align",
    "Area",
    "Balloon",
    "Circle",
    "Dimension",
    "Hatch",
    "Ink",
    "Item",
    "Leader",
    "Line",
    "Mark",
    "Pen",
    "Point",
    "Scene",
    "Subject",
    "Text",
    "as_json",
]

Point: TypeAlias = tuple[float, float]


class Pen(Enum):
    """Width and dashes of a line; the style says how wide."""

    WIDE = "wide continuous"
    NARROW = "narrow continuous"
    HIDDEN = "narrow dashed"
    CENTRE = "narrow long-dash dot"
    PLACE = "narrow long-dash double-dot"
    HEAVY = "extra wide continuous"
    FRAME = "frame of the sheet"


class Ink(Enum):
    """What a colour stands for; the style says which colour it is."""

    BLACK = "black"
    SOFT = "secondary lettering and outlines"
    HATCH = "hatching"
    FAINT = "rules of a table"
    WHITE = "paper"
    SHEET = "case sheet"
    BOARD = "board"
    MEMORY = "memory"
    COOLER = "cooler"
    RADIATOR = "radiator"
    FAN = "fan"
    CARD = "card"
    SUPPLY = "supply"
    DRIVE = "drive"
    BLOCK = "other part"
    CLEAR = "clear"
    TIGHT = "tight"
    FAIL = "short or clashing"
    LEAD = "plug or lead"


class Hatch(Enum):
    """A pattern that tells a fill apart without its colour."""

    RISING = "rising"
    FALLING = "falling"
    UPRIGHT = "upright"
    LEVEL = "level"
    GRID = "grid"
    LATTICE = "lattice"
    BROKEN = "broken level"
    STEEP = "steep"
    CLASH = "clash lattice"


class Align(Enum):
    """Which end of a line of text its place names."""

    LEFT = "left"
    CENTRE = "center"
    RIGHT = "right"


class Mark(Enum):
    """The form of a numbered balloon: one for each verdict, told apart in grey."""

    RING = "ring"
    DOUBLE_RING = "double ring"
    DIAMOND = "filled diamond"
    STAR = "filled star"
    SQUARE = "filled square"


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line through points."""

    points: tuple[Point, ...]
    pen: Pen
    ink: Ink = Ink.BLACK
    ref: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """A polygon with holes; ``pen`` None leaves its edge to other items."""

    outer: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...] = ()
    fill: Ink | None = None
    hatch: Hatch | None = None
    pen: Pen | None = None
    edge: Ink = Ink.BLACK
    ref: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A circle."""

    centre: Point
    radius_mm: float
    fill: Ink | None = None
    pen: Pen = Pen.NARROW
    edge: Ink = Ink.BLACK


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of text.

    Parameters
    ----------
    at : Point
        On the base line, at the end that ``align`` names.
    height_mm : float
        Height of a capital.
    turned : bool
        Whether the line reads upwards instead of to the right.
    backed : bool
        Whether paper shows behind the letters instead of what lies there.
    """

    at: Point
    text: str
    height_mm: float
    align: Align = Align.LEFT
    turned: bool = False
    bold: bool = False
    backed: bool = False
    ink: Ink = Ink.BLACK
    ref: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """A dimension line between two points, in the manner of ISO 129.

    Parameters
    ----------
    from_mm, to_mm : Point
        The points measured between.
    start, end : Point
        Ends of the dimension line, abreast of the points.
    outside : bool
        Whether the arrows stand outside and point at one another.
    text : Text or None
        The value; None where a balloon beside it carries the value.
    """

    from_mm: Point
    to_mm: Point
    start: Point
    end: Point
    outside: bool = False
    arrow_mm: float
    pen: Pen = Pen.NARROW
    ink: Ink = Ink.BLACK
    text: Text | None = None
    ref: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Balloon:
    """A finding's number in its mark, with a leader to the place it speaks of.

    ``leader`` runs from the mark to the place; empty where the two meet.
    """

    number: int
    centre: Point
    radius_mm: float
    mark: Mark
    leader: tuple[Point, ...] = ()
    value: Text | None = None
    ref: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leader:
    """A line from a name to the part that it names, where it ends in a dot."""

    points: tuple[Point, ...]
    ref: str = ""


Item: TypeAlias = Line | Area | Circle | Text | Dimension | Balloon | Leader


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """What items with one ``ref`` show: a part's body or a finding.

    Parameters
    ----------
    id : str
        For a file that names what it shows: letters, digits and hyphens.
    told : str
        What a reader is told who points at it.
    """

    ref: str
    id: str
    told: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """A sheet of paper with everything on it, in the order in which it is drawn.

    Parameters
    ----------
    width_mm, height_mm : float
        The sheet.
    scale : (int, int)
        The scale as it is printed: (1, 2) for 1:2.
    """

    title: str
    description: str
    width_mm: float
    height_mm: float
    scale: tuple[int, int]
    items: tuple[Item, ...]
    subjects: tuple[Subject, ...] = ()


def as_json(scene: Scene) -> str:
    """Return the scene as text that can be compared: sorted, to 1e-6 mm.

    One item stands on one line, so that a difference names what differs.
    """
    whole = _plain(scene)
    rows = ",\n".join(_line(each) for each in whole["items"])
    frame = json.dumps(
        {**whole, "items": []}, sort_keys=True, indent=1, ensure_ascii=False
    )
    # quotes within texts are escaped, so this stands there once
    return frame.replace('"items": []', f'"items": [\n{rows}\n ]') + "\n"


def _line(item: object) -> str:
    return json.dumps(
        item, sort_keys=True, ensure_ascii=False, separators=(",", ":"), allow_nan=False
    )


def _plain(value: object) -> Any:  # noqa: ANN401 - what JSON can say
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        fields = {
            each.name: _plain(getattr(value, each.name))
            for each in dataclasses.fields(value)
        }
        return {"is": type(value).__name__.lower(), **fields}
    if isinstance(value, tuple):
        return [_plain(each) for each in value]
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, float):
        return round(value, 6) + 0.0
    return value
