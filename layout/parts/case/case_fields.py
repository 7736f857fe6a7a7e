"""What a case is described by, beside its inside size."""

from __future__ import annotations

from enum import Enum
from typing import Final

from layout.geometry.space import Axis, Direction
from layout.parts.case.case_panels import Linings, Material, SidePanel
from layout.parts.case.case_shroud import Shroud, ShroudCutOut
from layout.parts.case.case_supply import BayPlace, SupplyBay
from layout.parts.drives.cage import OUT
from layout.parts.form import field
from layout.parts.form.errors import PartError
from layout.standards.figure import Figure, practice
from layout.standards.radiators import CLASSES
from layout.values import dataclass

__all__ = [
    "BayPlace",
    "CageRail",
    "CutOut",
    "DrivePlace",
    "Face",
    "LimitWith",
    "Linings",
    "Material",
    "Mount",
    "Position",
    "Rows",
    "Shroud",
    "ShroudCutOut",
    "SidePanel",
    "SupplyBay",
    "Takes",
]

_CLASSES: Final = tuple(map(str, CLASSES))


class Face(Enum):
    """The faces of a case that carry fan mounts."""

    FRONT = "front"
    TOP = "top"
    FLOOR = "floor"
    REAR = "rear"
    TRAY_SIDE = "tray side"
    PANEL_SIDE = "panel side"
    SHROUD = "shroud"  # on its upper side
    BACK_PANEL = "back panel"  # in the room behind the tray

    @property
    def outwards(self) -> Direction:
        """Return the direction out of the case through the face."""
        return _OUTWARDS[self]

    @property
    def along(self) -> Axis:
        """Return the axis along which the face's fans stand in a row."""
        return Axis.HEIGHT if self in {Face.FRONT, Face.REAR} else Axis.DEPTH

    @property
    def across(self) -> Axis:
        """Return the face's other axis."""
        (across,) = set(Axis) - {self.along, self.outwards.axis}
        return across


_OUTWARDS = {
    Face.FRONT: Direction.FRONT,
    Face.TOP: Direction.UP,
    Face.FLOOR: Direction.DOWN,
    Face.REAR: Direction.REAR,
    Face.TRAY_SIDE: Direction.TRAY,
    Face.PANEL_SIDE: Direction.PANEL,
    Face.SHROUD: Direction.DOWN,
    Face.BACK_PANEL: Direction.TRAY,
}


class Rows(Enum):
    """How the fans of a side face stand beside one another."""

    LYING = "lying"  # along the depth
    UPRIGHT = "upright"  # one above the other


class LimitWith(Enum):
    """Whether the case's longest card was told with fans before its far end."""

    FANS = "front fans"
    NO_FANS = "no front fans"
    FLOOR_FANS = "floor fans"  # the board is turned a quarter: cards hang down
    NO_FLOOR_FANS = "no floor fans"

    @property
    def fans(self) -> bool:
        """Tell whether there were fans."""
        return self in {LimitWith.FANS, LimitWith.FLOOR_FANS}

    @property
    def at_floor(self) -> bool:
        """Tell whether it is about the floor."""
        return self in {LimitWith.FLOOR_FANS, LimitWith.NO_FLOOR_FANS}

    @property
    def other(self) -> LimitWith:
        """Return the same face with and without fans the other way round."""
        return _OTHER[self]


_OTHER = {
    LimitWith.FANS: LimitWith.NO_FANS,
    LimitWith.NO_FANS: LimitWith.FANS,
    LimitWith.FLOOR_FANS: LimitWith.NO_FLOOR_FANS,
    LimitWith.NO_FLOOR_FANS: LimitWith.FLOOR_FANS,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Takes:
    """A row of fans of one size that a mount takes."""

    size: int = field.count("fan frame size", 120, least=80, most=200)
    count: int = field.count("how many side by side", 1, least=1, most=6)
    start: Figure | None = field.length(
        "floor (front, rear, an upright row) or rear panel (top, floor) to the first "
        "frame's edge; default: the row in the middle of its face",
        None,
        least_mm=0,
        most_mm=700,
    )
    hole_spacing: Figure | None = field.length(
        "between the holes for one fan; default: the frame size's",
        None,
        least_mm=60,
        most_mm=190,
    )
    slots: Figure | None = field.length(
        "length of its slots along the row, beyond a round hole; default: round holes",
        None,
        least_mm=0,
        most_mm=300,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Mount:
    """A mount for fans or a radiator on one face."""

    face: Face | None = field.choice("face; default: the mount's name", None)
    takes: tuple[Takes, ...] = field.nested(
        "rows of fans, one for each size; default: the longest that the radiators have",
        (),
    )
    rows: Rows = field.choice(
        "on a side face: fans side by side along the depth, or one above the other",
        Rows.LYING,
    )
    from_tray: Figure | None = field.length(
        "tray to the frames' middle (on a side face: floor to their middle, of an "
        "upright row rear panel to it); default: the middle of the face, on the rear "
        "face beside the board's connectors, of an upright row at the front",
        None,
        least_mm=0,
        most_mm=700,
    )
    radiators: tuple[int, ...] = field.count(
        "stated limit: the classes of radiator it takes, such as 240 and 360",
        (),
        least=120,
        most=420,
    )
    outside: Figure | None = field.length(
        "room on the sheet's outer side, up to the case's cover; default: none",
        None,
        least_mm=10,
        most_mm=120,
    )

    def __post_init__(self) -> None:
        if not self.fan_rows:
            raise PartError(
                field="takes",
                found="no row of fans",
                right=f"at least one size, or 'radiators' of {', '.join(_CLASSES)}",
            )

    @property
    def fan_rows(self) -> tuple[Takes, ...]:
        """Return the rows of fans; where none is told those of the radiators."""
        if self.takes:
            return self.takes
        longest: dict[int, int] = {}
        for each in (CLASSES[size] for size in self.radiators if size in CLASSES):
            longest[each.frame] = max(each.fans, longest.get(each.frame, 0))
        return tuple(Takes(size=size, count=n) for size, n in sorted(longest.items()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Position:
    """A position of a cage on its rail."""

    from_rear: Figure = field.length(
        "rear panel to the cage's rear side", least_mm=0, most_mm=700
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class CageRail:
    """A rail along depth on which a drive cage is fixed at named positions."""

    positions: tuple[tuple[str, Position], ...] = field.nested("positions by name")
    base: Figure = field.length(
        "floor to the cage's underside", practice(0.0, 0.0), least_mm=0, most_mm=600
    )
    from_tray: Figure = field.length(
        "tray to the cage's side",
        practice(10.0, 8.0, assumed=True),
        least_mm=0,
        most_mm=200,
    )

    def __post_init__(self) -> None:
        if OUT in dict(self.positions):
            raise PartError(
                field="positions",
                found=f"a position named {OUT}",
                right=f"another name: {OUT} is a cage that was taken out",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOut:
    """A hole in the tray; those for cables must not lie under the board's edge."""

    from_rear: Figure = field.length("to its rear edge", least_mm=1, most_mm=800)
    from_floor: Figure = field.length("to its lower edge", least_mm=1, most_mm=800)
    depth: Figure = field.length("rear to front", least_mm=5, most_mm=500)
    height: Figure = field.length("lower to upper edge", least_mm=5, most_mm=600)
    cables: bool = field.flag(
        "a hole for cables; no: one behind the processor's socket", default=True
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class DrivePlace:
    """A place for a drive flat on the tray's back."""

    from_rear: Figure = field.length("to the drive's middle", least_mm=0, most_mm=800)
    from_floor: Figure = field.length("to the drive's middle", least_mm=0, most_mm=800)
