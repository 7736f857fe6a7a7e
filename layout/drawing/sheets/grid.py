"""The grid of the table of findings: where its columns and lines stand."""

from __future__ import annotations

from layout.drawing.paper.scene import Align, Ink, Line, Pen, Text
from layout.drawing.paper.style import Style
from layout.drawing.views.compared import Before
from layout.values import dataclass

__all__ = ["Grid"]

_MARK = 3.8
_NUMBER = 5.0
_BEFORE = 6.4
"""Widths of the columns of marks, of numbers, and of those before, per height of a
capital."""


@dataclass(frozen=True, slots=True)
class Grid:
    """Where the columns stand: names and words begin, gap and need end."""

    left: float
    right: float
    style: Style
    row: float
    before: Before | None
    places: float

    @property
    def names(self) -> float:
        """Return where the parts' names begin."""
        return self.left + _MARK * self.style.small_mm

    @property
    def names_mm(self) -> float:
        """Return the width of the parts' names."""
        return self.gap - 4.8 * self.style.small_mm - self.names

    @property
    def gap(self) -> float:
        """Return where the gaps end."""
        numbers = 2 * _NUMBER + self._second
        rest = self.right - self.names - numbers * self.style.small_mm
        return self.names + self.places * rest + _NUMBER * self.style.small_mm

    @property
    def scatter(self) -> float:
        """Return where the scatter ends, or the gap before."""
        return self.gap + self._second * self.style.small_mm

    @property
    def _second(self) -> float:
        return _NUMBER if self.before is None else _BEFORE

    @property
    def need(self) -> float:
        """Return where the needs end."""
        return self.scatter + _NUMBER * self.style.small_mm

    @property
    def words(self) -> float:
        """Return where it is said what a finding means."""
        return self.need + 1.2 * self.style.small_mm

    @property
    def step(self) -> float:
        """Return how far apart the lines of a row stand."""
        return self.style.line_step * self.style.small_mm

    def text(self, text: str, at: tuple[float, float], *, soft: bool = False) -> Text:
        """Return small lettering that begins at a place."""
        ink = Ink.SOFT if soft else Ink.BLACK
        return Text(at=at, text=text, height_mm=self.style.small_mm, ink=ink)

    def number(self, text: str, at: tuple[float, float], *, soft: bool = False) -> Text:
        """Return small lettering that ends at a place."""
        ink = Ink.SOFT if soft else Ink.BLACK
        return Text(
            at=at,
            text=text,
            height_mm=self.style.small_mm,
            align=Align.RIGHT,
            ink=ink,
        )

    def rule(self, y: float, ink: Ink = Ink.FAINT) -> Line:
        """Return a line over the whole width."""
        return Line(points=((self.left, y), (self.right, y)), pen=Pen.NARROW, ink=ink)
