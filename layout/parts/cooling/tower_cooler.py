"""A tower cooler: fins upright over the processor, blown through along depth."""

from __future__ import annotations

from enum import Enum
from typing import ClassVar

from shapely.geometry import Polygon

from layout.geometry.solids.solid import Solid, rectangle
from layout.parts.cooling.cooler_fan import above_contact_mm, base, heat_pipes
from layout.parts.cooling.on_socket import stack_of
from layout.parts.cooling.tower_sheet import TowerSheet
from layout.parts.form import field
from layout.parts.form.errors import PartError
from layout.parts.form.form import Form, Seat
from layout.parts.form.wish import Wish
from layout.standards.figure import Figure
from layout.values import dataclass

__all__ = ["FirstFan", "TowerCooler"]


class FirstFan(Enum):
    """Side of the tower on which its first fan is, the second on the other."""

    FRONT = "front"
    BEHIND = "behind"


@dataclass(frozen=True, slots=True, kw_only=True)
class TowerCooler(TowerSheet):
    """A tower cooler with up to two fans: the first in front, the second behind."""

    kind: ClassVar[str] = "tower cooler"

    undercut: Figure | None = field.length(
        "how far the fins are cut for the memory, from their front edge back",
        None,
        least_mm=1,
        most_mm=120,
    )
    first_fan: FirstFan = field.choice(
        "side of the first fan: front or behind", FirstFan.FRONT
    )

    def check_sizes(self) -> None:
        """Refuse an undercut without its height, or through the whole fins."""
        if self.undercut is not None and self.room_over_memory is None:
            raise PartError(
                field="undercut",
                found=f"{self.undercut.mm:g} mm without its height",
                right="'room over memory' beside it",
            )
        if self.undercut is not None and self.undercut.mm >= self.depth.mm:
            raise PartError(
                field="undercut",
                found=f"{self.undercut.mm:g} mm",
                right=f"less than the fins' depth of {self.depth.mm:g} mm",
            )

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return fins, base and fans over the contact face."""
        del wish
        stack = stack_of(seat)
        front = self.fan(stack, self.room_over_memory, self.fan_raise)
        rear = self.fan(stack, self.room_over_memory, None)
        low = self.fins_from or rear.usual_fins
        half_mm = self.depth.mm / 2
        places = [(front, half_mm), (rear, -half_mm - rear.frame.mm)]
        if self.first_fan is FirstFan.BEHIND:
            places.reverse()
        return self.standing(self._solids(stack.mm, low.mm), low, places, stack=stack)

    def _solids(self, stack_mm: float, low_mm: float) -> tuple[Solid, ...]:
        half_mm, wide_mm = self.depth.mm / 2, self.width.mm / 2
        side = rectangle((-half_mm, half_mm), (-wide_mm, wide_mm))
        pipes = heat_pipes(self.pipes_depth, self.pipes_from, low_mm)
        return (
            base(low_mm),
            *pipes,
            Solid(side=side, top=self._outline(low_mm, stack_mm)),
        )

    def _outline(self, low_mm: float, stack_mm: float) -> Polygon:
        """Return the fins from above: cut at the front side for the memory."""
        half_mm, high_mm = self.depth.mm / 2, self.height.mm
        if self.undercut is None or self.room_over_memory is None:
            return rectangle((-half_mm, half_mm), (low_mm, high_mm))
        room_mm = max(low_mm, above_contact_mm(self.room_over_memory, stack_mm))
        cut_mm = half_mm - self.undercut.mm
        return Polygon(
            [
                (-half_mm, low_mm),
                (cut_mm, low_mm),
                (cut_mm, room_mm),
                (half_mm, room_mm),
                (half_mm, high_mm),
                (-half_mm, high_mm),
            ]
        )
