"""How a lead was led: what explains a finding on its reach."""

from __future__ import annotations

from layout.geometry.space import Vector
from layout.parts.form.form import Link
from layout.questions.findings.holes import Passage
from layout.questions.reach.drift import Moved
from layout.values import dataclass

__all__ = ["Led"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Led:
    """A lead's way, corner by corner, and its length.

    Parameters
    ----------
    part, name : str
        The part it belongs to, and what a person calls it.
    plug : str
        Name of the body it ends in.
    points : tuple of Vector
        From where it leaves its part to its plug; straight between them.
    mm : float
        The way's length with its corners rounded.
    moved : tuple of Moved
        The lead's length, then every figure that its way rests on.
    holes : tuple of Passage
        The holes it passes.
    """

    part: str
    name: str
    plug: str
    length_mm: float
    points: tuple[Vector, ...]
    mm: float
    moved: tuple[Moved, ...]
    holes: tuple[Passage, ...]

    @property
    def links(self) -> tuple[tuple[str, Link], ...]:
        """Return every figure as one that moves what is left, whatever its axis."""
        length, *others = self.moved
        return ((length.owner, length.link), *(each.scaled for each in others))
