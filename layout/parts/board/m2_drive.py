"""An M.2 drive lying on the board, or behind it, bare or under a heatsink."""

from __future__ import annotations

from typing import ClassVar

from layout.geometry.solids.solid import block
from layout.geometry.space import Axis, Direction
from layout.parts.form import field
from layout.parts.form.errors import PartError
from layout.parts.form.form import Form, Piece, Role, Seat, SeatSort
from layout.parts.form.link import centred, exact, link, size
from layout.parts.form.wish import Wish
from layout.standards.drives import M2_LENGTHS, M2_WIDTH
from layout.standards.figure import Figure, practice
from layout.values import dataclass

__all__ = ["M2Drive"]

_BARE = practice(5.0, 1.0, assumed=True)
"""A drive with chips on both sides in its connector, over the board."""


@dataclass(frozen=True, slots=True, kw_only=True)
class M2Drive:
    """A drive on a small card in one of the board's own places."""

    kind: ClassVar[str] = "m.2 drive"

    length: int = field.count("30, 42, 60, 80 or 110", 80, least=30, most=110)
    height: Figure = field.length(
        "board's face to the highest point, its heatsink included",
        _BARE,
        least_mm=2,
        most_mm=90,
    )
    width: Figure = field.length(
        "card, or its heatsink where that is wider", M2_WIDTH, least_mm=12, most_mm=40
    )
    place: str | None = field.word(
        "the board's place by its name; default: the first free one", None
    )

    def __post_init__(self) -> None:
        if self.length not in M2_LENGTHS:
            lengths = ", ".join(map(str, M2_LENGTHS))
            raise PartError(
                field="length", found=str(self.length), right=f"one of {lengths}"
            )

    def wishes(self) -> tuple[Wish, ...]:
        """Return the place on the board."""
        seats = (self.place,) if self.place else ()
        return (Wish(sort=SeatSort.M2, seats=seats, field="place"),)

    def made_for(self, wish: Wish, seat: Seat) -> Form:
        """Return the drive from its connector to its far end, flat on the board."""
        del wish, seat
        half_mm = self.width.mm / 2
        return Form(
            pieces=(
                Piece(
                    name="",
                    role=Role.M2_DRIVE,
                    solids=(
                        block(
                            (0.0, float(self.length)),
                            (-half_mm, half_mm),
                            (0.0, self.height.mm),
                        ),
                    ),
                    links=(
                        size(
                            link(
                                "drive's height with its heatsink",
                                self.height,
                                Axis.WIDTH,
                                tape="board's face to the drive's highest point",
                                entry="height",
                            ),
                            Direction.PANEL,
                        ),
                        centred(link("drive's width", self.width, Axis.HEIGHT)),
                        size(
                            exact("drive's length", float(self.length), Axis.DEPTH),
                            Direction.FRONT,
                        ),
                    ),
                ),
            ),
            size=f"{self.length} long",
        )
