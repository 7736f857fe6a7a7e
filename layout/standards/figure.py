"""A figure with its unit, its scatter, and where it comes from."""

from __future__ import annotations

from enum import Enum

from layout.values import dataclass

__all__ = [
    "COMMON_PRACTICE",
    "Figure",
    "Restated",
    "Standing",
    "calculated",
    "given",
    "memory",
    "practice",
    "secondary",
    "seen",
]

COMMON_PRACTICE = "common practice, no source"


class Standing(Enum):
    """How far a figure can be trusted."""

    SEEN = "seen in the source"
    SECONDARY = "seen in a secondary source"
    CALCULATED = "calculated from seen figures"
    MEMORY = "from memory, unverified"
    PRACTICE = COMMON_PRACTICE
    GIVEN = "given in the file"
    TAPED = "taped"


@dataclass(frozen=True, slots=True, kw_only=True)
class Restated:
    """How a figure was given before it was told in its usual reading.

    ``step`` lies between the two readings, added or taken off as ``sign`` says; what
    it may be off by joins the figure's own plus-minus.  ``between`` names it, and
    ``assumed`` says whether the figure itself is.
    """

    mm: float
    reading: str
    step: Figure
    sign: int = -1
    between: str = ""
    assumed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A length in mm, its plus-minus and its source.

    ``plus_minus_mm`` None means that nobody stated one: the user of the figure
    takes the general tolerance for its size and class.  ``assumed`` marks a
    figure that no data sheet gives: its plus-minus is its known scatter.
    ``reading`` says what it is measured from, where the trade has several ways, and
    ``restated`` how it was given where that was another one.
    """

    mm: float
    plus_minus_mm: float | None = None
    standing: Standing
    source: str
    assumed: bool = False
    reading: str = ""
    restated: Restated | None = None

    @property
    def verified(self) -> bool:
        """Tell whether the figure may stand without a warning."""
        return self.standing in _VERIFIED


_VERIFIED = frozenset(
    {Standing.SEEN, Standing.CALCULATED, Standing.GIVEN, Standing.TAPED}
)


def given(mm: float, plus_minus_mm: float | None = None) -> Figure:
    """Return a figure that the user has written down."""
    return Figure(
        mm=mm,
        plus_minus_mm=plus_minus_mm,
        standing=Standing.GIVEN,
        source="given in the file",
    )


def seen(mm: float, source: str, plus_minus_mm: float | None = None) -> Figure:
    """Return a figure read in the text of its source."""
    return Figure(
        mm=mm,
        plus_minus_mm=plus_minus_mm,
        standing=Standing.SEEN,
        source=source,
    )


def secondary(
    mm: float,
    source: str,
    plus_minus_mm: float | None = None,
    *,
    assumed: bool = False,
) -> Figure:
    """Return a figure that someone else copied; the document was not opened."""
    return Figure(
        mm=mm,
        plus_minus_mm=plus_minus_mm,
        standing=Standing.SECONDARY,
        source=source,
        assumed=assumed,
    )


def calculated(mm: float, source: str, plus_minus_mm: float | None = None) -> Figure:
    """Return a figure worked out from seen ones; the source shows the sum."""
    return Figure(
        mm=mm,
        plus_minus_mm=plus_minus_mm,
        standing=Standing.CALCULATED,
        source=source,
    )


def memory(
    mm: float,
    source: str,
    plus_minus_mm: float | None = None,
    *,
    assumed: bool = False,
) -> Figure:
    """Return a figure that no text confirmed; the source says where to look."""
    return Figure(
        mm=mm,
        plus_minus_mm=plus_minus_mm,
        standing=Standing.MEMORY,
        source=source,
        assumed=assumed,
    )


def practice(
    mm: float, plus_minus_mm: float | None = None, *, assumed: bool = False
) -> Figure:
    """Return a figure that the trade uses and no document states."""
    return Figure(
        mm=mm,
        plus_minus_mm=plus_minus_mm,
        standing=Standing.PRACTICE,
        source=COMMON_PRACTICE,
        assumed=assumed,
    )
