"""A drive: in a cage's place, or flat behind the tray."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from types import MappingProxyType
from typing import ClassVar, Final

from layout.geometry.solids.solid import block
from layout.geometry.space import ORIGIN, Axis, Direction
from layout.parts.drives.drive_plugs import drive_plugs
from layout.parts.drives.drive_screws import drive_screws, held_by
from layout.parts.form import field
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import Form, Piece, PlugShape, Role, Seat, SeatSort
from layout.parts.form.lead import Lead
from layout.parts.form.link import centred, link, size
from layout.parts.form.reading import Readings
from layout.parts.form.wish import Wish
from layout.standards.drives import SIZES
from layout.standards.figure import Figure, practice
from layout.values import dataclass

__all__ = ["Drive", "DriveShape"]


class DriveShape(Enum):
    """The sizes drives are sold in."""

    LARGE = "3.5"
    SMALL = "2.5"
    BAY = "5.25"  # in a bay at the front


_IN_A_CAGE = tuple(f"place {number}" for number in range(1, 9))
"""Where a large drive goes of itself: it is too high for the room behind a tray."""

_USUAL_PLACES: Final[Mapping[DriveShape, tuple[str, ...]]] = MappingProxyType(
    {
        DriveShape.LARGE: _IN_A_CAGE,
        DriveShape.SMALL: (),
        DriveShape.BAY: tuple(f"bay {number}" for number in range(1, 9)),
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drive:
    """A drive."""

    kind: ClassVar[str] = "drive"

    size: DriveShape = field.choice("size", DriveShape.LARGE)
    height: Figure | None = field.length(
        "body; default: the highest of its size", None, least_mm=4, most_mm=45
    )
    place: str | None = field.word(
        "'place 1', ... of a cage, 'bay 1', ..., or a place behind the tray by its "
        "name; "
        "default: the first free one",
        None,
    )
    cage: str | None = field.word(
        "the cage's key, where several have such a place", None
    )

    data_lead: Figure = field.length(
        "its data lead, plug to plug",
        practice(450.0, 50.0, assumed=True),
        least_mm=50,
        most_mm=1000,
        readings=Readings(usual="plug to plug"),
    )
    plug: PlugShape = field.choice("its plugs: straight, or angled", PlugShape.STRAIGHT)

    def wishes(self) -> tuple[Wish, ...]:
        """Return the place."""
        usual = _USUAL_PLACES[self.size]
        seats = (self.place,) if self.place else usual
        return (Wish(sort=SeatSort.DRIVE, seats=seats, host=self.cage, field="place"),)

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return the drive lying in its cage, or against the tray's back."""
        del wish
        usual = SIZES[self.size.value]
        height = self.height or usual.height
        behind = seat.approach is Direction.PANEL
        out, long = (Axis.WIDTH, Axis.HEIGHT) if behind else (Axis.HEIGHT, Axis.WIDTH)
        x, along = (
            (-figure.mm / 2, figure.mm / 2) for figure in (usual.width, usual.length)
        )
        lying = (
            block(x, along, (-height.mm, 0.0))
            if behind
            else block(x, (0.0, height.mm), along)
        )
        links = (
            size(
                link("drive height", height, out),
                Direction.TRAY if behind else Direction.UP,
            ),
            centred(link("drive length", usual.length, long)),
            centred(link("drive width", usual.width, Axis.DEPTH)),
        )
        flat = (Direction.DOWN, Direction.UP)
        return Form(
            pieces=(Piece(name="", role=Role.DRIVE, solids=(lying,), links=links),),
            size=f"{self.size.value} in",
            screws=drive_screws(
                (self.size.value,), given=False, by=held_by(seat.screws)
            ),
            plugs=drive_plugs(
                long_mm=usual.length.mm,
                high_mm=height.mm,
                ends=flat if behind else (Direction.TRAY, Direction.PANEL),
                up=Direction.TRAY if behind else Direction.UP,
                shape=self.plug,
                links=links,
            ),
            leads=(
                Lead(
                    name="data lead",
                    kinds=frozenset({ConnectorKind.DRIVE_DATA}),
                    length=self.data_lead,
                    at_mm=ORIGIN,
                    out=Direction.FRONT,
                    ahead_mm=0.0,
                    from_plug=True,
                ),
            ),
        )
