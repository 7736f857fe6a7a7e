"""Where a case takes its supply, and how the supply stands there."""

from __future__ import annotations

from enum import Enum

from layout.geometry.bodies.turn import Turn
from layout.geometry.space import Axis, Direction, Vector
from layout.parts.form import field
from layout.parts.form.errors import PartError
from layout.parts.form.form import BEHIND_TRAY, Link, Seat, SeatSort
from layout.parts.form.link import exact, less, sheet_link, times
from layout.parts.supply.supply import Intake, SupplyShape
from layout.parts.supply.supply_plate import face_screws
from layout.standards.figure import Figure, practice
from layout.standards.supplies import FORMS
from layout.values import dataclass

__all__ = ["BayPlace", "InletLooks", "SupplyBay", "bay_seat"]

_BEFORE_FRONT_MM = 30.0
"""A supply in front stands behind the front fans; common practice, no source."""
_PLACE_SCATTER_MM = 15.0
_OVER_FLOOR = practice(45.0, 12.0, assumed=True)
"""A supply whose inlet looks down leaves room for its mains plug; likewise."""


class BayPlace(Enum):
    """Where the supply is."""

    FLOOR_REAR = "floor rear"
    TOP_REAR = "top rear"
    FRONT = "front"  # in the board's chamber, away from the rear panel
    BEHIND_TRAY = "behind tray"  # in the second chamber


class InletLooks(Enum):
    """Where the supply's rear face with its mains inlet looks."""

    REAR = "rear"
    FRONT = "front"
    DOWN = "down"
    UP = "up"

    @property
    def direction(self) -> Direction:
        """Return the direction in the case."""
        return Direction[self.name]


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyBay:
    """Where the supply goes."""

    place: BayPlace = field.choice(
        "floor rear, top rear, front, or behind tray", BayPlace.FLOOR_REAR
    )
    form: SupplyShape = field.choice(
        "form of the rear opening; a smaller supply is centred in it by its adapter",
        SupplyShape.ATX,
    )
    inlet: InletLooks | None = field.choice(
        "where the face with the mains inlet looks; default: rear, in front down", None
    )
    from_tray: Figure = field.length(
        "tray (behind it: its back) to the supply's side",
        practice(10.0, 8.0, assumed=True),
        least_mm=0,
        most_mm=200,
    )
    from_rear: Figure | None = field.length(
        "rear panel to the supply's rear side, where its inlet looks elsewhere; "
        "default: 30 before the front",
        None,
        least_mm=0,
        most_mm=800,
    )
    from_floor: Figure | None = field.length(
        "floor to the supply's lower side, or to its inlet's face; default: on the "
        "floor, over it where the inlet looks down, or under the top",
        None,
        least_mm=0,
        most_mm=800,
    )
    vented: bool = field.flag(
        "perforated wall where the bay has the supply breathe", default=True
    )
    plate_for: tuple[Intake, ...] = field.nested(
        "ways its plate's holes let the supply's fan look; default: any, assumed", ()
    )

    def __post_init__(self) -> None:
        away = self.place in {BayPlace.FLOOR_REAR, BayPlace.TOP_REAR}
        if away and self.looks is not Direction.REAR:
            raise PartError(
                field="inlet",
                found=f"{self.looks.name.lower()} at the {self.place.value}",
                right="rear, or the place front or behind tray",
            )

    @property
    def looks(self) -> Direction:
        """Return where the inlet looks."""
        if self.inlet is not None:
            return self.inlet.direction
        front = self.place is BayPlace.FRONT
        return Direction.DOWN if front else Direction.REAR

    @property
    def breathes(self) -> Direction:
        """Return the direction of the wall that is perforated for the supply."""
        return _BREATHES[self.place]

    @property
    def outwards(self) -> tuple[Direction, ...]:
        """Return where the supply extends to from the corner that places it."""
        up = Direction.DOWN if self.place is BayPlace.TOP_REAR else Direction.UP
        behind = self.place is BayPlace.BEHIND_TRAY
        return (
            up,
            Direction.FRONT,
            Direction.TRAY if behind else Direction.PANEL,
        )

    @property
    def turn(self) -> Turn:
        """Return how a supply stands: its sides away from what places them."""
        turns = [
            Turn(self.looks.opposite, height)
            for height in self.outwards
            if height.axis is not self.looks.axis
        ]
        return next(turn for turn in turns if turn.width in self.outwards)


_BREATHES = {
    BayPlace.FLOOR_REAR: Direction.DOWN,
    BayPlace.TOP_REAR: Direction.UP,
    BayPlace.FRONT: Direction.PANEL,
    BayPlace.BEHIND_TRAY: Direction.TRAY,
}


def bay_seat(
    bay: SupplyBay,
    *,
    inside_mm: Vector,
    tray_thickness: Figure,
    inside_links: tuple[Link, ...],
) -> Seat:
    """Return the bay's seat: the corner from which the supply extends.

    Parameters
    ----------
    inside_mm : Vector
        Inside depth, height and width.
    inside_links : tuple of Link
        The same as figures.
    """
    form = FORMS[bay.form.value]
    behind = bay.place is BayPlace.BEHIND_TRAY
    depth_mm, depth_links = _from_rear(bay, inside_mm[0], inside_links[0])
    height_mm, height_links = _from_floor(bay, inside_mm[1], inside_links[1])
    sheet_mm = tray_thickness.mm if behind else 0.0
    sheet = (sheet_link("tray thickness", tray_thickness, Axis.WIDTH),)
    width_mm = sheet_mm + bay.from_tray.mm
    return Seat(
        name="supply bay",
        sort=SeatSort.SUPPLY,
        at_mm=(depth_mm, height_mm, -width_mm if behind else width_mm),
        approach=bay.looks,
        turn=bay.turn,
        room_mm=(form.height.mm, form.width.mm),
        screws=face_screws(bay.form.value, _ways(bay), given=bool(bay.plate_for)),
        links=(
            *depth_links,
            *height_links,
            *(map(less, sheet) if behind else ()),
            times(
                sheet_link(
                    "supply from the tray",
                    bay.from_tray,
                    Axis.WIDTH,
                    tape="tray to the supply's side",
                    entry="supply bay.from tray",
                ),
                -1.0 if behind else 1.0,
            ),
        ),
        face=BEHIND_TRAY if behind else None,
    )


def _ways(bay: SupplyBay) -> list[Direction]:
    """Return where the fan may look for the plate's holes, in the supply's own axes."""
    behind = bay.place is BayPlace.BEHIND_TRAY
    ways = [each.direction(behind=behind) for each in bay.plate_for or Intake]
    own = map(bay.turn.back.direction, ways)
    return [each for each in own if each.axis is not Axis.DEPTH]


_Placed = tuple[float, tuple[Link, ...]]


def _from_rear(bay: SupplyBay, depth_mm: float, depth: Link) -> _Placed:
    if bay.looks is Direction.REAR:
        return 0.0, ()
    if bay.looks is Direction.FRONT:
        return depth_mm, (depth,)
    usual_mm = max(0.0, depth_mm - _BEFORE_FRONT_MM - FORMS[bay.form.value].width.mm)
    at = bay.from_rear or practice(usual_mm, _PLACE_SCATTER_MM, assumed=True)
    return at.mm, (sheet_link("supply from the rear", at, Axis.DEPTH),)


def _from_floor(bay: SupplyBay, height_mm: float, height: Link) -> _Placed:
    at = bay.from_floor
    if at is None and bay.looks is Direction.DOWN:
        at = _OVER_FLOOR
    if at is not None:
        # One on top hangs from the corner over it; the figure is to its lower side.
        hangs = bay.place is BayPlace.TOP_REAR
        high_mm = FORMS[bay.form.value].height.mm if hangs else 0.0
        opening = exact("supply's opening", high_mm, Axis.HEIGHT)
        low = sheet_link(
            "supply from the floor",
            at,
            Axis.HEIGHT,
            tape="floor to the supply's lower side",
            entry="supply bay.from floor",
        )
        return at.mm + high_mm, (low, opening)
    if bay.place is BayPlace.TOP_REAR or bay.looks is Direction.UP:
        return height_mm, (height,)
    return 0.0, ()
