"""A drive cage on the case's rail: a frame open towards tray and panel."""

from __future__ import annotations

from typing import ClassVar, Final

from shapely.geometry import Polygon

from layout.geometry.bodies.turn import UPRIGHT, Turn
from layout.geometry.solids.solid import Solid, rectangle
from layout.geometry.space import ORIGIN, Axis, Box, Direction
from layout.parts.drives.drive import DriveShape
from layout.parts.drives.drive_screws import HeldBy, drive_screws
from layout.parts.form import field
from layout.parts.form.errors import PartError
from layout.parts.form.form import Form, Link, Piece, Portion, Role, Seat, SeatSort
from layout.parts.form.link import exact, link, sheet_link, size, spanning, times
from layout.parts.form.turned import shifted, turned
from layout.parts.form.wish import Wish
from layout.standards.drives import SIZES
from layout.standards.figure import Figure, practice
from layout.values import dataclass

__all__ = ["OUT", "Cage"]

OUT: Final = "out"
"""The position of a cage that was taken out."""

_PITCH_MM = 30.0
"""From one drive to the next in a cage; common practice, no source."""
_WALL_MM = 1.2
_WALL: Final = "cage's sheet"
_ACROSS = practice(106.0, 3.0, assumed=True)
"""A frame round the width of a drive of 3.5 in."""
_ON_EDGE: Final = Turn(Direction.DOWN, Direction.FRONT)
"""A drive on its long side, its underside to the rear."""
_OUTWARDS: Final = (Direction.FRONT, Direction.UP, Direction.PANEL)
_QUARTER: Final = Turn(Direction.TRAY, Direction.UP)
"""A cage whose drives lie from the rear to the front."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cage:
    """A cage for drives; taken out, it holds nothing and is in nobody's way."""

    kind: ClassVar[str] = "cage"

    position: str | None = field.word(
        "name of a position on the case's rail, or out; default: the first free one",
        None,
    )
    drives: DriveShape = field.choice("drives it is made for", DriveShape.LARGE)
    places: int = field.count("drives, one above the other", 2, least=1, most=8)
    small_drives: bool | None = field.flag(
        "holes for 2.5 in drives in its places too; default: yes, assumed", None
    )
    on_edge: bool = field.flag(
        "drives stand on their long side, one before the other, instead of lying",
        default=False,
    )
    held_by: HeldBy | None = field.choice(
        "holes of a drive that its places have screws for: below, or sides; default: "
        "below, assumed",
        None,
    )
    depth: Figure | None = field.length(
        "rear to front; default: 106; of drives on edge 30 for each and the frame",
        None,
        least_mm=20,
        most_mm=300,
    )
    height: Figure | None = field.length(
        "outside; default: 30 for each drive and the frame; of drives on edge 106",
        None,
        least_mm=20,
        most_mm=400,
    )
    width: Figure = field.length(
        "tray's side to panel's side",
        practice(155.0, 5.0, assumed=True),
        least_mm=60,
        most_mm=250,
    )

    turned: bool = field.flag(
        "turned a quarter: its drives look to the front instead of the panel",
        default=False,
    )

    def __post_init__(self) -> None:
        side = self.outer_height if self.on_edge else self.outer_depth
        inside_mm = side.mm - 2 * _WALL_MM
        across = SIZES[self.drives.value].width
        if across.mm > inside_mm:
            raise PartError(
                field="height" if self.on_edge else "depth",
                found=f"{side.mm:g} mm",
                right=f"room for a drive {across.mm:g} mm wide and two walls",
            )

    @property
    def outer_height(self) -> Figure:
        """Return the height, its own, that of its places or of a drive on edge."""
        return self.height or (_ACROSS if self.on_edge else self._stacked)

    @property
    def outer_depth(self) -> Figure:
        """Return the depth, its own, that of a drive or of its places."""
        return self.depth or (self._stacked if self.on_edge else _ACROSS)

    @property
    def _stacked(self) -> Figure:
        mm = self.places * _PITCH_MM + 2 * _WALL_MM
        return practice(mm, 3.0, assumed=True)

    def wishes(self) -> tuple[Wish, ...]:
        """Return the position on the rail; taken out, none."""
        if self.position == OUT:
            return ()
        seats = (self.position,) if self.position else ()
        return (Wish(sort=SeatSort.CAGE, seats=seats, field="position"),)

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return the frame, its rear lower edge at the seat."""
        del wish, seat
        deep_mm, high_mm = self.outer_depth.mm, self.outer_height.mm
        inner = rectangle(
            (_WALL_MM, deep_mm - _WALL_MM), (_WALL_MM, high_mm - _WALL_MM)
        )
        side = Polygon(
            rectangle((0.0, deep_mm), (0.0, high_mm)).exterior.coords,
            [inner.exterior.coords],
        )
        top = rectangle((0.0, deep_mm), (0.0, self.width.mm))
        form = Form(
            pieces=(
                Piece(
                    name="",
                    role=Role.CAGE,
                    solids=(Solid(side=side, top=top),),
                    links=tuple(map(size, self._size_links, _OUTWARDS)),
                    portions=self._sheets,
                ),
            ),
            seats=tuple(self._place(n) for n in range(1, self.places + 1)),
            size=f"{deep_mm:g} deep",
        )
        if not self.turned:
            return form
        beside = sheet_link("cage depth", self.outer_depth, Axis.WIDTH)
        return shifted(turned(form, _QUARTER), (0.0, 0.0, deep_mm), by=beside)

    @property
    def _size_links(self) -> tuple[Link, Link, Link]:
        """Return the cage's outer sizes as links: depth, height, width."""
        depth, height, width = (
            sheet_link(
                f"cage {axis.value}",
                figure,
                axis,
                tape=f"one side of the cage to the other, along {axis.value}",
                entry=axis.value,
            )
            for figure, axis in zip(
                (self.outer_depth, self.outer_height, self.width), Axis, strict=True
            )
        )
        return depth, height, width

    @property
    def _sheets(self) -> tuple[Portion, ...]:
        """Return the sheets round the drives: rear, front, lower and upper one."""
        sizes = tuple(map(size, self._size_links, _OUTWARDS))
        ends = (self.outer_depth.mm, self.outer_height.mm, self.width.mm)
        whole = Box(ORIGIN, ends)
        made = []
        for axis in (Axis.DEPTH, Axis.HEIGHT):
            k = axis.index
            others = tuple(each for j, each in enumerate(sizes) if j != k)
            wall = exact(_WALL, _WALL_MM, axis)
            near = (spanning(wall, 0.0, 1.0),)
            far = (self._size_links[k], spanning(wall, -1.0, 0.0))
            spans = ((0.0, _WALL_MM), (ends[k] - _WALL_MM, ends[k]))
            for span, own in zip(spans, (near, far), strict=True):
                made.append(Portion(whole.between(axis, span), (*others, *own)))
        return tuple(made)

    @property
    def _sizes(self) -> tuple[str, ...]:
        """Return the drives that a place has holes for."""
        small = (DriveShape.SMALL.value,) if self.small_drives else ()
        return tuple(dict.fromkeys((self.drives.value, *small)))

    @property
    def _says_sizes(self) -> bool:
        return self.small_drives is not None or self.drives is DriveShape.SMALL

    def _place(self, number: int) -> Seat:
        """Return a place: a drive lies or stands, its length from tray to panel."""
        deep_mm, high_mm = self.outer_depth.mm, self.outer_height.mm
        stacked_mm = (deep_mm if self.on_edge else high_mm) - 2 * _WALL_MM
        before = (number - 1) / self.places
        at_mm = _WALL_MM + before * stacked_mm
        middle_mm = self.width.mm / 2
        lying = (deep_mm / 2, at_mm, middle_mm)
        stack = Axis.DEPTH if self.on_edge else Axis.HEIGHT
        return Seat(
            name=f"place {number}",
            sort=SeatSort.DRIVE,
            at_mm=(at_mm, high_mm / 2, middle_mm) if self.on_edge else lying,
            approach=Direction.TRAY,
            turn=_ON_EDGE if self.on_edge else UPRIGHT,
            screws=drive_screws(
                self._sizes,
                given=self._says_sizes or self.held_by is not None,
                by=self.held_by or HeldBy.BELOW,
            ),
            links=(
                *self._middle(before),
                times(exact(_WALL, _WALL_MM, stack), 1.0 - 2.0 * before),
                link(f"drive in place {number}", practice(0.0, 1.0), stack),
                link(
                    "drive along its place",
                    practice(0.0, 5.0, assumed=True),
                    Axis.WIDTH,
                    tape="middle of the cage to the middle of the drive in it",
                ),
            ),
        )

    def _middle(self, before: float) -> tuple[Link, ...]:
        """Return how a place lies in the cage: in its middle but for the stack."""
        depth, height, width = self._size_links
        stacked, across = (depth, height) if self.on_edge else (height, depth)
        along = (times(stacked, before),) if before else ()
        return (*along, times(across, 0.5), times(width, 0.5))
