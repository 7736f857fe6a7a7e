"""A splitter, hub or adapter: it takes plugs of its own and gives sockets for them."""

from __future__ import annotations

from typing import ClassVar

from layout.geometry.space import Vector
from layout.parts.form import field
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.errors import PartError
from layout.parts.form.form import Form, Seat
from layout.parts.form.wish import Wish
from layout.parts.wiring.hookup import FAMILIES, PLUGS, POWER, Listed, counted
from layout.standards.figure import Figure
from layout.standards.leads import SPLITTER_LEAD
from layout.values import dataclass

__all__ = ["Splitter"]

_LIGHTS = next(each for each in FAMILIES if ConnectorKind.LIGHT_5V in each)


@dataclass(frozen=True, slots=True, kw_only=True)
class Splitter:
    """What makes several sockets of one, or another kind of it; it has no place."""

    kind: ClassVar[str] = "splitter"

    plug: ConnectorKind = field.choice("what it is plugged into")
    plugs: int = field.count("how many of those it takes", 1, least=1, most=4)
    also: Listed = field.count(
        "other plugs that must be in: {9-pin USB: 1}", (), least=1, most=4
    )
    gives: ConnectorKind | None = field.choice(
        "what it has sockets for; default: what it is plugged into", None
    )
    outlets: int = field.count("how many sockets", 2, least=1, most=12)
    milliamperes: int | None = field.count(
        "what its sockets may draw together; default: usual, assumed",
        None,
        least=100,
        most=60_000,
    )

    at_mm: Vector | None = field.word(
        "[depth, height, width] of its place in the case; default: not told, and what "
        "is led to it or from it is not asked to reach",
        None,
    )
    lead: Figure = field.length(
        "its own lead, from its place to its plug",
        SPLITTER_LEAD,
        least_mm=10,
        most_mm=1500,
    )

    def __post_init__(self) -> None:
        counted("also", self.also, PLUGS | POWER)
        if {self.plug, self.given} == _LIGHTS:
            raise PartError(
                field="gives",
                found=f"{self.given.value} of {self.plug.value}",
                right="the same: the wrong voltage destroys lights, or keeps them dark",
            )

    @property
    def given(self) -> ConnectorKind:
        """Return what it has sockets for."""
        return self.gives or self.plug

    def wishes(self) -> tuple[Wish, ...]:
        """Return none: it lies where there is room."""
        return ()

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return no body."""
        del wish, seat
        return Form(pieces=())
