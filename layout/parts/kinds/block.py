"""A block: raw outlines, for what no kind describes."""

from __future__ import annotations

from typing import ClassVar

from layout.geometry.errors import EmptyBodyError
from layout.geometry.solids.solid import Solid
from layout.geometry.space import ORIGIN, Vector
from layout.parts.form import field
from layout.parts.form.form import Form, Link, Piece, Role
from layout.standards.figure import given
from layout.values import dataclass

__all__ = ["Block"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A part, a wall or a bracket drawn by its outlines; it sits on no seat."""

    kind: ClassVar[str] = "block"

    at_mm: Vector = field.word("depth, height, width of the outlines' origin", ORIGIN)
    solids: tuple[Solid, ...] = field.nested("outlines, each with its other view")
    plus_minus_mm: Vector = field.word(
        "how far its faces may be off along depth, height and width", ORIGIN
    )

    def __post_init__(self) -> None:
        if not self.solids:
            raise EmptyBodyError("a block needs at least one solid")

    def form(self) -> Form:
        """Return the block at its outlines' origin."""
        links = (
            (Link(label="faces", plus_minus_mm=self.plus_minus_mm, figure=given(0.0)),)
            if any(self.plus_minus_mm)
            else ()
        )
        return Form(
            pieces=(Piece(name="", role=Role.BLOCK, solids=self.solids, links=links),)
        )
