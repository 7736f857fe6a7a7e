"""Case fans: one or several of a size, side by side on one mount."""

from __future__ import annotations

from enum import Enum
from typing import ClassVar

from layout.parts.cooling.fan_screws import fan_screws
from layout.parts.form import field
from layout.parts.form.form import Form, Piece, Role, Seat, SeatSort
from layout.parts.form.link import link, size
from layout.parts.form.mounted import fan_boxes, frame_links
from layout.parts.form.wish import Places, Wish
from layout.parts.wiring.hookup import PLUGS, Listed, counted
from layout.standards.fans import FRAMES
from layout.standards.figure import Figure, practice
from layout.standards.leads import CASE_FAN_LEAD
from layout.values import dataclass

__all__ = ["Fan", "MountSide", "fan_thickness", "mount_wish"]


class MountSide(Enum):
    """Which side of the mount's sheet a part is on."""

    INNER = "inner"
    OUTER = "outer"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fan:
    """Case fans."""

    kind: ClassVar[str] = "fan"

    size: int = field.count("frame size: 80, 92, 120, 140 or 200", least=80, most=200)
    thickness: Figure | None = field.length(
        "frame thickness; default: the frame size's usual one",
        None,
        least_mm=10,
        most_mm=60,
    )
    count: int = field.count("how many, side by side", 1, least=1, most=6)
    mount: str = field.word("the case's mount: front, top, rear, ...")
    place: int = field.count(
        "first place on the mount, from the floor or from the rear", 1, least=1, most=6
    )
    side: MountSide = field.choice("side of the mount's sheet", MountSide.INNER)
    hole_spacing: Figure | None = field.length(
        "between its holes; default: the frame size's", None, least_mm=60, most_mm=190
    )
    lead: Figure = field.length(
        "each fan's lead, frame to plug", CASE_FAN_LEAD, least_mm=30, most_mm=1500
    )
    plugs: Listed | None = field.count(
        "plugs to be plugged in: {4-pin fan: 1, 5 V light: 1}; default: "
        "one for each fan",
        None,
        least=0,
        most=12,
    )
    milliamperes: int | None = field.count(
        "what each fan draws at most", None, least=10, most=5_000
    )
    light_milliamperes: int | None = field.count(
        "what the lights of each fan draw at most", None, least=10, most=5_000
    )

    def __post_init__(self) -> None:
        counted("plugs", self.plugs, PLUGS)

    def wishes(self) -> tuple[Wish, ...]:
        """Return the places on the mount."""
        places = Places(size_mm=self.size, first=self.place, count=self.count)
        return (mount_wish(self.mount, self.side, places),)

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return the fans, flush against the sheet."""
        del wish
        thickness = self.thickness or fan_thickness(self.size)
        places = Places(size_mm=self.size, first=self.place, count=self.count)
        off = link("fan thickness", thickness, seat.approach.axis)
        thick = size(off, seat.approach.opposite)
        boxes = fan_boxes(seat, places, (0.0, thickness.mm))
        names = [f"fan {n}" for n in range(1, len(boxes) + 1)]
        return Form(
            pieces=tuple(
                Piece(name=name, role=Role.FAN, solids=(box,), links=(thick, *own))
                for name, box, own in zip(
                    names if len(boxes) > 1 else [""],
                    boxes,
                    frame_links(seat, places),
                    strict=True,
                )
            ),
            size=f"{self.size} x {thickness.mm:g}",
            screws=fan_screws(seat, places, spacing=self.hole_spacing),
        )


def fan_thickness(size: int) -> Figure:
    """Return the usual thickness of a frame size."""
    frame = FRAMES.get(size)
    return frame.thickness if frame else practice(25.0, 5.0, assumed=True)


def mount_wish(
    mount: str,
    side: MountSide,
    places: Places,
    *,
    piece: str = "",
    chosen_in: str = "mount",
) -> Wish:
    """Return the wish for places on a mount of the case."""
    return Wish(
        sort=SeatSort.FANS,
        seats=(mount if side is MountSide.INNER else f"{mount} outer",),
        field=chosen_in,
        piece=piece,
        places=places,
    )
