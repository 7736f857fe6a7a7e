"""Panels of a case: what they are made of, how they open, and what lines walls."""

from __future__ import annotations

from enum import Enum

from layout.geometry.space import Direction
from layout.parts.form import field
from layout.parts.form.errors import PartError
from layout.standards.figure import Figure, practice
from layout.values import dataclass

__all__ = ["Linings", "Material", "Opens", "SidePanel"]


class Material(Enum):
    """What a side panel is made of."""

    GLASS = "glass"
    STEEL = "steel"


class Opens(Enum):
    """How a side panel comes off."""

    LIFTED = "lifted off"
    HINGED_FRONT = "hinged at the front"
    HINGED_REAR = "hinged at the rear"
    SLID_REAR = "slid to the rear"  # out of its hooks

    @property
    def hinged(self) -> bool:
        """Tell whether it swings."""
        return self in {Opens.HINGED_FRONT, Opens.HINGED_REAR}

    @property
    def way(self) -> Direction | None:
        """Return where what is fixed to the panel moves first, in the panel's plane.

        A hinged panel's inside reaches away from its hinge as it swings.
        """
        return _WAYS.get(self)


_WAYS = {
    Opens.HINGED_FRONT: Direction.REAR,
    Opens.HINGED_REAR: Direction.FRONT,
    Opens.SLID_REAR: Direction.REAR,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class SidePanel:
    """The panel over the board."""

    material: Material = field.choice("glass or steel", Material.STEEL)
    thickness: Figure = field.length(
        "sheet or pane", practice(1.0), least_mm=0.4, most_mm=12
    )
    lining: Figure | None = field.length(
        "felt or foam on its inside, within the case's width; default: none",
        None,
        least_mm=0.5,
        most_mm=40,
    )
    vented: bool = field.flag("perforated, so that air passes", default=False)
    opens: Opens = field.choice(
        "lifted off, hinged at the front or at the rear, or slid to the rear out of "
        "its hooks",
        Opens.LIFTED,
    )
    slide: Figure = field.length(
        "how far a panel in hooks slides before it comes off",
        practice(15.0, 5.0, assumed=True),
        least_mm=3,
        most_mm=80,
    )
    hooks: Figure = field.length(
        "how far its hooks reach into the case, along its upper and lower edge",
        practice(8.0, 3.0, assumed=True),
        least_mm=1,
        most_mm=30,
    )

    def __post_init__(self) -> None:
        if self.vented and self.material is Material.GLASS:
            raise PartError(
                field="vented",
                found="a perforated pane of glass",
                right="'material: steel', or no 'vented'",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Linings:
    """Felt or foam on the inside of walls; the side panel has its own."""

    front: Figure | None = field.length(
        "on the front mounting sheet, open at its fans; default: none",
        None,
        least_mm=0.5,
        most_mm=40,
    )
    top: Figure | None = field.length(
        "under the top, open at its fans; default: none",
        None,
        least_mm=0.5,
        most_mm=40,
    )
    shroud: Figure | None = field.length(
        "on the shroud, open at its fans; default: none",
        None,
        least_mm=0.5,
        most_mm=40,
    )
    back_panel: Figure | None = field.length(
        "on the back panel, within the room behind the tray; default: none",
        None,
        least_mm=0.5,
        most_mm=40,
    )
