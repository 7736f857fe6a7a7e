"""A twin tower: two stacks of fins with a fan between them."""

from __future__ import annotations

from typing import ClassVar

from layout.geometry.solids.solid import Solid, block
from layout.parts.cooling.cooler_fan import (
    FanOnTower,
    above_contact_mm,
    base,
    heat_pipes,
)
from layout.parts.cooling.cooler_readings import STACKS_DEPTH
from layout.parts.cooling.on_socket import stack_of
from layout.parts.cooling.tower_sheet import TowerSheet
from layout.parts.form import field
from layout.parts.form.errors import PartError
from layout.parts.form.form import Form, Seat
from layout.parts.form.wish import Wish
from layout.standards.figure import Figure, given
from layout.values import dataclass

__all__ = ["TwinTower"]

_THINNEST_STACK_MM = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TwinTower(TowerSheet):
    """A twin tower with up to three fans: between the stacks, in front, behind."""

    kind: ClassVar[str] = "twin tower"

    depth: Figure = field.length(
        "both stacks and the fan between them, without the fan in front",
        least_mm=50,
        most_mm=200,
        readings=STACKS_DEPTH,
    )
    fans: int = field.count("how many fans", 2, least=1, most=3)

    @property
    def outer_fans(self) -> int:
        """Return how many fans stand before and behind both stacks."""
        return self.fans - 1

    def check_sizes(self) -> None:
        """Refuse a depth that leaves no room for two stacks."""
        stack_mm = self._stack_mm(self.fan(given(0.0), None, None))
        if stack_mm < _THINNEST_STACK_MM:
            raise PartError(
                field="depth",
                found=f"{self.depth.mm:g} mm",
                right=f"two stacks of {_THINNEST_STACK_MM:g} mm and a fan at least",
            )

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return both stacks, base and fans over the contact face."""
        del wish
        on_chip = stack_of(seat)
        middle = self.fan(on_chip, None, None)
        front = self.fan(on_chip, self.room_over_memory, self.fan_raise)
        half_mm, thick_mm = self.depth.mm / 2, middle.frame.mm
        places = [
            (middle, -thick_mm / 2),
            (front, half_mm),
            (middle, -half_mm - thick_mm),
        ]
        low = self.fins_from or middle.usual_fins
        return self.standing(self._solids(middle, low.mm), low, places, stack=on_chip)

    def _stack_mm(self, middle: FanOnTower) -> float:
        return (self.depth.mm - middle.frame.mm) / 2

    def _solids(self, middle: FanOnTower, low_mm: float) -> tuple[Solid, ...]:
        front_mm = low_mm
        if self.room_over_memory is not None:
            over_mm = above_contact_mm(self.room_over_memory, middle.stack.mm)
            # What is told outranks where fins usually begin, fins that are told both.
            least_mm = low_mm if self.fins_from else min(low_mm, middle.lowest.mm)
            front_mm = min(max(least_mm, over_mm), self.height.mm - 1.0)
        half_mm, stack_mm = self.depth.mm / 2, self._stack_mm(middle)
        y = (-self.width.mm / 2, self.width.mm / 2)
        z = (low_mm, self.height.mm)
        return (
            base(low_mm),
            *heat_pipes(self.pipes_depth, self.pipes_from, min(low_mm, front_mm)),
            block((-half_mm, -half_mm + stack_mm), y, z),
            block((half_mm - stack_mm, half_mm), y, (front_mm, self.height.mm)),
        )
